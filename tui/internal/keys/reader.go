package keys

import (
	"reflect"
	"time"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/tui/internal/draw"
)

// Hold is how long an Esc waits for the rest of an escape sequence.
const Hold = 30 * time.Millisecond

// tailHold is how long a sequence that has begun waits for its end. It is
// longer because by then it is hardly a key of its own, and because its digits
// must not act as keys.
const tailHold = 300 * time.Millisecond

// pasteHold is how long an opened paste may stay silent before it ends without
// its end mark. It is long because the rest of a paste that a slow line holds
// back must not act as keys.
const pasteHold = 5 * time.Second

// PasteStart and PasteEnd are bytes that stand in no UTF-8 text. In what is read
// they take the places of the marks around a paste: see package terminal.
const (
	PasteStart byte = 0xfe
	PasteEnd   byte = 0xff
)

// TimeoutMsg tells the Reader that it has waited long enough. It comes back to
// the program like any message and is given to Read.
type TimeoutMsg struct{ turn int }

// Reader is the one place raw key messages go through. The zero value is ready.
type Reader struct {
	// After returns the command that delivers msg after d; nil means tea.Tick.
	// Tests deliver at once or by hand.
	After func(d time.Duration, msg TimeoutMsg) tea.Cmd

	turn    int
	pending pending
	seq     sequence
	paste   []rune
	bytes   []byte // a character split between two reads
	lately  bool   // the last thing given out was an Esc whose wait had ended
}

type pending int

const (
	nothing pending = iota
	escape          // ESC alone
	tail            // ESC and the beginning of a sequence
	pasting         // between the marks of a paste whose start arrived split
)

// Read takes any message and returns the presses and pastes it completes, in
// order, and a command to run or nil. ours is false for messages that are not
// about keys. After handling all events the program draws once.
func (r *Reader) Read(msg tea.Msg) (events []Event, cmd tea.Cmd, ours bool) {
	switch m := msg.(type) {
	case tea.KeyMsg:
		before := r.turn
		events = r.key(events, tea.Key(m))
		if r.pending != nothing && r.turn != before {
			cmd = r.wait()
		}
		return events, cmd, true
	case TimeoutMsg:
		if m.turn == r.turn {
			events = r.timeout(events)
		}
		return events, nil, true
	}
	if b, ok := strayByte(msg); ok {
		switch {
		case b == PasteEnd && r.pending == pasting:
			return r.release(events), nil, true
		case b == PasteStart && r.pending != pasting:
			events = r.release(events)
			r.become(pasting)
			return events, r.wait(), true
		case b == PasteStart, b == PasteEnd:
			return events, nil, true
		}
		before := r.turn
		if events = r.byte(events, b); r.pending != nothing && r.turn != before {
			cmd = r.wait()
		}
		return events, cmd, true
	}
	if n, ok := strayCSI(msg); ok {
		return r.csi(events, n), nil, true
	}
	return nil, nil, false
}

func (r *Reader) wait() tea.Cmd {
	d := Hold
	switch r.pending {
	case tail:
		d = tailHold
	case pasting:
		d = pasteHold
	}
	msg := TimeoutMsg{turn: r.turn}
	if r.After != nil {
		return r.After(d, msg)
	}
	return tea.Tick(d, func(time.Time) tea.Msg { return msg })
}

// become changes what is waited for; older timeouts count no more.
func (r *Reader) become(p pending) {
	r.pending = p
	r.turn++
}

func (r *Reader) key(out []Event, k tea.Key) []Event {
	r.bytes = r.bytes[:0]
	if k.Paste {
		out = r.release(out)
		return append(out, Event{Paste: draw.Typable(string(k.Runes))})
	}
	late := r.lately
	r.lately = false
	if k.Alt {
		// ESC in front of a key, in one read.
		k.Alt = false
		out = r.escape(out)
		if k.Type == tea.KeyRunes || k.Type == tea.KeySpace {
			return r.runes(out, k.Runes)
		}
		return r.key(out, k)
	}
	switch k.Type {
	case tea.KeyEscape:
		return r.escape(out)
	case tea.KeyRunes:
		if late && r.pending == nothing && isTail(k.Runes) {
			// The rest of a sequence whose ESC had already been given out.
			r.become(tail)
			r.seq = sequence{}
		}
		return r.runes(out, k.Runes)
	case tea.KeySpace:
		return r.runes(out, []rune{' '})
	}
	if r.pending == pasting {
		switch k.Type {
		case tea.KeyEnter:
			r.paste = append(r.paste, '\r')
		case tea.KeyCtrlJ:
			r.paste = append(r.paste, '\n')
		case tea.KeyTab:
			r.paste = append(r.paste, ' ')
		}
		r.turn++
		return out
	}
	return append(r.release(out), named(k.Type))
}

