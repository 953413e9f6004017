package menu

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/theme"
	"frp/veilwright/tui/internal/tuitest"
	"frp/veilwright/tui/internal/widget"
)

func pages() []Item {
	return []Item{
		{Name: "bench", Note: "build the laminate"}, {Name: "wall", Note: "stiffness and criteria", Why: "no part is given yet"},
		{Name: "inspect", Note: "against a specification"}, {Name: "practice", Note: "exercises"},
	}
}

func TestMenu_takes(t *testing.T) {
	for _, tc := range []struct {
		name   string
		keys   []string
		result widget.Result
		choice int
	}{
		{"digit", []string{"3"}, widget.Taken, 2},
		{"enter takes the marked one", []string{"enter"}, widget.Taken, 0},
		{"down and enter", []string{"down", "down", "enter"}, widget.Taken, 2},
		{"round by tab", []string{"tab", "tab", "tab", "tab", "enter"}, widget.Taken, 0},
		{"round upward", []string{"up", "enter"}, widget.Taken, 3},
		{"ends", []string{"end", "home", "end"}, widget.Going, 3},
		{"cannot be taken", []string{"2"}, widget.Refused, 1},
		{"no such number", []string{"7"}, widget.Refused, 0},
		{"nor zero", []string{"0"}, widget.Refused, 0},
		{"left", []string{"esc"}, widget.Left, 0},
	} {
		t.Run(tc.name, func(t *testing.T) {
			m := New(theme.New(theme.Mono), "pages", 0, pages()...)
			var got widget.Result
			for _, e := range tuitest.Events(tc.keys...) {
				got = m.Handle(e)
			}
			if got != tc.result || m.Choice() != tc.choice {
				t.Errorf("got %d, row %d, want %d, row %d", got, m.Choice(), tc.result, tc.choice)
			}
			if (m.Reason() != "") != (tc.result == widget.Refused) {
				t.Errorf("reason %q", m.Reason())
			}
		})
	}
	empty := New(theme.New(theme.Mono), "nothing", 5)
	if got := empty.Handle(keyin.Key("enter")); got != widget.Refused || empty.Choice() != -1 {
		t.Errorf("an empty menu gave %d, row %d", got, empty.Choice())
	}
}

func TestView_golden(t *testing.T) {
	m := New(theme.New(theme.Mono), "pages", 2, pages()...)
	tuitest.Golden(t, "44x6", tuitest.Box(t, m.View(44, 6), 44, 6))
	tuitest.Golden(t, "20x3", tuitest.Box(t, m.View(20, 3), 20, 3))
}

func TestView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 4).Draw(t, "n")
		m := New(theme.New(rapid.SampledFrom(theme.Kinds()).Draw(t, "theme")), "pages", rapid.IntRange(-2, 9).Draw(t, "mark"), pages()[:n]...)
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		for _, k := range rapid.SliceOf(rapid.SampledFrom([]string{"up", "down", "home", "end"})).Draw(t, "keys") {
			m.Handle(keyin.Key(k))
			tuitest.Box(t, m.View(w, h), w, h)
		}
		tuitest.Box(t, m.View(w, h), w, h)
	})
}
