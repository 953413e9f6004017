package paper

import (
	"fmt"
	"slices"

	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/worked"
)

// Worked is what stands on a calculation already, and where: by what it says.
type Worked map[string]string

// before says where steps stand that say the same, "" where none do, or where they are
// few or end in an answer, which each part shows by itself. It remembers them as standing here.
func (w Worked) before(list []worked.Step, here string) (where string) {
	if len(list) <= fewSteps || slices.ContainsFunc(list, func(p worked.Step) bool { return p.Answer != "" }) {
		return ""
	}
	key := fmt.Sprint(list)
	if where = w[key]; where == "" {
		w[key] = here
	}
	return where
}

// fewSteps are shown again sooner than looked up elsewhere.
const fewSteps = 3

// Calculation is a wall worked out step by step: the formula, the numbers put
// in, what comes of it, and of a criterion whether it holds. What stands before, of
// another part or under another condition, is not worked out again.
func Calculation(file string, c *wall.Calculation, r *wall.Result, before Worked) Sheet {
	sheet := Sheet{Rounded(c.Units)}
	for i := range c.Sections {
		x := &c.Sections[i]
		title, here := x.Title, file
		if x.Condition != "" {
			title += ", condition " + x.Condition
			here += ", condition " + x.Condition
		}
		sheet = append(sheet, Heading{Level: 2, Text: title})
		if where := before.before(x.Steps, here); where != "" {
			sheet = append(sheet, Note{Text: "Step by step, and in every figure, as worked out before of " + where + "."})
		} else {
			sheet = append(sheet, Steps(x.Steps))
		}
	}
	for _, n := range r.Notes {
		sheet = append(sheet, Note{Indent: 2, Mark: "note: ", Text: n})
	}
	return append(sheet, Note{Text: file + ": " + stands(r)})
}

// Rounded says how figures of a calculation are rounded, and what they are in.
func Rounded(units string) Note {
	return Note{Text: "Figures are rounded to six digits; a small difference of large numbers keeps fewer. Numbers put in are in " + units + ", where no unit is beside them."}
}

// Steps are those of one section of a calculation.
func Steps(list []worked.Step) Table {
	t := Table{Columns: []Column{{Title: "figure"}, {Title: "result", Right: true}, {Title: ""}, {Title: "formula", Under: true, Plain: true}, {Title: "numbers", Under: true, Plain: true}, {Title: "source", Under: true}}}
	for k := range list {
		p := &list[k]
		formula, answer := p.Formula, ""
		if p.Symbol != "" {
			formula = p.Symbol + " = " + p.Formula
		}
		if p.Limit != "" {
			answer = "at most " + p.Limit + ": " + p.Answer
		}
		t.Rows = append(t.Rows, Row{Cells: []string{p.What, p.Result(), answer, formula, p.PutIn(), p.Source}})
	}
	return t
}
