package statics

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"math"
)

// StrapNeed is what the strap of a joint has to be.
type StrapNeed struct {
	Hoop      float64 // N/m that its structure may bear cold; 0 over a corner, which the bottom holds round
	Structure float64 // m, of the plies that count
	Bond      float64 // m on each side, the gap not counted
	Bonds     float64 // m that there are
	Short     int     // a part that the strap is too wide for, −1 for none
	Shared    float64 // m of that part that all straps on it ask for, see [Joined.Shared]; else 0
	Reach     float64 // m on each side, the gap not counted, as custom has it: eight thicknesses of the thinner wall; 0 where none is known

	Along      float64 // N/m along the axis that its structure may bear cold
	AlongShare float64 // of its strength that the strap, and its bond, keeps under the condition that decides both
	AlongUnder string  // that condition, "" the service

	Pull                   // under it
	Inside, Thrust float64 // Pa at the joint then: on the wall, and as far as it pulls along the axis
	Diameter       float64 // m, of the bond line

	Round float64 // Pa inside under the condition that decides Hoop
	Share float64 // of its strength that the strap keeps then
	Under string  // that condition, "" the service
}

// Pull is what pulls along the axis of a joint over the circle of its bond line.
type Pull struct {
	Pressed float64 // Pa that press there
	Liquid  float64 // N of liquid that hang below or lift what is above
}

// Strap says what the strap of joint i has to be, or what is missing for it: what is
// known of it is there all the same. An axial load that is not stated counts for none.
func Strap(p *rules.JobPass, i int) (n StrapNeed, missing string) {
	x := Joined{Joint: &p.Job.Joints[i], Index: i}
	for k, id := range x.Between {
		if x.Parts[k] = p.Part(id); x.Parts[k] < 0 {
			return n, "part " + id + " is not there"
		}
	}
	if n.Bonds, n.Short = x.Bonds(p); n.Short >= 0 {
		n.Shared = x.Shared(p, n.Short)
	}
	d, missing := x.StrapPull(p)
	l, more := LoadsOf(p, &x, d.Under.Pressing())
	if more != "" {
		return n, more
	}
	n = StrapNeed{Bonds: n.Bonds, Short: n.Short, Shared: n.Shared, Structure: x.Thinner(p), Bond: x.Bond(p, d), Reach: x.Reach(p), Inside: l.inside, Thrust: l.thrust, Diameter: l.diameter,
		Along: d.Load / d.Share, AlongShare: d.Share, AlongUnder: string(d.Under), Pull: Pull{l.pressed, l.liquid}}
	if missing != "" {
		return n, missing
	}
	d, missing = x.StrapLoad(p)
	n.Hoop, n.Share, n.Under = d.Load/d.Share, d.Share, string(d.Under)
	if l, more := LoadsOf(p, &x, d.Under.Pressing()); more == "" {
		n.Round = l.inside
	}
	return n, missing
}

// Bolted is Joined.Bolted of joint i; not of one whose parts are not there.
func Bolted(p *rules.JobPass, i int) bool {
	x := Joined{Joint: &p.Job.Joints[i], Index: i}
	for k, id := range x.Between {
		if x.Parts[k] = p.Part(id); x.Parts[k] < 0 {
			return false
		}
	}
	return x.Bolted(p)
}

// Bond is how long the strap has to bond on each side for what pulls along, m.
func (x *Joined) Bond(p *rules.JobPass, along Demand) float64 {
	shear, _ := Shear(p.Job, along.Share)
	return joining.BondLength(along.Load, shear)
}

// Along is what pulls along the axis of the joint, N/m.
func (x *Joined) Along(l Loads) float64 {
	return joining.AxialLoad(l.thrust, l.diameter) + x.AxialLoad.SI()
}

// Beyond tells whether more pulls along than the thrust of closed ends, half of the load
// round.
func (x *Joined) Beyond(p *rules.JobPass, along Demand) bool {
	l, missing := LoadsOf(p, x, along.Under.Pressing())
	return missing == "" && quantity.Above(along.Load, joining.AxialLoad(l.inside, l.diameter))
}

