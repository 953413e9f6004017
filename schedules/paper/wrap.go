package paper

import (
	"strings"
	"unicode/utf8"
)

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
