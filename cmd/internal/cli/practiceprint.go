package cli

import (
	"strconv"
	"strings"

	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
	"frp/veilwright/rules/practice/course"
)

// What practice reports as JSON.
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
		Answer   *answerJSON    `json:"answer,omitempty"`
	}
	markLineJSON struct {
		Demand string  `json:"demand"`
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

func listExercises(c *call, list []*exercise.Exercise) error {
	if c.JSON {
		out := struct {
			Exercises []exerciseJSON `json:"exercises"`
		}{[]exerciseJSON{}}
		for _, e := range list {
			out.Exercises = append(out.Exercises, exerciseJSON{ID: e.ID, Title: e.Title, Step: e.Step, Kind: e.Kind.String()})
		}
		return c.out.JSON(out)
	}
	step := 0
	for _, e := range list {
		if e.Step != step {
			step = e.Step
			c.out.Line("step %d: %s", step, course.At(step).Title)
		}
		c.out.Line("  %-26s %-9s %s", e.ID, e.Kind.String(), e.Title)
	}
	return nil
}

func laid(s *laminate.Schedule, lib *laminate.Library, zoned bool) []layJSON {
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

func printLaid(c *call, list []layJSON) {
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
		c.out.Line("  %6s  %-18s %-17s %s (%s)%s", number, p.Material, p.Zone, p.Resin, p.Family, gel)
	}
}

func answerOf(a practice.Answer, lib *laminate.Library) *answerJSON {
	out := &answerJSON{Faults: a.Faults, Veil: a.Veil, Values: a.Values}
	if a.Family != laminate.NoFamily {
		out.Resin = a.Family.String()
	}
	if a.Schedule != nil {
		out.Plies = laid(a.Schedule, lib, true)
	}
	return out
}

func printAnswer(c *call, e *exercise.Exercise, a *answerJSON) {
	c.out.Line("")
	c.out.Line("answer")
	if len(a.Faults) > 0 {
		words := make([]string, len(a.Faults))
		for i, n := range a.Faults {
			words[i] = strconv.Itoa(n)
		}
		c.out.Line("  at fault: plies %s of the schedule given", strings.Join(words, ", "))
	}
	if a.Veil != "" {
		c.out.Line("  %s in %s", a.Veil, a.Resin)
	}
	for i, v := range a.Values {
		c.out.Line("  %s: %s", e.Questions[i].Ask.Text(), v)
	}
	printLaid(c, a.Plies)
}

// printExercise prints the task, hints as far as asked for, and with answer
// what the program would answer.
func printExercise(c *call, e *exercise.Exercise, lib *laminate.Library, units quantity.System, hints int, answer bool) error {
	out := exerciseJSON{ID: e.ID, Title: e.Title, Step: e.Step, Kind: e.Kind.String(), Scenario: strings.TrimSpace(e.Scenario), Task: strings.TrimSpace(e.Task)}
	for _, f := range e.Facts(units) {
		out.Facts = append(out.Facts, factJSON(f))
	}
	out.Plies = laid(&e.Given, lib, e.Kind != exercise.Order)
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
		return c.out.JSON(out)
	}
	c.out.Line("%s: %s (step %d, %s)", e.ID, e.Title, e.Step, e.Kind.String())
	for _, text := range []string{out.Scenario, out.Task} {
		c.out.Line("")
		for _, line := range output.Wrap(text, 76) {
			c.out.Line("%s", line)
		}
	}
	c.out.Line("")
	for _, f := range out.Facts {
		c.out.Line("  %-16s %s", f.Name, f.Value)
	}
	if len(out.Plies) > 0 {
		c.out.Line("")
		c.out.Line("given, from the process side")
		printLaid(c, out.Plies)
	}
	if len(e.Specimens) > 0 {
		c.out.Line("")
		c.out.Line("specimens of the %s", e.Specimens[0].Group.String())
		for i, s := range e.Specimens {
			c.out.Line("  %d  before %s, after %s", i+1, s.Before.Text(), s.After.Text())
		}
	}
	marked := practice.Grade(e, practice.Answer{}, lib, units)
	c.out.Line("")
	c.out.Line("marked")
	for _, l := range marked.Lines {
		if l.Of > 0 {
			c.out.Line("  %s  %s", points(l.Of), l.Demand)
		}
	}
	if n := len(e.Hints); n > 0 {
		c.out.Line("  %d hints, each costs what it says: the first %s of the mark", n, quantity.Share(e.Hints[0].Price()))
	}
	for i, h := range out.Hints {
		c.out.Line("")
		for _, line := range output.Wrap("hint "+strconv.Itoa(i+1)+": "+h, 76) {
			c.out.Line("%s", line)
		}
	}
	if out.Answer != nil {
		printAnswer(c, e, out.Answer)
	}
	return nil
}

func points(v float64) string { return strings.TrimSuffix(quantity.Number(v, 1), ".0") }

// printMark prints a mark line by line, the reason below each miss.
func printMark(c *call, e *exercise.Exercise, m *practice.Mark, answer bool) error {
	out := markJSON{Exercise: e.ID, Score: m.Score, Points: m.Points, Of: m.Of, HintCost: m.HintCost, Lines: []markLineJSON{}, Notes: append([]string{}, m.Notes...)}
	for _, l := range m.Lines {
		out.Lines = append(out.Lines, markLineJSON{l.Demand, l.Found, l.Points, l.Of, l.Missed, l.Why, l.Basis})
	}
	if answer {
		lib, err := newShelf(c).library("")
		if err != nil {
			return err
		}
		out.Answer = answerOf(m.Solution, lib)
	}
	if c.JSON {
		return c.out.JSON(out)
	}
	c.out.Line("%s: %s", e.ID, quantity.Share(m.Score))
	for _, n := range out.Notes {
		c.out.Line("  note: %s", n)
	}
	for _, l := range out.Lines {
		word := "met"
		if l.Missed {
			word = "missed"
		}
		c.out.Line("  %-6s %s of %s  %s: %s", word, points(l.Points), points(l.Of), l.Demand, l.Found)
		if !l.Missed {
			continue
		}
		for _, line := range output.Wrap("why: "+l.Why, 68) {
			c.out.Line("           %s", line)
		}
		c.out.Line("           basis: %s", l.Basis)
	}
	if m.HintCost > 0 {
		c.out.Line("  hints cost %s", quantity.Share(m.HintCost))
	}
	if out.Answer != nil {
		printAnswer(c, e, out.Answer)
	}
	return nil
}
