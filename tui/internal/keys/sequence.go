package keys

import "strings"

// sequence is an escape sequence being put together again: what followed ESC.
// Its grammar is ECMA-48 5.4 for CSI ("[", parameters 0x30–0x3F, intermediates
// 0x20–0x2F, a final 0x40–0x7E); SS3 ("O") takes one character, and the Linux
// console's function keys are "[[" and one letter.
type sequence struct{ body []rune }

type progress int

const (
	wants  progress = iota // more characters
	done                   // complete with this one
	broken                 // this character cannot belong to it
)

// longestSequence bounds what is held back; the longest key sequences have a
// dozen characters, reports some more.
const longestSequence = 256

func (s *sequence) add(r rune) progress {
	first := len(s.body) == 0
	switch {
	case first && (r == '[' || r == 'O'):
		s.body = append(s.body, r)
		return wants
	case first || len(s.body) >= longestSequence:
		return broken
	}
	if s.body[0] == 'O' {
		if r < 0x20 || r > 0x7e {
			return broken
		}
		s.body = append(s.body, r)
		if r >= '0' && r <= '9' || r == ';' { // a modifier some terminals put there
			return wants
		}
		return done
	}
	if len(s.body) == 2 && s.body[1] == '[' {
		s.body = append(s.body, r)
		return done
	}
	switch {
	case r == '[' && len(s.body) == 1:
		s.body = append(s.body, r)
		return wants
	case r >= 0x20 && r <= 0x3f:
		s.body = append(s.body, r)
		return wants
	case r >= 0x40 && r <= 0x7e:
		s.body = append(s.body, r)
		return done
	}
	return broken
}

// pasteStart and pasteEnd are the bracketed paste marks (xterm control
// sequences, "Bracketed Paste Mode") without their ESC.
const (
	pasteStart = "[200~"
	pasteEnd   = "[201~"
)

// key returns the key a complete sequence stands for. A sequence that is none
// of a key has no event and is swallowed.
func (s *sequence) key() (Event, bool) {
	body := string(s.body)
	if rest, ok := strings.CutPrefix(body, "O"); ok {
		return keypad(rest)
	}
	rest := body[1:]
	if e, ok := console(rest); ok {
		return e, true
	}
	final := rest[len(rest)-1:]
	params := rest[:len(rest)-1]
	number, modifier, _ := strings.Cut(params, ";")
	name := ""
	switch {
	case final == "~":
		name = tilde(number)
	case final == "Z":
		return Key(ShiftTab), true
	case number == "" || number == "1":
		name = letter(final)
	}
	if name == "" {
		return Event{}, false
	}
	return modified(modifier, name)
}

// modified applies xterm's modifier parameter: 1 + 1 shift + 2 alt + 4 ctrl.
func modified(parameter, name string) (Event, bool) {
	switch parameter {
	case "", "1", "3":
		return Key(name), true
	case "2", "4":
		return Key("shift+" + name), true
	case "5", "7":
		return Key("ctrl+" + name), true
	case "6", "8":
		return Key("ctrl+shift+" + name), true
	}
	return Event{}, false
}

func letter(final string) string {
	switch final {
	case "A":
		return Up
	case "B":
		return Down
	case "C":
		return Right
	case "D":
		return Left
	case "H":
		return Home
	case "F":
		return End
	case "P":
		return "f1"
	case "Q":
		return "f2"
	case "R":
		return "f3"
	case "S":
		return "f4"
	}
	return ""
}

func tilde(number string) string {
	switch number {
	case "1", "7":
		return Home
	case "2":
		return Insert
	case "3":
		return Delete
	case "4", "8":
		return End
	case "5":
		return PgUp
	case "6":
		return PgDown
	case "11":
		return "f1"
	case "12":
		return "f2"
	case "13":
		return "f3"
	case "14":
		return "f4"
	case "15":
		return "f5"
	case "17":
		return "f6"
	case "18":
		return "f7"
	case "19":
		return "f8"
	case "20":
		return "f9"
	case "21":
		return "f10"
	case "23":
		return "f11"
	case "24":
		return "f12"
	}
	return ""
}

func console(rest string) (Event, bool) {
	if len(rest) == 2 && rest[0] == '[' && rest[1] >= 'A' && rest[1] <= 'E' {
		return Key("f" + string('1'+rest[1]-'A')), true
	}
	return Event{}, false
}

// keypad decodes what follows SS3: cursor and function keys, and the numeric
// keypad in its application mode (VT100 user guide, table 3-8: the letter is
// the key's character plus 0x40), which the terminal library does not know.
func keypad(rest string) (Event, bool) {
	final := rest[len(rest)-1]
	if name := letter(string(final)); name != "" {
		return modified(rest[:len(rest)-1], name)
	}
	switch {
	case final == 'M':
		return Key(Enter), true
	case final >= 'j' && final <= 'y':
		return typed(rune(final - 0x40)), true
	case final == 'X':
		return Key("="), true
	}
	return Event{}, false
}
