package schedules

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/word"
)

// everyKey is an exercise that uses what the tables have.
const everyKey = `document = "exercise"
format = 1
id = "ash-of-a-drain"
title = "Ash of a drain"
step = 3
kind = "ignition"
scenario = """
A drain.
It was cut."""
task = "Read the test."
keep_structure = true
units = "si"
[part]
form = "pipe"
inside_diameter = "12 in"
[service]
fluid = "water"
contains = []
[[resin]]
id = "liner"
family = "vinyl-ester"
[[material]]
id = "own-mat"
form = "chopped-mat"
fiber = "e-glass"
areal_mass = "300 g/m2"
[[ply]]
material = "veil-c-15"
resin = "liner"
[[ply]]
material = "own-mat"
resin = "liner"
count = 3
[barrier]
veil_plies = 1
glass_content = [0.22, 0.32]
[structure]
forms = ["chopped-mat"]
[outer_surface]
required = true
[total]
thickness = ["0.1 in", ""]
[[sequence]]
form = "veil"
[[sequence]]
any = true
[[question]]
ask = "loss"
tolerance = 0.01
[[question]]
ask = "acceptance"
[[specimen]]
zone = "barrier"
before = "5.0 g"
after = "1.3 g"
[[hint]]
text = "Burned over what was there."
cost = 0.2
`

func TestDecodeExercise_readsEveryTable(t *testing.T) {
	e, problems := DecodeExercise([]byte(everyKey))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	g := &e.Given
	switch {
	case e.ID != "ash-of-a-drain" || e.Title != "Ash of a drain" || e.Step != 3 || e.Kind != exercise.Ignition || !e.KeepStructure:
		t.Errorf("%+v", e)
	case e.Scenario != "A drain.\nIt was cut." || e.Task != "Read the test.":
		t.Errorf("%q %q", e.Scenario, e.Task)
	case g.Units.String() != "si" || g.Part.Form != laminate.Pipe || g.Service.Fluid != "water" || !g.Service.Contains.Given:
		t.Errorf("%+v", g)
	case len(g.Resins) != 1 || len(g.Materials) != 1 || len(g.Plies) != 3 || g.Plies[0].Count != 1 || g.Plies[1].Count != 2 || g.Plies[2].Count != 1:
		t.Errorf("%+v", g)
	case e.Demands.Barrier.VeilPlies.Value != 1 || e.Demands.Barrier.GlassContent.Highest != 0.32 || len(e.Demands.Structure.Forms) != 1:
		t.Errorf("%+v", e.Demands)
	case !e.Demands.OuterSurface.Value || e.Demands.Total.Lowest.Text() != "0.1 in" || len(e.Demands.Sequence) != 2 || !e.Demands.Sequence[1].Any:
		t.Errorf("%+v", e.Demands)
	case len(e.Questions) != 2 || e.Questions[0].Within() != 0.01 || e.Questions[1].Ask != exercise.Acceptance:
		t.Errorf("%+v", e.Questions)
	case len(e.Specimens) != 1 || e.Specimens[0].Group != inspection.Barrier || e.Specimens[0].After.Text() != "1.3 g":
		t.Errorf("%+v", e.Specimens)
	case len(e.Hints) != 1 || e.Hints[0].Price() != 0.2:
		t.Errorf("%+v", e.Hints)
	}
}

