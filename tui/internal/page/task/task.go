// Package task is what is done in the lower part of a page: a sheet is filled
// in field after field, or one thing is chosen of a list. A page shows one task
// at a time and gives it every key.
package task

import (
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// Task is something begun and not finished.
type Task interface {
	Title() string
	// Press handles a key and returns what goes on: the task itself, another
	// one, or nil when it is over.
	Press(d *page.Desk, e keys.Event) Task
	Lines(t *draw.Theme, w, h int) []string
	Kind() Kind
}

// Kind is how a task takes keys.
type Kind uint8

// The kinds.
const (
	Filling  Kind = iota // characters go into a field
	Choosing             // digits take a numbered thing
	Finding              // digits too, and letters narrow the list
)

// Scope is where the keys of a task act on the page of this name.
func Scope(name string, k Kind) keys.Scope {
	switch k {
	case Filling:
		return keys.Scope(name + ", filling in")
	case Finding:
		return keys.Scope(name + ", finding")
	case Choosing:
	}
	return keys.Scope(name + ", choosing")
}

// Typing tells that characters go into a text field.
func Typing(t Task) bool { return t != nil && t.Kind() != Choosing }

// Bindings are the rows of the key table for all tasks of a page.
func Bindings(name string) []keys.Binding {
	digits := []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"}
	row := func(k Kind, group string, id keys.ID, on []string, show, short, long string, rank int) keys.Binding {
		return keys.Binding{ID: id, Scope: Scope(name, k), Keys: on, Show: show, Short: short, Long: long, Group: group, Rank: rank}
	}
	const fill, choose, find = "Filling in", "Choosing", "Finding"
	return []keys.Binding{
		row(Filling, fill, "next", []string{keys.Enter}, "", "next, take", "the next field; from the last one: take it", 1),
		row(Filling, fill, "field", []string{keys.Up, keys.Down}, "↑↓", "field", "the field before, the next one", 2),
		row(Filling, fill, "one of", []string{keys.Left, keys.Right, keys.Space}, "←→", "", "the choice before, the next one; a digit takes it", 4),
		row(Filling, fill, "take back", []string{keys.Backspace, keys.Delete}, "", "", "take a character back, empty the field", 5),
		row(Filling, fill, "leave", []string{keys.Esc}, "", "leave", "leave it; where something is typed, the second time", 3),

		row(Choosing, choose, "take", digits, "1-9", "take", "take the numbered thing", 1),
		row(Choosing, choose, "take pointed at", []string{keys.Enter}, "", "take", "take the thing pointed at", 2),
		row(Choosing, choose, "point", []string{keys.Up, keys.Down, keys.Home, keys.End, keys.PgUp, keys.PgDown}, "↑↓", "choose", "point at another", 3),
		row(Choosing, choose, "leave", []string{keys.Esc}, "", "leave", "leave it", 4),

		row(Finding, find, "take", digits, "1-9", "take", "take the numbered row", 1),
		row(Finding, find, "take pointed at", []string{keys.Enter}, "", "take", "take the row pointed at", 2),
		row(Finding, find, "point", []string{keys.Up, keys.Down, keys.PgUp, keys.PgDown}, "↑↓", "choose", "point at another row", 3),
		row(Finding, find, "narrow", []string{keys.Backspace, keys.Left}, "letters", "find", "letters narrow the list, Backspace takes one back; in a folder with nothing typed ← goes up", 5),
		row(Finding, find, "leave", []string{keys.Esc}, "", "leave", "forget the letters; again: leave it", 4),
	}
}
