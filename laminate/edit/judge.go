package edit

import (
	"errors"
	"slices"
	"strings"

	"frp/veilwright/laminate"
)

// sound refuses a schedule with a fault that the one it was made of has not: a
// person can mend one fault of several, and makes no new one. The error says
// what is wrong, bounds included.
func sound(before, after *laminate.Schedule, lib *laminate.Library) error {
	if soundRows(before, after, lib) {
		return nil
	}
	faults := laminate.Validate(after, lib)
	if len(faults) == 0 {
		return nil
	}
	if f, found := newFault(laminate.Validate(before, lib), faults); found {
		return refusal(after, f)
	}
	return nil
}

// soundRows tells that nothing but rows of plies has changed, and that those have
// no fault: what the others have was there before.
func soundRows(before, after *laminate.Schedule, lib *laminate.Library) bool {
	a, b := before.Plies, after.Plies
	if before.Head != after.Head || before.Part != after.Part || before.Service != after.Service || !slices.Equal(before.Conditions, after.Conditions) ||
		!slices.Equal(before.Resins, after.Resins) || !slices.Equal(before.Materials, after.Materials) || after.NumberOfPlies() > laminate.MostPlies {
		return false
	}
	from, to := 0, len(b)
	for from < len(a) && from < to && a[from] == b[from] {
		from++
	}
	for n := len(a); n > from && to > from && a[n-1] == b[to-1]; n-- {
		to--
	}
	return len(laminate.Validate(&laminate.Schedule{Resins: after.Resins, Materials: after.Materials, Plies: b[from:to]}, lib)) == 0
}

// newFault finds a fault that was not there before.
func newFault(before, after []laminate.Fault) (laminate.Fault, bool) {
	had := map[laminate.Fault]int{}
	for _, f := range before {
		had[anywhere(f)]++
	}
	for _, f := range after {
		if had[anywhere(f)]--; had[anywhere(f)] < 0 {
			return f, true
		}
	}
	return laminate.Fault{}, false
}

// anywhere is a fault wherever its row stands: rows move.
func anywhere(f laminate.Fault) laminate.Fault {
	f.Ref.Index = 0
	return f
}

func judged(before, after *laminate.Schedule, lib *laminate.Library) (*laminate.Schedule, error) {
	if err := sound(before, after, lib); err != nil {
		return nil, err
	}
	return after, nil
}

func refusal(s *laminate.Schedule, f laminate.Fault) error {
	text := strings.TrimPrefix(strings.ReplaceAll(f.Ref.Key, "_", " ")+": "+f.Message, ": ")
	if f.Ref.Kind == laminate.RefPly {
		text += " (" + PlyLabel(s, f.Ref.Index) + ")"
	}
	return errors.New(text)
}
