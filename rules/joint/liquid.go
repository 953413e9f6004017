package joint

import (
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

// NozzleEndContradicted holds what a nozzle ends in against what presses there.
var NozzleEndContradicted = &rules.Rule{
	ID: "nozzle-end-contradicted", Family: family, Title: "An end of a nozzle states less than presses there",
	Why: "No valve is between a vessel and the flange of its own nozzle, or the cover that is bolted on that: what stands and presses in the vessel does so on both. " +
		"A cover that states less is figured for less, and whoever stands before the manway finds out.",
	Severity: []rules.Severity{rules.Break},
	When: "a flange or cover that a nozzle names states a liquid height more than a thousandth below what stands over the lower edge of the nozzle, or over the lowest of those that it ends; " +
		"or its pressure or vacuum is below that of the part that the nozzle is on",
	Basis: "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		level, full := p.Level()
		told := map[laminate.Ref]bool{}
		statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
			for _, end := range [...][2]string{{"flange", x.Flange}, {"cover", x.Cover}} {
				i := p.Part(end[1])
				if end[1] == "" || i < 0 {
					continue
				}
				less := func(key string, has, stands float64, kind quantity.Kind, says string) {
					at := laminate.JobPartRef(i, key)
					if told[at] || !statics.Thinner(has, stands*(1-1e-3)) {
						return
					}
					told[at] = true
					a, b := p.Units.Pair(has, stands, kind)
					p.Report(rules.Break, at, "", "%s %s, on nozzle %s, is figured for a "+says+" there, and nothing keeps that from it: what it states is less (%s)", end[0], end[1], x.ID, a, b, key)
				}
				has := p.Job.Parts[i].LiquidHeight
				if !has.Given() {
					has = p.Stated(i).LiquidHeight
				}
				stands, _ := p.Covered(x.Part, x.Foot(p))
				if at, known := p.Elevation(i); known && full {
					stands = level - at // of the lowest, and as far down as it reaches
				}
				if has.Given() {
					less("liquid_height", has.SI(), stands, quantity.Distance, "liquid height of %s, and %s stand over it")
				}
				own, of := &p.Parts[i].Schedule.Service, &p.Parts[x.Part].Schedule.Service
				if own.Pressure.Given() {
					less("pressure", own.Pressure.SI(), of.Pressure.SI(), quantity.Stress, "pressure of %s, and %s press")
				}
				if own.Vacuum.Given() {
					less("vacuum", own.Vacuum.SI(), of.Vacuum.SI(), quantity.Stress, "vacuum of %s, and %s pull")
				}
			}
		})(p)
	},
}
