package page

import (
	"frp/veilwright/laminate"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/widget"
)

// Picture is a wall to scale, with no place marked in it.
func Picture(t *draw.Theme, s *laminate.Schedule, a *laminate.Analysis) widget.Strip {
	p := widget.Strip{Barrier: a.BarrierEnd, Cursor: -1, Left: "fluid", Right: "air"}
	for i := range a.Rows {
		f := &a.Rows[i]
		form := laminate.NoForm
		if f.Material != nil {
			form = f.Material.Form
		}
		p.Layers = append(p.Layers, widget.Layer{
			Thickness: f.Thickness * float64(s.Plies[i].Count), Glyph: Glyph(form), Look: ZoneStyle(t, f.Zone),
			Label: PlyNumbers(f), Zone: ZoneWord(f.Zone), Gel: s.Plies[i].GelAfter,
		})
	}
	return p
}
