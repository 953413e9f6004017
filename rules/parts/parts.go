// Package parts owns the rules about parts of a job as they stand on each other:
// courses, bottoms, heads, tapers, elbows and what flanges are bolted to. What
// each part has to bear is the wall's own evaluation, read by package structure.
package parts

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/word"
	"frp/veilwright/rules"
)

const family = "parts"

// Rules lists the family.
func Rules() []*rules.Rule {
	return []*rules.Rule{PartsDoNotMeet, PartsNotJoined, JoinedPartsDiffer, JointElsewhere, ConeOpen, IDShared, CourseEndsNearKnuckle, TaperSteep, KnuckleWeak, RimUnstated, MiterAngleLarge, MiterSeamsUnstated, PressureAboveScope, FlangeAssembly, TorqueHigh, ScheduleSaysOtherwise, LevelContradicted, PressuresDiffer, GravitiesDiffer, LevelOverRim, CourseCounted, LaminateUnused, PartFormUnstated, ShellUnclosed, ServiceUnreached, CountUnused, BoltsMisfit, AreaContradicted, VesselUnvented, FlangeThin, ClassAboveScope, BoltsFarApart, LevelLow, SealShutIn}
}

// walls are the parts whose own keys the job holds; those of a file are judged
// as what stands there.
func walls(p *rules.JobPass, each func(i int, part *laminate.Part, r *rules.Report)) {
	for i := range p.Job.Parts {
		if p.Job.Parts[i].Schedule == "" {
			each(i, &p.Job.Parts[i].Part, p.Parts[i])
		}
	}
}

// stack lists the parts of the shell from the bottom up.
func stack(p *rules.JobPass) (list []int) {
	walls(p, func(i int, part *laminate.Part, _ *rules.Report) {
		if part.Form.OfShell() {
			list = append(list, i)
		}
	})
	return list
}

// thickness is that of a whole wall in m, 0 where it is not known.
func thickness(r *rules.Report) float64 {
	if r == nil || r.Wall == nil {
		return 0
	}
	return r.Wall.Whole
}

// PartsDoNotMeet wants parts that stand on each other to be as wide.
var PartsDoNotMeet = &rules.Rule{
	ID:     "parts-do-not-meet",
	Family: family,
	Title:  "Parts on each other differ in diameter",
	Why: "Courses, bottoms and heads meet along one circle. A step in the diameter bends the wall on both sides, leaves a ledge in the barrier and no ground for the strap. " +
		"Most often it is a slip of the document. A cone meets what stands below it with its wide end and what stands above with its narrow one, or the other way round at the bottom.",
	Severity: []rules.Severity{rules.Break},
	When:     "two parts of the shell follow each other in the document, both inside diameters are stated, and they differ by more than a thousandth; a cone may meet with either end, with each once",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		list := stack(p)
		taken := -1 // the end with which the part below meets what is under it
		for k := 1; k < len(list); k++ {
			a, b := &p.Job.Parts[list[k-1]], &p.Job.Parts[list[k]]
			free := ends(&a.Part)
			if taken >= 0 && len(free) > 1 {
				free = slices.Delete(free, taken, taken+1)
			}
			meets := false
			if meets, taken = meet(free, ends(&b.Part)); meets {
				continue
			}
			below, above := p.Units.Pair(free[0].SI(), b.InsideDiameter.SI(), quantity.Size)
			p.Report(rules.Break, laminate.JobPartRef(list[k], "inside_diameter"), "", "%s is %s across inside, %s below it %s: they do not meet", b.ID, above, a.ID, below)
		}
	},
}

// ends are the inside diameters of a part of the shell at its ends, where they differ
// both.
func ends(p *laminate.Part) []quantity.Length {
	if p.Form == laminate.Cone {
		return []quantity.Length{p.InsideDiameter, p.SmallDiameter}
	}
	return []quantity.Length{p.InsideDiameter}
}

// meet tells whether one of the ends below is as wide as one above, and which above;
// −1 where that cannot be told.
func meet(below, above []quantity.Length) (meets bool, with int) {
	unknown := false
	for _, x := range below {
		for i, y := range above {
			switch {
			case !x.Given() || !y.Given():
				unknown = true
			case abs(x.SI()-y.SI()) <= 1e-3*y.SI():
				return true, i
			}
		}
	}
	return unknown, -1
}

func abs(v float64) float64 { return max(v, -v) }

