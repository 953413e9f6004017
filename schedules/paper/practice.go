package paper

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/glossary"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
	"frp/veilwright/rules/practice/course"
)

// Exercises lists exercises by step.
func Exercises(list []*exercise.Exercise) Sheet {
	var sheet Sheet
	var t Table
	for i, e := range list {
		if i == 0 || e.Step != list[i-1].Step {
			t = Table{Columns: []Column{{Title: "exercise"}, {Title: "kind"}, {Title: "title"}}}
			sheet = append(sheet, Heading{Level: 2, Text: "step " + strconv.Itoa(e.Step) + ": " + course.At(e.Step).Title})
		}
		t.Rows = append(t.Rows, Row{Cells: []string{e.ID, e.Kind.String(), e.Title}})
		if i == len(list)-1 || list[i+1].Step != e.Step {
			sheet = append(sheet, t)
		}
	}
	return sheet
}

// Exercise is the task, the first hints of it and what is marked.
func Exercise(e *exercise.Exercise, hints int, lib *laminate.Library, u quantity.System) Sheet {
	sheet := Sheet{
		Heading{Level: 1, Text: e.ID + ": " + e.Title + " (step " + strconv.Itoa(e.Step) + ", " + e.Kind.String() + ")"},
		Note{}, Note{Text: strings.TrimSpace(e.Scenario)}, Note{}, Note{Text: strings.TrimSpace(e.Task)}, Note{},
	}
	var facts Facts
	for _, f := range e.Facts(u) {
		facts = append(facts, Fact(f))
	}
	sheet = append(sheet, facts)
	if len(e.Given.Plies) > 0 {
		sheet = append(sheet, Heading{Level: 2, Text: "given, " + e.Listed()}, plyTable(&e.Given, lib, e.Kind != exercise.Order))
	}
	if len(e.Specimens) > 0 {
		t := Table{Columns: []Column{{Title: "specimen", Right: true}, {Title: "before ignition"}, {Title: "after"}}}
		for i, s := range e.Specimens {
			t.Rows = append(t.Rows, Row{Cells: []string{strconv.Itoa(i + 1), s.Before.Text(), s.After.Text()}})
		}
		sheet = append(sheet, Heading{Level: 2, Text: "specimens of the " + e.Specimens[0].Group.String()}, t)
	}
	marked := Table{Columns: []Column{{Title: "points", Right: true}, {Title: "marked"}}}
	var faults float64
	for _, l := range practice.Grade(e, practice.Answer{}, lib, u).Lines {
		switch {
		case strings.HasPrefix(l.Demand, practice.Fixed): // which fault is what is asked
			faults += l.Of
		case l.Of > 0:
			marked.Rows = append(marked.Rows, Row{Cells: []string{points(l.Of), l.Demand}})
		}
	}
	if faults > 0 {
		marked.Rows = append(marked.Rows, Row{Cells: []string{points(faults), "what is wrong is fixed"}})
	}
	sheet = append(sheet, marked)
	if n := len(e.Hints); n > 0 {
		sheet = append(sheet, Note{Text: quantity.Counted(n, "hint", "hints") + "; the first costs " + quantity.Share(e.Hints[0].Price()) + " of the mark"})
	}
	for i, h := range e.Hints[:hints] {
		sheet = append(sheet, Note{Mark: "hint " + strconv.Itoa(i+1) + ": ", Text: strings.TrimSpace(h.Text)})
	}
	return sheet
}

// Answer is an answer to an exercise.
func Answer(e *exercise.Exercise, a practice.Answer, lib *laminate.Library) Sheet {
	var facts Facts
	if len(a.Faults) > 0 {
		words := make([]string, len(a.Faults))
		for i, n := range a.Faults {
			words[i] = strconv.Itoa(n)
		}
		facts = append(facts, Fact{"defective", "plies " + strings.Join(words, ", ") + " of the given schedule"})
	}
	if a.Veil != "" {
		facts = append(facts, Fact{"veil", a.Veil})
	}
	if a.Family != laminate.NoFamily {
		facts = append(facts, Fact{"resin", a.Family.String()})
	}
	for i, v := range a.Values {
		facts = append(facts, Fact{e.Questions[i].Ask.Text(), v})
	}
	sheet := Sheet{Heading{Level: 2, Text: "answer"}}
	if facts != nil {
		sheet = append(sheet, facts)
	}
	if a.Schedule != nil {
		sheet = append(sheet, plyTable(a.Schedule, lib, true))
	}
	return sheet
}

