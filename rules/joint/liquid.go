package joint

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
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
