package parts

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// LevelLow notes a level far under the top of the vessel.
var LevelLow = &rules.Rule{
	ID:     "level-low",
	Family: family,
	Title:  "The highest level is below half of the shell",
	Why: "All walls, straps and pads are figured for the highest level that is stated. A tank is built to be filled: one that is said to stand less than half full at most was most often meant fuller, " +
		"and a digit, a point or a unit slipped. By such a level every wall holds on paper, and the first filling is its first load.",
	Severity: []rules.Severity{rules.Note},
	When:     "the vessel states a level above its bottom, and it is below half the height of its courses, which no head or bottom divides",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		level := p.Job.Vessel.LiquidHeight
		if !level.Given() || level.SI() <= 0 || len(divided(p, p.Stack)) != 1 {
			return
		}
		top := math.NaN()
		for i := range p.Job.Parts {
			if p.Job.Parts[i].Form == laminate.ShellCourse {
				top = p.Top(i)
			}
		}
		if !math.IsNaN(top) && quantity.Below(level.SI(), top/2) {
			a, b := p.Units.Pair(level.SI(), top, quantity.Distance)
			p.Report(rules.Note, laminate.Ref{Kind: laminate.RefVessel, Key: "liquid_height"}, "", "the liquid stands to %s at most, and the courses to %s: every wall is figured for so little; a slip of a point or a unit?", a, b)
		}
	},
}
