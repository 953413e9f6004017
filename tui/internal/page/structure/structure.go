// Package structure is the page that tells whether the structure is enough:
// every criterion with how much of it is used, the strain of every ply that
// counts, and what would have to be added for it to hold.
package structure

import (
	"frp/veilwright/laminate/wall"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// Structure is the page. Make it with New.
type Structure struct {
	desk *page.Desk
	acts page.Acts[*Structure]
	size draw.Size
	body draw.Rect

	table *widget.Table[string, *wall.Criterion]
	of    *wall.Result // what the table shows
	need  *needed      // what is needed, while it is asked
	top   int          // first line of the chart
}

const (
	scopeStructure keys.Scope = "structure"
	scopeNeed      keys.Scope = "structure, what is needed"
)

// New makes the page on a desk.
func New(d *page.Desk) *Structure {
	p := &Structure{desk: d, acts: acts()}
	p.table = widget.NewTable(d.Theme, func(c *wall.Criterion) string { return c.Name }, p.columns()...)
	p.table.Gap = 1
	p.table.Empty = "no criterion"
	return p
}

// Name is the page's name.
func (*Structure) Name() string { return "structure" }

// SetSize tells the size of the screen.
func (p *Structure) SetSize(w, h int) {
	p.size = draw.Size{W: w, H: h}
	p.body = draw.PageFrame(p.size).Body
}

// Reset drops what was asked.
func (p *Structure) Reset() { p.need, p.of, p.top = nil, nil, 0 }

// Bindings are the page's keys.
func (p *Structure) Bindings() []keys.Binding { return p.acts.Bindings() }

// Scope is where keys act now.
func (p *Structure) Scope() keys.Scope {
	if p.need != nil {
		return scopeNeed
	}
	return scopeStructure
}

// Can tells why a binding cannot act now.
func (p *Structure) Can(id keys.ID) string { return p.acts.Why(p, p.Scope(), id) }

// Busy tells that an answer to "what is needed" is open.
func (p *Structure) Busy() bool { return p.need != nil }

// Typing tells that no text is typed.
func (*Structure) Typing() bool { return false }

// Press handles a key.
func (p *Structure) Press(e keys.Event) page.Wish {
	if p.need == nil && e.Key == keys.Esc {
		return page.Back
	}
	found, why := p.acts.Press(p, p.Scope(), e)
	switch {
	case why != "":
		p.desk.Refuse(why)
	case found:
	case p.need == nil && p.table.Handle(e):
	case p.need != nil && e.Key != "?":
		p.desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter lays it, Esc leaves it")
	default:
		return page.Leave
	}
	return page.Done
}

func acts() page.Acts[*Structure] {
	row := func(scope keys.Scope, id keys.ID, group string, k []string, show, short, long string, rank int, can func(*Structure) string, do func(*Structure, keys.Event)) page.Act[*Structure] {
		return page.Act[*Structure]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank}, Can: can, Do: do}
	}
	const g, n = "On the structure page", "What is needed"
	return page.Acts[*Structure]{
		row(scopeStructure, "need", g, []string{"1", "2", "3", "4"}, "1-4", "what is needed", "how many repeats of the unit are needed", 1, nil, func(p *Structure, e keys.Event) {
			d, _ := e.Digit()
			p.ask(d)
		}),
		row(scopeStructure, "criterion", g, []string{keys.Up, keys.Down, keys.PgUp, keys.PgDown, keys.Home, keys.End}, "↑↓", "criterion", "another criterion and why", 2, nil, func(p *Structure, e keys.Event) { p.table.Handle(e) }),
		row(scopeStructure, "plies", g, []string{keys.Left, keys.Right}, "←→", "plies", "more of the plies' strains", 3, nil, func(p *Structure, e keys.Event) {
			if e.Key == keys.Left {
				p.top--
			} else {
				p.top++
			}
		}),
		row(scopeStructure, "back", g, []string{keys.Esc}, "", "back", "back to the bench", 0, nil, func(*Structure, keys.Event) {}),
		row(scopeNeed, "other unit", n, []string{"1", "2", "3", "4"}, "1-4", "other unit", "the same of another unit", 3, nil, func(p *Structure, e keys.Event) {
			d, _ := e.Digit()
			p.ask(d)
		}),
		row(scopeNeed, "lay it", n, []string{keys.Enter}, "", "lay it", "lay it, as one change", 1, canLay, func(p *Structure, _ keys.Event) { p.insert() }),
		row(scopeNeed, "leave", n, []string{keys.Esc}, "", "leave", "leave everything as it was", 0, nil, func(p *Structure, _ keys.Event) {
			p.need = nil
			p.desk.Say("left as it was")
		}),
	}
}

// result is what is shown: of the document, or of the wall with what is needed.
func (p *Structure) result() *wall.Result {
	if p.need != nil && p.need.found.Result != nil {
		return p.need.found.Result
	}
	return p.desk.Report().Wall
}
