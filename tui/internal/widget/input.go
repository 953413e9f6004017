package widget

import (
	"slices"
	"strings"
	"unicode"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// Most is how many characters a line holds unless it says otherwise.
const MostTyped = 4096

// Line is a line of text and the place in it where typing goes. The zero value
// is an empty line.
type Input struct {
	// Most bounds the characters held; 0 means Most.
	Most int

	runes []rune
	at    int
}

// Set replaces the text and puts the cursor behind it. Line breaks become blanks.
func (l *Input) Set(s string) {
	l.runes = l.runes[:0]
	l.at = 0
	l.insert(s)
}

// Text returns what is typed.
func (l *Input) Text() string { return string(l.runes) }

// Empty reports that nothing is typed.
func (l *Input) Empty() bool { return len(l.runes) == 0 }

// Handle takes a key or a paste and reports whether it was one for the line:
// characters, Backspace, Delete, Left, Right, Home, End, and for who knows them
// Ctrl-A, Ctrl-E, Ctrl-U (all before the cursor), Ctrl-K (all behind), Ctrl-W (a word).
func (l *Input) Handle(e keys.Event) bool {
	switch e.Key {
	case "":
		l.insert(e.Paste)
	case keys.Backspace:
		l.cut(l.before(l.at), l.at)
	case keys.Delete:
		l.cut(l.at, l.after(l.at))
	case keys.Left:
		l.at = l.before(l.at)
	case keys.Right:
		l.at = l.after(l.at)
	case keys.Home, "ctrl+a":
		l.at = 0
	case keys.End, "ctrl+e":
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

func (l *Input) insert(s string) {
	most := l.Most
	if most == 0 {
		most = MostTyped
	}
	add := []rune(strings.ReplaceAll(draw.Typable(s), "\n", " "))
	add = add[:min(len(add), max(0, most-len(l.runes)))]
	l.runes = slices.Insert(l.runes, l.at, add...)
	l.at += len(add)
}

func (l *Input) cut(from, to int) {
	l.runes = slices.Delete(l.runes, from, to)
	l.at = from
}

// before and after step over a letter together with its accents.
func (l *Input) before(at int) int {
	for at > 0 {
		at--
		if !unicode.IsMark(l.runes[at]) {
			break
		}
	}
	return at
}

func (l *Input) after(at int) int {
	if at < len(l.runes) {
		at++
	}
	for at < len(l.runes) && unicode.IsMark(l.runes[at]) {
		at++
	}
	return at
}

func (l *Input) word() int {
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
const cursorBar = "▏"

// View draws the line as exactly w cells with the cursor in sight. Without
// colors the cursor is a bar before the next character.
func (l *Input) View(th *draw.Theme, w int) string {
	if w < 1 {
		return ""
	}
	before := draw.Clean(string(l.runes[:l.at]))
	end := l.after(l.at)
	under := draw.Clean(string(l.runes[l.at:end]))
	behind := draw.Clean(string(l.runes[end:]))
	cursor := cursorBar
	if !th.Cursor.Plain() {
		cursor = th.Cursor.Render(under)
		if under == "" {
			cursor = th.Cursor.Render(" ")
		}
	} else {
		behind = under + behind
	}
	room := w - draw.Width(cursor)
	if room < 0 {
		return draw.Spaces(w)
	}
	before = draw.Tail(before, room)
	behind = draw.Cut(behind, room-draw.Width(before))
	fill := room - draw.Width(before) - draw.Width(behind)
	return th.Input.Render(before) + cursor + th.Input.Render(behind) + draw.Spaces(fill)
}

// Unfinished is what a widget says when Esc would drop what has been typed.
const Unfinished = "typed, but not taken: Enter takes it, Esc once more drops it"
