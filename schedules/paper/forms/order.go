package forms

import "frp/veilwright/laminate"

// laying is one ply in the order in which plies are laid.
type laying struct {
	ply  int  // its number, from the process side
	stop bool // a gel stop comes after it
	// barrier tells that with it the barrier is whole.
	barrier bool
}

// order is the plies of a wall as they are laid: from the process side, as
// schedules are written, or the other way round. A gel stop stands between two
// plies, so that it comes after the outer one of them when the outer is laid
// first.
func order(s *laminate.Schedule, a *laminate.Analysis, laid laminate.LaidOrder) []laying {
	var list []laying
	last := 0 // ply of the barrier, 0 for none
	if a.BarrierEnd > 0 {
		last = a.Rows[a.BarrierEnd-1].Last
	}
	for i := range s.Plies {
		for n := a.Rows[i].First; n <= a.Rows[i].Last; n++ {
			list = append(list, laying{ply: n, stop: s.Plies[i].GelAfter && n == a.Rows[i].Last, barrier: n == last})
		}
	}
	if laid != laminate.OutsideIn {
		return list
	}
	n := len(list)
	turned := make([]laying, n)
	for i := range list {
		turned[n-1-i].ply = list[i].ply
		if list[i].stop && i+1 < n { // at the interface i | i+1
			turned[n-2-i].stop = true
		}
	}
	if last > 0 {
		turned[n-1].barrier = true
	}
	return turned
}
