// Package bench is the page on which a laminate is built: the wall to scale,
// the plies from the process side outward, the rack that takes a digit, and
// what the rules find, all of it answering every key in the same frame.
//
// A wall is built on the numeric keypad: digits take the numbered thing on the
// right, and the other keys of the keypad count, repeat and set gel stops.
package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// Bench is the page. Make it with New.
type Bench struct {
	desk *page.Desk
	acts page.Acts[*Bench]
	lead *Lead // nil: the findings stand under the table
	plan plan

	mode    mode          // nil: the keys of the bench itself
	preview *rules.Report // what the mode's choice would give, nil for none
	shows   int           // the row the preview is about

	sel    int           // the finding explained
	list   int           // the first finding drawn
	top    int           // the first table line drawn
	back   int           // the row to go back to after following findings
	went   bool          // whether there is such a row
	seen   *rules.Report // the report sel belongs to
	tried  *rules.Report // the report of which a fix was tried out
	drawn  sight         // what is derived from a report
	behind sight         // the same of the report before a preview
	racks  block         // the rack as drawn
	sums   block         // zones and criteria as drawn
}

// New makes the page on a desk.
func New(d *page.Desk) *Bench { return &Bench{desk: d, acts: acts()} }

// Name is the page's name.
func (*Bench) Name() string { return "bench" }

// SetSize tells the size of the screen.
func (b *Bench) SetSize(w, h int) {
	size := draw.Size{W: w, H: h}
	if b.lead != nil {
		b.plan = planFor(draw.LedBenchPage(size, len(b.lead.Text(w))))
		return
	}
	b.plan = planFor(draw.BenchPage(size))
}

// Typing tells that characters go into a text field.
func (b *Bench) Typing() bool { return b.mode != nil && b.mode.typing() }

// Busy tells that a choice is open.
func (b *Bench) Busy() bool { return b.mode != nil }

// Bindings are the page's keys.
func (b *Bench) Bindings() []keys.Binding { return b.acts.Bindings() }

// Scope is where keys act now.
func (b *Bench) Scope() keys.Scope {
	if b.mode != nil {
		return b.mode.scope()
	}
	if b.lead != nil {
		return b.lead.Scope
	}
	return scopeBench
}

// Can says why a binding cannot act now.
func (b *Bench) Can(id keys.ID) string { return b.acts.Why(b, b.Scope(), id) }

// Press handles a key.
func (b *Bench) Press(e keys.Event) page.Wish {
	if b.Typing() && (e.Rune != 0 || e.Key == "") {
		b.mode.typed(b, e)
		return page.Done
	}
	found, why := b.acts.Press(b, b.Scope(), e)
	switch {
	case why != "":
		b.desk.Refuse(why)
	case found:
	case e.Key == "":
		b.desk.Refuse("pasted text goes into fields only; nothing was changed")
	case b.mode == nil, e.Key == "?" && !b.Typing():
		return page.Leave
	default:
		b.desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter takes the choice, Esc leaves it")
	}
	return page.Done
}

// Reset drops what was begun and not finished: the document became another.
func (b *Bench) Reset() {
	b.end()
	b.sel, b.list, b.top, b.went, b.seen = 0, 0, 0, false, nil
}

// mode is a choice in progress. Its panel stands where the findings stand.
type mode interface {
	scope() keys.Scope
	title(b *Bench) string
	lines(b *Bench, w, h int) []string
	typing() bool
	typed(b *Bench, e keys.Event) // a character or a paste, where typing
}

// in makes what a key does to an open choice of one kind.
func in[M mode](do func(m M, b *Bench, e keys.Event)) func(*Bench, keys.Event) {
	return func(b *Bench, e keys.Event) {
		if m, ok := b.mode.(M); ok {
			do(m, b, e)
		}
	}
}

func (b *Bench) begin(m mode) { b.mode = m }

func (b *Bench) end() { b.mode, b.preview = nil, nil }

// shown is the report that is drawn: of the document, or of a choice's outcome.
func (b *Bench) shown() *rules.Report {
	if b.preview != nil {
		return b.preview
	}
	return b.desk.Report()
}

func (b *Bench) schedule() *laminate.Schedule { return b.desk.Doc.Now() }

func (b *Bench) library() *laminate.Library { return b.desk.Doc.Library() }

// row is the row pointed at: the one worked at, or that of a choice's outcome.
func (b *Bench) row() int {
	if b.preview != nil {
		return b.shows
	}
	return b.desk.Row
}

// rowName names the row worked at: "ply 8".
func (b *Bench) rowName() string { return b.nameOf(b.desk.Row) }

func (b *Bench) nameOf(row int) string {
	rows := b.desk.Report().Analysis.Rows
	if row < 0 || row >= len(rows) {
		return "the process face"
	}
	return page.PlyName(&rows[row])
}

// settle puts the explained finding right after the report changed: on what the
// change brought, else where it was.
func (b *Bench) settle() {
	r := b.desk.Report()
	if r == b.seen {
		return
	}
	was := b.seen
	b.seen = r
	fresh := b.desk.Fresh(r)
	for i := range r.Findings {
		if fresh[i] && r.Findings[i].Severity >= rules.Warning {
			b.sel = i
			return
		}
	}
	if was != nil && b.sel < len(was.Findings) {
		old := &was.Findings[b.sel]
		for i := range r.Findings {
			if f := &r.Findings[i]; f.Rule == old.Rule && f.Severity == old.Severity {
				b.sel = i
				return
			}
		}
	}
	b.sel = 0
}

// atOnce is how many rows a wall may have for its fixes to be tried out in
// the frame of the edit. That costs a judgment more; of a longer wall it is
// done when keys pause, or when the fix is asked for.
const atOnce = 300

// offered is what would fix the finding explained, nil where nothing mechanical
// does. It is tried out the first time it is asked for.
func (b *Bench) offered() *rules.Fix {
	if b.finding() == nil {
		return nil
	}
	b.tried = b.desk.Report()
	return b.tried.Fix(b.sel)
}

// Waits tells that something is left to do when keys pause.
func (b *Bench) Waits() bool {
	r := b.desk.Report()
	return b.tried != r && len(r.Schedule.Plies) > atOnce
}

// Rest does what was left to do.
func (b *Bench) Rest() { b.offered() }

// finding is the one explained, nil where there is none.
func (b *Bench) finding() *rules.Finding {
	b.settle()
	r := b.desk.Report()
	if b.sel < 0 || b.sel >= len(r.Findings) {
		return nil
	}
	return &r.Findings[b.sel]
}
