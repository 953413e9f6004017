// Package glossary holds the words that the program uses toward people, as
// data: one word for one thing, what it means, where it comes from, and the
// words that are not used for it any more. The glossary prints from it, and a
// test holds every text that a person can read against it.
package glossary

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"sync"
)

// Sources of words that are no standard's.
const (
	trade   = "trade word"
	program = "this program's own word"
)

// Entry is one thing and its word.
type Entry struct {
	Concept string   // what is meant, once in the list
	Word    string   // the word on screens and in documents
	Meaning string   // sentences of the glossary; empty where the glossary leaves the word out
	Source  string   // the standard whose own term it is, or "trade word"; given with Meaning
	Retired []string // patterns of words that are no longer used for it
}

// Words lists every entry.
func Words() []Entry { return slices.Clone(entries) }

// Terms lists the entries that the glossary explains, in the order of the alphabet.
func Terms() []Entry {
	terms := slices.DeleteFunc(Words(), func(e Entry) bool { return e.Meaning == "" })
	slices.SortFunc(terms, func(a, b Entry) int { return cmp.Compare(strings.ToLower(a.Word), strings.ToLower(b.Word)) })
	return terms
}

// Slip is a word in a text that is not used here.
type Slip struct {
	Found string // as it stands in the text
	Say   string // the word to use
}

type pattern struct {
	find *regexp.Regexp
	say  string
}

// patterns are made when a text is first checked, not at every start of the program.
var patterns = sync.OnceValue(func() []pattern {
	var list []pattern
	add := func(find, say string) {
		list = append(list, pattern{regexp.MustCompile(`(?i)(?:^|[^\pL\d_-])(` + find + `)(?:$|[^\pL\d_-])`), say})
	}
	for _, e := range entries {
		for _, r := range e.Retired {
			add(r, e.Word)
		}
	}
	for _, s := range spellings {
		add(s.uk, s.us)
	}
	return list
})

// Check finds the retired words and UK spellings of a text.
func Check(s string) []Slip {
	var slips []Slip
	for _, p := range patterns() {
		for _, m := range p.find.FindAllStringSubmatch(s, -1) {
			slips = append(slips, Slip{m[1], p.say})
		}
	}
	return slips
}
