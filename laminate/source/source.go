// Package source is the one register of the publications that figures, rules and
// limits rest on, and of how each was read. A basis text names its sources as the
// register does, and a test holds every basis text to it: what is not in the
// register is no source, and what was not read in the publication itself says so.
package source

import (
	"strings"

	"frp/veilwright/laminate/word"
)

// Read is how a publication was read.
type Read uint8

// The ways, the best first.
const (
	Published  Read = iota // in the publication itself
	SecondHand             // in another that quotes it
	Memory                 // from memory; to be checked before anybody relies on it
)

var reads = word.Of[Read]("read in the publication", "second-hand", "from memory")

func (r Read) String() string { return reads.Name(r) }

// Entry is a publication.
type Entry struct {
	Name  string // as basis texts begin to name it: "API 12P"
	Title string
	Read  Read
	For   string // what is taken from it here
}

// CommonPractice is what stands in the place of a source where practice agrees
// and no publication was found.
const CommonPractice = "common practice, no source"

// Own are the ways in which a basis text says that nothing outside the program
// was asked.
var Own = []string{
	CommonPractice, "from memory", "arithmetic", "the program's own check", "this program's own word", "trade word", "the specification", "the schedule", "the record",
	"each criterion names its own source",
}

// Register lists the publications by name.
func Register() []Entry { return register }

// Of lists the entries that a basis text names, in the order of the register.
func Of(basis string) []Entry {
	var list []Entry
	for _, e := range register {
		if named(basis, e.Name) {
			list = append(list, e)
		}
	}
	return list
}

// named tells whether a text has a name that does not go on as a longer number:
// D3299 names no D32.
func named(text, name string) bool {
	for {
		_, after, ok := strings.Cut(text, name)
		if !ok {
			return false
		}
		if after == "" || after[0] < '0' || after[0] > '9' {
			return true
		}
		text = after
	}
}
