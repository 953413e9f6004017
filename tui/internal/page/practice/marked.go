package practice

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// marked shows what an answer is worth, demand by demand, and all that the
// checker says of it.
type marked struct {
	*attempt
	result practice.Mark
	at     int
	read   int
}

// markRow is a demand or a finding, and why.
type markRow struct {
	head  string // how it was met, the points
	look  draw.Style
	text  string
	parts [][2]string // label and text of the whole of it
}

func newMarked(a *attempt, m practice.Mark) *marked {
	return &marked{attempt: a, result: m, at: firstMiss(&m)}
}

// firstMiss is the line to begin with.
func firstMiss(m *practice.Mark) int {
	for i := range m.Lines {
		if m.Lines[i].Missed {
			return i
		}
	}
	return 0
}

// length is how many demands and findings there are.
func (m *marked) length() int {
	n := len(m.result.Lines)
	if m.result.Report != nil {
		n += len(m.result.Report.Findings)
	}
	return n
}

// row is the demand or the finding of a number.
func (m *marked) row(t *draw.Theme, i int) markRow {
	if i >= len(m.result.Lines) {
		return findingRow(t, m.result.Report, i-len(m.result.Lines))
	}
	l := &m.result.Lines[i]
	r := markRow{look: t.Break, text: l.Text(), parts: [][2]string{{"asked", l.Demand}, {"found", l.Found}, {"why", l.Why}, {"basis", l.Basis}}}
	if l.Right != "" {
		r.parts = [][2]string{{"asked", l.Demand}, {"yours", l.Found}, {"right", l.Right}, {"missed", l.Lacks}, {"wrong", l.Wrong}, {"why", l.Why}, {"basis", l.Basis}}
	}
	glyph, word := "!", "missed"
	switch {
	case !l.Missed:
		r.look, glyph, word = t.Good, "+", "met"
	case l.Of == 0:
		glyph, word = " ", "" // its demand says that it is there too
	case l.Points > 0:
		r.look, glyph, word = t.Warning, "~", "partly"
	}
	score := ""
	if l.Of > 0 {
		score = figure(l.Points) + "/" + figure(l.Of)
	}
	r.head = glyph + " " + draw.Left(word, 6) + " " + draw.Right(score, 5)
	return r
}

// findingRow is what the checker says of the answer, whether it cost points or
// not.
func findingRow(t *draw.Theme, report *rules.Report, i int) markRow {
	f := &report.Findings[i]
	place := ""
	if len(f.Rows) > 0 && f.Rows[0] < len(report.Analysis.Rows) {
		place = page.PlyName(&report.Analysis.Rows[f.Rows[0]])
		if strings.HasPrefix(strings.ReplaceAll(f.Message, "–", "-"), place) { // it begins with it
			place = ""
		} else {
			place += ": "
		}
	}
	r := markRow{
		head: page.SeverityMark(f.Severity) + " " + draw.Left(page.SeverityWord(f.Severity), 12), look: page.SeverityStyle(t, f.Severity),
		text: place + f.Message, parts: [][2]string{{"check", f.Rule.Title}, {"found", place + f.Message}, {"why", f.Rule.Why}, {"basis", f.Basis}},
	}
	if fix := report.Fix(i); fix != nil {
		r.parts = append(r.parts, [2]string{"fix", fix.Text})
	}
	return r
}

func figure(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }

func (m *marked) rows(p *Practice) keys.Table {
	const g = "After marking"
	why := points(&m.at, m.length(), g, "why", "another requirement or finding, and why")
	point := why.Do
	why.Rank, why.Do = 1, func(e keys.Event) {
		point(e)
		m.read = 0
	}
	return keys.Table{
		why,
		{Keys: []string{keys.PgUp, keys.PgDown, keys.Space}, Show: "PgUp PgDn", Short: "read on", Long: "read the reason on", Group: g, Rank: 5, Do: func(e keys.Event) {
			if e.Key == keys.PgUp {
				m.read = max(0, m.read-3)
			} else {
				m.read = min(m.unread(p), m.read+3)
			}
		}},
		{Keys: []string{"v"}, Short: "answer beside", Long: "an answer that marks full, beside yours", Group: g, Rank: 2, Do: keys.Do(func() { m.beside(p) })},
		{Keys: []string{"t"}, Short: "try again", Long: "go on with the answer as it was; hints stay paid", Group: g, Rank: 3, Do: keys.Do(func() {
			m.session = m.session.Again()
			p.now = p.work
			p.SetSize(p.w, p.h)
			p.here().Say("go on where you were")
		})},
		{Keys: []string{"n", keys.Enter}, Show: "n", Short: "next", Long: "the next exercise of this step; after the last the steps, where what is due stands", Group: g, Rank: 4, Do: keys.Do(func() { p.onward(m.exercise()) })},
		{Keys: []string{keys.Esc}, Short: "back", Long: "back to the step", Group: g, Rank: 6, Do: keys.Do(func() {
			p.end()
			p.now = m.back
			p.look()
		})},
	}
}

// split divides the lines of the page: the heading, the rows, the reason.
func (m *marked) split(h int) (head, rows, reason int) {
	head = 2 + len(m.result.Notes)
	rows = max(1, min(m.length(), (h-head-1)*3/5))
	return head, rows, max(1, h-head-rows-1)
}

// unread is how many lines of the reason are out of sight.
func (m *marked) unread(p *Practice) int {
	_, _, room := m.split(p.Frame.Body.H)
	return max(0, len(m.reason(p.Desk.Theme, p.Frame.Body.W))-room)
}

func (m *marked) lines(p *Practice, w, h int) []string {
	t, r := p.Desk.Theme, &m.result
	verdict, style := "mastered", t.Good
	if r.Score < practice.Passed {
		verdict, style = "to do again", t.Warning
	}
	out := []string{widget.Rule(t, w, widget.Piece{Text: m.exercise().Title, Look: t.Title}, widget.Piece{Text: " · "}, widget.Piece{Text: quantity.Percent(r.Score) + ", " + verdict, Look: style})}
	sum := " " + figure(r.Points) + " of " + figure(r.Of) + " points"
	if r.HintCost > 0 {
		sum += ", hints " + quantity.Percent(r.HintCost) + " off"
	}
	if r.Report != nil {
		sum += "; check finds " + tally(r.Report)
	}
	out = append(out, draw.Cut(sum, w))
	for _, n := range r.Notes {
		out = append(out, " "+t.Warning.Render(draw.Cut(draw.Clean(n), max(1, w-2))))
	}
	_, rows, room := m.split(h)
	var list []string
	for i := range m.length() {
		x := m.row(t, i)
		if i == m.at {
			list = append(list, t.Selected.Render(draw.Left(draw.Pointer+x.head+"  "+draw.Clean(x.text), w)))
			continue
		}
		list = append(list, " "+x.look.Render(x.head)+"  "+draw.Cut(draw.Clean(x.text), max(1, w-17)))
	}
	out = append(out, window(list, m.at, rows)...)
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "why", Look: t.Title}))
	body := m.reason(t, w)
	read := min(m.read, m.unread(p))
	more := read+room < len(body)
	body = draw.FitLines(body[read:min(len(body), read+room)], w, room)
	if more && room > 1 && w > 30 {
		body[room-1] = draw.Ends(draw.Clip(body[room-1], w-11), t.Dim.Render("… PgDn "), w)
	}
	return append(out, body...)
}

