// Package ask is a question with numbered answers: a digit or Enter gives one,
// Esc leaves everything as it is.
package ask

import (
	"strconv"

	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/layout"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/theme"
)

// Answer is one of the answers.
type Answer struct {
	Text string
	Why  string // why it cannot be given, "" when it can
	Do   func()
}

// Question is the page. Its exported fields are set before it is shown.
type Question struct {
	Title   string
	Text    string
	Answers []Answer
	At      int // the answer Enter gives
	Desk    *page.Desk
	// Tabs makes Tab go to the next answer.
	Tabs bool

	body layout.Rect
	left bool // an answer was given or the question left
}

const scope keys.Scope = "question"

// Name is the question's title.
func (q *Question) Name() string { return q.Title }

// SetSize tells the size of the screen.
func (q *Question) SetSize(w, h int) { q.body = layout.PageFrame(layout.Size{W: w, H: h}).Body }

// Reset does nothing: a question keeps nothing.
func (*Question) Reset() {}

// Acts are the keys of every question.
func Acts() page.Acts[*Question] {
	row := func(id keys.ID, k []string, show, short, long string, rank int, do func(*Question, keyin.Event)) page.Act[*Question] {
		return page.Act[*Question]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: "At a question", Rank: rank}, Do: do}
	}
	return page.Acts[*Question]{
		row("answer", []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"}, "1-9", "answer", "give the numbered answer", 1, func(q *Question, e keyin.Event) {
			d, _ := e.Digit()
			q.give(d - 1)
		}),
		row("answer pointed at", []string{keyin.Enter}, "", "take it", "give the answer pointed at", 2, func(q *Question, _ keyin.Event) { q.give(q.At) }),
		row("answer before", []string{keyin.Up, keyin.Down, "k", "j"}, "↑↓", "choose", "point at another answer", 3, func(q *Question, e keyin.Event) {
			by := 1
			if e.Key == keyin.Up || e.Key == "k" {
				by = -1
			}
			q.At = max(0, min(len(q.Answers)-1, q.At+by))
		}),
		row("leave", []string{keyin.Esc}, "", "leave", "leave everything as it is", 0, func(q *Question, _ keyin.Event) { q.left = true }),
	}
}

func (q *Question) give(i int) {
	switch {
	case i < 0 || i >= len(q.Answers):
		q.Desk.Refuse("there is no answer " + strconv.Itoa(i+1) + ": Esc leaves everything as it is")
	case q.Answers[i].Why != "":
		q.Desk.Refuse(q.Answers[i].Why)
	default:
		q.left = true
		q.Answers[i].Do()
	}
}

// Bindings are the keys of questions.
func (*Question) Bindings() []keys.Binding { return Acts().Bindings() }

// Scope is where the keys act.
func (*Question) Scope() keys.Scope { return scope }

// Can tells why a binding cannot act.
func (*Question) Can(keys.ID) string { return "" }

// Press handles a key. Once answered or left it asks to be closed.
func (q *Question) Press(e keyin.Event) page.Wish {
	if q.Tabs && e.Key == keyin.Tab {
		q.At = (q.At + 1) % len(q.Answers)
		return page.Done
	}
	found, _ := Acts().Press(q, scope, e)
	switch {
	case q.left:
		return page.Back
	case !found:
		return page.Leave
	}
	return page.Done
}

// Lines draws the question.
func (q *Question) Lines() []string {
	t := q.Desk.Theme
	w := q.body.W
	out := []string{""}
	for _, l := range text.Wrap(text.CleanText(q.Text), max(20, min(w-6, 76))) {
		out = append(out, "   "+l)
	}
	out = append(out, "")
	for i, a := range q.Answers {
		line := strconv.Itoa(i+1) + "  " + a.Text
		if a.Why != "" {
			line += "  (" + a.Why + ")"
		}
		if i == q.At {
			out = append(out, " "+theme.Pointer+" "+t.Selected.Render(text.Cut(" "+line+" ", w-4)))
		} else {
			out = append(out, "    "+text.Cut(line, w-5))
		}
	}
	return out
}

// Busy tells that keys of everywhere rest.
func (*Question) Busy() bool { return true }

// Typing tells that no text is typed.
func (*Question) Typing() bool { return false }
