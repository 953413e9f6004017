package keys

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Row is one row of the key table: which keys, what they do, and why they
// cannot do it now.
type Row struct {
	// Keys are the names of the keys, as Event has them.
	Keys []string
	// Text makes the row take what is typed and pasted too, as far as no row
	// before it takes that.
	Text bool
	// Help leaves ? out of what is typed: to the key that shows all keys.
	Help bool
	// Show is how the keys are written on the last line, "1-9"; left out, they
	// are written one after another.
	Show string
	// Short is the word on the last line, "" keeps the row off it.
	Short string
	// Long is what it does, a phrase for the page of all keys.
	Long string
	// Group is the heading it stands under there.
	Group string
	// Rank orders the last line, the smallest first; what does not fit is left
	// out from the end. Rank 0 always stands, at the right end.
	Rank int
	// Rare marks what is done so seldom that a chord may be its only key.
	Rare bool
	// Edits tells that it changes the document at once, with no choice opened
	// first: typed ahead for something that is closed by then, it must not act.
	Edits bool
	// Can says why the row cannot act here and now, "" when it can; nil always can.
	Can func() string
	// Do does it.
	Do func(Event)
}

// Table is what keys do in one place: a page, what is open over it, or everywhere.
type Table []Row

// why says why a row cannot act now.
func (r *Row) why() string {
	if r.Can == nil {
		return ""
	}
	return r.Can()
}

// Find returns the row of the tables that takes an event, nil where none does.
// An earlier table stands before a later one.
func Find(e Event, tables ...Table) *Row {
	for _, t := range tables {
		for i := range t {
			if e.Key != "" && slices.Contains(t[i].Keys, e.Key) {
				return &t[i]
			}
		}
		for i := range t {
			if t[i].Text && (e.Rune != 0 || e.Key == "") && !(t[i].Help && e.Key == "?") {
				return &t[i]
			}
		}
	}
	return nil
}

// Press does what an event does. Found is false where no table has a row for
// it; why is not empty where the row cannot act now.
func Press(e Event, tables ...Table) (found bool, why string) {
	r := Find(e, tables...)
	if r == nil {
		return false, ""
	}
	if why = r.why(); why == "" {
		r.Do(e)
	}
	return true, why
}

// Check returns all that is wrong with a table as one error: a key bound twice,
// a key no terminal can send, a chord without a plain alternative, a text missing.
func (t Table) Check() error {
	var wrong []string
	by := map[string]int{}
	for i, r := range t {
		complain := func(format string, args ...any) {
			wrong = append(wrong, fmt.Sprintf("%q: ", r.Long)+fmt.Sprintf(format, args...))
		}
		if r.Long == "" || r.Group == "" || r.Do == nil || len(r.Keys) == 0 && !r.Text {
			complain("keys, long text, group and handler are all needed")
		}
		if r.Rank < 0 {
			complain("rank %d is below 0", r.Rank)
		}
		plain := r.Text
		for _, k := range r.Keys {
			if reason := Impossible(k); reason != "" {
				complain("key %q %s", k, reason)
			}
			if other, ok := by[k]; ok {
				complain("key %q already does %q", k, t[other].Long)
			}
			by[k] = i
			plain = plain || !chord(k)
		}
		if !plain && !r.Rare && len(r.Keys) > 0 {
			complain("only chords do it: gloved hands need a plain key")
		}
	}
	if wrong != nil {
		return fmt.Errorf("key table: %s", strings.Join(wrong, "; "))
	}
	return nil
}

// Over is a table with another one's rows behind its own; where both have a
// key, it is the first one's.
func (t Table) Over(below Table) Table {
	out := append(Table{}, t...)
	for _, r := range below {
		var free []string
		for _, k := range r.Keys {
			if Find(Key(k), t) == nil {
				free = append(free, k)
			}
		}
		if len(free) == len(r.Keys) {
			out = append(out, r)
		} else if len(free) > 0 {
			r.Keys, r.Show = free, ""
			out = append(out, r)
		}
	}
	return out
}

// All is how every key of the row is written, digits that follow one another as
// a range: "1-9", "+ = -".
func (r *Row) All() string {
	var names []string
	if r.Text {
		names = append(names, "letters")
	}
	for i := 0; i < len(r.Keys); i++ {
		last := i
		for digit(r.Keys[i]) && last+1 < len(r.Keys) && digit(r.Keys[last+1]) && r.Keys[last+1][0] == r.Keys[last][0]+1 {
			last++
		}
		if last > i+1 {
			names = append(names, r.Keys[i]+"-"+r.Keys[last])
			i = last
			continue
		}
		names = append(names, Name(r.Keys[i]))
	}
	return strings.Join(names, " ")
}

func digit(key string) bool { return len(key) == 1 && key[0] >= '0' && key[0] <= '9' }

// shown is how the keys are written on the last line.
func (r *Row) shown() string {
	if r.Show != "" {
		return r.Show
	}
	return r.All()
}

// Do makes an act of what any key of a row does.
func Do(f func()) func(Event) { return func(Event) { f() } }

// By makes an act of keys of which one goes back, by −1, and the others go on.
func By(back string, f func(by int)) func(Event) {
	return func(e Event) {
		if e.Key == back {
			f(-1)
		} else {
			f(1)
		}
	}
}

// Digits are the keys from "1" to the digit n.
func Digits(n int) []string {
	return []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"}[:max(0, min(9, n))]
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
