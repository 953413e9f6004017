package joint

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// UpliftUnheld asks what holds a shell down that is lifted from inside.
var UpliftUnheld = &rules.Rule{
	ID: "uplift-unheld", Family: family, Title: "What lifts a shell off its bottom is not held down",
	Why: "Gas under a roof, and liquid that stands up to a roof or under a cone, push it upward. What presses on a flat bottom goes into the foundation and holds nothing down: " +
		"the shell pulls at its corner, bends the rim of the bottom up and tears it there, unless lugs on the shell and anchors in the foundation bear that.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "what lifts a shell that stands on a flat bottom, in the service, a condition or the test, over the circle of the bottom and its own weight not counted, is above what its hold-down was figured for (hold_down): break; " +
		"that is not stated: incomplete",
	Basis: "statics; the figure of the hold-down as the document states it, never computed (ASTM D3299 wants lugs where a tank has pressure inside, from memory)",
	Job: func(p *rules.JobPass) {
		for i := range p.Job.Parts {
			x := &p.Job.Parts[i]
			most, test := statics.Uplifts(p, i)
			if test.Pressure > most.Pressure {
				most = test
			}
			switch held := x.HoldDown; {
			case most.When == "":
			case !held.Given():
				p.Report(rules.Incomplete, laminate.JobPartRef(i, "hold_down"), "", "the shell on bottom %s is lifted %s by %s over its circle, %s in all: what holds it down, its own weight with it, is not stated (hold_down)", x.ID, most.When, p.Units.Figure(most.Pressure, quantity.Stress), p.Units.Figure(most.Force, quantity.Force))
			case statics.Thinner(held.SI(), most.Pressure):
				h, m := p.Units.Pair(held.SI(), most.Pressure, quantity.Stress)
				p.Report(rules.Break, laminate.JobPartRef(i, "hold_down"), "", "the shell on bottom %s is lifted %s by %s over its circle, and its hold-down was figured for %s", x.ID, most.When, m, h)
			}
		}
	},
}
