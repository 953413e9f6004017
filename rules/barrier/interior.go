package barrier

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// The interior layer of API 12P 5.4.3: two plies of mat, 3 oz/ft² (0.92 kg/m²)
// together. 900 g/m², two plies of 450 g/m² mat, is the metric equal (ADR 2017
// 6.9.2).
const (
	leastChoppedPlies = 2
	leastChoppedGlass = 0.900 // kg/m²
)

// InteriorLayerLight wants enough chopped glass behind the veil.
var InteriorLayerLight = &rules.Rule{
	ID:     "interior-layer-light",
	Family: family,
	Title:  "Too little chopped glass behind the veil",
	Why: "The interior layer is the distance that the fluid has to travel: resin held by short strands in all directions, so that none leads through. " +
		"Two plies cover each other's thin spots; one ply does not. " +
		"With less glass the layer is thinner or crazes, and fluid that gets through reaches the strands of the structure.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "the interior layer has fewer than two chopped plies (each pass of sprayed roving is a ply) or less than 900 g/m² of chopped glass (900 g/m² holds), " +
		"also where there is none; enough plies whose mass is not known: incomplete",
	Basis: "API 12P 5.4.3: two plies of mat, together 3 oz/ft²; ADR 2017 6.9.2: 900 g/m²",
	Run:   interiorLayerLight,
}

func interiorLayerLight(p *rules.Pass) {
	zone := &p.Analysis.Zones[laminate.InteriorLayer]
	enough := !quantity.Below(zone.ChoppedGlassMass, leastChoppedGlass)
	if p.Facts.Mats >= leastChoppedPlies && enough {
		return
	}
	f := rules.Finding{Rows: p.Rows(func(r *laminate.RowFigures) bool { return r.Zone == laminate.InteriorLayer })}
	if p.Facts.Mats >= leastChoppedPlies && !zone.MassKnown {
		f.Severity = rules.Incomplete
		f.Message = "the chopped glass of the interior layer cannot be determined: the mass of a ply is not known"
		p.Report(f)
		return
	}
	f.Severity = rules.Break
	f.Message = "the interior layer has " + quantity.Counted(p.Facts.Mats, "chopped ply", "chopped plies") + " with " +
		p.Units.FabricMass(zone.ChoppedGlassMass) + " of glass; required: at least two with " + p.Units.FabricMass(leastChoppedGlass)
	if f.Rows == nil && len(p.Schedule.Plies) > 0 {
		f.At = laminate.PlyRef(max(0, p.Analysis.BarrierEnd-1), "")
	}
	if f.Fix = takeIn(p); f.Fix != nil {
		p.Report(f)
		return
	}
	if plan, ok := planMats(p); ok {
		n := leastChoppedPlies - p.Facts.Mats
		if plan.material.Fiber.Glass() {
			n = max(n, steps(leastChoppedGlass-zone.ChoppedGlassMass, plan.material.ArealMass.SI()))
		}
		f.Fix = plan.fix(p, n)
	}
	p.Report(f)
}

// The glass content of inner surface and interior layer together, API 12P
// 5.4.3: 27 ± 5 % by ASTM D2584.
const (
	leastFiber = 0.22
	mostFiber  = 0.32
)

// BarrierGlassContent wants the barrier neither dry nor bare.
var BarrierGlassContent = &rules.Rule{
	ID:       "barrier-glass-content",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Fiber content of the barrier outside 27 ± 5 %",
	Why: "Mat that is wetted and rolled out well has about a quarter fiber by mass. More means a dry, starved laminate that lets fluid in along the strands; " +
		"less means pools of resin that shrink, crack and come loose. Either means that the thickness does not come from well rolled mats.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When: "inner surface and interior layer together hold less than 22 % or more than 32 % fiber by mass (both bounds are within), every fiber counted, resin unfilled: warning; " +
		"the mass of a ply is not known: incomplete; not applied to a filled barrier, nor to one without an interior layer, which has its own rule",
	Basis: "API 12P 5.4.3: 27 ± 5 % by ASTM D2584",
	Run: func(p *rules.Pass) {
		zone := p.Analysis.Barrier
		if p.Analysis.Zones[laminate.InteriorLayer].Plies == 0 || zone.FillerMass > 0 {
			return
		}
		share, ok := zone.FiberMassFraction()
		in := func(z laminate.Zone) bool { return z.InBarrier() }
		rows := func() []int { return p.Rows(func(r *laminate.RowFigures) bool { return in(r.Zone) }) }
		switch {
		case !ok:
			p.Report(rules.Finding{Severity: rules.Incomplete, Rows: rows(), Message: "the fiber content of the barrier cannot be determined: the mass of a ply is not known"})
		case quantity.Below(share, leastFiber):
			measured, bound := p.Shares(share, leastFiber)
			p.Report(rules.Finding{Severity: rules.Warning, Rows: rows(), Message: "the barrier has " + measured + " fiber by mass, under " + bound, Fix: shedShares(p, in)})
		case quantity.Above(share, mostFiber):
			measured, bound := p.Shares(share, mostFiber)
			p.Report(rules.Finding{Severity: rules.Warning, Rows: rows(), Message: "the barrier has " + measured + " fiber by mass, over " + bound, Fix: shedShares(p, in)})
		}
	},
}

// ContinuousFiberInBarrier keeps through-going strands out of the barrier.
var ContinuousFiberInBarrier = &rules.Rule{
	ID:       "continuous-fiber-in-barrier",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Continuous fiber in the corrosion barrier",
	Why: "Fluid wicks along a strand much faster than it moves through resin. Chopped strands end after half an inch to two inches; " +
		"a woven, unidirectional or wound one goes around the whole part, so a single pinhole in the veil feeds fluid along the whole wall. " +
		"Such plies are also drier than mat and do not fill the barrier with resin.",
	Severity: []rules.Severity{rules.Break},
	When:     "a woven, unidirectional or wound ply is in the inner surface or interior layer",
	Basis:    "common practice, no source; API 12P 5.4.3 builds the interior layer of mat or chopped roving ½–2 in long",
	Run:      continuousFiberInBarrier,
}

func continuousFiberInBarrier(p *rules.Pass) {
	rows := p.Rows(func(r *laminate.RowFigures) bool { return r.Zone.InBarrier() && rules.FormOf(r).Continuous() })
	if rows == nil {
		return
	}
	f := rules.Finding{
		Severity: rules.Break, Rows: rows,
		Message: p.Plies(rows) + " (" + rules.FormOf(&p.Analysis.Rows[rows[0]]).String() + ") " + p.Are(rows) + " in the corrosion barrier",
	}
	plies := p.Plies(rows)
	outermost := p.Analysis.BarrierEnd-1 == rows[len(rows)-1] && rows[len(rows)-1]-rows[0] == len(rows)-1
	if outermost {
		f.Fix = p.Fix("move "+plies+" to the structural layer", "moved "+plies+" to the structural layer", laminate.PlyRef(rows[0], "zone"),
			func(d *edit.Draft) error {
				for _, i := range rows {
					d.SetZone(i, laminate.StructuralLayer)
				}
				return nil
			})
	} else if id, ok := p.StockMat(); ok {
		f.Fix = p.Fix("use "+id+" for "+plies+", same count", "changed "+plies+" to "+id, laminate.PlyRef(rows[0], "material"),
			func(d *edit.Draft) error {
				for _, i := range rows {
					ply := &d.Plies[i]
					ply.Material, ply.Angle, ply.GlassContent = id, laminate.Optional[float64]{}, laminate.Optional[float64]{}
				}
				return nil
			})
	}
	p.Report(f)
}
