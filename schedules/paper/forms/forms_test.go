package forms_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/rules/all"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/forms"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const examples = "../../../testdata/"

// subject judges an example document.
func subject(t *testing.T, name string) *forms.Subject {
	t.Helper()
	o := shop.New(shop.Options{NoBook: true}).Read(filepath.FromSlash(examples + name))
	if !o.Usable() {
		t.Fatal(o.Why())
	}
	u := quantity.US
	if o.Schedule != nil {
		u = o.Schedule.Units
	}
	return forms.SubjectOf(o, stock.Stock{}, rules.Options{Units: u})
}

// exampleJob is the example of a job, changed and judged.
func exampleJob(t *testing.T, change func(*laminate.Job)) *forms.Subject {
	t.Helper()
	o := shop.New(shop.Options{NoBook: true}).Open("tank.toml", schedules.ExampleJob(), "")
	if !o.Usable() {
		t.Fatal(o.Why())
	}
	change(o.Job)
	return forms.SubjectOf(o, stock.Stock{}, rules.Options{Units: quantity.US})
}

// built is a subject made in the program.
func built(s *laminate.Schedule) *forms.Subject {
	lib := catalog.Library()
	return &forms.Subject{Of: paper.Of{File: "a.toml", Fingerprint: "0123456789abcdef", Head: s.Head, Library: lib}, Parts: []forms.Part{{Report: rules.Judge(all.Rules(), s, lib, rules.Options{})}}}
}

func text(t *testing.T, f *paper.Form) string { return printed(t, f, 120) }

// wide is a paper in lines so long that nothing is broken.
func wide(t *testing.T, f *paper.Form) string { return printed(t, f, 400) }

func printed(t *testing.T, f *paper.Form, width int) string {
	t.Helper()
	var b bytes.Buffer
	if err := paper.Text(&b, f.Plain(), width); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestKinds_sayWhatTheySaidBefore(t *testing.T) {
	for file, names := range map[string][]string{
		"schedules/tank-contact-acid.toml":     {"laminate-schedule", "lay-up-sheet", "inspection-plan"},
		"schedules/pipe-wound-acid-spool.toml": {"calculation"},
		"jobs/bleach-day-tank.toml":            {"route-sheet", "takeoff"},
	} {
		of := subject(t, file)
		for _, name := range names {
			asBefore(t, name, text(t, forms.Named(name).Form(of)))
		}
	}
	var docs []*shop.Opened
	for _, name := range []string{"schedules/pipe-wound-acid-spool.toml", "specifications/acid-drain.toml", "records/acid-spool-reject.toml"} {
		o := shop.New(shop.Options{NoBook: true}).Read(filepath.FromSlash(examples + name))
		if !o.Usable() {
			t.Fatal(o.Why())
		}
		docs = append(docs, o)
	}
	held := recorder.Hold(docs[0], docs[1], docs[2], rules.Options{})
	for _, o := range docs {
		o.Name = filepath.Base(o.Name)
	}
	asBefore(t, "inspection-report", text(t, forms.InspectionReport(held)))
}

// asBefore compares a paper with its golden file.
func asBefore(t *testing.T, name, got string) {
	t.Helper()
	golden := filepath.Join("testdata", name+".golden")
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want, err := os.ReadFile(golden); err != nil || string(want) != got {
		t.Errorf("%s differs from %s (%v); got\n%s", name, golden, err, got)
	}
}

// Whatever is printed of whatever example stands on pages in both sizes, with
// what every page says, and the typeface has all of it.
func TestKinds_ofEveryExampleStandOnPages(t *testing.T) {
	files, err := filepath.Glob(examples + "*s/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	papers := 0
	for _, file := range files {
		o := shop.New(shop.Options{NoBook: true}).Read(file)
		if o.Schedule == nil && o.Job == nil {
			continue
		}
		of := forms.SubjectOf(o, stock.Stock{}, rules.Options{Units: quantity.Metric})
		for i := range forms.Kinds {
			papers++
			f := forms.Kinds[i].Form(of)
			for _, size := range []layout.Size{layout.Letter, layout.A4} {
				pages, missing := layout.Pages(f, size)
				if missing != nil || len(pages) == 0 || len(pages) > 100 {
					t.Errorf("%s of %s: %d pages, missing %q", f.Paper, file, len(pages), missing)
				}
			}
			if got := text(t, f); !strings.Contains(got, "DRAFT") || !strings.Contains(got, "Not checked: wind") {
				t.Errorf("%s of %s does not say its state or what was not checked", f.Paper, file)
			}
		}
	}
	if papers < 40 {
		t.Errorf("only %d papers", papers)
	}
}

func repeats(times int) *laminate.Schedule {
	s := &laminate.Schedule{
		Head:   laminate.Head{Title: "Thick"},
		Part:   laminate.Part{Form: laminate.Pipe, Process: laminate.ContactMolded, InsideDiameter: quantity.New(24, quantity.Inch), Length: quantity.New(10, quantity.Foot)},
		Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster, Cure: laminate.PeroxideCobalt}},
		Plies: []laminate.Ply{{Material: catalog.VeilC15, Resin: "r", Zone: laminate.InnerSurface, Count: 1},
			{Material: catalog.Mat15, Resin: "r", Zone: laminate.InteriorLayer, Count: 2, GelAfter: true}},
	}
	for range times {
		s.Plies = append(s.Plies, laminate.Ply{Material: catalog.Mat15, Resin: "r", Zone: laminate.StructuralLayer, Count: 1},
			laminate.Ply{Material: catalog.Woven24, Resin: "r", Zone: laminate.StructuralLayer, Count: 1})
	}
	return s
}

