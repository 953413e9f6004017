package output

import (
	"bytes"
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
	if printableASCII(s) || utf8.ValidString(s) && strings.IndexFunc(s, unsafe) < 0 {
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
		case unsafe(r):
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

// unsafe tells characters that a terminal may act on, or that make text look
// like other text.
func unsafe(r rune) bool {
	if r < ' ' || r >= 0x7f && r <= 0x9f {
		return true
	}
	switch {
	case r >= 0x200b && r <= 0x200f, r >= 0x2028 && r <= 0x202e, r >= 0x2060 && r <= 0x206f, r == 0xfeff, r == 0x061c:
		return true
	}
	return unicode.Is(unicode.Noncharacter_Code_Point, r)
}

// escapeControls escapes in JSON text what the encoder leaves as it is: DEL,
// C1 and the direction marks. They can only stand inside strings there.
func escapeControls(text []byte) []byte {
	risky := func(r rune) bool { return r >= 0x7f && unsafe(r) }
	if bytes.IndexFunc(text, risky) < 0 {
		return text
	}
	var b bytes.Buffer
	for _, r := range string(text) {
		if risky(r) {
			if r > 0xffff {
				high, low := utf16Pair(r)
				fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
				continue
			}
			fmt.Fprintf(&b, `\u%04x`, r)
			continue
		}
		b.WriteRune(r)
	}
	return b.Bytes()
}

func utf16Pair(r rune) (high, low rune) {
	r -= 0x10000
	return 0xd800 + r>>10, 0xdc00 + r&0x3ff
}
