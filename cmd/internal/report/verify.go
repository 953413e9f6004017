package report

import (
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/shop"
)

// The verdicts on a record's entries.
const (
	Follows          = "follows"
	DoesNotFollow    = "does not follow"
	VerifyIncomplete = "incomplete"
)

// Verified is what verify prints of a record as JSON.
type Verified struct {
	File     string    `json:"file"`
	Error    *string   `json:"error"`
	Problems []Problem `json:"problems"`
	Of       *string   `json:"of"` // what of a job the record is of; null of a schedule
	Entries  int       `json:"entries"`
	Sealed   int       `json:"sealed"`
	// Unsealed are entries that nobody has adopted, Loose the last entries of
	// copies that nobody has joined.
	Unsealed  []int         `json:"unsealed"`
	Loose     []int         `json:"not_joined"`
	Breaks    []BrokenEntry `json:"breaks"`
	Torn      *string       `json:"torn"`
	SealFound *bool         `json:"seal_found"` // null where none was asked for
	LastSeal  string        `json:"last_seal"`
	Verdict   string        `json:"verdict"`
}

// BrokenEntry is an entry that does not follow from those before it.
type BrokenEntry struct {
	Entry int    `json:"entry"`
	Line  int    `json:"line"`
	Why   string `json:"why"`
}

// Unverified is the report of a record that could not be read.
func Unverified(s Schedule) Verified {
	return Verified{File: s.File, Error: s.Error, Problems: list(s.Problems), Unsealed: []int{}, Loose: []int{}, Breaks: []BrokenEntry{}, Verdict: Unusable}
}

// Verify is the report of a record; seal is one that it has to have, or its
// beginning, "" for none.
func Verify(o *shop.Opened, seal string) Verified {
	v := Unverified(Schedule{File: o.Name})
	t := &o.Record.Trail
	v.Of = stated(o.Record.What())
	v.Entries, v.Sealed, v.Unsealed, v.Loose, v.Torn = len(o.Record.Entries()), t.Sealed, list(t.Unsealed), list(t.Loose), stated(o.Torn)
	for _, b := range t.Breaks {
		v.Breaks = append(v.Breaks, BrokenEntry{b.Number, b.Line, b.Why})
	}
	found := true
	if seal != "" {
		found = false
		for _, e := range o.Record.Entries() {
			found = found || len(seal) >= 12 && strings.HasPrefix(e.Head().Seal, strings.ToLower(seal))
		}
		v.SealFound = &found
	}
	if v.Sealed > 0 {
		v.LastSeal = t.Last.String()
	}
	switch {
	case len(v.Breaks)+len(v.Loose) > 0 || !found:
		v.Verdict = DoesNotFollow
	case len(v.Unsealed) > 0 || o.Torn != "":
		v.Verdict = VerifyIncomplete
	default:
		v.Verdict = Follows
	}
	return v
}

// Lines says the same in text.
func (v *Verified) Lines() []string {
	var lines []string
	say := func(format string, a ...any) { lines = append(lines, fmt.Sprintf(format, a...)) }
	if v.Of != nil {
		say("%s: of %s", v.File, *v.Of)
	}
	for _, b := range v.Breaks {
		say("%s:%d: entry %d: %s", v.File, b.Line, b.Entry, b.Why)
	}
	if len(v.Loose) > 0 {
		say("%s: copies that went separate ways and were not joined end in entries %s", v.File, numbers(v.Loose))
	}
	if len(v.Unsealed) > 0 {
		say("%s: without a seal, and not adopted: %s", v.File, numbers(v.Unsealed))
	}
	if v.Torn != nil {
		say("%s: %s", v.File, *v.Torn)
	}
	if v.SealFound != nil && !*v.SealFound {
		say("%s: no entry has the seal asked for", v.File)
	}
	say("%s: %s, %d sealed: %s", v.File, quantity.Counted(v.Entries, "entry", "entries"), v.Sealed, v.Verdict)
	if v.LastSeal != "" {
		say("%s: last seal %s", v.File, v.LastSeal)
	}
	return lines
}

// numbers lists the first of some numbers.
func numbers(list []int) string {
	const most = 12
	text := ""
	for i, n := range list {
		switch {
		case i == most:
			return text + fmt.Sprintf(" and %d more", len(list)-most)
		case i > 0:
			text += ", "
		}
		text += strconv.Itoa(n)
	}
	return text
}
