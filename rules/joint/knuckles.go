package joint

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/surface"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/rules"
)

// OpeningInKnuckle says where a wall is bent and replaced load is no answer.
var OpeningInKnuckle = &rules.Rule{
	ID: "opening-in-knuckle", Family: family, Title: "An opening reaches into a knuckle",
	Why: "The knuckle of a head and the corner of a flat bottom are bent as well as pulled, and are laid up for that. A pad answers for the pull that an opening takes away and for nothing else: " +
		"there the opening goes where the wall is a plain shell, or it is analyzed by itself.",
	Severity: []rules.Severity{rules.Incomplete},
	When: "an opening or its pad reaches past the crown of a torispherical head, or past 80 % of the diameter of an ellipsoidal one; " +
		"an opening cuts into the reinforcement of a flat bottom's corner, up the wall to knuckle_height, in over the bottom as far",
	Basis: "ASME VIII UG-37, from memory: inside the crown, or inside 80 % of the diameter, an opening is in a sphere",
	Job: func(p *rules.JobPass) {
		corner := -1 // the flat bottom that the shell stands on
		for i := range p.Job.Parts {
			if x := &p.Job.Parts[i]; x.Form == laminate.FlatBottom && !p.OnTop(i) && x.KnuckleHeight.Given() {
				corner = i
				break
			}
		}
		each(func(p *rules.JobPass, x *opening) {
			if !x.Cut().Given() {
				return // opening-large says so
			}
			cut := x.Cut().SI() / 2
			switch part := &p.Job.Parts[x.on]; part.Form {
			case laminate.HeadPart:
				x.pastCrown(p, &p.Parts[x.on].Schedule.Part, cut)
			case laminate.FlatBottom:
				if d, h := part.InsideDiameter, part.KnuckleHeight; x.Offset.Given() && d.Given() && h.Given() && !p.OnTop(x.on) && thinner(d.SI()/2-h.SI(), x.Offset.SI()+cut) {
					m, n := p.Units.Pair(x.Offset.SI()+cut, d.SI()/2-h.SI(), quantity.Size)
					p.Report(rules.Incomplete, x.at("offset"), "", "nozzle %s: its opening reaches %s from the axis, and from %s on part %s has the reinforcement of its corner, taken to run in as far as up the wall: what that loses is not figured", x.ID, m, n, x.On)
				}
			case laminate.ShellCourse:
				if corner < 0 || !x.Height.Given() {
					return
				}
				bottom := &p.Job.Parts[corner]
				up, known := p.Elevation(x.on)
				if from := up + x.Height.SI() - cut; known && thinner(from, bottom.KnuckleHeight.SI()) {
					m, n := p.Units.Pair(from, bottom.KnuckleHeight.SI(), quantity.Size)
					p.Report(rules.Incomplete, x.at("height"), "", "nozzle %s: its opening begins %s above the bottom, and the reinforcement of the corner, part %s, runs up to %s: what that loses is not figured", x.ID, m, bottom.ID, n)
				}
			default:
			}
		})(p)
	},
}

// pastCrown looks at an opening of a head.
func (x *opening) pastCrown(p *rules.JobPass, part *laminate.Part, cut float64) {
	crown, what, known := crownOf(part)
	if !known || !x.Offset.Given() {
		return // the wall, and opening-off-part, say what is missing
	}
	reach, of, key := x.Offset.SI()+cut, "opening", "offset"
	if pad := x.Offset.SI() + x.laid(p)/2; x.Pad != "" && pad > reach && !thinner(crown, reach) {
		reach, of, key = pad, "pad", "pad_diameter"
	}
	if thinner(crown, reach) {
		m, n := p.Units.Pair(reach, crown, quantity.Size)
		p.Report(rules.Incomplete, x.at(key), "", "nozzle %s: its %s reaches %s from the axis of part %s, and %s ends at %s: beyond it the head is bent, and what is needed there is not figured", x.ID, of, m, x.On, what, n)
	}
}

// crownOf is how far the crown of a head reaches from its axis, m; not known of a
// hemisphere, which has no knuckle, or where a size is missing.
func crownOf(part *laminate.Part) (m float64, what string, known bool) {
	d := part.InsideDiameter
	switch part.Head {
	case laminate.Torispherical:
		known = d.Given() && part.CrownRadius.Given() && part.KnuckleRadius.Given()
		return surface.CrownRim(d.SI(), part.CrownRadius.SI(), part.KnuckleRadius.SI()), "its crown", known
	case laminate.Ellipsoidal:
		return 0.4 * d.SI(), "80 % of its diameter", d.Given()
	default:
		return 0, "", false
	}
}

// hoop is the load round that the wall there has to carry, N/m: of a head that of
// the sphere that its crown is, of other parts by the factor of their form.
func (x *opening) hoop(p *rules.JobPass) (load float64, missing string) {
	part := &p.Parts[x.on].Schedule.Part
	if !part.InsideDiameter.Given() && form.Answers(part.Form) == form.ByMembrane {
		return 0, "the inside diameter of part " + x.On + " is not stated"
	}
	pa, missing := x.pressure(p)
	if missing != "" {
		return 0, missing
	}
	return x.hoopOf(p, pa)
}

// hoopOf is hoop under a pressure, Pa.
func (x *opening) hoopOf(p *rules.JobPass, pa float64) (load float64, missing string) {
	if pa == 0 {
		return 0, ""
	}
	part := &p.Parts[x.on].Schedule.Part
	d := part.InsideDiameter.SI()
	if part.Form == laminate.HeadPart {
		if _, missing = x.shape(p); missing != "" {
			return 0, missing
		}
		switch part.Head {
		case laminate.Torispherical:
			return joining.HoopLoad(pa, part.CrownRadius.SI()), ""
		case laminate.Ellipsoidal:
			return joining.HoopLoad(pa, d*d/(4*part.Depth.SI())), ""
		default:
			return joining.HoopLoad(pa, d/2), ""
		}
	}
	factor, missing := x.shape(p)
	return factor * joining.HoopLoad(pa, d), missing
}

// shape is how many times the load round of a straight shell its part carries, or
// why that cannot be told.
func (x *opening) shape(p *rules.JobPass) (factor float64, missing string) {
	part := p.Parts[x.on]
	if form.Answers(part.Schedule.Part.Form) == form.ByBending {
		return 0, "part " + x.On + " is a plate, which pressure bends: what an opening takes from it is not figured"
	}
	facts := form.Facts{Part: &part.Schedule.Part, Units: p.Units, Whole: part.Analysis.Total.Thickness}
	f, open := facts.Shape()
	return f.Hoop, open
}
