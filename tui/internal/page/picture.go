package page

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/widget"
)

// Picture is a wall to scale, with no place marked in it.
func Picture(t *draw.Theme, s *laminate.Schedule, a *laminate.Analysis) widget.Strip {
	return widget.Strip{Layers: Layers(t, s, a, nil), Label: func(i int) string { return paper.Span(a.Rows[i].First, a.Rows[i].Last) }, Barrier: a.BarrierEnd, Cursor: -1, Left: "fluid", Right: "air"}
}

// Sides names what an overlay of a kind is laid on, and what its last ply meets.
func Sides(k overlay.Kind) (first, last string) {
	if k.Inside() {
		return "part", "fluid"
	}
	return "part", "air"
}

// Layers are the plies as the picture's layers, a row a layer; into is used again.
func Layers(t *draw.Theme, s *laminate.Schedule, a *laminate.Analysis, into []widget.Layer) []widget.Layer {
	into = into[:0]
	for i := range a.Rows {
		f := &a.Rows[i]
		form := laminate.NoForm
		if f.Material != nil {
			form = f.Material.Form
		}
		into = append(into, widget.Layer{
			Thickness: f.Thickness * float64(s.Plies[i].Count), Glyph: Glyph(form), Look: ZoneStyle(t, f.Zone),
			Zone: ZoneWord(f.Zone), Gel: s.Plies[i].GelAfter,
		})
	}
	return into
}
