package report

import (
	"strconv"
	"strings"

	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/glossary"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
	"frp/veilwright/rules/practice/course"
	"frp/veilwright/schedules/paper"
)

// What practice reports as JSON: exercises, marks and summaries.
type (
	exerciseJSON struct {
		ID        string      `json:"id"`
		Title     string      `json:"title"`
		Step      int         `json:"step"`
		Kind      string      `json:"kind"`
		Scenario  string      `json:"scenario,omitempty"`
		Task      string      `json:"task,omitempty"`
		Facts     []factJSON  `json:"facts,omitempty"`
		Plies     []layJSON   `json:"plies,omitempty"`
		Questions []string    `json:"questions,omitempty"`
		Hints     []string    `json:"hints,omitempty"`
		Answer    *answerJSON `json:"answer,omitempty"`
	}
	factJSON struct {
		Name  string `json:"name"`
		Value string `json:"value"`
	}
	layJSON struct {
		Material string `json:"material"`
		Resin    string `json:"resin"`
		Family   string `json:"family"`
		Zone     string `json:"zone"`
		Count    int    `json:"count"`
		GelAfter bool   `json:"gel_after"`
	}
	answerJSON struct {
		Plies  []layJSON `json:"plies,omitempty"`
		Faults []int     `json:"faults,omitempty"`
		Veil   string    `json:"veil,omitempty"`
		Resin  string    `json:"resin,omitempty"`
		Values []string  `json:"values,omitempty"`
	}
	markJSON struct {
		Exercise string         `json:"exercise"`
		Score    float64        `json:"score"`
		Points   float64        `json:"points"`
		Of       float64        `json:"of"`
		HintCost float64        `json:"hint_cost"`
		Lines    []markLineJSON `json:"lines"`
		Notes    []string       `json:"notes"`
		Findings []Finding      `json:"findings"` // of the checker on the wall that was laid or chosen
		Answer   *answerJSON    `json:"answer,omitempty"`
	}
	markLineJSON struct {
		Demand string  `json:"requirement"`
		Found  string  `json:"found"`
		Points float64 `json:"points"`
		Of     float64 `json:"of"`
		Missed bool    `json:"missed"`
		Why    string  `json:"why"`
		Basis  string  `json:"basis"`
	}
	summaryJSON struct {
		Person    string           `json:"person"`
		Exercises []summaryRowJSON `json:"exercises"`
	}
	summaryRowJSON struct {
		ID      string   `json:"id"`
		Step    int      `json:"step"`
		Tries   int      `json:"tries"`
		First   *float64 `json:"first"`
		Last    *float64 `json:"last"`
		Best    *float64 `json:"best"`
		LastDay *string  `json:"last_day"`
		Due     *string  `json:"due"`
	}
)

func summaryOf(person string, rows []practice.Row) summaryJSON {
	out := summaryJSON{Person: person, Exercises: []summaryRowJSON{}}
	for i := range rows {
		r := &rows[i]
		one := summaryRowJSON{ID: r.ID, Step: r.Step, Tries: r.Standing.Tries}
		if s := r.Standing; s.Tries > 0 {
			on, due := s.On.String(), s.Due.String()
			one.First, one.Last, one.Best, one.LastDay, one.Due = &s.First, &s.Last, &s.Best, &on, &due
		}
		out.Exercises = append(out.Exercises, one)
	}
	return out
}

// Practice prints exercises, marks and summaries, as text or as JSON.
type Practice struct {
	Out     *output.Sink
	JSON    bool
	Units   quantity.System
	Library *laminate.Library // what materials are looked up in; a list needs none
}

// List prints the exercises by step.
func (c Practice) List(list []*exercise.Exercise) error {
	if c.JSON {
		out := struct {
			Exercises []exerciseJSON `json:"exercises"`
		}{[]exerciseJSON{}}
		for _, e := range list {
			out.Exercises = append(out.Exercises, exerciseJSON{ID: e.ID, Title: e.Title, Step: e.Step, Kind: e.Kind.String()})
		}
		return c.Out.JSON(out)
	}
	step := 0
	for _, e := range list {
		if e.Step != step {
			step = e.Step
			c.Out.Line("step %d: %s", step, course.At(step).Title)
		}
		c.Out.Line("  %-26s %-9s %s", e.ID, e.Kind.String(), e.Title)
	}
	return nil
}

