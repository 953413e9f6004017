package laid

import (
	"slices"

	"frp/veilwright/laminate"
)

// Order is the plies of a wall in the order in which they are laid. It is a view:
// thickness, mass and stiffness are those of the schedule, and an angle stays
// that of the part, though from the other side +α looks like −α.
type Order struct {
	Plies []int // numbers from the process side, from 1
	// Stops are the faces between plies at which a gel stop lies: Stops[k] is
	// the one under Plies[k], the last the one over all.
	Stops []bool
}

// Written is the order in which schedules are written, from the process side.
func Written(s *laminate.Schedule, a *laminate.Analysis) Order {
	o := Order{Stops: []bool{false}}
	for i := range s.Plies {
		for n := a.Rows[i].First; n <= a.Rows[i].Last; n++ {
			o.Plies = append(o.Plies, n)
			o.Stops = append(o.Stops, s.Plies[i].GelAfter && n == a.Rows[i].Last)
		}
	}
	return o
}

// Reversed is the same wall laid from its other side: a gel stop stays at its
// face, so that it comes after the ply that was over it.
func (o Order) Reversed() Order {
	r := Order{slices.Clone(o.Plies), slices.Clone(o.Stops)}
	slices.Reverse(r.Plies)
	slices.Reverse(r.Stops)
	return r
}

// At is where in the order a single ply stands, from 0.
func (o Order) At(ply int) int {
	if n := len(o.Plies); n > 0 && o.Plies[0] != 1 {
		return n - ply
	}
	return ply - 1
}

// As is the order for a mold: outside-in is reversed.
func As(s *laminate.Schedule, a *laminate.Analysis, from laminate.LaidOrder) Order {
	o := Written(s, a)
	if from == laminate.OutsideIn {
		return o.Reversed()
	}
	return o
}
