package parts

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/rules"
)

// MiterSeamsUnstated tells of seams that nothing of a job closes.
var MiterSeamsUnstated = &rules.Rule{
	ID:     "miter-seams-unstated",
	Family: family,
	Title:  "What closes the seams of a mitered elbow is not known",
	Why: "A mitered elbow is cut from tube and held together at its seams by an overlay outside, along an ellipse, with a seal inside where a hand reaches. " +
		"The pressure opens the corner there, and the fluid finds the cut edges there. No key of a job names those laminates: nothing here judges them, and no takeoff counts them.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "an elbow has miters: whoever answers for the elbow proves what closes its seams, apart from this program; not where a proof of others is stated that reaches all that the elbow bears (proved_by)",
	Basis:    "the program's own check; an ellipse with half axes D/2 and D/(2 cos θ) (geometry)",
	Job: func(p *rules.JobPass) {
		walls(p, func(i int, part *laminate.Part, r *rules.Report) {
			if said := ground.SeamsSaid(part, thickness(r), p.Units); said != "" {
				p.Unfigured("what closes its seams, outside and inside", []laminate.Ref{laminate.JobPartRef(i, "miters")}, "elbow %s has %s: what closes them, an overlay outside and a seal inside, no key states, and nothing here judges it",
					p.Job.Parts[i].ID, said)
			}
		})
	},
}
