package parts

import (
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
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
	When: "a part of the shell states a liquid height more than a thousandth below what the level of the vessel leaves over its bottom, or, where that is not stated, the highest level that parts of one shell state: break; above it: incomplete; " +
		"what hangs on the shell, and is no end of a nozzle, states less than where it hangs: warning, for a valve may keep the liquid out",
	Basis: "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		level, _ := p.Level()
		ends := ending(p)
		whose, divided := "the level of the vessel", len(spaces(p)) > 1
		for _, i := range stack(p) {
			if bottom, _ := p.Elevation(i); !p.Job.Vessel.LiquidHeight.Given() && bottom+p.Stated(i).LiquidHeight.SI() == level {
				whose = "the level that " + p.Job.Parts[i].ID + " states"
			}
		}
		walls(p, func(i int, part *laminate.Part, _ *rules.Report) {
			bottom, known := p.Elevation(i)
			if !part.LiquidHeight.Given() || !known || divided && !p.Job.Vessel.LiquidHeight.Given() {
				return
			}
			has, leaves := part.LiquidHeight.SI(), max(0, level-bottom) // NaN where nobody knows it
			if math.IsNaN(leaves) || abs(has-leaves) <= 1e-3*max(has, leaves) {
				return
			}
			a, b := p.Units.Pair(has, leaves, quantity.Distance)
			id, shell := p.Job.Parts[i].ID, p.InShell(i)
			switch {
			case !shell && has < leaves && ends[id]: // nozzle-end-contradicted says so
			case !shell && has < leaves:
				p.Report(rules.Warning, laminate.JobPartRef(i, "liquid_height"), "", "%s states a liquid height of %s and is figured for that; where it hangs %s leaves %s", id, a, whose, b)
			case shell && has < leaves:
				p.Report(rules.Break, laminate.JobPartRef(i, "liquid_height"), "", "%s states a liquid height of %s and is figured for that; %s leaves %s over its bottom (vessel.liquid_height)", id, a, whose, b)
			case shell:
				p.Report(rules.Incomplete, laminate.JobPartRef(i, "liquid_height"), "", "%s states a liquid height of %s, and the level of the vessel leaves %s over its bottom: which holds is not known, and all other parts go by the level (vessel.liquid_height)", id, a, b)
			}
		})
	},
}

// LevelOverRim keeps the liquid in the vessel.
var LevelOverRim = &rules.Rule{
	ID:     "level-over-rim",
	Family: family,
	Title:  "The liquid stands above the top of the vessel",
	Why: "What stands above an open rim runs over, in service as in a test: either the level is wrong, or a course, a head or a lid is missing. " +
		"All parts are figured for the level, which this vessel cannot hold. Above a closed top it can stand in a pipe alone; most often a unit or a digit is wrong.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "the level of the vessel or of its test is above the top of the last course, and no head, cone or lid closes it: break; " +
		"the level of the vessel is above what closes it, and no pipe or elbow of the job leads up from there: warning; a test may be filled through a standpipe",
	Basis: "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		rim, top, closed := math.NaN(), math.Inf(-1), false
		for i := range p.Job.Parts {
			closed = closed || p.OnTop(i)
			if p.Job.Parts[i].Form == laminate.ShellCourse {
				rim = p.Top(i)
			}
			if p.InShell(i) {
				top = max(top, p.Top(i)) // NaN where a size on the way is not known
			}
			if p.Line(i) && p.Rises(i) {
				top = math.NaN()
			}
		}
		level, _ := p.Level()
		for _, x := range []struct {
			of    laminate.Ref
			what  string
			level float64
		}{
			{laminate.Ref{Kind: laminate.RefVessel, Key: "liquid_height"}, "the liquid", level},
			{laminate.Ref{Kind: laminate.RefTest, Key: "liquid_height"}, "the fill of the test", p.Job.Test.LiquidHeight.SI()},
		} {
			switch over := func(m float64) bool { return x.level > m && quantity.Above(x.level, m) }; { // not so of what is not known
			case !closed && over(rim):
				a, b := p.Units.Pair(x.level, rim, quantity.Distance)
				p.Report(rules.Break, x.of, "", "%s stands to %s, and the open rim is at %s: it runs over", x.what, a, b)
			case closed && x.of.Kind == laminate.RefVessel && over(top): // a test may be filled through a standpipe
				a, b := p.Units.Pair(x.level, top, quantity.Distance)
				p.Report(rules.Warning, x.of, "", "%s stands to %s, and the vessel ends at %s: where it stands so high is not in the job, and all parts are figured for it", x.what, a, b)
			}
		}
	},
}

