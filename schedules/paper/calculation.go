package paper

import "frp/veilwright/laminate/wall"

// Calculation is a wall worked out step by step: the formula, the numbers put
// in, what comes of it, and of a criterion whether it holds.
func Calculation(file string, c *wall.Calculation, r *wall.Result) Sheet {
	sheet := Sheet{Note{Text: "Figures are rounded to six digits; a small difference of large numbers keeps fewer. Numbers put in are in " + c.Units + ", where no unit is beside them."}}
	for i := range c.Sections {
		x := &c.Sections[i]
		title := x.Title
		if x.Condition != "" {
			title += ", condition " + x.Condition
		}
		t := Table{Columns: []Column{{Title: "figure"}, {Title: "result", Right: true}, {Title: ""}, {Title: "formula", Under: true, Plain: true}, {Title: "numbers", Under: true, Plain: true}, {Title: "source", Under: true}}}
		for k := range x.Steps {
			p := &x.Steps[k]
			formula, answer := p.Formula, ""
			if p.Symbol != "" {
				formula = p.Symbol + " = " + p.Formula
			}
			if p.Limit != "" {
				answer = "at most " + p.Limit + ": " + p.Answer
			}
			t.Rows = append(t.Rows, Row{Cells: []string{p.What, p.Result(), answer, formula, p.PutIn(), p.Source}})
		}
		sheet = append(sheet, Heading{Level: 2, Text: title}, t)
	}
	for _, n := range r.Notes {
		sheet = append(sheet, Note{Indent: 2, Mark: "note: ", Text: n})
	}
	return append(sheet, Note{Text: file + ": " + stands(r.Answer())})
}