// CourseEndsNearKnuckle keeps the end of a course out of the bending at the
// bottom.
var CourseEndsNearKnuckle = &rules.Rule{
	ID:     "course-ends-near-knuckle",
	Family: family,
	Title:  "The lowest course ends where the bottom bends it",
	Why: "A bottom holds the wall back where the liquid presses hardest, and the wall bends over a length of about 2.5 √(R t) above the corner. " +
		"The hoop formula that sizes the course knows nothing of it. A course that ends within that length puts the step of its plies where the wall bends most.",
	Severity: []rules.Severity{rules.Warning},
	When:     "another course stands on the lowest one, whose length is below 2.5 √(R t), R the inside radius and t its whole thickness (the bound itself is enough)",
	Basis:    "theory of shells (Timoshenko)",
	Job: func(p *rules.JobPass) {
		list := stack(p)
		for k, i := range list {
			part := &p.Job.Parts[i]
			if part.Form != laminate.ShellCourse {
				continue
			}
			t := thickness(p.Parts[i])
			if k+1 == len(list) || p.Job.Parts[list[k+1]].Form != laminate.ShellCourse || t <= 0 || !part.Length.Given() || !part.InsideDiameter.Given() {
				return
			}
			reach := vessel.BendingLength(part.InsideDiameter.SI()/2, t)
			if quantity.Below(part.Length.SI(), reach) {
				has, wants := p.Units.Pair(part.Length.SI(), reach, quantity.Size)
				p.Report(rules.Warning, laminate.JobPartRef(i, "length"), "", "%s ends %s above the bottom; the corner bends the wall up to %s", part.ID, has, wants)
			}
			return
		}
	},
}

// TaperSteep wants a thicker course to run out into the thinner one.
var TaperSteep = &rules.Rule{
	ID:     "taper-steep",
	Family: family,
	Title:  "The step between two courses has no taper of its length",
	Why: "Where plies end at one line the wall's stiffness jumps, and the thinner side bends and cracks at the step. " +
		"Each ply is let stop short of the one before it, so that the thickness runs out over six times the step or more. Never end two plies at one line, nor begin a taper inside the bond of a joint.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When:     "a course is thicker than the one above it: its taper is not stated: incomplete; it is shorter than 6 times the difference (6 times is enough): warning",
	Basis:    "at least 6 to 1 for overlay laminates (ADR 2017 6.9.2.10)",
	Job: func(p *rules.JobPass) {
		list := stack(p)
		for k := 1; k < len(list); k++ {
			a, b := list[k-1], list[k]
			low := &p.Job.Parts[a]
			if low.Form != laminate.ShellCourse || p.Job.Parts[b].Form != laminate.ShellCourse {
				continue
			}
			step := thickness(p.Parts[a]) - thickness(p.Parts[b])
			if thickness(p.Parts[b]) <= 0 || step <= 1e-6 {
				continue
			}
			least := vessel.LeastTaper * step
			if !low.Taper.Given() {
				p.Report(rules.Incomplete, laminate.JobPartRef(a, "taper"), "", "%s is %s thicker than %s above it, and the length of its taper is not stated (taper); at least %s",
					low.ID, p.Units.Figure(step, quantity.Thickness), p.Job.Parts[b].ID, p.Units.AtLeast(least, quantity.Size))
				continue
			}
			if quantity.Below(low.Taper.SI(), least) {
				has, wants := p.Units.Pair(low.Taper.SI(), least, quantity.Size)
				p.Report(rules.Warning, laminate.JobPartRef(a, "taper"), "", "%s runs out over %s into %s; 6 times the step is %s", low.ID, has, p.Job.Parts[b].ID, wants)
			}
		}
	},
}

// KnuckleWeak asks for the corner between a flat bottom and its shell.
var KnuckleWeak = &rules.Rule{
	ID:     "knuckle-weak",
	Family: family,
	Title:  "The corner of a flat bottom is weak or not stated",
	Why: "At the corner between bottom and wall a full tank bends its laminate more than anywhere else, and a crack there empties it. " +
		"The corner is rounded, as thick as wall and bottom together, and its reinforcement runs up the wall before it tapers. The figures are those that the trade remembers of two standards: the shop's own count before them.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "a flat bottom has a shell on it and its knuckle radius, the laminate of its knuckle or the height of the reinforcement is not stated: incomplete. " +
		"The radius is greater than the height of the reinforcement, which then ends within the curve: break. " +
		"The radius is below 1 in (1½ in above 4 ft of diameter), the height below 8 in (12 in above 4 ft), the height more than the length of the course on it, or the knuckle's laminate thinner than wall and bottom together, the knuckle laid on the bottom (all bounds are enough): warning",
	Basis: "ASTM D3299, ASTM D4097 (from memory)",
	Job: func(p *rules.JobPass) {
		list := stack(p)
		for k, i := range list {
			b := &p.Job.Parts[i]
			if b.Form != laminate.FlatBottom || k+1 == len(list) {
				continue
			}
			knuckle(p, i, list[k+1])
		}
	},
}

