package tables

import (
	"bytes"
	"cmp"
	"fmt"
	"frp/veilwright/laminate/word"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Problem is one thing that makes a document unusable, and where. Its text is
// safe to print: whatever comes from the file is quoted.
type Problem struct {
	Line, Column int    // from 1; 0 where no line is to blame
	Key          string // "part.inside_diameter", "ply.count"; "" where no key is to blame
	Message      string // without line and key
}

// String reads "line 12: ply.count: 0 is not at least 1".
func (p Problem) String() string {
	var b strings.Builder
	if p.Line > 0 {
		fmt.Fprintf(&b, "line %d: ", p.Line)
	}
	if p.Key != "" {
		b.WriteString(p.Key + ": ")
	}
	b.WriteString(p.Message)
	return b.String()
}

// mostProblems are told of one document; a file of another kind would be
// answered with thousands.
const mostProblems = 200

// Sorted puts problems in the order of the file and cuts the list.
func Sorted(problems []Problem) []Problem {
	slices.SortStableFunc(problems, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column), cmp.Compare(a.Key, b.Key), cmp.Compare(a.Message, b.Message))
	})
	problems = slices.Compact(problems)
	if len(problems) > mostProblems {
		first := problems[mostProblems]
		// Not how many: what is far down was not even noted.
		problems = append(slices.Clip(problems[:mostProblems]), Problem{Line: first.Line, Column: first.Column, Message: "more problems from here on are not listed"})
	}
	return problems
}

// Quoted prints text of a file safely and briefly.
func Quoted(s string) string { return strconv.Quote(Clipped(s)) }

// Clipped keeps text of a file brief.
func Clipped(s string) string { return clipped(s, 60) }

func clipped(s string, most int) string {
	if len(s) <= most {
		return s
	}
	n := 0
	for i := range s {
		if n == most {
			return s[:i] + "…"
		}
		n++
	}
	return s
}

// SafeKey is a key as a problem names it: a key that is no bare word is quoted.
func SafeKey(key string) string {
	for i := 0; i < len(key); i++ {
		c := key[i]
		if !(c == '_' || c == '-' || c == '.' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z') {
			return Quoted(key)
		}
	}
	return Clipped(key)
}

// longestSentence is room for whatever a library has to say.
const longestSentence = 200

// Printable makes a library's message safe: it may quote the file.
func Printable(s string) string { return word.Clean(clipped(s, longestSentence)) }

// Place turns an offset into line and column, the column counted in characters.
func Place(b []byte, at int) (line, column int) {
	at = min(at, len(b))
	start := bytes.LastIndexByte(b[:at], '\n') + 1
	return 1 + bytes.Count(b[:start], []byte{'\n'}), 1 + utf8.RuneCount(b[start:at])
}

func problemAt(b []byte, at int, key, message string) Problem {
	p := Problem{Key: key, Message: message}
	p.Line, p.Column = Place(b, at)
	return p
}
