package paper

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Clean makes text from a file safe on one line of a terminal: control
// characters (C0, DEL, C1), characters that turn the direction of writing,
// line and paragraph separators and broken UTF-8 are shown as \u001b and the
// like, line breaks and tabs as spaces.
func Clean(s string) string {
	if printableASCII(s) || utf8.ValidString(s) && strings.IndexFunc(s, Unsafe) < 0 {
		return s
	}
	var b strings.Builder
	b.Grow(len(s) + 8)
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			fmt.Fprintf(&b, `\x%02x`, s[i])
		case r == '\n' || r == '\t' || r == '\r':
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

// printableASCII is the quick answer for nearly all text there is.
func printableASCII(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// Unsafe tells characters that a terminal may act on, or that make text look
// like other text.
func Unsafe(r rune) bool {
	if r < ' ' || r >= 0x7f && r <= 0x9f {
		return true
	}
	switch {
	case r >= 0x200b && r <= 0x200f, r >= 0x2028 && r <= 0x202e, r >= 0x2060 && r <= 0x206f, r == 0xfeff, r == 0x061c:
		return true
	}
	return unicode.Is(unicode.Noncharacter_Code_Point, r)
}

// Wrap breaks text at spaces into lines of at most width characters; a longer
// word is broken where the line ends. Without a width it is one line.
func Wrap(text string, width int) []string {
	if width < 1 {
		return []string{strings.Join(strings.Fields(text), " ")}
	}
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		if line != "" && used+1+n > width {
			lines = append(lines, line)
			line, used = "", 0
		}
		if line != "" {
			line, used = line+" ", used+1
		}
		for n > width { // the line is empty here
			cut := 0
			for range width {
				_, size := utf8.DecodeRuneInString(word[cut:])
				cut += size
			}
			lines = append(lines, word[:cut])
			word, n = word[cut:], n-width
		}
		line, used = line+word, used+n
	}
	return append(lines, line)
}