func knuckle(p *rules.JobPass, bottom, above int) {
	b := &p.Job.Parts[bottom]
	if !b.InsideDiameter.Given() {
		return
	}
	radius, height, _ := vessel.Knuckle(b.InsideDiameter.SI())
	atLeast := func(key string, has quantity.Length, want float64, what string) {
		switch {
		case !has.Given():
			p.Report(rules.Incomplete, laminate.JobPartRef(bottom, key), "", "%s of %s is not stated (%s); at least %s is usual", what, b.ID, key, p.Units.Figure(want, quantity.Size))
		case quantity.Below(has.SI(), want):
			is, wants := p.Units.Pair(has.SI(), want, quantity.Size)
			p.Report(rules.Warning, laminate.JobPartRef(bottom, key), "", "%s of %s is %s, under %s", what, b.ID, is, wants)
		}
	}
	atLeast("knuckle_radius", b.KnuckleRadius, radius, "the knuckle radius")
	atLeast("knuckle_height", b.KnuckleHeight, height, "the height of the knuckle's reinforcement")
	if radius := b.KnuckleRadius; radius.Given() && b.KnuckleHeight.Given() && quantity.Above(radius.SI(), b.KnuckleHeight.SI()) {
		is, ends := p.Units.Pair(radius.SI(), b.KnuckleHeight.SI(), quantity.Size)
		p.Report(rules.Break, laminate.JobPartRef(bottom, "knuckle_radius"), "geometry", "the knuckle radius of %s is %s, and its reinforcement runs %s up: it ends within the curve; a unit or a point that slipped?", b.ID, is, ends)
	}
	if course := &p.Job.Parts[above]; course.Form == laminate.ShellCourse && course.Length.Given() && quantity.Above(b.KnuckleHeight.SI(), course.Length.SI()) {
		is, ends := p.Units.Pair(b.KnuckleHeight.SI(), course.Length.SI(), quantity.Size)
		p.Report(rules.Warning, laminate.JobPartRef(bottom, "knuckle_height"), "", "the reinforcement of the knuckle of %s runs %s up, past %s, which ends at %s, and over what joins it to the next", b.ID, is, course.ID, ends)
	}
	a := p.Analysis(b.Knuckle)
	if a == nil {
		p.Report(rules.Incomplete, laminate.JobPartRef(bottom, "knuckle"), "", "the laminate that reinforces the knuckle of %s is not stated (knuckle)", b.ID)
		return
	}
	has, want := a.Total.Thickness, thickness(p.Parts[above])
	if want > 0 && quantity.Below(has, want) {
		is, wants := p.Units.Pair(has, want, quantity.Thickness)
		p.Report(rules.Warning, laminate.JobPartRef(bottom, "knuckle"), "", "the knuckle of %s is reinforced by %s on the bottom; with it the corner is thinner than bottom and wall together, which takes %s", b.ID, is, wants)
	}
}

// RimUnstated asks what holds an open top round.
var RimUnstated = &rules.Rule{
	ID:     "rim-unstated",
	Family: family,
	Title:  "Nothing holds the top of the shell round",
	Why: "The rim of an open tank ovals under wind, under a nozzle's load and when it is lifted. " +
		"It takes a ring or a flange, whose size comes from wind and is not figured here. A head or a cover holds the rim; where the top is open, say what stiffens it.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "there are shell courses, no head or cone after the last of them nor a cover as wide as the shell that no nozzle ends in, and the vessel's rim is not stated, or stated to be none",
	Basis:    "ASTM D3299, ASTM D4097 (from memory)",
	Job: func(p *rules.JobPass) {
		last := -1
		for i := range p.Job.Parts {
			if p.Job.Parts[i].Form == laminate.ShellCourse {
				last = i
			}
			if p.OnTop(i) {
				return
			}
		}
		at := laminate.Ref{Kind: laminate.RefVessel, Key: "rim"}
		switch stated, stiff := word.Answered(p.Job.Vessel.Rim); {
		case last < 0 || stiff:
		case stated:
			p.Report(rules.Incomplete, at, "", "no head, cone or cover stands on %s, and nothing stiffens its open rim, as the vessel states: whether it stays round is not known (rim)", p.Job.Parts[last].ID)
		default:
			p.Report(rules.Incomplete, at, "", "no head, cone or cover stands on %s, and what stiffens its open rim is not stated (rim)", p.Job.Parts[last].ID)
		}
	},
}

