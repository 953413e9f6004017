package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/tui/internal/page"
)

const nothingFound = "no material is called so: Backspace deletes letters, Esc leaves"

// byName opens the list of all materials. Point is told the one pointed at, nil
// where nothing is found.
func (b *Bench) byName(head, verb string, point func(*laminate.Material), take func(*laminate.Material) error, leave func()) {
	pool, items := page.Materials(b.Desk)
	at := func(i int) *laminate.Material {
		if i < 0 || i >= len(pool) {
			return nil
		}
		return pool[i]
	}
	b.Open(&page.List{
		Head: head, Find: "name", Verb: verb, Items: items, Leave: leave,
		Take:  func(i int) error { return take(pool[i]) },
		Point: func(i int) { point(at(i)) },
	})
	point(at(0))
}

func (b *Bench) beginAdd() {
	b.byName("add any material", "add it", func(m *laminate.Material) {
		if m != nil {
			b.try(b.adding(m.ID))
			return
		}
		b.preview = nil
		b.Desk.Refuse(nothingFound)
	}, func(m *laminate.Material) error { return b.take(b.adding(m.ID)) }, b.left)
}
