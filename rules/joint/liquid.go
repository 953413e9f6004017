package joint

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/surface"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
)

// PartUnplaced asks where a part hangs that is no part of the shell.
var PartUnplaced = &rules.Rule{
	ID: "part-unplaced", Family: family, Title: "How deep the liquid stands over a part is not known",
	Why: "What presses on a flange, a cover or a pipe of a vessel follows from where it hangs: the height of the nozzle that names it, or the end that a joint ties it to, says how deep the liquid stands there. " +
		"One that nothing holds would be figured without that liquid, and hold on paper whatever stands over it.",
	Severity: []rules.Severity{rules.Incomplete, rules.Note},
	When: "a flange, cover, pipe, duct or elbow, or a cone between pipes, of a vessel with a liquid states no liquid height of its own (liquid_height; 0 where no liquid stands over it), " +
		"and no nozzle or joint says how high it hangs, or neither the vessel nor a part of its shell says how high the liquid stands; one that states a pressure of its own is figured for that alone: note",
	Basis: "the program's own check",
	Job: func(p *rules.JobPass) {
		level, full := p.Level()
		for i := range p.Job.Parts {
			x := &p.Job.Parts[i]
			_, known := p.Elevation(i)
			switch {
			case full && level <= 0:
			case p.Unplaced(i):
				p.Report(rules.Incomplete, partRef(i, "liquid_height"), "", "%s %s: how deep the liquid stands over it is not known: %s; state that, or its own liquid_height, 0 where there is none", x.Form, x.ID, p.Unknown(i))
			case (!known || !full) && x.Pressure.Given() && !x.LiquidHeight.Given() && (p.Line(i) || x.Form == laminate.Flange || x.Form == laminate.Cover):
				p.Report(rules.Note, partRef(i, "pressure"), "", "%s %s is figured for its own pressure alone, without the liquid of the vessel: %s", x.Form, x.ID, p.Unknown(i))
			}
		}
	},
}

// pressureAt is the inside pressure at a height above the bottom of a part, Pa,
// or what is missing for it.
func pressureAt(p *rules.JobPass, part int, height float64) (pa float64, missing string) {
	s, id := p.Parts[part].Schedule, p.Job.Parts[part].ID
	if !s.Service.Pressure.Given() {
		return 0, "the inside pressure is not stated (service.pressure; 0 where there is none)"
	}
	pa = s.Service.Pressure.SI()
	depth, known := p.Covered(part, height)
	dry := p.Line(part) || !stacked(p.Job.Parts[part].Form) || s.Service.Contact == laminate.Vapor && !p.Job.Vessel.LiquidHeight.Given()
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

// hanging is the weight of the liquid, in N, in what hangs below a joint that is a
// height m above the bottom of the lowest course; not so of a joint whose lower part
// is not below that, or of a bottom that lies on its foundation.
func hanging(p *rules.JobPass, x *joined, height float64, by pressing) (n float64, hangs bool, missing string) {
	lower := x.parts[0]
	a, _ := p.Elevation(lower)
	if b, known := p.Elevation(x.parts[1]); known && b < a {
		lower = x.parts[1]
	}
	if p.Founded || !p.Hangs(lower) {
		return 0, false, ""
	}
	bottom, _ := p.Elevation(lower)
	high := height - bottom
	if !(high > 0) {
		return 0, true, ""
	}
	below, missing := by.at(p, lower, 0)
	here, also := by.at(p, lower, high)
	if missing == "" {
		missing = also
	}
	if missing != "" || below == here {
		return 0, true, missing
	}
	for i := range p.Job.Parts {
		at, known := p.Elevation(i)
		if !p.Hangs(i) || known && at >= height {
			continue
		}
		m3, holds := volume(p.Stated(i))
		if !known || !holds {
			return 0, true, "how much liquid part " + p.Job.Parts[i].ID + " holds, which hangs there, is not known (its sizes)"
		}
		n += (below - here) / high * m3 // as heavy as its pressure grows
	}
	return n, true, ""
}

// volume is what a part of a vessel holds, m³.
func volume(p *laminate.Part) (m3 float64, known bool) {
	d := p.InsideDiameter.SI()
	var h surface.Head
	var err error
	switch p.Form {
	case laminate.FlatBottom, laminate.Flange, laminate.Cover:
		return 0, true
	case laminate.Pipe, laminate.Duct:
		return math.Pi / 4 * d * d * p.Length.SI(), p.InsideDiameter.Given() && p.Length.Given()
	case laminate.Elbow:
		return math.Pi / 4 * d * d * p.BendRadius.SI() * p.Turn.Value * math.Pi / 180, p.InsideDiameter.Given() && p.BendRadius.Given() && p.Turn.Given
	case laminate.Cone:
		if !p.SmallDiameter.Given() || !p.HalfAngle.Given {
			return 0, false
		}
		h, err = surface.Frustum(d/2, p.SmallDiameter.SI()/2, p.HalfAngle.Value*math.Pi/180)
	case laminate.HeadPart:
		switch p.Head {
		case laminate.Hemispherical:
			h, err = surface.Hemisphere(d / 2)
		case laminate.Ellipsoidal:
			h, err = surface.Ellipsoid(d/2, p.Depth.SI())
		case laminate.Torispherical:
			h, err = surface.Torisphere(d, p.CrownRadius.SI(), p.KnuckleRadius.SI())
		case laminate.NoHeadShape:
			return 0, false
		}
	default:
		return 0, false
	}
	return h.Volume, err == nil
}

// loadsOf gives the loads of a joint, or what is missing. A liquid that stands on
// a flat bottom pulls on no joint along the axis; gas does. At the joint of a bottom
// that hangs it is the pressure there and the weight of the liquid below (statics).
func loadsOf(p *rules.JobPass, x *joined, by pressing) (l loads, missing string) {
	bottoms := [2]float64{}
	top, standing := math.Inf(-1), true
	for k, part := range x.parts {
		at, ok := p.Elevation(part)
		bottoms[k] = at
		standing = standing && ok
		top = math.Max(top, at)
	}
	open := false
	for k, part := range x.parts {
		height := 0.0
		if standing {
			height = top - bottoms[k]
		}
		pa, missing := by.at(p, part, height)
		if missing != "" {
			return l, missing
		}
		d, known := outsideOf(p, part)
		if !known {
			return l, "the outside diameter of part " + p.Job.Parts[part].ID + " is not known (inside_diameter, and the thickness of its laminate)"
		}
		d -= narrower(p.Stated(part), p.Stated(x.parts[1-k]))
		gas := pa
		if p.Founded && stacked(p.Job.Parts[part].Form) {
			gas = by.gas(p, part)
		}
		open = open || opens(p, part)
		l.inside, l.thrust, l.diameter = math.Max(l.inside, pa), math.Max(l.thrust, gas), math.Max(l.diameter, d)
	}
	weight, hangs, missing := hanging(p, x, top, by)
	switch {
	case missing != "":
		return l, missing
	case hangs:
		l.thrust += weight / (math.Pi / 4 * l.diameter * l.diameter)
	case open:
		l.thrust = 0
	}
	return l, ""
}

// narrower is how much less wide than at its large end a cone is where another part
// is joined to it, m: all of it at its small end.
func narrower(cone, other *laminate.Part) float64 {
	large, small, meets := cone.InsideDiameter.SI(), cone.SmallDiameter.SI(), other.InsideDiameter.SI()
	if cone.Form != laminate.Cone || !cone.SmallDiameter.Given() || !other.InsideDiameter.Given() || math.Abs(meets-small) >= math.Abs(meets-large) {
		return 0
	}
	return large - small
}
