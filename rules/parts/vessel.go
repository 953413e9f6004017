package parts

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// LevelContradicted holds the liquid height that a part states against the level of
// the vessel.
var LevelContradicted = &rules.Rule{
	ID:     "level-contradicted",
	Family: family,
	Title:  "A part states another level than the vessel",
	Why: "One liquid stands at one height. A part that states a liquid height of its own is figured for that, whatever the level of the vessel says: " +
		"less makes a wall hold on paper that stands deeper. Leave it out where the part is of the vessel, and it follows from the level.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "a part of the shell states a liquid height more than a thousandth below what the level of the vessel leaves over its bottom: break; above it: incomplete; " +
		"what hangs on the shell states less than where it hangs: warning, for a valve may keep the liquid out",
	Basis: "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		level := p.Job.Vessel.LiquidHeight
		walls(p, func(i int, part *laminate.Part, _ *rules.Report) {
			bottom, known := p.Elevation(i)
			if !level.Given() || !part.LiquidHeight.Given() || !known {
				return
			}
			has, leaves := part.LiquidHeight.SI(), max(0, level.SI()-bottom)
			if abs(has-leaves) <= 1e-3*max(has, leaves) {
				return
			}
			a, b := p.Units.Pair(has, leaves, quantity.Distance)
			id, shell := p.Job.Parts[i].ID, p.InShell(i)
			switch {
			case !shell && has < leaves:
				p.Report(rules.Warning, at(i, "liquid_height"), "", "%s states a liquid height of %s and is figured for that; where it hangs the level of the vessel leaves %s", id, a, b)
			case shell && has < leaves:
				p.Report(rules.Break, at(i, "liquid_height"), "", "%s states a liquid height of %s and is figured for that; the level of the vessel leaves %s over its bottom (vessel.liquid_height)", id, a, b)
			case shell:
				p.Report(rules.Incomplete, at(i, "liquid_height"), "", "%s states a liquid height of %s, and the level of the vessel leaves %s over its bottom: which holds is not known, and all other parts go by the level (vessel.liquid_height)", id, a, b)
			}
		})
	},
}

// PressuresDiffer holds the pressures of the parts of one vessel against each other.
var PressuresDiffer = &rules.Rule{
	ID:     "pressures-differ",
	Family: family,
	Title:  "Parts of one vessel state different pressures",
	Why: "Gas in one vessel presses alike on every part of it, and a vacuum pulls alike. A course of more than its neighbors makes these hold on paper. " +
		"What the liquid adds toward the bottom follows from its level.",
	Severity: []rules.Severity{rules.Break},
	When:     "two parts of the shell that no head or bottom between courses divides have different pressures or vacuums, each its own or the service's",
	Basis:    "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		for _, k := range []struct {
			key, what string
			of        func(*laminate.Service) quantity.Pressure
		}{{"pressure", "the pressure", func(s *laminate.Service) quantity.Pressure { return s.Pressure }}, {"vacuum", "the vacuum", func(s *laminate.Service) quantity.Pressure { return s.Vacuum }}} {
			most := -1 // the part of the greatest so far
			list := stack(p)
			var space []int
			whole := func() {
				for _, i := range space {
					has, top := k.of(&p.Parts[i].Schedule.Service), k.of(&p.Parts[most].Schedule.Service)
					if has.Given() && quantity.Below(has.SI(), top.SI()) {
						a, b := p.Units.Pair(has.SI(), top.SI(), quantity.Stress)
						p.Report(rules.Break, at(i, k.key), "", "%s of %s is %s, that of %s %s: they are one vessel (%s)", k.what, p.Job.Parts[i].ID, a, p.Job.Parts[most].ID, b, k.key)
					}
				}
				space, most = nil, -1
			}
			for _, i := range list {
				if _, known := p.Elevation(i); !known && p.InShell(i) && p.Job.Parts[i].Form != laminate.ShellCourse {
					whole()
					continue
				}
				if has := k.of(&p.Parts[i].Schedule.Service); p.InShell(i) && has.Given() {
					if space = append(space, i); most < 0 || has.SI() > k.of(&p.Parts[most].Schedule.Service).SI() {
						most = i
					}
				}
			}
			whole()
		}
	},
}

// CourseCounted asks that each part of a vessel is written by itself.
var CourseCounted = &rules.Rule{
	ID:     "course-counted",
	Family: family,
	Title:  "A part of the shell counts for several",
	Why: "A course stands once, where the document lists it. One that counts two is taken off twice, but height, liquid and joints count it once: " +
		"a tank of two courses is then figured as half as high. Write each course, head and bottom as a part of its own; they may share a laminate.",
	Severity: []rules.Severity{rules.Break},
	When:     "a course, bottom, head or cone of a job with shell courses has a count above 1",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		for i := range p.Job.Parts {
			if n := p.Stated(i).Count.Or(1); n > 1 && p.InShell(i) {
				p.Report(rules.Break, at(i, "count"), "", "%s counts %d: it is taken off so many times, and height, liquid and joints count it once", p.Job.Parts[i].ID, n)
			}
		}
	},
}
