package practice

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/exercise"
	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/pagetest"
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
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	return sitting(t, &memory{of: map[string][]practice.Entry{}})
}

// sitting opens the page for somebody who may have been there before.
func sitting(t testing.TB, kept *memory) *rig {
	t.Helper()
	d, err := editor.FromBytes("example", schedules.Example(), shop.New(shop.Options{NoBook: true}))
	if err != nil {
		t.Fatal(err)
	}
	o := Usual("", nil, nil)
	o.Keeper = kept
	today, _ := practice.ParseDay("2026-03-02")
	o.Today = func() practice.Day { return today }
	o.Seed = func() uint64 { return 7 }
	p := New(&page.Desk{Doc: d, Theme: draw.New(draw.Mono), Row: -1}, o)
	p.SetSize(80, 24)
	t.Cleanup(p.end) // nothing writes into the test's folder any more
	return &rig{p, t, kept}
}

// at starts an exercise of the course by its id, for somebody with a name.
func at(t testing.TB, id string) *rig {
	t.Helper()
	return open(t).at(id)
}

func (r *rig) at(id string) *rig {
	r.t.Helper()
	r.load()
	r.person = "Tester"
	for _, e := range r.list {
		if e.ID == id {
			r.start(e)
			return r
		}
	}
	r.t.Fatalf("there is no exercise %s", id)
	return nil
}

func (r *rig) press(names ...string) {
	r.t.Helper()
	for _, e := range tuitest.Events(names...) {
		found, why := pagetest.Press(r.Practice, e)
		if why != "" {
			r.here().Refuse(why)
		}
		// As the root does: keys of everywhere act on the exercise's own document.
		if !found && r.Own() != nil {
			switch e.Key {
			case "u":
				r.Own().Undo()
			case "y":
				r.Own().Redo()
			}
		}
		if err := r.Keep(); err != nil {
			r.t.Error(err)
		}
		if r.here().Notice.Refusal {
			r.t.Logf("%s: %s", e.Key, r.here().Notice.Text)
		}
	}
}

func (r *rig) screen() string {
	r.t.Helper()
	f := r.Frame
	r.Settle() // as the root does after whatever changes something
	lines := tuitest.Box(r.t, draw.FitLines(r.Lines(), f.Body.W, f.Body.H), f.Body.W, f.Body.H)
	return lines + "\n" + r.here().Notice.Line(r.Desk.Theme, f.Body.W)
}

func (r *rig) score() float64 {
	r.t.Helper()
	m, ok := r.now.(*marked)
	if !ok {
		r.t.Fatalf("not marked: %T, %+v", r.now, r.Desk.Notice)
	}
	return m.result.Score
}

