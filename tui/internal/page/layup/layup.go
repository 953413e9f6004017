// Package layup is the page for the floor: the next ply in large type, what it
// takes of fabric and resin mix, the gel stop that comes, and one key that
// ticks it into the record.
package layup

import (
	"slices"
	"strconv"
	"time"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/binder"
	"frp/veilwright/tui/internal/page/task"
)

const name = "lay-up"

const scope keys.Scope = name

// heldKey is how close two presses of the tick key are one held key. A ply
// takes minutes; a key that a glove rests on repeats many times a second.
const heldKey = time.Second

// Page is the page. Make it with New.
type Page struct {
	desk   *page.Desk
	binder *binder.Binder
	acts   page.Acts[*Page]
	frame  draw.Frame
	wish   page.Wish
	task   task.Task

	look    int       // the ply looked at, 0 the next one
	pressed time.Time // when the tick key was pressed last
	climate climate   // measured and not yet recorded
	skipped bool      // somebody went past the climate before the first ply
	typed   details   // typed, for plies of the same material and resin
}

// New makes the page on a desk with what lies beside the schedule.
func New(d *page.Desk, b *binder.Binder) *Page {
	return &Page{desk: d, binder: b, acts: acts()}
}

// Name is the page's name.
func (*Page) Name() string { return name }

// SetSize tells the size of the screen.
func (p *Page) SetSize(w, h int) { p.frame = draw.PageFrame(draw.Size{W: w, H: h}) }

// Reset drops what was begun: the document became another.
func (p *Page) Reset() {
	p.task, p.look, p.climate, p.skipped, p.typed = nil, 0, climate{}, false, details{}
	p.binder.Reset()
}

// Bindings are the page's keys.
func (p *Page) Bindings() []keys.Binding {
	return slices.Concat(p.acts.Bindings(), task.Bindings(name))
}

// Scope is where keys act now.
func (p *Page) Scope() keys.Scope {
	if p.task != nil {
		return task.Scope(name, p.task.Kind())
	}
	return scope
}

// Can says why a binding cannot act now.
func (p *Page) Can(id keys.ID) string { return p.acts.Why(p, p.Scope(), id) }

// Busy tells that something is being filled in or chosen.
func (p *Page) Busy() bool { return p.task != nil }

// Typing tells that characters go into a text field.
func (p *Page) Typing() bool { return task.Typing(p.task) }

// Press handles a key.
func (p *Page) Press(e keys.Event) page.Wish {
	if p.task != nil {
		if e.Key == "?" && !p.Typing() {
			return page.Leave
		}
		p.task = p.task.Press(p.desk, e)
		if p.task == nil {
			p.pressed = p.binder.Now() // the Enter that ended it ticks nothing
		}
		return page.Done
	}
	p.wish = page.Done
	switch found, why := p.acts.Press(p, scope, e); {
	case why != "":
		p.desk.Refuse(why)
	case !found:
		return page.Leave
	}
	return p.wish
}

func acts() page.Acts[*Page] {
	const lay, about = "Laying up", "Moving around"
	row := func(id keys.ID, group string, k []string, show, short, long string, rank int, can func(*Page) string, do func(*Page)) page.Act[*Page] {
		return page.Act[*Page]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank},
			Can: can, Do: func(p *Page, _ keys.Event) { do(p) }}
	}
	return page.Acts[*Page]{
		row("tick", lay, []string{keys.Enter, "0"}, "Enter 0", "laid", "the ply is laid: record it", 1, canTick, (*Page).tick),
		row("note", lay, []string{"."}, "", "laid, note", "the ply is laid: record it with a note (a digit selects one)", 2, canTick, func(p *Page) { p.task = p.notes() }),
		row("strike", lay, []string{"x", keys.Delete}, "x", "", "strike the last entry, with a reason", 8, canStrike, func(p *Page) { p.task = p.strike() }),
		row("out of order", lay, []string{"*"}, "", "", "record the ply shown though it is not the next one", 9, canDisorder, func(p *Page) { p.lay(p.ply(), "") }),
		row("ambient", lay, []string{"1"}, "", "ambient", "air, humidity and surface, for the next ply; warns of dew", 3, needPlies, func(p *Page) { p.task = p.askClimate(nil) }),
		row("kept", lay, []string{"2"}, "", "who, lots", "operator, lots and shares: kept from ply to ply", 4, needPlies, func(p *Page) { p.task = p.askDetails() }),
		row("record", lay, []string{"3"}, "", "record", "choose the record, or start one", 5, nil, func(p *Page) { p.task = p.binder.ChooseRecord() }),
		{Binding: keys.Binding{ID: "look", Scope: scope, Keys: []string{keys.Up, keys.Down, "k", "j"}, Show: "↑↓", Short: "look",
			Long: "look at the ply inward, outward; nothing is recorded", Group: about, Rank: 6}, Can: needPlies, Do: (*Page).turn},
		row("next ply", about, []string{keys.Home, "n"}, "n", "", "back to the next ply", 20, needPlies, func(p *Page) {
			p.look = 0
			p.desk.Say("ply " + strconv.Itoa(p.ply()) + " is shown")
		}),
		row("to the bench", about, []string{"g"}, "", "", "to this ply, on the bench", 21, needPlies, func(p *Page) {
			p.desk.Go(p.rowOf(p.ply()))
			p.wish = page.Back
		}),
		row("back", about, []string{keys.Esc}, "", "", "back to the bench", 22, nil, func(p *Page) { p.wish = page.Back }),
	}
}
