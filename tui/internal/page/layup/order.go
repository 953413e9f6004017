package layup

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/laid"
)

// order is the plies in the order in which they are laid: of a part laid from the
// outside in the last of the schedule is the first.
func (p *Page) order() laid.Order {
	if r := p.records.Report(); p.orderOf != r {
		p.orderOf, p.orderIs = r, laid.As(r.Schedule, r.Analysis, r.Laid)
	}
	return p.orderIs
}

// reversed tells of what is laid from the last ply of the schedule to the first.
func (p *Page) reversed() bool { return p.records.Report().Laid == laminate.OutsideIn }

// at is where in the order a single ply stands, from 0.
func (p *Page) at(ply int) int { return p.order().At(ply) }

// run is plies of one row that are laid one after the other.
type run struct {
	row, first, last int  // the first and the last by number
	from             int  // the one that is laid first
	stop             bool // a gel stop comes after them
}

// coming are the plies after one.
func (p *Page) coming(after int) (list []run) {
	plies := p.order().Plies
	for k := p.at(after) + 1; k < len(plies); k++ {
		n := plies[k]
		row := p.records.RowOf(n)
		if m := len(list) - 1; m >= 0 && list[m].row == row && !list[m].stop && p.holdBefore(n) == "" {
			list[m].first, list[m].last = min(list[m].first, n), max(list[m].last, n)
		} else {
			list = append(list, run{row: row, first: n, last: n, from: n})
		}
		list[len(list)-1].stop = p.stops(n)
	}
	return list
}