// escape takes an ESC: it starts a wait, and ends an older one.
func (r *Reader) escape(out []Event) []Event {
	if r.pending == pasting {
		r.paste = append(r.paste, 0x1b) // perhaps the end mark's
		r.turn++
		return out
	}
	out = r.release(out)
	r.become(escape)
	return out
}

// runes takes the characters of one read, one at a time.
func (r *Reader) runes(out []Event, runes []rune) []Event {
	for _, c := range runes {
		out = r.rune(out, c)
	}
	return out
}

func (r *Reader) rune(out []Event, c rune) []Event {
	switch r.pending {
	case pasting:
		r.paste = append(r.paste, c)
		r.turn++
		if at := len(r.paste) - len(pasteEnd) - 1; c == '~' && at >= 0 && string(r.paste[at:]) == "\x1b"+pasteEnd {
			r.paste = r.paste[:at]
			return r.release(out)
		}
		return out
	case escape:
		if c != '[' && c != 'O' {
			return append(r.release(out), typed(c))
		}
		r.become(tail)
		r.seq = sequence{}
		fallthrough
	case tail:
		switch r.seq.add(c) {
		case wants:
			r.turn++
			return out
		case done:
			return r.finish(out)
		}
		// What cannot belong to the sequence is a key of its own.
		r.become(nothing)
	}
	return append(out, typed(c))
}

// finish ends a sequence that is complete.
func (r *Reader) finish(out []Event) []Event {
	r.become(nothing)
	if string(r.seq.body) == pasteStart {
		r.paste = r.paste[:0]
		r.become(pasting)
		return out
	}
	if e, ok := r.seq.key(); ok {
		out = append(out, e)
	}
	return out
}

// release gives out what was held back because something else came.
func (r *Reader) release(out []Event) []Event {
	switch r.pending {
	case escape:
		out = append(out, Event{Key: Esc})
	case pasting:
		out = append(out, Event{Paste: draw.Typable(string(r.paste))})
		r.paste = r.paste[:0]
	}
	// A sequence that never ended was no key: dropped, lest its digits act.
	r.become(nothing)
	return out
}

func (r *Reader) timeout(out []Event) []Event {
	late := r.pending == escape
	out = r.release(out)
	r.lately = late
	return out
}

// isTail reports the characters of one read that are just the rest of a cursor
// key's sequence: nobody types them into one read by hand.
func isTail(runes []rune) bool {
	var s sequence
	for i, c := range runes {
		switch s.add(c) {
		case wants:
		case done:
			_, ok := s.key()
			return ok && i == len(runes)-1 && (runes[0] == '[' || letter(string(c)) != "")
		default:
			return false
		}
	}
	return false
}

// byte collects the bytes the terminal library could not read as a character
// because its buffer ended inside one.
func (r *Reader) byte(out []Event, b byte) []Event {
	r.bytes = append(r.bytes, b)
	if !utf8.FullRune(r.bytes) {
		return out
	}
	c, n := utf8.DecodeRune(r.bytes)
	whole := c != utf8.RuneError && n == len(r.bytes)
	r.bytes = r.bytes[:0]
	if !whole {
		if utf8.RuneStart(b) && b >= utf8.RuneSelf {
			r.bytes = append(r.bytes, b) // the old one was cut off, this may begin a new one
		}
		return out
	}
	return r.runes(out, []rune{c})
}

// csi takes a control sequence of n bytes the terminal library does not know:
// the end mark of a paste whose start mark arrived split, or something to
// swallow. Only the length can be relied on: the library's message points into
// its input buffer, which the next read may have overwritten by now.
func (r *Reader) csi(out []Event, n int) []Event {
	if r.pending == pasting && n != len("\x1b"+pasteEnd) {
		return out
	}
	return r.release(out)
}

// named gives a key of the library its name here.
func named(t tea.KeyType) Event {
	switch t {
	case tea.KeyCtrlJ: // a line feed, sent for Enter by some keyboards
		return Event{Key: Enter}
	case tea.KeyCtrlH: // a backspace, sent for that key by some terminals
		return Event{Key: Backspace}
	}
	if name := t.String(); name != "" {
		return Event{Key: name}
	}
	return Event{Key: Unprintable}
}

// The library gives out bytes and sequences it cannot read as messages of
// unexported types; only their shape can be seen from here.
func strayByte(msg tea.Msg) (byte, bool) {
	v := reflect.ValueOf(msg)
	if !v.IsValid() || v.Kind() != reflect.Uint8 || v.Type().Name() != "unknownInputByteMsg" {
		return 0, false
	}
	return byte(v.Uint()), true
}

func strayCSI(msg tea.Msg) (length int, ok bool) {
	v := reflect.ValueOf(msg)
	if !v.IsValid() || v.Kind() != reflect.Slice || v.Type().Name() != "unknownCSISequenceMsg" {
		return 0, false
	}
	return v.Len(), true
}
