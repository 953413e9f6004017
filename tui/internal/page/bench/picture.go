package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/theme"
	"frp/veilwright/tui/internal/widget/strip"
)

// layers are the plies as the picture's layers, a row a layer.
func layers(t *theme.Theme, r *rules.Report, into []strip.Layer) []strip.Layer {
	into = into[:0]
	for i := range r.Analysis.Rows {
		f := &r.Analysis.Rows[i]
		form := laminate.NoForm
		if f.Material != nil {
			form = f.Material.Form
		}
		into = append(into, strip.Layer{
			Thickness: f.Thickness * float64(r.Schedule.Plies[i].Count), Glyph: page.Glyph(form), Look: page.ZoneStyle(t, f.Zone),
			Label: page.PlyNumbers(f), Zone: page.ZoneWord(f.Zone), Gel: r.Schedule.Plies[i].GelAfter,
		})
	}
	return into
}

// strip draws the wall to scale as h lines, names and place worked at under it.
func (b *Bench) strip(s *sight, r *rules.Report, w, h int) []string {
	p := strip.Strip{Layers: s.layers, Barrier: r.Analysis.BarrierEnd, Cursor: b.desk.Row, Left: "fluid", Right: "air"}
	if m, ok := b.mode.(*carry); ok {
		p.Cursor = m.to
	}
	if p.Cursor >= 0 && p.Cursor < len(r.Analysis.Rows) {
		p.CursorLabel = page.PlyName(&r.Analysis.Rows[p.Cursor])
	} else {
		p.Cursor = -1
	}
	return p.View(b.desk.Theme, w, h)
}
