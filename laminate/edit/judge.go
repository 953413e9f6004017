package edit

import (
	"errors"
	"strings"

	"frp/veilwright/laminate"
)

// sound refuses a schedule with a fault that the one it was made of has not: a
// person can mend one fault of several, and makes no new one. The error says
// what is wrong, bounds included.
func sound(before, after *laminate.Schedule, lib *laminate.Library) error {
	faults := laminate.Validate(after, lib)
	if len(faults) == 0 {
		return nil
	}
	if f, found := newFault(laminate.Validate(before, lib), faults); found {
		return refusal(after, f)
	}
	return nil
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
	text := strings.ReplaceAll(f.Ref.Key, "_", " ") + ": " + f.Message
	if f.Ref.Kind == laminate.RefPly {
		text += " (" + PlyLabel(s, f.Ref.Index) + ")"
	}
	return errors.New(text)
}
