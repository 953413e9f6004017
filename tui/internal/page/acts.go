package page

import "frp/veilwright/tui/internal/keys"

// Act is a binding and what it does to a page of type P.
type Act[P any] struct {
	keys.Binding
	Can func(P) string // why it cannot act now; nil: it always can
	Do  func(P, keys.Event)
}

// Acts are the keys of a page with several places in it.
type Acts[P any] []Act[P]

// Table is the keys of one place.
func (a Acts[P]) Table(p P, scope keys.Scope) keys.Table {
	var t keys.Table
	for i := range a {
		x := &a[i]
		if x.Scope != scope {
			continue
		}
		r := keys.Row{Keys: x.Keys, Show: x.Show, Short: x.Short, Long: x.Long, Group: x.Group, Rank: x.Rank, Do: func(e keys.Event) { x.Do(p, e) }}
		if x.Can != nil {
			r.Can = func() string { return x.Can(p) }
		}
		t = append(t, r)
	}
	return t
}