// mostMiter is the greatest angle that one joint of a mitered elbow turns by
// (common practice, no source).
const mostMiter = 30.0

// MiterAngleLarge keeps the joints of a mitered elbow shallow.
var MiterAngleLarge = &rules.Rule{
	ID:     "miter-angle-large",
	Family: family,
	Title:  "A joint of a mitered elbow turns by more than is usual",
	Why: "At each seam of a mitered elbow the pressure pushes the corner open, the more the further it turns, and the overlay alone holds it. " +
		"More joints of a smaller angle carry better and flow better. The tables that limit the angle have to be bought.",
	Severity: []rules.Severity{rules.Warning},
	When:     "an elbow has miters and turns by more than 30° at each (30° itself is usual)",
	Basis:    rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		walls(p, func(i int, part *laminate.Part, _ *rules.Report) {
			if part.Form != laminate.Elbow || part.Miters.Value < 1 || !part.Turn.Given {
				return
			}
			if each := part.Turn.Value / float64(part.Miters.Value); quantity.Above(each, mostMiter) {
				p.Report(rules.Warning, laminate.JobPartRef(i, "miters"), "", "%s turns by %s at each of its joints, more than %s", p.Job.Parts[i].ID,
					p.Units.Figure(each, quantity.Angle), p.Units.Figure(mostMiter, quantity.Angle))
			}
		})
	},
}

// PressureAboveScope keeps contact-molded pipe within what its standard is for.
var PressureAboveScope = &rules.Rule{
	ID:     "pressure-above-scope",
	Family: family,
	Title:  "More pressure than contact-molded pipe is for",
	Why: "The standards of contact-molded pipe and fittings end at 150 psi. Beyond it joints, fittings and flanges, not the straight wall, decide, and nothing published here says how. " +
		"Such a line is designed by an engineer from tests of its own joints.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "a contact-molded pipe or elbow has a pressure above 150 psi (150 psi itself is within)",
	Basis:    "scope of ASTM D6041",
	Job: func(p *rules.JobPass) {
		most := quantity.New(150, quantity.PSI)
		for i := range p.Job.Parts {
			s := p.Parts[i].Schedule
			if (s.Part.Form == laminate.Pipe || s.Part.Form == laminate.Elbow) && s.Part.Process == laminate.ContactMolded && s.Service.Pressure.Cmp(most) > 0 {
				has, wants := p.Units.Pair(s.Service.Pressure.SI(), most.SI(), quantity.Stress)
				p.Unfigured("a pressure above what such pipe is standardized for", []laminate.Ref{laminate.JobPartRef(i, "pressure")}, "%s has %s, above the %s up to which contact-molded pipe is standardized", p.Job.Parts[i].ID, has, wants)
			}
		}
	},
}

// FlangeAssembly asks how a flange of laminate is bolted up.
var FlangeAssembly = &rules.Rule{
	ID:     "flange-assembly",
	Family: family,
	Title:  "A flange is bolted up in a way that bends or crushes it",
	Why: "A ring of laminate bolted to a raised face bends until it cracks at the hub, and a nut without a washer crushes its back. " +
		"Flat face goes to flat face with a full-face gasket of soft rubber, washers under every head and nut, bolts drawn crosswise in steps.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When:     "a flange's mating face is raised or it has no washers: warning; either is not stated: incomplete",
	Basis:    rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		walls(p, func(i int, part *laminate.Part, _ *rules.Report) {
			if part.Form != laminate.Flange {
				return
			}
			id := p.Job.Parts[i].ID
			switch part.MateFace {
			case laminate.RaisedFace:
				p.Report(rules.Warning, laminate.JobPartRef(i, "mate_face"), "", "%s is bolted to a raised face, which bends it", id)
			case laminate.NoFlangeFace:
				p.Report(rules.Incomplete, laminate.JobPartRef(i, "mate_face"), "", "what face %s is bolted to is not stated (mate_face)", id)
			case laminate.FlatFace:
			}
			switch {
			case !part.Washers.Given:
				p.Report(rules.Incomplete, laminate.JobPartRef(i, "washers"), "", "whether %s has washers under every head and nut is not stated (washers)", id)
			case !part.Washers.Value:
				p.Report(rules.Warning, laminate.JobPartRef(i, "washers"), "", "%s has no washers: heads and nuts crush its back", id)
			}
		})
	},
}
