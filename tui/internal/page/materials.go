package page

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
)

// Materials are all materials, the schedule's own first, and how a list draws them.
func Materials(d *Desk) (pool []*laminate.Material, items []Item) {
	seen := map[string]bool{}
	for _, list := range [][]laminate.Material{d.Doc.Now().Materials, d.Doc.Library().Materials} {
		for i := range list {
			m := &list[i]
			if seen[m.ID] {
				continue
			}
			seen[m.ID] = true
			pool = append(pool, m)
			items = append(items, Item{
				Mark: Glyph(m.Form), Name: draw.Left(draw.Clean(m.ID), 18) + " " + MaterialName(m), Note: m.Form.String(), Word: Weight(m, d.Units()),
			})
		}
	}
	return pool, items
}

// Weight is what tells a material from others of its kind: its areal mass, else
// its thickness.
func Weight(m *laminate.Material, u quantity.System) string {
	switch {
	case m.ArealMass.Given():
		return u.Figure(m.ArealMass.SI(), m.Form.MassKind())
	case m.Thickness.Given():
		return u.Thickness(m.Thickness.SI())
	}
	return ""
}
