// Package layup is the page for the floor: the next ply in large type, what it
// takes of fabric and resin mix, the gel stop that comes, and one key that
// ticks it into the record.
package layup

import (
	"cmp"
	"strconv"
	"time"

	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
)

// heldKey is how close two presses of the tick key are one held key. A ply
// takes minutes; a key that a glove rests on repeats many times a second.
const heldKey = time.Second

// Page is the page. Make it with New.
type Page struct {
	page.Base
	records *records.Case
	orderOf *rules.Report // orderIs is of this one
	orderIs laid.Order

	look     int       // the ply looked at, 0 the next one
	pressed  time.Time // when the tick key was pressed last
	open     bool      // something was open before the key
	ambient  ambient   // measured and not yet recorded
	again    bool      // measured before the program ended, and nobody looked at it since
	skipped  bool      // somebody went past the ambient conditions before the first ply
	answered string    // what spoke against laying up, and somebody answered for
	coated   string    // what the coat comes after, and somebody answered for
	typed    details   // typed, for plies of the same material and resin

	bond  *record.Bond // told before the first ply onto a cured face, and recorded with it
	about uint64       // the piece that these are of

	points points // that lie before the last ply, as of the last key

	begun []recorder.Beside // records of it that lie here while none is open
}

// New makes the page on a desk with what lies beside the schedule.
func New(d *page.Desk, c *records.Case) *Page {
	p := &Page{Base: page.NewBase("lay-up", d), records: c}
	p.Room = func() draw.Size {
		return draw.Size{W: p.Frame.Body.W, H: p.Frame.Body.H - len(p.above(p.Frame.Body.W)) - 1}
	}
	const lay, about = "Laying up", "Moving around"
	p.Rows = keys.Table{
		{Keys: []string{keys.Enter, "0"}, Show: "Enter 0", Short: "laid", Long: "the ply is laid: record it", Group: lay, Rank: 1, Can: p.canTick, Do: keys.Do(func() { c.Named(p.Open, func() { p.bonded(p.tick) }) })},
		{Keys: []string{"."}, Short: "laid, note", Long: "the ply is laid: record it with a note (a digit selects one)", Group: lay, Rank: 2, Can: p.canTick, Do: keys.Do(p.notes)},
		{Keys: []string{"4"}, Short: "not as written", Long: "the ply is laid of another material, count, lap or lot: record it so", Group: lay, Rank: 6, Can: p.canTick, Do: keys.Do(func() { c.Named(p.Open, func() { p.bonded(p.otherwise) }) })},
		{Keys: []string{"5", "u", "x", keys.Delete}, Show: "5 u", Short: "undo", Long: "undo the last recorded ply, with a reason; it stays in the record, struck", Group: lay, Rank: 7, Can: p.canStrike, Do: keys.Do(func() { c.Named(p.Open, p.strike) })},
		{Keys: []string{"*"}, Long: "record the ply shown though it is not the next one", Group: lay, Rank: 9, Can: p.canDisorder, Do: keys.Do(func() {
			c.Named(p.Open, func() {
				p.bonded(func() { p.gate(func(note string) { p.lay(p.ply(), note, record.Laid{}) }) })
			})
		})},
		{Keys: []string{"1"}, Short: "ambient", Long: "air, humidity and surface, for the next ply; warns of dew", Group: lay, Rank: 3, Can: p.needPlies, Do: keys.Do(func() { p.askAmbient(nil) })},
		{Keys: []string{"2"}, Short: "who, lots", Long: "operator, lots and shares: kept from ply to ply", Group: lay, Rank: 4, Can: p.needPlies, Do: keys.Do(p.askDetails)},
		{Keys: []string{"3"}, Short: "record", Long: "choose the record, or start one", Group: lay, Rank: 5, Do: keys.Do(func() { p.Open(c.ChooseRecord(p.Open, true)) })},
		{Keys: []string{"6"}, Long: "a hold or witness point is passed, or not: record it, with who witnesses", Group: lay, Rank: 10, Can: p.needRecord, Do: keys.Do(func() { c.Named(p.Open, p.askHold) })},
		{Keys: []string{"7"}, Long: "take the specification beside the schedule, or choose one: lay-up stops at its hold points", Group: lay, Rank: 11, Do: keys.Do(func() { c.ChooseSpecification(p.Open) })},
		{Keys: []string{"8"}, Long: "the serial number, as marked on it, of a record that was begun without one", Group: lay, Rank: 12, Can: func() string { return cmp.Or(p.needRecord(), c.CanMark("3")) }, Do: keys.Do(func() { c.Named(p.Open, func() { p.Open(c.Mark()) }) })},
		{Keys: []string{keys.Up, keys.Down}, Show: "↑↓", Short: "look", Long: "look at the ply inward, outward; nothing is recorded", Group: about, Rank: 8, Can: p.needPlies, Do: p.turn},
		{Keys: []string{"w"}, Short: "all of it", Long: "all that stops work, all cautions, and what the ply is and takes, whole", Group: about, Rank: 9, Can: p.needPlies, Do: keys.Do(func() { p.Open(p.whole()) })},
		{Keys: []string{"n", keys.Home}, Long: "back to the next ply", Group: about, Rank: 20, Can: p.needPlies, Do: keys.Do(func() {
			p.look = 0
			d.Say("ply " + strconv.Itoa(p.ply()) + " is shown")
		})},
		{Keys: []string{"g"}, Long: "to this ply, on the bench", Group: about, Rank: 21, Can: p.canBench, Do: keys.Do(func() {
			d.Visit(p.Name(), d.RowOf(p.ply()))
		})},
		d.Out(about),
	}
	return p
}

// Reset drops what was begun: the document became another.
func (p *Page) Reset() {
	p.Base.Reset()
	p.ambient = ambient{}
	p.forget()
	p.records.Reset()
}

// forget drops what was said of something else than is laid up now. Air and humidity
// are the shop's, the surface is that piece's own.
func (p *Page) forget() {
	p.ambient.surface = quantity.Temperature{}
	p.look, p.skipped, p.again, p.typed, p.answered, p.coated, p.bond = 0, false, false, details{}, "", "", nil
}

// Settle notes when what was open is closed: the Enter that ended it ticks nothing.
func (p *Page) Settle() {
	p.Base.Settle()
	if piece := p.records.Piece(); piece != p.about {
		p.forget()
		p.about = piece
	}
	p.keepAhead()
	if p.begun = nil; p.records.Record() == nil {
		p.begun = p.records.Unfinished()
	}
	p.points = p.pointsBefore(p.lastPly())
	open := p.Over() != nil
	if p.open && !open {
		p.pressed = p.records.Now()
	}
	p.open = open
}