// The keys of every screen have one meaning each, and each says what it does.
func TestKeys_haveOneMeaningEach(t *testing.T) {
	for _, keys := range [][]string{{}, {"g"}, {"w"}, {"1"}, {"1", "1"}, {"1", "1", "w"}, {"1", "1", "c"}, {"1", "2"}, {"1", "4"}, {"1", "4", "enter"}, {"1", "5"}, {"1", "6"}, {"1", "6", "1"}} {
		r := open(t)
		r.load()
		r.nobody = true
		r.press(keys...)
		table := r.Table()
		if o := r.Over(); o != nil {
			table = o.Table()
		}
		if err := table.Check(); err != nil {
			t.Errorf("after %v: %v", keys, err)
		}
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
		golden   []string // states of it that are drawn
	}{
		{"build right", "a1-cool-brine", []string{"1", "3", "+", "."}, true, []string{"asked"}},
		{"build without veil", "a1-cool-brine", []string{"3", "+", "."}, false, []string{"answered", "marked", "beside"}},
		{"choose right", "a2-first-veil", []string{"2", "5"}, true, []string{"marked"}},
		{"choose wrong", "a3-etch-rinse", []string{"1", "1"}, false, []string{"answered"}},
		{"fix right", "a4-bare-mat", []string{"enter", "1"}, true, []string{"asked"}},
		{"fix right, the neighbor named", "a4-bare-mat", []string{"1", "enter", "1"}, true, nil},
		{"fix the sound", "a4-bare-mat", []string{"3", "enter"}, false, nil},
		{"order right", "a5-from-the-fluid", []string{"4", "6", "2", "5", "3", "7", "1"}, true, nil},
		{"order wrong", "a5-from-the-fluid", []string{"1", "2", "3", "4", "5", "6", "7"}, false, []string{"answered"}},
		{"predict right", "a6-one-and-two", []string{"1", "113 mil", "enter", "25", "enter", "1", "enter"}, true, nil},
		{"predict wrong", "a6-one-and-two", []string{"1", "50 mil", "enter", "60 %", "enter", "4", "enter"}, false, []string{"asked"}},
		// 1 − after/before, mean of the three; glass is what is left.
		{"ignition right", "c4-veil-that-burned", []string{"1", "77.3", "enter", "22.7", "enter", "1", "enter"}, true, []string{"answered"}},
		{"ignition wrong", "c4-veil-that-burned", []string{"1", "22", "enter", "77", "enter", "2", "enter"}, false, nil},
		// Mat between cloth and cloth; chopped glass alone in the barrier.
		{"fix by a mat between", "d4-woven-on-woven", []string{"5", "enter", "down", "down", "down", "down", "-", "3", "5", "3"}, true, nil},
		// What is laid over a joint or at a nozzle goes to the bench at once: a mat over the
		// last roving, the veil carried over the mats, a mat between roving and roving.
		{"fix a strap", "f10-before-the-weekend", []string{"down", "down", "3"}, true, []string{"asked", "marked", "beside"}},
		{"fix a strap wrongly", "f10-before-the-weekend", []string{"3"}, false, []string{"marked"}},
		{"fix a seal", "f11-card-from-the-mandrel", []string{"down", "g", "down", "enter"}, true, []string{"answered"}},
		{"fix a seal by half", "f11-card-from-the-mandrel", []string{"down", "d", "g", "down", "enter"}, false, nil},
		{"fix a pad", "f12-pad-of-a-drain", []string{"down", "down", "-", "3", "5", "3"}, true, []string{"answered"}},
		{"fix by a swap", "d7-strand-in-the-barrier", []string{"3", "enter", "home", "down", "down", "r", "3", "."}, true, nil},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := at(t, tc.id)
			draw := func(state string) {
				screen := r.screen()
				if slices.Contains(tc.golden, state) {
					tuitest.Golden(t, state, screen)
				}
			}
			draw("asked")
			r.press(tc.keys...)
			draw("answered")
			r.press("c")
			if tc.name == "fix the sound" { // nothing is changed: it asks
				r.press("2")
			}
			got := r.score()
			draw("marked")
			if tc.full != (got == 1) {
				t.Errorf("score %v, want full %v:\n%s", got, tc.full, r.screen())
			}
			r.press("v")
			draw("beside")
			if n := len(r.kept.of["Tester"]); n != 1 {
				t.Errorf("%d entries kept, want 1", n)
			}
		})
	}
}

// The task stands whole on a screen of 80×24, before anything else, in every
// exercise of the course.
func TestExercises_theTaskStandsFirstAndWhole(t *testing.T) {
	r := open(t)
	r.load()
	for _, e := range r.list {
		r := r.at(e.ID)
		var lines []string
		for _, l := range strings.Split(r.screen(), "\n")[1:] {
			lines = append(lines, strings.TrimPrefix(strings.TrimSpace(l), "task"))
		}
		screen, task := strings.Join(strings.Fields(strings.Join(lines, " ")), " "), strings.Join(strings.Fields(e.Task), " ")
		if !strings.HasPrefix(screen, task) {
			t.Errorf("%s asks %q:\n%s", e.ID, task, r.screen())
		}
		r.end()
	}
}

