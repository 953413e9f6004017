package report

import (
	"strings"

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
		Right  string  `json:"right,omitempty"`
		Lacks  string  `json:"left_out,omitempty"`
		Wrong  string  `json:"wrong,omitempty"`
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

// SummaryOf is where a person stands with each exercise.
func SummaryOf(person string, rows []practice.Row) any {
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
			one.Family = paper.Family(r)
		}
		list = append(list, one)
	}
	return list
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

// ExerciseOf is an exercise with its first hints and, with answer, what the
// program would answer.
func ExerciseOf(e *exercise.Exercise, hints int, answer bool, lib *laminate.Library, units quantity.System) any {
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
	return out
}

// ExercisesOf lists exercises.
func ExercisesOf(list []*exercise.Exercise) any {
	out := struct {
		Exercises []exerciseJSON `json:"exercises"`
	}{[]exerciseJSON{}}
	for _, e := range list {
		out.Exercises = append(out.Exercises, exerciseJSON{ID: e.ID, Title: e.Title, Step: e.Step, Kind: e.Kind.String()})
	}
	return out
}

// MarkOf is what an answer is worth, with the program's own answer beside it
// where that is wanted.
func MarkOf(e *exercise.Exercise, m *practice.Mark, answer bool, lib *laminate.Library) any {
	out := markJSON{Exercise: e.ID, Score: m.Score, Points: m.Points, Of: m.Of, HintCost: m.HintCost, Lines: []markLineJSON{}, Notes: append([]string{}, m.Notes...)}
	for _, l := range m.Lines {
		out.Lines = append(out.Lines, markLineJSON{l.Demand, l.Found, l.Right, l.Lacks, l.Wrong, l.Points, l.Of, l.Missed, l.Why, l.Basis})
	}
	out.Findings = []Finding{}
	if m.Report != nil {
		for i := range m.Report.Findings {
			m.Report.Fix(i)
		}
		out.Findings = findings(m.Report, func(laminate.Ref) int { return 0 })
	}
	if answer {
		out.Answer = answerOf(m.Solution, lib)
	}
	return out
}

// LessonOf is the text of a step.
func LessonOf(l course.Lesson) any {
	return struct {
		Step  int    `json:"step"`
		Title string `json:"title"`
		Text  string `json:"text"`
	}{l.Step, l.Title, l.Text}
}

// Glossary is the words that the program explains, and where they come from.
func Glossary() any {
	type term struct {
		Term    string `json:"term"`
		Meaning string `json:"meaning"`
		From    string `json:"from"`
	}
	out := struct {
		Terms []term `json:"terms"`
	}{[]term{}}
	for _, t := range glossary.Terms() {
		out.Terms = append(out.Terms, term{t.Word, t.Meaning, t.Source})
	}
	return out
}
