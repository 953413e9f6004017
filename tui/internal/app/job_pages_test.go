package app

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/settings"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

// tank opens a job out of a file.
func tank(t testing.TB, text []byte, w, h int) *rig {
	t.Helper()
	path := filepath.Join(state(t), "tank.toml")
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	d, err := editor.Open(path, none)
	if err != nil {
		t.Fatal(err)
	}
	r := New(d, options(draw.Mono))
	t.Cleanup(func() { _ = r.Close() })
	tuitest.Start(t, r, w, h)
	return &rig{t, r}
}

// What was open last has the verdict that check gives it: of a job that of the whole.
func TestStart_recentJobHasItsVerdict(t *testing.T) {
	g := tank(t, bytes.Replace(schedules.ExampleJob(), []byte(`outside       = "strap"`), []byte(`outside       = "seal"`), 1), 80, 24) // a joint breaks
	d := g.r.Document()
	want := d.JobReport().Verdict.String()
	g.r.o.Keep = true
	g.r.remember()
	g.press("down") // with which what it asked for is done
	if d.Report().Verdict.String() == want {
		t.Fatal("the wall at the top has the verdict of the job")
	}
	if list := settings.Recents(); len(list) != 1 || list[0].Verdict != want {
		t.Errorf("kept %+v, and check says %s", list, want)
	}
	// The bench is on one wall of it, and says on which.
	g.shows("JOB", "Brine day tank").press("tab 1").shows("bottom of Brine day tank")
}

// Of a job what differs is told of all of it, whichever part the bench is on: it
// was the wall on the bench against that of the first part, and nothing at all
// against the job as it was opened.
func TestDiffers_ofAJob(t *testing.T) {
	g := tank(t, schedules.ExampleJob(), 100, 40)
	g.press("down down down down down down enter + e").shows("the file → the job as it stands", "shell-1 in", "topcoat: count 1 → 2").hides("part.form", "bottom in")
	g.press("2").shows("the job as opened", "topcoat: count 1 → 2").press("esc u e").shows("differs").hides("topcoat")
}

// What is laid at a joint stands in the title of the page that lays it.
func TestTitle_namesWhatIsLaid(t *testing.T) {
	g := tank(t, schedules.ExampleJob(), 80, 24)
	g.press("down down down down down down down down down down down down down 5 2").shows("LAY-UP  joint J1, strap, of Brine day tank")
	g.press("tab 8").shows("Enter open  5 lay up  6 inspect  p fill in  e form  a add  Esc pages")
	g.press("tab 1").shows("BENCH  strap: joint J1, strap, of Brine day tank")
}

// The page of laying leads through a wall from the side that is on the mold.
func TestLayup_ofAPartLaidFromTheOutside(t *testing.T) {
	text := strings.Replace(string(schedules.ExampleJob()), "form            = \"flat-bottom\"", "form            = \"flat-bottom\"\nlaid = \"outside-in\"", 1)
	if text == string(schedules.ExampleJob()) {
		t.Fatal("the example has no such line")
	}
	tank(t, []byte(text), 80, 24).press("down down down down down down down 5 1").
		shows("LAY-UP", "part bottom, from the OUTSIDE in", "STOP", "wax-under-bond", "LAY PLY 9 of 9", "gel stop after ply 4, in 6 plies", "8 mat-1.5 · 7 woven-24").
		press("up").shows("no ply further that way").
		press("down down down down down").shows("ply 4 is shown", "GEL STOP after this ply", "next        GEL STOP · 2-3 mat-1.5 · 1 veil-c-15").
		press("down down down down").shows("no ply further that way", "1 of 9")
}

