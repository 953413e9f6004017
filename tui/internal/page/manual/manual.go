// Package manual is the page of all keys that act on the page it was opened
// from, printed from the key table that runs.
package manual

import (
	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/layout"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/text"
)

// Manual is the page. Its exported fields are set before it is shown.
type Manual struct {
	Sections []keys.Section
	Desk     *page.Desk

	body      layout.Rect
	top, last int
	left      bool
}

const scope keys.Scope = "keys"

// Name is the page's name.
func (*Manual) Name() string { return "keys" }

// SetSize tells the size of the screen.
func (m *Manual) SetSize(w, h int) { m.body = layout.PageFrame(layout.Size{W: w, H: h}).Body }

// Reset does nothing.
func (*Manual) Reset() {}

// Acts are its keys.
func Acts() page.Acts[*Manual] {
	row := func(id keys.ID, k []string, show, short, long string, rank int, do func(*Manual, keyin.Event)) page.Act[*Manual] {
		return page.Act[*Manual]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: "On this page", Rank: rank}, Do: do}
	}
	return page.Acts[*Manual]{
		row("read", []string{keyin.Up, keyin.Down, "k", "j"}, "↑↓", "read", "read on", 1, func(m *Manual, e keyin.Event) {
			if e.Key == keyin.Up || e.Key == "k" {
				m.top--
			} else {
				m.top++
			}
		}),
		row("read far", []string{keyin.PgUp, keyin.PgDown, keyin.Space}, "PgUp PgDn", "a screenful", "a screenful", 2, func(m *Manual, e keyin.Event) {
			if e.Key == keyin.PgUp {
				m.top -= m.body.H - 1
			} else {
				m.top += m.body.H - 1
			}
		}),
		row("back", []string{keyin.Esc, keyin.Enter}, "Esc", "back", "back to where you were", 0, func(m *Manual, _ keyin.Event) { m.left = true }),
	}
}

// Bindings are the page's keys.
func (*Manual) Bindings() []keys.Binding { return Acts().Bindings() }

// Scope is where the keys act.
func (*Manual) Scope() keys.Scope { return scope }

// Can tells why a binding cannot act.
func (*Manual) Can(keys.ID) string { return "" }

// Press handles a key; ? closes the page it opened.
func (m *Manual) Press(e keyin.Event) page.Wish {
	found, _ := Acts().Press(m, scope, e)
	switch {
	case m.left || e.Key == "?":
		return page.Back
	case !found:
		m.Desk.Refuse("Esc goes back to where you were")
	}
	return page.Done
}

// Lines draws the sections.
func (m *Manual) Lines() []string {
	t, w := m.Desk.Theme, m.body.W
	var out []string
	for _, s := range m.Sections {
		out = append(out, " "+t.Title.Render(text.Cut(s.Title, w-1)))
		wide := 10
		for _, e := range s.Entries {
			wide = max(wide, min(24, text.Width(e.Keys)))
		}
		for _, e := range s.Entries {
			line := "   " + t.Key.Render(text.Left(e.Keys, wide)) + "  "
			out = append(out, line+text.Cut(e.What, w-wide-6))
			if e.Why != "" {
				out = append(out, text.Spaces(wide+5)+t.Dim.Render(text.Cut("not now: "+e.Why, w-wide-6)))
			}
		}
		out = append(out, "")
	}
	m.last = max(0, len(out)-m.body.H)
	m.top = max(0, min(m.top, m.last))
	return out[m.top:min(len(out), m.top+m.body.H)]
}

// Busy tells that keys of everywhere rest.
func (*Manual) Busy() bool { return true }

// Typing tells that no text is typed.
func (*Manual) Typing() bool { return false }
