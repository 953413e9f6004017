package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// layers are the plies as the picture's layers, a row a layer.
//
// Where there is room for one name only, the barrier has one.
func layers(t *draw.Theme, r *rules.Report, one bool, into []widget.Layer) []widget.Layer {
	into = into[:0]
	zone := func(z laminate.Zone) string {
		if one && z.InBarrier() {
			return "barrier"
		}
		return page.ZoneWord(z)
	}
	for i := range r.Analysis.Rows {
		f := &r.Analysis.Rows[i]
		form := laminate.NoForm
		if f.Material != nil {
			form = f.Material.Form
		}
		into = append(into, widget.Layer{
			Thickness: f.Thickness * float64(r.Schedule.Plies[i].Count), Glyph: page.Glyph(form), Look: page.ZoneStyle(t, f.Zone),
			Label: page.PlyNumbers(f), Zone: zone(f.Zone), Gel: r.Schedule.Plies[i].GelAfter,
		})
	}
	return into
}

// strip draws the wall to scale as h lines, names and place worked at under it.
func (b *Bench) strip(s *sight, r *rules.Report, w, h int) []string {
	p := widget.Strip{Layers: s.layers, Barrier: r.Analysis.BarrierEnd, Cursor: b.row(), Left: "fluid", Right: "air"}
	if p.Cursor >= 0 && p.Cursor < len(r.Analysis.Rows) {
		p.CursorLabel = page.PlyName(&r.Analysis.Rows[p.Cursor])
	} else {
		p.Cursor = -1
	}
	return p.View(b.desk.Theme, w, h)
}