func laidOf(s *laminate.Schedule, lib *laminate.Library, zoned bool) []layJSON {
	var list []layJSON
	zones := laminate.InferZones(s, lib)
	for i := range s.Plies {
		p := &s.Plies[i]
		one := layJSON{Material: p.Material, Resin: p.Resin, Count: p.Count, GelAfter: p.GelAfter}
		if zoned {
			one.Zone = zones[i].String()
		}
		if r, ok := s.Resin(p.Resin); ok {
			one.Family = r.Family.String()
			if r.Filler != laminate.NoFiller {
				one.Family += ", " + r.Filler.String()
				if r.FillerContent.Given {
					one.Family += " " + quantity.Share(r.FillerContent.Value)
				}
			}
			if r.Cure != laminate.NoCure {
				one.Family += ", " + r.Cure.String()
			}
		}
		list = append(list, one)
	}
	return list
}

func (c Practice) laid(list []layJSON) {
	n := 1
	for _, p := range list {
		number := strconv.Itoa(n)
		if p.Count > 1 {
			number += "-" + strconv.Itoa(n+p.Count-1)
		}
		n += p.Count
		gel := ""
		if p.GelAfter {
			gel = "  then let it gel"
		}
		c.Out.Line("  %6s  %-18s %-17s %s (%s)%s", number, p.Material, p.Zone, p.Resin, p.Family, gel)
	}
}

func answerOf(a practice.Answer, lib *laminate.Library) *answerJSON {
	out := &answerJSON{Faults: a.Faults, Veil: a.Veil, Values: a.Values}
	if a.Family != laminate.NoFamily {
		out.Resin = a.Family.String()
	}
	if a.Schedule != nil {
		out.Plies = laidOf(a.Schedule, lib, true)
	}
	return out
}

func (c Practice) answer(e *exercise.Exercise, a *answerJSON) {
	c.Out.Line("")
	c.Out.Line("answer")
	if len(a.Faults) > 0 {
		words := make([]string, len(a.Faults))
		for i, n := range a.Faults {
			words[i] = strconv.Itoa(n)
		}
		c.Out.Line("  defective: plies %s of the given schedule", strings.Join(words, ", "))
	}
	if a.Veil != "" {
		c.Out.Line("  %s in %s", a.Veil, a.Resin)
	}
	for i, v := range a.Values {
		c.Out.Line("  %s: %s", e.Questions[i].Ask.Text(), v)
	}
	c.laid(a.Plies)
}

// Exercise prints the task, hints as far as asked for, and with answer what the
// program would answer.
func (c Practice) Exercise(e *exercise.Exercise, hints int, answer bool) error {
	lib, units := c.Library, c.Units
	out := exerciseJSON{ID: e.ID, Title: e.Title, Step: e.Step, Kind: e.Kind.String(), Scenario: strings.TrimSpace(e.Scenario), Task: strings.TrimSpace(e.Task)}
	for _, f := range e.Facts(units) {
		out.Facts = append(out.Facts, factJSON(f))
	}
	out.Plies = laidOf(&e.Given, lib, e.Kind != exercise.Order)
	for _, q := range e.Questions {
		out.Questions = append(out.Questions, q.Ask.Text())
	}
	for _, h := range e.Hints[:hints] {
		out.Hints = append(out.Hints, strings.TrimSpace(h.Text))
	}
	if answer {
		out.Answer = answerOf(practice.Solve(e, lib, units), lib)
	}
	if c.JSON {
		return c.Out.JSON(out)
	}
	c.Out.Line("%s: %s (step %d, %s)", e.ID, e.Title, e.Step, e.Kind.String())
	for _, text := range []string{out.Scenario, out.Task} {
		c.Out.Line("")
		for _, line := range paper.Wrap(text, 76) {
			c.Out.Line("%s", line)
		}
	}
	c.Out.Line("")
	for _, f := range out.Facts {
		c.Out.Line("  %-16s %s", f.Name, f.Value)
	}
	if len(out.Plies) > 0 {
		c.Out.Line("")
		c.Out.Line("given, from the process side")
		c.laid(out.Plies)
	}
	if len(e.Specimens) > 0 {
		c.Out.Line("")
		c.Out.Line("specimens of the %s", e.Specimens[0].Group.String())
		for i, s := range e.Specimens {
			c.Out.Line("  %d  before %s, after %s", i+1, s.Before.Text(), s.After.Text())
		}
	}
	marked := practice.Grade(e, practice.Answer{}, lib, units)
	c.Out.Line("")
	c.Out.Line("marked")
	for _, l := range marked.Lines {
		if l.Of > 0 {
			c.Out.Line("  %s  %s", points(l.Of), l.Demand)
		}
	}
	if n := len(e.Hints); n > 0 {
		c.Out.Line("  %d hints; the first costs %s of the mark", n, quantity.Share(e.Hints[0].Price()))
	}
	for i, h := range out.Hints {
		c.Out.Line("")
		for _, line := range paper.Wrap("hint "+strconv.Itoa(i+1)+": "+h, 76) {
			c.Out.Line("%s", line)
		}
	}
	if out.Answer != nil {
		c.answer(e, out.Answer)
	}
	return nil
}

