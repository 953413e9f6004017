package paper

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// CheckJob is the report of a job: that of each part, then what there is to say
// of the whole.
func CheckJob(file string, books []string, r *rules.JobReport, line func(laminate.Ref) int, u quantity.System, d Detail) Sheet {
	var sheet Sheet
	for i, p := range r.Parts {
		part := &r.Job.Parts[i]
		check := Check(file, books, p, r.Lines(i, line), u, d)
		check[0] = Heading{1, file + ": part " + part.ID + ": " + titled(p.Schedule)}
		check[len(check)-1] = Note{Text: file + ": part " + part.ID + ": " + verdict(p)}
		sheet = append(sheet, check...)
	}
	whole := &rules.Report{Findings: r.Findings, Verdict: r.Verdict}
	return append(sheet, Heading{1, file + ": " + r.Job.Title}, findings(file, whole, line, d.Explain), Note{Text: file + ": " + r.Verdict.String()})
}