func TestDecodeExercise_tellsTheLineOfWhatIsWrong(t *testing.T) {
	change := func(old, now string) string {
		if !strings.Contains(everyKey, old) {
			t.Fatalf("no %q", old)
		}
		return strings.Replace(everyKey, old, now, 1)
	}
	cases := []struct {
		name, text string
		line       int
		key, want  string
	}{
		{"a typo", change("scenario =", "scenari ="), 7, "scenari", `"scenario"`},
		{"no scenario", change("scenario = \"\"\"\nA drain.\nIt was cut.\"\"\"\n", ""), 1, "scenario", "missing"},
		{"a step too far", change("step = 3", "step = 7"), 5, "step", "between 1 and 6"},
		{"a kind that is none", change(`"ignition"`, `"ignitio"`), 6, "kind", `"ignition" is the nearest`},
		{"an id with blanks", change("ash-of-a-drain", "ash of"), 3, "id", "hyphens"},
		{"a length without unit", change(`"12 in"`, "12"), 15, "part.inside_diameter", "units"},
		{"no such resin", change(`resin = "liner"`, `resin = "linr"`), 29, "ply.resin", `"linr"`},
		{"no plies at all", change("count = 3", "count = 0"), 33, "ply.count", "at least 1"},
		{"a demand descending", change("[0.22, 0.32]", "[0.32, 0.22]"), 36, "barrier.glass_content", "lowest"},
		{"a demanded count", change("veil_plies = 1", "veil_plies = -1"), 35, "barrier.veil_plies", "between"},
		{"an ask that is none", change(`ask = "loss"`, `ask = "los"`), 48, "question.ask", "loss"},
		{"a tolerance of a word", change(`ask = "acceptance"`, "ask = \"acceptance\"\ntolerance = 0.1"), 52, "question.tolerance", "word"},
		{"more than there was", change(`"1.3 g"`, `"6 g"`), 55, "specimen.after", "before"},
		{"a hint without words", change(`"Burned over what was there."`, `" "`), 57, "hint.text", "missing"},
		{"a hint too dear", change("cost = 0.2", "cost = 2"), 58, "hint.cost", "share"},
		{"questions of another kind", change(`kind = "ignition"`, `kind = "fix"`), 47, "question", "belong"},
		{"readings on paper", everyKey + "[inspection]\nbarcol = 30\n", 59, "inspection", "known"},
		{"a control character", change("It was cut", `It \u001b[2J`), 7, "scenario", "U+001B"},
		{"another kind", strings.Replace(small, "\n\n", "\n", 1), 1, "document", "not an exercise"},
	}
	for _, c := range cases {
		e, problems := DecodeExercise([]byte(c.text))
		if e != nil || len(problems) == 0 {
			t.Errorf("%s: taken", c.name)
			continue
		}
		found := false
		for _, p := range problems {
			found = found || p.Line == c.line && p.Key == c.key && strings.Contains(p.Message, c.want)
		}
		if !found {
			t.Errorf("%s: %v, want line %d: %s: …%s…", c.name, problems, c.line, c.key, c.want)
		}
	}
}

// sealOf is an exercise about what is laid over a joint.
const sealOf = `document = "exercise"
format = 1
id = "seal"
title = "A seal"
step = 6
kind = "order"
scenario = "A joint."
task = "Lay it."
overlay = "inside"
[part]
form = "pipe"
inside_diameter = "24 in"
[[resin]]
id = "liner"
family = "vinyl-ester"
[[ply]]
material = "veil-c-15"
resin = "liner"
[[ply]]
material = "mat-1.5"
resin = "liner"
[[wall]]
material = "veil-c-15"
resin = "liner"
[[wall]]
material = "mat-1.5"
resin = "liner"
count = 2
[joint]
inside_width = "4 in"
gap = "0.125 in"
axial_load = "0 lb/in"
qualification = "procedure 4"
`

