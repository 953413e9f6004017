package word

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Clean makes text from a file safe on one line of a terminal: control
// characters (C0, DEL, C1), characters that turn the direction of writing,
// line and paragraph separators, what is invisible and broken UTF-8 are shown as
// \u001b and the like, line breaks, tabs and spaces of every kind as a plain one.
func Clean(s string) string {
	if printableASCII(s) || utf8.ValidString(s) && !strings.ContainsFunc(s, changed) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s) + 8)
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			fmt.Fprintf(&b, `\x%02x`, s[i])
		case r == '\n' || r == '\t' || r == '\r' || wide(r):
			b.WriteByte(' ')
		case Unsafe(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
		i += n
	}
	return b.String()
}

// changed tells the characters that Clean shows otherwise.
func changed(r rune) bool { return (r < ' ' || r > '~') && (Unsafe(r) || wide(r)) }

// printableASCII is the quick answer for nearly all text there is.
func printableASCII(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// wide tells the spaces that are not the plain one.
func wide(r rune) bool { return r != ' ' && unicode.Is(unicode.Zs, r) }

// Unsafe tells characters that a terminal may act on, that show nothing, or that
// make text look like other text: all that are neither graphic nor a space, and
// the fillers that Unicode counts as letters.
func Unsafe(r rune) bool {
	switch r {
	case 0x034f, 0x115f, 0x1160, 0x17b4, 0x17b5, 0x2800, 0x3164, 0xffa0:
		return true
	}
	return !unicode.IsGraphic(r)
}
