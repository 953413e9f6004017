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
	what int // 1 row, 2 last rows, 3 barrier, 4 structure
	n    int // times in all
	last int // rows of "last rows"
}

const (
	mostTimes = 100
	timesRow  = 1
	timesLast = 2
	timesBarr = 3
	timesWall = 4
)

func (b *Bench) beginTimes() {
	m := &times{what: timesRow, n: 2, last: min(2, len(b.schedule().Plies))}
	if b.desk.Row < 0 {
		m.what = timesBarr
	}
	b.begin(m)
	m.show(b)
}

func (m *times) edit(b *Bench) edit.Edit {
	s, lib := b.schedule(), b.library()
	switch m.what {
	case timesLast:
		return edit.TimesLast(s, lib, b.desk.Row, m.last, m.n)
	case timesBarr:
		return edit.TimesBarrier(s, lib, m.n)
	case timesWall:
		return edit.TimesStructure(s, lib, m.n)
	}
	return edit.TimesRow(s, lib, b.desk.Row, m.n)
}

// cannot says why a line of the choice cannot act.
func (m *times) cannot(b *Bench, what int) string {
	a := b.desk.Report().Analysis
	switch what {
	case timesRow, timesLast:
		if b.desk.Row < 0 {
			return "the process face is no ply: ↓ goes to ply 1"
		}
	case timesBarr:
		if a.Barrier.Plies == 0 {
			return "there is no barrier"
		}
	case timesWall:
		if a.Zones[laminate.StructuralLayer].Plies == 0 {
			return "there is no structure"
		}
	}
	return ""
}

func (m *times) show(b *Bench) {
	if why := m.cannot(b, m.what); why != "" {
		b.preview = nil
		b.desk.Refuse(why)
		return
	}
	b.try(m.edit(b))
}

func (m *times) take(b *Bench) {
	if why := m.cannot(b, m.what); why != "" {
		b.desk.Refuse(why)
		return
	}
	b.finish(m.edit(b))
}

func (m *times) title(*Bench) string { return "times " + strconv.Itoa(m.n) + ": what?" }

func (m *times) lines(b *Bench, w, _ int) []string {
	t := b.desk.Theme
	a := b.desk.Report().Analysis
	row := "the row"
	if b.desk.Row >= 0 {
		p := &b.schedule().Plies[b.desk.Row]
		row = fmt.Sprintf("%s %s: count %d→%d", b.rowName(), draw.Clean(p.Material), p.Count, p.Count*m.n)
	}
	texts := [...]string{
		row,
		fmt.Sprintf("the last %s up to %s: their sequence %d times   ←→ how many rows", page.Count(m.last, "row"), b.rowName(), m.n),
		fmt.Sprintf("the barrier: every count ×%d, %d→%d plies, all veils stay inside", m.n, a.Barrier.Plies, a.Barrier.Plies*m.n),
		fmt.Sprintf("the structure: its sequence %d times, %d→%d plies", m.n, a.Zones[laminate.StructuralLayer].Plies, a.Zones[laminate.StructuralLayer].Plies*m.n),
	}
	out := make([]string, 0, len(texts))
	for i, s := range texts {
		if why := m.cannot(b, i+1); why != "" {
			s = draw.Cut(s, 20) + "  " + why
		}
		line := strconv.Itoa(i+1) + " " + s
		if i+1 == m.what {
			out = append(out, " "+draw.Pointer+" "+t.Selected.Render(draw.Cut(line, w-4)))
		} else {
			out = append(out, "   "+draw.Cut(line, w-4))
		}
	}
	return out
}

func (*times) scope() keys.Scope        { return scopeTimes }
func (*times) typing() bool             { return false }
func (*times) typed(*Bench, keys.Event) {}

func timesActs() page.Acts[*Bench] {
	row := func(id keys.ID, k []string, show, short, long string, rank int, do func(*times, *Bench, keys.Event)) page.Act[*Bench] {
		return page.Act[*Bench]{Binding: keys.Binding{ID: id, Scope: scopeTimes, Keys: k, Show: show, Short: short, Long: long, Group: "Repeating", Rank: rank}, Do: in(do)}
	}
	return page.Acts[*Bench]{
		row("what to repeat", []string{"1", "2", "3", "4"}, "1-4", "what", "what is repeated", 1, func(m *times, b *Bench, e keys.Event) {
			m.what, _ = e.Digit()
			m.show(b)
		}),
		row("how often", []string{"+", "=", "*", "-"}, "+-", "how often", "how often in all", 2, func(m *times, b *Bench, e keys.Event) {
			by := 1
			if e.Key == "-" {
				by = -1
			}
			m.n = max(2, min(mostTimes, m.n+by))
			m.show(b)
		}),
		row("how many rows", []string{keys.Left, keys.Right}, "←→", "rows", "how many of the last rows", 3, func(m *times, b *Bench, e keys.Event) {
			by := 1
			if e.Key == keys.Left {
				by = -1
			}
			m.what, m.last = timesLast, max(1, min(b.desk.Row+1, m.last+by))
			m.show(b)
		}),
		row("the line before", []string{keys.Up, keys.Down}, "↑↓", "", "the line before or after", 6, func(m *times, b *Bench, e keys.Event) {
			by := 1
			if e.Key == keys.Up {
				by = -1
			}
			m.what = max(timesRow, min(timesWall, m.what+by))
			m.show(b)
		}),
		row("repeat it", []string{keys.Enter}, "", "do it", "repeat it", 4, func(m *times, b *Bench, _ keys.Event) { m.take(b) }),
		row("leave", []string{keys.Esc}, "", "leave", "leave everything as it was", 0, func(_ *times, b *Bench, _ keys.Event) { b.drop() }),
	}
}
