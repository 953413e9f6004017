// Package wall is the page that tells whether the structure is enough: every
// criterion with how much of it is used, the strain of every ply that counts,
// and what would have to be added for the wall to hold.
package wall

import (
	"frp/veilwright/laminate/wall"
	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/layout"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget/table"
)

// Wall is the page. Make it with New.
type Wall struct {
	desk *page.Desk
	acts page.Acts[*Wall]
	size layout.Size
	body layout.Rect

	table *table.Table[string, *wall.Criterion]
	of    *wall.Result // what the table shows
	need  *needed      // what is needed, while it is asked
	top   int          // first line of the chart
}

const (
	scopeWall keys.Scope = "wall"
	scopeNeed keys.Scope = "wall, what is needed"
)

// New makes the page on a desk.
func New(d *page.Desk) *Wall {
	p := &Wall{desk: d, acts: acts()}
	p.table = table.New(d.Theme, func(c *wall.Criterion) string { return c.Name }, p.columns()...)
	p.table.Gap = 1
	p.table.Empty = "no criterion"
	return p
}

// Name is the page's name.
func (*Wall) Name() string { return "wall" }

// SetSize tells the size of the screen.
func (p *Wall) SetSize(w, h int) {
	p.size = layout.Size{W: w, H: h}
	p.body = layout.PageFrame(p.size).Body
}

// Reset drops what was asked.
func (p *Wall) Reset() { p.need, p.of, p.top = nil, nil, 0 }

// Bindings are the page's keys.
func (p *Wall) Bindings() []keys.Binding { return p.acts.Bindings() }

// Scope is where keys act now.
func (p *Wall) Scope() keys.Scope {
	if p.need != nil {
		return scopeNeed
	}
	return scopeWall
}

// Can tells why a binding cannot act now.
func (p *Wall) Can(id keys.ID) string { return p.acts.Why(p, p.Scope(), id) }

// Busy tells that an answer to "what is needed" is open.
func (p *Wall) Busy() bool { return p.need != nil }

// Typing tells that no text is typed.
func (*Wall) Typing() bool { return false }

// Press handles a key.
func (p *Wall) Press(e keyin.Event) page.Wish {
	if p.need == nil && e.Key == keyin.Esc {
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

func acts() page.Acts[*Wall] {
	row := func(scope keys.Scope, id keys.ID, group string, k []string, show, short, long string, rank int, can func(*Wall) string, do func(*Wall, keyin.Event)) page.Act[*Wall] {
		return page.Act[*Wall]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank}, Can: can, Do: do}
	}
	const g, n = "On the wall page", "What is needed"
	return page.Acts[*Wall]{
		row(scopeWall, "need", g, []string{"1", "2", "3", "4"}, "1-4", "what is needed", "how many repeats of the unit are needed", 1, nil, func(p *Wall, e keyin.Event) {
			d, _ := e.Digit()
			p.ask(d)
		}),
		row(scopeWall, "criterion", g, []string{keyin.Up, keyin.Down, keyin.PgUp, keyin.PgDown, keyin.Home, keyin.End}, "↑↓", "criterion", "another criterion and why", 2, nil, func(p *Wall, e keyin.Event) { p.table.Handle(e) }),
		row(scopeWall, "plies", g, []string{keyin.Left, keyin.Right}, "←→", "plies", "more of the plies' strains", 3, nil, func(p *Wall, e keyin.Event) {
			if e.Key == keyin.Left {
				p.top--
			} else {
				p.top++
			}
		}),
		row(scopeWall, "back", g, []string{keyin.Esc}, "", "back", "back to the bench", 0, nil, func(*Wall, keyin.Event) {}),
		row(scopeNeed, "other unit", n, []string{"1", "2", "3", "4"}, "1-4", "other unit", "the same of another unit", 3, nil, func(p *Wall, e keyin.Event) {
			d, _ := e.Digit()
			p.ask(d)
		}),
		row(scopeNeed, "lay it", n, []string{keyin.Enter}, "", "lay it", "lay it, as one change", 1, canLay, func(p *Wall, _ keyin.Event) { p.insert() }),
		row(scopeNeed, "leave", n, []string{keyin.Esc}, "", "leave", "leave everything as it was", 0, nil, func(p *Wall, _ keyin.Event) {
			p.need = nil
			p.desk.Say("left as it was")
		}),
	}
}

// result is what is shown: of the document, or of the wall with what is needed.
func (p *Wall) result() *wall.Result {
	if p.need != nil && p.need.found.Result != nil {
		return p.need.found.Result
	}
	return p.desk.Report().Wall
}
