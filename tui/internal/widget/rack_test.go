package widget

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

func items() []Item {
	return []Item{
		{Mark: ":", Name: "veil C-glass", Note: "10 mil"}, {Mark: ":", Name: "veil polyester", Note: "15 mil"}, {Mark: "░", Name: "mat 1.5 oz", Note: "43 mil"},
		{Mark: "░", Name: "mat 0.75", Note: "22 mil"}, {Mark: "▓", Name: "woven 24 oz", Note: "35 mil"}, {Mark: "≡", Name: "uni 13"},
		{Mark: "╱", Name: "band hoop", Why: "needs a winder"}, {Mark: "╱", Name: "band helical"}, {Mark: "─", Name: "topcoat"},
		{Mark: "▓", Name: "woven 18 oz"}, {Mark: ":", Name: "veil carbon"},
	}
}

func TestRack_digits(t *testing.T) {
	for _, tc := range []struct {
		name   string
		keys   []string
		result Result
		choice int
		ours   bool
	}{
		{"third", []string{"3"}, Taken, 2, true},
		{"ninth", []string{"9"}, Taken, 8, true},
		{"cannot be laid", []string{"7"}, Refused, -1, true},
		{"any opens the list", []string{"0"}, Going, 0, true},
		{"any by name", []string{"0", "carb", "enter"}, Taken, 10, true},
		{"any by name and digit", []string{"0", "wov", "2"}, Taken, 9, true},
		{"any left again", []string{"0", "esc"}, Left, -1, true},
		{"other keys", []string{"+"}, Going, -1, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			r := NewRack(draw.New(draw.Mono), items())
			var result Result
			var ours bool
			for _, e := range tuitest.Events(tc.keys...) {
				result, ours = r.Handle(e)
			}
			i, ok := r.Choice()
			if !ok {
				i = -1
			}
			if result != tc.result || ours != tc.ours || i != tc.choice {
				t.Errorf("got %d, choice %d, ours %v; want %d, %d, %v", result, i, ours, tc.result, tc.choice, tc.ours)
			}
			if (r.Reason() != "") != (tc.result == Refused) {
				t.Errorf("reason %q", r.Reason())
			}
		})
	}
	r := NewRack(draw.New(draw.Mono), items()[:2])
	if got, _ := r.Handle(keys.Key("5")); got != Refused {
		t.Errorf("a number without a thing: %d", got)
	}
}

func TestRackView_golden(t *testing.T) {
	r := NewRack(draw.New(draw.Mono), items())
	tuitest.Golden(t, "narrow 17x11", tuitest.Box(t, r.View(17, 11), 17, 11))
	tuitest.Golden(t, "wide 38x11", tuitest.Box(t, r.View(38, 11), 38, 11))
	tuitest.Golden(t, "flat 60x2", tuitest.Box(t, r.View(60, 2), 60, 2))
	tuitest.Golden(t, "flat 78x5", tuitest.Box(t, r.View(78, 5), 78, 5))
	r.Handle(keys.Key("0"))
	tuitest.Golden(t, "searching 38x5", tuitest.Box(t, r.View(38, 5), 38, 5))
}

func TestRackView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := NewRack(draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme")), items()[:rapid.IntRange(0, 11).Draw(t, "n")])
		if rapid.Bool().Draw(t, "open") {
			r.Handle(keys.Key("0"))
		}
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		tuitest.Box(t, r.View(w, h), w, h)
	})
}