// spaces are the parts of the shell whose keys the job holds, as far as a head or bottom
// between courses does not divide it.
func spaces(p *rules.JobPass) [][]int { return divided(p, stack(p)) }

// divided are parts of the shell as far as a head or bottom between courses does not
// divide it.
func divided(p *rules.JobPass, shell []int) (list [][]int) {
	divided := true
	for _, i := range shell {
		_, known := p.Elevation(i)
		switch {
		case !p.InShell(i):
		case !known && p.Job.Parts[i].Form != laminate.ShellCourse:
			divided = true
		case divided:
			list, divided = append(list, []int{i}), false
		default:
			list[len(list)-1] = append(list[len(list)-1], i)
		}
	}
	return list
}

// ending are the ids of the flanges and covers that nozzles end in, which no valve keeps
// anything from.
func ending(p *rules.JobPass) map[string]bool {
	ids := map[string]bool{}
	for i := range p.Job.Nozzles {
		ids[p.Job.Nozzles[i].Flange], ids[p.Job.Nozzles[i].Cover] = true, true
	}
	return ids
}

// hanging goes through what hangs on the shell.
func hanging(p *rules.JobPass, each func(int)) {
	for i := range p.Job.Parts {
		if f := p.Job.Parts[i].Form; p.Line(i) || f == laminate.Flange || f == laminate.Cover {
			each(i)
		}
	}
}

// PressuresDiffer holds the pressures of the parts of one vessel against each other.
var PressuresDiffer = &rules.Rule{
	ID:     "pressures-differ",
	Family: family,
	Title:  "Parts of one vessel or line state different pressures",
	Why: "Gas in one vessel presses alike on every part of it, and a vacuum pulls alike. A course of more than its neighbors makes these hold on paper, and a flange or leg that states less holds for that alone. " +
		"So it is along a line, whose class is the least of its parts and joints. What the liquid adds toward the bottom follows from its level.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "two parts of the shell that no head or bottom between courses divides have different pressures or vacuums, each its own or the service's, or two parts that a joint ties: break; " +
		"what hangs on the shell, tied by no joint and no end of a nozzle, states less of its own than a part of the shell has: warning, for a valve may keep it out",
	Basis: "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		for _, k := range []struct {
			key string
			of  func(*laminate.Service) quantity.Pressure
			own func(*laminate.JobPart) quantity.Pressure
		}{
			{"pressure", func(s *laminate.Service) quantity.Pressure { return s.Pressure }, func(x *laminate.JobPart) quantity.Pressure { return x.Pressure }},
			{"vacuum", func(s *laminate.Service) quantity.Pressure { return s.Vacuum }, func(x *laminate.JobPart) quantity.Pressure { return x.Vacuum }},
		} {
			of := func(i int) quantity.Pressure { return k.of(&p.Parts[i].Schedule.Service) }
			most := -1 // the part of the greatest in the whole shell
			for _, space := range spaces(p) {
				greatest := -1
				for _, i := range space {
					if of(i).Given() && (greatest < 0 || of(i).SI() > of(greatest).SI()) {
						greatest = i
					}
				}
				for _, i := range space {
					if of(i).Given() && quantity.Below(of(i).SI(), of(greatest).SI()) {
						a, b := p.Units.Pair(of(i).SI(), of(greatest).SI(), quantity.Stress)
						p.Report(rules.Break, laminate.JobPartRef(i, k.key), "", "the %s of %s is %s, that of %s %s: they are one vessel (%s)", k.key, p.Job.Parts[i].ID, a, p.Job.Parts[greatest].ID, b, k.key)
					}
				}
				if greatest >= 0 && (most < 0 || of(greatest).SI() > of(most).SI()) {
					most = greatest
				}
			}
			ends := ending(p) // nozzle-end-contradicted says so of those
			for i := range p.Job.Joints {
				x := &p.Job.Joints[i]
				a, b := p.Part(x.Between[0]), p.Part(x.Between[1])
				if a < 0 || b < 0 || p.InShell(a) && p.InShell(b) || !of(a).Given() || !of(b).Given() {
					continue
				}
				if of(b).SI() < of(a).SI() {
					a, b = b, a
				}
				if id := p.Job.Parts[a].ID; quantity.Below(of(a).SI(), of(b).SI()) && !ends[id] {
					ends[id] = true
					m, n := p.Units.Pair(of(a).SI(), of(b).SI(), quantity.Stress)
					p.Report(rules.Break, laminate.JobPartRef(a, k.key), "", "the %s of %s is %s, that of %s %s: joint %s ties them, and no valve is in it (%s)", k.key, id, m, p.Job.Parts[b].ID, n, x.ID, k.key)
				}
			}
			hanging(p, func(i int) {
				if own := k.own(&p.Job.Parts[i]); most >= 0 && own.Given() && !ends[p.Job.Parts[i].ID] && quantity.Below(own.SI(), of(most).SI()) {
					a, b := p.Units.Pair(own.SI(), of(most).SI(), quantity.Stress)
					p.Report(rules.Warning, laminate.JobPartRef(i, k.key), "", "%s states a %s of %s of its own and is figured for that; %s has %s", p.Job.Parts[i].ID, k.key, a, p.Job.Parts[most].ID, b)
				}
			})
		}
	},
}

