package bench

import (
	"fmt"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// times repeats: counts in the barrier, the sequence in the structure.
type times struct {
	b    *Bench
	list *page.List
	n    int // times in all
	last int // rows of "last rows"
}

const (
	mostTimes      = 100
	timesRow       = 0
	timesLast      = 1
	timesBarrier   = 2
	timesStructure = 3
)

func (b *Bench) beginTimes() {
	const g = "Repeating"
	m := &times{b: b, n: 2, last: max(1, min(2, b.Desk.Row+1))}
	at := timesRow
	if b.Desk.Row < 0 {
		at = timesBarrier
	}
	m.list = &page.List{At: at, Points: true, Verb: "do it", Leave: b.left, Take: func(i int) error { return b.take(m.edit(i)) }, Point: m.show, Keys: keys.Table{
		{Keys: []string{"+", "=", "*", "-"}, Show: "+-", Short: "how often", Long: "how often in all; - once less", Group: g, Rank: 2, Do: keys.By("-", func(by int) {
			m.n = max(2, min(mostTimes, m.n+by))
			m.fill()
			m.show(m.list.Pointed())
		})},
		{Keys: []string{keys.Left, keys.Right}, Show: "←→", Short: "rows", Long: "how many of the last rows", Group: g, Rank: 4, Do: keys.By(keys.Left, func(by int) {
			m.last = max(1, min(b.Desk.Row+1, m.last+by))
			m.fill()
			m.list.PointAt(timesLast)
			m.show(timesLast)
		})},
	}}
	m.fill()
	b.Open(m.list)
	m.show(at)
}

func (m *times) edit(what int) edit.Edit {
	s, lib, row := m.b.schedule(), m.b.library(), m.b.Desk.Row
	switch what {
	case timesLast:
		return edit.TimesLast(s, lib, row, m.last, m.n)
	case timesBarrier:
		return edit.TimesBarrier(s, lib, m.n)
	case timesStructure:
		return edit.TimesStructure(s, lib, m.n)
	}
	return edit.TimesRow(s, lib, row, m.n)
}

// show shows what the line pointed at would do.
func (m *times) show(what int) {
	if why := m.list.Items[what].Why; why != "" {
		m.b.preview = nil
		m.b.Desk.Refuse(why)
		return
	}
	m.b.try(m.edit(what))
}

// fill says what each line would do, or why it cannot.
func (m *times) fill() {
	b := m.b
	a := b.Desk.Report().Analysis
	row, face := "the row", b.face()+" is no ply: ↓ goes to ply 1"
	if b.Desk.Row >= 0 {
		p := &b.schedule().Plies[b.Desk.Row]
		row, face = fmt.Sprintf("%s %s: count %d→%d", b.rowName(), draw.Clean(p.Material), p.Count, p.Count*m.n), ""
	}
	items := []page.Item{
		{Name: row, Why: face},
		{Name: fmt.Sprintf("the last %s up to %s: their sequence %d times   ←→ how many rows", page.Count(m.last, "row"), b.rowName(), m.n), Why: face},
		{Name: fmt.Sprintf("the barrier: every count ×%d, %d→%d plies, all veils stay inside", m.n, a.Barrier.Plies, a.Barrier.Plies*m.n)},
		{Name: fmt.Sprintf("the structure: its sequence %d times, %d→%d plies", m.n, a.Zones[laminate.StructuralLayer].Plies, a.Zones[laminate.StructuralLayer].Plies*m.n)},
	}
	if face != "" {
		items[timesLast].Name = "the last rows"
	}
	if a.Barrier.Plies == 0 {
		items[timesBarrier] = page.Item{Name: "the barrier", Why: "there is no barrier"}
	}
	if a.Zones[laminate.StructuralLayer].Plies == 0 {
		items[timesStructure] = page.Item{Name: "the structure", Why: "there is no structure"}
	}
	m.list.Head = "times " + strconv.Itoa(m.n) + ": what?"
	m.list.SetItems(items)
}
