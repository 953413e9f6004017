// Package spell writes values as TOML does, so that reading them back gives the same.
package spell

import (
	"math"
	"strconv"
	"strings"
)

// Text spells a string as TOML: on one line, or where it has newlines
// between triple quotes, so that notes stay readable and differ line by line.
func Text(s string) string {
	plain := true
	for i := 0; i < len(s); i++ {
		if c := s[i]; c < ' ' || c == '"' || c == '\\' || c == 0x7f {
			plain = false
			break
		}
	}
	if plain {
		return `"` + s + `"`
	}
	lines := strings.Contains(s, "\n")
	var b strings.Builder
	if lines {
		b.WriteString("\"\"\"\n")
	} else {
		b.WriteByte('"')
	}
	for _, r := range s {
		switch {
		case r == '"', r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n' && lines, r == '\t':
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			const hex = "0123456789abcdef"
			b.WriteString(`\u00` + string(hex[r>>4]) + string(hex[r&15]))
		default:
			b.WriteRune(r)
		}
	}
	if lines {
		b.WriteString(`"""`)
	} else {
		b.WriteByte('"')
	}
	return b.String()
}

// Number spells a number with the fewest digits that read back the same. A
// zero below zero is 0: written as an integer, that is what is read back.
func Number(v float64) string {
	switch {
	case v == 0:
		return "0"
	case math.IsNaN(v):
		return "nan"
	case math.IsInf(v, 0):
		return strings.TrimPrefix(strings.ToLower(strconv.FormatFloat(v, 'f', -1, 64)), "+")
	}
	if a := math.Abs(v); a != 0 && (a < 1e-6 || a >= 1e15) {
		return strconv.FormatFloat(v, 'e', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// List spells values as a list on one line.
func List(items []string) string { return "[" + strings.Join(items, ", ") + "]" }

// Numbers spells a list of numbers.
func Numbers(list []float64) string {
	items := make([]string, len(list))
	for i, v := range list {
		items[i] = Number(v)
	}
	return List(items)
}

// Words spells a list of words.
func Words(words []string) string {
	items := make([]string, len(words))
	for i, w := range words {
		items[i] = Text(w)
	}
	return List(items)
}