// GravitiesDiffer holds the specific gravity that a part states against that of the
// liquid in the vessel.
var GravitiesDiffer = &rules.Rule{
	ID:     "gravities-differ",
	Family: family,
	Title:  "A part states another specific gravity than the vessel",
	Why: "One liquid weighs alike on every part that it stands over. A part that states a specific gravity of its own is figured for that, " +
		"and a lighter liquid makes a wall hold on paper. Leave it out where the part is of the vessel, and that of the service counts.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "a part of the shell states a specific gravity of its own below that of the service, or, where no part of it goes by the service, below another part's: break; above that of the service: incomplete; " +
		"what hangs on the shell states less: warning, for it may hold another liquid behind a valve; not where no liquid stands",
	Basis: "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		if p.Dry() {
			return
		}
		own := func(i int) laminate.Optional[float64] { return p.Job.Parts[i].SpecificGravity }
		heaviest := 0.0
		for _, space := range spaces(p) {
			of, whose := 0.0, ""
			for _, i := range space {
				if own(i).Given && own(i).Value > of {
					of, whose = own(i).Value, "that of "+p.Job.Parts[i].ID
				}
			}
			if sg := p.Job.Service.SpecificGravity; sg.Given && slices.ContainsFunc(space, func(i int) bool { return !own(i).Given }) {
				of, whose = sg.Value, "that of the service"
			}
			for _, i := range space {
				if !own(i).Given || quantity.Compare(own(i).Value, of) == 0 {
					continue
				}
				a, b := p.Units.Pair(own(i).Value, of, quantity.Times)
				if own(i).Value < of {
					p.Report(rules.Break, laminate.JobPartRef(i, "specific_gravity"), "", "the specific gravity that %s states is %s and is what it is figured for; %s is %s", p.Job.Parts[i].ID, a, whose, b)
				} else {
					p.Report(rules.Incomplete, laminate.JobPartRef(i, "specific_gravity"), "", "the specific gravity that %s states is %s, %s %s: which holds is not known, and other parts go by the latter", p.Job.Parts[i].ID, a, whose, b)
				}
			}
			heaviest = max(heaviest, of)
		}
		hanging(p, func(i int) {
			x := &p.Job.Parts[i]
			if dry := x.LiquidHeight.Given() && x.LiquidHeight.SI() == 0; !dry && own(i).Given && quantity.Below(own(i).Value, heaviest) {
				a, b := p.Units.Pair(own(i).Value, heaviest, quantity.Times)
				p.Report(rules.Warning, laminate.JobPartRef(i, "specific_gravity"), "", "%s states a specific gravity of %s of its own and is figured for that; the liquid in the shell has %s", x.ID, a, b)
			}
		})
	},
}

// CourseCounted asks that each part of a vessel is written by itself.
var CourseCounted = &rules.Rule{
	ID:     "course-counted",
	Family: family,
	Title:  "A part that is joined counts for several",
	Why: "A course stands once, where the document lists it. One that counts two is taken off twice, but height, liquid and joints count it once: " +
		"a tank of two courses is then figured as half as high. A pipe of which there are two has two ends more, and straps and seals for them. " +
		"Write each course, head, bottom and joined pipe as a part of its own; they may share a laminate.",
	Severity: []rules.Severity{rules.Break},
	When:     "a course, bottom, head or cone of a job with shell courses, or a part that a joint names, has a count above 1",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		named := map[int]bool{}
		joints(p, func(_, one, other int) { named[one], named[other] = true, true })
		for i := range p.Job.Parts {
			switch n := p.Stated(i).Count.Or(1); {
			case n < 2:
			case p.InShell(i):
				p.Report(rules.Break, laminate.JobPartRef(i, "count"), "", "%s counts %d: it is taken off so many times, and height, liquid and joints count it once", p.Job.Parts[i].ID, n)
			case named[i]:
				p.Report(rules.Break, laminate.JobPartRef(i, "count"), "", "%s counts %d: it is taken off so many times, and what is laid at its joints once", p.Job.Parts[i].ID, n)
			}
		}
	},
}

