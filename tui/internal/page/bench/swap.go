package bench

import (
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// racker is a choice in which the rack's digits mean something else.
type racker interface{ rackTitle() string }

// swap changes a row's material, everywhere or in the row alone.
type swap struct {
	pick  string // the new material, "" until one is taken
	names *names // while a name is typed
}

func (b *Bench) beginSwap() {
	b.begin(&swap{})
	b.desk.Say("swap " + draw.Clean(b.schedule().Plies[b.desk.Row].Material) + " for: a digit takes from the rack, 0 any by name")
}

func (m *swap) everywhere(b *Bench) edit.Edit {
	s := b.schedule()
	return edit.SwapEverywhere(s, b.library(), s.Plies[b.desk.Row].Material, m.pick)
}

func (m *swap) here(b *Bench) edit.Edit {
	return edit.SwapMaterial(b.schedule(), b.library(), b.desk.Row, m.pick)
}

func (m *swap) byName(b *Bench) {
	n := b.newNames()
	m.names = &n
	m.show(b)
}

// show follows the name that is typed.
func (m *swap) show(b *Bench) {
	if c := m.names.chosen(); c != nil {
		m.take(b, c.ID)
		return
	}
	m.pick, b.preview = "", nil
	b.desk.Refuse(nothingFound)
}

func (m *swap) typed(b *Bench, e keys.Event) {
	switch m.names.Handle(e) {
	case widget.Left:
		m.names, m.pick, b.preview = nil, "", nil
		b.desk.Say("a digit takes from the rack, 0 any by name")
	case widget.Taken:
		id := m.names.chosen().ID
		m.names = nil
		m.take(b, id)
	case widget.Refused:
		b.desk.Refuse(m.names.Reason())
	case widget.Going:
		m.show(b)
	}
}

func (m *swap) digit(b *Bench, d int) {
	if c := b.rack()[d-1]; c != nil {
		m.take(b, c.ID)
		return
	}
	b.desk.Refuse("the rack has no such material: 0 takes any by name")
}

func (m *swap) do(b *Bench, e edit.Edit) {
	// The row worked at stays, wherever else the swap also shows.
	row := b.desk.Row
	b.finish(e)
	b.desk.Go(row)
}

func picked(b *Bench) string {
	if m, ok := b.mode.(*swap); ok && m.pick == "" {
		return "no material is taken yet: a digit takes one from the rack, 0 any by name"
	}
	return ""
}

func (m *swap) take(b *Bench, id string) {
	m.pick = id
	if !b.try(m.everywhere(b)) {
		m.pick = ""
	}
}

func (m *swap) title(b *Bench) string {
	s := "swap " + b.schedule().Plies[b.desk.Row].Material + " for"
	if m.pick != "" {
		s += " " + m.pick
	} else {
		s += " which?"
	}
	return draw.Clean(s)
}

func (m *swap) lines(b *Bench, w, h int) []string {
	if m.names != nil {
		return m.names.View(w, h)
	}
	t := b.desk.Theme
	if m.pick == "" {
		return []string{"   " + t.Key.Render("1-9") + "  take from the rack on the right", "   " + t.Key.Render("0") + "    any material, by name"}
	}
	old := b.schedule().Plies[b.desk.Row].Material
	rows := 0
	for i := range b.schedule().Plies {
		if b.schedule().Plies[i].Material == old {
			rows++
		}
	}
	return []string{
		"   " + t.Key.Render("Enter") + draw.Cut("  everywhere: "+page.Count(rows, "row")+" of "+draw.Clean(old)+" (shown above)", w-10),
		"   " + t.Key.Render(".") + "      here only: " + b.rowName(),
	}
}

func (*swap) rackTitle() string { return "take by digit" }

func (m *swap) scope() keys.Scope {
	if m.names != nil {
		return scopeSwapName
	}
	return scopeSwap
}

func (m *swap) typing() bool { return m.names != nil }

func swapActs() page.Acts[*Bench] {
	row := func(scope keys.Scope, id keys.ID, k []string, show, short, long string, rank int, can func(*Bench) string, do func(*swap, *Bench, keys.Event)) page.Act[*Bench] {
		return page.Act[*Bench]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: "Swapping a material", Rank: rank}, Can: can, Do: in(do)}
	}
	return append(nameActs(scopeSwapName, "Swapping by name", "take it", "take the material pointed at"),
		row(scopeSwap, "take", digits(), "1-9", "take", "take a material from the rack", 1, nil, func(m *swap, b *Bench, e keys.Event) {
			d, _ := e.Digit()
			m.digit(b, d)
		}),
		row(scopeSwap, "take by name", []string{"0"}, "", "by name", "take any material, by name", 2, nil, func(m *swap, b *Bench, _ keys.Event) { m.byName(b) }),
		row(scopeSwap, "everywhere", []string{keys.Enter}, "", "everywhere", "swap it everywhere", 3, picked, func(m *swap, b *Bench, _ keys.Event) { m.do(b, m.everywhere(b)) }),
		row(scopeSwap, "here only", []string{".", "h"}, ".", "here only", "swap it in this row only", 4, picked, func(m *swap, b *Bench, _ keys.Event) { m.do(b, m.here(b)) }),
		row(scopeSwap, "leave", []string{keys.Esc}, "", "leave", "leave everything as it was", 0, nil, func(_ *swap, b *Bench, _ keys.Event) { b.drop() }),
	)
}
