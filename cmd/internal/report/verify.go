package report

import (
	"strings"

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
