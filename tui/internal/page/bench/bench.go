// Package bench is the page on which a laminate is built: the wall to scale,
// the plies from the process side outward, the rack that takes a digit, and
// what the rules find, all of it answering every key in the same frame.
//
// A wall is built on the numeric keypad: digits take the numbered thing on the
// right, and the other keys of the keypad count, repeat and set gel stops.
//
// Whoever has a document may put a bench on it, with keys and a pane of his own.
package bench

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// Bench is the page. Make it with New.
type Bench struct {
	page.Base
	lead *Lead // nil: the findings stand under the table
	plan plan

	preview *rules.Report // what the choice that is open would give, nil for none
	shows   int           // the row the preview is about
	heading string        // what digits do while a choice is open, over the rack

	sel     int           // the finding explained
	list    int           // the first finding drawn
	top     int           // the first table line drawn
	back    int           // the row to go back to after following findings
	went    bool          // whether there is such a row
	seen    *rules.Report // the report sel belongs to
	tried   *rules.Report // the report of which a fix was tried out
	drawn   sight         // what is derived from a report
	behind  sight         // the same of the report before a preview
	unfolds bool          // what repeats is shown otherwise than it is at first
	marks   bool          // rows are marked from mark to the row worked at
	mark    int
	sought  string // what was searched for last
	racks   block  // the rack as drawn
	sums    block  // zones and criteria as drawn
}

// New makes a bench on the document of a desk, with a lead or, where that is
// nil, with what the rules find.
func New(d *page.Desk, l *Lead) *Bench {
	b := &Bench{Base: page.NewBase("bench", d), lead: l}
	own := append(b.building(), b.places()...)
	if l == nil {
		b.Rows = append(own, b.findingKeys()...)
	} else {
		b.Base = page.NewBase(l.Name, d)
		b.Rows = l.Rows.Over(own)
	}
	b.Room = func() draw.Size { return draw.Size{W: b.plan.Findings.W, H: b.plan.panel()} }
	return b
}

// visited tells that somebody came from a page to look at a ply, and builds nothing yet.
func (b *Bench) visited() bool { return b.lead == nil && b.Desk.Visiting != "" }

// Table is its keys. Whoever came to look at a ply from a page whose number keys record
// something adds none with them.
func (b *Bench) Table() keys.Table {
	if !b.visited() {
		return b.Rows
	}
	from := b.Desk.Visiting
	rests := func() string {
		return "you came from " + from + " to look, and nothing is changed: Enter begins to build here, Esc goes back"
	}
	const g = "Moving around"
	t := keys.Table{
		{Keys: []string{keys.Enter}, Short: "build here", Long: "begin to build: the number keys add plies from then on", Group: g, Rank: 1, Do: keys.Do(func() {
			b.Desk.Visiting = ""
			b.Desk.Say("the number keys add plies here now")
		})},
		{Keys: []string{keys.Esc}, Short: "back to " + from, Long: "back to " + from, Group: g, Do: keys.Do(func() {
			b.Desk.Visiting = ""
			b.Desk.Page(from)
		})},
	}
	rows := slices.Clone(b.Rows)
	for i := range rows {
		if rows[i].Edits || rows[i].Group == building {
			rows[i].Can = rests
		}
	}
	return t.Over(rows)
}

// SetSize tells the size of the screen.
func (b *Bench) SetSize(w, h int) {
	size := draw.Size{W: w, H: h}
	if b.lead != nil {
		b.plan = planFor(draw.LedBenchPage(size, b.lead.Tall(w)))
	} else {
		b.plan = planFor(draw.BenchPage(size))
	}
	b.Base.SetSize(w, h)
}

// Reset drops what was begun and not finished: the document became another.
func (b *Bench) Reset() {
	b.Base.Reset()
	b.sel, b.list, b.top, b.went, b.seen, b.marks, b.unfolds = 0, 0, 0, false, nil, false, false
}

// Settle puts right what is explained and what is in sight.
func (b *Bench) Settle() {
	if b.Over() == nil {
		b.preview, b.heading = nil, ""
	}
	b.explained()
	b.Base.Settle()
	if b.plan.Form == draw.TooSmall {
		return
	}
	b.mark = min(b.mark, b.Desk.LastRow())
	b.look()
	b.scroll()
	b.scrollFindings()
}

// look derives what is drawn.
func (b *Bench) look() {
	b.sight().look(b.Desk.Theme, b.shown(), b.plan.Strip.W < 110, b.folded(), b.row())
}

// sight is what is derived of the report that is drawn.
func (b *Bench) sight() *sight {
	if b.preview != nil {
		return &b.behind
	}
	return &b.drawn
}

// shown is the report that is drawn: of the document, or of a choice's outcome.
func (b *Bench) shown() *rules.Report {
	if b.preview != nil {
		return b.preview
	}
	return b.Desk.Report()
}

func (b *Bench) schedule() *laminate.Schedule { return b.Desk.Doc.Now() }

func (b *Bench) library() *laminate.Library { return b.Desk.Doc.Library() }

// row is the row pointed at: the one worked at, or that of a choice's outcome.
func (b *Bench) row() int {
	if b.preview != nil {
		return b.shows
	}
	return b.Desk.Row
}

// rowName names the row worked at: "ply 8".
func (b *Bench) rowName() string { return b.nameOf(b.Desk.Row) }

func (b *Bench) nameOf(row int) string {
	rows := b.Desk.Report().Analysis.Rows
	if row < 0 || row >= len(rows) {
		return b.face()
	}
	return page.PlyName(&rows[row])
}

// explained puts the explained finding right after the report changed: on what
// the change brought, else where it was.
func (b *Bench) explained() {
	r := b.Desk.Report()
	if r == b.seen {
		return
	}
	was := b.seen
	b.seen = r
	fresh := b.Desk.Fresh(r)
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
	b.tried = b.Desk.Report()
	return b.tried.Fix(b.sel)
}

// Waits tells that something is left to do when keys pause.
func (b *Bench) Waits() bool {
	r := b.Desk.Report()
	return b.lead == nil && b.tried != r && len(r.Schedule.Plies) > atOnce
}

// Rest does what was left to do.
func (b *Bench) Rest() { b.offered() }

// finding is the one explained, nil where there is none.
func (b *Bench) finding() *rules.Finding {
	r := b.Desk.Report()
	if b.sel < 0 || b.sel >= len(r.Findings) {
		return nil
	}
	return &r.Findings[b.sel]
}

// try shows what an edit would give, or why it cannot be made.
func (b *Bench) try(e edit.Edit) bool {
	r, err := b.Desk.Doc.Preview(e)
	if err != nil {
		b.preview = nil
		b.Desk.Refuse(err.Error())
		return false
	}
	b.preview, b.shows = r, b.Desk.Row
	if e.At.Kind == laminate.RefPly {
		b.shows = min(e.At.Index, len(r.Schedule.Plies)-1)
	}
	text := page.Effect(b.Desk.Report(), r, b.Desk.Units())
	if r == b.Desk.Report() || text == "" {
		text = "would change no figure"
	} else {
		text = "would do: " + text
	}
	if b.Desk.Quiet {
		text = "shown as it would be"
	}
	b.Desk.Note(text, "Enter does it")
	return true
}

// take makes the edit of a choice; the choice stays open where it cannot be made.
func (b *Bench) take(e edit.Edit) error {
	b.preview = nil
	if !b.Desk.Apply(e) {
		return page.ErrStay
	}
	return nil
}

// left says that a choice was left with nothing done.
func (b *Bench) left() { b.Desk.Say("left as it was") }