// What a proposal assumed stands in the notes until somebody states it, and on the paper no
// longer than that.
func TestLaminateSchedule_assumesNothingThatIsStated(t *testing.T) {
	s := repeats(2)
	s.Notes = "Two lots.\nAssumed for the structure: no vacuum; state it (vacuum).\nAssumed for the structure: no pressure; state it (pressure).\n"
	s.Service.Pressure = quantity.New(5, quantity.PSI)
	got := wide(t, forms.Named("laminate-schedule").Form(built(s)))
	if !strings.Contains(got, "Two lots.") || !strings.Contains(got, "no vacuum; state it (vacuum)") || strings.Contains(got, "no pressure; state it") {
		t.Error(got)
	}
}

// A load that stands on a part is stated by the part, and one of the service by the document.
func TestCalculation_saysWhoStatesALoad(t *testing.T) {
	of := exampleJob(t, func(j *laminate.Job) {
		j.Service.Pressure, j.Service.Vacuum, j.Test = quantity.New(2, quantity.PSI), quantity.New(0.2, quantity.PSI), laminate.Test{}
		for i := range j.Parts {
			if x := &j.Parts[i]; x.ID == "head" || x.ID == "shell-3" {
				x.Pressure, x.Vacuum = quantity.New(3, quantity.PSI), quantity.New(0.3, quantity.PSI)
			}
		}
	})
	for id, own := range map[string]bool{"head": true, "bottom": false, "shell-3": true, "shell-1": false} {
		of.Narrowed(laminate.Ref{})
		of.Narrowed(laminate.Ref{Kind: laminate.RefJobPart, Index: of.Job.Part(id)})
		lines := strings.Split(wide(t, forms.Named("calculation").Form(of)), "\n")
		seen := 0
		for i, line := range lines {
			if !strings.Contains(line, "pressure") || i+1 == len(lines) || !strings.Contains(lines[i+1], " states") || strings.Contains(line, "class") {
				continue
			}
			seen++
			if byPart := strings.Contains(lines[i+1], "as the part states"); byPart != own || own && strings.Contains(line, "of the service") {
				t.Errorf("%s: %s\n%s", id, line, lines[i+1])
			}
		}
		if seen == 0 {
			t.Errorf("%s: no load is stated", id)
		}
	}
}

// What lifts a shell is worked out like everything else.
func TestCalculation_worksOutWhatLiftsAShell(t *testing.T) {
	of := exampleJob(t, func(j *laminate.Job) {
		j.Service.Pressure, j.Parts[0].HoldDown = quantity.New(2, quantity.PSI), quantity.New(3, quantity.PSI)
	})
	got := wide(t, forms.Named("calculation").Form(of))
	// 2 psi on a circle of 120 in, 11,309.7 in² (statics).
	for _, want := range []string{"Lift of the shell on bottom bottom, in service", "pg = as the document states", "Fg = pg·A", "22619.5 lb", "utilization = pu/ph"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got[max(0, len(got)-4000):])
		}
	}
}

