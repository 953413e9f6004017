package bench

import (
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// strip draws the wall to scale as h lines, names and place worked at under it.
func (b *Bench) strip(s *sight, r *rules.Report, w, h int) []string {
	p := widget.Strip{Layers: s.layers, Label: s.label, Barrier: s.edge, Cursor: b.row()}
	if p.Left, p.Right = b.sides(); b.laid() != nil {
		p.Barrier = 0 // it lies onto that of the parts
	}
	if p.Cursor >= 0 && p.Cursor < len(r.Analysis.Rows) {
		p.CursorLabel = page.PlyName(&r.Analysis.Rows[p.Cursor])
		p.Cursor = s.layer[p.Cursor]
	} else {
		p.Cursor = -1
	}
	return p.View(b.Desk.Theme, w, h)
}
