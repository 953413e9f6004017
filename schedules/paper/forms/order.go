package forms

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/laid"
)

// laying is one ply in the order in which plies are laid.
type laying struct {
	ply  int  // its number, from the process side
	stop bool // a gel stop comes after it
	// barrier tells that with it the barrier is whole.
	barrier bool
}

// order is the plies of a wall as they are laid: from the process side, as
// schedules are written, or the other way round.
func order(s *laminate.Schedule, a *laminate.Analysis, from laminate.LaidOrder) []laying {
	last := 0 // ply of the barrier with which it is whole, 0 for none
	switch {
	case a.BarrierEnd == 0:
	case from == laminate.OutsideIn:
		last = 1
	default:
		last = a.Rows[a.BarrierEnd-1].Last
	}
	o := laid.As(s, a, from)
	list := make([]laying, len(o.Plies))
	for k, ply := range o.Plies {
		list[k] = laying{ply: ply, stop: o.Stops[k+1], barrier: ply == last}
	}
	return list
}
