package bench

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// needsResin tells that a ply has nothing to be laid in yet.
func (b *Bench) needsResin() bool { return len(b.schedule().Resins) == 0 }

// add adds a ply of a material, after asking for a resin where none is stated: a
// resin decides too much to be taken for granted.
func (b *Bench) add(id string) error {
	if !b.needsResin() {
		return b.take(b.adding(id))
	}
	place := "barrier"
	if m, ok := b.library().Material(b.schedule(), id); ok && m.Form != laminate.Veil && m.Form != laminate.ResinCoat && !m.Form.Chopped() {
		place = "structure" // there is no barrier yet
	}
	families := laminate.Families.All()
	var items []page.Item
	for _, f := range families {
		items = append(items, page.Item{Name: f.String()})
	}
	b.preview = nil
	b.Open(&page.List{
		Head: "which resin?", Full: true, At: -1, Items: items, Leave: b.left,
		Text: "Which resin is this " + place + " laid in? The schedule states none. The one taken is added as " + place +
			"; plies added after it take it too, until j, the job data, adds another.",
		Take: func(i int) error { return b.take(b.first(id, laminate.Resin{ID: place, Family: families[i]})) },
	})
	b.Desk.Say("a digit takes the resin and adds " + draw.Clean(id))
	return nil
}

// first adds the first resin and a ply in it, as one change.
func (b *Bench) first(id string, r laminate.Resin) edit.Edit {
	resin, ply := edit.AddResin(b.schedule(), r), b.adding(id)
	return edit.Edit{
		Label: ply.Label + " in " + r.Family.String(),
		At:    ply.At,
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n, err := resin.Do(s)
			if err != nil {
				return nil, err
			}
			return ply.Do(n)
		},
	}
}
