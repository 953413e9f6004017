package app

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

// at leads to a row of the job page by its name.
func (g *rig) at(name string) *rig {
	g.t.Helper()
	g.press("home")
	for range 40 {
		if strings.Contains(g.screen(), draw.Pointer+" "+name) {
			return g
		}
		g.press("down")
	}
	g.t.Fatalf("no row %s on\n%s", name, g.screen())
	return g
}

// What is laid at a joint, at a nozzle or in a corner is on the bench with all that
// the bench can do, and its title says where it is laid.
func TestBench_onWhatIsLaidAtAJoint(t *testing.T) {
	g := tank(t, schedules.ExampleJob(), 80, 24)
	g.at("J2").press("enter").shows("J2: open which?", "1 seal   laminate seal, 3 plies", "2 strap  laminate strap, 8 plies")
	g.press("2").shows("BENCH  strap: joint J2, strap, of Brine day tank", "part ", " air", "structure 279 mil", "ends in a waxed coat", "the bench is on joint J2, strap; laminate strap is of 3 others too: joi", "Esc job page")
	g.press("+").shows("not saved", "8-9", "added 1 ply to ply 8 topcoat", "u undoes it").press("x").shows("removed plies 8-9 topcoat", "total 279 mil")
	g.press("x x").shows("1 break", "BREAK", "joint J2: the structure of its strap may bear").press("u u u").shows("1 break", "plies 8–9 are waxed coats (topcoat) with more", "8-9")
	g.press("u y").shows("8-9").press("u")
	// Of the wall of a part there is nothing to show.
	g.press("tab").shows("of a part's wall alone").press("2").shows("of a part's wall alone").press("5").shows("LAY-UP  joint J2, strap, of Brine day tank")
	g.press("tab 6").shows("INSPECT  joint J2, strap, of Brine day tank").press("tab 1").shows("BENCH  strap: joint J2, strap,").press("up up").press("tab 5").press("g").shows("BENCH  strap: joint J2, strap,", "▸1  ").press("enter")
	g.esc().shows("JOB  Brine day tank", draw.Pointer+" J2")
	// A seal goes the other way: the last ply meets the fluid.
	g.press("enter 1").shows("seal: joint J2, seal,", "part ", " fluid", "barrier 113 mil, 25 %", "structure none", draw.Pointer+"3     : veil-c-15")
	g.press("home up").shows("adds a ply here, on the face it is laid on").press("up").shows("this is the face it is laid on: no ply lies before it")
	g.press("end x").shows("joint J2: the last ply of its seal, laminate seal, is no veil").hides("inner-surface").press("1").shows("1 note", "ends without a waxed", "inner")
	g.esc().at("bottom").press("enter").shows("bottom: open which?", "wall", "knuckle").press("2").shows("BENCH  knuckle: part bottom, knuckle, of").esc()
	g.press("enter enter").shows("BENCH  bottom of Brine day tank", "the bench is on bottom").esc()
	g.at("N1").press("enter 1").shows("BENCH  head: nozzle N1, neck, of", "fluid ", "laminate head is of 4 others too: part head").esc()
	g.at("head").press("enter").shows("BENCH  head of Brine day tank")
}

// A laminate opens on the wall that it is, else on what it is laid as, else by itself,
// which is not judged clear.
func TestBench_onALaminateByItself(t *testing.T) {
	g := tank(t, schedules.ExampleJob(), 80, 24)
	g.at("shell-mid").press("enter").shows("BENCH  shell-2 of Brine").esc()
	g.at("pad  ").press("enter").shows("BENCH  pad: nozzle N1, pad, of Brine").esc()
	g.press("a 4 1 enter").esc()
	g.at("laminate-1").press("enter").shows("BENCH  laminate laminate-1 of Brine day tank", "the bench is on laminate laminate-1, which nothing names yet", "adds the first ply: a mat, as a rule",
		"1 incomplete", "nothing names laminate laminate-1")
	g.press("3").shows("nothing names laminate laminate-1", "structure", "mat-1.5").press("tab 5").shows("nothing names this laminate").esc()
	// Undone, what the bench was on before is there again, and nothing is told of one laminate as if it were the other.
	g.press("u u").shows("BENCH  pad: nozzle N1, pad,", "the bench is on nozzle N1, pad · undid: added", "y does it again").hides("incomplete", "mil ·").esc().shows("JOB")
}

func TestBench_whereNothingIsNamedSaysHowItIsAdded(t *testing.T) {
	text := strings.Replace(string(schedules.ExampleJob()), "outside       = \"strap\"\ninside        = \"seal\"\n", "", 1)
	g := tank(t, []byte(text), 80, 24)
	g.at("J1").press("enter").shows("JOB", "J1 names no laminate: p fills it in; a adds and e names one (inside, outside)")
}

// Undone where something else is shown, what is laid at a joint comes up on the
// bench: a page of walls has nothing of it.
func TestUndo_leadsToTheBenchOfWhatIsLaid(t *testing.T) {
	g := tank(t, schedules.ExampleJob(), 80, 24)
	g.at("J2").press("enter 2 +").esc()
	g.at("shell-1").press("enter tab 2").shows("STRUCTURE  shell-1 of Brine day tank").press("u").shows("BENCH  strap: joint J2, strap,", "the bench is on joint J2, strap · undid: added 1 ply")
	g.press("e").shows("WHAT DIFFERS").esc()
	g.press("y e").shows("the file → the job as it stands", "topcoat: count 1 → 2").esc()
	// Job data has no line of a part there, and what it says is of the whole.
	g.press("k").shows("wrote tank-J2-laminate-schedule.pdf").press("j").shows("JOB DATA  strap: joint J2, strap,", "fluid").hides("inside diameter")
}

