package paper

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
)

// Compared names what was compared; Record is empty where there is none.
type Compared struct{ Schedule, Specification, Record string }

// Compare is a schedule held against a specification, what fails first. r is
// the judged schedule: what it breaks stands beside the verdict.
func Compare(of Compared, res *acceptance.Result, r *rules.Report) Sheet {
	against := of.Specification
	if of.Record != "" {
		against += " and " + of.Record
	}
	sheet := Sheet{Heading{Level: 1, Text: of.Schedule + " against " + against}}
	t := Table{Columns: []Column{{Title: "verdict"}, {Title: "key"}, {Title: "requirement"}, {Title: "found"}, {Title: "plies"}, {Title: "basis", Under: true}}}
	counts := map[acceptance.Verdict]int{}
	for _, verdict := range []acceptance.Verdict{acceptance.Fails, acceptance.Incomplete, acceptance.Meets} {
		for i := range res.Lines {
			l := &res.Lines[i]
			if l.Verdict != verdict {
				continue
			}
			counts[verdict]++
			x := LineOf(l)
			t.Rows = append(t.Rows, Row{
				Cells: []string{x.Verdict, x.Key, x.Requirement, x.Found, x.Plies, x.Basis},
				Line:  x.Key + ": " + x.Requirement + "; found " + x.Found + numbered(l.Plies), Brief: verdict == acceptance.Meets,
			})
		}
	}
	sheet = append(sheet, t)
	for _, n := range res.Notes {
		sheet = append(sheet, Note{Indent: 2, Mark: "note: ", Text: n})
	}
	breaks, undetermined := 0, 0
	for i := range r.Findings {
		if f := &r.Findings[i]; f.Unsettled() {
			if f.Severity == rules.Break {
				breaks++
			} else {
				undetermined++
			}
			sheet = append(sheet, Note{Indent: 2, Mark: "also: ", Text: "the schedule itself: " + f.Severity.String() + " " + f.Rule.ID + ": " + f.Message})
		}
	}
	text := strconv.Itoa(counts[acceptance.Meets]) + " meet, " + strconv.Itoa(counts[acceptance.Fails]) + " fail, " + strconv.Itoa(counts[acceptance.Incomplete]) + " incomplete"
	var own []string
	if breaks > 0 {
		own = append(own, quantity.Counted(breaks, "break", "breaks"))
	}
	if undetermined > 0 {
		own = append(own, strconv.Itoa(undetermined)+" incomplete")
	}
	if own != nil {
		text += "; the schedule itself has " + strings.Join(own, ", ")
	}
	if res.Answer == acceptance.NotInspected {
		text = "schedule " + res.Schedule.String() + "; " + text
	}
	return append(sheet, Note{Text: of.Schedule + ": " + res.Answer.String() + " (" + text + ")"})
}
