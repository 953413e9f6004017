package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules/resin"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// asksFamily tells that the fix key asks for the families of resins: for the
// finding that one is not stated, and for any other that nothing mechanical
// fixes as long as one is missing, since little can be judged before.
func (b *Bench) asksFamily() bool {
	f := b.finding()
	switch {
	case f == nil:
		return false
	case f.Rule.ID == resin.FamilyMissing.ID:
		return true
	}
	return b.familyless() >= 0 && !b.Waits() && b.offered() == nil
}

// beginFamily asks for the family of resin i and after it of the others that
// plies are in. It opens on a key of its own and never while plies are added: a
// digit meant for a ply cannot answer it. Nothing is taken for granted: the
// first resin has no row pointed at, the next one points at the family before.
func (b *Bench) beginFamily(i int, likely laminate.Family) {
	families := laminate.Families.All()
	at := -1
	var items []page.Item
	for n, f := range families {
		items = append(items, page.Item{Name: f.String()})
		if f == likely {
			at = n
		}
	}
	id := b.schedule().Resins[i].ID
	b.Open(&page.List{
		Head: "which resin family?", Full: true, At: at, Items: items, Leave: b.left,
		Text: "Resin " + draw.Clean(id) + " has no family yet. Without it the wall cannot be checked; the service page says which families suit.",
		Take: func(n int) error {
			family := families[n]
			set := edit.SetResin(b.schedule(), i, "family", family.String(), func(r *laminate.Resin) { r.Family = family })
			if err := b.take(set); err != nil {
				return err
			}
			if next := b.familyless(); next >= 0 {
				b.beginFamily(next, family)
			}
			return nil
		},
	})
}

// familyless is the first resin that plies are in and whose family is not
// stated, -1 for none.
func (b *Bench) familyless() int {
	for i := range b.Desk.Report().Findings {
		if f := &b.Desk.Report().Findings[i]; f.Rule.ID == resin.FamilyMissing.ID {
			return f.At.Index
		}
	}
	return -1
}
