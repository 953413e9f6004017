package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

const nothingFound = "no material is called so: Backspace takes letters back, Esc leaves"

// names finds a material by a few letters of its id or name.
type names struct {
	*widget.Finder
	pool []*laminate.Material
}

// newNames offers the schedule's own materials first, then the library's.
func (b *Bench) newNames() names {
	n := names{}
	var items []widget.Item
	seen := map[string]bool{}
	add := func(list []laminate.Material) {
		for i := range list {
			m := &list[i]
			if seen[m.ID] {
				continue
			}
			seen[m.ID] = true
			n.pool = append(n.pool, m)
			items = append(items, widget.Item{
				Mark: page.Glyph(m.Form), Name: draw.Left(draw.Clean(m.ID), 18) + " " + page.MaterialName(m), Note: m.Form.String(), Word: b.weight(m),
			})
		}
	}
	add(b.schedule().Materials)
	add(b.library().Materials)
	n.Finder = widget.New(b.desk.Theme, "name", items)
	return n
}

// chosen is the material pointed at, nil where nothing matches.
func (n names) chosen() *laminate.Material {
	if i, ok := n.Choice(); ok {
		return n.pool[i]
	}
	return nil
}

// lay is laying by name.
type lay struct{ names names }

func (b *Bench) beginLay() {
	m := &lay{b.newNames()}
	b.begin(m)
	m.show(b)
}

func (m *lay) show(b *Bench) {
	c := m.names.chosen()
	switch {
	case c == nil:
		b.preview = nil
		b.desk.Refuse(nothingFound)
	case b.needsResin():
		b.desk.Say("no resin is stated yet: Enter goes on to which one")
	default:
		b.try(b.laying(c.ID))
	}
}

func (m *lay) typed(b *Bench, e keys.Event) {
	switch m.names.Handle(e) {
	case widget.Left:
		b.drop()
	case widget.Taken:
		b.lay(m.names.chosen().ID)
	case widget.Refused:
		b.desk.Refuse(m.names.Reason())
	case widget.Going:
		m.show(b)
	}
}

func (*lay) scope() keys.Scope                   { return scopeLay }
func (*lay) title(*Bench) string                 { return "lay any material" }
func (m *lay) lines(_ *Bench, w, h int) []string { return m.names.View(w, h) }
func (*lay) typing() bool                        { return true }

// nameActs are the keys of a list of names in a scope.
func nameActs(scope keys.Scope, group, takes, long string) page.Acts[*Bench] {
	row := func(id keys.ID, k []string, show, short, long string, rank int) page.Act[*Bench] {
		return page.Act[*Bench]{
			Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank},
			Do:      func(b *Bench, e keys.Event) { b.mode.typed(b, e) },
		}
	}
	return page.Acts[*Bench]{
		row("take", []string{keys.Enter}, "", takes, long, 1),
		row("choose", []string{keys.Up, keys.Down, keys.PgUp, keys.PgDown}, "↑↓", "choose", "choose among what was found", 2),
		row("numbered", digits(), "1-9", takes, "take the numbered row", 3),
		row("back", []string{keys.Backspace, keys.Delete, keys.Left, keys.Right, keys.Home, keys.End}, "letters", "find", "a few letters of an id or name; Backspace takes one back", 4),
		row("leave", []string{keys.Esc}, "", "leave", "forget the letters; again: leave", 0),
	}
}

func layActs() page.Acts[*Bench] {
	return nameActs(scopeLay, "Laying by name", "lay it", "lay it outward of the row")
}