func points(v float64) string { return strings.TrimSuffix(quantity.Number(v, 1), ".0") }

// Mark prints a mark line by line, the reason below each miss.
func (c Practice) Mark(e *exercise.Exercise, m *practice.Mark, answer bool) error {
	out := markJSON{Exercise: e.ID, Score: m.Score, Points: m.Points, Of: m.Of, HintCost: m.HintCost, Lines: []markLineJSON{}, Notes: append([]string{}, m.Notes...)}
	for _, l := range m.Lines {
		out.Lines = append(out.Lines, markLineJSON{l.Demand, l.Found, l.Points, l.Of, l.Missed, l.Why, l.Basis})
	}
	out.Findings = []Finding{}
	if m.Report != nil {
		for i := range m.Report.Findings {
			m.Report.Fix(i)
		}
		out.Findings = findings(m.Report, func(laminate.Ref) int { return 0 })
	}
	if answer {
		out.Answer = answerOf(m.Solution, c.Library)
	}
	if c.JSON {
		return c.Out.JSON(out)
	}
	c.Out.Line("%s: %s", e.ID, quantity.Share(m.Score))
	for _, n := range out.Notes {
		c.Out.Line("  note: %s", n)
	}
	for _, l := range out.Lines {
		word := "met"
		if l.Missed {
			word = "missed"
		}
		c.Out.Line("  %-6s %s of %s  %s: %s", word, points(l.Points), points(l.Of), l.Demand, l.Found)
		if !l.Missed {
			continue
		}
		for _, line := range paper.Wrap("why: "+l.Why, 68) {
			c.Out.Line("           %s", line)
		}
		c.Out.Line("           basis: %s", l.Basis)
	}
	if m.HintCost > 0 {
		c.Out.Line("  hints cost %s", quantity.Share(m.HintCost))
	}
	for i, f := range out.Findings {
		if i == 0 {
			c.Out.Line("what check finds in it")
		}
		c.Out.Line("  %s %s: %s", f.Severity, f.Rule, f.Message)
	}
	if out.Answer != nil {
		c.answer(e, out.Answer)
	}
	return nil
}

// Summary prints where a person stands with each exercise, and by step.
func (c Practice) Summary(person string, rows []practice.Row) error {
	if c.JSON {
		return c.Out.JSON(summaryOf(person, rows))
	}
	c.Out.Line("%-28s %5s %6s %6s %6s %6s  %-10s  %s", "exercise", "tries", "first", "last", "best", "", "last day", "due")
	for i := range rows {
		r := &rows[i]
		s := r.Standing
		if s.Tries == 0 {
			c.Out.Line("%-28s %5d", r.ID, 0)
			continue
		}
		word := "passed"
		if s.Missed() {
			word = "missed"
		}
		c.Out.Line("%-28s %5d %6s %6s %6s %6s  %-10s  %s", r.ID, s.Tries, quantity.Share(s.First), quantity.Share(s.Last), quantity.Share(s.Best), word, s.On.String(), s.Due.String())
	}
	for _, t := range practice.ByStep(rows) {
		if t.Exercises > 0 {
			c.Out.Line("step %d: %d of %d tried, %d passed", t.Step, t.Tried, t.Exercises, t.Passed)
		}
	}
	return nil
}

// Lesson prints the text of a step.
func (c Practice) Lesson(l course.Lesson) error {
	if c.JSON {
		return c.Out.JSON(struct {
			Step  int    `json:"step"`
			Title string `json:"title"`
			Text  string `json:"text"`
		}{l.Step, l.Title, l.Text})
	}
	c.Out.Line("%s", l.Title)
	for _, line := range strings.Split(l.Text, "\n") {
		c.Out.Line("%s", line)
	}
	return nil
}

// Glossary prints the words that the program explains, and where they come from.
func (c Practice) Glossary() error {
	type termJSON struct {
		Term    string `json:"term"`
		Meaning string `json:"meaning"`
		From    string `json:"from"`
	}
	terms := struct {
		Terms []termJSON `json:"terms"`
	}{[]termJSON{}}
	for _, t := range glossary.Terms() {
		terms.Terms = append(terms.Terms, termJSON{t.Word, t.Meaning, t.Source})
		if c.JSON {
			continue
		}
		c.Out.Line("%s (%s)", t.Word, t.Source)
		for _, line := range paper.Wrap(t.Meaning, 72) {
			c.Out.Line("    %s", line)
		}
	}
	if c.JSON {
		return c.Out.JSON(terms)
	}
	return nil
}
