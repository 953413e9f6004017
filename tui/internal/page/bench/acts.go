package bench

import (
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

func (b *Bench) layDigit(e keys.Event) {
	n, _ := e.Digit()
	m := b.rack()[n-1]
	if m == nil {
		b.desk.Refuse(fmt.Sprintf("the rack has no material %d: 0 lays any by name", n))
		return
	}
	b.lay(m.ID)
}

// laying lays one ply outward of the row worked at.
func (b *Bench) laying(id string) edit.Edit {
	return edit.AddPly(b.schedule(), b.library(), b.desk.Row, id)
}

func (b *Bench) count(by int) {
	row := b.desk.Row
	p := &b.schedule().Plies[row]
	switch {
	case p.Count+by < 1:
		b.desk.Refuse("one ply is the least of a row: x removes the row")
		return
	case p.Count+by > laminate.MostCount:
		b.desk.Refuse(fmt.Sprintf("a row has at most %d plies", laminate.MostCount))
		return
	}
	b.desk.Apply(edit.AddCount(b.schedule(), b.library(), row, by))
}

func (b *Bench) gel() {
	on := !b.schedule().Plies[b.desk.Row].GelAfter
	b.desk.Apply(edit.SetGel(b.schedule(), b.library(), b.desk.Row, on))
}

func (b *Bench) remove() { b.desk.Apply(edit.Remove(b.schedule(), b.library(), b.desk.Row)) }

func (b *Bench) duplicate() { b.desk.Apply(edit.Duplicate(b.schedule(), b.library(), b.desk.Row)) }

func (b *Bench) move(by int) {
	was := b.desk.Row
	b.desk.Go(was + by)
	switch {
	case b.desk.Row != was:
	case by < 0:
		b.desk.Refuse("this is the process face: inward of it is the fluid")
	default:
		b.desk.Refuse("this is the outermost ply: the next digit lays outside of it")
	}
}

func (b *Bench) jump(row int) {
	if row < 0 {
		row = -1
	}
	b.desk.Go(row)
}

// nextFinding explains the next finding, and goes to its ply. From where no
// finding was followed it begins with the one explained.
func (b *Bench) nextFinding(by int) {
	r := b.desk.Report()
	b.settle()
	n := len(r.Findings)
	f := &r.Findings[b.sel]
	if b.went || len(f.Rows) == 0 || f.Rows[0] == b.desk.Row {
		b.sel = (b.sel + by + n) % n
	}
	f = &r.Findings[b.sel]
	if !b.went {
		b.back, b.went = b.desk.Row, true
	}
	if len(f.Rows) > 0 {
		b.desk.Go(f.Rows[0])
	}
	where := "about no ply in particular"
	if len(f.Rows) > 0 {
		where = "at " + b.rowName()
	}
	b.desk.Say(fmt.Sprintf("finding %d of %d: %s, %s", b.sel+1, n, f.Severity, where))
	b.desk.Notice.Tail = "b goes back"
}

func (b *Bench) goBack() {
	b.desk.Go(b.back)
	b.went = false
	b.desk.Say("back at " + b.rowName())
}

func (b *Bench) fix() {
	if why := canFix(b); why != "" {
		b.desk.Refuse(why)
		return
	}
	b.desk.Apply(b.offered().Edit)
}

// try shows what an edit would give, or why it cannot be made.
func (b *Bench) try(e edit.Edit) bool {
	r, err := b.desk.Doc.Preview(e)
	if err != nil {
		b.preview = nil
		b.desk.Refuse(err.Error())
		return false
	}
	b.preview, b.shows = r, b.desk.Row
	if e.At.Kind == laminate.RefPly {
		b.shows = min(e.At.Index, len(r.Schedule.Plies)-1)
	}
	b.desk.Notice = widget.Notice{Text: "would do: " + page.Effect(b.desk.Report(), r, b.desk.Units()), Tail: "Enter does it"}
	if r == b.desk.Report() || b.desk.Notice.Text == "would do: " {
		b.desk.Notice.Text = "would change no figure"
	}
	return true
}

// finish makes the edit of a choice and closes it; the choice stays open where
// the edit cannot be made.
func (b *Bench) finish(e edit.Edit) {
	b.preview = nil
	if b.desk.Apply(e) {
		b.end()
	}
}

// drop closes a choice with nothing done.
func (b *Bench) drop() {
	b.end()
	b.desk.Say("left as it was")
}
