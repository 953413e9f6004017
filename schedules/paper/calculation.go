package paper

import (
	"math"

	"frp/veilwright/laminate/wall"
)

// Calculation is a wall worked out step by step: the formula, the numbers put
// in, what comes of it, and of a criterion whether it holds.
func Calculation(file string, c *wall.Calculation, r *wall.Result) Sheet {
	sheet := Sheet{Note{Text: "Figures are rounded to six digits; a small difference of large numbers keeps fewer."}}
	for i := range c.Sections {
		x := &c.Sections[i]
		title := x.Title
		if x.Condition != "" {
			title += ", condition " + x.Condition
		}
		t := Table{Columns: []Column{{Title: "figure"}, {Title: "result", Right: true}, {Title: ""}, {Title: "formula", Under: true, Plain: true}, {Title: "numbers", Under: true, Plain: true}, {Title: "source", Under: true}}}
		for k := range x.Steps {
			p := &x.Steps[k]
			result, formula, numbers, answer := "", p.Formula, "", ""
			if p.Symbol != "" {
				formula = p.Symbol + " = " + p.Formula
			}
			if !math.IsNaN(p.Value) {
				result = wall.Number(p.Value)
				if p.Unit != "" {
					result += " " + p.Unit
				}
			}
			if p.Numbers != "" {
				numbers = "= " + p.Numbers
			}
			if p.Limit != "" {
				answer = "at most " + p.Limit + ": " + p.Answer.String()
			}
			t.Rows = append(t.Rows, Row{Cells: []string{p.What, result, answer, formula, numbers, p.Source}})
		}
		sheet = append(sheet, Heading{Level: 2, Text: title}, t)
	}
	for _, n := range r.Notes {
		sheet = append(sheet, Note{Indent: 2, Mark: "note: ", Text: n})
	}
	return append(sheet, Note{Text: file + ": " + stands(r.Answer())})
}