// Nothing of what the rules find is said before the answer is marked, all of it
// with its reason afterwards.
func TestExercises_findingsComeWithTheMark(t *testing.T) {
	r := at(t, "a7-lamp-rinse")
	r.SetSize(120, 36)
	for _, key := range []string{"1", "3", "+", ".", "g", "esc", "r", "2", "esc"} {
		r.press(key)
		screen := r.screen()
		for _, word := range []string{"BREAK", "break", "warning", "fluorides attack"} {
			if strings.Contains(screen, word) {
				t.Fatalf("after %s the screen says %q:\n%s", key, word, screen)
			}
		}
	}
	r.press("c")
	m := r.now.(*marked)
	all := ""
	for range m.length() {
		all += strings.Join(m.reason(r.Desk.Theme, 400), "\n")
		r.press("down")
	}
	for i := range m.result.Report.Findings {
		f := &m.result.Report.Findings[i]
		if !strings.Contains(all, f.Message) || !strings.Contains(all, strings.Fields(f.Rule.Why)[0]) {
			t.Errorf("not told: %s", f.Message)
		}
	}
	if len(m.result.Report.Findings) == 0 || !strings.Contains(all, "fluorides") {
		t.Errorf("told is only:\n%s", all)
	}
}

// The exercise's document has its own undo, both ways to the end.
func TestBench_takesBackAndDoesAgain(t *testing.T) {
	r := at(t, "a1-cool-brine")
	r.press("1", "3", "+", ".", "u", "u", "u", "u", "u")
	if n := len(r.Own().Doc.Now().Plies); n != 4 {
		t.Errorf("all taken back there are %d rows, want the 4 given", n)
	}
	r.press("y", "y", "y", "y", "c")
	if got := r.score(); got != 1 {
		t.Errorf("done again it scores %v", got)
	}
	if r.Desk.Doc.CanUndo() || r.Desk.Doc.Dirty() {
		t.Error("the document that is open was touched")
	}
}

func TestPage_walksTheCourse(t *testing.T) {
	r := open(t)
	r.press("g")
	if o := r.Over(); o == nil || o.Title() != "words of the trade" {
		t.Errorf("no glossary:\n%s", r.screen())
	}
	r.press("v", "e", "i", "l")
	if !strings.Contains(r.screen(), "C-glass") {
		t.Errorf("veil finds no word:\n%s", r.screen())
	}
	r.press("esc", "esc", "1")
	tuitest.Golden(t, "step", r.screen())
	r.press("1", "enter")
	if !r.Desk.Notice.Refusal {
		t.Error("no name was taken for a name")
	}
	r.press("Ada", "enter")
	if _, ok := r.now.(*atBench); !ok || r.person != "Ada" {
		t.Fatalf("after the name: %T for %q", r.now, r.person)
	}
	r.press("c", "2")
	if r.score() > 0.5 {
		t.Errorf("nothing laid scores %v", r.score())
	}
	if n := len(r.kept.of["Ada"]); n != 1 {
		t.Fatalf("%d entries kept", n)
	}
	r.press("n") // not the same again at once
	if r.work == nil || r.work.base().exercise().ID == "a1-cool-brine" {
		t.Errorf("next is %T", r.now)
	}
	r.press("esc", "esc", "esc", "esc", "esc")
	tuitest.Golden(t, "home after a miss", r.screen())
}

// An exercise in which nothing was changed is handed in only by who says so.
func TestExercises_unchangedAreHandedInOnlyWhenAskedFor(t *testing.T) {
	for _, id := range []string{"a1-cool-brine", "a4-bare-mat"} {
		r := at(t, id)
		for _, keys := range [][]string{{"c", "esc"}, {"c", "enter"}, {"c", "1"}} {
			r.press(keys...)
			if _, marked := r.now.(*marked); marked || r.Over() != nil {
				t.Fatalf("%s after %v: %T\n%s", id, keys, r.now, r.screen())
			}
		}
		if r.press("c", "2"); r.score() == 1 {
			t.Errorf("%s: as it was given it marks full", id)
		}
	}
}

