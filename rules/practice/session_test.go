package practice_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
)

func TestSession_goesFromAnsweringToMarkedAndBack(t *testing.T) {
	lib := catalog.Library()
	s := practice.Start(find(t, "a2-first-veil"))
	before := s.Veil("veil-carbon-11")
	if s.Answer().Veil != "" || before.Answer().Veil == "" {
		t.Error("a session is not a value")
	}
	s = before.Family(practice.Solve(s.Exercise(), lib, quantity.US).Family).Submit(lib, quantity.US)
	m, ok := s.Mark()
	if !ok || s.Stage() != practice.Marked || m.Solution.Veil != "veil-c-15" {
		t.Fatalf("%+v", m)
	}
	if s.Veil("x").Answer().Veil == "x" || s.Hint().Answer().Hints != 0 {
		t.Error("an answer changes while it is marked")
	}
	if _, ok := s.Again().Mark(); ok || s.Again().Answer().Veil != "veil-carbon-11" || s.Again().Submit(lib, quantity.US).Tries() != 2 {
		t.Error("going on loses the answer, or shows the solution")
	}
	if e, ok := s.Entry(20_000); !ok || e.Exercise != "a2-first-veil" || e.Score != m.Score {
		t.Errorf("%+v", e)
	}
	if _, ok := before.Entry(20_000); ok {
		t.Error("an entry before there is a mark")
	}
}

func TestSession_hintsRunOutAndStayPaid(t *testing.T) {
	lib := catalog.Library()
	s := practice.Start(find(t, "b7-frosted-again"))
	if n, cost := s.HintsLeft(); n != 2 || cost != exercise.HintCost {
		t.Errorf("%d hints at %v", n, cost)
	}
	s = s.Hint().Hint().Hint().Hint()
	if n, _ := s.HintsLeft(); n != 0 || len(s.Hints()) != 2 {
		t.Errorf("%d left, %q", n, s.Hints())
	}
	s = s.Blame(1).Blame(2).Blame(2).Blame(0).Blame(999).Lay(practice.Solve(s.Exercise(), lib, quantity.US).Schedule).Submit(lib, quantity.US)
	if m, _ := s.Mark(); !m.Full() || m.Score < 0.79 || m.Score > 0.81 {
		t.Errorf("%v", m.Score)
	}
}

func TestSession_tellsValuesByTheirPlace(t *testing.T) {
	s := practice.Start(find(t, "c1-double"))
	told := s.Tell(1, "25 %").Tell(7, "x").Tell(-1, "x")
	if told.Answer().Values[1] != "25 %" || s.Answer().Values[1] != "" {
		t.Errorf("%q %q", told.Answer().Values, s.Answer().Values)
	}
}

func day(t *testing.T, s string) practice.Day {
	t.Helper()
	d, err := practice.ParseDay(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestDay_isTheCalendarsWhateverTheClock(t *testing.T) {
	late := time.Date(2026, 3, 1, 23, 59, 0, 0, time.FixedZone("", 14*3600))
	if d := practice.DayOf(late); d.String() != "2026-03-01" || d+1 != day(t, "2026-03-02") {
		t.Error(d)
	}
}

func TestNext_bringsBackWhatWasMissedThenWhatIsNew(t *testing.T) {
	list := builtIn(t)
	today := day(t, "2026-03-10")
	a, b, c := list[0].ID, list[1].ID, list[2].ID
	entry := func(id string, d practice.Day, score float64) practice.Entry {
		return practice.Entry{Day: d, Exercise: id, Step: 1, Score: score}
	}
	cases := []struct {
		name    string
		entries []practice.Entry
		want    string
	}{
		{"nothing done", nil, a},
		{"one passed", []practice.Entry{entry(a, today, 1)}, b},
		{"one missed, not at once again", []practice.Entry{entry(a, today, 0.2)}, b},
		{"one missed, another passed", []practice.Entry{entry(a, today, 0.2), entry(b, today, 1)}, a},
		{"one missed and fixed the same day", []practice.Entry{entry(a, today, 0.2), entry(b, today, 1), entry(a, today, 1)}, c},
		{"passed yesterday, due today", []practice.Entry{entry(a, today-1, 1), entry(b, today, 1)}, a},
		{"the longer due first", []practice.Entry{entry(a, today-2, 1), entry(b, today-5, 0.1), entry(c, today, 1)}, b},
		{"passed twice, due later", []practice.Entry{entry(a, today-2, 1), entry(a, today-1, 1), entry(b, today, 1)}, c},
	}
	for _, k := range cases {
		if got := practice.Next(practice.Progress{Entries: k.entries}, list, today); got.ID != k.want {
			t.Errorf("%s: %s, want %s", k.name, got.ID, k.want)
		}
	}
	if practice.Next(practice.Progress{}, nil, today) != nil {
		t.Error("something to do out of nothing")
	}
}

func TestProgress_waitsLongerEachTimeAndStartsAgainWhenMissed(t *testing.T) {
	var p practice.Progress
	d := day(t, "2026-01-05")
	var waits []practice.Day
	for range 7 {
		p.Entries = append(p.Entries, practice.Entry{Day: d, Exercise: "x", Score: 1})
		s := p.Of("x")
		waits = append(waits, s.Due-d)
		d = s.Due
	}
	for i := 1; i < len(waits); i++ {
		if waits[i] < waits[i-1] {
			t.Errorf("waits %v", waits)
		}
	}
	p.Entries = append(p.Entries, practice.Entry{Day: d, Exercise: "x", Score: 0.5})
	if s := p.Of("x"); s.Due != d || s.Box != 0 || !s.Missed() || s.Best != 1 || s.Tries != 8 {
		t.Errorf("%+v", s)
	}
}

func TestEntry_comesBackFromItsLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := practice.Entry{Day: practice.Day(rapid.IntRange(0, 40_000).Draw(t, "day")), Exercise: rapid.StringMatching("[a-z0-9-]{1,60}").Draw(t, "id"),
			Step: rapid.IntRange(0, 5).Draw(t, "step"), Score: rapid.Float64Range(0, 1).Draw(t, "score"), Hints: rapid.IntRange(0, 9).Draw(t, "hints")}
		if got, err := practice.ParseEntry(e.String()); err != nil || got != e {
			t.Fatalf("%q: %+v, %v", e.String(), got, err)
		}
	})
	for _, line := range []string{"", "2026-13-01 x step=1 score=1 hints=0", "2026-01-01 X! step=1 score=1 hints=0", "2026-01-01 x step=1 score=NaN hints=0",
		"2026-01-01 x step=9 score=1 hints=0", "2026-01-01 x score=1 step=1 hints=0"} {
		if _, err := practice.ParseEntry(line); err == nil {
			t.Errorf("%q is taken", line)
		}
	}
}

