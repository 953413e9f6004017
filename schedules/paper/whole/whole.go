// Package whole sets a job as a whole: its walls, what is laid at its joints and
// nozzles, and how all of it stands.
package whole

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/worked"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/proof"
	"frp/veilwright/rules/joint/workings"
	"frp/veilwright/rules/others"
	"frp/veilwright/schedules/paper"
)

// Walls is the evaluation of each part of a judged job, of what is laid at its
// joints and nozzles, and what the rules find of the whole.
func Walls(file string, books []string, r *rules.JobReport, checks []workings.Check, line func(laminate.Ref) int, u quantity.System) (sheet paper.Sheet) {
	var answers []wall.Answer
	for i, p := range r.Parts {
		structure := others.Held(r.Structure(i, proof.TestProvesLess), i, r.Findings)
		sheet = append(sheet, paper.Wall(file+": part "+r.Job.Parts[i].ID, books, p.Schedule, structure, nil, u)...)
		answers = append(answers, structure.Answer())
	}
	sheet = append(sheet, paper.Heading{Level: 1, Text: file + ": joints, nozzles and test: " + r.Job.Title}, joins(checks, u), paper.Findings(file, &rules.Report{Findings: r.Weighty()}, line, false), Stands(file, answers, r.Findings))
	return append(sheet, paper.Aid(r.NotChecked()))
}

// Calculation is what is laid at one joint or nozzle of a job, worked out step by
// step like the wall of a part.
func Calculation(checks []workings.Check, u quantity.System) paper.Sheet {
	sheet := paper.Sheet{paper.Rounded((&worked.List{US: u == quantity.US}).Units())}
	for i := range checks {
		c := &checks[i]
		sheet = append(append(sheet, paper.Heading{Level: 2, Text: strings.ToUpper(c.Name[:1]) + c.Title()[1:]}), worksOut(c)...)
	}
	return sheet
}

// Lifts is what lifts the shell on each flat bottom of a job, worked out likewise.
func Lifts(checks []workings.Check, u quantity.System) (sheet paper.Sheet) {
	for i := range checks {
		sheet = append(append(sheet, paper.Heading{Level: 2, Text: "Lift of the shell on " + checks[i].Case}), worksOut(&checks[i])...)
	}
	if sheet != nil {
		sheet = append(sheet, paper.Rounded((&worked.List{US: u == quantity.US}).Units()))
	}
	return sheet
}

// worksOut are the steps of a check, and why it does not hold.
func worksOut(c *workings.Check) (sheet paper.Sheet) {
	if c.Steps != nil {
		sheet = append(sheet, paper.Steps(c.Steps))
	}
	if c.Reason != "" {
		sheet = append(sheet, paper.Note{Indent: 2, Mark: c.Answer.String() + ": ", Text: c.Reason})
	}
	return sheet
}

// Stands says in a line how a job stands as a whole: its walls, and what its rules say
// of joints, nozzles and the test.
func Stands(file string, parts []wall.Answer, found []rules.Finding) paper.Note {
	answer, breaks, open, rests := wall.NotApplicable, 0, 0, 0
	for _, a := range parts {
		answer = worse(answer, a)
	}
	for i := range found {
		if found[i].Rule == others.RestsOnOthers {
			rests++
		}
		switch found[i].Severity {
		case rules.Break:
			breaks++
		case rules.Incomplete:
			open++
		default: // somebody decides, and check says what
		}
	}
	var also []string
	if answer == wall.Fails {
		also = append(also, "a governing criterion of a part")
	}
	if breaks > 0 {
		answer, also = wall.Fails, append(also, quantity.Counted(breaks, "rule break", "rule breaks")+" of the job as a whole")
	}
	if open > 0 {
		answer, also = worse(answer, wall.Incomplete), append(also, quantity.Counted(open, "incomplete", "incomplete")+" of the job as a whole")
	}
	on := ""
	if rests > 0 {
		on = "; " + quantity.Counted(rests, "answer rests", "answers rest") + " on others (rests-on-others)"
	}
	if also == nil {
		return paper.Note{Text: file + ": " + paper.Stands(answer) + on}
	}
	return paper.Note{Text: file + ": " + answer.String() + ": " + strings.Join(also, ", ") + on}
}

// worse is the answer that counts of two.
func worse(a, b wall.Answer) wall.Answer {
	for _, worst := range []wall.Answer{wall.Fails, wall.Incomplete, wall.Holds} {
		if a == worst || b == worst {
			return worst
		}
	}
	return wall.NotApplicable
}

// joins is a row for each demand on what is laid at joints and nozzles.
func joins(checks []workings.Check, u quantity.System) paper.Table {
	t := paper.Table{Columns: []paper.Column{{Title: "at"}, {Title: "check"}, {Title: "answer"}, {Title: "required", Right: true}, {Title: "allowable", Right: true}, {Title: "of limit", Right: true},
		{Title: "reason", Under: true, Plain: true}, {Title: "basis", Under: true}}}
	for i := range checks {
		c := &checks[i]
		x := paper.CriterionOf(&c.Criterion, u)
		t.Rows = append(t.Rows, paper.Row{Cells: []string{x.Case, x.Name, x.Answer, x.Required, x.Allowable, x.Utilization, c.Reason, c.Basis}})
	}
	return t
}