// Bonds is how far the strap bonds on each part, m: half of its width less the gap, and on
// no part further than that is long; short is such a part, −1 for none.
func (x *Joined) Bonds(p *rules.JobPass) (m float64, short int) {
	m, short = (x.Width.SI()-x.Gap.SI())/2, -1
	for _, part := range x.Parts {
		switch s := p.Stated(part); s.Form {
		case laminate.ShellCourse, laminate.Pipe, laminate.Duct:
			has := s.Length.SI()
			if all := x.Shared(p, part); all > 0 {
				has *= (x.Width.SI() - x.Gap.SI()) / 2 / all
			}
			if s.Length.Given() && Thinner(has, m) {
				m, short = has, part
			}
		default:
		}
	}
	return m, short
}

// Shared is how much of a part all straps on it ask for together, m, where that is more
// than it is long and none has as much to itself; else 0.
func (x *Joined) Shared(p *rules.JobPass, part int) (m float64) {
	straps := 0
	for _, i := range p.Joints(part) {
		j := &p.Job.Joints[i]
		if n := (j.Width.SI() - j.Gap.SI()) / 2; n > 0 && j.Outside != "" {
			m, straps = m+n, straps+1
		}
	}
	if straps < 2 || !Thinner(p.Stated(part).Length.SI(), m) || x.Outside == "" {
		return 0
	}
	return m
}

