package whole

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/paper"
	"strings"
)

// Check is the report of a job: that of each part, what all of them say once, then
// what there is to say of the whole.
func Check(file string, books []string, r *rules.JobReport, line func(laminate.Ref) int, u quantity.System, d paper.Detail) (sheet paper.Sheet) {
	list := make([]paper.Sheet, len(r.Parts))
	for i, p := range r.Parts {
		part := &r.Job.Parts[i]
		list[i] = paper.Check(file, books, p, r.Lines(i, line), u, d)
		title := list[i][0].(paper.Heading)
		title.Text = file + ": part " + part.ID + strings.TrimPrefix(title.Text, file)
		list[i][0] = title
		list[i][len(list[i])-1] = paper.Note{Text: file + ": part " + part.ID + ": " + paper.Verdict(r.Part(i))}
	}
	every := common(list)
	for _, p := range list {
		sheet = append(sheet, p...)
	}
	if every != nil {
		sheet = append(append(sheet, paper.Heading{Level: 1, Text: file + ": every part"}), every...)
	}
	whole := &rules.Report{Findings: r.Findings, Verdict: r.Verdict}
	return append(sheet, paper.Heading{Level: 1, Text: file + ": " + r.Job.Title}, parts(r, u), paper.Findings(file, whole, line, d.Explain), paper.Note{Text: file + ": " + r.Verdict.String()})
}

// common takes out of the reports of parts what each of them says in the same words, which
// follows from the service or the book that they share.
func common(parts []paper.Sheet) (every paper.Sheet) {
	if len(parts) < 2 {
		return nil
	}
	said, last := map[string]int{}, map[string]int{}
	for i, p := range parts {
		for _, b := range p {
			divide(b, func(key string) bool {
				if said[key] == 0 || last[key] != i {
					said[key], last[key] = said[key]+1, i
				}
				return false
			})
		}
	}
	for i, p := range parts {
		var own paper.Sheet
		for _, b := range p {
			shared, rest := divide(b, func(key string) bool { return said[key] == len(parts) })
			if shared != nil && i == 0 {
				every = append(every, shared)
			}
			if rest != nil {
				own = append(own, rest)
			}
		}
		parts[i] = own
	}
	return every
}

// divide parts what a block finds and states into what is shared and the rest; of other
// blocks nothing is.
func divide(b paper.Block, shared func(key string) bool) (one, rest paper.Block) {
	switch x := b.(type) {
	case paper.Facts:
		var a, own paper.Facts
		for _, f := range x {
			if shared(f.Name + "\x00" + f.Value) {
				a = append(a, f)
			} else {
				own = append(own, f)
			}
		}
		return filled(a, len(a)), filled(own, len(own))
	case paper.Table:
		if len(x.Rows) == 0 || !x.Rows[0].Place { // no findings
			return nil, x
		}
		a, own := x, x
		a.Rows, own.Rows = nil, nil
		for _, r := range x.Rows {
			if shared(strings.Join(r.Cells, "\x00")) {
				a.Rows = append(a.Rows, r)
			} else {
				own.Rows = append(own.Rows, r)
			}
		}
		return filled(a, len(a.Rows)), filled(own, len(own.Rows))
	}
	return nil, b
}

// filled is a block with n lines, none where that is none.
func filled(b paper.Block, n int) paper.Block {
	if n == 0 {
		return nil
	}
	return b
}

// parts has a row for each part of a job: what decides about it, what that asks
// and what the part can bear.
func parts(r *rules.JobReport, u quantity.System) paper.Table {
	t := paper.Table{Columns: []paper.Column{{Title: "part"}, {Title: "form"}, {Title: "laminate"}, {Title: "thickness", Right: true}, {Title: "by"}, {Title: "asks", Right: true}, {Title: "bears", Right: true},
		{Title: "of limit", Right: true}, {Title: "verdict"}, {Title: "reason", Under: true, Plain: true}, {Title: "basis", Under: true}}}
	for i, p := range r.Parts {
		part := &r.Job.Parts[i]
		of := part.Laminate
		if part.Schedule != "" {
			of = part.Schedule
		}
		row := paper.Row{Cells: []string{part.ID, p.Schedule.Part.Form.String(), of, paper.None, paper.None, paper.None, paper.None, paper.None, r.PartVerdict(i).String(), "", ""}}
		if p.Wall != nil {
			if p.Wall.Whole > 0 {
				row.Cells[3] = u.Thickness(p.Wall.Whole)
			}
			if c, ok := p.Wall.Governing(); ok {
				x := paper.CriterionOf(&c, u)
				copy(row.Cells[4:], []string{x.Name, x.Required, x.Allowable, x.Utilization})
				row.Cells[9], row.Cells[10] = c.Reason, c.Basis
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
