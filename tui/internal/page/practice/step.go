package practice

import (
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/glossary"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice/course"
	"frp/veilwright/rules/practice/maker"
	"frp/veilwright/schedules/progress"
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
	p.look()
}

// look looks which exercises were left with an answer that is not marked.
func (p *Practice) look() {
	begun, err := progress.Begun(p.person)
	if err != nil {
		p.desk.Refuse("answers that were kept: " + err.Error())
	}
	p.begun = begun
}

// makeUp gives an exercise of the step that is made up: the one that was begun
// and is not marked, else a new one.
func (p *Practice) makeUp(n int) *exercise.Exercise {
	seed := p.o.Seed()
	for _, id := range p.begun {
		if text, ok := strings.CutPrefix(id, "made-"+strconv.Itoa(n)+"-"); ok {
			if left, err := strconv.ParseUint(text, 10, 64); err == nil {
				seed = left
			}
		}
	}
	return maker.Generate(seed, n, p.desk.Doc.Library())
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
			s.at = moved(s.at, e, len(s.list))
		})),
		act(scopeStep, "read", g, []string{keys.PgUp, keys.PgDown, keys.Space}, "PgUp PgDn", "read on", "read the text on", 2, nil, in(func(s *step, _ *Practice, e keys.Event) {
			if e.Key == keys.PgUp {
				s.top = max(0, s.top-4)
			} else {
				s.top = min(s.last, s.top+4)
			}
		})),
		act(scopeStep, "made up", g, []string{"r"}, "", "made up", "an exercise of this step that is made up anew", 3, nil, in(func(s *step, p *Practice, _ keys.Event) {
			p.named(func() {
				p.look()
				p.start(p.makeUp(s.n))
			})
		})),
		act(scopeStep, "glossary", g, []string{"g"}, "", "glossary", "the words of the trade", 4, nil, func(p *Practice, _ keys.Event) { p.glossary() }),
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
		picture := page.Picture(t, wall, laminate.Analyze(wall, p.desk.Doc.Library()))
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
	case slices.Contains(p.begun, e.ID):
		return "◌ begun, not marked"
	case s.Tries == 0:
		return "○ new"
	case s.Missed():
		return "◐ " + quantity.Percent(s.Last) + ", to do again"
	case s.Due <= p.o.Today():
		return "● " + quantity.Percent(s.Last) + ", due again"
	}
	return "● " + quantity.Percent(s.Last) + ", again " + s.Due.String()
}

// glossary opens the words of the trade.
func (p *Practice) glossary() {
	t := p.desk.Theme
	p.read([]widget.Piece{{Text: "words of the trade", Look: t.Title}}, func(w int) []string {
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
		return body
	})
}
