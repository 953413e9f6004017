package widget

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

func materials() []Item {
	return []Item{
		{Mark: ":", Name: "veil-c-10", Note: "C-glass veil"},
		{Mark: ":", Name: "veil-polyester-15", Note: "polyester veil"},
		{Mark: "░", Name: "mat-0.75", Note: "chopped mat"},
		{Mark: "░", Name: "mat-1.5", Note: "chopped mat"},
		{Mark: "▓", Name: "woven-18", Note: "woven roving"},
		{Mark: "▓", Name: "woven-24", Note: "woven roving", Word: "shop", Look: draw.Style{}},
		{Mark: "╱", Name: "band-helical", Note: "roving band"},
		{Mark: "╱", Name: "band-hoop", Note: "roving band", Why: "needs a winder"},
		{Mark: "≡", Name: "uni-13", Note: "unidirectional"},
		{Mark: "─", Name: "topcoat", Note: "resin coat"},
		{Name: "管道-\x1b[31m", Note: "a name from a file"},
	}
}

func press(f *Finder, keys ...string) Result {
	r := Going
	for _, e := range tuitest.Events(keys...) {
		r = f.Handle(e)
	}
	return r
}

func chosen(f *Finder) string {
	i, ok := f.Choice()
	if !ok {
		return "none"
	}
	return f.items[i].Name
}

func TestFinder_finds(t *testing.T) {
	for _, tc := range []struct {
		name   string
		keys   []string
		result Result
		choice string
	}{
		{"first on enter", []string{"enter"}, Taken, "veil-c-10"},
		{"few letters", []string{"vpol", "enter"}, Taken, "veil-polyester-15"},
		{"letters case does not matter", []string{"WOV", "enter"}, Taken, "woven-18"},
		{"a digit takes the numbered row", []string{"4"}, Taken, "mat-1.5"},
		{"also among those found", []string{"wov", "2"}, Taken, "woven-24"},
		{"down", []string{"down", "down", "enter"}, Taken, "mat-0.75"},
		{"up stops at the first", []string{"up", "enter"}, Taken, "veil-c-10"},
		{"end of the list", []string{"pgdown", "pgdown", "enter"}, Taken, "管道-\x1b[31m"},
		{"no such number", []string{"wov", "5"}, Refused, "woven-18"},
		{"zero is no row", []string{"0"}, Refused, "veil-c-10"},
		{"cannot be taken", []string{"hoop", "enter"}, Refused, "band-hoop"},
		{"nothing found", []string{"xyzzy", "enter"}, Refused, "none"},
		{"esc takes the letters back first", []string{"hoop", "esc"}, Going, "veil-c-10"},
		{"then leaves", []string{"hoop", "esc", "esc"}, Left, "veil-c-10"},
		{"letters can be taken back", []string{"hoopx", "backspace"}, Going, "band-hoop"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			f := New(draw.New(draw.Mono), "any material", materials())
			if got := press(f, tc.keys...); got != tc.result || chosen(f) != tc.choice {
				t.Errorf("got %d, %q, want %d, %q", got, chosen(f), tc.result, tc.choice)
			}
			if (f.Reason() != "") != (tc.result == Refused) {
				t.Errorf("reason %q", f.Reason())
			}
		})
	}
}

func TestFinder_keepsPlaceOverNewItems(t *testing.T) {
	f := New(draw.New(draw.Mono), "any", materials())
	press(f, "wov", "down")
	items := materials()
	items[5].Word = "break"
	f.SetItems(items)
	if f.Query() != "wov" || chosen(f) != "woven-24" {
		t.Errorf("now at %q, typed %q", chosen(f), f.Query())
	}
	f.SetItems(nil)
	if _, ok := f.Choice(); ok {
		t.Error("an empty list has a choice")
	}
	f.SetItems(materials())
	press(f, "esc")
	f.Mark(6)
	if chosen(f) != "band-helical" {
		t.Errorf("marked %q", chosen(f))
	}
}

func TestFinderView_golden(t *testing.T) {
	f := New(draw.New(draw.Mono), "any material", materials())
	tuitest.Golden(t, "all 46x8", tuitest.Box(t, f.View(46, 8), 46, 8))
	press(f, "pgdown")
	tuitest.Golden(t, "scrolled 46x8", tuitest.Box(t, f.View(46, 8), 46, 8))
	press(f, "wov", "down")
	tuitest.Golden(t, "typed 60x6", tuitest.Box(t, f.View(60, 6), 60, 6))
	press(f, "zz")
	tuitest.Golden(t, "nothing 46x4", tuitest.Box(t, f.View(46, 4), 46, 4))
}

func TestFinderView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := New(draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme")), "any material", materials()[:rapid.IntRange(0, 11).Draw(t, "n")])
		typed := rapid.SliceOfN(rapid.SampledFrom([]string{"v", "o", "-", "up", "down", "pgdown", "backspace", "left", "9"}), 0, 20).Draw(t, "keys")
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		for _, k := range typed {
			f.Handle(keys.Key(k))
			f.View(w, h)
		}
		tuitest.Box(t, f.View(w, h), w, h)
		if i, ok := f.Choice(); ok && h > 1 && w > 40 && i != 10 && !strings.Contains(strings.Join(f.View(w, h), "\n"), draw.Pointer) {
			t.Fatalf("the marked row is not drawn")
		}
	})
}