// Reach is how far the strap lies on each part, m: eight thicknesses of the thinner
// wall; 0 where no thickness is known.
func (x *Joined) Reach(p *rules.JobPass) float64 {
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
func (x *Joined) walls(p *rules.JobPass) []int {
	for k, part := range x.Parts {
		if ground.Flat(p.Stated(part)) && !ground.Flat(p.Stated(x.Parts[1-k])) {
			return x.Parts[1-k : 2-k]
		}
	}
	return x.Parts[:]
}

// Hoop is what the strap has to carry round, N/m. A corner is held round by the
// bottom and its reinforcement (knuckle-weak).
func (x *Joined) Hoop(p *rules.JobPass, l Loads) float64 {
	if p.Job.Parts[x.Parts[0]].Form == laminate.FlatBottom || p.Job.Parts[x.Parts[1]].Form == laminate.FlatBottom {
		return 0
	}
	return joining.HoopLoad(l.inside, l.diameter)
}

// Thinner is the structure of the thinner wall, m.
func (x *Joined) Thinner(p *rules.JobPass) float64 {
	thin := math.Inf(1)
	for _, part := range x.walls(p) {
		thin = math.Min(thin, StackOf(p.Parts[part].Analysis).Structure)
	}
	return thin
}

// Carries says what the structure of an overlay may bear round by the strength
// table, N/m, and how thick it is, m; not known where a thickness is not or the
// table does not know its plies.
func Carries(a *laminate.Analysis) (hoop, structure float64, known bool) {
	s := StackOf(a)
	return s.Hoop, s.Structure, s.Known && s.Hoop > 0
}

// NozzleNeed is what has to be laid round a nozzle.
type NozzleNeed struct {
	Pad      float64 // N/m that the pad's structure may bear cold; infinite where it reaches no further than the opening
	NeckBond float64 // m, along neck and part, each
	Free     float64 // m of the neck that it can lie on, NaN where that is not known
	Bonded   float64 // m of it as it is stated, and is there
	Limit    string  // what keeps it from being as long as stated
	Pressure float64 // Pa, at its lowest edge under the condition that decides the bond of its neck

	BondShare float64 // of its shear that the bond of its neck keeps then
	BondUnder string  // that condition, "" the service

	Hoop      float64 // N/m that the wall has to carry there, round or along, under the condition that decides the bond of the pad
	HoopAlong bool    // along
	HoopBy    float64 // Pa that it is then, at its lowest edge
	HoopShare float64 // of its shear that the bond keeps then
	HoopUnder string  // that condition, "" the service

	Taken        float64 // of that under the condition that decides the pad
	Along        bool    // that is along the axis
	Carries      float64 // N/m in that direction that the wall may carry then
	TakenBy      float64 // Pa that it is then, at its lowest edge
	Share        float64 // of its strength that the pad keeps then
	Under        string  // that condition, "" the service
	Structure    float64 // m of the pad's structure, under a vacuum; 0 without one
	Vacuum       float64 // Pa, the most on its part
	Cut, Through float64 // m: the opening, and the neck where that goes through and decides it, else 0
}

// Nozzle says what nozzle i needs with a pad of the diameter that it states, or
// of the least one, or what is missing for it. What is known of its neck is there all
// the same.
func Nozzle(p *rules.JobPass, i int) (n NozzleNeed, missing string) {
	z := p.Job.Nozzles[i]
	x := Opening{Nozzle: &z, Index: i, Part: p.Part(z.On)}
	if x.Part < 0 {
		return n, "part " + z.On + " is not there"
	}
	if !z.PadDiameter.Given() {
		z.Pad = "" // the least
	}
	n.Bonded, n.Limit = x.Bonded(p)
	n.Free = math.NaN()
	if free, known := x.Free(p); known {
		n.Free = free
	}
	d, missing := x.Hole(p)
	var by Demand
	if missing == "" {
		by, missing = x.Pressed(p)
	}
	n.Pressure, n.BondShare, n.BondUnder = by.Load, by.Share, string(by.Under)
	if missing != "" {
		return n, missing
	}
	if n.Cut = d; Thinner(x.Nozzle.Cut().SI(), d) {
		n.Through, _ = x.Through(p)
	}
	n.Vacuum, n.Structure = x.UnderVacuum(p)
	shear, _ := Shear(p.Job, by.Share)
	n.NeckBond = joining.BlowOut(n.Pressure, d, 1) / shear
	sheared, missing := x.Sheared(p)
	n.Hoop, n.HoopShare, n.HoopUnder = sheared.Load, sheared.Share, string(sheared.Under)
	if missing != "" {
		return n, missing
	}
	_, n.HoopAlong, _ = x.Taken(p, sheared.Under)
	n.HoopBy, _ = sheared.Under.Pressing().At(p, x.Part, x.Foot(p))
	need, missing := x.Replaced(p)
	if need.Load == 0 { // the wall itself has enough in each: shown where it is loaded most
		most := 0.0
		for _, u := range States(p, x.Part) {
			if load, _, _ := x.Taken(p, u); load > most {
				most, need.Under = load, u
			}
		}
	}
	n.Pad, n.Share, n.Under = need.Load/need.Share, need.Share, string(need.Under)
	n.TakenBy, _ = need.Under.Pressing().At(p, x.Part, x.Foot(p))
	n.Taken, n.Along, _ = x.Taken(p, need.Under)
	if n.Carries = n.Taken; n.Taken > 0 {
		n.Carries = x.Carries(p, n.Taken, n.Along, need.Under)
	}
	return n, missing
}

// Foot is how high the lower edge of nozzle i is above the lower end of its part, m, and
// which part that is, −1 where it is not there.
func Foot(p *rules.JobPass, i int) (part int, m float64) {
	x := Opening{Nozzle: &p.Job.Nozzles[i], Index: i, Part: p.Part(p.Job.Nozzles[i].On)}
	if x.Part < 0 {
		return x.Part, 0
	}
	return x.Part, x.Foot(p)
}

// Gas is the pressure of a part under a condition, "" in its service, Pa.
func Gas(p *rules.JobPass, part int, condition string) float64 {
	return Under(condition).Pressing().Gas(p, part)
}

// PadWidth is the least diameter of the pad of nozzle i in m: that of the
// opening, and as wide as its bond wants it; not ok where a figure of it is
// missing.
func PadWidth(p *rules.JobPass, i int) (m float64, ok bool) {
	x := Opening{Nozzle: &p.Job.Nozzles[i], Index: i, Part: p.Part(p.Job.Nozzles[i].On)}
	if x.Part < 0 {
		return 0, false
	}
	d, missing := x.Hole(p)
	by, more := x.Sheared(p)
	if missing+more != "" {
		return 0, false
	}
	need := by.Load
	shear, _ := Shear(p.Job, by.Share)
	// N d/(π/8 (dr² − d²)) = τ
	return math.Max(joining.PadDiameter(d), math.Sqrt(d*d+8*need*d/(math.Pi*shear))), true
}
