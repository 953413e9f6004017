package joint

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// OpeningOffPart asks that an opening lies on its part.
var OpeningOffPart = &rules.Rule{
	ID: "opening-off-part", Family: family, Title: "An opening runs off its part",
	Why: "A hole that is cut across the end of a part goes through the joint there: it takes away the strap that holds two parts together and the seal over their edges. " +
		"A pad that runs into a strap is laid on another laminate than it was figured for.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "the cut reaches past the end of a course, pipe or duct, into the strap or seal of a joint there, or past the rim of a head, cone, bottom or cover, or its height and offset are not of one place of a head or cone: break; " +
		"its pad, as wide as it is laid, reaches past the end, or the strap of a joint there: warning; " +
		"its height or offset, or the size of the part, is not stated: incomplete",
	Basis: "arithmetic",
	Job: func(p *rules.JobPass) {
		laid := overEnds(p)
		statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) { offPart(x, p, &laid[x.Part]) })(p)
	},
}

// overEnd is how far what is laid over the joint at the bottom and at the top of a part
// reaches from its end, m: the strap, and the seal inside. Which end of a pipe a joint is
// at is not known: where both its ends are joined the wider counts at each.
type overEnd struct{ strap, seal [2]float64 }

func overEnds(p *rules.JobPass) []overEnd {
	laid, joints := make([]overEnd, len(p.Job.Parts)), make([]int, len(p.Job.Parts))
	statics.EachJoint(func(_ *rules.JobPass, x *statics.Joined) {
		for _, part := range x.Parts {
			joints[part]++
		}
	})(p)
	statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		for k, part := range x.Parts {
			var ends []int
			if end, known := statics.EndTo(p, part, x.Parts[1-k]); known {
				ends = []int{end}
			} else if joints[part] > 1 {
				ends = []int{0, 1}
			}
			for _, end := range ends {
				if x.Outside != "" {
					laid[part].strap[end] = math.Max(laid[part].strap[end], x.Width.SI()/2)
				}
				if x.Inside != "" {
					laid[part].seal[end] = math.Max(laid[part].seal[end], x.InsideWidth.SI()/2)
				}
			}
		}
	})(p)
	return laid
}

func offPart(x *statics.Opening, p *rules.JobPass, laid *overEnd) {
	part := &p.Parts[x.Part].Schedule.Part
	if !x.Cut().Given() {
		return // opening-large says so
	}
	cut, pad, missing := x.Edge(p), x.Laid(p)/2, ""
	switch form := p.Job.Parts[x.Part].Form; form {
	case laminate.ShellCourse, laminate.Pipe, laminate.Duct:
		switch {
		case !x.Height.Given():
			missing = "its height is not stated (height)"
		case !part.Length.Given():
			missing = "the length of part " + x.On + " is not stated (length)"
		default:
			along(x, p, part.Length.SI(), cut, pad, laid)
		}
	case laminate.HeadPart, laminate.FlatBottom, laminate.Cover:
		across := part.InsideDiameter
		if form == laminate.Cover && part.BoltCircle.Given() {
			across = part.BoltCircle
		} else if form == laminate.Cover && !across.Given() {
			across = part.Size // of the bore that it closes; its bolts stand outside
		}
		switch {
		case !x.Offset.Given():
			missing = "how far it is from the axis is not stated (offset; 0 in the middle)"
		case !across.Given():
			missing = "the width of part " + x.On + " is not stated (inside_diameter, of a cover its size or bolt_circle)"
		case statics.Thinner(across.SI()/2, x.Offset.SI()+cut):
			m, n := p.Units.Pair(x.Offset.SI()+cut, across.SI()/2, quantity.Size)
			p.Report(rules.Break, x.At("offset"), "", "nozzle %s: its opening reaches %s from the axis, and part %s ends at %s", x.ID, m, x.On, n)
		default:
			misplaced(x, p, part, cut)
		}
	case laminate.Cone:
		slant := cut * math.Sin(part.HalfAngle.Value*math.Pi/180) // of an opening, seen along the axis
		large, small := part.InsideDiameter, part.SmallDiameter
		switch at := x.Offset.SI(); {
		case !x.Offset.Given():
			missing = "how far it is from the axis is not stated (offset)"
		case !large.Given() || !small.Given() || !part.HalfAngle.Given:
			missing = "the diameters of part " + x.On + " and its half-angle are not all stated"
		case statics.Thinner(large.SI()/2, at+slant), statics.Thinner(at-slant, small.SI()/2):
			m, n := p.Units.Pair(large.SI()/2, small.SI()/2, quantity.Size)
			p.Report(rules.Break, x.At("offset"), "", "nozzle %s: its opening, %s from the axis, runs off part %s, which reaches from %s to %s from there", x.ID, p.Units.Stated(at, quantity.Size), x.On, n, m)
		default:
			misplaced(x, p, part, cut)
		}
	default:
		missing = "no key states a place on part " + x.On + ", form " + form.String()
	}
	if missing != "" {
		p.Report(rules.Incomplete, x.At(""), "", "nozzle %s: whether its opening lies on part %s is not known: %s", x.ID, x.On, missing)
	}
}

// misplaced holds the height of an opening against where the head or cone is at its
// offset, to within half the opening.
func misplaced(x *statics.Opening, p *rules.JobPass, part *laminate.Part, cut float64) {
	places := x.Heights(p, part)
	if !x.Height.Given() || len(places) == 0 {
		return
	}
	at := x.Height.SI()
	for _, place := range places {
		if math.Abs(place-at) <= cut {
			return
		}
	}
	m, n := p.Units.Pair(places[0], at, quantity.Size)
	p.Report(rules.Break, x.At("height"), "", "nozzle %s: its height is %s, and %s from its axis part %s is %s above its lower end", x.ID, n, p.Units.Stated(x.Offset.SI(), quantity.Size), x.On, m)
}

// along looks at both ends of a part of a length, all in m.
func along(x *statics.Opening, p *rules.JobPass, length, cut, pad float64, laid *overEnd) {
	at := x.Height.SI()
	for end, room := range [2]float64{at, length - at} {
		name := [2]string{"bottom", "top"}[end]
		switch {
		case statics.Thinner(room, cut):
			m, n := p.Units.Pair(room, cut, quantity.Size)
			p.Report(rules.Break, x.At("height"), "", "nozzle %s: its opening runs over the %s of part %s: its middle is %s from there, and it reaches %s", x.ID, name, x.On, m, n)
		case statics.Thinner(room, cut+math.Max(laid.strap[end], laid.seal[end])):
			what, wide := "strap", laid.strap[end]
			if !statics.Thinner(room, cut+wide) {
				what, wide = "seal", laid.seal[end]
			}
			m, n := p.Units.Pair(room, cut+wide, quantity.Size)
			p.Report(rules.Break, x.At("height"), "", "nozzle %s: its opening cuts into the %s at the %s of part %s: its middle is %s from there, and opening and %s reach %s", x.ID, what, name, x.On, m, what, n)
		case pad > 0 && statics.Thinner(room, pad+laid.strap[end]):
			m, n := p.Units.Pair(room, pad+laid.strap[end], quantity.Size)
			what := "runs over the " + name + " of part " + x.On
			if !statics.Thinner(room, pad) {
				what = "reaches the strap at the " + name + " of part " + x.On
			}
			p.Report(rules.Warning, x.At("pad_diameter"), "", "nozzle %s: its pad %s: its middle is %s from there, and pad and strap reach %s", x.ID, what, m, n)
		}
	}
}
