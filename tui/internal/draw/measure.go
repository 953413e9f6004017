package draw

import (
	"strings"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// Ellipsis ends what Cut had to shorten. It is one cell wide.
const Ellipsis = "…"

const esc = 0x1b

// oneCell reports the runes that take one cell by every way of counting and
// join with no neighbor of their kind. Strings made of them, printable ASCII
// and SGR sequences are measured here, the rest cluster by cluster.
func oneCell(r rune) bool {
	switch {
	case r >= 0x2500 && r <= 0x259f: // box drawing, blocks, shades
		return true
	case r >= 0xa1 && r <= 0x17f:
		return r != 0xad // the soft hyphen has no cell of its own
	case r >= 0x391 && r <= 0x3c9:
		return r != 0x3a2
	case r >= 0x2010 && r <= 0x2027:
		return true
	case r >= 0x2190 && r <= 0x2193:
		return true
	}
	switch r {
	case '−', '≈', '≠', '≡', '≤', '≥', '▲', '▸', '▼', '◂', '○', '●', '✓', '✗', '�', '√', '∞':
		return true
	}
	return false
}

// sgrEnd returns the index after the SGR sequence that starts at s[i], or -1
// if there is none.
func sgrEnd(s string, i int) int {
	if i+2 >= len(s) || s[i] != esc || s[i+1] != '[' {
		return -1
	}
	for j := i + 2; j < len(s); j++ {
		switch c := s[j]; {
		case c == 'm':
			return j + 1
		case c >= '0' && c <= '9', c == ';':
		default:
			return -1
		}
	}
	return -1
}

// next returns the size in bytes and the width in cells of the piece of s that
// starts at i: an SGR sequence, a control byte (one cell, the place of its
// replacement) or a grapheme cluster.
func next(s string, i int) (size, width int) {
	c := s[i]
	switch {
	case c == esc:
		if j := sgrEnd(s, i); j > 0 {
			return j - i, 0
		}
		return 1, 1
	case c < 0x20 || c == 0x7f:
		return 1, 1
	case c < utf8.RuneSelf && (i+1 == len(s) || s[i+1] < utf8.RuneSelf):
		return 1, 1
	}
	if c >= utf8.RuneSelf {
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && n == 1 {
			return 1, 1
		}
	}
	cluster, w := ansi.FirstGraphemeCluster(s[i:], ansi.GraphemeWidth)
	return len(cluster), w
}

// First returns the piece that s begins with, a grapheme cluster in most cases,
// and the cells it takes: what a picture of single cells is filled with. s is
// not empty.
func First(s string) (piece string, width int) {
	n, w := next(s, 0)
	return s[:n], w
}

// simple scans s while it is made of SGR sequences and one-cell runes. It
// returns the width so far, and ok = false where something else turned up.
func simple(s string) (width int, ok bool) {
	for i := 0; i < len(s); {
		c := s[i]
		switch {
		case c >= 0x20 && c < 0x7f:
			width++
			i++
		case c >= utf8.RuneSelf:
			r, n := utf8.DecodeRuneInString(s[i:])
			if !oneCell(r) || r == utf8.RuneError && n == 1 {
				return width, false
			}
			width++
			i += n
		default:
			j := sgrEnd(s, i)
			if j < 0 {
				return width, false
			}
			i = j
		}
	}
	return width, true
}

// Width returns the number of cells s takes. SGR sequences count nothing; a
// control character counts one, the cell of the replacement Fit gives it.
func Width(s string) int {
	w, ok := simple(s)
	if ok {
		return w
	}
	w = 0
	for i := 0; i < len(s); {
		n, cw := next(s, i)
		w += cw
		i += n
	}
	return w
}

// Clip returns s shortened to at most w cells. Its SGR sequences stay, those
// after the cut included, so that nothing is left switched on.
func Clip(s string, w int) string { return shorten(s, w, "") }

// Cut is Clip with an Ellipsis as the last cell where something was lost.
func Cut(s string, w int) string { return shorten(s, w, Ellipsis) }

func shorten(s string, w int, tail string) string {
	if w <= 0 {
		return ""
	}
	if len(s) <= w && strings.IndexByte(s, esc) < 0 && ascii(s) {
		return s
	}
	room := w
	if tail != "" {
		room-- // every tail is one cell
	}
	at, n := -1, 0
	for i := 0; i < len(s); {
		size, cw := next(s, i)
		if at < 0 && n+cw > room && cw > 0 {
			at = i
		}
		if n += cw; n > w {
			return s[:at] + tail + sequences(s[at:])
		}
		i += size
	}
	return s
}

func ascii(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// sequences returns the SGR sequences of s and nothing else.
func sequences(s string) string {
	if strings.IndexByte(s, esc) < 0 {
		return ""
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if s[i] != esc {
			continue
		}
		if j := sgrEnd(s, i); j > 0 {
			b.WriteString(s[i:j])
			i = j - 1
		}
	}
	return b.String()
}

// Tail returns the last w cells of plain s; what was cut off at the front
// shows as an Ellipsis.
func Tail(s string, w int) string {
	if w <= 0 {
		return ""
	}
	total := Width(s)
	if total <= w {
		return s
	}
	drop := total - w + 1
	for i := 0; i < len(s); {
		size, cw := next(s, i)
		i += size
		if drop -= cw; drop <= 0 {
			return Ellipsis + s[i:]
		}
	}
	return Ellipsis
}