// tally is how many findings of each severity there are.
func tally(r *rules.Report) string {
	var parts []string
	n := page.Tally(r)
	for s := rules.Break; s >= rules.Note; s-- {
		if n[s] > 0 {
			parts = append(parts, page.Count(n[s], s.String()))
		}
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return strings.Join(parts, ", ")
}

// reason is the whole text of the row pointed at.
func (m *marked) reason(t *draw.Theme, w int) []string {
	if m.at >= m.length() {
		return nil
	}
	var out []string
	for _, part := range m.row(t, m.at).parts {
		if part[1] == "" {
			continue
		}
		for i, line := range draw.Wrap(draw.CleanText(part[1]), max(10, min(w-10, 110))) {
			if i > 0 {
				part[0] = ""
			}
			out = append(out, " "+t.Label.Render(draw.Left(part[0], 7))+" "+line)
		}
	}
	return out
}

// beside opens the answer that marks full next to the trainee's.
func (m *marked) beside(p *Practice) {
	t, e := p.Desk.Theme, m.exercise()
	mine, full := m.session.Answer(), m.result.Solution
	p.open(&page.Text{Head: "yours and an answer that marks full", Full: true, Body: func(w int) []string {
		if e.Kind.Asks() {
			return m.figures(p, mine, full, w)
		}
		half := (w - 1) / 2
		left, right := m.side(p, "yours", mine, half), m.side(p, "marks full", full, w-half-1)
		n := max(len(left), len(right))
		return draw.Beside(n, "", draw.Block{W: half, Lines: left}, draw.Block{W: 1, Lines: widget.Edge(t, n)}, draw.Block{W: w - half - 1, Lines: right})
	}})
}

// side draws one answer.
func (m *marked) side(p *Practice, name string, a practice.Answer, w int) []string {
	out := []string{" " + p.Desk.Theme.Label.Render(name)}
	switch m.exercise().Kind {
	case exercise.Choose:
		return append(out, " veil  "+a.Veil, " resin "+a.Family.String())
	case exercise.Fix:
		if m.exercise().NamesPlies() {
			out = append(out, " defective: "+faultText(a.Faults))
		}
	default: // the plies say all of it
	}
	if a.Schedule == nil {
		return append(out, " none was found")
	}
	an := laminate.Analyze(a.Schedule, m.library)
	out = append(out, plyLines(p, a.Schedule, an, w, -1, true, func(int) string { return " " })...)
	for _, part := range []struct {
		name string
		sum  laminate.Sum
	}{{"barrier", an.Barrier}, {"structure", an.Zones[laminate.StructuralLayer]}} {
		figures := "none"
		if part.sum.Plies > 0 {
			figures = p.Desk.Units().Thickness(part.sum.Thickness) + ", " + paper.Share(part.sum.GlassMassFraction()) + " glass"
		}
		out = append(out, " "+part.name+" "+figures)
	}
	for i := range a.Schedule.Plies {
		q := &a.Schedule.Plies[i]
		if q.GelAfter {
			out = append(out, draw.Cut(" gel stop after "+page.PlyName(&an.Rows[i]), w))
		}
	}
	seen := map[string]bool{}
	for i := range a.Schedule.Plies {
		r, ok := a.Schedule.Resin(a.Schedule.Plies[i].Resin)
		if !ok || seen[r.ID] {
			continue
		}
		seen[r.ID] = true
		line := " " + r.ID + ": " + r.Family.String()
		if r.Filler != laminate.NoFiller {
			line += ", " + r.Filler.String()
			if r.FillerContent.Given {
				line += " " + quantity.Share(r.FillerContent.Value)
			}
		}
		if r.Cure != laminate.NoCure {
			line += ", " + r.Cure.String()
		}
		out = append(out, draw.Cut(draw.Clean(line), max(1, w)))
	}
	return out
}

// figures are the questions with both answers and how the right one comes about.
func (m *marked) figures(p *Practice, mine, full practice.Answer, w int) []string {
	t, e := p.Desk.Theme, m.exercise()
	var out []string
	value := func(list []string, i int) string {
		if i >= len(list) || list[i] == "" {
			return "not answered"
		}
		return draw.Clean(list[i])
	}
	for i := range e.Questions {
		out = append(out, " "+t.Strong.Render(draw.Cut(e.Questions[i].Ask.Text()+"?", max(1, w-2))))
		out = append(out, draw.Cut("   yours "+value(mine.Values, i)+"   right "+value(full.Values, i), w))
		if truth, err := practice.TruthOf(e, i, m.library, p.Desk.Units()); err == nil {
			for _, l := range draw.Wrap(draw.CleanText(truth.Why+" ("+truth.Basis+")"), max(10, min(w-6, 92))) {
				out = append(out, "   "+t.Dim.Render(l))
			}
		}
	}
	return out
}