// laid is plies as an exercise shows them, without the zones where those are
// the question.
func plyTable(s *laminate.Schedule, lib *laminate.Library, zoned bool) Table {
	t := Table{Columns: []Column{{Title: "ply", Right: true}, {Title: "material"}, {Title: "resin"}, {Title: "resin family"}, {Title: "then"}}}
	if zoned {
		t.Columns = append(t.Columns[:2:2], append([]Column{{Title: "zone"}}, t.Columns[2:]...)...)
	}
	zones, n := laminate.InferZones(s, lib), 1
	for i := range s.Plies {
		p := &s.Plies[i]
		family, gel := "", ""
		if r, ok := s.Resin(p.Resin); ok {
			family = Family(r)
		}
		if p.GelAfter {
			gel = "let it gel"
		}
		cells := []string{Span(n, n+p.Count-1), p.Material}
		if zoned {
			cells = append(cells, zones[i].String())
		}
		t.Rows = append(t.Rows, Row{Cells: append(cells, p.Resin, family, gel)})
		n += p.Count
	}
	return t
}

// Family is a resin's family, filler and cure.
func Family(r *laminate.Resin) string {
	text := r.Family.String()
	if r.Filler != laminate.NoFiller {
		text += ", " + r.Filler.String()
		if r.FillerContent.Given {
			text += " " + quantity.Share(r.FillerContent.Value)
		}
	}
	if r.Cure != laminate.NoCure {
		text += ", " + r.Cure.String()
	}
	return text
}

// Mark is what an answer is worth, line by line, with the reason for each miss
// and what check finds in the wall that was laid.
func Mark(e *exercise.Exercise, m *practice.Mark) Sheet {
	sheet := Sheet{Heading{Level: 1, Text: e.ID + ": " + quantity.Share(m.Score)}}
	for _, n := range m.Notes {
		sheet = append(sheet, Note{Mark: "note: ", Text: n, Indent: 2})
	}
	t := Table{Columns: []Column{{Title: "mark"}, {Title: "points"}, {Title: "required: found"}, {Title: "missed", Under: true}, {Title: "wrong", Under: true}, {Title: "why", Under: true}, {Title: "basis", Under: true}}}
	for i := range m.Lines {
		l := &m.Lines[i]
		met := "met"
		if l.Missed {
			met = "missed"
		}
		t.Rows = append(t.Rows, Row{Cells: []string{met, points(l.Points) + " of " + points(l.Of), l.Text(), l.Lacks, l.Wrong, l.Why, l.Basis}, Brief: !l.Missed})
	}
	sheet = append(sheet, t)
	if m.HintCost > 0 {
		sheet = append(sheet, Note{Text: "hints cost " + quantity.Share(m.HintCost), Indent: 2})
	}
	if m.Report != nil && len(m.Report.Findings) > 0 {
		found := Table{Columns: []Column{{Title: "severity"}, {Title: "rule"}, {Title: "finding"}}}
		for i := range m.Report.Findings {
			f := &m.Report.Findings[i]
			found.Rows = append(found.Rows, Row{Cells: []string{f.Severity.String(), f.Rule.ID, f.Message}})
		}
		sheet = append(sheet, Heading{Level: 2, Text: "what check finds in it"}, found)
	}
	return sheet
}

func points(v float64) string { return strings.TrimSuffix(quantity.Number(v, 1), ".0") }

// Progress is where a person stands with each exercise, and by step.
func Progress(rows []practice.Row) Sheet {
	t := Table{Columns: []Column{
		{Title: "exercise"}, {Title: "tries", Right: true}, {Title: "first", Right: true}, {Title: "last", Right: true},
		{Title: "best", Right: true}, {Title: ""}, {Title: "last day"}, {Title: "due"},
	}}
	for i := range rows {
		r := &rows[i]
		s := r.Standing
		if s.Tries == 0 {
			t.Rows = append(t.Rows, Row{Cells: []string{r.ID, "0", "", "", "", "", "", ""}})
			continue
		}
		passed := "passed"
		if s.Missed() {
			passed = "missed"
		}
		t.Rows = append(t.Rows, Row{Cells: []string{
			r.ID, strconv.Itoa(s.Tries), quantity.Share(s.First), quantity.Share(s.Last), quantity.Share(s.Best), passed, s.On.String(), s.Due.String(),
		}})
	}
	sheet := Sheet{t}
	for _, x := range practice.ByStep(rows) {
		if x.Exercises > 0 {
			sheet = append(sheet, Note{Text: "step " + strconv.Itoa(x.Step) + ": " + strconv.Itoa(x.Tried) + " of " + strconv.Itoa(x.Exercises) + " tried, " + strconv.Itoa(x.Passed) + " passed"})
		}
	}
	return sheet
}

// Lesson is the text of a step; its lines stand as they are written.
func Lesson(l course.Lesson) Sheet {
	sheet := Sheet{Heading{Level: 1, Text: l.Title}}
	for _, text := range strings.Split(l.Text, "\n") {
		sheet = append(sheet, Note{Text: text})
	}
	return sheet
}

// Glossary is the words that the program explains, and where they come from.
func Glossary() Sheet {
	t := Table{Columns: []Column{{Title: "word"}, {Title: "source"}, {Title: "meaning", Under: true, Plain: true}}}
	for _, x := range glossary.Terms() {
		t.Rows = append(t.Rows, Row{Cells: []string{x.Word, x.Source, x.Meaning}})
	}
	return Sheet{t}
}
