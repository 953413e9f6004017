package layup

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// area is the area a single ply covers in m², what it was made of, or which key
// is missing for it. Round walls are taken at the middle of the ply, as far as
// its place is known; heads and flanges are not in it.
func (p *Page) area(ply int) (m2 float64, how, missing string) {
	part := &p.Desk.Doc.Now().Part
	u := p.Desk.Units()
	switch part.Form {
	case laminate.Panel:
		if !part.Area.Given() {
			return 0, "", "the part's area (key part.area) is not stated"
		}
		return part.Area.SI(), "the panel's area", ""
	case laminate.NoPartForm:
		return 0, "", "the part's form (key part.form) is not stated"
	case laminate.Pipe, laminate.Duct, laminate.Tank, laminate.ShellCourse:
	case laminate.Elbow, laminate.FlatBottom, laminate.HeadPart, laminate.Cone, laminate.Flange, laminate.Cover:
		return 0, "", "the area of a part of the form " + part.Form.String() + " is not figured"
	}
	switch {
	case !part.InsideDiameter.Given():
		return 0, "", "the inside diameter (key part.inside_diameter) is not stated"
	case !part.Length.Given():
		return 0, "", "the length (key part.length) is not stated"
	}
	what := "length"
	if part.Form == laminate.Tank {
		what = "straight side, without heads"
	}
	d, at := part.InsideDiameter.SI(), "inside diameter"
	if mid, ok := p.middle(ply); ok {
		d, at = d+2*mid, "diameter at this ply"
	}
	length := part.Length.SI()
	how = "π × " + u.Figure(d, quantity.Size) + " " + at + " × " + u.Figure(length, quantity.Distance) + " " + what
	return math.Pi * d * length, how, ""
}

// middle is how far the middle of a single ply lies outside of the process face.
func (p *Page) middle(ply int) (m float64, ok bool) {
	i := p.Desk.RowOf(ply)
	if i < 0 {
		return 0, false
	}
	rows := p.analysis().Rows
	for j := range i + 1 {
		if !rows[j].ThicknessKnown {
			return 0, false
		}
	}
	r := &rows[i]
	return r.ToHere - (float64(r.Last-ply)+0.5)*r.Thickness, true
}

// amounts of one ply over the whole part, in kg. A mix is resin with its filler.
type amounts struct{ fabric, mix, filler float64 }

func (a amounts) resin() float64 { return a.mix - a.filler }

// amounts gives what a single ply takes, or says what is missing.
func (p *Page) amounts(ply int) (a amounts, how, missing string) {
	i := p.Desk.RowOf(ply)
	if i < 0 {
		return a, "", "there is no such ply"
	}
	m2, how, missing := p.area(ply)
	if missing != "" {
		return a, "", missing
	}
	r := &p.analysis().Rows[i]
	if !r.MassKnown {
		return a, how, "the mass of this ply is not known: a resin, a density or an angle is missing; see the bench"
	}
	return amounts{fabric: r.FiberMass * m2, mix: (r.Mass - r.FiberMass) * m2, filler: r.FillerMass * m2}, how, ""
}

// batch is the mix of the plies from one on that are laid in one go: of the
// same resin, up to the next gel stop.
func (p *Page) batch(ply int) (last int, kg float64, ok bool) {
	plies := p.Desk.Doc.Now().Plies
	first := p.Desk.RowOf(ply)
	if first < 0 {
		return 0, 0, false
	}
	for n := ply; n <= p.total(); n++ {
		i := p.Desk.RowOf(n)
		if i < 0 || plies[i].Resin != plies[first].Resin {
			break
		}
		a, _, missing := p.amounts(n)
		if missing != "" {
			return 0, 0, false
		}
		last, kg = n, kg+a.mix
		if p.stops(n) {
			break
		}
	}
	return last, kg, last >= ply
}

// stop is the next gel stop from a ply on, 0 where none comes.
func (p *Page) stop(ply int) int {
	plies := p.Desk.Doc.Now().Plies
	rows := p.analysis().Rows
	for i := range rows {
		if rows[i].Last >= ply && plies[i].GelAfter {
			return rows[i].Last
		}
	}
	return 0
}

func weight(kg float64, u quantity.System) string { return u.Figure(kg, quantity.Weight) }
