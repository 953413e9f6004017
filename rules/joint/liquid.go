package joint

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// PartUnplaced asks where a part hangs that is no part of the shell.
var PartUnplaced = &rules.Rule{
	ID: "part-unplaced", Family: family, Title: "How deep the liquid stands over a part is not known",
	Why: "What presses on a flange, a cover, a panel or a pipe of a vessel follows from where it hangs: the height of the nozzle that names it, or the end that a joint ties it to, says how deep the liquid stands there. " +
		"One that nothing holds would be figured without that liquid, and hold on paper whatever stands over it.",
	Severity: []rules.Severity{rules.Incomplete, rules.Note},
	When: "a flange, cover, panel, pipe, duct or elbow, or a cone between pipes, of a vessel with a liquid states no liquid height of its own (liquid_height; 0 where no liquid stands over it), " +
		"and no nozzle or joint says how high it hangs, and it is no cover as wide as the shell, which lies on that, or neither the vessel nor a part of its shell says how high the liquid stands; one that states a pressure of its own is figured for that alone: note",
	Basis: "the program's own check",
	Job: func(p *rules.JobPass) {
		_, full := p.Level()
		for i := range p.Job.Parts {
			x := &p.Job.Parts[i]
			_, known := p.Elevation(i)
			switch {
			case p.Dry():
			case p.Unplaced(i):
				p.Report(rules.Incomplete, laminate.JobPartRef(i, "liquid_height"), "", "%s %s: how deep the liquid stands over it is not known: %s; state that, or its own liquid_height, 0 where there is none", x.Form, x.ID, p.Unknown(i))
			case (!known || !full) && x.Pressure.Given() && !x.LiquidHeight.Given() && (p.Line(i) || x.Form == laminate.Flange || x.Form == laminate.Cover || x.Form == laminate.Panel):
				p.Report(rules.Note, laminate.JobPartRef(i, "pressure"), "", "%s %s is figured for its own pressure alone, without the liquid of the vessel: %s", x.Form, x.ID, p.Unknown(i))
			}
		}
	},
}

// EndLevelContradicted holds what a nozzle ends in against the liquid that stands there.
var EndLevelContradicted = &rules.Rule{
	ID: "end-level-contradicted", Family: family, Title: "An end of a nozzle states less liquid than stands there",
	Why: "No valve is between a vessel and the flange of its own nozzle, or the cover that is bolted on that: what stands in the vessel presses on both. " +
		"A cover that states less is figured for less, and whoever opens the manway hatch finds out.",
	Severity: []rules.Severity{rules.Break},
	When:     "a flange or cover that a nozzle names states a liquid height more than a thousandth below what stands over the lower edge of the nozzle, or over the lowest of those that it ends",
	Basis:    "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		level, full := p.Level()
		told := map[int]bool{}
		statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
			for _, end := range [...][2]string{{"flange", x.Flange}, {"cover", x.Cover}} {
				i := p.Part(end[1])
				if end[1] == "" || i < 0 || told[i] {
					continue
				}
				has := p.Job.Parts[i].LiquidHeight
				if !has.Given() {
					has = p.Stated(i).LiquidHeight
				}
				stands, _ := p.Covered(x.Part, math.Max(0, x.Foot(p)))
				if at, known := p.Elevation(i); known && full {
					stands = level - at // of the lowest, and as far down as it reaches
				}
				if has.Given() && statics.Thinner(has.SI(), stands*(1-1e-3)) {
					told[i] = true
					a, b := p.Units.Pair(has.SI(), stands, quantity.Distance)
					p.Report(rules.Break, laminate.JobPartRef(i, "liquid_height"), "", "%s %s, on nozzle %s, states a liquid height of %s and is figured for that: %s stand over it there, and nothing keeps them from it; leave it out, and it follows from the level", end[0], end[1], x.ID, a, b)
				}
			}
		})(p)
	},
}
