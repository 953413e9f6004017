package report

import (
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
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
	// Findings are the breaks of the schedule itself: they stand beside the
	// verdict, which is about what was demanded.
	Findings []Finding `json:"findings"`
	Verdict  string    `json:"verdict"`
}

// Line is one demand of a comparison.
type Line struct {
	Key     string `json:"key"`
	Demand  string `json:"demand"`
	Found   string `json:"found"`
	Verdict string `json:"verdict"`
	Basis   string `json:"basis"`
	Plies   []int  `json:"plies"`
}

// Compared is the report of a comparison; r is the judged schedule.
func Compared(schedule, specification, record string, books []string, res *acceptance.Result, r *rules.Report, lines Lines) Comparison {
	c := Comparison{Schedule: schedule, Specification: specification, Record: stated(record), Books: list(books), Problems: []Problem{},
		Lines: []Line{}, Notes: list(res.Notes), Findings: []Finding{}, Verdict: res.Verdict.Outcome()}
	for _, l := range res.Lines {
		c.Lines = append(c.Lines, Line{Key: l.Key, Demand: l.Demand, Found: l.Found, Verdict: l.Verdict.String(), Basis: l.Basis, Plies: list(l.Plies)})
	}
	for _, f := range findings(r, lines) {
		if f.Severity == rules.Break.String() {
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

// PrintComparison prints a comparison as text, fails first.
func PrintComparison(out *output.Sink, c Comparison) {
	out.Line("%s against %s", c.Schedule, heldAgainst(c))
	for _, verdict := range []acceptance.Verdict{acceptance.Fails, acceptance.Incomplete, acceptance.Meets} {
		for _, l := range c.Lines {
			if l.Verdict != verdict.String() {
				continue
			}
			out.Line("  %-11s %s: %s; found %s%s", l.Verdict, l.Key, l.Demand, l.Found, numbered(l.Plies))
			if verdict != acceptance.Meets {
				out.Line("              basis: %s", l.Basis)
			}
		}
	}
	for _, n := range c.Notes {
		out.Line("  note        %s", n)
	}
	for _, f := range c.Findings {
		out.Line("  beside it   the schedule itself: %s %s: %s", f.Severity, f.Rule, f.Message)
	}
	out.Line("%s: %s (%s)", c.Schedule, c.Verdict, tally(c))
}

func heldAgainst(c Comparison) string {
	if c.Record != nil {
		return c.Specification + " and " + *c.Record
	}
	return c.Specification
}

func tally(c Comparison) string {
	counts := map[string]int{}
	for _, l := range c.Lines {
		counts[l.Verdict]++
	}
	text := fmt.Sprintf("%d meet, %d fail, %d incomplete", counts[acceptance.Meets.String()], counts[acceptance.Fails.String()],
		counts[acceptance.Incomplete.String()])
	if n := len(c.Findings); n > 0 {
		text += fmt.Sprintf("; the schedule itself has %d %s", n, quantity.Plural(n, "break", "breaks"))
	}
	return text
}

func numbered(plies []int) string {
	if len(plies) == 0 {
		return ""
	}
	words := make([]string, 0, 6)
	for i, n := range plies {
		if i == 5 && len(plies) > 6 {
			words = append(words, fmt.Sprintf("… %d in all", len(plies)))
			break
		}
		words = append(words, strconv.Itoa(n))
	}
	return " (" + quantity.Plural(len(plies), "ply ", "plies ") + strings.Join(words, ", ") + ")"
}

// ComparisonMarkdown prints a comparison as a Markdown table.
func ComparisonMarkdown(out *output.Sink, c Comparison) {
	out.Line("# %s against %s: %s", c.Schedule, heldAgainst(c), c.Verdict)
	out.Line("")
	out.Line("| verdict | demand | found | plies | basis |")
	out.Line("|---|---|---|---|---|")
	for _, l := range c.Lines {
		out.Line("| %s | %s | %s | %s | %s |", l.Verdict, cell(l.Demand), cell(l.Found), strings.Trim(numbered(l.Plies), " ()"), cell(l.Basis))
	}
	for _, n := range c.Notes {
		out.Line("")
		out.Line("Note: %s", n)
	}
	for _, f := range c.Findings {
		out.Line("")
		out.Line("Beside it, the schedule itself: %s `%s`: %s", f.Severity, f.Rule, f.Message)
	}
}

func cell(s string) string { return strings.ReplaceAll(s, "|", `\|`) }

// ComparisonCSV prints the lines of a comparison for a spreadsheet.
func ComparisonCSV(out *output.Sink, c Comparison) error {
	w := csv.NewWriter(out)
	rows := [][]string{{"verdict", "key", "demand", "found", "plies", "basis"}}
	for _, l := range c.Lines {
		rows = append(rows, []string{l.Verdict, l.Key, safeCell(l.Demand), safeCell(l.Found), strings.Trim(numbered(l.Plies), " ()"), safeCell(l.Basis)})
	}
	return w.WriteAll(rows)
}

// safeCell keeps a spreadsheet from taking text of a file for a formula, and
// control characters from reaching it.
func safeCell(s string) string {
	s = output.Clean(s)
	if s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
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

// Differing is the report of two judged revisions.
func Differing(older, newer string, facts []schedules.FactChange, d *acceptance.Difference, a, b *rules.Report) Difference {
	none := func(laminate.Ref) int { return 0 }
	out := Difference{Old: older, New: newer, Problems: []Problem{}, Facts: []FactChange{}, Rows: []RowChange{}, Figures: []FigureChange{},
		Gone: findings(&rules.Report{Schedule: a.Schedule, Analysis: a.Analysis, Findings: d.Gone}, none),
		Come: findings(&rules.Report{Schedule: b.Schedule, Analysis: b.Analysis, Findings: d.New}, none)}
	for _, f := range facts {
		out.Facts = append(out.Facts, FactChange{Key: f.Key, Old: stated(f.Old), New: stated(f.New)})
	}
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
		out.Figures = append(out.Figures, FigureChange{Name: f.Name, Unit: f.Unit, Old: known(f.Old, f.OldKnown), New: known(f.New, f.NewKnown)})
	}
	return out
}

// PrintDifference prints two revisions as text: what changed, never what did not.
func PrintDifference(out *output.Sink, d Difference, units quantity.System) {
	out.Line("%s → %s", d.Old, d.New)
	changes := len(d.Facts)
	for _, f := range d.Facts {
		out.Line("  stated   %s: %s → %s", f.Key, orNothing(f.Old), orNothing(f.New))
	}
	for _, r := range d.Rows {
		if r.Change == acceptance.Same.String() {
			continue
		}
		changes++
		was, is := span(r.OldPlies), span(r.NewPlies)
		what := r.Material
		if len(r.What) > 0 {
			what += ": " + strings.Join(r.What, ", ")
		}
		out.Line("  %-8s %7s → %-7s %s", r.Change, was, is, what)
	}
	for _, f := range d.Figures {
		was, is := moved(f, units)
		if was != is {
			changes++
			out.Line("  %-28s %12s → %s", f.Name, was, is)
		}
	}
	for _, f := range d.Gone {
		changes++
		out.Line("  gone     %s %s: %s", f.Severity, f.Rule, f.Message)
	}
	for _, f := range d.Come {
		changes++
		out.Line("  new      %s %s: %s", f.Severity, f.Rule, f.Message)
	}
	if changes == 0 {
		out.Line("  nothing stated, no ply, figure or finding differs")
	}
}

func orNothing(s *string) string {
	if s == nil {
		return "not stated"
	}
	return *s
}

func span(plies []int) string {
	switch len(plies) {
	case 0:
		return "-"
	case 1:
		return strconv.Itoa(plies[0])
	}
	return fmt.Sprintf("%d-%d", plies[0], plies[len(plies)-1])
}

// before and after prints a figure of both revisions.
func moved(f FigureChange, units quantity.System) (was, is string) {
	kind := quantity.Fraction
	switch f.Unit {
	case "m":
		kind = quantity.Thickness
	case "kg/m²":
		kind = quantity.WallMass
	}
	if f.Old != nil && f.New != nil {
		return units.Pair(*f.Old, *f.New, kind)
	}
	text := func(v *float64) string {
		if v == nil {
			return "not known"
		}
		return units.Figure(*v, kind)
	}
	return text(f.Old), text(f.New)
}
