package keys

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// ID names what a key does: "lay", "undo".
type ID string

// Scope is a place where keys act: a page, a form, or Global.
type Scope string

// Global keys act on every page, unless a field is being typed into.
const Global Scope = "global"

// Binding is one row of the table.
type Binding struct {
	ID    ID
	Scope Scope
	// Keys are the names of the keys that do it, as keyin gives them.
	Keys []string
	// Show is how the keys are written on the screen, "1-9"; left out, they
	// are written one after another.
	Show string
	// Short is the word on the last line, "" keeps the binding off it.
	Short string
	// Long is what it does, a phrase for the page of all keys.
	Long string
	// Group is the heading it stands under there.
	Group string
	// Rank orders the last line, the smallest first; what does not fit is
	// left out from the end. Rank 0 always stands, at the right end.
	Rank int
	// Rare marks what is done so seldom that a chord may be its only key.
	Rare bool
}

// Can tells why a binding cannot act here and now, "" if it can.
type Can func(ID) (reason string)

// Table finds bindings. Make it with New.
type Table struct {
	all   []Binding
	byKey map[Scope]map[string]int
}

// New makes a table of bindings and returns all that is wrong with them as one
// error: a key bound twice in a scope or in a scope and Global, an ID twice in a scope, a key no
// terminal can send, a chord without a plain alternative, a text missing.
func New(bindings ...Binding) (*Table, error) {
	t := &Table{all: bindings, byKey: map[Scope]map[string]int{}}
	var wrong []string
	complain := func(b Binding, format string, args ...any) {
		wrong = append(wrong, fmt.Sprintf("binding %q of %q: ", b.ID, b.Scope)+fmt.Sprintf(format, args...))
	}
	ids := map[Scope]map[ID]bool{}
	for i, b := range bindings {
		if t.byKey[b.Scope] == nil {
			t.byKey[b.Scope] = map[string]int{}
			ids[b.Scope] = map[ID]bool{}
		}
		switch {
		case b.ID == "" || b.Scope == "" || b.Long == "" || b.Group == "" || len(b.Keys) == 0:
			complain(b, "id, scope, keys, long text and group are all needed")
		case b.Rank < 0:
			complain(b, "rank %d is below 0", b.Rank)
		case ids[b.Scope][b.ID]:
			complain(b, "the scope has this id twice")
		}
		ids[b.Scope][b.ID] = true
		plain := false
		for _, k := range b.Keys {
			if reason := Impossible(k); reason != "" {
				complain(b, "key %q %s", k, reason)
			}
			if other, ok := t.byKey[b.Scope][k]; ok {
				complain(b, "key %q already does %q", k, bindings[other].ID)
			}
			t.byKey[b.Scope][k] = i
			plain = plain || !chord(k)
		}
		if !plain && !b.Rare && len(b.Keys) > 0 {
			complain(b, "only chords do it: gloved hands need a plain key")
		}
	}
	for i, b := range bindings {
		if b.Scope == Global {
			continue
		}
		for _, k := range b.Keys {
			if other, ok := t.byKey[Global][k]; ok && t.byKey[b.Scope][k] == i {
				complain(b, "key %q does %q everywhere", k, bindings[other].ID)
			}
		}
	}
	if wrong != nil {
		return nil, fmt.Errorf("keys: %s", strings.Join(wrong, "; "))
	}
	return t, nil
}

// Find returns the binding of a key in the first of the scopes that has one.
func (t *Table) Find(key string, scopes ...Scope) (Binding, bool) {
	for _, s := range scopes {
		if i, ok := t.byKey[s][key]; ok {
			return t.all[i], true
		}
	}
	return Binding{}, false
}

// In returns the bindings of the scopes, in the order of the table.
func (t *Table) In(scopes ...Scope) []Binding {
	var out []Binding
	for _, s := range scopes {
		for _, b := range t.all {
			if b.Scope == s {
				out = append(out, b)
			}
		}
	}
	return out
}

// Shown returns how the binding's keys are written.
func (b Binding) Shown() string {
	if b.Show != "" {
		return b.Show
	}
	names := make([]string, len(b.Keys))
	for i, k := range b.Keys {
		names[i] = Name(k)
	}
	return strings.Join(names, " ")
}

// Name returns how a key is written on the screen.
func Name(key string) string {
	switch key {
	case Up:
		return "↑"
	case Down:
		return "↓"
	case Left:
		return "←"
	case Right:
		return "→"
	case PgUp:
		return "PgUp"
	case PgDown:
		return "PgDn"
	case ShiftTab:
		return "Shift-Tab"
	}
	if c, ok := strings.CutPrefix(key, "ctrl+"); ok {
		return "Ctrl-" + strings.ToUpper(c[:1]) + c[1:]
	}
	if utf8.RuneCountInString(key) > 1 {
		return strings.ToUpper(key[:1]) + key[1:]
	}
	return key
}

func chord(key string) bool {
	if strings.HasPrefix(key, "ctrl+") || strings.HasPrefix(key, "shift+") {
		return true
	}
	r, n := utf8.DecodeRuneInString(key)
	return n == len(key) && unicode.IsUpper(r)
}

// Impossible tells why no key of this name can arrive, "" if it can. The names
// are those of Event.
func Impossible(key string) string {
	if utf8.RuneCountInString(key) == 1 {
		if e := Key(key); e.Rune == 0 || key == " " {
			return "is not a character a key types (a blank is called space)"
		}
		return ""
	}
	switch key {
	case "":
		return "has no name"
	case "ctrl+i":
		return "arrives as tab"
	case "ctrl+m", "ctrl+j":
		return "arrives as enter"
	case "ctrl+[":
		return "arrives as esc"
	case "ctrl+h":
		return "arrives as backspace"
	case Space:
		return ""
	}
	if strings.HasPrefix(key, "alt+") {
		return "arrives as esc and the key behind it"
	}
	if base, ok := strings.CutPrefix(key, "ctrl+"); ok {
		if len(base) == 1 && base >= "a" && base <= "z" {
			return ""
		}
		if slices.Contains([]string{Up, Down, Left, Right, Home, End, PgUp, PgDown}, base) {
			return ""
		}
		return "is a chord terminals do not send"
	}
	if base, ok := strings.CutPrefix(key, "shift+"); ok {
		if slices.Contains([]string{Up, Down, Left, Right, Home, End, Tab}, base) {
			return ""
		}
		return "is a chord terminals do not send"
	}
	switch key {
	case Enter, Esc, Tab, Backspace, Delete, Insert,
		Up, Down, Left, Right, Home, End, PgUp, PgDown,
		"f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8", "f9", "f10", "f11", "f12":
		return ""
	}
	return "is the name of no key"
}
