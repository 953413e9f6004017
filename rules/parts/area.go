package parts

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// AreaContradicted holds the area that a panel states against its sides.
var AreaContradicted = &rules.Rule{
	ID:       "area-contradicted",
	Family:   family,
	Title:    "A panel states an area that its sides do not make",
	Why:      "Fabric and resin are ordered by the area that is stated, and the plate is figured by its sides. Where they differ one of them is wrong, and the shop runs out of glass or the panel is another.",
	Severity: []rules.Severity{rules.Break},
	When:     "a panel states an area, a length and a width, and the area is more than a twentieth off their product: a rim that is turned up states its sides with it",
	Basis:    "arithmetic",
	Job: func(p *rules.JobPass) {
		walls(p, func(i int, part *laminate.Part, _ *rules.Report) {
			if part.Form != laminate.Panel || !part.Area.Given() || !part.Length.Given() || !part.Width.Given() {
				return
			}
			sides := part.Length.SI() * part.Width.SI()
			if has := part.Area.SI(); abs(has-sides) > 0.05*sides {
				a, b := p.Units.Pair(has, sides, quantity.Surface)
				p.Report(rules.Break, laminate.JobPartRef(i, "area"), "", "%s states %s, and its sides make %s (area)", p.Job.Parts[i].ID, a, b)
			}
		})
	},
}
