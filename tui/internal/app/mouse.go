package app

import (
	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// mouse takes what a mouse does, where the terminal sends it: the wheel does what
// the arrows do, a click points at a line. Neither takes anything.
func (r *Root) mouse(m tea.MouseMsg) {
	switch {
	case m.Button == tea.MouseButtonWheelUp, m.Button == tea.MouseButtonWheelDown:
		if _, form := r.over().(*page.Form); form {
			return // there an arrow takes the line that is left
		}
		e := keys.Key(keys.Down)
		if m.Button == tea.MouseButtonWheelUp {
			e = keys.Key(keys.Up)
		}
		if row := keys.Find(e, r.tables()...); row != nil {
			r.press(e)
		}
	case m.Button == tea.MouseButtonLeft && m.Action == tea.MouseActionPress:
		var at any = r.pages[r.at]
		if n := len(r.stack); n > 0 {
			at = r.stack[n-1]
		} else if r.over() != nil {
			return // it has a part of the page
		}
		if c, ok := at.(page.Clicker); ok && c.Click(m.X, m.Y-1) {
			r.settle()
			r.stale = true
		}
	}
}
