package rules

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/vessel"
)

// Bolted tells whether a part of the shell and the one that stands on it are bolted to
// each other: flanges that joints tie to them are at one height and of one drilling.
func (p *JobPass) Bolted(lower, upper int) bool {
	_, _, fit := p.Facing(lower, upper)
	return fit
}

// Facing gives flanges, one on a part of the shell and one on the part that stands on it,
// that face each other, and whether they are of one size and drilling; −1 where there are none.
func (p *JobPass) Facing(lower, upper int) (below, above int, fit bool) {
	const near = 1e-6 // m between two heights that are one
	flanges := func(on int, end float64) (list []int) {
		for _, i := range p.Tied(on) {
			if at, known := p.Elevation(i); p.Job.Parts[i].Form == laminate.Flange && known && math.Abs(at-end) < near {
				list = append(list, i)
			}
		}
		return list
	}
	below, above = -1, -1
	foot, _ := p.Elevation(upper)
	over := flanges(upper, foot)
	for _, i := range flanges(lower, p.Top(lower)) {
		for _, k := range over {
			a, b := p.Stated(i), p.Stated(k)
			bolts, _ := ground.BoltsUp(a, b)
			if bolts && a.Size.Given() && b.Size.Given() && vessel.SameNominal(a.Size.SI(), b.Size.SI()) {
				return i, k, true
			}
			below, above = i, k
		}
	}
	return below, above, false
}
