package app

import (
	"strings"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Prompt is a question answered by a line of text.
type prompt struct {
	Title string
	Text  string
	Label string
	Desk  *page.Desk
	// Do takes the text, or says why it cannot: the prompt then stays.
	Do func(string) error

	line widget.Input
	body draw.Rect
	left bool
}

const promptScope keys.Scope = "prompt"

// Set puts a text on the line. What is typed goes before its ending, so that a
// name that is typed on does not get two.
func (p *prompt) Set(s, ending string) {
	p.line.Set(s)
	for range strings.TrimPrefix(s, strings.TrimSuffix(s, ending)) {
		p.line.Handle(keys.Key(keys.Left))
	}
}

// Name is the prompt's title.
func (p *prompt) Name() string { return p.Title }

// SetSize tells the size of the screen.
func (p *prompt) SetSize(w, h int) { p.body = draw.PageFrame(draw.Size{W: w, H: h}).Body }

// Reset does nothing.
func (*prompt) Reset() {}

// PromptActs are the keys of every prompt.
func promptActs() page.Acts[*prompt] {
	row := func(id keys.ID, k []string, short, long string, rank int, do func(*prompt, keys.Event)) page.Act[*prompt] {
		return page.Act[*prompt]{Binding: keys.Binding{ID: id, Scope: promptScope, Keys: k, Short: short, Long: long, Group: "At a prompt", Rank: rank}, Do: do}
	}
	return page.Acts[*prompt]{
		row("take the text", []string{keys.Enter}, "take it", "take what is typed", 1, func(p *prompt, _ keys.Event) {
			if err := p.Do(p.line.Text()); err != nil {
				p.Desk.Refuse(err.Error())
				return
			}
			p.left = true
		}),
		row("leave", []string{keys.Esc}, "leave", "leave everything as it is", 0, func(p *prompt, _ keys.Event) { p.left = true }),
	}
}

// Bindings are the keys of prompts.
func (*prompt) Bindings() []keys.Binding { return promptActs().Bindings() }

// Scope is where the keys act.
func (*prompt) Scope() keys.Scope { return promptScope }

// Can tells why a binding cannot act.
func (*prompt) Can(keys.ID) string { return "" }

// Press handles a key or a paste.
func (p *prompt) Press(e keys.Event) page.Wish {
	found, _ := promptActs().Press(p, promptScope, e)
	if !found && !p.line.Handle(e) {
		p.Desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter takes the text, Esc leaves")
	}
	if p.left {
		return page.Back
	}
	return page.Done
}

// Lines draws the prompt.
func (p *prompt) Lines() []string {
	t, w := p.Desk.Theme, p.body.W
	out := []string{""}
	for _, l := range draw.Wrap(draw.CleanText(p.Text), max(20, min(w-6, 76))) {
		out = append(out, "   "+l)
	}
	label := "   " + p.Label + " "
	return append(out, "", t.Label.Render(label)+p.line.View(t, max(4, w-draw.Width(label)-3)))
}

// Busy tells that keys of everywhere rest.
func (*prompt) Busy() bool { return true }

// Typing tells that text is typed.
func (*prompt) Typing() bool { return true }
