package layup

import (
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
)

// takes is what a single ply takes.
func (p *Page) takes(ply int) laid.Ply {
	return p.records.Take(ply)
}

// batch is the mix of the plies from one on that are laid in one go: of the
// same resin, up to the next gel stop.
func (p *Page) batch(ply int) (last int, kg float64, ok bool) {
	plies := p.records.Schedule().Plies
	first := p.records.RowOf(ply)
	if first < 0 {
		return 0, 0, false
	}
	for _, n := range p.order().Plies[p.at(ply):] {
		i := p.records.RowOf(n)
		if i < 0 || plies[i].Resin != plies[first].Resin {
			break
		}
		a := p.takes(n)
		if a.Missing != "" {
			return 0, 0, false
		}
		last, kg = n, kg+a.Mix
		if p.stops(n) {
			break
		}
	}
	return last, kg, last > 0
}

// stop is the next gel stop from a ply on, 0 where none comes.
func (p *Page) stop(ply int) int {
	if ply < 1 || ply > p.total() {
		return 0
	}
	for _, n := range p.order().Plies[p.at(ply):] {
		if p.stops(n) {
			return n
		}
	}
	return 0
}

func weight(kg float64, u quantity.System) string { return u.Figure(kg, quantity.Weight) }
