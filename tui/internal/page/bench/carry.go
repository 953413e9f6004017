package bench

import (
	"fmt"

	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// carry moves a row by the arrows.
type carry struct{ from, to int }

func (b *Bench) beginCarry() {
	m := &carry{b.desk.Row, b.desk.Row}
	b.begin(m)
	b.desk.Say("carrying " + b.rowName() + ": ↑↓ carry it, Enter drops it, Esc puts it back")
}

func (m *carry) drop(b *Bench) {
	if m.to == m.from {
		b.end()
		b.desk.Say("dropped where it was")
		return
	}
	b.finish(edit.Move(b.schedule(), b.library(), m.from, m.to))
}

func (m *carry) carry(b *Bench, to int) {
	switch {
	case to < 0:
		b.desk.Refuse("it is the innermost ply already")
		return
	case to > b.desk.LastRow():
		b.desk.Refuse("it is the outermost ply already")
		return
	case to == m.from:
		m.to, b.preview = to, nil
		b.desk.Say("carrying " + b.rowName() + ": where it was")
		return
	}
	if b.try(edit.Move(b.schedule(), b.library(), m.from, to)) {
		m.to = to
	}
}

func (m *carry) title(b *Bench) string { return "carrying " + b.rowName() }

func (m *carry) lines(b *Bench, _, _ int) []string {
	out := []string{fmt.Sprintf("   from row %d to row %d of %d", m.from+1, m.to+1, b.desk.LastRow()+1)}
	if b.lead == nil {
		out = append(out, "   what the rules would say there: "+tally(b.shown()))
	}
	return out
}

func (*carry) scope() keys.Scope        { return scopeCarry }
func (*carry) typing() bool             { return false }
func (*carry) typed(*Bench, keys.Event) {}

func carryActs() page.Acts[*Bench] {
	row := func(id keys.ID, k []string, show, short, long string, rank int, do func(*carry, *Bench, keys.Event)) page.Act[*Bench] {
		return page.Act[*Bench]{Binding: keys.Binding{ID: id, Scope: scopeCarry, Keys: k, Show: show, Short: short, Long: long, Group: "Carrying a row", Rank: rank}, Do: in(do)}
	}
	return page.Acts[*Bench]{
		row("carry it", []string{keys.Up, keys.Down, "k", "j"}, "↑↓", "carry", "carry the row inward, outward", 1, func(m *carry, b *Bench, e keys.Event) {
			by := 1
			if e.Key == keys.Up || e.Key == "k" {
				by = -1
			}
			m.carry(b, m.to+by)
		}),
		row("carry far", []string{keys.PgUp, keys.PgDown}, "", "", "carry it a screenful", 4, func(m *carry, b *Bench, e keys.Event) {
			if e.Key == keys.PgUp {
				m.carry(b, max(0, m.to-b.plan.rows()))
			} else {
				m.carry(b, min(b.desk.LastRow(), m.to+b.plan.rows()))
			}
		}),
		row("carry to an end", []string{keys.Home, keys.End}, "", "", "carry it to the process side, to the outside", 5, func(m *carry, b *Bench, e keys.Event) {
			if e.Key == keys.Home {
				m.carry(b, 0)
			} else {
				m.carry(b, b.desk.LastRow())
			}
		}),
		row("drop", []string{keys.Enter, "g"}, "Enter", "drop", "drop it here", 2, func(m *carry, b *Bench, _ keys.Event) { m.drop(b) }),
		row("leave", []string{keys.Esc}, "", "put back", "put it back where it was", 0, func(_ *carry, b *Bench, _ keys.Event) { b.drop() }),
	}
}