// CountUnused tells of flanges and covers that nothing ends in.
var CountUnused = &rules.Rule{
	ID:     "count-unused",
	Family: family,
	Title:  "More flanges or covers are counted than stand anywhere",
	Why: "What a part counts is laid, bought and bolted so many times. A count above the nozzles that end in the part is one too many, or a nozzle is missing from the job, " +
		"and its opening, pad and neck are then judged by nobody.",
	Severity: []rules.Severity{rules.Warning},
	When:     "nozzles end in a flange or cover that no joint names, and its count is above their number",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		used, named := map[int]int{}, map[int]bool{}
		joints(p, func(_, one, other int) { named[one], named[other] = true, true })
		for i := range p.Job.Nozzles {
			used[p.Part(p.Job.Nozzles[i].Flange)]++
			used[p.Part(p.Job.Nozzles[i].Cover)]++
		}
		for i := range p.Job.Parts {
			x := &p.Job.Parts[i]
			if n, of := p.Stated(i).Count.Or(1), used[i]; !named[i] && of > 0 && n > of {
				p.Report(rules.Warning, laminate.JobPartRef(i, "count"), "", "%s %s counts %d, and %s in it: it is taken off %d times", x.Form, x.ID, n, quantity.Counted(of, "nozzle ends", "nozzles end"), n)
			}
		}
	},
}

// PartFormUnstated asks what a part is.
var PartFormUnstated = &rules.Rule{
	ID:     "part-form-unstated",
	Family: family,
	Title:  "What a part is, is not stated",
	Why: "Where a part stands, what liquid is over it, what it is joined to and how pressure loads it all follow from what it is. " +
		"One that does not say so stands nowhere: it is figured as a round shell by itself, and whatever it closes or carries is figured as if it were not there.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "a part of a job states no form",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		for i := range p.Job.Parts {
			if x := &p.Job.Parts[i]; x.Form == laminate.NoPartForm {
				p.Report(rules.Incomplete, laminate.JobPartRef(i, "form"), "", "part %s: what it is, is not stated (form), and so not where it stands nor what liquid is over it", x.ID)
			}
		}
	},
}

// ShellUnclosed asks what closes the shell below.
var ShellUnclosed = &rules.Rule{
	ID:     "shell-unclosed",
	Family: family,
	Title:  "Nothing closes the shell below",
	Why: "The lowest end of a shell bears the head of all the liquid in it, and its corner is where tanks fail. A bottom that the job does not hold nobody judges, joins or lays; " +
		"one between two courses lies on no foundation, and what is under it has no bottom.",
	Severity: []rules.Severity{rules.Incomplete},
	When: "liquid stands or may stand in shell courses, and no bottom, head or cone is before the first of them, nor does a joint tie a flange, cover, pipe or elbow to its lower end; " +
		"a flat bottom that states that its foundation bears it stands between courses",
	Basis: "the program's own check",
	Job: func(p *rules.JobPass) {
		if len(p.Stack) == 0 || p.Dry() {
			return
		}
		rim, _ := word.Answered(p.Job.Vessel.Rim)
		lowest, topped := p.Stack[0], p.OnTop(p.Stack[len(p.Stack)-1]) || rim
		if x := &p.Job.Parts[lowest]; x.Form == laminate.ShellCourse {
			ends := 0 // that something is tied to
			joints(p, func(_, one, other int) {
				if one == lowest && !p.InShell(other) || other == lowest && !p.InShell(one) {
					ends++
				}
			})
			if ends == 0 || ends == 1 && len(p.Stack) == 1 && !topped {
				p.Report(rules.Incomplete, laminate.JobPartRef(lowest, ""), "", "what closes the shell under %s is not known: no bottom, head or cone stands before it, and no joint ties anything to its lower end", x.ID)
			}
		}
		for _, i := range p.Stack[1:] {
			if x := &p.Job.Parts[i]; x.Form == laminate.FlatBottom && x.Supported.Or(false) && !p.OnTop(i) {
				p.Report(rules.Incomplete, laminate.JobPartRef(i, "supported"), "", "%s states that its foundation bears it (supported), and stands between courses: it belongs before the first, or nothing bears it", x.ID)
			}
		}
	},
}
