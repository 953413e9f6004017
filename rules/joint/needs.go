package joint

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/rules"
)

// What the rules ask of overlays as figures, for whoever lays them out.

// StrapNeed is what the strap of a joint has to be.
type StrapNeed struct {
	Hoop      float64 // N/m that its structure may bear cold; 0 over a corner, which the bottom holds round
	Structure float64 // m, of the plies that count
	Bond      float64 // m on each side, the gap not counted
	Reach     float64 // m on each side, the gap not counted, as custom has it: eight thicknesses of the thinner wall; 0 where none is known

	Inside, Thrust float64 // Pa at the joint: on the wall, and as far as it pulls along the axis
	Diameter       float64 // m, of the bond line

	Round float64 // Pa inside under the condition that decides Hoop
	Share float64 // of its strength that the strap keeps then
	Under string  // that condition, "" the service
}

// Strap says what the strap of joint i has to be, or what is missing for it: what is
// known of it is there all the same. An axial load that is not stated counts for none.
func Strap(p *rules.JobPass, i int) (n StrapNeed, missing string) {
	x := joined{Joint: &p.Job.Joints[i], index: i}
	for k, id := range x.Between {
		if x.parts[k] = p.Part(id); x.parts[k] < 0 {
			return n, "part " + id + " is not there"
		}
	}
	l, missing := loadsOf(p, &x, inService)
	if missing != "" {
		return n, missing
	}
	shear, _ := bond(p.Job)
	n = StrapNeed{Structure: x.thinner(p), Bond: x.bond(l, shear), Reach: x.reach(p), Inside: l.inside, Thrust: l.thrust, Diameter: l.diameter}
	d, missing := x.strapLoad(p)
	n.Hoop, n.Share, n.Under = d.load/d.share, d.share, string(d.under)
	if l, more := loadsOf(p, &x, d.under.pressing()); more == "" {
		n.Round = l.inside
	}
	return n, missing
}

// bond is how long the strap has to bond on each side, m.
func (x *joined) bond(l loads, shear float64) float64 {
	return joining.BondLength(joining.AxialLoad(l.thrust, l.diameter)+x.AxialLoad.SI(), shear)
}

// reach is how far the strap lies on each part, m: eight thicknesses of the thinner
// wall; 0 where no thickness is known.
func (x *joined) reach(p *rules.JobPass) float64 {
	wall := math.Inf(1)
	for _, part := range x.walls(p) {
		if t := thickness(p, part); !math.IsNaN(t) {
			wall = math.Min(wall, t)
		}
	}
	if math.IsInf(wall, 1) {
		return 0
	}
	return 8 * wall
}

// walls are the parts whose laminates are walls that the strap goes on from: a flange or
// a cover beside another part has that one's.
func (x *joined) walls(p *rules.JobPass) []int {
	for k, part := range x.parts {
		if ground.Flat(p.Stated(part)) && !ground.Flat(p.Stated(x.parts[1-k])) {
			return x.parts[1-k : 2-k]
		}
	}
	return x.parts[:]
}

// hoop is what the strap has to carry round, N/m. A corner is held round by the
// bottom and its reinforcement (knuckle-weak).
func (x *joined) hoop(p *rules.JobPass, l loads) float64 {
	if p.Job.Parts[x.parts[0]].Form == laminate.FlatBottom || p.Job.Parts[x.parts[1]].Form == laminate.FlatBottom {
		return 0
	}
	return joining.HoopLoad(l.inside, l.diameter)
}

// thinner is the structure of the thinner wall, m.
func (x *joined) thinner(p *rules.JobPass) float64 {
	thin := math.Inf(1)
	for _, part := range x.walls(p) {
		thin = math.Min(thin, stackOf(p.Parts[part].Analysis).structure)
	}
	return thin
}

// Carries says what the structure of an overlay may bear round by the strength
// table, N/m, and how thick it is, m; not known where a thickness is not or the
// table does not know its plies.
func Carries(a *laminate.Analysis) (hoop, structure float64, known bool) {
	s := stackOf(a)
	return s.hoop, s.structure, s.known && s.hoop > 0
}

// Sealing is what of a laminate laid inside seals, m.
func Sealing(a *laminate.Analysis) float64 { return sealing(a) }

// Reachable tells whether a hand reaches the inside of a part.
func Reachable(p *rules.JobPass, part int) bool { return reachable(p, part) }

