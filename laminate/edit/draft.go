package edit

import (
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
)

// Draft is a wall in the making: the one way to build or change one. Rows are
// changed in place, and come and go by Insert and Remove; every row keeps the
// zone it is in until somebody says another.
type Draft struct {
	// Plies are the draft's own. Their number changes by Insert and Remove alone.
	Plies []laminate.Ply

	s     *laminate.Schedule
	lib   *laminate.Library
	zones []laminate.Zone // each row is to be in; NoZone: whatever is inferred
	own   []laminate.Resin

	inference laminate.Inference
	finished  *laminate.Schedule // made last: room for the next one
	soFar     laminate.Schedule  // as it stood, with its figures: likewise
	figures   laminate.Analysis
}

// Begin makes a draft of a schedule, which stays as it is.
func Begin(s *laminate.Schedule, lib *laminate.Library) *Draft {
	d := &Draft{}
	d.Again(s, lib)
	return d
}

// Again makes a draft of another schedule in the memory of one whose outcome
// nobody reads any more.
func (d *Draft) Again(s *laminate.Schedule, lib *laminate.Library) {
	var room []laminate.Ply
	if d.finished != nil {
		room = d.finished.Plies[:0]
	}
	d.Plies = append(slices.Grow(room, len(s.Plies)+4), s.Plies...)
	d.s, d.lib, d.own = s, lib, nil
	d.zones = append(d.zones[:0], d.inference.Of(s, lib)...)
}

// Insert puts rows before row at; each is to be in its zone, NoZone leaves that
// to inference.
func (d *Draft) Insert(at int, rows ...laminate.Ply) {
	zones := make([]laminate.Zone, len(rows))
	for i := range rows {
		zones[i] = rows[i].Zone
	}
	d.Plies = slices.Insert(d.Plies, at, rows...)
	d.zones = slices.Insert(d.zones, at, zones...)
}

// Remove takes the rows from one up to another, that one left in, out.
func (d *Draft) Remove(from, to int) {
	d.Plies = slices.Delete(d.Plies, from, to)
	d.zones = slices.Delete(d.zones, from, to)
}

// Zone is the zone that a row is to be in.
func (d *Draft) Zone(row int) laminate.Zone { return d.zones[row] }

// SetZone states the zone of a row, NoZone that inference decides.
func (d *Draft) SetZone(row int, z laminate.Zone) { d.Plies[row].Zone, d.zones[row] = z, z }

// Infer leaves to inference what the rows from one on do not state.
func (d *Draft) Infer(from int) {
	for i := from; i < len(d.zones); i++ {
		d.zones[i] = laminate.NoZone
	}
}

// Resin gives resin i of the schedule to be changed.
func (d *Draft) Resin(i int) *laminate.Resin {
	if d.own == nil {
		d.own = slices.Clone(d.s.Resins)
	}
	return &d.own[i]
}

// material is nil where nobody knows it.
func (d *Draft) material(row int) *laminate.Material {
	m, _ := d.lib.Material(d.s, d.Plies[row].Material)
	return m
}

func (d *Draft) form(row int) laminate.Form {
	if m := d.material(row); m != nil {
		return m.Form
	}
	return laminate.NoForm
}

// Schedule is the draft as it stands, zones settled and nothing judged.
func (d *Draft) Schedule() *laminate.Schedule {
	n := &laminate.Schedule{}
	d.settle(n, slices.Clone(d.Plies), slices.Clone(d.own))
	return n
}

// Finish gives every row the zone it is to be in, so that a change to one ply
// silently moves no other to another zone, and has the whole judged. It ends
// the draft, whose plies are handed over.
func (d *Draft) Finish() (*laminate.Schedule, error) {
	if len(d.Plies) > laminate.MostRows {
		return nil, fmt.Errorf("a schedule has at most %d rows", laminate.MostRows)
	}
	if d.finished == nil {
		d.finished = &laminate.Schedule{}
	}
	n := d.finished
	d.settle(n, d.Plies, d.own)
	d.Plies, d.zones, d.own = nil, d.zones[:0], nil
	return judged(d.s, n, d.lib)
}

