package widget

import (
	"strings"
	"unicode"

	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
)

// MostTyped is how many characters a line holds.
const MostTyped = 500

// Input is a line of text being typed. The zero value is an empty line. What
// keys do to the text is bubbles/textinput's; it is drawn here, because its
// cursor cannot be seen where colors are off (NO_COLOR takes reverse along).
type Input struct{ model *textinput.Model }

func (l *Input) line() *textinput.Model {
	if l.model == nil {
		m := textinput.New()
		m.CharLimit = MostTyped
		m.Focus()
		l.model = &m
	}
	return l.model
}

// Set replaces the text and puts the cursor behind it. Line breaks become blanks.
func (l *Input) Set(s string) {
	if s == "" && l.model == nil {
		return
	}
	m := l.line()
	m.SetValue(oneLine(s))
	m.CursorEnd()
}

func oneLine(s string) string { return strings.ReplaceAll(draw.Typable(s), "\n", " ") }

// Text returns what is typed.
func (l *Input) Text() string {
	if l.model == nil {
		return ""
	}
	return l.model.Value()
}

// AtEnd reports that the cursor is behind the text.
func (l *Input) AtEnd() bool {
	return l.model == nil || l.model.Position() >= len([]rune(l.model.Value()))
}

// Empty reports that nothing is typed.
func (l *Input) Empty() bool { return l.Text() == "" }

// editing are the keys beside characters that change the text or go about in
// it, as the library knows them.
var editing = map[string]tea.KeyType{
	keys.Backspace: tea.KeyBackspace, keys.Delete: tea.KeyDelete, keys.Left: tea.KeyLeft, keys.Right: tea.KeyRight,
	keys.Home: tea.KeyHome, keys.End: tea.KeyEnd, "ctrl+u": tea.KeyCtrlU, "ctrl+k": tea.KeyCtrlK, "ctrl+w": tea.KeyCtrlW,
}

// EditKeys are the keys beside characters that a line takes: one back, one
// away, about in it, and all before the cursor, all behind it, a word.
func EditKeys() []string {
	return []string{keys.Backspace, keys.Delete, keys.Left, keys.Right, keys.Home, keys.End, "ctrl+u", "ctrl+k", "ctrl+w"}
}

// Handle takes a character, a paste or one of EditKeys, and reports whether the
// text is another one.
func (l *Input) Handle(e keys.Event) bool {
	msg := tea.KeyMsg{Type: tea.KeyRunes}
	switch kind, named := editing[e.Key]; {
	case named:
		msg.Type = kind
	case e.Key == "":
		msg.Runes = []rune(oneLine(e.Paste))
	case e.Rune != 0:
		msg.Runes = []rune{e.Rune}
	default:
		return false
	}
	m := l.line()
	before := m.Value()
	l.update(msg)
	return m.Value() != before
}

// update gives a key to the line; an accent goes and is gone past with its
// letter, which the library counts as two characters.
func (l *Input) update(msg tea.KeyMsg) {
	m := l.model
	runes, at := []rune(m.Value()), m.Position()
	*m, _ = m.Update(msg)
	switch now := m.Position(); {
	case msg.Type == tea.KeyBackspace && at > 0 && unicode.IsMark(runes[at-1]),
		msg.Type == tea.KeyLeft && now < at && unicode.IsMark(runes[now]),
		msg.Type == tea.KeyRight && now > at && now < len(runes) && unicode.IsMark(runes[now]):
		l.update(msg)
	case msg.Type == tea.KeyDelete && at < len(runes) && now < len(runes)-1 && unicode.IsMark(runes[at+1]):
		l.update(msg)
	}
}

// cursorBar is the cursor where no color can show it.
const cursorBar = "▏"

// View draws the line as exactly w cells with the cursor in sight. Without
// colors the cursor is a bar before the next character.
func (l *Input) View(th *draw.Theme, w int) string {
	if w < 1 {
		return ""
	}
	runes, at := []rune(l.Text()), 0
	if l.model != nil {
		at = l.model.Position()
	}
	before, under, behind := draw.Clean(string(runes[:at])), "", ""
	if at < len(runes) {
		end := at + 1
		for end < len(runes) && unicode.IsMark(runes[end]) {
			end++
		}
		under, behind = draw.Clean(string(runes[at:end])), draw.Clean(string(runes[end:]))
	}
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

// Unfinished is what is said where Esc would drop what has been typed.
const Unfinished = "typed, but not taken: Enter takes it, Esc once more drops it"
