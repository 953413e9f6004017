package page

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/widget"
)

// Desk is what pages share. Only the root's goroutine uses it.
type Desk struct {
	Doc   *editor.Document
	Theme *draw.Theme
	// Row is the ply row worked at, -1 the process face before the first ply.
	Row    int
	Notice widget.Notice
	// Quiet keeps findings out of what is said: where somebody is to find them.
	Quiet bool

	last  *rules.Report // the report before the last change, nil before the first
	fresh []bool        // by finding of the report it was made for
	of    *rules.Report // that report
}

// Say notices what was done.
func (d *Desk) Say(text string) { d.Notice = widget.Notice{Text: text} }

// Refuse notices why a key could not act.
func (d *Desk) Refuse(why string) { d.Notice = widget.Notice{Text: why, Refusal: true} }

// Units is the reader's system of units.
func (d *Desk) Units() quantity.System { return d.Doc.Units() }

// Report is the document's report.
func (d *Desk) Report() *rules.Report { return d.Doc.Report() }

// Apply makes a change and notices it, or why it could not be made. The row
// worked at follows the change.
func (d *Desk) Apply(e edit.Edit) bool {
	before := d.Report()
	if err := d.Doc.Apply(e); err != nil {
		d.Refuse(err.Error())
		return false
	}
	d.changed(before)
	d.follow(e.At)
	d.Notice = widget.Notice{Text: Outcome(e.Label, before, d.Report(), d.Units()), Tail: "u takes it back"}
	return true
}

// Undo takes the last change back, or says that there is none.
func (d *Desk) Undo() {
	before := d.Report()
	label, at, ok := d.Doc.Undo()
	if !ok {
		d.Refuse("nothing to take back: this is the document as it was opened")
		return
	}
	d.changed(before)
	d.follow(at)
	d.Notice = widget.Notice{Text: Outcome("took back: "+label, before, d.Report(), d.Units()), Tail: "y does it again"}
}

// Redo does again what Undo took back, or says that there is nothing.
func (d *Desk) Redo() {
	before := d.Report()
	label, at, ok := d.Doc.Redo()
	if !ok {
		d.Refuse("nothing to do again: nothing was taken back since the last change")
		return
	}
	d.changed(before)
	d.follow(at)
	d.Notice = widget.Notice{Text: Outcome("did again: "+label, before, d.Report(), d.Units()), Tail: "u takes it back"}
}

// Replaced tells the desk that the document is another one or was reloaded.
func (d *Desk) Replaced() {
	d.last, d.of, d.fresh = nil, nil, nil
	d.clamp()
}

// Fresh tells of every finding of a report whether the last change brought it.
func (d *Desk) Fresh(r *rules.Report) []bool {
	if d.of != r {
		d.of, d.fresh = r, nil
		if d.last != nil {
			d.fresh = Fresh(d.last, r)
		}
		if d.fresh == nil {
			d.fresh = make([]bool, len(r.Findings))
		}
	}
	return d.fresh
}

// LastRow is the index of the outermost ply row, -1 where there is none.
func (d *Desk) LastRow() int { return len(d.Doc.Now().Plies) - 1 }

// Go moves to a row, as far as there are rows.
func (d *Desk) Go(row int) {
	d.Row = row
	d.clamp()
}

func (d *Desk) changed(before *rules.Report) {
	d.last, d.of = before, nil
	d.clamp()
}

func (d *Desk) follow(at laminate.Ref) {
	if at.Kind == laminate.RefPly {
		d.Go(at.Index)
	}
}

func (d *Desk) clamp() { d.Row = max(-1, min(d.Row, d.LastRow())) }