// On the smallest screen every row on the table is told whole: what is to be
// gelled after decides the order.
func TestOrdering_noNameIsCutOnASmallScreen(t *testing.T) {
	r := at(t, "a5-from-the-fluid")
	r.SetSize(60, 16)
	for _, key := range []string{"", "2", "1"} {
		if key != "" {
			r.press(key)
		}
		screen, o := r.screen(), r.now.(*ordering)
		for i := range o.exercise().Given.Plies {
			if name := o.name(r.Practice, &o.exercise().Given.Plies[i]); !strings.Contains(screen, name) {
				t.Errorf("%q is not whole:\n%s", name, screen)
			}
		}
		if !strings.Contains(screen, "2 hints left") {
			t.Errorf("the title is cut:\n%s", screen)
		}
	}
	if !strings.Contains(r.screen(), "laid as 2") {
		t.Errorf("what is laid does not stand there:\n%s", r.screen())
	}
}

func TestPage_hintCostsAndStays(t *testing.T) {
	r := at(t, "a1-cool-brine")
	r.press("h", "1", "u")
	if n := r.work.base().session.Answer().Hints; n != 1 {
		t.Errorf("%d hints after taking back, want 1", n)
	}
	if !strings.Contains(r.screen(), "hint 1") {
		t.Errorf("the hint is not there:\n%s", r.screen())
	}
	r.press("w")
	tuitest.Golden(t, "the whole task", r.screen())
	r.press("esc", "home", "up", "1", "3", "+", ".", "c")
	if got := r.score(); got != 0.9 {
		t.Errorf("score %v, want 0.9: a hint costs a tenth", got)
	}
	r.press("t", "x")
	if _, ok := r.now.(*atBench); !ok {
		t.Errorf("trying again shows %T", r.now)
	}
}

// An answer that is not marked waits for its person: through leaving and
// through the end of the program, with its hints paid.
func TestPage_offersTheAnswerThatWasNotMarked(t *testing.T) {
	for _, tc := range []struct {
		id   string
		keys []string
		rest []string // what is missing to the full mark
	}{
		{"a1-cool-brine", []string{"1", "3"}, []string{"home", "down", "+", "."}},
		{"a4-bare-mat", []string{"1", "enter"}, []string{"enter", "1"}},
		{"a2-first-veil", []string{"2"}, []string{"right", "5"}},
		{"a5-from-the-fluid", []string{"4", "6", "2"}, []string{"5", "3", "7", "1"}},
		{"a6-one-and-two", []string{"1", "113 mil", "enter", "25"}, []string{"3", "1", "enter"}},
	} {
		t.Run(tc.id, func(t *testing.T) {
			r := at(t, tc.id)
			r.press("h")
			r.press(tc.keys...)
			r.end() // as the end of the process does, which frees the lock
			other := sitting(t, r.kept)
			other.load()
			other.person = "Somebody"
			other.at("a3-etch-rinse").end()
			again := sitting(t, r.kept).at(tc.id)
			if again.work != nil || !strings.Contains(again.screen(), "is kept that was not marked") {
				t.Fatalf("offered is %T:\n%s", again.now, again.screen())
			}
			again.press("enter")
			again.press(tc.rest...)
			again.press("c")
			if got := again.score(); got != 0.9 {
				t.Errorf("score %v, want full but for the hint:\n%s", got, again.screen())
			}
			again.press("esc")
			if third := sitting(t, r.kept).at(tc.id); third.work == nil {
				t.Errorf("marked, and offered again: %T", third.now)
			}
		})
	}
}

// One that was made up is found again too: by the same key, in its step.
func TestPage_offersTheMadeUpExerciseThatWasBegun(t *testing.T) {
	r := open(t)
	r.load()
	r.person = "Tester"
	r.press("2", "r")
	id := r.work.base().exercise().ID
	r.press("h", "esc")
	again := sitting(t, r.kept)
	again.load()
	again.person = "Tester"
	again.o.Seed = func() uint64 { return 99 }
	again.press("2", "r", "enter")
	if again.work == nil || again.work.base().exercise().ID != id || again.work.base().session.Answer().Hints != 1 {
		t.Errorf("not gone on with %s:\n%s", id, again.screen())
	}
}

// Looking at an exercise and leaving it keeps nothing.
func TestPage_leavingUndoneKeepsNothing(t *testing.T) {
	r := at(t, "a1-cool-brine")
	r.press("down", "esc")
	if _, ok := r.now.(*step); !ok || strings.Contains(r.Desk.Notice.Text, "kept") {
		t.Errorf("left to %T, %q", r.now, r.Desk.Notice.Text)
	}
	if again := sitting(t, r.kept).at("a1-cool-brine"); again.work == nil {
		t.Errorf("offered is %T", again.now)
	}
}

