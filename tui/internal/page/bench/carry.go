package bench

import (
	"fmt"

	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// carry moves a row by the arrows.
type carry struct {
	b        *Bench
	from, to int
	text     *page.Text
}

func (b *Bench) beginCarry() {
	m := &carry{b: b, from: b.Desk.Row, to: b.Desk.Row}
	const g = "Carrying a row"
	m.text = &page.Text{Head: "carrying " + b.rowName(), Still: true, Body: m.lines, Away: "put back", Leave: b.left, Keys: keys.Table{
		{Keys: []string{keys.Up, keys.Down}, Show: "↑↓", Short: "carry", Long: "carry the row inward, outward", Group: g, Rank: 1, Do: keys.By(keys.Up, func(by int) { m.carry(m.to + by) })},
		{Keys: []string{keys.PgUp, keys.PgDown}, Long: "carry it a screenful", Group: g, Rank: 4, Do: keys.By(keys.PgUp, func(by int) {
			m.carry(max(0, min(b.Desk.LastRow(), m.to+by*b.plan.rows())))
		})},
		{Keys: []string{keys.Home, keys.End}, Long: "carry it to the process side, to the outside", Group: g, Rank: 5, Do: func(e keys.Event) {
			if e.Key == keys.Home {
				m.carry(0)
			} else {
				m.carry(b.Desk.LastRow())
			}
		}},
		{Keys: []string{keys.Enter, "g"}, Show: "Enter", Short: "drop", Long: "drop it here", Group: g, Rank: 2, Do: keys.Do(m.drop)},
	}}
	b.Open(m.text)
	b.Desk.Say("carrying " + b.rowName() + ": ↑↓ carry it, Enter drops it, Esc puts it back")
}

func (m *carry) drop() {
	if m.to == m.from {
		m.b.Close()
		m.b.Desk.Say("dropped where it was")
		return
	}
	if m.b.take(edit.Move(m.b.schedule(), m.b.library(), m.from, m.to)) == nil {
		m.b.Close()
	}
}

func (m *carry) carry(to int) {
	b := m.b
	switch {
	case to < 0:
		b.Desk.Refuse("it is the innermost ply already")
		return
	case to > b.Desk.LastRow():
		b.Desk.Refuse("it is the outermost ply already")
		return
	case to == m.from:
		m.to, b.preview = to, nil
		b.Desk.Say("carrying " + b.rowName() + ": where it was")
		return
	}
	if b.try(edit.Move(b.schedule(), b.library(), m.from, to)) {
		m.to = to
	}
}

func (m *carry) lines(int) []string {
	lines := []string{fmt.Sprintf("   from row %d to row %d of %d", m.from+1, m.to+1, m.b.Desk.LastRow()+1)}
	if m.b.lead == nil {
		lines = append(lines, "   what the rules would say there: "+tally(m.b.shown()))
	}
	return lines
}
