package bench

import (
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/page"
)

// marked are the rows from the mark to the row worked at, or that row alone.
func (b *Bench) marked() (from, to int) {
	from, to = b.Desk.Row, b.Desk.Row
	if b.marks {
		from, to = min(b.mark, b.Desk.Row), max(b.mark, b.Desk.Row)
	}
	return max(0, from), min(to, b.Desk.LastRow())
}

// beginMark marks the row worked at as one end of a range, or lifts the mark.
func (b *Bench) beginMark() {
	if b.marks = !b.marks; !b.marks {
		b.Desk.Say("no rows are marked")
		return
	}
	b.mark = b.Desk.Row
	b.Desk.Note("marked from "+b.rowName()+": ↑↓ mark more", "c copies, x takes out, m lifts it")
}

// copy notes the rows marked, for v to add here or in another schedule.
func (b *Bench) copyRows() {
	from, to := b.marked()
	b.clip(from, to)
	b.marks = false
	b.Desk.Note("copied "+b.clipped(), "v adds it outward of a row, in another schedule too")
}

func (b *Bench) clip(from, to int) {
	b.Desk.Clip = nil
	for _, p := range b.schedule().Plies[from : to+1] {
		p.Origin = 0
		b.Desk.Clip = append(b.Desk.Clip, p)
	}
}

func (b *Bench) clipped() string {
	n := 0
	for _, p := range b.Desk.Clip {
		n += p.Count
	}
	return fmt.Sprintf("%s (%s)", page.Count(len(b.Desk.Clip), "row"), page.Count(n, "ply"))
}

// paste adds what was copied outward of the row worked at. A resin that this
// schedule does not have, and the zone, follow from the place.
func (b *Bench) paste() {
	rows := append([]laminate.Ply(nil), b.Desk.Clip...)
	for i := range rows {
		rows[i].Zone = laminate.NoZone
		if _, ok := b.schedule().Resin(rows[i].Resin); !ok {
			rows[i].Resin = ""
		}
	}
	at := b.Desk.Row
	if b.Desk.Apply(edit.InsertPlies(b.schedule(), b.library(), at, rows)) {
		b.Desk.Go(at + len(rows))
	}
}

func (b *Bench) canPaste() string {
	if len(b.Desk.Clip) == 0 {
		return "nothing is copied: m marks rows, c copies them"
	}
	return ""
}

// remove takes the row or the rows marked out; v adds them elsewhere.
func (b *Bench) remove() {
	from, to := b.marked()
	if b.marks {
		b.clip(from, to)
	}
	b.marks = false
	b.Desk.Apply(edit.RemoveRows(b.schedule(), b.library(), from, to))
}
