package practice

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/glossary"
	"frp/veilwright/rules/practice/course"
	"frp/veilwright/rules/practice/maker"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// step is a step of the course: its text, a wall that shows it, its exercises.
type step struct {
	n    int
	list []*exercise.Exercise
	at   int
	top  int // of the text
	last int
}

func (*step) scope() keys.Scope { return scopeStep }

func (p *Practice) openStep(n int) {
	p.home.at = n - 1
	p.now = &step{n: n, list: p.of(n)}
}

// lessonWidth is how wide the lines of a lesson are.
const lessonWidth = 76

// shown is how many exercises are numbered at once.
const shown = 9

func (s *step) first() int { return s.at / shown * shown }

func stepActs() page.Acts[*Practice] {
	const g = "In a step of the course"
	none := can(func(s *step, _ *Practice) string {
		if len(s.list) == 0 {
			return "the step has no exercise"
		}
		return ""
	})
	return page.Acts[*Practice]{
		act(scopeStep, "start", g, digits(), "1-9", "start", "start the numbered exercise", 1, none, in(func(s *step, p *Practice, e keys.Event) {
			d, _ := e.Digit()
			s.start(p, s.first()+d-1)
		})),
		act(scopeStep, "start pointed at", g, []string{keys.Enter}, "", "", "start the exercise pointed at", 20, none, in(func(s *step, p *Practice, _ keys.Event) { s.start(p, s.at) })),
		act(scopeStep, "point", g, arrows(), "↑↓", "", "point at another exercise", 21, none, in(func(s *step, _ *Practice, e keys.Event) {
			if inward(e) {
				s.at = max(0, s.at-1)
			} else {
				s.at = min(len(s.list)-1, s.at+1)
			}
		})),
		act(scopeStep, "read", g, []string{keys.PgUp, keys.PgDown, keys.Space}, "PgUp PgDn", "read on", "read the text on", 2, nil, in(func(s *step, _ *Practice, e keys.Event) {
			if e.Key == keys.PgUp {
				s.top = max(0, s.top-4)
			} else {
				s.top = min(s.last, s.top+4)
			}
		})),
		act(scopeStep, "made up", g, []string{"r"}, "", "made up", "an exercise of this step that is made up anew", 3, nil, in(func(s *step, p *Practice, _ keys.Event) {
			p.named(func() { p.start(maker.Generate(p.o.Seed(), s.n, p.library())) })
		})),
		act(scopeStep, "glossary", g, []string{"g"}, "", "glossary", "the words of the trade", 4, nil, in(func(s *step, p *Practice, _ keys.Event) { p.now = &terms{back: s} })),
		act(scopeStep, "back", g, []string{keys.Esc}, "", "back", "back to the steps", 5, nil, func(p *Practice, _ keys.Event) { p.now = p.home }),
	}
}

func (s *step) start(p *Practice, i int) {
	if i < 0 || i >= len(s.list) {
		p.desk.Refuse("the step has no exercise of that number")
		return
	}
	s.at = i
	p.named(func() { p.start(s.list[i]) })
}

func (s *step) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	lesson := course.At(s.n)
	out := []string{widget.Rule(t, w, widget.Piece{Text: "step " + strconv.Itoa(s.n) + ": " + lesson.Title, Look: t.Title})}
	if wall := lesson.Picture; h >= 16 {
		picture := page.Picture(t, wall, laminate.Analyze(wall, p.library()))
		out = append(out, picture.View(t, w, 2)...)
	}
	rows := min(len(s.list)-s.first(), shown)
	room := max(2, h-len(out)-1-max(1, rows))
	var body []string
	read := draw.CleanText(lesson.Text)
	if w-4 < lessonWidth { // its own lines do not fit
		read = strings.ReplaceAll(flow(read), "\n", "\n\n")
	}
	for _, l := range draw.Wrap(read, max(10, min(w-4, 90))) {
		body = append(body, "  "+l)
	}
	s.last = max(0, len(body)-room)
	s.top = max(0, min(s.top, s.last))
	body = body[s.top:min(len(body), s.top+room)]
	out = append(out, draw.FitLines(body, w, room)...)
	more := "exercises"
	if s.top < s.last {
		more = "exercises · PgDn reads on"
	}
	out = append(out, widget.Rule(t, w, widget.Piece{Text: more, Look: t.Label}))
	if len(s.list) == 0 {
		out = append(out, "   the step has no exercise that could be read")
	}
	for i := s.first(); i < s.first()+rows; i++ {
		e := s.list[i]
		line := strconv.Itoa(i-s.first()+1) + "  " + draw.Left(draw.Clean(e.Title), max(10, min(36, w-40))) + "  " + draw.Left(e.Kind.String(), 9) + p.standing(e)
		if i == s.at {
			out = append(out, t.Selected.Render(draw.Left(" "+draw.Pointer+" "+line, w)))
		} else {
			out = append(out, draw.Left("   "+line, w))
		}
	}
	return out[:min(len(out), h)]
}

// standing is where the person stands with an exercise, in words.
func (p *Practice) standing(e *exercise.Exercise) string {
	s := p.progress.Of(e.ID)
	switch {
	case s.Tries == 0:
		return "○ new"
	case s.Missed():
		return "◐ " + percent(s.Last) + ", to do again"
	case s.Due <= p.o.Today():
		return "● " + percent(s.Last) + ", due again"
	}
	return "● " + percent(s.Last) + ", again " + s.Due.String()
}

// terms is the glossary.
type terms struct {
	back screen
	top  int
	last int
	high int
}

func (*terms) scope() keys.Scope { return scopeTerms }

func termActs() page.Acts[*Practice] {
	const g = "Reading the glossary"
	return page.Acts[*Practice]{
		act(scopeTerms, "read", g, arrows(), "↑↓", "read", "read on", 1, nil, in(func(s *terms, _ *Practice, e keys.Event) {
			if inward(e) {
				s.top--
			} else {
				s.top++
			}
		})),
		act(scopeTerms, "read far", g, []string{keys.PgUp, keys.PgDown, keys.Space}, "PgUp PgDn", "a screenful", "a screenful", 2, nil, in(func(s *terms, _ *Practice, e keys.Event) {
			if e.Key == keys.PgUp {
				s.top -= max(1, s.high-1)
			} else {
				s.top += max(1, s.high-1)
			}
		})),
		act(scopeTerms, "back", g, []string{keys.Esc, keys.Enter}, "Esc", "back", "back to where you were", 3, nil, in(func(s *terms, p *Practice, _ keys.Event) { p.now = s.back })),
	}
}

func (s *terms) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	s.high = h - 1
	var body []string
	for _, x := range glossary.Terms() {
		body = append(body, " "+t.Strong.Render(draw.Cut(draw.Clean(x.Word), max(1, w-2))))
		for _, l := range draw.Wrap(draw.CleanText(x.Meaning), max(10, min(w-5, 90))) {
			body = append(body, "   "+l)
		}
		if x.Source != "" {
			for _, l := range draw.Wrap(draw.CleanText(x.Source), max(10, min(w-5, 90))) {
				body = append(body, "   "+t.Dim.Render(l))
			}
		}
	}
	s.last = max(0, len(body)-s.high)
	s.top = max(0, min(s.top, s.last))
	out := []string{widget.Rule(t, w, widget.Piece{Text: "words of the trade", Look: t.Title})}
	return append(out, body[s.top:min(len(body), s.top+max(0, s.high))]...)
}
