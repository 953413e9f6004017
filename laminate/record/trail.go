package record

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
)

// Sum is a SHA-256.
type Sum [sha256.Size]byte

// String writes it as 64 hexadecimal digits.
func (s Sum) String() string { return hex.EncodeToString(s[:]) }

// ID is the beginning of a seal: enough to tell the entries of a record apart,
// and, since a seal is over the content, what each of them says.
func (s Sum) ID() string { return s.String()[:idDigits] }

const idDigits = 12

// Next is the seal of an entry of this content behind one of that seal.
func Next(before, content Sum) Sum {
	return sha256.Sum256(append(before[:], content[:]...))
}

// Trail says whether the entries of a record follow one another as they were
// written. The zero value says that they do. A seal is no signature: who seals
// every entry anew is found by a seal that was noted elsewhere, as on a report.
type Trail struct {
	Breaks   []Break
	Unsealed []int // numbers of entries without a seal that nobody named has adopted
	Loose    []int // more than one: numbers of the last entries of copies that nobody joined
	Sealed   int   // how many entries have a seal
	Last     Sum   // the seal that the next entry follows
}

// Break is an entry that does not follow from those before it.
type Break struct {
	Number, Line int
	Why          string
}

// Sound tells that every entry follows, and that somebody answers for each.
func (t *Trail) Sound() bool { return len(t.Breaks)+len(t.Unsealed)+len(t.Loose) == 0 }

// mostSearches bounds how many entries that do not follow the one before are
// looked for behind all others.
const mostSearches = 16

// Follow goes through the entries of a record whose head has this content, gives
// those without a seal the ID that they would have, and says what does not follow.
func Follow(head Sum, entries []Any) Trail {
	f := follower{entries: entries, seals: make([]Sum, 1, len(entries)+1), follows: make([]int, 1, len(entries)+1), heads: []int{0}}
	f.seals[0] = Next(Sum{}, head)
	for _, e := range entries {
		f.add(e)
	}
	f.trail.Last = f.seals[len(f.seals)-1]
	if len(f.heads) > 1 {
		f.trail.Loose = f.heads
	}
	return f.trail
}

type follower struct {
	trail   Trail
	entries []Any
	seals   []Sum // of the record's head and of each entry
	follows []int // the number of the entry that each follows; 0 is the record's head
	heads   []int // numbers of entries that none follows
	tries   int
}

func (f *follower) fault(e *Entry, why string) {
	f.trail.Breaks = append(f.trail.Breaks, Break{e.Number, e.Line, why})
}

func (f *follower) add(any Any) {
	e := any.Head()
	before := len(f.seals) - 1
	seal := Next(f.seals[before], e.Content)
	switch {
	case e.Seal == "" && e.ID != "":
		e.Cut = true
		f.fault(e, "its seal was taken away")
	case e.Seal == "":
		e.ID = seal.ID()
		f.trail.Unsealed = append(f.trail.Unsealed, e.Number)
	default:
		f.trail.Sealed++
		if seal.String() != e.Seal {
			before, seal = f.search(e, before)
		}
		if e.ID != seal.ID() {
			f.fault(e, "its id is not that of its seal")
		}
	}
	f.seals = append(f.seals, seal)
	f.follows = append(f.follows, before)
	f.heads = slices.DeleteFunc(f.heads, func(n int) bool { return n == before })
	f.heads = append(f.heads, e.Number)
	switch x := any.(type) {
	case *Adopted:
		if e.Seal != "" && len(f.trail.Unsealed) > 0 {
			f.adopt(e.Number)
		}
	case *Joined:
		f.join(x)
	}
}

// adopt clears the entries without a seal that an adoption follows: those of
// another copy, which were put before it by joining, it does not speak of.
func (f *follower) adopt(by int) {
	adopted := map[int]bool{}
	for next := []int{f.follows[by]}; len(next) > 0; {
		n := next[len(next)-1]
		next = next[:len(next)-1]
		for ; n > 0 && !adopted[n]; n = f.follows[n] {
			adopted[n] = true
			e := f.entries[n-1]
			if x, ok := e.(*Joined); ok {
				next = append(next, f.named(x)...)
			}
			if _, ok := e.(*Adopted); ok && e.Head().Seal != "" {
				break // which cleared all before it
			}
		}
	}
	f.trail.Unsealed = slices.DeleteFunc(f.trail.Unsealed, func(n int) bool { return adopted[n] })
}

// behindBare finds the entry behind which the entries without a seal before a
// sealed one have to stand for it to follow from them, as where they were the end
// of a copy that was joined; false where there is none.
func (f *follower) behindBare(e *Entry, before int) (Sum, bool) {
	first := before
	for first > 0 && f.entries[first-1].Head().Seal == "" && !f.entries[first-1].Head().Cut {
		first--
	}
	if first++; first > before {
		return Sum{}, false
	}
	bare := f.entries[first-1 : before]
	for k := first - 2; k >= 0; k-- {
		seal := f.seals[k]
		for _, b := range bare {
			seal = Next(seal, b.Head().Content)
		}
		if seal = Next(seal, e.Content); seal.String() != e.Seal {
			continue
		}
		f.follows[first] = k
		for i, b := range bare {
			f.seals[first+i] = Next(f.seals[f.follows[first+i]], b.Head().Content)
			b.Head().ID = f.seals[first+i].ID()
		}
		f.heads = slices.DeleteFunc(f.heads, func(n int) bool { return n == k })
		f.heads = append(f.heads, first-1)
		slices.Sort(f.heads)
		return seal, true
	}
	return Sum{}, false
}

// search finds which entry, if not the one before it, a sealed entry follows.
func (f *follower) search(e *Entry, before int) (int, Sum) {
	if f.tries++; f.tries <= mostSearches {
		for k := before - 1; k >= 0; k-- {
			if seal := Next(f.seals[k], e.Content); seal.String() == e.Seal {
				if slices.Contains(f.seals, seal) {
					f.fault(e, "it stands here a second time")
				}
				return k, seal
			}
		}
		if seal, ok := f.behindBare(e, before); ok {
			return before, seal
		}
	}
	why := "it does not follow from any before it: it was changed, or what stood before it was changed, removed or moved"
	if before == 0 {
		why = "it does not follow from the head of the record: one of the two was changed, or what stood between was removed"
	}
	f.fault(e, why)
	var stated Sum
	if b, err := hex.DecodeString(e.Seal); err != nil || copy(stated[:], b) != len(b) || len(b) != len(stated) {
		return before, Next(f.seals[before], e.Content)
	}
	return before, stated // what follows is held against what it says
}

// join makes one of the copies whose last entries are named.
func (f *follower) join(x *Joined) {
	for _, n := range f.named(x) {
		f.heads = slices.DeleteFunc(f.heads, func(h int) bool { return h == n })
	}
	for _, id := range strings.Fields(x.Heads) {
		if f.withID(x, id) < 0 {
			f.fault(&x.Entry, fmt.Sprintf("it joins %s, which is no entry of this record", id))
		}
	}
}

// named are the numbers of the entries that a joining names, as far as they are there.
func (f *follower) named(x *Joined) []int {
	var list []int
	for _, id := range strings.Fields(x.Heads) {
		if n := f.withID(x, id); n >= 0 {
			list = append(list, n)
		}
	}
	return list
}

func (f *follower) withID(x *Joined, id string) int {
	return slices.IndexFunc(f.seals[:x.Number], func(s Sum) bool { return s.ID() == id })
}
