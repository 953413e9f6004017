package widget

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

func items() []Item {
	return []Item{
		{Mark: ":", Name: "veil C-glass", Note: "10 mil"}, {Mark: ":", Name: "veil polyester", Note: "15 mil"}, {Mark: "░", Name: "mat 1.5 oz", Note: "43 mil"},
		{Mark: "░", Name: "mat 0.75", Note: "22 mil"}, {Mark: "▓", Name: "woven 24 oz", Note: "35 mil"}, {Mark: "≡", Name: "uni 13"},
		{Mark: "╱", Name: "band hoop"}, {Mark: "╱", Name: "band helical"}, {Mark: "─", Name: "topcoat"},
		{Mark: "▓", Name: "woven 18 oz"}, {Mark: ":", Name: "veil carbon"},
	}
}

func TestRackView_golden(t *testing.T) {
	r := NewRack(draw.New(draw.Mono), "number key adds a ply", items())
	tuitest.Golden(t, "narrow 17x11", tuitest.Box(t, r.View(17, 11), 17, 11))
	tuitest.Golden(t, "wide 38x11", tuitest.Box(t, r.View(38, 11), 38, 11))
	tuitest.Golden(t, "flat 60x2", tuitest.Box(t, r.View(60, 2), 60, 2))
	tuitest.Golden(t, "flat 78x5", tuitest.Box(t, r.View(78, 5), 78, 5))
}

func TestRackView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := NewRack(draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme")), "number key adds a ply", items()[:rapid.IntRange(0, 11).Draw(t, "n")])
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		tuitest.Box(t, r.View(w, h), w, h)
	})
}
