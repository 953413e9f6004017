package veil

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
)

// VeilMissing wants a veil against the fluid.
var VeilMissing = &rules.Rule{
	ID:       "veil-missing",
	Overlays: rules.NeckOverlay,
	Family:   family,
	Title:    "No veil on the process side",
	Why: "The veil holds the resin-rich surface together: about nine parts resin to one of fiber, rich enough that no glass end reaches the fluid, " +
		"and reinforced enough that it does not craze. Without it either bare resin cracks, or the strand ends of the mat are exposed to the fluid and wick it into the wall.",
	Severity: []rules.Severity{rules.Break},
	When:     "the first ply is not a veil of the inner surface, or there is no ply at all",
	Basis:    "API 12P 5.4.2",
	Run: func(p *rules.Pass) {
		rows := p.Analysis.Rows
		if len(rows) == 0 {
			p.Report(rules.Finding{Severity: rules.Break, Message: "the schedule has no plies, so no veil on the process side"})
			return
		}
		first := &rows[0]
		if veilOf(first, func(laminate.Fiber) bool { return true }) {
			return
		}
		f := rules.Finding{Severity: rules.Break, Rows: []int{0}}
		if rules.FormOf(first) == laminate.Veil {
			f.Message = "ply 1 is a veil, but its zone is " + first.Zone.String()
			f.Fix = p.Fix("move ply 1 to the inner surface", "moved ply 1 to the inner surface", laminate.PlyRef(0, "zone"), func(d *edit.Draft) error {
				d.SetZone(0, laminate.InnerSurface)
				d.Infer(1)
				return nil
			})
		} else {
			f.Message = "ply 1 is " + p.Schedule.Plies[0].Material + ", not a veil"
			f.Fix = layVeil(p)
		}
		p.Report(f)
	},
}

// layVeil puts a veil first; what follows without a zone is inferred anew,
// because a leading veil is what makes mats an interior layer.
func layVeil(p *rules.Pass) *rules.Fix {
	id, ok := p.StockVeil(Taken(&p.Schedule.Service))
	if !ok {
		return nil
	}
	resin := p.Schedule.Plies[0].Resin
	return p.Fix("add "+id+" as ply 1, in the resin of the first ply", "added "+id+" as ply 1", laminate.PlyRef(0, ""),
		func(d *edit.Draft) error {
			d.Insert(0, laminate.Ply{Material: id, Resin: resin, Zone: laminate.InnerSurface, Count: 1})
			d.Infer(1)
			return nil
		})
}