func TestPage_sizes(t *testing.T) {
	for _, size := range []struct {
		name string
		w, h int
	}{{"60x16", 60, 16}, {"120x36", 120, 36}} {
		r := at(t, "a1-cool-brine")
		r.SetSize(size.w, size.h)
		r.press("3")
		tuitest.Golden(t, "building "+size.name, r.screen())
		r.press("c")
		r.screen()
	}
}

func TestPage_progressThatCannotBeKeptIsSaid(t *testing.T) {
	r := at(t, "a2-first-veil")
	r.kept.full = true
	r.press("2", "5", "c")
	if !r.Desk.Notice.Refusal || !strings.Contains(r.Desk.Notice.Text, "disk is full") {
		t.Errorf("the notice says %+v", r.Desk.Notice)
	}
}

func TestPage_madeUpExerciseOfEachStep(t *testing.T) {
	for n := 1; n <= exercise.Steps; n++ {
		r := open(t)
		r.nobody = true
		r.press(string(rune('0'+n)), "r")
		if w := r.work; w == nil || w.base().exercise().Step != n || !strings.HasPrefix(w.base().exercise().ID, "made-") {
			t.Errorf("step %d shows %T", n, r.now)
		}
		r.screen()
	}
}

func TestPage_anyKeysAnySize(t *testing.T) {
	r := open(t)
	r.load()
	list := r.list
	keys := []string{"1", "2", "3", "5", "7", "9", "0", "+", "-", "g", "h", "r", ".", "*", "b", "c", "w", "u", "y", "d", "x", "enter", "esc", "up", "down", "left", "right", "pgup", "pgdown", "home", "end", "space", "backspace", "tab", "v", "t", "n"}
	rapid.Check(t, func(rt *rapid.T) {
		r := sitting(t, &memory{of: map[string][]practice.Entry{}})
		r.load()
		r.nobody = true
		if rapid.Bool().Draw(rt, "in an exercise") {
			r.start(rapid.SampledFrom(list).Draw(rt, "exercise"))
		}
		for range 3 {
			for _, e := range tuitest.Events(rapid.SliceOfN(rapid.SampledFrom(keys), 1, 6).Draw(rt, "keys")...) {
				pagetest.Press(r.Practice, e)
				_ = r.Keep()
			}
			r.SetSize(rapid.IntRange(1, 220).Draw(rt, "w"), rapid.IntRange(1, 70).Draw(rt, "h"))
			r.screen()
		}
	})
}

// A step is gone through to its end, and then it is said what comes next.
func TestMarked_nGoesOnInTheStepAndThenSaysWhatIsNext(t *testing.T) {
	r := at(t, "f1-seal-of-a-return")
	first := ""
	for n := range len(r.of(6)) {
		id := r.work.base().exercise().ID
		if r.work.base().exercise().Step != 6 || n > 0 && id == first {
			t.Fatalf("after %d of step 6 comes %s", n, id)
		}
		if first == "" {
			first = id
		}
		r.work.base().mark(r.Practice)
		r.press("n")
		if n == 0 && r.work == nil {
			t.Fatalf("nothing follows:\n%s", r.screen())
		}
		if n > 0 && r.work != nil && r.work.base().exercise().ID == first {
			return // all were missed: round again
		}
	}
	t.Errorf("it ends at %T", r.now)
}

func TestMarked_nAfterTheLastOfAStep(t *testing.T) {
	r := at(t, "f1-seal-of-a-return")
	for _, e := range r.of(6)[1:] {
		r.progress.Entries = append(r.progress.Entries, practice.Entry{Day: r.o.Today(), Exercise: e.ID, Step: 6, Score: 1})
	}
	r.press("2", "4", "3", "1", "c")
	if r.score() != 1 {
		t.Fatal(r.screen())
	}
	r.press("n")
	shown := r.screen()
	if r.now != screen(r.home) || !strings.Contains(shown, "step 6 is done for today") || !strings.Contains(shown, "n  A drain for cool brine") {
		t.Errorf("%T\n%s", r.now, shown)
	}
}

