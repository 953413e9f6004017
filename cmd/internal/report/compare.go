package report

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/rules/revision"
	"frp/veilwright/schedules"
)

// Comparison is what compare prints as JSON.
type Comparison struct {
	Schedule      string    `json:"schedule"`
	Specification string    `json:"specification"`
	Record        *string   `json:"record"`
	Books         []string  `json:"books"`
	Error         *string   `json:"error"`
	Problems      []Problem `json:"problems"`
	Lines         []Line    `json:"lines"`
	Notes         []string  `json:"notes"`
	// Findings are what the schedule itself breaks, and what cannot be determined of
	// it: no part is accepted while they stand.
	Findings []Finding `json:"findings"`
	Verdict  string    `json:"verdict"`
}

// Line is one requirement of a comparison.
type Line struct {
	Key         string `json:"key"`
	Requirement string `json:"requirement"`
	Found       string `json:"found"`
	Verdict     string `json:"verdict"`
	Basis       string `json:"basis"`
	Plies       []int  `json:"plies"`
}

// Compared is the report of a comparison; r is the judged schedule.
func Compared(schedule, specification, record string, books []string, res *acceptance.Result, r *rules.Report, lines Lines) Comparison {
	c := Comparison{Schedule: schedule, Specification: specification, Record: stated(record), Books: list(books), Problems: []Problem{},
		Lines: []Line{}, Notes: list(res.Notes), Findings: []Finding{}, Verdict: res.Answer.String()}
	for _, l := range res.Lines {
		c.Lines = append(c.Lines, Line{Key: l.Key, Requirement: l.Demand, Found: l.Found, Verdict: l.Verdict.String(), Basis: l.Basis, Plies: list(l.Plies)})
	}
	for _, f := range findings(r, lines) {
		if f.Severity == rules.Break.String() || f.Severity == rules.Incomplete.String() {
			c.Findings = append(c.Findings, f)
		}
	}
	return c
}

// Uncompared is the report of a comparison that could not be made.
func Uncompared(schedule, specification, record string, s Schedule) Comparison {
	return Comparison{Schedule: schedule, Specification: specification, Record: stated(record), Books: []string{}, Error: s.Error,
		Problems: s.Problems, Lines: []Line{}, Notes: []string{}, Findings: []Finding{}, Verdict: Unusable}
}

// Difference is what differ prints as JSON. Figures in SI; what is not known
// is null.
type Difference struct {
	Old      string         `json:"old"`
	New      string         `json:"new"`
	Error    *string        `json:"error"`
	Problems []Problem      `json:"problems"`
	Facts    []FactChange   `json:"facts"`
	Rows     []RowChange    `json:"rows"`
	Figures  []FigureChange `json:"figures"`
	Gone     []Finding      `json:"findings_gone"`
	Come     []Finding      `json:"findings_new"`
}

// RowChange is one row of the comparison of two revisions, with the numbers of
// its single plies in either.
type RowChange struct {
	Change   string   `json:"change"`
	OldPlies []int    `json:"old_plies"`
	NewPlies []int    `json:"new_plies"`
	Material string   `json:"material"`
	What     []string `json:"what"`
}

// FactChange is a value stated in one revision and not, or otherwise, in the
// other, as the documents spell it; null where it is not stated.
type FactChange struct {
	Key string  `json:"key"`
	Old *string `json:"old"`
	New *string `json:"new"`
}

// FigureChange is one figure in both revisions.
type FigureChange struct {
	Name string   `json:"name"`
	Unit string   `json:"unit"`
	Old  *float64 `json:"old"`
	New  *float64 `json:"new"`
}

// Changes are what two revisions state differently.
func Changes(facts []schedules.FactChange) []FactChange {
	list := []FactChange{}
	for _, f := range facts {
		list = append(list, FactChange{Key: f.Key, Old: stated(f.Old), New: stated(f.New)})
	}
	return list
}

// Differing is the report of two judged revisions.
func Differing(older, newer string, facts []schedules.FactChange, d *revision.Difference, a, b *rules.Report) Difference {
	none := func(laminate.Ref) int { return 0 }
	out := Difference{Old: older, New: newer, Problems: []Problem{}, Facts: Changes(facts), Rows: []RowChange{}, Figures: []FigureChange{},
		Gone: findings(&rules.Report{Schedule: a.Schedule, Analysis: a.Analysis, Findings: d.Gone}, none),
		Come: findings(&rules.Report{Schedule: b.Schedule, Analysis: b.Analysis, Findings: d.New}, none)}
	single := func(r *rules.Report, row int) []int {
		list := []int{}
		if row >= 0 {
			for n := r.Analysis.Rows[row].First; n <= r.Analysis.Rows[row].Last; n++ {
				list = append(list, n)
			}
		}
		return list
	}
	for _, r := range d.Rows {
		c := RowChange{Change: r.Change.String(), OldPlies: single(a, r.Old), NewPlies: single(b, r.New), What: list(r.What)}
		if r.New >= 0 {
			c.Material = b.Schedule.Plies[r.New].Material
		} else {
			c.Material = a.Schedule.Plies[r.Old].Material
		}
		out.Rows = append(out.Rows, c)
	}
	for _, f := range d.Figures {
		out.Figures = append(out.Figures, FigureChange{Name: f.Name, Unit: unitOf(f.Kind), Old: known(f.Old, f.OldKnown), New: known(f.New, f.NewKnown)})
	}
	return out
}
