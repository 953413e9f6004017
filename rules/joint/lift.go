package joint

import (
	"math"

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

// Bounds of a hold-down. Common practice, no source.
var (
	mostHold   = quantity.New(2, quantity.PSI)  // over the circle of a tank
	wideCircle = quantity.New(4, quantity.Foot) // above which it is much
)

// HoldDownHigh asks about a hold-down that no usual anchors bear.
var HoldDownHigh = &rules.Rule{
	ID: "hold-down-high", Family: family, Title: "A hold-down is stated for more than anchors are usual for",
	Why: "Lugs on a shell of laminate and bolts in a foundation are figured for a few tons. One psi over the circle of a tank of ten feet is five, so that a figure far above what lifts the tank is most often kilopascals read as psi: " +
		"what is compared with it holds, and the anchors that are there do not.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a flat bottom wider than 4 ft states a hold-down above 2 psi, and above twice what lifts its shell and twice its vacuum, in the service and the test (these bounds are within)",
	Basis:    rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		for i := range p.Job.Parts {
			part := p.Stated(i)
			if !part.HoldDown.Given() || !statics.Thinner(wideCircle.SI(), part.InsideDiameter.SI()) {
				continue
			}
			service, test := statics.Uplifts(p, i)
			asked := math.Max(math.Max(service.Pressure, test.Pressure), math.Max(p.Parts[i].Schedule.Service.Vacuum.SI(), p.Job.Test.Vacuum.SI()))
			if held := part.HoldDown.SI(); statics.Thinner(math.Max(mostHold.SI(), 2*asked), held) {
				d := part.InsideDiameter.SI()
				h, m := p.Units.Pair(held, mostHold.SI(), quantity.Stress)
				p.Report(rules.Warning, laminate.JobPartRef(i, "hold_down"), "", "the hold-down of bottom %s is stated for %s, %s over its circle, and more than %s is not usual: kilopascals stated as psi? What lifts it, and its vacuum, come to %s (hold_down)",
					p.Job.Parts[i].ID, h, p.Units.Figure(held*math.Pi/4*d*d, quantity.Force), m, p.Units.Figure(asked, quantity.Stress))
			}
		}
	},
}