// What a key is said to do is what it does where that is read.
func TestPage_withoutANameSaysWhereOneIsAskedFor(t *testing.T) {
	r := open(t)
	r.load()
	r.press("6", "8", "esc")
	if r.work == nil || !strings.Contains(r.Desk.Notice.Text, "first screen of this page") {
		t.Fatalf("%T, %q", r.now, r.Desk.Notice.Text)
	}
	if r.press("w"); r.Over() == nil || r.Over().Title() != "the task" {
		t.Errorf("w opens\n%s", r.screen())
	}
	if r.press("esc", "esc", "esc", "w"); r.Over() == nil || !strings.Contains(r.Over().Title(), "whose progress") {
		t.Errorf("w opens\n%s", r.screen())
	}
}

func TestMarked_saysWhatWasAnsweredAndWhatIsThere(t *testing.T) {
	r := at(t, "f8-branch-on-a-friday")
	r.press("1", "2", "enter", "5", "enter", "c")
	tuitest.Golden(t, "the verdict", r.screen())
	r.press("down")
	tuitest.Golden(t, "the worst", r.screen())
}

// A question that nothing was said to is handed in only by who says so, and taking
// the form does not say that all is answered.
func TestAsking_unansweredIsHandedInOnlyWhenAskedFor(t *testing.T) {
	r := at(t, "f4-tacky-at-lunch")
	r.press("1", "4", "enter", "enter")
	if r.Desk.Notice.Text != "1 of 2 questions answered" || r.Desk.Notice.Tail != "" {
		t.Errorf("the notice is %+v", r.Desk.Notice)
	}
	for _, keys := range [][]string{{"c", "esc"}, {"c", "enter"}} {
		r.press(keys...)
		if _, marked := r.now.(*marked); marked {
			t.Fatalf("after %v it is marked", keys)
		}
	}
	r.press("c")
	if o := r.Over(); o == nil || o.Title() != "hand it in? 1 question not answered" {
		t.Errorf("it asks\n%s", r.screen())
	}
	if r.press("2"); r.score() != 0.5 {
		t.Errorf("score %v", r.score())
	}
	if screen := r.screen(); !strings.Contains(screen, "yours not answered, right wax between") {
		t.Errorf("the review is\n%s", screen)
	}
}

func TestTitle_saysWhatIsDone(t *testing.T) {
	for id, phrase := range map[string]string{"f4-tacky-at-lunch": "say what check finds", "f11-card-from-the-mandrel": "put it right", "c1-double": "predict the figures", "a4-bare-mat": "find and fix"} {
		if screen := at(t, id).screen(); !strings.Contains(screen, phrase) {
			t.Errorf("%s:\n%s", id, screen)
		}
	}
}

// Who asks whose progress is kept and leaves it is who he was.
func TestPage_leavingTheNamesKeepsThePerson(t *testing.T) {
	kept := &memory{of: map[string][]practice.Entry{"Ada": {{Exercise: "a1-cool-brine", Step: 1, Score: 0.2}}}}
	for _, keys := range [][]string{{"w", "esc"}, {"w", "2", "esc"}} {
		r := sitting(t, kept)
		r.load()
		if err := r.be("Ada"); err != nil {
			t.Fatal(err)
		}
		r.press(keys...)
		if r.Over() != nil {
			r.press("esc")
		}
		if r.person != "Ada" || r.nobody || len(r.progress.Entries) != 1 {
			t.Errorf("after %v it is %q with %d entries", keys, r.person, len(r.progress.Entries))
		}
	}
}

// A finding that begins with the plies it is about does not name them twice.
func TestMarked_namesPliesOnce(t *testing.T) {
	r := at(t, "d4-woven-on-woven")
	r.press("c", "2")
	if screen := r.screen(); strings.Contains(screen, "plies 5-6: plies") || !strings.Contains(screen, "plies 5–6") {
		t.Error(screen)
	}
}
