package barrier

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// The inner surface of API 12P 5.4.2: 0.010 to 0.020 in, under 20 % fiber.
const (
	allowance    = 0.05 // of a nominal figure; common practice, no source
	richestInner = 0.20 // fiber by mass; not reached
)

// InnerSurfaceThickness wants enough inner surface, not too much.
var InnerSurfaceThickness = &rules.Rule{
	ID:       "inner-surface-thickness",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Inner surface too thin, or a veil ply too thick",
	Why: "The fluid meets the inner surface first. Under ten mil it does not cover the strand ends of the mat behind it, and they wick. " +
		"Much thicker than the veil can hold, it is bare resin, which cracks as it cures and when it is heated or struck; " +
		"the cracks then lead straight to the mats. Two veils may hold twice what one does.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "the inner surface is under 10 mil less 5 % (9.5 mil holds): break; it has more than 20 mil a veil ply (20 mil holds): warning; of what is laid inside the waxed coat over its veil does not count; a ply's thickness is not known: incomplete; " +
		"an empty inner surface counts as a missing veil",
	Basis: "API 12P 5.4.2: 0.010 to 0.020 in; the 5 % allowance: common practice, no source",
	Run:   innerSurfaceThickness,
}

func innerSurfaceThickness(p *rules.Pass) {
	zone := &p.Analysis.Zones[laminate.InnerSurface]
	if zone.Plies == 0 {
		return
	}
	if !zone.ThicknessKnown {
		unknownThickness(p, "the inner surface", func(z laminate.Zone) bool { return z == laminate.InnerSurface })
		return
	}
	has := zone.Thickness
	if last := len(p.Analysis.Rows) - 1; p.Schedule.Part.Place.Lined { // its face is cured by the coat, and not held by the veil
		if r := &p.Analysis.Rows[last]; r.Zone == laminate.InnerSurface && r.Material != nil && r.Material.Form == laminate.ResinCoat && r.Material.Waxed {
			has -= r.Thickness * float64(p.Schedule.Plies[last].Count)
		}
	}
	thinnest := catalog.ThinnestInnerSurface.SI()
	least := thinnest * (1 - allowance)
	most := catalog.ThickestVeilPly.SI() * float64(max(1, p.Facts.Veils))
	switch {
	case quantity.Below(has, least):
		measured, bound := p.Thickness(has, least)
		f := rules.Finding{
			Severity: rules.Break, Rows: innerRows(p),
			Message: "the inner surface is " + measured + ", under " + bound + " (" + p.Units.Thickness(thinnest) + " less 5 %)",
		}
		if row := lastRow(p, veil); row >= 0 {
			n := steps(least-has, p.Analysis.Rows[row].Thickness)
			id := p.Schedule.Plies[row].Material
			f.Fix = p.Fix("add "+quantity.Counted(n, "more ply", "more plies")+" of "+id+" to the inner surface", "added "+quantity.Counted(n, "more ply", "more plies")+" of "+id,
				laminate.PlyRef(row, "count"), func(d *edit.Draft) error {
					d.Plies[row].Count += n
					return nil
				})
		}
		p.Report(f)
	case quantity.Above(has, most):
		measured, bound := p.Thickness(has, most)
		p.Report(rules.Finding{
			Severity: rules.Warning, Rows: innerRows(p),
			Message: "the inner surface is " + measured + " on " + quantity.Counted(p.Facts.Veils, "veil ply", "veil plies") + ", over " + bound +
				" (" + p.Units.Thickness(catalog.ThickestVeilPly.SI()) + " a ply)",
			Fix: shedShares(p, func(z laminate.Zone) bool { return z == laminate.InnerSurface }),
		})
	}
}

func innerRows(p *rules.Pass) []int {
	return p.Rows(func(r *laminate.RowFigures) bool { return r.Zone == laminate.InnerSurface })
}

// InnerSurfaceRich wants the inner surface rich in resin.
var InnerSurfaceRich = &rules.Rule{
	ID:       "inner-surface-rich",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Too much fiber in the inner surface",
	Why: "Resin keeps the fluid out; fiber lets it in along every strand. The inner surface therefore holds at least four parts resin to one of fiber, " +
		"usually nine. With too much fiber the surface is dry: it stains, then wicks, and the fluid reaches the mats behind it early.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "the inner surface has 20 % fiber by mass or more, every fiber counted: break; its fiber content cannot be determined: incomplete",
	Basis:    "API 12P 5.4.2: under 20 % reinforcement by mass",
	Run: func(p *rules.Pass) {
		zone := p.Analysis.Zones[laminate.InnerSurface]
		if zone.Plies == 0 {
			return
		}
		share, ok := zone.FiberMassFraction()
		switch {
		case !ok:
			p.Report(rules.Finding{Severity: rules.Incomplete, Rows: innerRows(p), Message: "the fiber content of the inner surface cannot be determined: the mass of a ply is not known"})
		case !quantity.Below(share, richestInner):
			measured, bound := p.Shares(share, richestInner)
			p.Report(rules.Finding{
				Severity: rules.Break, Rows: innerRows(p),
				Message: "the inner surface has " + measured + " fiber by mass; it must be under " + bound,
				Fix:     shedShares(p, func(z laminate.Zone) bool { return z == laminate.InnerSurface }),
			})
		}
	},
}
