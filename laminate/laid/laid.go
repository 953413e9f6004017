// Package laid says what one ply takes: the area it covers, its fabric
// and its resin mix, net of waste, and in which order plies are laid. What is missing is named by its key; nothing
// is guessed.
package laid

import (
	"math"
	"slices"
	"sort"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
)

// Ply is what a single ply over all of its ground takes: m² and kg. The mix is
// resin with its filler.
type Ply struct {
	Row                       int // of the schedule
	Area, Fabric, Mix, Filler float64
	Circumference, Length     float64 // m, of a round part; else 0
	Disc, Across              float64 // m, diameter of a disc, and how wide an overlay lies; else 0
	// How says what the area was made of, Missing what stands in the way of the
	// figures; those that need no more than what is there are given all the same.
	How, Missing string
}

// Resin is the mix without its filler.
func (p *Ply) Resin() float64 { return p.Mix - p.Filler }

// Of gives what a single ply of a part takes, by its number from 1, with figures
// for a reader of the units.
func Of(s *laminate.Schedule, a *laminate.Analysis, ply int, u quantity.System) Ply {
	on, err := ground.OfPart(&s.Part)
	return On(&on, err, a, ply, u)
}

// On gives what a single ply takes on a ground, by its number from 1; missing is
// why the ground is not known, or nil. The area is taken at the middle of the
// ply, as far as its place is known.
func On(on *ground.Ground, missing error, a *laminate.Analysis, ply int, u quantity.System) Ply {
	p := Ply{Row: RowOf(a, ply)}
	if p.Row < 0 {
		p.Missing = "there is no such ply"
		return p
	}
	at, placed := middle(a, p.Row, ply)
	if on.Across != nil {
		p.Across = on.Across(ply-1, at)
	}
	if missing == nil {
		p.Area, missing = on.Area(ply-1, at)
	}
	if missing != nil {
		p.Area, p.Missing = 0, missing.Error()
		return p
	}
	p.How = on.How(at, placed, u)
	if on.Diameter > 0 {
		p.Circumference, p.Length = math.Pi*(on.Diameter+2*at), on.Length
	}
	p.Disc = on.Disc
	r := &a.Rows[p.Row]
	if !r.MassKnown {
		p.Missing = "the mass of this ply is not known: a resin, a density or an angle is missing; see the bench"
		return p
	}
	p.Fabric, p.Mix, p.Filler = r.FiberMass*p.Area, (r.Mass-r.FiberMass)*p.Area, r.FillerMass*p.Area
	return p
}

// RowOf is the row that holds a single ply, by its number from 1; -1 where there
// is none.
func RowOf(a *laminate.Analysis, ply int) int {
	i := sort.Search(len(a.Rows), func(i int) bool { return a.Rows[i].Last >= ply })
	if i == len(a.Rows) || a.Rows[i].First > ply {
		return -1
	}
	return i
}

// middle is how far the middle of a single ply lies outside of the face that the
// first one is laid on.
func middle(a *laminate.Analysis, row, ply int) (m float64, ok bool) {
	if !a.Total.ThicknessKnown && slices.ContainsFunc(a.Rows[:row+1], func(r laminate.RowFigures) bool { return !r.ThicknessKnown }) {
		return 0, false
	}
	r := &a.Rows[row]
	return r.ToHere - (float64(r.Last-ply)+0.5)*r.Thickness, true
}
