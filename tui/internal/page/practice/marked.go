package practice

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// marked shows what an answer is worth, demand by demand.
type marked struct {
	*attempt
	result practice.Mark
	at     int
	read   int
	unread int
	first  int
}

func (*marked) scope() keys.Scope { return scopeMark }

// firstMiss is the line to begin with.
func firstMiss(m *practice.Mark) int {
	for i := range m.Lines {
		if m.Lines[i].Missed {
			return i
		}
	}
	return 0
}

func markActs() page.Acts[*Practice] {
	const g = "After marking"
	return page.Acts[*Practice]{
		act(scopeMark, "demand", g, arrows(), "↑↓", "why", "another demand, and why it was missed", 1, nil, in(func(m *marked, _ *Practice, e keys.Event) {
			by := 1
			if inward(e) {
				by = -1
			}
			m.at, m.read = max(0, min(len(m.result.Lines)-1, m.at+by)), 0
		})),
		act(scopeMark, "read", g, []string{keys.PgUp, keys.PgDown, keys.Space}, "PgUp PgDn", "read on", "read the reason on", 5, nil, in(func(m *marked, _ *Practice, e keys.Event) {
			if e.Key == keys.PgUp {
				m.read = max(0, m.read-3)
			} else {
				m.read = min(m.unread, m.read+3)
			}
		})),
		act(scopeMark, "beside", g, []string{"v"}, "", "answer beside", "an answer that marks full, beside yours", 2, nil, in(func(m *marked, p *Practice, _ keys.Event) { p.now = &beside{marked: m} })),
		act(scopeMark, "again", g, []string{"t"}, "", "try again", "go on with the answer as it was; hints stay paid", 3, nil, in(func(m *marked, p *Practice, _ keys.Event) {
			m.attempt.replace(m.session().Again())
			p.now = m.resume
			p.desk.Say("go on where you were")
		})),
		act(scopeMark, "next", g, []string{"n", keys.Enter}, "n", "next", "the exercise that is due next", 4, nil, func(p *Practice, _ keys.Event) { p.next() }),
		act(scopeMark, "back", g, []string{keys.Esc}, "", "back", "back to the step", 6, nil, in(func(m *marked, p *Practice, _ keys.Event) { p.now = m.back })),
	}
}

// sign says how a demand was met in a glyph and a word.
func sign(l *practice.Line) (glyph, word string) {
	switch {
	case !l.Missed:
		return "+", "met"
	case l.Of == 0:
		return " ", "also"
	case l.Points > 0:
		return "~", "partly"
	}
	return "!", "missed"
}

func look(t *draw.Theme, l *practice.Line) draw.Style {
	switch {
	case !l.Missed:
		return t.Good
	case l.Points > 0:
		return t.Warning
	}
	return t.Break
}

func (m *marked) lines(p *Practice, w, h int) []string {
	t, r := p.desk.Theme, &m.result
	verdict, style := "mastered", t.Good
	if r.Score < practice.Passed {
		verdict, style = "to do again", t.Warning
	}
	points := func(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }
	head := []widget.Piece{{Text: m.exercise().Title, Look: t.Title}, {Text: " · "}, {Text: percent(r.Score) + ", " + verdict, Look: style}}
	out := []string{widget.Rule(t, w, head...)}
	sum := " " + points(r.Points) + " of " + points(r.Of) + " points"
	if r.HintCost > 0 {
		sum += ", hints " + percent(r.HintCost) + " off"
	}
	out = append(out, draw.Cut(sum, w))
	for _, n := range r.Notes {
		out = append(out, " "+t.Warning.Render(draw.Cut(draw.Clean(n), max(1, w-2))))
	}
	rows := max(1, min(len(r.Lines), (h-len(out)-1)*3/5))
	if m.at >= m.first+rows {
		m.first = m.at - rows + 1
	}
	m.first = max(0, min(m.first, m.at, len(r.Lines)-rows))
	for i := m.first; i < len(r.Lines) && i < m.first+rows; i++ {
		l := &r.Lines[i]
		glyph, word := sign(l)
		score := ""
		if l.Of > 0 {
			score = points(l.Points) + "/" + points(l.Of)
		}
		answer := glyph + " " + draw.Left(word, 6) + " " + draw.Right(score, 5)
		what := draw.Clean(l.Demand + ": " + l.Found)
		if i == m.at {
			out = append(out, t.Selected.Render(draw.Left(draw.Pointer+answer+"  "+what, w)))
			continue
		}
		out = append(out, " "+look(t, l).Render(answer)+"  "+draw.Cut(what, max(1, w-17)))
	}
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "why", Look: t.Title}))
	body := m.reason(p, max(10, min(w-10, 96)))
	room := max(0, h-len(out))
	m.unread = max(0, len(body)-room)
	m.read = max(0, min(m.read, m.unread))
	body = draw.FitLines(body[m.read:min(len(body), m.read+room)], w, room)
	if m.read < m.unread && room > 1 && w > 30 {
		body[room-1] = draw.Ends(draw.Clip(body[room-1], w-11), t.Dim.Render("… PgDn "), w)
	}
	return append(out, body...)
}

