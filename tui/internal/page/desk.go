package page

import (
	"errors"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/widget"
)

// RackSize is how many materials have a number key.
const RackSize = 9

// Desk is what pages share. Only the root's goroutine uses it.
type Desk struct {
	Doc   *editor.Document
	Theme *draw.Theme
	// Row is the ply row worked at, -1 the process face before the first ply.
	Row    int
	Notice widget.Notice
	// Back leads from a page to the bench, Pages opens the list of pages, and Page
	// leads to the one of a name.
	Back, Pages func()
	Page        func(name string)
	// Visiting is the page that led to the bench to look at a ply: nothing is built there
	// until that is asked for, whatever that page had the number keys do.
	Visiting string
	// Takes tells that the page has a meaning of its own for a key of everywhere.
	Takes func(key string) bool
	// Quiet keeps findings out of what a change is said to have done: where
	// somebody is to find them.
	Quiet bool

	// Rack is which materials the number keys add here, "" where the shop book's
	// or the usual one stays; KeepRack keeps another one for every document.
	Rack     [RackSize]string
	KeepRack func([RackSize]string)

	// Clip are the rows that were copied or taken out last, of whatever schedule.
	Clip []laminate.Ply

	// NewJob is what was typed for a new job that nobody has taken, line by line.
	NewJob []string

	// Ends let go of what pages have on disk, when the program ends.
	Ends []func() error

	said  uint64        // counts notices
	last  *rules.Report // the report before the last change, nil before the first
	fresh []bool        // by finding of the report it was made for
	of    *rules.Report // that report
}

// End lets go of what pages have on disk.
func (d *Desk) End() (err error) {
	for _, end := range d.Ends {
		err = errors.Join(err, end())
	}
	return err
}

// Say notices what was done.
func (d *Desk) Say(text string) { d.Note(text, "") }

// Note notices what was done, and how it is taken back.
func (d *Desk) Note(text, tail string) { d.note(widget.Notice{Text: text, Tail: tail}) }

// Tell notices what was done and how it is taken back, to its end.
func (d *Desk) Tell(text, tail string) { d.note(widget.Notice{Text: text, Tail: tail, Whole: true}) }

// Refuse notices why a key could not act.
func (d *Desk) Refuse(why string) { d.note(widget.Notice{Text: why, Refusal: true}) }

func (d *Desk) note(n widget.Notice) {
	d.Notice = n
	d.said++
}

// Said counts the notices: a notice of before belongs to what was there before.
func (d *Desk) Said() uint64 { return d.said }

// Leave goes to the bench.
func (d *Desk) Leave() {
	if d.Back != nil {
		d.Back()
	}
}

// Visit goes to a row on the bench, to look at it.
func (d *Desk) Visit(from string, row int) {
	d.Go(row)
	d.Leave()
	d.Visiting = from
}

// Out is Esc on a page where nothing is open. It leads to the list of pages and
// not to the bench: one Esc too many must not land where a digit adds a ply.
func (d *Desk) Out(group string) keys.Row {
	return keys.Row{Keys: []string{keys.Esc}, Short: "pages", Long: "the list of pages, the bench first", Group: group, Do: keys.Do(func() {
		if d.Pages != nil {
			d.Pages()
		}
	})}
}

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
	d.Note(d.outcome(e.Label, before), d.Undoes())
	return true
}

// ApplyJob makes a change of the whole job, as Apply does of a schedule.
func (d *Desk) ApplyJob(e edit.JobEdit) error {
	before := d.Report()
	if err := d.Doc.ApplyJob(e); err != nil {
		return err
	}
	d.changed(before)
	d.Note(e.Label, d.Undoes())
	return nil
}

// Undo takes the last change back, or says that there is none.
func (d *Desk) Undo() {
	d.travel(d.Doc.Undo, "undid: ", "y does it again", "nothing to undo: this is the document as it was opened")
}

// Redo does again what Undo took back, or says that there is nothing.
func (d *Desk) Redo() {
	d.travel(d.Doc.Redo, "did again: ", d.Undoes(), "nothing to do again: nothing was undone since the last change")
}

// Undoes says how the last change of the document is undone: on a page where u undoes
// something else, elsewhere.
func (d *Desk) Undoes() string {
	if d.Takes != nil && d.Takes("u") {
		return "on the bench, u undoes it"
	}
	return "u undoes it"
}

func (d *Desk) travel(step func() (string, laminate.Ref, bool), did, tail, nothing string) {
	before, part, lent, was := d.Report(), d.Doc.Part(), d.Doc.Lent(), d.Doc.WorkedAt()
	label, at, ok := step()
	if !ok {
		d.Refuse(nothing)
		return
	}
	if now := d.Doc.Lent(); part != d.Doc.Part() || (lent == nil) != (now == nil) || lent != nil && lent.Laminate != now.Laminate {
		before = nil // of something else
	}
	d.changed(before)
	d.follow(at)
	d.Note(d.Turned(was)+d.outcome(did+label, before), tail)
}

// Turned says first of all that the bench is on something else than it was, where it
// is: the next number key adds its ply there.
func (d *Desk) Turned(was string) string {
	if on := d.Doc.WorkedAt(); on != was && on != "" {
		return "the bench is on " + on + " · "
	}
	return ""
}

func (d *Desk) outcome(label string, before *rules.Report) string {
	if d.Quiet || before == nil {
		return label
	}
	return Outcome(label, before, d.Report(), d.Units())
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

// RowOf is the row that holds a single ply, -1 where there is none.
func (d *Desk) RowOf(ply int) int { return laid.RowOf(d.Report().Analysis, ply) }

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
