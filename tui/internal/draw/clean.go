package draw

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// Replacement stands where a character could not be drawn safely.
const Replacement = '�'

// marksKept is how many combining marks a letter keeps; more are a way to
// scribble over the lines above.
const marksKept = 2

// Clean makes any string safe to draw on one line. Line breaks and tabs become
// a space, every kind of space a plain one; control characters, invalid UTF-8,
// direction overrides, zero-width and other invisible characters, unassigned
// and private ones become a visible Replacement, and so does a cluster on
// whose width terminals disagree. A clean string comes back as it is.
func Clean(s string) string { return clean(s, false) }

// CleanText is Clean for text of several lines: \n stays (\r\n and a lone \r
// become \n).
func CleanText(s string) string {
	if strings.IndexByte(s, '\r') >= 0 {
		s = strings.ReplaceAll(s, "\r\n", "\n")
		s = strings.ReplaceAll(s, "\r", "\n")
	}
	return clean(s, true)
}

func clean(s string, lines bool) string {
	if printable(s) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	for i := 0; i < len(s); {
		c := s[i]
		switch {
		case c == '\n' && lines:
			b.WriteByte('\n')
			i++
			continue
		case c == '\n' || c == '\t' || c == '\r':
			b.WriteByte(' ')
			i++
			continue
		case c < 0x20 || c == 0x7f:
			b.WriteRune(Replacement)
			i++
			continue
		}
		if r, n := utf8.DecodeRuneInString(s[i:]); r == utf8.RuneError && n == 1 {
			b.WriteRune(Replacement)
			i++
			continue
		}
		cluster, _ := ansi.FirstGraphemeCluster(s[i:], ansi.GraphemeWidth)
		b.WriteString(cleanCluster(cluster))
		i += len(cluster)
	}
	return b.String()
}

// printable is the quick answer for what nearly every string is.
func printable(s string) bool {
	for _, r := range s {
		if r < 0x20 || r >= 0x7f && !oneCell(r) || r == utf8.RuneError {
			return false
		}
	}
	return true
}

// cleanCluster keeps a cluster that is safe and counts the same width by
// clusters and by single characters, so that terminals of either kind agree.
func cleanCluster(c string) string {
	safe, marks := true, 0
	for i, r := range c {
		mark := unicode.Is(unicode.Mn, r)
		if mark {
			marks++
		}
		if !drawable(r) || mark && i == 0 || marks > marksKept || !mark && joins(r) {
			safe = false
			break
		}
	}
	if w := ansi.StringWidth(c); safe && w > 0 && w == ansi.StringWidthWc(c) {
		return c
	}
	// What can still be read of the cluster stays, one character at a time.
	var b strings.Builder
	for _, r := range c {
		switch {
		case unicode.Is(unicode.Zs, r):
			b.WriteByte(' ')
		case r < 0x7f && drawable(r), oneCell(r):
			b.WriteRune(r)
		default:
			b.WriteRune(Replacement)
		}
	}
	return b.String()
}

// joins reports a character that would become one cluster with whatever letter
// stands before or after it, and so change its width with its neighbors.
func joins(r rune) bool {
	if r < 0x7f || oneCell(r) {
		return false
	}
	if r >= 0x1f1e6 && r <= 0x1f1ff {
		return true // regional indicators, which pair up to flags
	}
	before, _ := ansi.FirstGraphemeCluster("x"+string(r), ansi.GraphemeWidth)
	after, _ := ansi.FirstGraphemeCluster(string(r)+"x", ansi.GraphemeWidth)
	return len(before) > 1 || len(after) > utf8.RuneLen(r)
}

// drawable reports a rune that shows as itself. The tables are the Unicode
// Character Database's general categories and the property
// Default_Ignorable_Code_Point (UAX #44), which between them hold the
// direction controls of UAX #9.
func drawable(r rune) bool {
	if r < 0x7f {
		return r >= 0x20
	}
	if unicode.Is(unicode.Zs, r) {
		return false // drawn as a plain space
	}
	return unicode.IsGraphic(r) &&
		!unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r) &&
		!unicode.Is(unicode.Variation_Selector, r)
}

// Typable returns what of s may enter a text field: spaces of every kind plain,
// line breaks as \n, and everything Clean would replace left out.
func Typable(s string) string {
	var b strings.Builder
	prev := rune(0)
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		i += n
		switch {
		case r == '\n' && prev == '\r':
		case r == '\n' || r == '\r':
			b.WriteByte('\n')
		case r == '\t' || unicode.Is(unicode.Zs, r):
			b.WriteByte(' ')
		case r == utf8.RuneError && n == 1:
		case drawable(r):
			b.WriteRune(r)
		}
		prev = r
	}
	return b.String()
}
