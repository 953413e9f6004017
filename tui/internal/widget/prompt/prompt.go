// Package prompt asks one question in one line and takes typed text for an
// answer: a file name, a count, an author.
package prompt

import (
	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/theme"
	"frp/veilwright/tui/internal/widget"
	"frp/veilwright/tui/internal/widget/input"
)

// Prompt is the question. Make it with New.
type Prompt struct {
	// Hint stands under the question until something is wrong: what may be
	// typed, the unit that a bare number gets.
	Hint string
	// Check tells what is wrong with an answer, "" if it can be taken. It is
	// asked on Enter; nil takes anything.
	Check func(answer string) (wrong string)

	th      *theme.Theme
	title   string
	offered string
	line    input.Line
	said    string // under the line, instead of the hint
	warned  bool   // Esc was pressed once with something typed
}

// New asks a question with an answer offered: Enter takes it, typing goes on
// behind it.
func New(th *theme.Theme, question, offered string) *Prompt {
	p := &Prompt{th: th, title: question, offered: offered}
	p.line.Set(offered)
	return p
}

// Answer returns what is typed.
func (p *Prompt) Answer() string { return p.line.Text() }

// Reason says why Enter was refused.
func (p *Prompt) Reason() string { return p.said }

// Refuse says what turned out to be wrong with an answer that had been taken.
func (p *Prompt) Refuse(why string) { p.said = why }

// Handle takes a key. Esc leaves, but never drops something typed without
// having said so: it takes a second one.
func (p *Prompt) Handle(e keyin.Event) widget.Result {
	warned := p.warned
	p.said, p.warned = "", false
	switch e.Key {
	case keyin.Enter:
		if p.Check != nil {
			if p.said = p.Check(p.line.Text()); p.said != "" {
				return widget.Refused
			}
		}
		return widget.Taken
	case keyin.Esc:
		if p.line.Text() == p.offered || p.line.Empty() || warned {
			return widget.Left
		}
		p.said, p.warned = input.Unfinished, true
		return widget.Going
	}
	p.line.Handle(e)
	return widget.Going
}

// View draws the question with its answer, and under it, from two lines up, the
// hint or what is wrong: exactly h lines of w cells.
func (p *Prompt) View(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	title := text.Cut(text.Clean(p.title), w/2)
	var l text.Line
	l.Gap(1).Add(p.th.Title.Render(title)).Gap(1)
	l.Add(p.line.View(p.th, max(1, w-l.Width()-1)))
	lines := []string{l.Fit(w)}
	switch {
	case p.said != "":
		lines = append(lines, " "+p.th.Error.Render(text.Cut(text.Clean(p.said), w-1)))
	case p.Hint != "":
		lines = append(lines, " "+p.th.Dim.Render(text.Cut(text.Clean(p.Hint), w-1)))
	}
	return text.FitLines(lines, w, h)
}
