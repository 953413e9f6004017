// Package manual is the page of all keys that act on the page it was opened
// from, printed from the key table that runs. A few letters search it.
package manual

import (
	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/layout"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
	"frp/veilwright/tui/internal/widget/help"
)

// Manual is the page. Make it with New.
type Manual struct {
	desk *page.Desk
	help *help.Help
	body layout.Rect
}

const scope keys.Scope = "keys"

// New makes the page of the sections a key table gives.
func New(d *page.Desk, sections []keys.Section) *Manual {
	return &Manual{desk: d, help: help.New(d.Theme, "keys that act here", sections)}
}

// Name is the page's name.
func (*Manual) Name() string { return "keys" }

// SetSize tells the size of the screen.
func (m *Manual) SetSize(w, h int) { m.body = layout.PageFrame(layout.Size{W: w, H: h}).Body }

// Reset does nothing.
func (*Manual) Reset() {}

// Bindings are the page's keys.
func (*Manual) Bindings() []keys.Binding {
	const g = "On this page"
	return []keys.Binding{
		{ID: "read", Scope: scope, Keys: []string{keyin.Up, keyin.Down}, Show: "↑↓", Short: "read", Long: "read on", Group: g, Rank: 1},
		{ID: "read far", Scope: scope, Keys: []string{keyin.PgUp, keyin.PgDown}, Show: "PgUp PgDn", Short: "a screenful", Long: "a screenful", Group: g, Rank: 2},
		{ID: "back", Scope: scope, Keys: []string{keyin.Esc, keyin.Enter}, Show: "Esc", Short: "back", Long: "back to where you were", Group: g},
	}
}

// Scope is where the keys act.
func (*Manual) Scope() keys.Scope { return scope }

// Can tells why a binding cannot act.
func (*Manual) Can(keys.ID) string { return "" }

// Press handles a key: letters search, ? closes the page it opened.
func (m *Manual) Press(e keyin.Event) page.Wish {
	switch m.help.Handle(e) {
	case widget.Left, widget.Taken:
		return page.Back
	case widget.Refused:
		m.desk.Refuse("letters search, Esc goes back to where you were")
	default: // it goes on
	}
	return page.Done
}

// Lines draws the sections.
func (m *Manual) Lines() []string { return m.help.View(m.body.W, m.body.H) }

// Busy tells that keys of everywhere rest.
func (*Manual) Busy() bool { return true }

// Typing tells that letters search.
func (*Manual) Typing() bool { return true }
