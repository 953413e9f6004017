package widget

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

func pages() []MenuItem {
	return []MenuItem{
		{Name: "bench", Note: "build the laminate"}, {Name: "wall", Note: "stiffness and criteria", Why: "no part is given yet"},
		{Name: "inspect", Note: "against a specification"}, {Name: "practice", Note: "exercises"},
	}
}

func TestMenu_takes(t *testing.T) {
	for _, tc := range []struct {
		name   string
		keys   []string
		result Result
		choice int
	}{
		{"digit", []string{"3"}, Taken, 2},
		{"enter takes the marked one", []string{"enter"}, Taken, 0},
		{"down and enter", []string{"down", "down", "enter"}, Taken, 2},
		{"round by tab", []string{"tab", "tab", "tab", "tab", "enter"}, Taken, 0},
		{"round upward", []string{"up", "enter"}, Taken, 3},
		{"ends", []string{"end", "home", "end"}, Going, 3},
		{"cannot be taken", []string{"2"}, Refused, 1},
		{"no such number", []string{"7"}, Refused, 0},
		{"nor zero", []string{"0"}, Refused, 0},
		{"left", []string{"esc"}, Left, 0},
	} {
		t.Run(tc.name, func(t *testing.T) {
			m := NewMenu(draw.New(draw.Mono), "pages", 0, pages()...)
			var got Result
			for _, e := range tuitest.Events(tc.keys...) {
				got = m.Handle(e)
			}
			if got != tc.result || m.Choice() != tc.choice {
				t.Errorf("got %d, row %d, want %d, row %d", got, m.Choice(), tc.result, tc.choice)
			}
			if (m.Reason() != "") != (tc.result == Refused) {
				t.Errorf("reason %q", m.Reason())
			}
		})
	}
	empty := NewMenu(draw.New(draw.Mono), "nothing", 5)
	if got := empty.Handle(keys.Key("enter")); got != Refused || empty.Choice() != -1 {
		t.Errorf("an empty menu gave %d, row %d", got, empty.Choice())
	}
}

func TestMenuView_golden(t *testing.T) {
	m := NewMenu(draw.New(draw.Mono), "pages", 2, pages()...)
	tuitest.Golden(t, "44x6", tuitest.Box(t, m.View(44, 6), 44, 6))
	tuitest.Golden(t, "20x3", tuitest.Box(t, m.View(20, 3), 20, 3))
}

func TestMenuView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 4).Draw(t, "n")
		m := NewMenu(draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme")), "pages", rapid.IntRange(-2, 9).Draw(t, "mark"), pages()[:n]...)
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		for _, k := range rapid.SliceOf(rapid.SampledFrom([]string{"up", "down", "home", "end"})).Draw(t, "keys") {
			m.Handle(keys.Key(k))
			tuitest.Box(t, m.View(w, h), w, h)
		}
		tuitest.Box(t, m.View(w, h), w, h)
	})
}