// reason is the whole text of the demand pointed at.
func (m *marked) reason(p *Practice, w int) []string {
	if m.at >= len(m.result.Lines) {
		return nil
	}
	t, l := p.desk.Theme, &m.result.Lines[m.at]
	var out []string
	part := func(label, s string) {
		for i, line := range draw.Wrap(draw.CleanText(s), w) {
			if i > 0 {
				label = ""
			}
			out = append(out, " "+t.Label.Render(draw.Left(label, 7))+" "+line)
		}
	}
	part("asked", l.Demand)
	part("found", l.Found)
	part("why", l.Why)
	part("basis", l.Basis)
	return out
}

// beside shows the answer that marks full next to the trainee's.
type beside struct {
	*marked
	top, last int
}

func (*beside) scope() keys.Scope { return scopeBeside }

func besideActs() page.Acts[*Practice] {
	const g = "Answers beside each other"
	return page.Acts[*Practice]{
		act(scopeBeside, "read", g, append(arrows(), keys.PgUp, keys.PgDown), "↑↓", "read", "read on", 1, nil, in(func(s *beside, _ *Practice, e keys.Event) {
			if inward(e) || e.Key == keys.PgUp {
				s.top = max(0, s.top-3)
			} else {
				s.top = min(s.last, s.top+3)
			}
		})),
		act(scopeBeside, "back", g, []string{keys.Esc, keys.Enter, "v"}, "Esc", "back", "back to the marks", 2, nil, in(func(s *beside, p *Practice, _ keys.Event) { p.now = s.marked })),
	}
}

func (s *beside) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	out := []string{widget.Rule(t, w, widget.Piece{Text: s.exercise().Title, Look: t.Title}, widget.Piece{Text: " · yours and an answer that marks full", Look: t.Dim})}
	var left, right []string
	half := (w - 1) / 2
	mine, full := s.session().Answer(), s.result.Solution
	switch e := s.exercise(); {
	case e.Kind.Asks():
		body := s.figures(p, mine, full, w)
		s.last = max(0, len(body)-(h-1))
		s.top = min(s.top, s.last)
		return append(out, body[s.top:min(len(body), s.top+max(0, h-1))]...)
	case e.Kind == exercise.Choose:
		left = []string{" " + t.Label.Render("yours"), " veil  " + mine.Veil, " resin " + mine.Family.String()}
		right = []string{" " + t.Label.Render("marks full"), " veil  " + full.Veil, " resin " + full.Family.String()}
	default:
		left = s.side(p, "yours", mine, half)
		right = s.side(p, "marks full", full, w-half-1)
	}
	n := max(0, h-1)
	s.last = max(0, max(len(left), len(right))-n)
	s.top = min(s.top, s.last)
	cut := func(list []string) []string { return list[min(s.top, len(list)):] }
	return append(out, draw.Beside(n, "", draw.Block{W: half, Lines: cut(left)}, draw.Block{W: 1, Lines: widget.Edge(t, n)}, draw.Block{W: w - half - 1, Lines: cut(right)})...)
}

// side draws one schedule.
func (s *beside) side(p *Practice, name string, a practice.Answer, w int) []string {
	t := p.desk.Theme
	out := []string{" " + t.Label.Render(name)}
	if s.exercise().Kind == exercise.Fix {
		out = append(out, " at fault: "+faultText(a.Faults))
	}
	if a.Schedule == nil {
		return append(out, " none was found")
	}
	an := laminate.Analyze(a.Schedule, p.library())
	x := plyTable{s: a.Schedule, a: an, row: -2, figures: true, resins: true}
	rows := len(a.Schedule.Plies)
	for i := range a.Schedule.Plies {
		if a.Schedule.Plies[i].GelAfter {
			rows++
		}
	}
	out = append(out, x.lines(p, w, max(1, rows))...)
	out = append(out, " barrier "+sumText(an.Barrier, p.desk.Units()), " structure "+sumText(an.Zones[laminate.StructuralLayer], p.desk.Units()))
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
func (s *beside) figures(p *Practice, mine, full practice.Answer, w int) []string {
	t, e := p.desk.Theme, s.exercise()
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
		if truth, err := practice.TruthOf(e, i, p.library(), p.desk.Units()); err == nil {
			for _, l := range draw.Wrap(draw.CleanText(truth.Why+" ("+truth.Basis+")"), max(10, min(w-6, 92))) {
				out = append(out, "   "+t.Dim.Render(l))
			}
		}
	}
	return out
}
