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
	var of [2][]int
	for i := range p.Job.Joints {
		x, y := p.Part(p.Job.Joints[i].Between[0]), p.Part(p.Job.Joints[i].Between[1])
		for _, tie := range [][2]int{{x, y}, {y, x}} {
			if tie[1] < 0 || p.Job.Parts[tie[1]].Form != laminate.Flange {
				continue
			}
			if at, known := p.Elevation(tie[1]); tie[0] == lower && known && math.Abs(at-p.Top(lower)) < near {
				of[0] = append(of[0], tie[1])
			} else if foot, stands := p.Elevation(upper); tie[0] == upper && known && stands && math.Abs(at-foot) < near {
				of[1] = append(of[1], tie[1])
			}
		}
	}
	below, above = -1, -1
	for _, i := range of[0] {
		for _, k := range of[1] {
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
