package joint

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// EndsContradicted holds what a part says of its ends against what closes them.
var EndsContradicted = &rules.Rule{
	ID: "ends-contradicted", Family: family, Title: "A part is open where its equipment is closed",
	Why: "What closes a shell or a line of pipes, and the bend of an elbow, is pushed outward by what presses in it, and the wall behind it and every joint on the way hold it back, " +
		"as the bolts of a flange do. A part that says its ends are open is figured without that pull.",
	Severity: []rules.Severity{rules.Incomplete},
	When: `a course states ends = "open", something of the job closes the shell at its top, and there is a pressure beside that of the liquid; ` +
		`a pipe, duct or elbow states it, joints tie its line to a flange, a cover or a head, or an elbow turns it, and something presses there: straps of the line are figured with that pull all the same`,
	Basis: "statics, arithmetic",
	Job: func(p *rules.JobPass) {
		if _, above := p.Closed(); above {
			for i := range p.Job.Parts {
				s := p.Parts[i].Schedule
				if p.Job.Parts[i].Form == laminate.ShellCourse && s.Part.Ends == laminate.OpenEnds && s.Service.Pressure.SI() > 0 {
					p.Report(rules.Incomplete, laminate.JobPartRef(i, "ends"), "", "part %s: its ends are stated open, and the shell is closed at its top: what %s of gas pull along its wall is not figured (ends)", p.Job.Parts[i].ID, p.Units.Figure(s.Service.Pressure.SI(), quantity.Stress))
				}
			}
		}
		told := map[int][]int{} // the parts of a line that say so, by what closes it
		var order []int
		for i := range p.Job.Parts {
			end := p.Closing(i)
			if end < 0 || end == i && p.Job.Parts[i].Form != laminate.Elbow || p.Parts[i].Schedule.Part.Ends != laminate.OpenEnds {
				continue
			}
			if pa, missing := statics.PressureAt(p, i, 0); missing == "" && pa > 0 {
				if told[end] == nil {
					order = append(order, end)
				}
				told[end] = append(told[end], i)
			}
		}
		for _, end := range order {
			var ids []string
			var at []laminate.Ref
			for _, i := range told[end] {
				ids, at = append(ids, p.Job.Parts[i].ID), append(at, laminate.JobPartRef(i, "ends"))
			}
			does := "closes the line: what presses on that end"
			if p.Job.Parts[end].Form == laminate.Elbow {
				does = "turns the line: what presses on its bend"
			}
			p.ReportAt(rules.Incomplete, at, "", "%s %s: open ends are stated, and %s %s %s pulls along the wall, and is not figured; state ends = \"closed\", which holds wherever no anchor takes that force before it reaches the wall",
				quantity.Plural(len(ids), "part", "parts"), strings.Join(ids, ", "), p.Job.Parts[end].Form, p.Job.Parts[end].ID, does)
		}
	},
}
