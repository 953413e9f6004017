package page

import (
	"math"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"

	"pgregory.net/rapid"
)

func report(plies string, findings ...rules.Finding) *rules.Report {
	s := &laminate.Schedule{}
	for _, m := range strings.Fields(plies) {
		s.Plies = append(s.Plies, laminate.Ply{Material: m, Count: 1})
	}
	return &rules.Report{Schedule: s, Findings: findings}
}

func TestFresh_followsPliesThroughTheChange(t *testing.T) {
	woven, bare := &rules.Rule{ID: "woven-on-woven"}, &rules.Rule{ID: "no-outer-surface"}
	at := func(r *rules.Rule, s rules.Severity, rows ...int) rules.Finding {
		return rules.Finding{Rule: r, Severity: s, Rows: rows}
	}
	for _, tc := range []struct {
		name          string
		before, after *rules.Report
		want          []bool
	}{
		{"the same", report("a b c", at(woven, rules.Break, 2)), report("a b c", at(woven, rules.Break, 2)), []bool{false}},
		{"a ply laid inside", report("a b c", at(woven, rules.Break, 2)), report("x a b c", at(woven, rules.Break, 3)), []bool{false}},
		{"a ply taken out inside", report("a b c", at(woven, rules.Break, 2)), report("b c", at(woven, rules.Break, 1)), []bool{false}},
		{"another place", report("a b c d", at(woven, rules.Break, 1)), report("a b c d e", at(woven, rules.Break, 1), at(woven, rules.Break, 4)), []bool{false, true}},
		{"another rule", report("a", at(woven, rules.Break, 0)), report("a", at(bare, rules.Break, 0)), []bool{true}},
		{"worse than before", report("a", at(bare, rules.Warning, 0)), report("a", at(bare, rules.Break, 0)), []bool{true}},
		{"about no ply", report("a", at(bare, rules.Note)), report("a b", at(bare, rules.Note)), []bool{false}},
		{"the ply is gone", report("a b", at(woven, rules.Break, 1)), report("a"), []bool{}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got := Fresh(tc.before, tc.after)
			if len(got) != len(tc.want) {
				t.Fatalf("got %v, want %v", got, tc.want)
			}
			for i := range got {
				if got[i] != tc.want[i] {
					t.Errorf("got %v, want %v", got, tc.want)
				}
			}
		})
	}
}

// Rows are followed without lists of them: held to lists, for any change.
func TestPaired_isWhatListsOfRowsSay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plies := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b"}), 0, 8)
		before, after := report(strings.Join(plies.Draw(t, "before"), " ")), report(strings.Join(plies.Draw(t, "after"), " "))
		to := pair(before.Schedule.Plies, after.Schedule.Plies)
		rows := func(n int, label string) (list []int) {
			for i := range n {
				if rapid.Bool().Draw(t, label) {
					list = append(list, i)
				}
			}
			return list
		}
		was, is := rows(len(before.Schedule.Plies), "was"), rows(len(after.Schedule.Plies), "is")
		last := -1
		var moved []int
		for _, r := range was {
			if m := to.row(r); m >= 0 {
				if m <= last || m >= len(after.Schedule.Plies) {
					t.Fatalf("%+v: row %d goes to %d behind %d", to, r, m, last)
				}
				last = m
				moved = append(moved, m)
			}
		}
		want := len(moved) == 0 && len(is) == 0 || slices.ContainsFunc(moved, func(r int) bool { return slices.Contains(is, r) })
		if got := to.same(was, is); got != want {
			t.Errorf("%+v: rows %v and %v: %v", to, was, is, got)
		}
	})
}

func typed(f *Field, keys ...string) string {
	for _, e := range tuitest.Events(keys...) {
		f.Press(e)
	}
	return f.Text
}

func TestField_takesWhatIsTyped(t *testing.T) {
	f := &Field{Text: "30"}
	f.Enter()
	if got := typed(f, "28.5"); got != "28.5" {
		t.Errorf("typing does not replace what stood there: %q", got)
	}
	if got := typed(f, "backspace", "7"); got != "28.7" {
		t.Errorf("after Backspace: %q", got)
	}
	if !f.Changed() {
		t.Error("not changed")
	}
	f.Revert()
	if f.Text != "30" || f.Changed() {
		t.Errorf("put back: %q", f.Text)
	}
	f.Enter()
	if got := typed(f, "right", "0"); got != "300" {
		t.Errorf("going on where the text ends: %q", got)
	}
	f.Press(tuitest.Events("delete")[0])
	if f.Text != "" {
		t.Errorf("emptied: %q", f.Text)
	}
}

func TestField_choices(t *testing.T) {
	f := &Field{Choices: []string{"pipe", "duct", "tank"}}
	f.Enter()
	for _, tc := range []struct{ key, want string }{
		{"2", "duct"}, {"right", "tank"}, {"right", "pipe"}, {"left", "tank"}, {"0", ""}, {"9", ""}, {"left", "tank"}, {"delete", ""}, {"x", ""},
	} {
		if got := typed(f, tc.key); got != tc.want {
			t.Errorf("%s gives %q, want %q", tc.key, got, tc.want)
		}
	}
	several := &Field{Choices: []string{"brine", "solids", "solvent"}, Several: true}
	several.Enter()
	for _, tc := range []struct{ key, want string }{
		{"3", "solvent"}, {"1", "brine, solvent"}, {"right", "brine, solvent"}, {"space", "brine, solids, solvent"}, {"1", "solids, solvent"},
		{"2", "solvent"}, {"3", NoneOfThem}, {"0", ""},
	} {
		if got := typed(several, tc.key); got != tc.want {
			t.Errorf("%s gives %q, want %q", tc.key, got, tc.want)
		}
	}
}

