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
		"its pad, as wide as it is laid, reaches past the end, or the strap of a joint there: warning, also where that depends on the end that the joint is at; " +
		"its height or offset, or the size of the part, is not stated, or which end of a pipe a joint is at, and at one of them the cut reaches its strap or seal: incomplete",
	Basis: "arithmetic",
	Job: func(p *rules.JobPass) {
		laid := laidOverEnds(p)
		statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) { offPart(x, p, &laid[x.Part]) })(p)
	},
}

// overEnd is how far what is laid over a joint reaches from the end of a part, m: the
// strap, and the seal inside.
type overEnd struct {
	strap, seal float64
	joint       string
}

// overEnds are those of a part, the bottom first. Which end of a pipe a joint is at no key
// says: what of them, two at most, is not known to be at either is unsure.
type overEnds struct {
	at     [2]overEnd
	unsure []overEnd
}

// ways are all that may be at the two ends of a part.
func (o *overEnds) ways() [][2]overEnd {
	switch len(o.unsure) {
	case 0:
		return [][2]overEnd{o.at}
	case 1:
		return [][2]overEnd{{o.unsure[0], {}}, {{}, o.unsure[0]}}
	}
	return [][2]overEnd{{o.unsure[0], o.unsure[1]}, {o.unsure[1], o.unsure[0]}}
}

// wider puts what is laid over another joint to what is at the same end.
func (o *overEnd) wider(x overEnd) {
	if x.strap > o.strap || o.joint == "" {
		o.joint = x.joint
	}
	o.strap, o.seal = math.Max(o.strap, x.strap), math.Max(o.seal, x.seal)
}

// laidOverEnds are those of each part. A joint of which is not known at which end of its
// part it is, is at the one that no other is known to be at, and the only one of a pipe
// that hangs from the shell or rises from it is at the end that holds it. A part has two
// ends: of more joints the widest counts at each.
func laidOverEnds(p *rules.JobPass) []overEnds {
	laid, taken := make([]overEnds, len(p.Job.Parts)), make([][2]bool, len(p.Job.Parts))
	statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		over := overEnd{joint: x.ID}
		if x.Outside != "" {
			over.strap = x.Width.SI() / 2
		}
		if x.Inside != "" {
			over.seal = x.InsideWidth.SI() / 2
		}
		for k, part := range x.Parts {
			if end, known := statics.EndTo(p, part, x.Parts[1-k]); known {
				laid[part].at[end].wider(over)
				taken[part][end] = true
			} else {
				laid[part].unsure = append(laid[part].unsure, over)
			}
		}
	})(p)
	for part := range laid {
		o := &laid[part]
		held := len(o.unsure) == 1 && p.Line(part)
		var ends []int // at which all of them are
		switch {
		case taken[part] == [2]bool{true, false}, held && p.Hangs(part):
			ends = []int{1}
		case taken[part] == [2]bool{false, true}, held && p.Rises(part):
			ends = []int{0}
		case taken[part] == [2]bool{true, true}, len(o.unsure) > 2:
			ends = []int{0, 1}
		default:
			continue
		}
		for _, x := range o.unsure {
			for _, end := range ends {
				o.at[end].wider(x)
			}
		}
		o.unsure = nil
	}
	return laid
}

func offPart(x *statics.Opening, p *rules.JobPass, laid *overEnds) {
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
func along(x *statics.Opening, p *rules.JobPass, length, cut, pad float64, laid *overEnds) {
	rooms := [2]float64{x.Height.SI(), length - x.Height.SI()}
	for end, room := range rooms {
		if statics.Thinner(room, cut) {
			m, n := p.Units.Pair(room, cut, quantity.Size)
			p.Report(rules.Break, x.At("height"), "", "nozzle %s: its opening runs over the %s of part %s: its middle is %s from there, and it reaches %s", x.ID, endNames[end], x.On, m, n)
		}
	}
	ways := laid.ways()
	var cuts, pads [][]crossing // of the ways that have some
	for i := range ways {
		c, d := crossings(rooms, cut, pad, &ways[i])
		if len(c) > 0 {
			cuts = append(cuts, c)
		}
		if len(d) > 0 {
			pads = append(pads, d)
		}
	}
	say := func(of [][]crossing, sure, unsure rules.Severity, key, does, what string) {
		if len(of) == 0 {
			return
		}
		list, severity, known := of[0], sure, len(of) == len(ways)
		if !known {
			list, severity = list[:1], unsure
		}
		for i := range list {
			c := &list[i]
			m, n := p.Units.Pair(c.room, c.reach, quantity.Size)
			end := "at the " + endNames[c.end] + " of part " + x.On
			says, reaches := does+" the "+c.what+" "+end, what+" and "+c.what+" reach"
			switch {
			case c.over:
				says, reaches = "runs over the "+endNames[c.end]+" of part "+x.On, "it reaches"
			case !known:
				says = does + " the " + c.what + " of joint " + c.joint + " if that is " + end + ", which no key says"
			}
			p.Report(severity, x.At(key), "", "nozzle %s: its %s %s: its middle is %s from there, and %s %s", x.ID, what, says, m, reaches, n)
		}
	}
	say(cuts, rules.Break, rules.Incomplete, "height", "cuts into", "opening")
	say(pads, rules.Warning, rules.Warning, "pad_diameter", "reaches", "pad")
}

var endNames = [2]string{"bottom", "top"}

// crossing is an opening or a pad that reaches what is laid over an end of its part.
type crossing struct {
	end         int
	what, joint string  // strap or seal, and of which joint
	over        bool    // it reaches past the end itself
	room, reach float64 // m, of its middle from the end: there is, and it takes
}

// crossings are those of an opening, and of a pad that no cut goes before, all in m.
func crossings(rooms [2]float64, cut, pad float64, laid *[2]overEnd) (cuts, pads []crossing) {
	for end, room := range rooms {
		l := &laid[end]
		c := crossing{end: end, what: "strap", joint: l.joint, room: room}
		switch {
		case statics.Thinner(room, cut): // it runs over the end
		case statics.Thinner(room, cut+math.Max(l.strap, l.seal)):
			if c.reach = cut + l.strap; !statics.Thinner(room, c.reach) {
				c.what, c.reach = "seal", cut+l.seal
			}
			cuts = append(cuts, c)
		case pad > 0 && statics.Thinner(room, pad+l.strap):
			if c.reach = pad + l.strap; statics.Thinner(room, pad) {
				c.reach, c.over = pad, true
			}
			pads = append(pads, c)
		}
	}
	return cuts, pads
}