// Undone on the bench, what was changed of the whole job leaves the bench where it
// is: the next number key would add its ply to another wall. What was laid elsewhere
// leads there, and says so first.
func TestUndo_leavesTheBenchWhereItIsOrSaysWhereItWent(t *testing.T) {
	g := tank(t, schedules.ExampleJob(), 80, 24)
	g.at("J2").press("enter 2").shows("BENCH  strap: joint J2").esc()
	g.at("shell-1").press("e backspace backspace backspace backspace backspace backspace backspace l o w e r enter").esc()
	g.at("lower").press("enter").shows("BENCH  lower of Brine")
	g.press("u").shows("BENCH  shell-1 of Brine", "undid: ", "y does it again").press("y").shows("BENCH  lower of Brine", "did again: ")
	// Of the service, which all share, too.
	g.esc().at("head").press("enter").shows("BENCH  head of").press("j").shows("JOB DATA")
	g.press("pgup pgup x enter").esc().shows("BENCH  head of").esc()
	g.at("shell-2").press("enter u").shows("BENCH  shell-2 of", "undid: ").hides("the bench is on")
	g.press("+").esc().at("shell-3").press("enter").shows("BENCH  shell-3").press("u").shows("BENCH  shell-2 of", "the bench is on shell-2 · undid: added 1 ply")
	g.esc().at("head").press("enter y").shows("BENCH  shell-2 of", "the bench is on shell-2 · did again: added 1 ply")
}

// Whatever a key does there is listed, whatever is on the bench.
func TestKeys_ofWhatIsLaidAreListed(t *testing.T) {
	for _, state := range []string{"", "enter", "enter 1", "enter 2", "enter 2 home up", "enter 2 enter", "enter 2 0", "enter 2 r", "enter 2 *", "enter 2 x x x x", "enter 2 x x x x w", "enter 2 j", "enter 2 tab", "enter 2 tab 5", "enter 2 tab 6"} {
		t.Run(state, func(t *testing.T) {
			tank(t, schedules.ExampleJob(), 80, 24).at("J2").press(state).listsWhatKeysDo()
		})
	}
}

func TestScreen_ofWhatIsLaid(t *testing.T) {
	for _, tc := range []struct {
		row, keys string
		w, h      int
	}{{"J2", "enter 1", 80, 24}, {"J2", "enter 2 x x x", 160, 50}, {"N1", "enter 3 0 w o", 100, 30}} {
		t.Run(fmt.Sprintf("%s %s %d", tc.row, tc.keys, tc.w), func(t *testing.T) {
			g := tank(t, schedules.ExampleJob(), tc.w, tc.h).at(tc.row).press(tc.keys)
			tuitest.Golden(t, "screen", tuitest.Visible(g.r.View()))
		})
	}
}

// Whatever is typed in a job at whatever size, the screen has exactly its size,
// nothing panics, and undone it is the bytes that were opened.
func TestScreen_anyKeysInAJob(t *testing.T) {
	text := schedules.ExampleJob()
	t.Chdir(state(t))
	rapid.Check(t, func(rt *rapid.T) {
		d, err := editor.FromBytes("tank.toml", text, none)
		if err != nil {
			rt.Fatal(err)
		}
		w, h := rapid.IntRange(1, 200).Draw(rt, "w"), rapid.IntRange(1, 60).Draw(rt, "h")
		r := New(d, options(draw.Mono))
		defer r.Close()
		r.o.Folder = "testdata"
		r.Update(tea.WindowSizeMsg{Width: w, Height: h})
		for range rapid.IntRange(0, 36).Draw(rt, "row") {
			r.Update(tuitest.Raw(t, "down"))
		}
		for _, k := range rapid.SliceOfN(rapid.SampledFrom(append([]string{"enter", "enter", "tab", "esc", "1", "2"}, keysOfAll...)), 1, 40).Draw(rt, "keys") {
			_, cmd := r.Update(tuitest.Raw(t, k))
			if k == "esc" {
				tuitest.Drain(t, r, cmd)
			}
			tuitest.Box(rt, strings.Split(r.View(), "\n"), w, h)
			if r.End().Crash != nil {
				rt.Fatalf("key %q: %v\n%s", k, r.End().Crash, r.End().Stack)
			}
		}
		if r.Document() != d {
			return // another document was opened
		}
		if o := d.Lent(); o != nil && d.Job().Laminates[d.Job().Laminate(o.Laminate)].ID != o.Laminate || len(d.Job().Parts) > 0 && d.Part() >= len(d.Job().Parts) {
			rt.Fatalf("%+v of part %d", d.Lent(), d.Part())
		}
		for d.CanUndo() {
			r.desk.Undo()
		}
		if !bytes.Equal(d.Bytes(), text) {
			rt.Fatalf("undone, the bytes differ:\n%s", d.Bytes())
		}
	})
}