func TestLaminateSchedule_foldsWhatRepeats(t *testing.T) {
	f := forms.Named("laminate-schedule").Form(built(repeats(200)))
	got := text(t, f)
	for _, want := range []string{"plies 4-403: the 2 rows below, 200 times over", "V 2M | gel stop | (M W) ×200"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
	if pages, _ := layout.Pages(f, layout.Letter); len(pages) > 4 {
		t.Errorf("403 plies that repeat stand on %d pages", len(pages))
	}
}

func TestLayUpSheet_hasALineForEachSinglePly(t *testing.T) {
	of := built(repeats(200))
	sheet := forms.LayUpSheet(of)
	lines, stops := 0, 0
	for _, b := range sheet {
		table, ok := b.(paper.Table)
		if !ok || table.Columns[len(table.Columns)-1].Title != "by" {
			continue
		}
		for _, r := range table.Rows {
			if r.Band != "" {
				stops++
				if !strings.Contains(r.Band, "GEL STOP and HOLD") {
					t.Errorf("the barrier's end says %q", r.Band)
				}
				continue
			}
			lines++
		}
	}
	if lines != 403 || stops != 1 {
		t.Errorf("%d lines and %d stops", lines, stops)
	}
}

// Laid the other way round the numbers run down, and the gel stop between ply 3
// and ply 4 comes after ply 4.
func TestLayUpSheet_turnsTheOrderOfWhatIsLaidFromOutside(t *testing.T) {
	of := built(repeats(1))
	of.Parts[0].Laid = laminate.OutsideIn
	var order []string
	for _, b := range forms.LayUpSheet(of) {
		if table, ok := b.(paper.Table); ok && table.Columns[len(table.Columns)-1].Title == "by" {
			for _, r := range table.Rows {
				if r.Band != "" {
					word, _, _ := strings.Cut(r.Band, ":")
					order = append(order, word)
					continue
				}
				order = append(order, r.Cells[0])
			}
		}
	}
	if got := strings.Join(order, " "); got != "5 4 GEL STOP 3 2 1 HOLD" {
		t.Errorf("laid %s", got)
	}
}

// Without a shop's table nothing is said of how much initiator there is in a mix.
func TestLayUpSheet_namesNoAmountThatNobodyStated(t *testing.T) {
	got := text(t, forms.Named("lay-up-sheet").Form(built(repeats(1))))
	if !strings.Contains(got, "The shop book has no table of initiators for r: ") || strings.Contains(got, "1.5 %") {
		t.Errorf("got\n%s", got)
	}
	for _, want := range []string{"NEVER mix peroxide (the initiator) directly with cobalt promoter", "above the dew point"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
}

func TestForms_ofTwentyThousandPliesArePaged(t *testing.T) {
	s := repeats(0)
	for i := range 9_998 { // nothing repeats
		m := catalog.Mat15
		if i*i%7 == 2 {
			m = catalog.Mat075
		}
		s.Plies = append(s.Plies, laminate.Ply{Material: m, Resin: "r", Zone: laminate.StructuralLayer, Count: 1 + i%3})
	}
	of := built(s)
	for i := range forms.Kinds {
		if pages, _ := layout.Pages(forms.Kinds[i].Form(of), layout.A4); len(pages) > 1500 {
			t.Errorf("%s: %d pages", forms.Kinds[i].Name, len(pages))
		}
	}
}

// By hand: a 24 in pipe of 10 ft, the middle of ply 4 at 24.27 in: 76.25 in around;
// from a 50 in roll, lapped by 1 in, ⌈(120 − 1)/49⌉ = 3 strips hoopwise of 77.25 in
// take 231.8 in of roll, ⌈76.25/49⌉ = 2 lengthwise of 120 in take 240. 1.25 % of a
// pot of 4 kg is 50 g.
func TestLayUpSheet_cutsStripsAndPotsByTheShopBook(t *testing.T) {
	of := built(repeats(1))
	of.Units = quantity.US
	of.Stock = stock.Stock{
		Takeoff: stock.Takeoff{Lap: quantity.New(1, quantity.Inch), Batch: quantity.New(4, quantity.Kilogram)},
		Rolls:   []stock.Roll{{Material: catalog.Mat15, Width: quantity.New(50, quantity.Inch)}},
		Initiators: []stock.Initiation{
			{Family: laminate.VinylEster, Cure: laminate.PeroxideCobalt, Temperature: quantity.New(70, quantity.Fahrenheit), Initiator: laminate.Some(0.0125), GelMinutes: laminate.Some(25.0), Source: "trials, invented"},
			{Family: laminate.Isophthalic, Initiator: laminate.Some(0.02), Source: "another resin"},
		},
	}
	got := text(t, forms.Named("lay-up-sheet").Form(of))
	for _, want := range []string{"3 strips hoopwise, 50 in × 77.25 in, lap 1 in", "70 °F", "1.25 %", "25 min", "trials, invented", "50 g in 8.8"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
	if strings.Contains(got, "another resin") || strings.Contains(got, "no table of initiators") {
		t.Errorf("a row of another resin, or none:\n%s", got)
	}
	// Of a mix that is one fifth filler the pot of 4 kg has 3.2 kg of resin, and 1.25 % of that is 40 g.
	s := repeats(1)
	s.Resins[0].Filler, s.Resins[0].FillerContent = laminate.SiliconCarbide, laminate.Some(0.2)
	filled := built(s)
	filled.Units, filled.Stock = of.Units, of.Stock
	if got = text(t, forms.Named("lay-up-sheet").Form(filled)); !strings.Contains(got, "40 g in 8.8") {
		t.Errorf("initiator goes by the resin in a pot, without its filler:\n%s", got)
	}
}

// Ten times the peroxide burns in the pot: 15 % of 4 kg would be 600 g, and no paper says so
// without a word. The ranges are common practice, no source.
func TestLayUpSheet_weighsNoInitiatorFarFromWhatIsUsual(t *testing.T) {
	of := built(repeats(1))
	of.Units = quantity.US
	printed := func(initiator, promoter float64) string {
		of.Stock = stock.Stock{Takeoff: stock.Takeoff{Batch: quantity.New(4, quantity.Kilogram)}, Initiators: []stock.Initiation{
			{Family: laminate.VinylEster, Initiator: laminate.Some(initiator), Promoter: laminate.Some(promoter), Source: "trials, invented"}}}
		return wide(t, forms.Named("lay-up-sheet").Form(of))
	}
	for _, c := range []struct {
		initiator, promoter float64
		says                []string
		weighed             string // "" where nothing is
	}{
		{0.015, 0.003, nil, "60 g in 8.82 lb"},
		{0.04, 0.003, []string{"4 % of initiator; 1 % to 3 % is usual"}, "160 g in 8.82 lb"},
		{0.15, 0.003, []string{"WARNING, row above: 15 % of initiator; 1 % to 3 % is usual, and it looks like 1.5 %"}, ""},
		{0.015, 0.03, []string{"3 % of cobalt solution; 0.1 % to 0.5 % is usual, and it looks like 0.3 %"}, ""},
	} {
		got := printed(c.initiator, c.promoter)
		for _, want := range c.says {
			if !strings.Contains(got, want) {
				t.Errorf("%v, %v: %q is not in\n%s", c.initiator, c.promoter, want, got)
			}
		}
		if c.says == nil && strings.Contains(got, "WARNING") {
			t.Errorf("%v, %v: a warning of what is usual:\n%s", c.initiator, c.promoter, got)
		}
		if weighed := strings.Contains(got, " g in "); weighed != (c.weighed != "") || !strings.Contains(got, c.weighed) {
			t.Errorf("%v, %v: weighed %v, want %q:\n%s", c.initiator, c.promoter, weighed, c.weighed, got)
		}
	}
}

// Released is what its content says and nobody's word alone: the fingerprint on
// the paper, typed into the document, releases it until something else changes.
func TestForm_isReleasedAsLongAsNothingChanges(t *testing.T) {
	text, err := os.ReadFile(filepath.FromSlash(examples + "schedules/pipe-wound-acid-spool.toml"))
	if err != nil {
		t.Fatal(err)
	}
	printed := func(text string) paper.Frame {
		o := shop.New(shop.Options{NoBook: true}).Open("tank.toml", []byte(text), "")
		if !o.Usable() {
			t.Fatal(o.Why())
		}
		return forms.Named("route-sheet").Form(forms.SubjectOf(o, stock.Stock{}, rules.Options{})).Frame
	}
	draft := printed(string(text))
	if draft.State != paper.Draft {
		t.Errorf("a document that says nothing is %q", draft.State)
	}
	released := strings.Replace(string(text), "revision = 1\n", "revision = 1\nreleased = \""+draft.Fingerprint+"\"\n", 1)
	if f := printed(released); f.State != paper.Released || f.Fingerprint != draft.Fingerprint {
		t.Errorf("released it is %q, %s and %s", f.State, f.Fingerprint, draft.Fingerprint)
	}
	if f := printed(strings.Replace(released, "count    = 4", "count    = 5", 1)); f.State != paper.Changed {
		t.Errorf("changed it is %q", f.State)
	}
	if f := printed(strings.Replace(released, draft.Fingerprint, draft.Fingerprint[:4], 1)); f.State == paper.Released {
		t.Error("four digits release it")
	}
	if f := printed(strings.Replace(released, "revision = 1\n", "revision = 1\nsuperseded = true\n", 1)); f.State != paper.Superseded {
		t.Errorf("superseded it is %q", f.State)
	}
	// Somebody may release what breaks a rule; the paper then does not say that it
	// is released alone, beside a line that says not to build it.
	veil := regexp.MustCompile(`material = "veil[^"]*"`).FindString(string(text))
	broken := strings.Replace(released, veil, `material = "woven-24"`, 1)
	broken = strings.Replace(broken, draft.Fingerprint, printed(broken).Fingerprint, 1)
	if f := printed(broken); f.State != paper.Disputed {
		t.Errorf("with a rule broken it is %q", f.State)
	}
}

// Widths by hand: six plies from 2 to 8 in grow by (8 − 2)/5 = 1.2 in.
func TestLayUpSheet_ofAJobHasItsJointsAndNozzles(t *testing.T) {
	of := subject(t, "jobs/bleach-day-tank.toml")
	of.Job = of.Job.Clone()
	of.Job.Joints[0].InsideWidth = quantity.Length{}
	got := text(t, forms.Named("lay-up-sheet").Form(of))
	for _, want := range []string{"Joint J1, shell-1 to shell-2", "Joint J1, strap: strap, in the order of laying", "3.2 in", "6.8 in", "Nozzle N1 on shell-1", "Nozzle N1, pad: strap",
		"Nozzle N1, laid inside: seal, in the order of laying, veil last", "HOLD before each overlay: ",
		"cut to fit: torispherical head ", "a disc of 120 in",
		// The first ply of the strap is 2 in of the circle round the thicker shell.
		"2 in   5.3 ft²    1.15 lb",
		"areas and resin mix are not known: its opening or the diameter of its pad is not stated",
		"areas and resin mix are not known: the width of the seal is not stated (inside_width)"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in the sheet", want)
		}
	}
	schedule := forms.Named("laminate-schedule").Form(subject(t, "jobs/bleach-day-tank.toml"))
	drawn := layout.Drawings(schedule)
	if len(drawn) < 6 { // elevation, a section of each of five parts, and the joint
		t.Errorf("%d drawings", len(drawn))
	}
}

// How a job is tested stands on the papers that speak of it, once: no flange is filled by
// itself.
func TestKinds_sayHowTheJobIsTested(t *testing.T) {
	how := "with water to 15 ft above the bottom of the lowest course, at 2.0 psi over the fill, at 50 °F, held 24 h"
	of := exampleJob(t, func(j *laminate.Job) {
		j.Test.Pressure, j.Test.Temperature = quantity.New(2, quantity.PSI), quantity.New(50, quantity.Fahrenheit)
	})
	for _, name := range []string{"laminate-schedule", "route-sheet", "inspection-plan", "calculation"} {
		if got := strings.Join(strings.Fields(text(t, forms.Named(name).Form(of))), " "); strings.Count(got, how) != 1 {
			t.Errorf("%s does not say once that the test is %s", name, how)
		}
	}
	if got := text(t, forms.Named("inspection-plan").Form(of)); strings.Count(got, "fill test") != 1 {
		t.Errorf("the plan asks for %d fill tests", strings.Count(got, "fill test"))
	}
	untested := exampleJob(t, func(j *laminate.Job) { j.Test = laminate.Test{} })
	if got := text(t, forms.Named("calculation").Form(untested)); !strings.Contains(strings.Join(strings.Fields(got), " "), "a test, since the job states none") {
		t.Error("the calculation of a job without a test does not say that nothing is tested")
	}
}

// The route sheet has a waxed coat and a veil of a seal where the seal has them.
func TestRouteSheet_saysWhatASealEndsIn(t *testing.T) {
	for want, plies := range map[string][]string{
		"veil last":             {catalog.Mat15, catalog.VeilC15},
		"veil last, waxed coat": {catalog.Mat15, catalog.VeilC15, catalog.Topcoat},
		"waxed coat":            {catalog.Mat15, catalog.Topcoat},
		"":                      {catalog.VeilC15, catalog.Mat15},
	} {
		of := exampleJob(t, func(j *laminate.Job) {
			seal := &j.Laminates[j.Laminate("seal")]
			resin := seal.Plies[0].Resin
			seal.Plies = nil
			for _, m := range plies {
				seal.Plies = append(seal.Plies, laminate.Ply{Material: m, Resin: resin, Count: 1})
			}
		})
		got := text(t, forms.Named("route-sheet").Form(of))
		for _, line := range strings.Split(got, "\n") {
			for _, at := range []string{"inside seal, laminate seal", "inside overlay, laminate seal"} {
				if _, said, ok := strings.Cut(line, at); ok {
					if said = strings.TrimPrefix(strings.TrimSpace(strings.Split(said, "   ")[0]), "; "); said != want {
						t.Errorf("%v: the route sheet says %q, want %q", plies, said, want)
					}
				}
			}
		}
		if !strings.Contains(got, "inside seal, laminate seal") {
			t.Fatal("no seal on the route sheet")
		}
	}
}

// What the test of a job does not say nobody judged: the route sheet does not order it.
func TestRouteSheet_ordersTheTestOfTheJobAlone(t *testing.T) {
	of := exampleJob(t, func(j *laminate.Job) {
		j.Service.TestPressure, j.Test = quantity.New(222, quantity.PSI), laminate.Test{}
	})
	got := text(t, forms.Named("route-sheet").Form(of))
	if _, operations, _ := strings.Cut(got, "Operations"); strings.Contains(operations, "222") || !strings.Contains(operations, "test, where one is called for") {
		t.Errorf("a test that the job does not state is ordered:\n%s", operations)
	}
}

// An operation names only what is laid: a nozzle without a pad has no step for
// one.
func TestRouteSheet_namesOnlyWhatIsLaid(t *testing.T) {
	of := subject(t, "jobs/bleach-day-tank.toml")
	of.Job = of.Job.Clone()
	n := &of.Job.Nozzles[0]
	n.Pad, n.InstallationInside, n.InstallationOutside, n.Neck = "", "", "", "strap"
	of.Job.Joints[0].Outside = ""
	got := text(t, forms.Named("route-sheet").Form(of))
	_, got, _ = strings.Cut(got, "Operations")
	for _, not := range []string{"pad", "overlay"} {
		if strings.Contains(got, not) {
			t.Errorf("%q is in\n%s", not, got)
		}
	}
	if !strings.Contains(got, "nozzle N1 on shell-1: neck, laminate strap") {
		t.Errorf("no neck in\n%s", got)
	}
}

// A page that gets loose names the part, nozzle or joint that it is of, and no
// other.
func TestLayUpSheet_eachPageSaysWhoseItIs(t *testing.T) {
	f := forms.Named("lay-up-sheet").Form(subject(t, "jobs/bleach-day-tank.toml"))
	pages, _ := layout.Pages(f, layout.Letter)
	at, checked := "", 0
	for i := range pages {
		said := map[string]bool{}
		var first string
		for _, m := range pages[i].Marks {
			if m.Bold && m.Size == 12 { // a heading of what begins here
				first = m.Text
			}
			said[m.Text] = true
		}
		if first != "" {
			at = first
		}
		if i > 0 && at != "" {
			checked++
			if !said[at] {
				t.Errorf("page %d is of %s and does not say so", i+1, at)
			}
		}
	}
	if checked < 10 {
		t.Errorf("%d pages looked at", checked)
	}
}

// What breaks between the parts of a job stands on every paper of it, as what
// breaks in a part does: nobody builds by a sheet that does not say so.
func TestKinds_sayWhatTheWholeJobBreaks(t *testing.T) {
	of := subject(t, "jobs/bleach-day-tank.toml")
	if of.Verdict() != rules.Break {
		t.Errorf("the verdict is %v", of.Verdict())
	}
	for i := range forms.Kinds {
		k := &forms.Kinds[i]
		got := text(t, k.Form(of))
		for _, want := range []string{"RULE BREAK, do not build: joint J1: its seal", "RULE BREAK, do not build: nozzle N1: "} {
			if !strings.Contains(got, want) {
				t.Errorf("%s does not say %q", k.Name, want)
			}
		}
	}
}

// The plan takes the limits of a level from the shop's book, as comparing does.
func TestRequire_takesTheLevelsOfTheShopBook(t *testing.T) {
	folder := filepath.FromSlash(examples + "acceptance/")
	for book, want := range map[string]acceptance.Verdict{"levels-book.toml": acceptance.Meets, "shop-book.toml": acceptance.Incomplete} {
		s := shop.New(shop.Options{Book: folder + book})
		schedule, asked := s.Read(folder+"tank-shell.toml"), s.Read(folder+"specification-level.toml")
		if !schedule.Usable() || !asked.Usable() {
			t.Fatal(schedule.Why(), asked.Why())
		}
		of := forms.SubjectOf(schedule, stock.Stock{}, rules.Options{})
		if err := of.Require(asked); err != nil {
			t.Fatal(err)
		}
		said := false
		for _, l := range of.Required {
			if l.Key == "inspection.acceptance_level" {
				if said = true; l.Verdict != want {
					t.Errorf("%s: %+v", book, l)
				}
			}
		}
		if !said {
			t.Errorf("%s: nothing is said of the level", book)
		}
	}
}

// What is wound or sprayed is not mixed in pots, and the sheet says so as the
// takeoff does: a dash.
func TestLayUpSheet_countsPotsOnlyOfWhatIsLaidByHand(t *testing.T) {
	of := subject(t, "schedules/pipe-wound-acid-spool.toml")
	of.Stock.Takeoff.Batch = quantity.New(1, quantity.Kilogram)
	sheet, wound, byHand := forms.Named("lay-up-sheet").Make(of), 0, 0
	for _, b := range sheet {
		table, ok := b.(paper.Table)
		if !ok || len(table.Columns) < 5 || table.Columns[4].Title != "pots" {
			continue
		}
		for _, r := range table.Rows {
			if r.Band != "" {
				continue
			}
			if strings.HasPrefix(r.Cells[1], "band-") {
				if wound++; r.Cells[4] != "—" {
					t.Errorf("a wound ply takes %s pots: %q", r.Cells[4], r.Cells)
				}
			} else if byHand++; r.Cells[4] == "—" {
				t.Errorf("a ply laid by hand takes none: %q", r.Cells)
			}
		}
	}
	if wound == 0 || byHand == 0 {
		t.Errorf("%d wound plies, %d by hand", wound, byHand)
	}
}

// The corner of a flat bottom is reinforced outside, when the wall stands on it and before
// the waxed coats: the route sheet has the step with its hold, and every paper the face.
func TestKinds_reinforceTheKnuckleOutside(t *testing.T) {
	of := exampleJob(t, func(*laminate.Job) {})
	said := func(kind string) string { return wide(t, forms.Named(kind).Form(of)) }
	at := -1
	for _, text := range []string{"joint J4, shell-3 to head: outside overlay", "bottom: knuckle, surfaces outside abraded", "bottom: knuckle reinforced outside, laminate knuckle, up the wall 12 in", "bottom: waxed coat, ply 9, after J1, the knuckle of bottom", "shell-1: waxed coat, ply 11, after J1, J2, N2, M1, the knuckle of bottom"} {
		if next := strings.Index(said("route-sheet"), text); next <= at {
			t.Errorf("%q is not on the route sheet, or out of order", text)
		} else {
			at = next
		}
	}
	for _, kind := range []string{"laminate-schedule", "lay-up-sheet", "inspection-plan"} {
		if !strings.Contains(said(kind), "knuckle, outside") {
			t.Errorf("the %s does not say on which face the knuckle lies", kind)
		}
	}
	of.Narrowed(laminate.Ref{Kind: laminate.RefJobPart})
	if text := said("route-sheet"); !strings.Contains(text, "bottom: knuckle reinforced outside, laminate knuckle: NOT YET. It comes after J1") {
		t.Error("the bottom by itself is reinforced before its wall stands on it")
	}
}

// Rings that a wall stands on are built by somebody: every paper of the shop has them, how
// many, and that nobody states their section.
func TestKinds_buildTheRingsThatAWallStandsOn(t *testing.T) {
	of := subject(t, "schedules/duct-contact-flame.toml")
	s := of.Parts[0].Report.Schedule
	s.Part.Length, s.Part.StiffenerSpacing = quantity.New(16, quantity.Foot), quantity.New(4, quantity.Foot)
	for _, kind := range []string{"laminate-schedule", "lay-up-sheet", "route-sheet", "takeoff"} {
		if !strings.Contains(wide(t, forms.Named(kind).Form(of)), "stiffening rings at most 4 ft apart, 3 of them between its ends") {
			t.Errorf("the %s has no rings", kind)
		}
	}
	if !strings.Contains(wide(t, forms.Named("route-sheet").Form(of)), "stiffening rings: surfaces abraded") || !of.Count().Incomplete() {
		t.Error("no hold before the rings, or a takeoff without them is whole")
	}
	s.Part.StiffenerSpacing = quantity.Length{}
	if strings.Contains(wide(t, forms.Named("route-sheet").Form(of)), "rings") {
		t.Error("a wall of which nobody states rings has them")
	}
}

// A lay-up sheet stops where the specification says, before the ply that it names; made
// without one it says that it does not know.
func TestLayUpSheet_stopsAtTheHoldPointsOfTheSpecification(t *testing.T) {
	of := subject(t, "schedules/tank-contact-acid.toml")
	if said := wide(t, forms.Named("lay-up-sheet").Form(of)); !strings.Contains(said, "no specification was given for this sheet") {
		t.Error("a sheet without a specification does not say so")
	}
	d := &spec.Specification{}
	d.Number = "S-7"
	d.Inspection.Holds = []spec.Hold{{Point: "half the structure", BeforePly: laminate.Some(7), Witness: "purchaser"}, {Point: "before shipping"}}
	of.Hold(d, "folder/spec.toml")
	said := wide(t, forms.Named("lay-up-sheet").Form(of))
	stop := strings.Index(said, "HOLD, hold point: half the structure, before ply 7, witnessed by purchaser")
	if at := regexp.MustCompile(`(?m)^ +7 +\S`).FindStringIndex(said[max(stop, 0):]); stop < 0 || at == nil || strings.Count(said[stop:stop+at[0]], "\n") != 1 {
		t.Errorf("ply 7 is laid past its hold point:\n%s", said)
	}
	if !strings.Contains(said, "those of S-7 (spec.toml)") || !strings.Contains(said, "HOLD, hold point: before shipping") {
		t.Error("the specification, or a point of it without a ply, is not on the sheet")
	}
}

// How far down a course serves: by hand, of t = p D/(2 S/10) with S 15000 psi and p =
// 0.0361 psi/in × 1.2 × h, the 379.4 mil of the low course of 8 ft serve 18.2 ft of head.
// One that is too thin serves from the height up at which the head is no more than that.
func TestKinds_sayHowFarDownACourseServes(t *testing.T) {
	of := exampleJob(t, func(*laminate.Job) {})
	for _, kind := range []string{"calculation", "laminate-schedule"} {
		if said := wide(t, forms.Named(kind).Form(of)); !strings.Contains(said, "to 18.2") || !strings.Contains(said, "below the level of the liquid, by hoop strength") {
			t.Errorf("the %s does not say how far down the low course serves", kind)
		}
	}
	of = exampleJob(t, func(j *laminate.Job) { j.Vessel.LiquidHeight = quantity.New(20, quantity.Foot) })
	if said := wide(t, forms.Named("calculation").Form(of)); !strings.Contains(said, "by hoop strength: from ") {
		t.Errorf("nothing says from where up a course serves that is too thin:\n%s", said)
	}
}

// A test that fills nothing and presses nothing is ordered of nobody.
func TestKinds_orderNoTestOfNothing(t *testing.T) {
	of := exampleJob(t, func(j *laminate.Job) {
		j.Test.Pressure, j.Test.LiquidHeight = quantity.New(0, quantity.PSI), quantity.Length{}
	})
	for _, name := range []string{"route-sheet", "inspection-plan", "calculation"} {
		if got := wide(t, forms.Named(name).Form(of)); strings.Contains(got, "at 0.0 psi, held") || !strings.Contains(got, "NO TEST BEFORE its fill or its pressure is stated") {
			t.Errorf("%s:\n%s", name, got)
		}
	}
}

// Gas under the roof lifts the shell: 0.4 psi over the circle of the bottom. Who tests it
// has to read that, and for what its hold-down was figured.
func TestKinds_sayWhatLiftsTheShell(t *testing.T) {
	names := []string{"laminate-schedule", "route-sheet", "inspection-plan", "calculation"}
	job := func(change func(*laminate.Job)) *forms.Subject {
		return exampleJob(t, func(j *laminate.Job) {
			j.Service.Pressure, j.Test.Pressure, j.Parts[0].HoldDown = quantity.New(0, quantity.PSI), quantity.New(0.4, quantity.PSI), quantity.New(0.5, quantity.PSI)
			j.Parts[0].InsideDiameter = quantity.New(96, quantity.Inch)
			change(j)
		})
	}
	lifted := job(func(*laminate.Job) {})
	for _, name := range names {
		// By hand: 0.4·π/4·96² = 2895 lb.
		if got := wide(t, forms.Named(name).Form(lifted)); !strings.Contains(got, "is lifted at the test by 0.40 psi over its circle, 2895 lb in all; its hold-down was figured, by others, for 0.50 psi") {
			t.Errorf("%s says nothing of it:\n%s", name, got)
		}
	}
	route := wide(t, forms.Named("route-sheet").Form(lifted))
	if at, test := strings.Index(route, "NO TEST BEFORE lugs on the shell and anchors"), strings.Index(route, "test with water"); at < 0 || test < at {
		t.Error(route)
	}
	if got := wide(t, forms.Named("calculation").Form(lifted)); !strings.Contains(got, "no vacuum or outside pressure is given; what lifts the shell from inside is judged of the job as a whole") {
		t.Error("the wall by itself says that nothing lifts it")
	}
	still := job(func(j *laminate.Job) { j.Test.Pressure = quantity.New(0, quantity.PSI) })
	for _, name := range names {
		if got := wide(t, forms.Named(name).Form(still)); strings.Contains(got, "is lifted") || strings.Contains(got, "NO TEST BEFORE") {
			t.Errorf("%s says what lifts nothing:\n%s", name, got)
		}
	}
}

// Nothing bonds to wax: the coat of a strap waits for the knuckle over its end, that of a
// neck for what is laid round it, and that of what is laid outside for the gussets.
func TestRouteSheet_coatsOverlaysWhenAllIsBondedOntoThem(t *testing.T) {
	of := exampleJob(t, func(j *laminate.Job) {
		strap := j.Laminate(j.Joints[0].Outside)
		if p := j.Laminates[strap].Plies; p[len(p)-1].Material != catalog.Topcoat {
			j.Laminates[strap].Plies = append(p, laminate.Ply{Material: catalog.Topcoat, Resin: p[0].Resin, Count: 1, Zone: laminate.OuterSurface})
		}
	})
	route := wide(t, forms.Named("route-sheet").Form(of))
	at := -1
	for _, want := range []string{"joint J1, bottom to shell-1: outside overlay", "is left off: it comes after the knuckle of bottom", "bottom: knuckle reinforced outside", "joint J1, bottom to shell-1: waxed coat of the strap, ply ", "bottom: waxed coat"} {
		next := strings.Index(route[at+1:], want)
		if next < 0 {
			t.Fatalf("%q is not there, or out of order:\n%s", want, route)
		}
		at += 1 + next
	}
	n := of.Job.Nozzles[0]
	on := "nozzle " + n.ID + " on " + n.On + ": "
	at = -1
	for _, want := range []string{on + "neck, laminate " + n.Neck + ", 3 in, projection 6 in; its waxed coat, ply ", on + "outside overlay, laminate " + n.InstallationOutside + "; its waxed coat, ply ", on + "4 gussets", on + "waxed coat of the neck", on + "waxed coat of the outside overlay"} {
		next := strings.Index(route[at+1:], want)
		if next < 0 {
			t.Fatalf("%q is not there, or out of order:\n%s", want, route)
		}
		at += 1 + next
	}
	if got := wide(t, forms.Named("lay-up-sheet").Form(of)); !strings.Contains(got, "HOLD: the waxed coat comes after the knuckle of bottom, since nothing bonds to wax") {
		t.Error("the lay-up sheet coats the strap before its knuckle")
	}
}

// Nozzles, joints, corners: every paper has them in the order of the route sheet.
func TestKinds_haveOneOrder(t *testing.T) {
	of := exampleJob(t, func(*laminate.Job) {})
	for _, name := range []string{"laminate-schedule", "lay-up-sheet", "inspection-plan"} {
		got := wide(t, forms.Named(name).Form(of))
		nozzle, joint, corner := strings.Index(got, "\nNozzle "), strings.Index(got, "\nJoint "), strings.Index(got, "\nPart bottom, knuckle, outside")
		if nozzle < 0 || joint < nozzle || corner < joint {
			t.Errorf("%s: nozzles at %d, joints at %d, corners at %d", name, nozzle, joint, corner)
		}
	}
}

// What rests on others every paper of the trade says, with whose it is and what it proved,
// and a nozzle's in its place; where it does not reach nothing says that anything rests on it.
func TestKinds_sayWhatRestsOnOthers(t *testing.T) {
	job := func(change func(*laminate.Job)) *forms.Subject {
		return exampleJob(t, func(j *laminate.Job) {
			head := &j.Parts[j.Part("head")]
			head.Form, head.Shape = laminate.Cone, laminate.Shape{HalfAngle: laminate.Some(45.0), SmallDiameter: quantity.New(0, quantity.Inch)}
			head.Proof = others.Proof{By: "calculation 45, revision 2", Pressure: quantity.New(1, quantity.PSI), Temperature: quantity.New(120, quantity.Fahrenheit), Structure: quantity.New(0.2, quantity.Inch)}
			j.Nozzles[0].PipingLoad = laminate.Some(true)
			j.Nozzles[0].Proof = others.Proof{By: "stress report 7", Pressure: quantity.New(20, quantity.PSI), Temperature: quantity.New(120, quantity.Fahrenheit), Structure: quantity.New(0.3, quantity.Inch)}
			change(j)
		})
	}
	rests, short := job(func(*laminate.Job) {}), job(func(j *laminate.Job) {
		j.Parts[j.Part("head")].Proof.Structure = quantity.New(2, quantity.Inch)
		j.Nozzles[0].Proof.By = "pending"
	})
	for _, name := range []string{"laminate-schedule", "route-sheet", "inspection-plan", "calculation"} {
		got := wide(t, forms.Named(name).Form(rests))
		for _, want := range []string{"rests on calculation 45, revision 2, which nothing here judged", "a person who steps on it", "up to 120 °F, with 200.0 mil of structure", "rests on stress report 7", "which pulls or bends"} {
			if !strings.Contains(got, want) {
				t.Errorf("%s does not say %q:\n%s", name, want, got)
			}
		}
		for _, line := range strings.Split(got, "\n") { // whose it is stands once in what is said of it
			for _, id := range []string{"part head", "nozzle N1"} {
				if strings.Contains(line, "rests on") && strings.Count(line, id) > 1 {
					t.Errorf("%s says %s twice:\n%s", name, id, line)
				}
			}
		}
		if got := wide(t, forms.Named(name).Form(short)); strings.Contains(got, "which nothing here judged: that has to cover") || strings.Contains(got, "rests on stress report 7") {
			t.Errorf("%s: what does not reach is rested on:\n%s", name, got)
		}
	}
	if got := wide(t, forms.Named("route-sheet").Form(rests)); !strings.Contains(got, "signed by whoever answers for it: nozzle N1 rests on stress report 7") {
		t.Errorf("the route sheet does not ask for the proof:\n%s", got)
	}
	got := wide(t, forms.Named("calculation").Form(rests))
	for _, want := range []string{"as proved by calculation 45, revision 2, by others: nothing here judged it", "holds: every governing criterion, as others proved", "2 answers rest on others", "Proved pressure"} {
		if !strings.Contains(got, want) {
			t.Errorf("the calculation does not say %q:\n%s", want, got)
		}
	}
	// A proof that the test alone is beyond: the wall holds in service, and is not left at that.
	beyond := job(func(j *laminate.Job) { j.Test.Pressure = quantity.New(1.5, quantity.PSI) })
	if got := wide(t, forms.Named("calculation").Form(beyond)); !strings.Contains(got, "note: part head: the proof, calculation 45, revision 2, does not reach: it bears 1.5 psi inside in the test") {
		t.Errorf("the part's own section says nothing of it:\n%s", got)
	} else if strings.Contains(got, "holds: every governing criterion, as others proved") || !strings.Contains(got, "head: fails") {
		t.Errorf("it holds all the same:\n%s", got)
	}
}
