package ask

import (
	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/layout"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/widget/input"
)

// Prompt is a question answered by a line of text.
type Prompt struct {
	Title string
	Text  string
	Label string
	Desk  *page.Desk
	// Do takes the text, or says why it cannot: the prompt then stays.
	Do func(string) error

	line input.Line
	body layout.Rect
	left bool
}

const promptScope keys.Scope = "prompt"

// Set puts a text on the line.
func (p *Prompt) Set(s string) { p.line.Set(s) }

// Name is the prompt's title.
func (p *Prompt) Name() string { return p.Title }

// SetSize tells the size of the screen.
func (p *Prompt) SetSize(w, h int) { p.body = layout.PageFrame(layout.Size{W: w, H: h}).Body }

// Reset does nothing.
func (*Prompt) Reset() {}

// PromptActs are the keys of every prompt.
func PromptActs() page.Acts[*Prompt] {
	row := func(id keys.ID, k []string, short, long string, rank int, do func(*Prompt, keyin.Event)) page.Act[*Prompt] {
		return page.Act[*Prompt]{Binding: keys.Binding{ID: id, Scope: promptScope, Keys: k, Short: short, Long: long, Group: "At a prompt", Rank: rank}, Do: do}
	}
	return page.Acts[*Prompt]{
		row("take the text", []string{keyin.Enter}, "take it", "take what is typed", 1, func(p *Prompt, _ keyin.Event) {
			if err := p.Do(p.line.Text()); err != nil {
				p.Desk.Refuse(err.Error())
				return
			}
			p.left = true
		}),
		row("leave", []string{keyin.Esc}, "leave", "leave everything as it is", 0, func(p *Prompt, _ keyin.Event) { p.left = true }),
	}
}

// Bindings are the keys of prompts.
func (*Prompt) Bindings() []keys.Binding { return PromptActs().Bindings() }

// Scope is where the keys act.
func (*Prompt) Scope() keys.Scope { return promptScope }

// Can tells why a binding cannot act.
func (*Prompt) Can(keys.ID) string { return "" }

// Press handles a key or a paste.
func (p *Prompt) Press(e keyin.Event) page.Wish {
	found, _ := PromptActs().Press(p, promptScope, e)
	if !found && !p.line.Handle(e) {
		p.Desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter takes the text, Esc leaves")
	}
	if p.left {
		return page.Back
	}
	return page.Done
}

// Lines draws the prompt.
func (p *Prompt) Lines() []string {
	t, w := p.Desk.Theme, p.body.W
	out := []string{""}
	for _, l := range text.Wrap(text.CleanText(p.Text), max(20, min(w-6, 76))) {
		out = append(out, "   "+l)
	}
	label := "   " + p.Label + " "
	return append(out, "", t.Label.Render(label)+p.line.View(t, max(4, w-text.Width(label)-3)))
}

// Busy tells that keys of everywhere rest.
func (*Prompt) Busy() bool { return true }

// Typing tells that text is typed.
func (*Prompt) Typing() bool { return true }