// settle makes n of the plies and resins. It states zones where reading the
// document back would infer another, of a row or of some plies of it, and takes a
// row apart that inference may decide about. Stating one can change what is
// inferred for the plies after it, but every round states more, so that it ends.
func (d *Draft) settle(n *laminate.Schedule, plies []laminate.Ply, resins []laminate.Resin) {
	*n = *d.s
	n.Plies = plies
	if resins != nil {
		n.Resins = resins
	}
	for changed := true; changed; {
		changed = false
		for i, z := range d.inference.Of(n, d.lib) {
			if d.zones[i] != laminate.NoZone && z != d.zones[i] {
				plies[i].Zone = d.zones[i]
				changed = true
			}
		}
		row, inside := d.inference.Split()
		if !changed && inside > 0 && d.zones[row] != laminate.NoZone {
			plies[row].Zone = d.zones[row]
			changed = true
		}
	}
	n.Plies = d.inference.Apart(plies)
}

// GelBeforeMat has a row lie on the mat before it where a gel stop parts the two:
// it moves the stop ahead of that mat. False, and nothing is done, where the ply
// before is no mat of the structure, or nothing else was laid since the stop before
// it.
func (d *Draft) GelBeforeMat(row int) bool {
	i := row - 1
	if i < 0 || !d.form(i).Chopped() || d.zones[i] != laminate.StructuralLayer {
		return false
	}
	if d.Plies[i].Count > 1 {
		part := d.Plies[i]
		part.Count--
		d.Insert(i, part)
		d.zones[i] = d.zones[i+1]
		i++
		d.Plies[i].Count = 1
	} else if i == 0 || d.Plies[i-1].GelAfter {
		return false
	}
	d.Plies[i-1].GelAfter, d.Plies[i].GelAfter = true, false
	return true
}

// AddGelStops sets gel stops where more would be laid in one go than heat
// allows, taking rows of many plies apart. A ply of continuous fiber is not laid
// onto a gelled face where the mat before it may be.
func (d *Draft) AddGelStops() {
	d.settle(&d.soFar, append(d.soFar.Plies[:0], d.Plies...), d.own)
	d.figures.Again(&d.soFar, d.lib)
	figures := d.figures.Rows
	var g InOneGo
	row := 0
	for i := range figures {
		form, thickness := laminate.NoForm, figures[i].Thickness
		if m := figures[i].Material; m != nil {
			form = m.Form
		}
		left := d.Plies[row].Count
		for n := g.Room(form, thickness, left); n < left; n = g.Room(form, thickness, left) {
			if n == 0 && g != (InOneGo{}) {
				d.Plies[row-1].GelAfter = true
				g = InOneGo{}
				if rows := len(d.Plies); form.Continuous() && d.GelBeforeMat(row) {
					row += len(d.Plies) - rows
					g.Add(d.form(row-1), figures[i-1].Thickness, 1)
				}
				continue
			}
			n = max(n, 1) // one ply alone may be too much: no stop helps that
			if n == left {
				break
			}
			part := d.Plies[row]
			part.Count, part.GelAfter = n, true
			d.Insert(row, part)
			d.zones[row] = d.zones[row+1]
			row++
			left -= n
			d.Plies[row].Count = left
			g = InOneGo{}
		}
		g.Add(form, thickness, left)
		if d.Plies[row].GelAfter {
			g = InOneGo{}
		}
		row++
	}
}

// InOneGo counts what was laid since the last gel stop. A wound ply ends the
// count until the next one: wound walls go by the shop's own limit. Tested
// laminas do not count.
type InOneGo struct {
	Mats      int
	Thickness float64 // m
	wound     bool
}

// Room tells how many plies of a form and thickness (m), of count, may follow
// before it is more than is laid in one go.
func (g *InOneGo) Room(form laminate.Form, thickness float64, count int) int {
	if g.wound || form == laminate.Lamina || form == laminate.RovingBand {
		return count
	}
	n := count
	if form.Chopped() {
		n = min(n, catalog.MatsInOneGo-g.Mats)
	}
	if thickness > 0 {
		if room := (catalog.ThickestInOneGo.SI() - g.Thickness) / thickness; room < float64(n) {
			n = int(room + 1e-9)
		}
	}
	return max(n, 0)
}

// Add lays count plies.
func (g *InOneGo) Add(form laminate.Form, thickness float64, count int) {
	switch form {
	case laminate.RovingBand:
		g.wound = true
	case laminate.Lamina:
	default:
		if form.Chopped() {
			g.Mats += count
		}
		g.Thickness += thickness * float64(count)
	}
}
