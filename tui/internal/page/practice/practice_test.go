package practice

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/tuitest"
)

// memory keeps progress as long as a test runs.
type memory struct {
	of   map[string][]practice.Entry
	full bool
}

func (m *memory) People() ([]string, error) {
	var list []string
	for name := range m.of {
		list = append(list, name)
	}
	return list, nil
}

func (m *memory) Load(person string) (practice.Progress, error) {
	return practice.Progress{Entries: m.of[person]}, nil
}

func (m *memory) Add(person string, e practice.Entry) error {
	if m.full {
		return errors.New("the disk is full")
	}
	m.of[person] = append(m.of[person], e)
	return nil
}

type rig struct {
	*Practice
	t    testing.TB
	kept *memory
}

func open(t testing.TB) *rig {
	t.Helper()
	list := all.Rules()
	d, err := editor.FromBytes("example", schedules.Example(), editor.Options{
		Judge: func(s *laminate.Schedule, lib *laminate.Library, units quantity.System) *rules.Report {
			return rules.Judge(list, s, lib, rules.Options{Units: units})
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	o := Usual("", nil, nil)
	kept := &memory{of: map[string][]practice.Entry{}}
	o.Keeper = kept
	today, _ := practice.ParseDay("2026-03-02")
	o.Today = func() practice.Day { return today }
	o.Seed = func() uint64 { return 7 }
	p := New(&page.Desk{Doc: d, Theme: draw.New(draw.Mono), Row: -1}, o)
	p.SetSize(80, 24)
	return &rig{p, t, kept}
}

// at starts an exercise of the course by its id, for somebody with a name.
func at(t testing.TB, id string) *rig {
	t.Helper()
	r := open(t)
	r.load()
	r.person = "Tester"
	for _, e := range r.list {
		if e.ID == id {
			r.start(e)
			return r
		}
	}
	t.Fatalf("there is no exercise %s", id)
	return nil
}

// press types keys; it tells whether the last one is left to the root.
func (r *rig) press(names ...string) (left bool) {
	r.t.Helper()
	for _, e := range tuitest.Events(names...) {
		found, why := page.Press(r.Practice, e)
		left = !found
		if why != "" {
			r.desk.Refuse(why)
		}
		if r.desk.Notice.Refusal {
			r.t.Logf("%s: %s", e.Key, r.desk.Notice.Text)
		}
	}
	return left
}

func (r *rig) screen() string {
	r.t.Helper()
	f := r.frame
	lines := tuitest.Box(r.t, draw.FitLines(r.Lines(), f.Body.W, f.Body.H), f.Body.W, f.Body.H)
	return lines + "\n" + r.desk.Notice.Line(r.desk.Theme, f.Body.W)
}

func (r *rig) score() float64 {
	r.t.Helper()
	m, ok := r.now.(*marked)
	if !ok {
		r.t.Fatalf("not marked: %T, %+v", r.now, r.desk.Notice)
	}
	return m.result.Score
}

func TestBindings_haveOneMeaningEach(t *testing.T) {
	if err := open(t).Table().Check(); err != nil {
		t.Error(err)
	}
}

// Every kind of exercise solved by keys alone, right and wrong. What is right is
// common practice, no source: C-glass veil and two mats for cool brine, glass
// veil and vinyl ester for a mild rinse, a veil where one is missing, waxed coat
// last; the figures follow from t = W/ρf + b/ρb and the weighings (ASTM D2584).
func TestExercises_byKeysAlone(t *testing.T) {
	for _, tc := range []struct {
		name, id string
		keys     []string
		full     bool
	}{
		{"build right", "a1-cool-brine", []string{"2", "7", "+", "g", "m"}, true},
		{"build without veil", "a1-cool-brine", []string{"7", "+", "g", "m"}, false},
		{"choose right", "a2-first-veil", []string{"2", "5", "m"}, true},
		{"choose wrong", "a3-etch-rinse", []string{"1", "1", "m"}, false},
		{"fix right", "a4-bare-mat", []string{"1", "enter", "1", "m"}, true},
		{"fix the sound", "a4-bare-mat", []string{"3", "enter", "m"}, false},
		{"order right", "a5-from-the-fluid", []string{"4", "6", "2", "5", "3", "7", "1", "m"}, true},
		{"order wrong", "a5-from-the-fluid", []string{"1", "2", "3", "4", "5", "6", "7", "m"}, false},
		{"predict right", "a6-one-and-two", []string{"1", "113 mil", "enter", "25", "enter", "1", "m"}, true},
		{"predict wrong", "a6-one-and-two", []string{"1", "50 mil", "enter", "60 %", "enter", "4", "m"}, false},
		{"ignition right", "c4-veil-in-the-ash", nil, true},
		{"ignition wrong", "c4-veil-in-the-ash", []string{"1", "22", "enter", "77", "enter", "2", "m"}, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := at(t, tc.id)
			if tc.keys == nil {
				// 1 − after/before, mean of the three; glass is what is left.
				tc.keys = []string{"1", "77.3", "enter", "22.7", "enter", "1", "m"}
			}
			tuitest.Golden(t, "asked", r.screen())
			r.press(tc.keys[:len(tc.keys)-1]...)
			tuitest.Golden(t, "answered", r.screen())
			r.press("m")
			got := r.score()
			tuitest.Golden(t, "marked", r.screen())
			if tc.full != (got == 1) {
				t.Errorf("score %v, want full %v:\n%s", got, tc.full, r.screen())
			}
			r.press("v")
			tuitest.Golden(t, "beside", r.screen())
			if n := len(r.kept.of["Tester"]); n != 1 {
				t.Errorf("%d entries kept, want 1", n)
			}
		})
	}
}

// Barriers that need more than plies, and fixes within a row, can be done
// by keys to the full mark: carbon veil, powder and an earth where vapors burn;
// hard grain against wear; amine cure and a double barrier for hypochlorite;
// mat between cloth and cloth; chopped glass alone in the barrier (common
// practice, no source).
func TestExercises_ofTheLaterSteps(t *testing.T) {
	for id, keys := range map[string][]string{
		"e1-solvent-drain":         {"4", "7", "+", "g", "r", "enter", "3", "enter", "5", "enter", "enter", "lug at each end", "enter", "esc"},
		"e2-grit-line":             {"2", "7", "+", "g", "r", "enter", "1", "enter", "35", "esc", "m"},
		"e3-bleach-header":         {"2", "+", "7", "+", "+", "+", "g", "r", "enter", "enter", "enter", "2", "esc"},
		"d4-cloth-on-cloth":        {"5", "enter", "down", "down", "down", "down", "-", "5", "7", "5"},
		"d7-strand-in-the-barrier": {"3", "enter", "down", "down", "down", "x", "up", "5"},
	} {
		t.Run(id, func(t *testing.T) {
			r := at(t, id)
			r.press(keys...)
			if _, done := r.now.(*marked); !done {
				r.press("m")
			}
			if got := r.score(); got != 1 {
				t.Errorf("score %v:\n%s", got, r.screen())
			}
		})
	}
}

func TestPage_walksTheCourse(t *testing.T) {
	r := open(t)
	tuitest.Golden(t, "home", r.screen())
	r.press("g")
	tuitest.Golden(t, "glossary", r.screen())
	r.press("esc", "1")
	tuitest.Golden(t, "step", r.screen())
	r.press("1")
	tuitest.Golden(t, "who", r.screen())
	r.press("enter")
	if !r.desk.Notice.Refusal {
		t.Error("no name was taken for a name")
	}
	r.press("Ada", "enter")
	if _, ok := r.now.(*building); !ok || r.person != "Ada" {
		t.Fatalf("after the name: %T for %q", r.now, r.person)
	}
	r.press("m")
	if r.score() > 0.5 {
		t.Errorf("nothing laid scores %v", r.score())
	}
	if n := len(r.kept.of["Ada"]); n != 1 {
		t.Fatalf("%d entries kept", n)
	}
	r.press("n") // not the same again at once
	if w, ok := r.now.(work); !ok || w.base().exercise().ID == "a1-cool-brine" {
		t.Errorf("next is %T", r.now)
	}
	r.press("esc", "esc", "esc")
	tuitest.Golden(t, "home after a miss", r.screen())
}

func TestPage_hintCostsAndStays(t *testing.T) {
	r := at(t, "a1-cool-brine")
	r.press("h", "2", "backspace")
	if n := r.now.(work).base().session().Answer().Hints; n != 1 {
		t.Errorf("%d hints after taking back, want 1", n)
	}
	tuitest.Golden(t, "hint", r.screen())
	r.press("2", "7", "+", "g", "m")
	if got := r.score(); got != 0.9 {
		t.Errorf("score %v, want 0.9: a hint costs a tenth", got)
	}
	r.press("t", "x")
	if _, ok := r.now.(*building); !ok {
		t.Errorf("trying again shows %T", r.now)
	}
	r.press("esc")
	if _, ok := r.now.(*building); !ok || !strings.Contains(r.desk.Notice.Text, "again leaves") {
		t.Errorf("one Esc dropped the work: %T, %q", r.now, r.desk.Notice.Text)
	}
	r.press("esc")
	if _, ok := r.now.(*step); !ok {
		t.Errorf("two Esc show %T", r.now)
	}
}

func TestPage_quittingTellsOfUnmarkedWork(t *testing.T) {
	r := at(t, "a1-cool-brine")
	if !r.press("q") {
		t.Error("nothing was done, and q asks")
	}
	if r.press("2", "q") || !r.desk.Notice.Refusal {
		t.Errorf("q drops a veil unsaid: %+v", r.desk.Notice)
	}
	if !r.press("q") {
		t.Error("q again asks")
	}
}

// The page at the least size and at a wide one.
func TestPage_sizes(t *testing.T) {
	for _, size := range []struct {
		name string
		w, h int
	}{{"60x16", 60, 16}, {"120x36", 120, 36}} {
		r := at(t, "a1-cool-brine")
		r.SetSize(size.w, size.h)
		r.press("7")
		tuitest.Golden(t, "building "+size.name, r.screen())
		r.press("m")
		tuitest.Golden(t, "marked "+size.name, r.screen())
		r.press("esc")
		tuitest.Golden(t, "step "+size.name, r.screen())
		r = at(t, "c4-veil-in-the-ash")
		r.SetSize(size.w, size.h)
		r.press("1", "77")
		tuitest.Golden(t, "ignition "+size.name, r.screen())
	}
}

func TestBuilding_partsTheBarrierResin(t *testing.T) {
	r := at(t, "a1-cool-brine")
	r.press("2", "7", "r", "7", "enter", "1", "enter", "35", "enter", "esc")
	s := r.now.(*building).schedule()
	wall, _ := s.Resin("wall")
	own, ok := s.Resin(s.Plies[1].Resin)
	if !ok || own.ID == "wall" || own.Family != laminate.NovolacVinylEster || own.Filler != laminate.SiliconCarbide || own.FillerContent.Or(0) != 0.35 {
		t.Errorf("barrier resin %+v", own)
	}
	if wall.Family != laminate.VinylEster || wall.Filler != laminate.NoFiller || s.Plies[0].Resin != own.ID || s.Plies[2].Resin != "wall" {
		t.Errorf("the structure's resin changed with it: %+v, %+v", wall, s.Plies)
	}
	r.press("r", "pgdown")
	tuitest.Golden(t, "resin", r.screen())
	if s := r.now.(*mixing).schedule(); s.Plies[0].Resin == s.Plies[1].Resin {
		t.Error("the row got no mix of its own")
	}
	r.press("esc", "backspace", "backspace", "backspace", "backspace", "backspace", "backspace")
	if n := len(r.now.(*building).schedule().Plies); n != 4 {
		t.Errorf("all taken back there are %d rows, want the 4 given", n)
	}
	r.press("e")
	if n := len(r.now.(*building).schedule().Plies); n != 5 {
		t.Errorf("done again there are %d rows, want 5", n)
	}
	r.press("0", "carbon", "enter")
	if got := r.now.(*building).schedule().Plies[1].Material; got != "veil-carbon-11" {
		t.Errorf("laid %s by name", got)
	}
}

func TestPage_progressThatCannotBeKeptIsSaid(t *testing.T) {
	r := at(t, "a2-first-veil")
	r.kept.full = true
	r.press("2", "5", "m")
	if !r.desk.Notice.Refusal || !strings.Contains(r.desk.Notice.Text, "disk is full") {
		t.Errorf("the notice says %+v", r.desk.Notice)
	}
}

func TestPage_madeUpExerciseOfEachStep(t *testing.T) {
	for n := 1; n <= exercise.Steps; n++ {
		r := open(t)
		r.nobody = true
		r.press(string(rune('0'+n)), "r")
		w, ok := r.now.(work)
		if !ok || w.base().exercise().Step != n || !strings.HasPrefix(w.base().exercise().ID, "made-") {
			t.Errorf("step %d shows %T", n, r.now)
		}
		r.screen()
	}
}

func TestPage_anyKeysAnySize(t *testing.T) {
	r := open(t)
	r.load()
	list := r.list
	keys := []string{"1", "2", "3", "5", "7", "9", "0", "+", "-", "g", "h", "r", "e", "b", "x", "enter", "esc", "up", "down", "left", "right", "pgup", "pgdown", "home", "end", "space", "backspace", "tab", "v", "t", "n"}
	rapid.Check(t, func(rt *rapid.T) {
		r := open(t)
		r.load()
		r.nobody = true
		if rapid.Bool().Draw(rt, "in an exercise") {
			r.start(rapid.SampledFrom(list).Draw(rt, "exercise"))
		}
		for range 3 {
			for _, e := range tuitest.Events(rapid.SliceOfN(rapid.SampledFrom(keys), 1, 6).Draw(rt, "keys")...) {
				page.Press(r.Practice, e)
			}
			r.SetSize(rapid.IntRange(1, 220).Draw(rt, "w"), rapid.IntRange(1, 70).Draw(rt, "h"))
			r.screen()
		}
	})
}
