// Package laid says what one ply of a part takes: the area it covers, its fabric
// and its resin mix, net of waste, and in which order plies are laid. What is missing is named by its key; nothing
// is guessed.
package laid

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Ply is what a single ply over the whole part takes: m² and kg. The mix is
// resin with its filler.
type Ply struct {
	Row                       int // of the schedule
	Area, Fabric, Mix, Filler float64
	Circumference, Length     float64 // m, of a round part; else 0
	// How says what the area was made of, Missing what stands in the way of the
	// figures; those that need no more than what is there are given all the same.
	How, Missing string
}

// Resin is the mix without its filler.
func (p *Ply) Resin() float64 { return p.Mix - p.Filler }

// Of gives what a single ply takes, by its number from 1, with figures for a
// reader of the units. Round walls are taken at the middle of the ply, as far as
// its place is known; heads and flanges are not in it.
func Of(s *laminate.Schedule, a *laminate.Analysis, ply int, u quantity.System) Ply {
	p := Ply{Row: rowOf(a, ply)}
	if p.Row < 0 {
		p.Missing = "there is no such ply"
		return p
	}
	if p.area(&s.Part, a, ply, u); p.Missing != "" {
		return p
	}
	r := &a.Rows[p.Row]
	if !r.MassKnown {
		p.Missing = "the mass of this ply is not known: a resin, a density or an angle is missing; see the bench"
		return p
	}
	p.Fabric, p.Mix, p.Filler = r.FiberMass*p.Area, (r.Mass-r.FiberMass)*p.Area, r.FillerMass*p.Area
	return p
}

func rowOf(a *laminate.Analysis, ply int) int {
	for i := range a.Rows {
		if r := &a.Rows[i]; r.First <= ply && ply <= r.Last {
			return i
		}
	}
	return -1
}

func (p *Ply) area(part *laminate.Part, a *laminate.Analysis, ply int, u quantity.System) {
	switch part.Form {
	case laminate.Panel:
		if !part.Area.Given() {
			p.Missing = "the part's area (key part.area) is not stated"
			return
		}
		p.Area, p.How = part.Area.SI(), "the panel's area"
		return
	case laminate.NoPartForm:
		p.Missing = "the part's form (key part.form) is not stated"
		return
	case laminate.Pipe, laminate.Duct, laminate.Tank, laminate.ShellCourse:
	case laminate.Elbow, laminate.FlatBottom, laminate.HeadPart, laminate.Cone, laminate.Flange, laminate.Cover:
		p.Missing = "the area of a part of the form " + part.Form.String() + " is not figured"
		return
	}
	switch {
	case !part.InsideDiameter.Given():
		p.Missing = "the inside diameter (key part.inside_diameter) is not stated"
		return
	case !part.Length.Given():
		p.Missing = "the length (key part.length) is not stated"
		return
	}
	what := "length"
	if part.Form == laminate.Tank {
		what = "straight side, without heads"
	}
	d, at := part.InsideDiameter.SI(), "inside diameter"
	if mid, ok := middle(a, p.Row, ply); ok {
		d, at = d+2*mid, "diameter at this ply"
	}
	p.Length, p.Circumference = part.Length.SI(), math.Pi*d
	p.Area = p.Circumference * p.Length
	p.How = "π × " + u.Figure(d, quantity.Size) + " " + at + " × " + u.Figure(p.Length, quantity.Distance) + " " + what
}

// middle is how far the middle of a single ply lies outside of the process face.
func middle(a *laminate.Analysis, row, ply int) (m float64, ok bool) {
	for j := range row + 1 {
		if !a.Rows[j].ThicknessKnown {
			return 0, false
		}
	}
	r := &a.Rows[row]
	return r.ToHere - (float64(r.Last-ply)+0.5)*r.Thickness, true
}