// NozzleNeed is what has to be laid round a nozzle.
type NozzleNeed struct {
	Pad      float64 // N/m that the pad's structure may bear cold; infinite where it reaches no further than the opening
	NeckBond float64 // m, along neck and part, each
	Pressure float64 // Pa, at its lowest edge

	Hoop         float64 // N/m round that the wall has to carry there
	Taken        float64 // of that under the condition that decides the pad
	Carries      float64 // N/m round that the wall may carry then
	TakenBy      float64 // Pa that it is then, at its lowest edge
	Share        float64 // of its strength that the pad keeps then
	Under        string  // that condition, "" the service
	Structure    float64 // m of the pad's structure, under a vacuum; 0 without one
	Cut, Through float64 // m: the opening, and the neck where that goes through and decides it, else 0
}

// Nozzle says what nozzle i needs with a pad of the diameter that it states, or
// of the least one, or what is missing for it. What is known of its neck is there all
// the same.
func Nozzle(p *rules.JobPass, i int) (n NozzleNeed, missing string) {
	z := p.Job.Nozzles[i]
	x := opening{Nozzle: &z, index: i, on: p.Part(z.On)}
	if x.on < 0 {
		return n, "part " + z.On + " is not there"
	}
	if !z.PadDiameter.Given() {
		z.Pad = "" // the least
	}
	d, missing := x.cut(p)
	if missing == "" {
		n.Pressure, missing = x.pressure(p)
	}
	if missing != "" {
		return n, missing
	}
	if n.Cut = d; thinner(x.Nozzle.Cut().SI(), d) {
		n.Through, _ = x.through(p)
	}
	_, n.Structure = x.underVacuum(p)
	shear, _ := bond(p.Job)
	n.NeckBond = joining.BlowOut(n.Pressure, d, 1) / shear
	if n.Hoop, missing = x.hoop(p); missing != "" {
		return n, missing
	}
	need, missing := x.replaced(p)
	if need.load == 0 { // the wall itself has enough in each: shown where it is pressed most
		most := 0.0
		for _, u := range states(p, x.on) {
			if pa, _ := u.pressing().at(p, x.on, x.foot(p)); pa > most {
				most, need.under = pa, u
			}
		}
	}
	n.Pad, n.Share, n.Under = need.load/need.share, need.share, string(need.under)
	n.TakenBy, _ = need.under.pressing().at(p, x.on, x.foot(p))
	n.Taken, _ = x.hoopOf(p, n.TakenBy)
	if n.Carries = n.Taken; n.Taken > 0 {
		n.Carries = x.carries(p, n.Taken, need.under)
	}
	return n, missing
}

// PressureAt is the inside pressure of the service at a height above the bottom of a
// part, Pa, or what is missing for it.
func PressureAt(p *rules.JobPass, part int, height float64) (pa float64, missing string) {
	return pressureAt(p, part, height)
}

// Foot is how high the lower edge of nozzle i is above the lower end of its part, m, and
// which part that is, −1 where it is not there.
func Foot(p *rules.JobPass, i int) (part int, m float64) {
	x := opening{Nozzle: &p.Job.Nozzles[i], index: i, on: p.Part(p.Job.Nozzles[i].On)}
	if x.on < 0 {
		return x.on, 0
	}
	return x.on, x.foot(p)
}

// Shear is what one square of a bond may carry, Pa, and whose figure it is.
func Shear(j *laminate.Job) (pa float64, basis string) { return bond(j) }

// Gas is the pressure of a part under a condition, "" in its service, Pa.
func Gas(p *rules.JobPass, part int, condition string) float64 {
	return under(condition).pressing().gas(p, part)
}

// PadWidth is the least diameter of the pad of nozzle i in m: that of the
// opening, and as wide as its bond wants it; not ok where a figure of it is
// missing.
func PadWidth(p *rules.JobPass, i int) (m float64, ok bool) {
	x := opening{Nozzle: &p.Job.Nozzles[i], index: i, on: p.Part(p.Job.Nozzles[i].On)}
	if x.on < 0 {
		return 0, false
	}
	d, missing := x.cut(p)
	need, more := x.hoop(p)
	if missing+more != "" {
		return 0, false
	}
	shear, _ := bond(p.Job)
	// N d/(π/8 (dr² − d²)) = τ
	return math.Max(joining.PadDiameter(d), math.Sqrt(d*d+8*need*d/(math.Pi*shear))), true
}
