package bench

import (
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/keys"
)

func (b *Bench) addDigit(e keys.Event) {
	n, _ := e.Digit()
	m := b.rack()[n-1]
	if m == nil {
		b.Desk.Refuse(fmt.Sprintf("the rack has no material %d: 0 adds any by name", n))
		return
	}
	_ = b.take(b.adding(m.ID)) // what was refused is said
}

// adding adds one ply outward of the row worked at.
func (b *Bench) adding(id string) edit.Edit {
	return edit.AddPly(b.schedule(), b.library(), b.Desk.Row, id)
}

func (b *Bench) count(by int) {
	row := b.Desk.Row
	p := &b.schedule().Plies[row]
	switch {
	case p.Count+by < 1:
		b.Desk.Refuse("one ply is the least of a row: x removes the row")
		return
	case p.Count+by > laminate.MostCount:
		b.Desk.Refuse(fmt.Sprintf("a row has at most %d plies", laminate.MostCount))
		return
	}
	b.Desk.Apply(edit.AddCount(b.schedule(), b.library(), row, by))
}

func (b *Bench) gel() {
	on := !b.schedule().Plies[b.Desk.Row].GelAfter
	b.Desk.Apply(edit.SetGel(b.schedule(), b.library(), b.Desk.Row, on))
}

func (b *Bench) duplicate() { b.Desk.Apply(edit.Duplicate(b.schedule(), b.library(), b.Desk.Row)) }

func (b *Bench) move(by int) {
	was := b.Desk.Row
	b.Desk.Go(was + by)
	switch {
	case b.Desk.Row != was:
	case by < 0:
		b.Desk.Refuse("this is " + b.face() + ": " + b.inward())
	default:
		b.Desk.Refuse("this is the outermost ply: the next number key adds outside of it")
	}
}

// nextFinding explains the next finding, and goes to its ply. From where no
// finding was followed it begins with the one explained.
func (b *Bench) nextFinding(by int) {
	r := b.Desk.Report()
	n := len(r.Findings)
	f := &r.Findings[b.sel]
	if b.went || len(f.Rows) == 0 || f.Rows[0] == b.Desk.Row {
		b.sel = (b.sel + by + n) % n
	}
	f = &r.Findings[b.sel]
	if !b.went {
		b.back, b.went = b.Desk.Row, true
	}
	if len(f.Rows) > 0 {
		b.Desk.Go(f.Rows[0])
	}
	where := "about no ply in particular"
	if len(f.Rows) > 0 {
		where = "at " + b.rowName()
	}
	b.Desk.Note(fmt.Sprintf("finding %d of %d: %s, %s", b.sel+1, n, f.Severity, where), "b goes back")
}

func (b *Bench) goBack() {
	b.Desk.Go(b.back)
	b.went = false
	b.Desk.Say("back at " + b.rowName())
}

func (b *Bench) fix() {
	if why := b.canFix(); why != "" {
		b.Desk.Refuse(why)
		return
	}
	if b.asksFamily() {
		b.beginFamily(b.familyless(), laminate.NoFamily)
		return
	}
	b.Desk.Apply(b.offered().Edit)
}
