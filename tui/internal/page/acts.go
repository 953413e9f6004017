package page

import (
	"slices"

	"frp/veilwright/tui/internal/keys"
)

// Act is a binding and what it does to a page of type P.
type Act[P any] struct {
	keys.Binding
	Can func(P) string // why it cannot act now; nil: it always can
	Do  func(P, keys.Event)
}

// Acts is a page's part of the key table.
type Acts[P any] []Act[P]

// Bindings are the rows of the key table.
func (a Acts[P]) Bindings() []keys.Binding {
	list := make([]keys.Binding, len(a))
	for i := range a {
		list[i] = a[i].Binding
	}
	return list
}

// Why says why a binding of a scope cannot act now, "" when it can.
func (a Acts[P]) Why(p P, scope keys.Scope, id keys.ID) string {
	for i := range a {
		if a[i].Scope == scope && a[i].ID == id {
			return a[i].why(p)
		}
	}
	return ""
}

// Press does what a key of the scope does. Found is false where the scope has
// no such key; why is not empty where it cannot act now.
func (a Acts[P]) Press(p P, scope keys.Scope, e keys.Event) (found bool, why string) {
	for i := range a {
		if a[i].Scope != scope || !slices.Contains(a[i].Keys, e.Key) {
			continue
		}
		if why = a[i].why(p); why == "" {
			a[i].Do(p, e)
		}
		return true, why
	}
	return false, ""
}

func (a *Act[P]) why(p P) string {
	if a.Can == nil {
		return ""
	}
	return a.Can(p)
}
