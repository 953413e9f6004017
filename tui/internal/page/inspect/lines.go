package inspect

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// row is a line of the comparison, or a note under them.
type row struct {
	key string
	acceptance.Line
	note bool
}

// seen is what a comparison was made of.
type seen struct {
	report  *rules.Report
	demands *spec.Specification
	record  *recorder.Record
	edition uint64
	sum     string
	units   quantity.System
}

// compare compares anew where anything changed since the last comparison.
func (p *Page) compare() {
	demands, _ := p.records.Specification()
	r := p.records.Record()
	now := seen{report: p.records.Report(), demands: demands, record: r, sum: p.records.Sum(), units: p.Desk.Units()}
	if r != nil {
		now.edition = r.Edition()
	}
	if now == p.seen && p.result != nil {
		return
	}
	others := now.demands != p.seen.demands || now.record != p.seen.record
	p.seen = now
	in := acceptance.Input{Report: now.report, Library: p.Desk.Doc.Library(), SHA256: now.sum,
		Specification: demands, Levels: p.Desk.Doc.Levels(), Units: now.units}
	if r != nil {
		in.Record, in.SameSerial, in.Part = r.Now(), p.records.SameSerial(), p.records.PartOf(r.Now())
	}
	p.result = recorder.Compare(in, p.records.Fingerprints())
	p.rows = p.rows[:0]
	times := map[string]int{}
	for _, l := range p.result.Lines {
		times[l.Key]++
		p.rows = append(p.rows, row{key: l.Key + "#" + strconv.Itoa(times[l.Key]), Line: l})
	}
	slices.SortStableFunc(p.rows, func(a, b row) int { return int(b.Verdict) - int(a.Verdict) })
	notes := p.result.Notes
	if demands == nil && r == nil {
		notes = nil // the table says how to begin
	}
	for i, n := range notes {
		p.rows = append(p.rows, row{key: "note#" + strconv.Itoa(i), Line: acceptance.Line{Found: n}, note: true})
	}
	p.table.SetRows(slices.Clone(p.rows))
	if others && len(p.rows) > 0 {
		p.table.Select(p.rows[0].key) // what fails is looked at first
	}
}

func verdictWord(v acceptance.Verdict) string {
	switch v {
	case acceptance.Fails:
		return "✗ " + strings.ToUpper(v.String()) // stands out without color too
	case acceptance.Incomplete:
		return "? " + v.String()
	case acceptance.Meets:
	}
	return "✓ " + v.String()
}

func verdictLook(t *draw.Theme, v acceptance.Verdict) draw.Style {
	switch v {
	case acceptance.Fails:
		return t.Break
	case acceptance.Incomplete:
		return t.Incomplete
	case acceptance.Meets:
	}
	return t.Good
}

// answerWord is an answer as a heading has it.
func answerWord(a acceptance.Answer) string { return strings.ToUpper(a.String()) }

func answerLook(t *draw.Theme, a acceptance.Answer) draw.Style {
	switch a {
	case acceptance.Conforms, acceptance.Accept:
		return t.Good
	case acceptance.DoesNotConform, acceptance.Reject:
		return t.Break
	case acceptance.Undetermined, acceptance.NotInspected:
	}
	return t.Incomplete
}

func (p *Page) newTable() *widget.Table[string, row] {
	t := p.Desk.Theme
	tb := widget.NewTable(t, func(r row) string { return r.key },
		widget.Column[row]{Title: "verdict", Width: 13, Cell: func(r row) string {
			if r.note {
				return "· note"
			}
			return verdictWord(r.Verdict)
		}, Look: func(r row) draw.Style {
			if r.note {
				return t.Note
			}
			return verdictLook(t, r.Verdict)
		}},
		widget.Column[row]{Title: "required", Width: 16, Grow: 5, Cell: func(r row) string {
			if r.note {
				return "nothing required"
			}
			return paper.LineOf(&r.Line).Requirement
		}},
		widget.Column[row]{Title: "found", Width: 14, Grow: 4, Cell: func(r row) string { return paper.LineOf(&r.Line).Found }},
		widget.Column[row]{Title: "plies", Width: 7, Drop: 1, Cell: func(r row) string { return paper.LineOf(&r.Line).Plies }},
	)
	tb.Empty = "nothing to compare with yet: 5 chooses a specification, 6 a record"
	return tb
}

func (p *Page) move(e keys.Event) {
	p.table.Handle(e)
	r, ok := p.table.Selected()
	if !ok {
		p.Desk.Refuse("no line: 5 chooses a specification, 6 a record")
		return
	}
	switch {
	case r.note:
		p.Desk.Say("a note: nothing is required of it")
	case len(r.Plies) == 0:
		p.Desk.Say(verdictWord(r.Verdict) + ": about no ply in particular")
	default:
		p.Desk.Note(verdictWord(r.Verdict)+": "+page.Count(len(r.Plies), "ply")+", "+paper.Numbers(r.Plies), "g shows them")
	}
}

func (p *Page) havePlies() string {
	r, ok := p.table.Selected()
	switch {
	case !ok:
		return "no line: 5 chooses a specification, 6 a record"
	case len(r.Plies) == 0:
		return "this line is about no ply in particular"
	case p.records.OnBench() != "":
		return p.records.OnBench()
	case p.records.RowOf(r.Plies[0]) < 0:
		return "the schedule has no ply " + strconv.Itoa(r.Plies[0])
	}
	return ""
}

