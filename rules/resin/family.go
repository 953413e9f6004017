package resin

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// FamilyMissing wants to know what each resin is.
var FamilyMissing = &rules.Rule{
	ID:       "resin-family-missing",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "Resin family not stated",
	Why: "The resin decides what the barrier withstands, how hot it may get and how stiff the structure is. A wall can be laid out before the resin is chosen, " +
		"but it cannot be checked, ordered or built. Thickness is shown meanwhile with a density that the families differ from by at most about a tenth.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "a resin that at least one ply is laid in has no family: incomplete, once for each such resin. A resin that no ply uses may lack it",
	Basis:    rules.CommonPractice,
	ByUse:    true,
	Run: func(p *rules.Pass) {
		for i := range p.Schedule.Resins {
			r := &p.Schedule.Resins[i]
			if r.Family != laminate.NoFamily || p.Facts.Uses[i] == 0 {
				continue
			}
			plies, rows := 0, []int(nil)
			for j := range p.Schedule.Plies {
				if p.Schedule.Plies[j].Resin == r.ID {
					plies, rows = plies+p.Schedule.Plies[j].Count, append(rows, j)
				}
			}
			p.Report(rules.Finding{
				Severity: rules.Incomplete, Rows: rows, At: laminate.ResinRef(i, "family"),
				Message: "resin " + r.ID + " has no family, and " + strconv.Itoa(plies) + " " + map[bool]string{true: "ply is", false: "plies are"}[plies == 1] + " laid in it",
			})
		}
	},
}
