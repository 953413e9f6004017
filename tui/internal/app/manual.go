package app

import (
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Manual is the page. Make it with New.
type manual struct {
	desk *page.Desk
	help *widget.Help
	body draw.Rect
}

const keysScope keys.Scope = "keys"

// New makes the page of the sections a key table gives.
func newManual(d *page.Desk, sections []keys.Section) *manual {
	return &manual{desk: d, help: widget.NewHelp(d.Theme, "keys that act here", sections)}
}

// Name is the page's name.
func (*manual) Name() string { return "keys" }

// SetSize tells the size of the screen.
func (m *manual) SetSize(w, h int) { m.body = draw.PageFrame(draw.Size{W: w, H: h}).Body }

// Reset does nothing.
func (*manual) Reset() {}

// Bindings are the page's keys.
func (*manual) Bindings() []keys.Binding {
	const g = "On this page"
	return []keys.Binding{
		{ID: "read", Scope: keysScope, Keys: []string{keys.Up, keys.Down}, Show: "↑↓", Short: "read", Long: "read on", Group: g, Rank: 1},
		{ID: "read far", Scope: keysScope, Keys: []string{keys.PgUp, keys.PgDown}, Show: "PgUp PgDn", Short: "a screenful", Long: "a screenful", Group: g, Rank: 2},
		{ID: "back", Scope: keysScope, Keys: []string{keys.Esc, keys.Enter}, Show: "Esc", Short: "back", Long: "back to where you were", Group: g},
	}
}

// Scope is where the keys act.
func (*manual) Scope() keys.Scope { return keysScope }

// Can tells why a binding cannot act.
func (*manual) Can(keys.ID) string { return "" }

// Press handles a key: letters search, ? closes the page it opened.
func (m *manual) Press(e keys.Event) page.Wish {
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
func (m *manual) Lines() []string { return m.help.View(m.body.W, m.body.H) }

// Busy tells that keys of everywhere rest.
func (*manual) Busy() bool { return true }

// Typing tells that letters search.
func (*manual) Typing() bool { return true }
