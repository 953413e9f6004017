package widget

import (
	"strconv"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// Item is one row. Only the first nine of a menu have a number.
type MenuItem struct {
	Name string
	Note string // what it is for, dim
	Why  string // why it cannot be taken now, "" if it can; shown instead of Note
}

// Menu is the list. Make it with New.
type Menu struct {
	Title string

	th     *draw.Theme
	items  []MenuItem
	sel    int
	top    int
	reason string
}

// New makes a menu with the row at mark marked.
func NewMenu(th *draw.Theme, title string, mark int, items ...MenuItem) *Menu {
	return &Menu{Title: title, th: th, items: items, sel: max(0, min(mark, len(items)-1))}
}

// Choice returns the marked row, which after Taken is the one taken; -1 for a
// menu without rows.
func (m *Menu) Choice() int {
	if len(m.items) == 0 {
		return -1
	}
	return m.sel
}

// Reason says why the last key was refused.
func (m *Menu) Reason() string { return m.reason }

// Handle takes a key.
func (m *Menu) Handle(e keys.Event) Result {
	m.reason = ""
	if d, ok := e.Digit(); ok {
		if d == 0 || d > min(9, len(m.items)) {
			m.reason = "no row has the number " + strconv.Itoa(d)
			return Refused
		}
		m.sel = d - 1
		return m.take()
	}
	switch e.Key {
	case keys.Enter:
		return m.take()
	case keys.Esc:
		return Left
	case keys.Up, keys.ShiftTab:
		m.move(-1)
	case keys.Down, keys.Tab:
		m.move(1)
	case keys.Home, keys.PgUp:
		m.sel = 0
	case keys.End, keys.PgDown:
		m.sel = max(0, len(m.items)-1)
	}
	return Going
}

// move goes round, so that Tab alone reaches every row.
func (m *Menu) move(by int) {
	if n := len(m.items); n > 0 {
		m.sel = (m.sel + by + n) % n
	}
}

func (m *Menu) take() Result {
	switch {
	case len(m.items) == 0:
		m.reason = "there is nothing to choose"
		return Refused
	case m.items[m.sel].Why != "":
		m.reason = m.items[m.sel].Why
		return Refused
	}
	return Taken
}

// View draws the title and the rows: exactly h lines of w cells.
func (m *Menu) View(w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	var lines []string
	if m.Title != "" && h > 1 {
		lines = append(lines, " "+m.th.Title.Render(draw.Cut(draw.Clean(m.Title), w-1)))
	}
	rows := h - len(lines)
	m.top = max(m.sel-rows+1, min(m.top, m.sel))
	wide := 0
	for _, it := range m.items {
		wide = max(wide, draw.Width(it.Name))
	}
	wide = min(wide, max(1, w*3/5))
	for i := m.top; i < len(m.items) && len(lines) < h; i++ {
		lines = append(lines, m.row(i, w, wide))
	}
	return draw.FitLines(lines, w, h)
}

func (m *Menu) row(i, w, wide int) string {
	it := &m.items[i]
	number := " "
	if i < 9 {
		number = strconv.Itoa(i + 1)
	}
	note := it.Note
	if it.Why != "" {
		note = it.Why
	}
	name, note := draw.Left(draw.Clean(it.Name), wide), draw.Clean(note)
	if i == m.sel {
		return m.th.Selected.Render(draw.Left(" "+draw.Pointer+number+" "+name+"  "+note, w))
	}
	var l draw.Line
	l.Gap(2).Add(m.th.Key.Render(number)).Gap(1).Add(name).Gap(2).Add(m.th.Dim.Render(note))
	return l.Fit(w)
}
