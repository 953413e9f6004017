// Package inspect is the page on which a schedule and a record are held against
// a specification: what is demanded beside what was found, failures first, with
// the readings, defects and decisions that an inspector enters.
package inspect

import (
	"slices"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/binder"
	"frp/veilwright/tui/internal/page/task"
	"frp/veilwright/tui/internal/widget"
)

const name = "inspect"

const scope keys.Scope = name

// Page is the page. Make it with New.
type Page struct {
	desk   *page.Desk
	binder *binder.Binder
	acts   page.Acts[*Page]
	frame  draw.Frame
	wish   page.Wish
	task   task.Task
	table  *widget.Table[string, row]

	who, place string // kept from entry to entry
	tolerance  inspection.Tolerance
	stated     bool // somebody stated the tolerances

	seen   seen
	result *acceptance.Result
	rows   []row
}

// New makes the page on a desk with what lies beside the schedule.
func New(d *page.Desk, b *binder.Binder) *Page {
	p := &Page{desk: d, binder: b, acts: acts()}
	p.table = p.newTable()
	return p
}

// Name is the page's name.
func (*Page) Name() string { return name }

// SetSize tells the size of the screen.
func (p *Page) SetSize(w, h int) { p.frame = draw.PageFrame(draw.Size{W: w, H: h}) }

// Reset drops what was begun: the document became another.
func (p *Page) Reset() {
	p.task = nil
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
		return page.Done
	}
	p.wish = page.Done
	p.settle()
	switch found, why := p.acts.Press(p, scope, e); {
	case why != "":
		p.desk.Refuse(why)
	case !found:
		return page.Leave
	}
	return p.wish
}

func acts() page.Acts[*Page] {
	row := func(id keys.ID, group string, k []string, show, short, long string, rank int, can func(*Page) string, do func(*Page)) page.Act[*Page] {
		return page.Act[*Page]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank},
			Can: can, Do: func(p *Page, _ keys.Event) { do(p) }}
	}
	const (
		enter  = "Recording"
		choose = "What is held against what"
		about  = "Going about"
	)
	move := func(id keys.ID, k []string, show, short, long string, rank int) page.Act[*Page] {
		return page.Act[*Page]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: about, Rank: rank}, Do: (*Page).move}
	}
	return page.Acts[*Page]{
		row("readings", enter, []string{"1"}, "", "readings", "enter readings: choose the kind, then value Enter value Enter", 1, needRecord, func(p *Page) { p.task = p.kinds() }),
		row("defect", enter, []string{"2"}, "", "defect", "enter a defect seen", 2, needRecord, func(p *Page) { p.task = p.defect() }),
		row("sign", enter, []string{"3"}, "", "sign", "sign a decision: accept, reject, accept after repair", 3, needRecord, func(p *Page) { p.task = p.sign() }),
		row("entries", enter, []string{"4"}, "", "", "all entries of the record; strike one with a reason", 7, needRecord, func(p *Page) { p.task = p.entries() }),
		row("specification", choose, []string{"5"}, "", "", "choose the specification", 8, nil, func(p *Page) { p.task = p.binder.ChooseSpecification() }),
		row("record", choose, []string{"6"}, "", "", "choose the record, or begin one", 9, nil, func(p *Page) { p.task = p.binder.ChooseRecord() }),
		row("spread", choose, []string{"7"}, "", "", "state how far plies stray, to see what readings are to be expected", 10, nil, func(p *Page) { p.task = p.tolerances() }),
		row("to the plies", about, []string{keys.Enter, "g"}, "Enter", "to the ply", "to the line's plies, on the bench", 4, havePlies, (*Page).jump),
		move("line", []string{keys.Up, keys.Down, "k", "j"}, "↑↓", "line", "the line before, the next one", 5),
		move("far", []string{keys.PgUp, keys.PgDown, keys.Home, keys.End}, "", "", "a screenful; the first line, the last one", 20),
		row("next failure", about, []string{"n"}, "", "next open", "the next line that fails or cannot be told", 6, haveOpen, (*Page).nextOpen),
		row("back", about, []string{keys.Esc}, "", "", "back to the bench", 21, nil, func(p *Page) { p.wish = page.Back }),
	}
}