// What is wrong with a field is said to its end, and the field stays in sight:
// at 80 columns the message lost what would do.
func TestForm_saysWholeWhatIsWrongWithAField(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {60, 16}} {
		g := tank(t, schedules.ExampleJob(), size[0], size[1])
		g.press("e")
		for range 20 {
			if strings.Contains(g.screen(), "▸ length") {
				break
			}
			g.press("down")
		}
		g.press("1 2 space b enter")
		said := strings.Join(strings.Fields(g.screen()), " ")
		for _, want := range []string{"▸ length", "12 b_", `"12 b" is no length: "b" is not a unit of it; write a number and one of m, mm, cm, um, mil, in or ft`} {
			if !strings.Contains(said, want) {
				t.Errorf("%v: %q is missing:\n%s", size, want, g.screen())
			}
		}
	}
}

// A ? before anything is typed shows the keys: it took the place of the title that
// stood in the line. The name of the form stays in sight meanwhile.
func TestForm_questionMarkIsHelpUntilSomethingIsTyped(t *testing.T) {
	g := header(t, 80, 24)
	g.press("j pgup pgup ?").shows("JOB DATA · KEYS", "Filling in").press("?").shows("JOB DATA", "▸ title               Scrubber drain header").hides("KEYS")
	g.press("a ?").shows("▸ title               a?▏", "F1 all").press("f1").shows("JOB DATA · KEYS")
	tank(t, schedules.ExampleJob(), 80, 24).press("e ?").shows("JOB · MANWAY-COVER · KEYS").press("esc").shows("▸ id                 manway-cover")
	// So it is where letters find a row.
	header(t, 80, 24).press("0 ?").shows("KEYS", "letters").press("?").hides("KEYS").press("m ?").hides("KEYS").press("f1").shows("KEYS")
}

// The service of a job is typed as that of one wall is: a span of pH, a percentage, a
// bare 0, none of the traits; and reads so too.
func TestForm_ofTheServiceIsTypedAsThatOfAWall(t *testing.T) {
	lines := func(g *rig) *rig {
		for range 30 {
			if strings.Contains(g.screen(), "▸ fluid") {
				return g
			}
			g.press("down")
		}
		t.Fatal(g.screen())
		return g
	}
	typed := map[string]string{"▸ concentration": "1 2 enter", "▸ ph": "4 - 6 enter", "▸ vacuum": "0 enter", "▸ contains": "n o n e enter"}
	fill := func(g *rig) *rig {
		for range 16 {
			for label, k := range typed {
				if strings.Contains(strings.ToLower(g.screen()), label) {
					g.press(k + " up")
				}
			}
			g.press("down")
		}
		return g
	}
	g := tank(t, schedules.ExampleJob(), 100, 40)
	for range 30 {
		if strings.Contains(g.screen(), "▸ service") {
			break
		}
		g.press("down")
	}
	g = fill(lines(g.press("e")))
	v := g.r.Document().Job().Service
	if v.Concentration.Value != 0.12 || v.PH.Lowest != 4 || v.PH.Highest != 6 || v.Vacuum.Text() != "0 psi" || !v.Contains.Given || len(v.Contains.List()) != 0 {
		t.Errorf("%+v\n%s", v, g.screen())
	}
	g.shows("12 %", "4 to 6", "0 psi")
	w := fill(lines(header(t, 100, 40).press("j")))
	v = w.r.Document().Now().Service
	if v.Concentration.Value != 0.12 || v.PH.Lowest != 4 || v.PH.Highest != 6 || v.Vacuum.SI() != 0 || !v.Contains.Given || len(v.Contains.List()) != 0 {
		t.Errorf("%+v\n%s", v, w.screen())
	}
}

// What can be left out is typed as 0, as the line of the form says.
func TestForm_ofAJointTakesZero(t *testing.T) {
	g := tank(t, schedules.ExampleJob(), 100, 40)
	for range 30 {
		if strings.Contains(g.screen(), "▸ J1") {
			break
		}
		g.press("down")
	}
	g.press("e")
	for range 12 {
		if strings.Contains(g.screen(), "▸ axial load") {
			break
		}
		g.press("down")
	}
	g.press("0 enter").shows("0 lb/in").hides("unit is missing")
}
