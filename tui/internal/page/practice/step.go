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
}

func (p *Practice) openStep(n int) {
	p.home.at = n - 1
	p.now = &step{n: n, list: p.of(n)}
	p.look()
}

// look looks which exercises were left with an answer that is not marked.
func (p *Practice) look() {
	begun, err := progress.Begun(p.person)
	if err != nil {
		p.Desk.Refuse("answers that were kept: " + err.Error())
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
	return maker.Generate(seed, n, p.Desk.Doc.Library())
}

// lessonWidth is how wide the lines of a lesson are.
const lessonWidth = 76

// shown is how many exercises are numbered at once.
const shown = 9

func (s *step) first() int { return s.at / shown * shown }

func (s *step) rows(p *Practice) keys.Table {
	const g = "In a step of the course"
	none := func() string {
		if len(s.list) == 0 {
			return "the step has no exercise"
		}
		return ""
	}
	return keys.Table{
		{Keys: keys.Digits(shown), Short: "start", Show: "1-9", Long: "start the numbered exercise", Group: g, Rank: 1, Can: none, Do: digit(func(d int) { s.start(p, s.first()+d-1) })},
		{Keys: []string{keys.Enter}, Long: "start the selected exercise", Group: g, Rank: 9, Can: none, Do: keys.Do(func() { s.start(p, s.at) })},
		points(&s.at, len(s.list), g, "", "choose another exercise"),
		{Keys: []string{keys.PgUp, keys.PgDown, keys.Space}, Show: "PgUp PgDn", Short: "read on", Long: "read the text on", Group: g, Rank: 2, Do: func(e keys.Event) {
			if e.Key == keys.PgUp {
				s.top = max(0, s.top-4)
			} else {
				s.top = min(s.last(p), s.top+4)
			}
		}},
		{Keys: []string{"r"}, Short: "made up", Long: "an exercise of this step that is made up anew", Group: g, Rank: 3, Do: keys.Do(func() {
			p.named(func() {
				p.look()
				p.start(p.makeUp(s.n))
			})
		})},
		{Keys: []string{"g"}, Short: "glossary", Long: "the words of the trade", Group: g, Rank: 4, Do: keys.Do(p.glossary)},
		{Keys: []string{keys.Esc}, Short: "back", Long: "back to the steps", Group: g, Rank: 5, Do: keys.Do(func() { p.now = p.home })},
	}
}

func (s *step) start(p *Practice, i int) {
	if i < 0 || i >= len(s.list) {
		p.Desk.Refuse("the step has no exercise of that number")
		return
	}
	s.at = i
	p.named(func() { p.start(s.list[i]) })
}

// plan is how many lines picture, text and exercises take of a page's body.
func (s *step) plan(h int) (picture, text, exercises int) {
	exercises = max(1, min(len(s.list)-s.first(), shown))
	if h >= 16 {
		picture = 2
	}
	return picture, max(2, h-2-picture-exercises), exercises
}

// body is the text of the lesson.
func (s *step) body(w int) []string {
	read := draw.CleanText(course.At(s.n).Text)
	if w-4 < lessonWidth { // its own lines do not fit
		read = strings.ReplaceAll(flow(read), "\n", "\n\n")
	}
	var out []string
	for _, l := range draw.Wrap(read, max(10, min(w-4, 90))) {
		out = append(out, "  "+l)
	}
	return out
}

// last is the first line of the text where it is read to the end.
func (s *step) last(p *Practice) int {
	_, room, _ := s.plan(p.Frame.Body.H)
	return max(0, len(s.body(p.Frame.Body.W))-room)
}

func (s *step) lines(p *Practice, w, h int) []string {
	t := p.Desk.Theme
	lesson := course.At(s.n)
	out := []string{widget.Rule(t, w, widget.Piece{Text: "step " + strconv.Itoa(s.n) + ": " + lesson.Title, Look: t.Title})}
	picture, room, rows := s.plan(h)
	if wall := lesson.Picture; picture > 0 {
		strip := page.Picture(t, wall, laminate.Analyze(wall, p.Desk.Doc.Library()))
		out = append(out, strip.View(t, w, picture)...)
	}
	body, last := s.body(w), s.last(p)
	top := min(s.top, last)
	out = append(out, draw.FitLines(body[top:min(len(body), top+room)], w, room)...)
	more := "exercises"
	if n := len(s.list); n > shown {
		more += " " + strconv.Itoa(s.first()+1) + " to " + strconv.Itoa(min(n, s.first()+shown)) + " of " + strconv.Itoa(n) + ", ↑↓ shows all"
	}
	if top < last {
		more += " · PgDn reads on"
	}
	out = append(out, widget.Rule(t, w, widget.Piece{Text: more, Look: t.Label}))
	if len(s.list) == 0 {
		out = append(out, "   the step has no exercise that could be read")
	}
	for i := s.first(); i < min(len(s.list), s.first()+rows); i++ {
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
	t := p.Desk.Theme
	p.open(&page.Text{Head: "words of the trade", Full: true, Search: func(query string, w int) []string {
		var body []string
		for _, x := range glossary.Terms() {
			if !strings.Contains(strings.ToLower(x.Word+" "+x.Meaning), strings.ToLower(query)) {
				continue
			}
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
		if len(body) == 0 {
			body = []string{" no word has this in it: Esc deletes the letters"}
		}
		return body
	}})
}
