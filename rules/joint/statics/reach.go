package statics

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules"
	"math"
)

// OutOfReach tells of a joint that no hand reaches from inside or from an end of its
// parts; not of one of which no diameter is known.
func (x *Joined) OutOfReach(p *rules.JobPass) bool {
	known := false
	for _, part := range x.Parts {
		s := &p.Parts[part].Schedule.Part
		known = known || s.InsideDiameter.Given()
		if Reachable(p, part) || p.Job.Parts[part].Form == laminate.Flange {
			return false
		}
		deep, long := catalog.ArmReach.SI(), math.Inf(1)
		if s.InsideDiameter.Given() && Thinner(s.InsideDiameter.SI(), catalog.ArmBore.SI()) {
			deep = catalog.FingerReach.SI()
		}
		switch p.Job.Parts[part].Form {
		case laminate.Pipe, laminate.Duct, laminate.ShellCourse:
			if s.Length.Given() {
				long = s.Length.SI()
			}
		case laminate.Elbow: // as far as round its middle
			if s.BendRadius.Given() && s.Turn.Given {
				long = s.BendRadius.SI() * s.Turn.Value * math.Pi / 180
			}
		case laminate.Cone:
			if rise, ok := s.Rise(); ok {
				long = rise
			}
		default: // it closes its end
		}
		if !Thinner(deep, long) {
			return false
		}
	}
	return known
}

// Sealing is what of a laminate laid inside seals, m: its plies of veil and
// chopped glass, whatever their zone.
func Sealing(a *laminate.Analysis) float64 {
	m := 0.0
	for i := range a.Rows {
		if r := &a.Rows[i]; r.Material != nil && (r.Material.Form == laminate.Veil || r.Material.Form.Chopped()) {
			m += float64(r.Last-r.First+1) * r.Thickness
		}
	}
	return m
}

func Reachable(p *rules.JobPass, part int) bool {
	d := p.Parts[part].Schedule.Part.InsideDiameter
	return d.Given() && !Thinner(d.SI(), catalog.LeastReach.SI())
}