// RFC 4180: lines end in CRLF, a field with a comma or quote is quoted.
func TestWriteCSV_isReadByAnybody(t *testing.T) {
	list := builtIn(t)
	p := practice.Progress{Entries: []practice.Entry{{Day: day(t, "2026-03-02"), Exercise: list[0].ID, Step: 1, Score: 0.5}, {Day: day(t, "2026-03-03"), Exercise: "made-2-7", Step: 2, Score: 1}}}
	rows := practice.Summary(p, list)
	var b strings.Builder
	if err := practice.WriteCSV(&b, `=SUM(A1),"x"`, rows); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(b.String(), "\r\n")
	if len(lines) != len(list)+3 || !strings.HasPrefix(lines[1], `"'=SUM(A1),""x""",1,`+list[0].ID+",") || !strings.HasSuffix(lines[1], ",1,50,50,50,2026-03-02,2026-03-02") {
		t.Errorf("%q", lines[1])
	}
	totals := practice.ByStep(rows)
	if totals[0].Tried != 1 || totals[0].Passed != 0 || totals[0].Mean != 0.5 || totals[1].Passed != 1 {
		t.Errorf("%+v", totals)
	}
}

// An answer that an earlier sitting left is taken as far as it fits: a course
// may have changed meanwhile.
func TestSession_withTakesWhatFits(t *testing.T) {
	e := find(t, "a4-bare-mat")
	a := practice.Start(e).With(practice.Answer{Hints: 99, Faults: []int{0, 1, 1000}, Veil: "veil-c-15", Values: []string{"1", "2"}}).Answer()
	if a.Hints != len(e.Hints) || !slices.Equal(a.Faults, []int{1}) || a.Veil != "" || len(a.Values) != 0 || a.Schedule == nil {
		t.Errorf("taken is %+v", a)
	}
}

// After an exercise comes the next of its step, whatever other steps have to do.
func TestNextOf_staysInTheStep(t *testing.T) {
	list := builtIn(t)
	today := day(t, "2026-03-10")
	var six []*exercise.Exercise
	var all []practice.Entry
	for _, e := range list {
		if e.Step == 6 {
			six = append(six, e)
			all = append(all, practice.Entry{Day: today, Exercise: e.ID, Step: 6, Score: 1})
		}
	}
	missed := practice.Entry{Day: today, Exercise: list[0].ID, Step: 1, Score: 0}
	last := len(six) - 1
	but := func(i int, score float64) practice.Progress { // all passed but one
		entries := slices.Clone(all)
		entries[i].Score = score
		return practice.Progress{Entries: entries}
	}
	for _, k := range []struct {
		name  string
		done  practice.Progress
		after *exercise.Exercise
		want  *exercise.Exercise
	}{
		{"something of step 1 is missed", practice.Progress{Entries: []practice.Entry{missed, all[0]}}, six[0], six[1]},
		{"the first was missed", practice.Progress{Entries: []practice.Entry{missed, {Day: today, Exercise: six[0].ID, Step: 6}}}, six[0], six[1]},
		{"the last of the step, one before it missed", but(2, 0.3), six[last], six[2]},
		{"one that was made up", practice.Progress{}, &exercise.Exercise{ID: "made-6-4", Step: 6}, six[0]},
		{"all passed", practice.Progress{Entries: all}, six[last], nil},
		{"all passed but this one", but(3, 0), six[3], nil},
	} {
		got := practice.NextOf(k.done, list, k.after, today)
		if got != k.want {
			t.Errorf("%s: %v, want %v", k.name, got, k.want)
		}
	}
}
