package schedules

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

const smallJob = "document = \"job\"\nformat = 1\n[[laminate]]\nid = \"a\"\n[[laminate.ply]]\nmaterial = \"mat-1.5\"\nresin = \"r\"\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"\n[[part]]\nid = \"p\"\nlaminate = \"a\"\n"

func tankJob(t testing.TB) []byte {
	t.Helper()
	b, err := os.ReadFile("../testdata/jobs/bleach-day-tank.toml")
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func lineBeside(name string) (*laminate.Schedule, error) {
	b, err := os.ReadFile("../testdata/jobs/" + name)
	if err != nil {
		return nil, errors.New("it is not there")
	}
	_, s, problems := Decode(b, catalog.Library())
	if len(problems) > 0 {
		return nil, errors.New(problems[0].String())
	}
	return s, nil
}

func decodedJob(t interface{ Fatalf(string, ...any) }, b []byte) (*Source, *laminate.Job) {
	src, j, problems := DecodeJob(b, nil, nil)
	if len(problems) > 0 {
		t.Fatalf("%v in\n%s", problems, b)
	}
	return src, j
}

// bareJob is a job without origins.
func bareJob(j *laminate.Job) *laminate.Job {
	j = j.Clone()
	for i := range j.Resins {
		j.Resins[i].Origin = 0
	}
	for i := range j.Materials {
		j.Materials[i].Origin = 0
	}
	for i := range j.Laminates {
		j.Laminates[i].Origin = 0
		for k := range j.Laminates[i].Plies {
			j.Laminates[i].Plies[k].Origin = 0
		}
		j.Laminates[i].Plies = append([]laminate.Ply(nil), j.Laminates[i].Plies...)
	}
	for i := range j.Parts {
		j.Parts[i].Origin = 0
	}
	for i := range j.Joints {
		j.Joints[i].Origin = 0
	}
	for i := range j.Nozzles {
		j.Nozzles[i].Origin = 0
	}
	j.Schedules = nil
	j.Resins, j.Materials = append([]laminate.Resin(nil), j.Resins...), append([]laminate.Material(nil), j.Materials...)
	j.Laminates, j.Parts = append([]laminate.Laminate(nil), j.Laminates...), append([]laminate.JobPart(nil), j.Parts...)
	j.Joints, j.Nozzles = append([]laminate.Joint(nil), j.Joints...), append([]laminate.Nozzle(nil), j.Nozzles...)
	return j
}

func TestDecodeJob_readsTheExample(t *testing.T) {
	src, j, problems := DecodeJob(tankJob(t), catalog.Library(), lineBeside)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	bands := j.Wall(1).Plies[3]
	switch {
	case j.Title != "Bleach day tank" || j.Revision.Value != 1 || len(j.Laminates) != 5 || len(j.Parts) != 5:
		t.Errorf("%q %v %d %d", j.Title, j.Revision, len(j.Laminates), len(j.Parts))
	case j.Parts[1].Form != laminate.ShellCourse || j.Parts[1].Process != laminate.Wound || bands.Material != "band-hoop" || bands.Count != 6:
		t.Errorf("shell-1: %+v %+v", j.Parts[1], bands)
	case j.Parts[3].Shape.Head != laminate.Torispherical || j.Wall(3).Service.Temperature.Text() != "80 degF" || j.Wall(2).Service.Temperature.Text() != "90 degF":
		t.Errorf("head: %+v", j.Parts[3])
	case j.Wall(4).Title != "Fill line of the bleach day tank" || j.Wall(4).Part.InsideDiameter.Text() != "6 in":
		t.Errorf("fill line: %+v", j.Wall(4))
	case j.Joints[0].Between != [2]string{"shell-1", "shell-2"} || j.Joints[0].Widths != laminate.NarrowFirst || j.Joints[0].FirstWidth.Text() != "2 in":
		t.Errorf("joint: %+v", j.Joints[0])
	case j.Nozzles[0].On != "shell-1" || j.Nozzles[0].Kind != laminate.Penetrating || j.Nozzles[0].Gussets.Value != 4:
		t.Errorf("nozzle: %+v", j.Nozzles[0])
	}
	text := strings.Split(string(tankJob(t)), "\n")
	for at, want := range map[laminate.Ref]string{
		{Part: 2, Kind: laminate.RefPly, Index: 3, Key: "angle"}:      "angle    = 88",
		{Part: 3, Kind: laminate.RefService, Key: "temperature"}:      `temperature     = "80 degF" # gas space`,
		{Part: 2, Kind: laminate.RefService, Key: "temperature"}:      `temperature      = "90 degF"`,
		{Part: 3, Kind: laminate.RefPart, Key: "form"}:                `form            = "head"`,
		{Part: 4, Kind: laminate.RefPly, Index: 1}:                    `schedule = "fill-line.toml"`,
		{Part: 1, Kind: laminate.RefResin, Index: 1, Key: "family"}:   `family = "vinyl-ester"`,
		{Kind: laminate.RefNozzle, Key: "pad"}:                        `pad                 = "strap"`,
		{Kind: laminate.RefJoint}:                                     `[[joint]]`,
		{Part: -1, Kind: laminate.RefMaterial, Index: 0, Key: "form"}: ``,
	} {
		line := src.JobLine(j, at)
		if line == 0 && want != "" || line > 0 && text[line-1] != want {
			t.Errorf("%+v is line %d, want %q", at, line, want)
		}
	}
}

func TestDecodeJob_tellsEveryProblemAtOnceWithItsLine(t *testing.T) {
	const head = "document = \"job\"\nformat = 1\n"
	for text, want := range map[string]string{
		smallJob[len(head):] + "[[laminate]]\nid = \"a\"\n":                                                                                                             `line 15: laminate.id: "a" is the id of another laminate already`,
		smallJob[len(head):] + "schedule = \"x.toml\"\n":                                                                                                                `line 14: part.schedule: there is a laminate already: a part has one or the other`,
		"[[part]]\nid = \"p\"\nlaminate = \"x\"\n":                                                                                                                      `line 5: part.laminate: no [[laminate]] has the id "x"`,
		"[[part]]\nid = \"p\"\nschedule = \"../x.toml\"\n":                                                                                                              `line 5: part.schedule: "../x.toml" is not a file in the job's folder: a name such as "shell.toml" is expected, with forward slashes`,
		"[[part]]\nid = \"p\"\nschedule = \"absent.toml\"\n":                                                                                                            `line 5: part.schedule: "absent.toml" cannot be used: it is not there`,
		"[[part]]\nid = \"p\"\nform = \"tank\"\nschedule = \"fill-line.toml\"\n":                                                                                        `line 5: part.form: "tank" is not one of pipe, duct, panel, elbow, shell-course, flat-bottom, head, cone, flange, cover`,
		"[[joint]]\nid = \"j\"\nbetween = [\"p\"]\n[[nozzle]]\nid = \"n\"\non = \"q\"\n":                                                                                `line 5: joint.between: a list of the ids of 2 parts is expected, not of 1; line 8: nozzle.on: no [[part]] has the id "q"`,
		"[[laminate]]\nid = \"a\"\n[[laminate]]\nid = \"b\"\n[[laminate.ply]]\nmaterial = \"mat-1.5\"\ncount = 0\nresin = \"r\"\n":                                      `line 9: laminate.ply.count: 0 is not at least 1; line 10: laminate.ply.resin: no [[resin]] has the id "r"`,
		"[[laminate]]\nid = \"a\"\n[[laminate.ply]]\nmaterial = \"mat-15\"\n[[laminate.ply]]\nmaterail = \"x\"\n":                                                       `line 6: laminate.ply.material: no material has the id "mat-15"; "mat-1.5" is the nearest; line 7: laminate.ply.material: it is missing or empty; line 8: laminate.ply.materail: this key is not known; the nearest is "material"`,
		"[[part]]\nid = \"p\"\nform = \"flange\"\nlaminate = \"a\"\ntorque = \"20 lb\"\n[[laminate]]\nid = \"a\"\n[[nozzle]]\nid = \"n\"\non = \"p\"\nflange = \"p\"\n": `line 7: part.torque: "20 lb" is no torque: "lb" is not a unit of it; write a number and one of Nm, ft-lb or in-lb; line 12: nozzle.on: "n" ends in what it stands on itself: a circle`,
		"[[part]]\nid = \"p\"\nschedule = \"fill-line.toml\"\n[[nozzle]]\nid = \"n\"\non = \"p\"\nsize = \"8 in\"\n":                                                    `line 9: nozzle.size: "8 in" is not less than the inside diameter of "p", 6 in: such an opening leaves no part`,
		"[vessel]\nlevel = 3\n[test]\nmedium = \"steam\"\n":                                                                                                             `line 4: vessel.level: this key is not known here; known are liquid_height, rim; line 6: test.medium: "steam" is not one of water, fluid, gas`,
		"[[laminate]]\nid = \"a\"\nlaminate = \"pad\"\n[[part]]\nid = \"p\"\nlaminate = \"a\"\nnozzle = 3\n":                                                            `line 5: laminate.laminate: this key is not known here; it belongs in [part]; line 9: part.nozzle: this key is not known here`,
		"[[part]]\nid = \"\\u00e9\"\n[[part]]\nid = \"e\\u0301\"\n[[nozzle]]\nid = \"n\"\non = \"e\\u0301\"\n":                                                          `line 6: part.id: "e` + "\u0301" + `" looks like another name and is none: letters, marks or spaces of it stand in another form of Unicode; write it "\u00e9"`,
		"[[part]]\nid = \"\\u00e9\"\nlaminate = \"a\\u00a0b\"\n[[nozzle]]\nid = \"n\"\non = \"e\\u0301\"\n":                                                             `line 5: part.laminate: no [[laminate]] has the id "a\u00a0b"; write it "a b"; line 8: nozzle.on: no [[part]] has the id "e` + "\u0301" + `"; write it "\u00e9"`,
		"[[laminate]]\nid = \"a,b\"\n[[part]]\nid = \"p,1\"\n[[joint]]\nid = \"j,\"\nbetween = [\"p,1\", \"p-1\"]\n[[nozzle]]\nid = \",n\"\non = \"p,1\"\n":             `line 4: laminate.id: "a,b" has a comma, which stands between ids where several are named; line 6: part.id: "p,1" has a comma, which stands between ids where several are named; line 8: joint.id: "j," has a comma, which stands between ids where several are named; line 9: joint.between: no [[part]] has the id "p-1"; line 11: nozzle.id: ",n" has a comma, which stands between ids where several are named`,
		"[[ply]]\nmaterial = \"x\"\n": `line 3: ply: this table is not known here; write [[laminate.ply]]`,
		"[service]\npressure = \"-1 psi\"\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"\npoisson = 3\n": `line 4: service.pressure: "-1 psi" is below zero; line 8: resin.poisson: 3 is beyond reason: from 0.05 to 0.5 is expected`,
	} {
		_, _, problems := DecodeJob([]byte(head+text), catalog.Library(), lineBeside)
		var got []string
		for _, p := range problems {
			got = append(got, p.String())
		}
		if strings.Join(got, "; ") != want {
			t.Errorf("%s\ntold: %s\nwant: %s", text, strings.Join(got, "; "), want)
		}
	}
}

func TestRenderJob_anEditOfAPartsWallChangesItsLinesAlone(t *testing.T) {
	b := tankJob(t)
	src, j := decodedJob(t, b)
	if got := src.RenderJob(j); !bytes.Equal(got, b) {
		t.Fatalf("untouched it is\n%s", got)
	}
	wall := j.Wall(2).Clone()
	wall.Plies[3].Count = 5
	wall.Service.SpecificGravity = laminate.Some(1.25)
	wall.Part.Length = quantity.New(6, quantity.Foot).Spelled(quantity.Foot)
	got := string(src.RenderJob(j.With(2, wall)))
	was, is := strings.Split(string(b), "\n"), strings.Split(got, "\n")
	var changed []string
	for i := range was {
		if i >= len(is) || was[i] != is[i] {
			changed = append(changed, is[i])
		}
	}
	if want := []string{"specific_gravity = 1.25", "count    = 5", `length          = "6 ft"`}; len(was) != len(is) || !slices.Equal(changed, want) {
		t.Errorf("changed are %q, want %q", changed, want)
	}
}

// editJob makes one change that leaves the job usable.
func editJob(t *rapid.T, j *laminate.Job) *laminate.Job {
	n := j.Clone()
	part := rapid.IntRange(0, len(j.Parts)-1).Draw(t, "part")
	l := rapid.IntRange(0, len(j.Laminates)-1).Draw(t, "laminate")
	switch rapid.IntRange(0, 11).Draw(t, "edit") {
	case 0:
		s := edit(t, j.Wall(part))
		if j.Parts[part].Schedule == "" && len(laminate.ValidateJob(j.With(part, s), nil)) == 0 {
			n = j.With(part, s)
		}
	case 1:
		n.Laminates = append(n.Laminates, laminate.Laminate{ID: fmt.Sprintf("new%d", len(n.Laminates)), Plies: slices.Clone(j.Laminates[l].Plies)})
	case 2:
		slices.Reverse(n.Laminates)
	case 3:
		slices.Reverse(n.Laminates[l].Plies)
	case 4:
		n.Laminates[l].Plies = nil
	case 5:
		slices.Reverse(n.Parts)
	case 6:
		n.Parts[part].Pressure = quantity.New(float64(rapid.IntRange(0, 9).Draw(t, "psi")), quantity.PSI).Spelled(quantity.PSI)
	case 7:
		n.Joints, n.Nozzles = nil, nil
	case 8:
		n.Nozzles = append(n.Nozzles, laminate.Nozzle{ID: fmt.Sprintf("N%d", len(n.Nozzles)+7), On: n.Parts[part].ID, Gussets: laminate.Some(3)})
	case 10:
		n.Vessel = laminate.Vessel{LiquidHeight: quantity.New(9, quantity.Foot).Spelled(quantity.Foot), Rim: rapid.SampledFrom([]string{"", "ring"}).Draw(t, "rim")}
		n.Test = laminate.Test{Medium: laminate.TestWater, Held: quantity.New(24, quantity.Hour).Spelled(quantity.Hour)}
		n.Bond = laminate.Bond{ShearStrength: quantity.New(1800, quantity.PSI).Spelled(quantity.PSI), Factor: laminate.Some(10.0)}
	case 11:
		form := rapid.SampledFrom(laminate.JobForms.All()).Draw(t, "form")
		p := n.Parts[part]
		p.Form, p.Shape = form, laminate.Shape{}
		switch form {
		case laminate.Elbow:
			p.Turn, p.Miters = laminate.Some(90.0), laminate.Some(0)
		case laminate.Flange:
			p.Drilling, p.Washers, p.Torque = laminate.Class150, laminate.Some(true), quantity.New(20, quantity.FootPound).Spelled(quantity.FootPound)
		case laminate.FlatBottom:
			p.Supported, p.Knuckle = laminate.Some(true), n.Laminates[l].ID
		default:
		}
		n.Parts[part] = p
	case 9:
		to := rapid.IntRange(0, len(j.Laminates)-1).Draw(t, "to")
		if to != l {
			n.Laminates[to].Plies, n.Laminates[l].Plies = append(n.Laminates[to].Plies, n.Laminates[l].Plies...), nil
		}
	}
	return n
}

func TestRenderJob_anyEditsReadBackAndUndoToTheSameBytes(t *testing.T) {
	tank := tankJob(t)
	rapid.Check(t, func(t *rapid.T) {
		b := [][]byte{tank, []byte(smallJob)}[rapid.IntRange(0, 1).Draw(t, "document")]
		if rapid.Bool().Draw(t, "crlf") {
			b = crlf(b)
		}
		src, j := decodedJob(t, b)
		now := j
		for range rapid.IntRange(1, 6).Draw(t, "edits") {
			now = editJob(t, now)
			text := src.RenderJob(now)
			_, back := decodedJob(t, text)
			if a, b := bareJob(back), bareJob(now); !reflect.DeepEqual(a, b) {
				t.Fatalf("reads back as\n%+v\nnot\n%+v\nfrom\n%s", a, b, text)
			}
			tidy, problems := Tidy(text, nil)
			twice, _ := Tidy(tidy, nil)
			if len(problems) > 0 || !bytes.Equal(tidy, twice) {
				t.Fatalf("%v: tidied once\n%s\ntwice\n%s", problems, tidy, twice)
			}
		}
		if got := src.RenderJob(j); !bytes.Equal(got, b) {
			t.Fatalf("undone it is\n%s", got)
		}
	})
}

func TestTidy_aJobKeepsItsCommentsAndWritesZonesOut(t *testing.T) {
	text := "# the head\n\nformat=1\ndocument='job'\n[[part]] # p\nlaminate='a'\nid='p'\n# of a\n[[laminate]]\nid='a' # a\n[[laminate.ply]]\nmaterial='mat-1.5' # first\n# end\n"
	got, problems := Tidy([]byte(text), catalog.Library())
	want := "# the head\n\ndocument = 'job'\nformat   = 1\n\n# of a\n[[laminate]]\nid = 'a'  # a\n\n[[laminate.ply]]\nmaterial = 'mat-1.5'  # first\nzone     = \"structural-layer\"\n# end\n\n[[part]]  # p\nid       = 'p'\nlaminate = 'a'\n"
	if len(problems) > 0 || string(got) != want {
		t.Errorf("%v\n%s\nwant\n%s", problems, got, want)
	}
	tank := tankJob(t)
	if got, problems := Tidy(tank, nil); len(problems) > 0 || bytes.Count(got, []byte("#")) != bytes.Count(tank, []byte("#")) {
		t.Errorf("%v\n%s", problems, got)
	}
}

// FuzzDecodeJob wants of a job what FuzzDecode wants of a schedule.
func FuzzDecodeJob(f *testing.F) {
	f.Add(tankJob(f))
	f.Add([]byte(smallJob))
	f.Add([]byte("document = \"job\"\nformat = 1\nlaminate = [{id = 'a', ply = [{material = 'm'}]}, {id = 'b', ply = 3}]\n[[part]]\nid = 'p'\nschedule = 'a/../../b.toml'"))
	f.Add([]byte("document = \"job\"\nformat = 1\n[vessel]\nliquid_height = '9 ft'\n[test]\nmedium = 'air'\nheld = '24 h'\n[bond]\nfactor = 10\n[[part]]\nid = 'f'\nform = 'flange'\nschedule = 'f.toml'\ndrilling = 'class-150'\ntorque = '20 ft-lb'\n[[nozzle]]\nid = 'n'\non = 'f'\nflange = 'f'\n[[joint]]\nid = 'j'\nbetween = ['f', 'f']\naxial_load = '3 lb/in'"))
	f.Add([]byte("document = \"job\"\nformat = 1\n[[laminate.ply]]\n[laminate]\n[[part]]\n[[part.x]]"))
	f.Add([]byte("document = \"job\"\nformat = 1\n[[laminate]]\n[laminate.ply]\n[[laminate]]\nid = 'b'\n[[laminate.ply]]\ncount = 1\n[[laminate.ply.x]]\ny = 1"))
	lib := catalog.Library()
	f.Fuzz(func(t *testing.T, b []byte) {
		src, j, problems := DecodeJob(b, lib, func(string) (*laminate.Schedule, error) { return nil, errors.New("\x1b not here") })
		lines := 1 + bytes.Count(b, []byte("\n"))
		for _, p := range problems {
			if r, bad := word.BadCharacter(p.String(), false); bad || p.Line > lines || p.Message == "" {
				t.Fatalf("problem %+v (%U) of %d lines", p, r, lines)
			}
		}
		if j == nil || len(problems) > 0 {
			return
		}
		if got := src.RenderJob(j); !bytes.Equal(got, b) {
			t.Fatalf("came back as %q", got)
		}
		now := j.Clone()
		now.Laminates = append([]laminate.Laminate{{ID: "new"}}, now.Laminates...)
		for i := range now.Parts {
			now.Parts[i].Flanged = laminate.Some(true)
		}
		if len(laminate.ValidateJob(now, lib)) > 0 {
			return
		}
		text := src.RenderJob(now)
		if _, back, problems := DecodeJob(text, lib, nil); len(problems) > 0 || !reflect.DeepEqual(bareJob(back), bareJob(now)) {
			t.Fatalf("%v: reads back as %+v from %q", problems, back, text)
		}
		tidy, problems := Tidy(b, nil)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if twice, problems := Tidy(tidy, nil); !bytes.Equal(tidy, twice) {
			t.Fatalf("%v: tidied once %q, twice %q", problems, tidy, twice)
		}
	})
}

// Parts stand on each other in the order of the document: another order is said.
func TestJobChanges_sayThatPartsStandInAnotherOrder(t *testing.T) {
	_, a, _ := DecodeJob(ExampleJob(), nil, nil)
	b := a.Clone()
	b.Parts[1], b.Parts[2] = b.Parts[2], b.Parts[1]
	b.Nozzles[0], b.Nozzles[1] = b.Nozzles[1], b.Nozzles[0]
	b.Parts = slices.Delete(b.Parts, 4, 5)
	var said []string
	for _, c := range JobChanges(a, b) {
		if c.Key == "order of parts" {
			said = append(said, c.Old+" → "+c.New)
		}
	}
	if want := "bottom, shell-1, shell-2, shell-3, flange-3, flange-24, manway-cover → bottom, shell-2, shell-1, shell-3, flange-3, flange-24, manway-cover"; len(said) != 1 || said[0] != want {
		t.Errorf("%q", said)
	}
	for _, c := range JobChanges(a, a.Clone()) {
		t.Errorf("%+v", c)
	}
}

// Where a ply stands is found without a walk through all laminates: thousands of
// findings ask for it. Its row is written as two, which a walk would join anew.
func TestJobLine_ofAPlyDoesNotGoThroughAllLaminates(t *testing.T) {
	cost := func(laminates int) float64 {
		var b strings.Builder
		b.WriteString("document = \"job\"\nformat = 1\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"\n")
		for i := range laminates {
			fmt.Fprintf(&b, "[[laminate]]\nid = \"l%d\"\n[[laminate.ply]]\nmaterial = \"veil-c-15\"\nresin = \"r\"\n[[laminate.ply]]\nmaterial = \"mat-1.5\"\nresin = \"r\"\ncount = 9\n", i)
		}
		fmt.Fprintf(&b, "[[part]]\nid = \"p\"\nlaminate = \"l%d\"\n", laminates-1)
		src, j, problems := DecodeJob([]byte(b.String()), catalog.Library(), nil)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		at := laminate.Ref{Kind: laminate.RefPly, Index: 1, Key: "count"}
		lines := strings.Split(b.String(), "\n")
		if n := src.JobLine(j, at); n < 1 || lines[n-1] != "count = 9" || n != len(lines)-4 {
			t.Errorf("of %d laminates line %d of %d", laminates, n, len(lines))
		}
		return testing.AllocsPerRun(5, func() { src.JobLine(j, at) })
	}
	if few, many := cost(3), cost(300); many > few {
		t.Errorf("%v allocations for 3 laminates, %v for 300", few, many)
	}
}

// The example of a job stands among the documents that others test with, word for word.
func TestExampleJob_isAmongTheJobsToTestWith(t *testing.T) {
	b, err := os.ReadFile("../testdata/jobs/brine-day-tank.toml")
	if err != nil || string(b) != string(ExampleJob()) {
		t.Errorf("testdata/jobs/brine-day-tank.toml is not schedules/example-job.toml: copy it there (%v)", err)
	}
}
