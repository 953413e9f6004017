// Package veil owns the rules about the veil: which fiber stands the service,
// and that there is one.
package veil

import (
	"errors"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
)

const family = "veil"

// Rules lists the family.
func Rules() []*rules.Rule {
	return []*rules.Rule{
		FluoridesAttackGlassVeil, VeilOutsidePH, CarbonVeilInHypochlorite, CarbonVeilInOxidizer,
		VeilNotPreferred, VeilMissing,
	}
}

// highestForGlass and lowestForPolyester are the ends of the pH range in which
// the veils are used (common practice, no source). Both are inclusive.
const (
	highestForGlass    = 12.0
	lowestForPolyester = 3.0
)

func veilOf(row *laminate.RowFigures, fits func(laminate.Fiber) bool) bool {
	return row.Zone == laminate.InnerSurface && rules.FormOf(row) == laminate.Veil && fits(rules.FiberOf(row))
}

// glassVeils are the rows of glass veil in the inner surface.
func glassVeils(p *rules.Pass) []int {
	return p.Rows(func(r *laminate.RowFigures) bool { return veilOf(r, laminate.Fiber.Glass) })
}

func polyesterVeils(p *rules.Pass) []int {
	return p.Rows(func(r *laminate.RowFigures) bool {
		return veilOf(r, func(f laminate.Fiber) bool { return f == laminate.Polyester })
	})
}

// carbonVeils are the rows of carbon veil anywhere in the barrier: what the
// fluid does to carbon it does behind the first ply too.
func carbonVeils(p *rules.Pass) []int {
	return p.Rows(func(r *laminate.RowFigures) bool {
		return r.Zone.InBarrier() && rules.FormOf(r) == laminate.Veil && rules.FiberOf(r) == laminate.Carbon
	})
}

// Taken is the fiber of the veil that the service asks for first.
func Taken(s *laminate.Service) laminate.Fiber {
	if s.Contains.Has(laminate.Fluorides) || s.Contains.Has(polyesterServices...) || s.PH.Given && s.PH.Highest > highestForGlass {
		return laminate.Polyester
	}
	return laminate.CGlass
}

// become is the fix that lays another veil in place of rows, count for count.
func become(p *rules.Pass, rows []int, fiber laminate.Fiber) *rules.Fix {
	id, ok := p.StockVeil(fiber)
	if !ok || len(rows) == 0 {
		return nil
	}
	plies := p.Plies(rows)
	return p.Fix("use "+id+" for "+plies+", same count", "changed "+plies+" to "+id, laminate.PlyRef(rows[0], "material"),
		func(d *edit.Draft) error {
			if len(rows) == 0 {
				return errors.New("no veil to replace")
			}
			for _, i := range rows {
				d.Plies[i].Material = id
				// A share booked for the other fabric says nothing about this one.
				d.Plies[i].GlassContent = laminate.Optional[float64]{}
			}
			return nil
		})
}
