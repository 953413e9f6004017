package word

import (
	"slices"
	"strconv"
	"strings"
)

// meant are words of the trade that a closed set lacks, and which of it say what they
// mean: what is nearest in letters would be another chemical.
var meant = []struct {
	begins, of string // what a word begins with; a word of the set that it is about
	says       string
}{
	{"chlorin", "oxidizer", `chlorine, wet, as gas or in brine, is not chlorine dioxide: state "oxidizer", and "hypochlorite" too where what it is in is alkaline`},
	{"bleach", "hypochlorite", `sodium hypochlorite is "hypochlorite", bleaching with chlorine dioxide "chlorine-dioxide"`},
	{"acid", "strong-acid", `an acid that is strong is "strong-acid"; of any its pH is stated (ph)`},
	{"caustic", "strong-base", `caustic soda or potash is "strong-base"; of any its pH is stated (ph)`},
	{"hydrofluoric", "fluorides", `hydrofluoric acid is "fluorides", and "strong-acid" where it is one`},
}

// Hint goes on behind "is not one of": what says what a word means that is not of the
// set, else the nearest, "" where there is none.
func Hint(typed string, words []string) string {
	if says := other(typed, words); says != "" {
		return "; " + says
	}
	if n := Nearest(typed, words); n != "" {
		return "; " + strconv.Quote(n) + " is the nearest"
	}
	return ""
}

// other says which words of a set say what one means that is not of it, "" where nobody
// here knows.
func other(typed string, words []string) string {
	low := strings.TrimPrefix(strings.ToLower(strings.TrimSpace(typed)), "wet ")
	if len(typed) > longestTyped || slices.ContainsFunc(words, func(w string) bool { return Distance(low, w) <= 2 }) {
		return "" // a slip of the hand
	}
	for _, m := range meant {
		if strings.HasPrefix(low, m.begins) && slices.Contains(words, m.of) {
			return m.says
		}
	}
	return ""
}
