package keys

import (
	"unicode/utf8"

	"frp/veilwright/tui/internal/draw"
)

// Event is one key press or one paste. The root sends it on to whatever has the
// focus.
type Event struct {
	// Key names the key: "a", "+", "é", "space", "enter", "esc", "tab",
	// "backspace", "up", "pgdown", "f1", "ctrl+c" … It is "" for a paste.
	Key string
	// Rune is the character the key types, 0 if it types none.
	Rune rune
	// Paste is the pasted text: line breaks as \n, invisible and control
	// characters left out. Only text fields take it.
	Paste string
}

// Names of the keys handled by name in more than one place.
const (
	Enter     = "enter"
	Esc       = "esc"
	Tab       = "tab"
	ShiftTab  = "shift+tab"
	Space     = "space"
	Backspace = "backspace"
	Delete    = "delete"
	Insert    = "insert"
	Up        = "up"
	Down      = "down"
	Left      = "left"
	Right     = "right"
	Home      = "home"
	End       = "end"
	PgUp      = "pgup"
	PgDown    = "pgdown"
	// Unprintable is any character that could not be shown, and any key the
	// terminal library has no name for.
	Unprintable = "unprintable"
)

// Key returns the press of a named key, a single character included.
func Key(name string) Event {
	if name == Space || name == " " {
		return Event{Key: Space, Rune: ' '}
	}
	if r, n := utf8.DecodeRuneInString(name); n > 0 && n == len(name) {
		return typed(r)
	}
	return Event{Key: name}
}

func typed(r rune) Event {
	if r == ' ' {
		return Event{Key: Space, Rune: ' '}
	}
	if draw.Typable(string(r)) == "" {
		return Event{Key: Unprintable}
	}
	return Event{Key: string(r), Rune: r}
}

// Digit returns the digit a press typed, 0 to 9.
func (e Event) Digit() (n int, ok bool) {
	if e.Rune >= '0' && e.Rune <= '9' {
		return int(e.Rune - '0'), true
	}
	return 0, false
}
