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

// asking answers questions about a wall or an ignition test by figures and
// words.
type asking struct {
	*attempt
	at int
}

func (s *asking) rows(p *Practice) keys.Table {
	const g = "Answering questions"
	questions := s.exercise().Questions
	return append(keys.Table{
		{Keys: keys.Digits(9), Show: "1-9", Short: "answer", Long: "answer the numbered question", Group: g, Rank: 1, Do: digit(func(d int) {
			if d > len(questions) {
				p.Desk.Refuse("there is no question of that number")
				return
			}
			s.begin(p, d-1)
		})},
		{Keys: []string{keys.Enter}, Long: "answer the selected question", Group: g, Rank: 9, Do: keys.Do(func() { s.begin(p, s.at) })},
		points(&s.at, len(questions), g, "question", "choose another question"),
	}, p.workRows(g)...)
}

// begin opens the questions to be answered, from one of them on. What is typed
// is the answer at once, so that nothing of it can be lost; leaving puts back
// what was answered before.
func (s *asking) begin(p *Practice, at int) {
	s.at = at
	var fields []*page.Field
	for i, q := range s.exercise().Questions {
		f := &page.Field{Label: strconv.Itoa(i + 1), Choices: q.Ask.Words(), Digits: true, Text: s.session.Answer().Values[i]}
		switch q.Ask.Answer() {
		case exercise.Thickness:
			f.Hint = p.Desk.Units().Thin().Symbol() + ", or any unit"
		case exercise.Content:
			f.Hint = "% by mass"
		case exercise.Word:
		}
		fields = append(fields, f)
	}
	before := s.session
	form := &page.Form{Head: "questions", Full: true, Fields: fields, At: at}
	form.Check = func(i int) error {
		if fields[i].Text == "" {
			return nil
		}
		_, _, err := practice.ReadValue(s.exercise().Questions[i], fields[i].Text, p.Desk.Units())
		return err
	}
	form.Changed = func() {
		for i, f := range fields {
			s.session = s.session.Tell(i, f.Text)
		}
	}
	form.Take = func() error {
		form.Changed()
		if n, all := s.session.Unanswered(), len(s.exercise().Questions); n > 0 {
			p.Desk.Say(strconv.Itoa(all-n) + " of " + page.Count(all, "question") + " answered")
			return nil
		}
		p.Desk.Note("answered", "c checks it")
		return nil
	}
	form.Leave = func() { s.session = before }
	form.Below = func(w, h int) []string { return s.about(p, w, h, form.At) }
	p.open(form)
}

// question is a question and how near its answer has to be.
func (s *asking) question(i int) string {
	q := s.exercise().Questions[i]
	text := strconv.Itoa(i+1) + "  " + q.Ask.Text() + "?"
	switch within := q.Within(); {
	case within <= 0:
	case q.Ask.Answer() == exercise.Content:
		text += " (to " + quantity.Number(100*within, 1) + " points of percent)"
	default:
		text += " (to " + quantity.Percent(within) + ")"
	}
	return text
}

// about is what an open question asks, and what it is about.
func (s *asking) about(p *Practice, w, h, at int) []string {
	t := p.Desk.Theme
	out := []string{widget.Rule(t, w, widget.Piece{Text: s.question(at), Look: t.Strong})}
	return append(out, s.given(p, w, h-1)...)
}

func (s *asking) lines(p *Practice, w, h int) []string {
	t := p.Desk.Theme
	out := s.head(p, w, h-min(2*len(s.exercise().Questions)+6, h-5))
	left := h - len(out)
	e := s.exercise()
	var asked []string
	for i := range e.Questions {
		if i == s.at {
			asked = append(asked, t.Selected.Render(draw.Left(draw.Pointer+s.question(i), w)))
		} else {
			asked = append(asked, " "+draw.Cut(s.question(i), max(1, w-1)))
		}
		answer := t.Dim.Render("not answered")
		if text := s.session.Answer().Values[i]; text != "" {
			answer = draw.Cut(draw.Clean(text), max(1, w-5))
		}
		asked = append(asked, "    "+answer)
	}
	focus := 2 * s.at
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
