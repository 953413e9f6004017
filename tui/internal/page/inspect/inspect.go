// Package inspect is the page on which a schedule and a record are held against
// a specification: what is demanded beside what was found, failures first, with
// the readings, defects and decisions that an inspector enters.
package inspect

import (
	"path/filepath"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
	"frp/veilwright/tui/internal/widget"
)

// Page is the page. Make it with New.
type Page struct {
	page.Base
	records *records.Case
	table   *widget.Table[string, row]

	kept      kept
	about     uint64 // the piece that this is of
	answered  string // why the record is not of what is on the desk, and somebody enters all the same
	tolerance inspection.Tolerance
	stated    bool // somebody stated the tolerances

	lying []recorder.Beside // records of it that lie here while none is open

	seen   seen
	result *acceptance.Result
	rows   []row
}

// kept is what goes from entry to entry of one piece: another is measured at places,
// with an instrument and before a witness that somebody states of it.
type kept struct{ place, side, method, instrument, witness string }

// New makes the page on a desk with what lies beside the schedule.
func New(d *page.Desk, c *records.Case) *Page {
	p := &Page{Base: page.NewBase("inspect", d), records: c}
	p.table = p.newTable()
	p.Room = func() draw.Size { return draw.Size{W: p.Frame.Body.W, H: p.panelHeight(true) - 1} }
	const (
		enter  = "Recording"
		choose = "What is held against what"
		about  = "Moving around"
	)
	need := func() string { return c.NeedOwn("6") }
	opens := func(o func() page.Overlay) func(keys.Event) { return func(keys.Event) { p.Open(o()) } }
	enters := func(o func() page.Overlay) func(keys.Event) {
		return func(keys.Event) { c.Named(p.Open, func() { p.meant(func() { p.Open(o()) }) }) }
	}
	takes := func(keys.Event) { c.Named(p.Open, func() { p.Open(c.TakeUp()) }) }
	p.Rows = keys.Table{
		{Keys: []string{"1"}, Short: "readings", Long: "enter readings: choose the kind, then value Enter value Enter", Group: enter, Rank: 1, Can: need, Do: enters(p.kinds)},
		{Keys: []string{"2"}, Short: "defect", Long: "enter a defect seen", Group: enter, Rank: 2, Can: need, Do: enters(p.defect)},
		{Keys: []string{"3"}, Short: "sign", Long: "sign a decision: accept, reject, accept after repair", Group: enter, Rank: 3, Can: need, Do: enters(p.sign)},
		{Keys: []string{"4"}, Long: "all entries of the record; strike one with a reason", Group: enter, Rank: 7, Can: p.haveRecord, Do: opens(p.entries)},
		{Keys: []string{"5"}, Long: "take the specification beside the schedule, or choose one", Group: choose, Rank: 8, Do: keys.Do(func() { c.ChooseSpecification(p.Open) })},
		{Keys: []string{"6"}, Long: "choose the record, or begin one", Group: choose, Rank: 9, Do: func(keys.Event) { p.Open(c.ChooseRecord(p.Open, false)) }},
		{Keys: []string{"7"}, Long: "state the ply-to-ply scatter, to see what readings are to be expected", Group: choose, Rank: 10, Do: opens(p.tolerances)},
		{Keys: []string{"8"}, Long: "what becomes of a reading, a defect or a rejection: repair, retest, use-as-is (the purchaser's concession), scrap", Group: enter, Rank: 11, Can: need, Do: enters(p.dispositions)},
		{Keys: []string{"0"}, Long: "take up the schedule on the desk for this record, as a revision in mid-job", Group: enter, Rank: 13, Can: func() string { return c.CanTakeUp("6") }, Do: takes},
		{Keys: []string{"9"}, Long: "adopt the entries without a seal: you answer for them as they stand", Group: enter, Rank: 12, Can: p.canAdopt, Do: enters(p.adopt)},
		{Keys: []string{keys.Enter}, Short: "whole line", Long: "the line whole: what is required, what was found, by what basis, and what comes next", Group: about, Rank: 4, Can: p.haveLine, Do: opens(p.whole)},
		{Keys: []string{"g"}, Long: "to the line's plies, on the bench, to look at them", Group: about, Rank: 14, Can: p.havePlies, Do: func(keys.Event) { p.jump() }},
		{Keys: widget.TableKeys(), Show: "↑↓", Short: "line", Long: "another line; a screenful; the first line, the last one", Group: about, Rank: 5, Do: p.move},
		{Keys: []string{"n"}, Short: "next problem", Long: "the next line that fails or cannot be determined", Group: about, Rank: 6, Can: p.haveProblem, Do: func(keys.Event) { p.nextProblem() }},
		d.Out(about),
	}
	return p
}

// haveRecord says why there are no entries to look at.
func (p *Page) haveRecord() string {
	if p.records.Record() == nil {
		return p.records.NeedRecord("6")
	}
	return ""
}

// meant goes on once somebody said that an entry is meant for the open record, where that
// is of another schedule than the one on the desk; it asks once until either is another.
func (p *Page) meant(then func()) {
	r, why := p.records.Record(), p.records.Foreign()
	is := ""
	if r != nil && why != "" {
		is = r.Path() + "\x00" + why + "\x00" + p.records.Sum()
	}
	if is == p.answered || is == "" {
		then()
		return
	}
	p.Open(&page.List{Head: "is this the record?", Text: why + ".", Items: []page.Item{
		{Name: "no: nothing is recorded", Note: "6 opens another"}, {Name: "yes: an entry of " + draw.Clean(filepath.Base(r.Path()))},
	}, Take: func(i int) error {
		if i == 1 {
			p.answered = is
			then()
		}
		return nil
	}})
}

// Reset drops what was begun: the document became another.
func (p *Page) Reset() {
	p.Base.Reset()
	p.kept, p.answered = kept{}, ""
	p.records.Reset()
}

// Settle compares anew where anything changed since the last comparison, and
// keeps the line pointed at in sight.
func (p *Page) Settle() {
	if piece := p.records.Piece(); piece != p.about {
		p.kept, p.about = kept{}, piece
	}
	if p.lying = nil; p.records.Record() == nil {
		p.lying = p.records.Lying()
	}
	p.compare()
	p.Base.Settle()
	p.table.Fit(p.tableHeight())
}