func TestField_drawsInItsRoom(t *testing.T) {
	th := draw.New(draw.Mono)
	fields := []Field{
		{Label: "fluid", Text: strings.Repeat("long ", 40)},
		{Label: "form", Text: "tank", Choices: []string{"pipe", "duct", "tank", "panel"}},
		{Label: "contains", Text: "solids, solvent", Several: true, Choices: []string{"fluorides", "hypochlorite", "chlorine-dioxide", "strong-base", "solids", "solvent"}},
	}
	for i := range fields {
		for w := 20; w < 130; w++ {
			for _, focused := range []bool{true, false} {
				for _, line := range fields[i].Lines(th, focused, 18, w) {
					if n := len([]rune(tuitest.Plain(line))); n > max(w, 26) {
						t.Errorf("%s, focused %v, in %d cells takes %d: %q", fields[i].Label, focused, w, n, line)
					}
				}
			}
		}
	}
}

func TestReadPercent(t *testing.T) {
	for _, tc := range []struct {
		s     string
		want  float64
		given bool
		ok    bool
	}{
		{"30", 0.3, true, true}, {" 27.5 % ", 0.275, true, true}, {"", 0, false, true}, {"0", 0, true, true}, {"100%", 1, true, true},
		{"101", 0, false, false}, {"-1", 0, false, false}, {"NaN", 0, false, false}, {"much", 0, false, false},
	} {
		got, err := ReadPercent(tc.s)
		if (err == nil) != tc.ok || got.Given != tc.given || math.Abs(got.Value-tc.want) > 1e-12 {
			t.Errorf("%q is %v, %v", tc.s, got, err)
		}
	}
}

// A choice whose name is a number is found by it, digit by digit, and a digit that
// only ends what no choice is does not clear what was taken.
func TestField_numbersFindAChoice(t *testing.T) {
	f := &Field{Choices: []string{"class-150", "class-125"}}
	for _, tc := range []struct{ keys, want string }{
		{"1", "class-150"}, {"2", "class-125"}, {"1 5", "class-150"}, {"1 5 0", "class-150"}, {"1 2 5", "class-125"}, {"3 0 0", "class-125"},
		{"backspace 0", ""}, {"1 0", ""},
	} {
		f.sought = "" // each is typed on its own
		if strings.HasPrefix(tc.keys, "backspace") {
			f.sought = "300"
		}
		if got := typed(f, strings.Fields(tc.keys)...); got != tc.want {
			t.Errorf("%s gives %q, want %q", tc.keys, got, tc.want)
		}
	}
}

// Letters find a choice: what is typed begins it or a word of it, one letter again
// goes to the next, a digit in a name is typed where it goes on with the letters.
func TestField_lettersFindAChoice(t *testing.T) {
	f := &Field{Choices: []string{"shell-1", "shell-2", "strap", "Head", "low-shell"}}
	f.Enter()
	for _, tc := range []struct{ keys, want string }{
		{"h", "Head"}, {"0", ""}, {"s", "shell-1"}, {"s", "shell-2"}, {"s", "strap"}, {"s", "shell-1"}, {"right", "shell-2"},
		{"s t", "strap"}, {"1", "shell-1"}, {"s h e l l - 2", "shell-2"}, {"4", "Head"}, {"l", "low-shell"}, {"left", "Head"}, {"s t", "strap"},
	} {
		if got := typed(f, strings.Fields(tc.keys)...); got != tc.want || f.missed != "" {
			t.Errorf("%s gives %q, want %q; %q", tc.keys, got, tc.want, f.missed)
		}
	}
	// A word that is none takes no other choice by one of its letters.
	f.Enter()
	if got := typed(f, strings.Split("l o x s h e a d", " ")...); got != "low-shell" || !strings.Contains(f.missed, `"loxshead"`) {
		t.Errorf("a typo gives %q, and says %q", got, f.missed)
	}
	if got := typed(f, "backspace"); got != "low-shell" {
		t.Errorf("forgetting the letters gives %q", got)
	}
	if got := typed(f, "s", "t"); got != "strap" {
		t.Errorf("typed anew: %q", got)
	}
	f.Enter()
	if got := typed(f, "q"); got != "strap" || !strings.Contains(f.missed, `no choice begins with "q"`) {
		t.Errorf("q gives %q, and says %q", got, f.missed)
	}
	f.Press(keys.Event{Paste: " HEAD\n"})
	if f.Text != "Head" || f.missed != "" {
		t.Errorf("pasted: %q, %q", f.Text, f.missed)
	}
	several := &Field{Choices: []string{"brine", "solids", "solvent"}, Several: true}
	several.Enter()
	if got := typed(several, "s", "s", "space"); got != "solvent" {
		t.Errorf("of several: %q", got)
	}
}

// Where a letter is a key of the page beneath, it takes no choice of a form over it.
func TestField_digitsAloneChoose(t *testing.T) {
	f := &Field{Choices: []string{"break", "clear"}, Digits: true, Text: "break"}
	if f.Enter(); f.Press(keys.Key("c")) || f.Text != "break" {
		t.Errorf("c takes %q", f.Text)
	}
	if !f.Press(keys.Key("2")) || f.Text != "clear" {
		t.Errorf("2 takes %q", f.Text)
	}
}
