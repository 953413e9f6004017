// Package input is one line of text being typed. Fields, questions and filters
// are made of it.
package input

import (
	"slices"
	"strings"
	"unicode"

	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/theme"
)

// Most is how many characters a line holds unless it says otherwise.
const Most = 4096

// Line is a line of text and the place in it where typing goes. The zero value
// is an empty line.
type Line struct {
	// Most bounds the characters held; 0 means Most.
	Most int

	runes []rune
	at    int
}

// Set replaces the text and puts the cursor behind it. Line breaks become blanks.
func (l *Line) Set(s string) {
	l.runes = l.runes[:0]
	l.at = 0
	l.insert(s)
}

// Text returns what is typed.
func (l *Line) Text() string { return string(l.runes) }

// Empty reports that nothing is typed.
func (l *Line) Empty() bool { return len(l.runes) == 0 }

// Handle takes a key or a paste and reports whether it was one for the line:
// characters, Backspace, Delete, Left, Right, Home, End, and for who knows them
// Ctrl-A, Ctrl-E, Ctrl-U (all before the cursor), Ctrl-K (all behind), Ctrl-W (a word).
func (l *Line) Handle(e keyin.Event) bool {
	switch e.Key {
	case "":
		l.insert(e.Paste)
	case keyin.Backspace:
		l.cut(l.before(l.at), l.at)
	case keyin.Delete:
		l.cut(l.at, l.after(l.at))
	case keyin.Left:
		l.at = l.before(l.at)
	case keyin.Right:
		l.at = l.after(l.at)
	case keyin.Home, "ctrl+a":
		l.at = 0
	case keyin.End, "ctrl+e":
		l.at = len(l.runes)
	case "ctrl+u":
		l.cut(0, l.at)
	case "ctrl+k":
		l.cut(l.at, len(l.runes))
	case "ctrl+w":
		l.cut(l.word(), l.at)
	default:
		if e.Rune == 0 {
			return false
		}
		l.insert(string(e.Rune))
	}
	return true
}

func (l *Line) insert(s string) {
	most := l.Most
	if most == 0 {
		most = Most
	}
	add := []rune(strings.ReplaceAll(text.Typable(s), "\n", " "))
	add = add[:min(len(add), max(0, most-len(l.runes)))]
	l.runes = slices.Insert(l.runes, l.at, add...)
	l.at += len(add)
}

func (l *Line) cut(from, to int) {
	l.runes = slices.Delete(l.runes, from, to)
	l.at = from
}

// before and after step over a letter together with its accents.
func (l *Line) before(at int) int {
	for at > 0 {
		at--
		if !unicode.IsMark(l.runes[at]) {
			break
		}
	}
	return at
}

func (l *Line) after(at int) int {
	if at < len(l.runes) {
		at++
	}
	for at < len(l.runes) && unicode.IsMark(l.runes[at]) {
		at++
	}
	return at
}

func (l *Line) word() int {
	at := l.at
	for at > 0 && l.runes[at-1] == ' ' {
		at--
	}
	for at > 0 && l.runes[at-1] != ' ' {
		at--
	}
	return at
}

// bar is the cursor where no color can show it.
const bar = "▏"

// View draws the line as exactly w cells with the cursor in sight. Without
// colors the cursor is a bar before the next character.
func (l *Line) View(th *theme.Theme, w int) string {
	if w < 1 {
		return ""
	}
	before := text.Clean(string(l.runes[:l.at]))
	end := l.after(l.at)
	under := text.Clean(string(l.runes[l.at:end]))
	behind := text.Clean(string(l.runes[end:]))
	cursor := bar
	if !th.Cursor.Plain() {
		cursor = th.Cursor.Render(under)
		if under == "" {
			cursor = th.Cursor.Render(" ")
		}
	} else {
		behind = under + behind
	}
	room := w - text.Width(cursor)
	if room < 0 {
		return text.Spaces(w)
	}
	before = text.Tail(before, room)
	behind = text.Cut(behind, room-text.Width(before))
	fill := room - text.Width(before) - text.Width(behind)
	return th.Input.Render(before) + cursor + th.Input.Render(behind) + text.Spaces(fill)
}

// Unfinished is what a widget says when Esc would drop what has been typed.
const Unfinished = "typed, but not taken: Enter takes it, Esc once more drops it"
