// Package measure tells how wide text is in columns of a terminal, and breaks it into
// lines, for text that nobody draws: by the widths that screens go by.
package measure

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// Width is how many columns of a terminal a text takes: a wide character two, one
// that only marks the letter before it none.
func Width(s string) int {
	n := 0
	for _, r := range s {
		if r >= 0x300 { // the first that are not one column each
			return ansi.StringWidth(s)
		}
		n++
	}
	return n
}

// Wrap breaks text at spaces into lines of at most width columns; a longer word is
// broken where the line ends. A character wider than that stands alone. Without a
// width it is one line.
func Wrap(text string, width int) []string {
	if width < 1 {
		return []string{strings.Join(strings.Fields(text), " ")}
	}
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(text) {
		n := Width(word)
		if line != "" && used+1+n > width {
			lines = append(lines, line)
			line, used = "", 0
		}
		if line != "" {
			line, used = line+" ", used+1
		}
		for n > width { // the line is empty here
			head := beginning(word, width)
			if head == word {
				break
			}
			lines = append(lines, head)
			word = word[len(head):]
			n = Width(word)
		}
		line, used = line+word, used+n
	}
	return append(lines, line)
}

// beginning is as much of a word as fits into width columns, one character at least.
func beginning(word string, width int) string {
	at, used := 0, 0
	for at < len(word) {
		cluster, n := ansi.FirstGraphemeCluster(word[at:], ansi.GraphemeWidth)
		if used += n; used > width && at > 0 {
			break
		}
		at += len(cluster)
	}
	return word[:at]
}
