package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// swap changes a row's material, everywhere or in the row alone.
type swap struct {
	b    *Bench
	old  string
	pick string // the new material, "" until one is taken
}

func (b *Bench) beginSwap() {
	m := &swap{b: b, old: b.schedule().Plies[b.Desk.Row].Material}
	m.open()
	b.Desk.Say("swap " + draw.Clean(m.old) + " for: a digit takes from the rack, 0 any by name")
}

// open opens the choice, with what was picked by name.
func (m *swap) open() {
	const g = "Swapping a material"
	b := m.b
	b.heading = "a digit takes it"
	head := "swap " + m.old + " for " + m.pick
	if m.pick == "" {
		head += "which?"
	}
	b.Open(&page.Text{Head: head, Still: true, Body: m.lines, Away: "leave", Leave: b.left, Keys: keys.Table{
		{Keys: keys.Digits(9), Short: "take", Long: "take a material from the rack", Group: g, Rank: 1, Do: func(e keys.Event) {
			d, _ := e.Digit()
			if c := b.rack()[d-1]; c != nil {
				m.choose(c.ID)
				return
			}
			b.Desk.Refuse("the rack has no such material: 0 takes any by name")
		}},
		{Keys: []string{"0"}, Short: "by name", Long: "take any material, by name", Group: g, Rank: 2, Do: keys.Do(m.byName)},
		{Keys: []string{keys.Enter}, Short: "everywhere", Long: "swap it everywhere", Group: g, Rank: 3, Can: m.picked, Do: keys.Do(func() { m.do(m.everywhere()) })},
		{Keys: []string{".", "h"}, Show: ".", Short: "here only", Long: "swap it in this row only", Group: g, Rank: 4, Can: m.picked, Do: keys.Do(func() {
			m.do(edit.SwapMaterial(b.schedule(), b.library(), b.Desk.Row, m.pick))
		})},
	}})
}

func (m *swap) everywhere() edit.Edit {
	return edit.SwapEverywhere(m.b.schedule(), m.b.library(), m.old, m.pick)
}

func (m *swap) byName() {
	was := m.pick
	m.b.byName("swap "+m.old+" for which?", "take it", func(c *laminate.Material) {
		if c == nil {
			m.pick, m.b.preview = "", nil
			m.b.Desk.Refuse(nothingFound)
			return
		}
		m.pick = c.ID
		m.preview()
	}, func(c *laminate.Material) error {
		m.choose(c.ID)
		return nil
	}, func() {
		m.pick, m.b.preview = was, nil
		m.open()
		m.preview()
	})
}

// choose takes a material and shows what it would do.
func (m *swap) choose(id string) {
	m.pick = id
	m.open()
	m.preview()
}

func (m *swap) preview() {
	if m.pick != "" && !m.b.try(m.everywhere()) {
		m.pick = ""
	}
}

func (m *swap) do(e edit.Edit) {
	// The row worked at stays, wherever else the swap also shows.
	row := m.b.Desk.Row
	if m.b.take(e) == nil {
		m.b.Close()
	}
	m.b.Desk.Go(row)
}

func (m *swap) picked() string {
	if m.pick == "" {
		return "no material is taken yet: a digit takes one from the rack, 0 any by name"
	}
	return ""
}

func (m *swap) lines(w int) []string {
	t := m.b.Desk.Theme
	if m.pick == "" {
		return []string{"   " + t.Key.Render("1-9") + "  take from the rack on the right", "   " + t.Key.Render("0") + "    any material, by name"}
	}
	rows := 0
	for i := range m.b.schedule().Plies {
		if m.b.schedule().Plies[i].Material == m.old {
			rows++
		}
	}
	return []string{
		"   " + t.Key.Render("Enter") + draw.Cut("  everywhere: "+page.Count(rows, "row")+" of "+draw.Clean(m.old)+" (shown above)", w-10),
		"   " + t.Key.Render(".") + "      here only: " + m.b.rowName(),
	}
}
