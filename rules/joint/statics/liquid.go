package statics

import (
	"cmp"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"math"
)

// PressureAt is the inside pressure at a height above the bottom of a part, Pa,
// or what is missing for it.
func PressureAt(p *rules.JobPass, part int, height float64) (pa float64, missing string) {
	return pressureOf(p, p.Parts[part].Schedule, part, height)
}

// pressureOf is PressureAt with the service of s.
func pressureOf(p *rules.JobPass, s *laminate.Schedule, part int, height float64) (pa float64, missing string) {
	id := p.Job.Parts[part].ID
	if !s.Service.Pressure.Given() {
		return 0, "the inside pressure is not stated (service.pressure; 0 where there is none)"
	}
	pa = s.Service.Pressure.SI()
	depth, known := p.Covered(part, height)
	dry := p.Line(part) || !p.Job.Parts[part].Form.OfShell() || s.Service.Contact == laminate.Vapor && !p.Job.Vessel.LiquidHeight.Given()
	switch {
	case !known && p.Unplaced(part):
		return 0, "how deep the liquid stands over part " + id + " is not known: " + p.Unknown(part)
	case !known && !dry:
		return 0, "how deep the liquid stands over part " + id + " is not known (vessel.liquid_height, and the length of each course)"
	case !known || depth == 0:
		return pa, ""
	case !s.Service.SpecificGravity.Given:
		return 0, "the specific gravity is not stated (service.specific_gravity)"
	}
	return pa + wall.HeadPressure(s.Service.SpecificGravity.Value, depth), ""
}

// hanging is what of the liquid pulls at a joint, in N, beside its pressure there, of
// one that is a height m above the bottom of the lowest course and below which a bottom
// hangs: the weight of what is in it and, between courses above it, which may all be
// below where the vessel is held, what they hold too. Not so of other joints, or of a
// bottom that lies on its foundation.
func hanging(p *rules.JobPass, x *Joined, height float64, by Pressing) (n float64, hangs bool, missing string) {
	lower, upper := x.Parts[0], x.Parts[1]
	a, _ := p.Elevation(lower)
	if b, known := p.Elevation(upper); known && b < a {
		lower, upper, a = upper, lower, b
	}
	switch {
	case !p.Founded && p.Hangs(lower):
		n, missing = weight(p, lower, height, by)
		return n, true, missing
	case !p.InShell(lower) || !p.Borne(lower) && !p.Borne(upper) || p.OnTop(upper):
		return 0, false, ""
	}
	wide, first := 0.0, -1
	for _, i := range p.Stack {
		if p.Borne(i) {
			d := p.Stated(i).InsideDiameter.SI() + 2*thickness(p, i)
			if wide = math.Max(wide, d); first < 0 {
				first = i
			}
		}
	}
	n, missing = weight(p, p.Stack[0], 0, by)
	below, also := by.At(p, first, 0)
	here, third := by.At(p, lower, height-a)
	unknown := ""
	if math.IsNaN(wide) {
		unknown = "how wide and how thick each course is is not known"
	}
	missing = cmp.Or(missing, also, third, unknown)
	return n + (below-here)*math.Pi/4*wide*wide, true, missing
}

// weight is that of the liquid, in N, in what hangs below a place of a part, which is
// a height m above the bottom of the lowest course.
func weight(p *rules.JobPass, part int, height float64, by Pressing) (n float64, missing string) {
	bottom, _ := p.Elevation(part)
	high := height - bottom
	if !(high > 0) {
		return 0, ""
	}
	below, missing := by.At(p, part, 0)
	here, also := by.At(p, part, high)
	if missing == "" {
		missing = also
	}
	if missing != "" || below == here {
		return 0, missing
	}
	m3, whose := p.Below(height)
	if whose >= 0 {
		return 0, "how much liquid part " + p.Job.Parts[whose].ID + " holds, which hangs there, is not known (its sizes)"
	}
	return (below - here) / high * m3, "" // as heavy as its pressure grows
}

// Lift is what liquid lifts, in N, of what stands over a place of the shell, height m
// above the bottom of the lowest course: see [stand.Vessel.Lifted]. The weight of what is
// lifted is not taken off.
func Lift(p *rules.JobPass, height float64, by Pressing) (n float64, missing string) {
	n = p.Lifted(height, func(i int, up float64) float64 {
		pa, unknown := by.At(p, i, up)
		missing = cmp.Or(missing, unknown)
		return pa - by.Gas(p, i)
	})
	return math.Max(0, n), missing
}

// LoadsOf gives the loads of a joint, or what is missing. A liquid that stands on
// a flat bottom pulls on no joint along the axis, unless it lifts what is above; gas
// does. At the joint of a bottom
// that hangs it is the pressure there and the weight of the liquid below (statics).
func LoadsOf(p *rules.JobPass, x *Joined, by Pressing) (l Loads, missing string) {
	heights, top, standing := x.places(p)
	open := false
	outside, unknown := x.outsides(p)
	for k, part := range x.Parts {
		pa, missing := by.At(p, part, heights[k])
		if missing != "" {
			return l, missing
		}
		gas := pa
		if p.Founded && p.Job.Parts[part].Form.OfShell() {
			gas = by.Gas(p, part)
		}
		open = open || opens(p, part)
		l.inside, l.thrust, l.diameter = math.Max(l.inside, pa), math.Max(l.thrust, gas), math.Max(l.diameter, outside[k])
	}
	if unknown != "" {
		return l, unknown
	}
	pulls, hangs, missing := hanging(p, x, top, by)
	if missing != "" {
		return l, missing
	}
	if open && !hangs {
		l.thrust = 0
	}
	if p.Founded && standing && p.InShell(x.Parts[0]) {
		pulls, missing = Lift(p, top, by)
	}
	l.pressed, l.liquid = l.thrust, pulls
	l.thrust += pulls / (math.Pi / 4 * l.diameter * l.diameter)
	return l, missing
}
