package joint

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
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
		each(func(p *rules.JobPass, x *opening) { x.offPart(p, &laid[x.on]) })(p)
	},
}

// overEnd is how far what is laid over the joint at the bottom and at the top of a part
// reaches from its end, m: the strap, and the seal inside.
type overEnd struct{ strap, seal [2]float64 }

func overEnds(p *rules.JobPass) []overEnd {
	laid := make([]overEnd, len(p.Job.Parts))
	over(func(p *rules.JobPass, x *joined) {
		for k, part := range x.parts {
			end, known := endTo(p, part, x.parts[1-k])
			if !known {
				continue
			}
			if x.Outside != "" {
				laid[part].strap[end] = math.Max(laid[part].strap[end], x.Width.SI()/2)
			}
			if x.Inside != "" {
				laid[part].seal[end] = math.Max(laid[part].seal[end], x.InsideWidth.SI()/2)
			}
		}
	})(p)
	return laid
}

func (x *opening) offPart(p *rules.JobPass, laid *overEnd) {
	part := &p.Parts[x.on].Schedule.Part
	if !x.Cut().Given() {
		return // opening-large says so
	}
	cut, pad, missing := x.edge(p), x.laid(p)/2, ""
	switch form := p.Job.Parts[x.on].Form; form {
	case laminate.ShellCourse, laminate.Pipe, laminate.Duct:
		switch {
		case !x.Height.Given():
			missing = "its height is not stated (height)"
		case !part.Length.Given():
			missing = "how long part " + x.On + " is is not stated (length)"
		default:
			x.along(p, part.Length.SI(), cut, pad, laid)
		}
	case laminate.HeadPart, laminate.FlatBottom, laminate.Cover:
		across := part.InsideDiameter
		if form == laminate.Cover && part.BoltCircle.Given() {
			across = part.BoltCircle
		}
		switch {
		case !x.Offset.Given():
			missing = "how far it is from the axis is not stated (offset; 0 in the middle)"
		case !across.Given():
			missing = "how wide part " + x.On + " is is not stated"
		case thinner(across.SI()/2, x.Offset.SI()+cut):
			m, n := p.Units.Pair(x.Offset.SI()+cut, across.SI()/2, quantity.Size)
			p.Report(rules.Break, x.at("offset"), "", "nozzle %s: its opening reaches %s from the axis, and part %s ends at %s", x.ID, m, x.On, n)
		default:
			x.misplaced(p, part, cut)
		}
	case laminate.Cone:
		slant := cut * math.Sin(part.HalfAngle.Value*math.Pi/180) // of an opening, seen along the axis
		large, small := part.InsideDiameter, part.SmallDiameter
		switch at := x.Offset.SI(); {
		case !x.Offset.Given():
			missing = "how far it is from the axis is not stated (offset)"
		case !large.Given() || !small.Given() || !part.HalfAngle.Given:
			missing = "the diameters of part " + x.On + " and its half-angle are not all stated"
		case thinner(large.SI()/2, at+slant), thinner(at-slant, small.SI()/2):
			m, n := p.Units.Pair(large.SI()/2, small.SI()/2, quantity.Size)
			p.Report(rules.Break, x.at("offset"), "", "nozzle %s: its opening, %s from the axis, runs off part %s, which reaches from %s to %s from there", x.ID, p.Units.Stated(at, quantity.Size), x.On, n, m)
		default:
			x.misplaced(p, part, cut)
		}
	default:
		missing = "no key states a place on part " + x.On + ", form " + form.String()
	}
	if missing != "" {
		p.Report(rules.Incomplete, x.at(""), "", "nozzle %s: whether its opening lies on part %s is not known: %s", x.ID, x.On, missing)
	}
}

// misplaced holds the height of an opening against where the head or cone is at its
// offset, to within half the opening.
func (x *opening) misplaced(p *rules.JobPass, part *laminate.Part, cut float64) {
	places := x.heights(p, part)
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
	p.Report(rules.Break, x.at("height"), "", "nozzle %s: its height is %s, and %s from its axis part %s is %s above its lower end", x.ID, n, p.Units.Stated(x.Offset.SI(), quantity.Size), x.On, m)
}

// heights are how high above the lower end of its head or cone an opening is at its
// offset, m: both ways up where nothing says which, none where a size is missing.
func (x *opening) heights(p *rules.JobPass, part *laminate.Part) []float64 {
	rise, known := part.Rise()
	above := part.Profile().At(x.Offset.SI()) // the wide end
	if !x.Offset.Given() || !known || rise <= 0 || math.IsNaN(above) {
		return nil
	}
	if _, stands := p.Elevation(x.on); !stands {
		return []float64{above, rise - above}
	}
	return []float64{p.Up(x.on, x.Offset.SI())}
}

// along looks at both ends of a part of a length, all in m.
func (x *opening) along(p *rules.JobPass, length, cut, pad float64, laid *overEnd) {
	at := x.Height.SI()
	for end, room := range [2]float64{at, length - at} {
		name := [2]string{"bottom", "top"}[end]
		switch {
		case thinner(room, cut):
			m, n := p.Units.Pair(room, cut, quantity.Size)
			p.Report(rules.Break, x.at("height"), "", "nozzle %s: its opening runs over the %s of part %s: its middle is %s from there, and it reaches %s", x.ID, name, x.On, m, n)
		case thinner(room, cut+math.Max(laid.strap[end], laid.seal[end])):
			what, wide := "strap", laid.strap[end]
			if !thinner(room, cut+wide) {
				what, wide = "seal", laid.seal[end]
			}
			m, n := p.Units.Pair(room, cut+wide, quantity.Size)
			p.Report(rules.Break, x.at("height"), "", "nozzle %s: its opening cuts into the %s at the %s of part %s: its middle is %s from there, and opening and %s reach %s", x.ID, what, name, x.On, m, what, n)
		case pad > 0 && thinner(room, pad+laid.strap[end]):
			m, n := p.Units.Pair(room, pad+laid.strap[end], quantity.Size)
			what := "runs over the " + name + " of part " + x.On
			if !thinner(room, pad) {
				what = "reaches the strap at the " + name + " of part " + x.On
			}
			p.Report(rules.Warning, x.at("pad_diameter"), "", "nozzle %s: its pad %s: its middle is %s from there, and pad and strap reach %s", x.ID, what, m, n)
		}
	}
}

// endTo is the end of a part, 0 its bottom and 1 its top, on which another stands;
// not known of what is not in the stack.
func endTo(p *rules.JobPass, part, other int) (end int, known bool) {
	if other < 0 || !p.Job.Parts[part].Form.OfShell() || !p.Job.Parts[other].Form.OfShell() {
		return 0, false
	}
	if other > part { // the stack stands as it is written, from the bottom up
		return 1, true
	}
	return 0, true
}