// jump goes to the first of the line's plies, on the bench.
func (p *Page) jump() {
	r, _ := p.table.Selected()
	p.Desk.Say("plies " + paper.Numbers(r.Plies) + ": " + r.Demand + ", found " + r.Found)
	p.Desk.Visit(p.Name(), p.records.RowOf(r.Plies[0]))
}

func (p *Page) haveLine() string {
	if _, ok := p.table.Selected(); !ok {
		return "no line: 5 chooses a specification, 6 a record"
	}
	return ""
}

// whole is the line pointed at to its end.
func (p *Page) whole() page.Overlay {
	r, _ := p.table.Selected()
	head := verdictWord(r.Verdict)
	if r.note {
		head = "note"
	}
	return &page.Text{Head: head, Body: func(w int) []string { return p.line(&r, w) }}
}

// next says what comes after a line that is not met, "" where nothing in particular.
func next(r *row) string {
	switch {
	case r.note, r.Verdict == acceptance.Meets:
	case r.Verdict == acceptance.Fails && acceptance.Concedable(&r.Line):
		return "8 says what becomes of it: repair or retest of the entry, use-as-is by the purchaser's concession, scrap"
	case r.Verdict == acceptance.Fails:
		return "8 says what becomes of an entry, 4 strikes one that was entered by mistake"
	case r.Key == "record.serial" && strings.HasPrefix(r.Found, "the record has no"):
		return "1 records the number as marked on the piece"
	case r.Key == "inspection.hold":
		return "1 records that the point is passed, with who witnesses"
	}
	return ""
}

func (p *Page) haveProblem() string {
	if slices.ContainsFunc(p.rows, func(r row) bool { return !r.note && r.Verdict != acceptance.Meets }) {
		return ""
	}
	// That nothing fails is said of nothing but what was compared.
	specified, _ := p.records.Specification()
	opens := "6 chooses one"
	if len(p.lying) > 0 {
		opens = "6 opens the one that lies here"
	}
	switch {
	case specified == nil && p.records.Record() == nil:
		return "nothing to compare with yet: 5 chooses a specification; of the record " + opens
	case specified == nil:
		return "no line fails, but no specification requires anything yet: 5 chooses one"
	case p.records.Record() == nil:
		return "no line of the schedule fails, but no record is open: " + opens
	}
	return "no line fails, and all can be determined"
}

// nextProblem goes to the next line that is not met, round and round.
func (p *Page) nextProblem() {
	n := len(p.rows)
	at := max(-1, p.table.Index())
	for i := 1; i <= n; i++ {
		r := &p.rows[(at+i)%n]
		if !r.note && r.Verdict != acceptance.Meets {
			p.table.Select(r.key)
			p.Desk.Say(verdictWord(r.Verdict) + ": " + r.Demand)
			return
		}
	}
}

// head draws what the comparison comes to and what is compared.
func (p *Page) head(w int) []string {
	t := p.Desk.Theme
	var n [acceptance.Fails + 1]int
	for _, l := range p.result.Lines {
		n[l.Verdict]++
	}
	var l draw.Line
	word := answerWord(p.result.Part)
	if len(p.lying) > 0 {
		word = "RECORD NOT OPEN" // whether it was inspected stands there
	}
	l.Gap(1).Add(answerLook(t, p.result.Part).Render(word)).Gap(2)
	if specified, _ := p.records.Specification(); specified == nil {
		l.Add(t.Incomplete.Render("no specification chosen")).Gap(2)
	} else if p.result.Part == acceptance.NotInspected {
		l.Add(answerLook(t, p.result.Schedule).Render("schedule " + p.result.Schedule.String())).Gap(2)
	}
	var counts []string
	for v, word := range [...]string{acceptance.Fails: "fail", acceptance.Incomplete: "incomplete", acceptance.Meets: "met"} {
		if n[v] > 0 {
			counts = append(counts, strconv.Itoa(n[v])+" "+word)
		}
	}
	slices.Reverse(counts) // what fails first
	if len(counts) > 0 {
		l.Add(strings.Join(counts, " · ")).Gap(2)
	}
	l.Add(t.Dim.Render("rules: " + tally(p.records.Report())))
	about := " " + p.records.SpecificationLine() + " │ " + p.records.RecordLine()
	if len(p.lying) > 0 {
		about = " lies here: " + p.found() + ": 6 Enter opens it │ " + p.records.SpecificationLine()
	}
	if o := p.records.Overlay(); o != nil {
		about = " " + draw.Clean(o.Name()) + " │" + about
	}
	second := draw.Cut(about, w)
	if why := p.records.Foreign(); why != "" {
		second = " " + t.Break.Render(draw.Cut("✗ "+why, w-2))
	}
	return []string{l.Fit(w), second}
}

// found says of the record that lies here, the first that 6 opens of several, how far
// it is and whose.
func (p *Page) found() string {
	b := &p.lying[0]
	s := cmp.Or(b.Over, "not finished")
	if serial := b.Record.SerialNumber(); serial != "" {
		s += ", serial " + draw.Clean(serial)
	}
	if n := len(p.lying) - 1; n > 0 {
		s += fmt.Sprintf(" (and %d more)", n)
	}
	return s
}

func tally(r *rules.Report) string {
	var parts []string
	n := page.Tally(r)
	for s := rules.Unusable; s >= rules.Warning; s-- {
		if n[s] > 0 {
			parts = append(parts, page.Count(n[s], s.String()))
		}
	}
	if len(parts) == 0 {
		return "none broken"
	}
	return strings.Join(parts, ", ")
}
