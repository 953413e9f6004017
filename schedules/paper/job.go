package paper

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/revision"
	"frp/veilwright/schedules"
)

// CheckJob is the report of a job: that of each part, then what there is to say
// of the whole.
func CheckJob(file string, books []string, r *rules.JobReport, line func(laminate.Ref) int, u quantity.System, d Detail) Sheet {
	var sheet Sheet
	for i, p := range r.Parts {
		part := &r.Job.Parts[i]
		check := Check(file, books, p, r.Lines(i, line), u, d)
		check[0] = Heading{Level: 1, Text: file + ": part " + part.ID + ": " + titled(p.Schedule)}
		check[len(check)-1] = Note{Text: file + ": part " + part.ID + ": " + verdict(r.Part(i))}
		sheet = append(sheet, check...)
	}
	whole := &rules.Report{Findings: r.Findings, Verdict: r.Verdict}
	return append(sheet, Heading{Level: 1, Text: file + ": " + r.Job.Title}, Parts(r, u), Findings(file, whole, line, d.Explain), Note{Text: file + ": " + r.Verdict.String()})
}

// Parts has a row for each part of a job: what decides about it, what that asks
// and what the part can bear.
func Parts(r *rules.JobReport, u quantity.System) Table {
	t := Table{Columns: []Column{{Title: "part"}, {Title: "form"}, {Title: "laminate"}, {Title: "thickness", Right: true}, {Title: "by"}, {Title: "asks", Right: true}, {Title: "bears", Right: true},
		{Title: "of limit", Right: true}, {Title: "verdict"}, {Title: "reason", Under: true, Plain: true}, {Title: "basis", Under: true}}}
	for i, p := range r.Parts {
		part := &r.Job.Parts[i]
		of := part.Laminate
		if part.Schedule != "" {
			of = part.Schedule
		}
		row := Row{Cells: []string{part.ID, p.Schedule.Part.Form.String(), of, none, none, none, none, none, r.PartVerdict(i).String(), "", ""}}
		if p.Wall != nil {
			if p.Wall.Whole > 0 {
				row.Cells[3] = u.Thickness(p.Wall.Whole)
			}
			if c, ok := p.Wall.Governing(); ok {
				x := CriterionOf(&c, u)
				copy(row.Cells[4:], []string{x.Name, x.Required, x.Allowable, x.Utilization})
				row.Cells[9], row.Cells[10] = c.Reason, c.Basis
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// DiffJobs is two judged revisions of a job: what is stated otherwise, and each
// part and overlay that differs.
func DiffJobs(older, newer string, facts []schedules.FactChange, d []revision.PartDifference, u quantity.System) Sheet {
	sheet := Diff(older, newer, facts, &revision.Difference{}, nil, nil, u)
	if facts == nil && d != nil {
		sheet = sheet[:1]
	}
	for _, p := range d {
		of := p.ID
		if of == "" {
			of = "the job as a whole"
		}
		sheet = append(sheet, Diff(of+" in "+older, of+" in "+newer, nil, p.Difference, p.Old, p.New, u)...)
	}
	return sheet
}
