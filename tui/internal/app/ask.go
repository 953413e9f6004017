package app

import (
	"strconv"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// Answer is one of the answers.
type answer struct {
	Text string
	Why  string // why it cannot be given, "" when it can
	Do   func()
}

// Question is the page. Its exported fields are set before it is shown.
type question struct {
	Title   string
	Text    string
	Answers []answer
	At      int // the answer Enter gives
	Desk    *page.Desk
	// Tabs makes Tab go to the next answer.
	Tabs bool

	body draw.Rect
	left bool // an answer was given or the question left
}

const questionScope keys.Scope = "question"

// Name is the question's title.
func (q *question) Name() string { return q.Title }

// SetSize tells the size of the screen.
func (q *question) SetSize(w, h int) { q.body = draw.PageFrame(draw.Size{W: w, H: h}).Body }

// Reset does nothing: a question keeps nothing.
func (*question) Reset() {}

// Acts are the keys of every question.
func questionActs() page.Acts[*question] {
	row := func(id keys.ID, k []string, show, short, long string, rank int, do func(*question, keys.Event)) page.Act[*question] {
		return page.Act[*question]{Binding: keys.Binding{ID: id, Scope: questionScope, Keys: k, Show: show, Short: short, Long: long, Group: "At a question", Rank: rank}, Do: do}
	}
	return page.Acts[*question]{
		row("answer", []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"}, "1-9", "answer", "give the numbered answer", 1, func(q *question, e keys.Event) {
			d, _ := e.Digit()
			q.give(d - 1)
		}),
		row("answer pointed at", []string{keys.Enter}, "", "take it", "give the answer pointed at", 2, func(q *question, _ keys.Event) { q.give(q.At) }),
		row("answer before", []string{keys.Up, keys.Down, "k", "j"}, "↑↓", "choose", "point at another answer", 3, func(q *question, e keys.Event) {
			by := 1
			if e.Key == keys.Up || e.Key == "k" {
				by = -1
			}
			q.At = max(0, min(len(q.Answers)-1, q.At+by))
		}),
		row("leave", []string{keys.Esc}, "", "leave", "leave everything as it is", 0, func(q *question, _ keys.Event) { q.left = true }),
	}
}

func (q *question) give(i int) {
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
func (*question) Bindings() []keys.Binding { return questionActs().Bindings() }

// Scope is where the keys act.
func (*question) Scope() keys.Scope { return questionScope }

// Can tells why a binding cannot act.
func (*question) Can(keys.ID) string { return "" }

// Press handles a key. Once answered or left it asks to be closed.
func (q *question) Press(e keys.Event) page.Wish {
	if q.Tabs && e.Key == keys.Tab {
		q.At = (q.At + 1) % len(q.Answers)
		return page.Done
	}
	found, _ := questionActs().Press(q, questionScope, e)
	switch {
	case q.left:
		return page.Back
	case !found:
		return page.Leave
	}
	return page.Done
}

// Lines draws the question.
func (q *question) Lines() []string {
	t := q.Desk.Theme
	w := q.body.W
	out := []string{""}
	for _, l := range draw.Wrap(draw.CleanText(q.Text), max(20, min(w-6, 76))) {
		out = append(out, "   "+l)
	}
	out = append(out, "")
	for i, a := range q.Answers {
		line := strconv.Itoa(i+1) + "  " + a.Text
		if a.Why != "" {
			line += "  (" + a.Why + ")"
		}
		if i == q.At {
			out = append(out, " "+draw.Pointer+" "+t.Selected.Render(draw.Cut(" "+line+" ", w-4)))
		} else {
			out = append(out, "    "+draw.Cut(line, w-5))
		}
	}
	return out
}

// Busy tells that keys of everywhere rest.
func (*question) Busy() bool { return true }

// Typing tells that no text is typed.
func (*question) Typing() bool { return false }