func TestDecodeExercise_readsWhatIsLaidOverAJoint(t *testing.T) {
	e, problems := DecodeExercise([]byte(sealOf))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	x := &e.Joint
	if e.Overlay != overlay.Seal || !e.Given.Part.Place.Lined || len(e.Wall) != 2 || e.Wall[1].Count != 2 || x.InsideWidth.Text() != "4 in" || x.Gap.Text() != "0.125 in" || !x.AxialLoad.Given() || x.Qualification != "procedure 4" {
		t.Errorf("%+v", e)
	}
	change := func(old, now string) string {
		if !strings.Contains(sealOf, old) {
			t.Fatalf("no %q", old)
		}
		return strings.Replace(sealOf, old, now, 1)
	}
	for _, c := range []struct {
		name, text string
		line       int
		key, want  string
	}{
		{"no overlay", change("overlay = \"inside\"\n", ""), 1, "overlay", "[[wall]], [joint] and [nozzle]"},
		{"another overlay", change(`"inside"`, `"neck"`), 9, "overlay", "outside (a strap), inside (a seal), pad"},
		{"a pad at a joint", change(`"inside"`, `"pad"`), 29, "joint", "has a [nozzle]"},
		{"a nozzle at a joint", sealOf + "[nozzle]\nsize = \"3 in\"\n", 34, "nozzle", "has a [joint]"},
		{"another kind", change(`"order"`, `"choose"`), 9, "overlay", "order, predict and fix"},
		{"parts that are no pipe", change(`"pipe"`, `"tank"`), 9, "overlay", "a pipe or a duct"},
		{"no wall", sealOf[:strings.Index(sealOf, "[[wall]]")] + sealOf[strings.Index(sealOf, "[joint]"):], 9, "overlay", "no [[wall]]"},
		{"an angle in the wall that cannot be", change("count = 2", "count = 2\nangle = 500"), 29, "wall.angle", "90"},
		{"a resin that is not there", strings.Replace(sealOf, "resin = \"liner\"\ncount", "resin = \"linr\"\ncount", 1), 27, "wall.resin", `"linr"`},
		{"a gap that cannot be", change(`"0.125 in"`, `"-1 in"`), 31, "joint.gap", "below zero"},
		{"a joint that names parts", sealOf + "between = [\"a\", \"b\"]\n", 34, "joint.between", "known"},
	} {
		e, problems := DecodeExercise([]byte(c.text))
		found := false
		for _, p := range problems {
			found = found || p.Line == c.line && p.Key == c.key && strings.Contains(p.Message, c.want)
		}
		if e != nil || !found {
			t.Errorf("%s: %v, want line %d: %s: …%s…", c.name, problems, c.line, c.key, c.want)
		}
	}
}

func TestExercises_areAllRead(t *testing.T) {
	files, err := filepath.Glob("exercises/*.toml")
	if err != nil || len(files) < 30 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	list, problems := Exercises()
	if len(problems) > 0 || len(list) != len(files) {
		t.Fatalf("%d of %d: %v", len(list), len(files), problems)
	}
	for i, e := range list {
		if i > 0 && e.Step < list[i-1].Step {
			t.Errorf("%s stands after a later step", e.ID)
		}
		if _, err := os.Stat("exercises/" + e.ID + ".toml"); err != nil {
			t.Errorf("%s does not bear its file's name", e.ID)
		}
	}
}

func TestDoc_namesEveryKeyOfAnExercise(t *testing.T) {
	b, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	_, text, _ := strings.Cut(string(b), "ExerciseKeys")
	flat := strings.Join(strings.Fields(strings.ReplaceAll(text, "//", "")), " ")
	for _, tk := range ExerciseKeys() {
		var keys []string
		for _, k := range tk.Keys {
			keys = append(keys, k.Name)
		}
		switch tk.Table {
		case "", "question", "specimen", "hint":
			if !strings.Contains(flat, strings.Join(keys, " ")) {
				t.Errorf("doc.go does not list the keys of %q: %s", tk.Table, strings.Join(keys, " "))
			}
		}
	}
}

// FuzzDecodeExercise wants no panic, lines inside the file, problems that can
// be printed, and of what is taken that its kind has what it needs.
func FuzzDecodeExercise(f *testing.F) {
	f.Add([]byte(everyKey))
	f.Add([]byte(sealOf))
	for _, name := range []string{"a1-cool-brine", "b1-caustic-day-tank", "c5-lean-structure", "d1-hand-laid-wall"} {
		b, err := os.ReadFile("exercises/" + name + ".toml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	f.Add([]byte("document = 'exercise'\nformat = 1\nquestion = [{ask = 'loss'}, 1]\nbarrier.x = 1"))
	f.Fuzz(func(t *testing.T, b []byte) {
		e, problems := DecodeExercise(b)
		lines := 1 + bytes.Count(b, []byte("\n"))
		for _, p := range problems {
			if r, bad := word.BadCharacter(p.String(), false); bad || p.Line > lines || p.Message == "" {
				t.Fatalf("problem %+v (%U) of %d lines", p, r, lines)
			}
		}
		if (e == nil) != (len(problems) > 0) {
			t.Fatalf("%v with %v", e, problems)
		}
		if e != nil && (e.ID == "" || e.Step < 1 || e.Step > exercise.Steps || e.Kind == exercise.NoKind || e.Kind.Asks() != (len(e.Questions) > 0)) {
			t.Fatalf("%+v", e)
		}
	})
}
