package draw

import (
	"strings"
	"unicode/utf8"
)

const blanks = "                                                                                                                                                                                                                                                                "

// Spaces returns n spaces, nothing for n < 1.
func Spaces(n int) string {
	if n <= 0 {
		return ""
	}
	if n <= len(blanks) {
		return blanks[:n]
	}
	return strings.Repeat(" ", n)
}

// Run returns the glyph n times, nothing for n < 1.
func Run(glyph string, n int) string {
	if n <= 0 {
		return ""
	}
	return strings.Repeat(glyph, n)
}

// Left returns s at the left of exactly w cells, cut if it must be.
func Left(s string, w int) string {
	s = Cut(s, w)
	return s + Spaces(w-Width(s))
}

// Right returns s at the right of exactly w cells, cut if it must be.
func Right(s string, w int) string {
	s = Cut(s, w)
	return Spaces(w-Width(s)) + s
}

// Ends returns left and right at the two ends of exactly w cells. Where they
// do not both fit, left is cut first, and right only if it alone is too long.
func Ends(left, right string, w int) string {
	right = Cut(right, w)
	room := w - Width(right)
	if right != "" {
		room-- // a blank between them
	}
	left = Cut(left, room)
	return left + Spaces(w-Width(left)-Width(right)) + right
}

// Fit returns s as exactly h lines of exactly w cells: longer lines are
// clipped, shorter ones filled, surplus lines dropped, missing ones added.
// Control characters other than SGR sequences become a visible Replacement.
// A size below 1 gives "".
func Fit(s string, w, h int) string {
	if w < 1 || h < 1 {
		return ""
	}
	if fits(s, w, h) {
		return s
	}
	var b strings.Builder
	b.Grow(max(len(s), h*(w+1)))
	rest, more := s, true
	for i := range h {
		if i > 0 {
			b.WriteByte('\n')
		}
		if !more {
			b.WriteString(Spaces(w))
			continue
		}
		var line string
		line, rest, more = strings.Cut(rest, "\n")
		b.WriteString(fitLine(line, w))
	}
	return b.String()
}

// FitLines is Fit for lines already apart. It returns a slice of its own.
func FitLines(lines []string, w, h int) []string {
	if w < 1 || h < 1 {
		return nil
	}
	out := make([]string, h)
	for i := range out {
		if i < len(lines) {
			out[i] = fitLine(lines[i], w)
		} else {
			out[i] = Spaces(w)
		}
	}
	return out
}

// fits reports the frame that is right as it stands, the usual one.
func fits(s string, w, h int) bool {
	for i := range h {
		line, rest, more := strings.Cut(s, "\n")
		if n, ok := simple(line); !ok || n != w {
			return false
		}
		if more != (i < h-1) {
			return false
		}
		s = rest
	}
	return true
}

func fitLine(s string, w int) string {
	n, ok := simple(s)
	if !ok {
		s = repair(s)
		n = Width(s)
	}
	if n > w {
		s = Clip(s, w)
		n = Width(s)
	}
	if n == w {
		return s
	}
	return s + Spaces(w-n)
}

// repair keeps the SGR sequences of a line and cleans what stands between.
func repair(s string) string {
	var b strings.Builder
	b.Grow(len(s))
	from := 0
	for i := 0; i < len(s); {
		j := -1
		if s[i] == esc {
			j = sgrEnd(s, i)
		}
		if j < 0 {
			i++
			continue
		}
		b.WriteString(Clean(s[from:i]))
		b.WriteString(s[i:j])
		i, from = j, j
	}
	b.WriteString(Clean(s[from:]))
	return b.String()
}

// Block is a piece of screen: lines that are fitted to W cells when joined.
type Block struct {
	W     int
	Lines []string
}

// Beside sets blocks side by side, sep between them, as h lines.
func Beside(h int, sep string, blocks ...Block) []string {
	if h < 1 {
		return nil
	}
	out := make([]string, h)
	var b strings.Builder
	for y := range out {
		b.Reset()
		for i, bl := range blocks {
			if i > 0 {
				b.WriteString(sep)
			}
			if y < len(bl.Lines) {
				b.WriteString(fitLine(bl.Lines[y], bl.W))
			} else {
				b.WriteString(Spaces(bl.W))
			}
		}
		out[y] = b.String()
	}
	return out
}

// Join makes one string of lines, the form a View returns.
func Join(lines []string) string { return strings.Join(lines, "\n") }

// Wrap breaks plain text into lines of at most w cells, between words where it
// can; a word longer than a line is broken inside. Line breaks in s are kept.
// An empty text is no line; w below 1 counts as 1.
func Wrap(s string, w int) []string {
	if s == "" {
		return nil
	}
	w = max(1, w)
	var out []string
	for line := range strings.SplitSeq(s, "\n") {
		out = wrapLine(out, line, w)
	}
	return out
}

func wrapLine(out []string, s string, w int) []string {
	line, used := "", 0
	for word := range strings.FieldsSeq(s) {
		n := Width(word)
		if used > 0 && used+1+n <= w {
			line += " " + word
			used += 1 + n
			continue
		}
		if used > 0 {
			out = append(out, line)
		}
		for n > w {
			head := Clip(word, w)
			if head == "" { // a wide character in a single column
				head = string(Replacement)
				_, size := utf8.DecodeRuneInString(word)
				word = word[size:]
			} else {
				word = word[len(head):]
			}
			out = append(out, head)
			n = Width(word)
		}
		line, used = word, n
	}
	return append(out, line)
}

// Line collects the pieces of one screen line and knows how wide they are.
// The zero value is an empty line.
type Line struct {
	b strings.Builder
	w int
}

// Add appends a piece, plain or styled.
func (l *Line) Add(s string) *Line {
	l.b.WriteString(s)
	l.w += Width(s)
	return l
}

// Gap appends n blanks.
func (l *Line) Gap(n int) *Line {
	if n > 0 {
		l.b.WriteString(Spaces(n))
		l.w += n
	}
	return l
}

// To appends blanks up to column x; a line already past it gets one blank.
func (l *Line) To(x int) *Line {
	if l.w >= x && l.w > 0 {
		return l.Gap(1)
	}
	return l.Gap(x - l.w)
}

// Width returns the cells used so far.
func (l *Line) Width() int { return l.w }

// String returns the line as it stands.
func (l *Line) String() string { return l.b.String() }

// Fit returns the line as exactly w cells, cut with an Ellipsis if it must be.
func (l *Line) Fit(w int) string {
	if l.w > w {
		return Left(l.b.String(), w)
	}
	return l.b.String() + Spaces(w-l.w)
}
