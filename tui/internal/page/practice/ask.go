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

// asking answers questions about a wall or a ignition test by figures and words.
type asking struct {
	*attempt
	fields []page.Field
	at     int
	open   bool
}

func newAsking(p *Practice, a *attempt) *asking {
	s := &asking{attempt: a}
	for i, q := range a.exercise().Questions {
		f := page.Field{Choices: q.Ask.Words(), Text: a.session.Answer().Values[i]}
		switch q.Ask.Answer() {
		case exercise.Thickness:
			f.Hint = p.desk.Units().Thin().Symbol() + ", or any unit"
		case exercise.Content:
			f.Hint = "% by mass"
		case exercise.Word:
		}
		s.fields = append(s.fields, f)
	}
	return s
}

func (s *asking) scope() keys.Scope {
	if s.open {
		return scopeTell
	}
	return scopeAsk
}

func (s *asking) typing() bool { return s.open }

func (s *asking) begin(p *Practice, i int) {
	if i < 0 || i >= len(s.fields) {
		p.desk.Refuse("there is no question of that number")
		return
	}
	s.at, s.open = i, true
	s.fields[i].Enter()
}

func (s *asking) typed(p *Practice, e keys.Event) {
	f := &s.fields[s.at]
	if !f.Press(e) {
		p.desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter takes the answer, Esc leaves it")
		return
	}
	if _, digit := e.Digit(); digit && len(f.Choices) > 0 && f.Text != "" {
		s.take(p)
	}
}

// take takes what is typed where it can be read, and goes on to the next
// question that is not answered.
func (s *asking) take(p *Practice) {
	f := &s.fields[s.at]
	q := s.exercise().Questions[s.at]
	if f.Text != "" {
		if _, _, err := practice.ReadValue(q, f.Text, p.desk.Units()); err != nil {
			p.desk.Refuse(err.Error())
			return
		}
	}
	s.session = s.session.Tell(s.at, f.Text)
	s.open = false
	p.desk.Say("answered " + strconv.Itoa(s.at+1) + " of " + strconv.Itoa(len(s.fields)))
	for i := range s.fields {
		next := (s.at + 1 + i) % len(s.fields)
		if s.fields[next].Text == "" {
			s.begin(p, next)
			return
		}
	}
	p.desk.Notice.Tail = "c checks it"
}

func askActs() page.Acts[*Practice] {
	const g = "Answering questions"
	list := page.Acts[*Practice]{
		act(scopeAsk, "answer", g, digits(), "1-9", "answer", "answer the numbered question", 1, nil, in(func(s *asking, p *Practice, e keys.Event) {
			d, _ := e.Digit()
			s.begin(p, d-1)
		})),
		act(scopeAsk, "answer pointed at", g, []string{keys.Enter}, "", "", "answer the question pointed at", 20, nil, in(func(s *asking, p *Practice, _ keys.Event) { s.begin(p, s.at) })),
		act(scopeAsk, "question", g, arrows(), "↑↓", "question", "point at another question", 2, nil, in(func(s *asking, _ *Practice, e keys.Event) {
			s.at = moved(s.at, e, len(s.fields))
		})),
	}
	return append(list, workActs(scopeAsk, g)...)
}

func tellActs() page.Acts[*Practice] {
	const g = "Giving an answer"
	return page.Acts[*Practice]{
		act(scopeTell, "take", g, []string{keys.Enter}, "", "take it", "take the answer, go on to the next question", 1, nil, in(func(s *asking, p *Practice, _ keys.Event) { s.take(p) })),
		act(scopeTell, "choose", g, []string{keys.Left, keys.Right}, "1-9 ←→", "choose", "where words are to choose from: take one", 3, nil, in(func(s *asking, p *Practice, e keys.Event) { s.typed(p, e) })),
		act(scopeTell, "leave", g, []string{keys.Esc}, "", "leave it", "leave the question as it was", 2, nil, in(func(s *asking, p *Practice, _ keys.Event) {
			if s.fields[s.at].Changed() {
				p.desk.Say("left the question as it was")
			}
			s.fields[s.at].Revert()
			s.open = false
		})),
	}
}

func (s *asking) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	out, left := s.head(p, w, h, min(2*len(s.fields)+6, h-5))
	e := s.exercise()
	var asked []string
	focus := 0
	for i := range s.fields {
		if i == s.at {
			focus = len(asked)
		}
		q := strconv.Itoa(i+1) + "  " + e.Questions[i].Ask.Text() + "?"
		switch within := e.Questions[i].Within(); {
		case within <= 0:
		case e.Questions[i].Ask.Answer() == exercise.Content:
			q += " (to " + quantity.Number(100*within, 1) + " points of percent)"
		default:
			q += " (to " + quantity.Percent(within) + ")"
		}
		if i == s.at && !s.open {
			asked = append(asked, t.Selected.Render(draw.Left(draw.Pointer+q, w)))
		} else {
			asked = append(asked, " "+draw.Cut(q, max(1, w-1)))
		}
		asked = append(asked, s.fields[i].Lines(t, s.open && i == s.at, 2, w)...)
	}
	room := max(2, min(len(asked), left-5))
	given := max(0, left-room-1)
	out = append(out, s.given(p, w, given)...)
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "questions", Look: t.Label}))
	top := max(0, min(focus+2-room, len(asked)-room))
	out = append(out, asked[top:min(len(asked), top+room)]...)
	return out[:min(len(out), h)]
}

// given draws what the questions are about: the weighings, the plies, without
// the figures that are asked for.
func (s *asking) given(p *Practice, w, h int) []string {
	if h < 1 {
		return nil
	}
	e := s.exercise()
	var out []string
	for i, x := range e.Specimens {
		out = append(out, draw.Cut(" specimen "+strconv.Itoa(i+1)+" of "+x.Group.String()+": "+grams(x.Before)+" before, "+grams(x.After)+" after", w))
	}
	a := laminate.Analyze(&e.Given, s.library)
	out = append(out, plyLines(p, &e.Given, a, w, -1, false, func(int) string { return " " })...)
	return out[:min(len(out), h)]
}

func grams(m quantity.Mass) string { return quantity.Number(1000*m.SI(), 3) + " g" }
