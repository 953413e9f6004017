// Package ground says what a laminate is laid on: for each of its plies the area,
// and how wide it lies. Parts, straps, seals, pads and necks each have theirs.
// What is missing is named by its key; nothing is guessed.
package ground

import (
	"errors"
	"math"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/surface"
	"frp/veilwright/laminate/vessel"
)

// Ground is what plies are laid on. Lengths are in m, areas in m².
type Ground struct {
	// Area gives the area of the single ply i, counted from 0, whose middle
	// lies z outside the face that the first ply is laid on; nil where it is
	// not known.
	Area func(i int, z float64) (float64, error)
	// Across gives how wide the single ply i lies: the width of a strap or a
	// seal, the outside diameter of a pad's ply. It is nil where nothing of the kind is stated.
	Across func(i int, z float64) float64
	// Diameter and Length are those of a tube, round which strips close; 0
	// for all else. Disc is the diameter of a disc.
	Diameter, Length, Disc float64
	Curved                 bool // does not unroll

	what   string // what Area was made of
	varies bool   // by how far out the ply lies
}

// How says what the area of a ply was made of, for a reader of the units. placed
// tells that z is known: else the area is that of the face.
func (g *Ground) How(z float64, placed bool, u quantity.System) string {
	at := ""
	if placed {
		at = " at this ply"
	}
	if g.Diameter > 0 {
		if !placed {
			at, z = " on the face", 0
		}
		return "π × " + u.Figure(g.Diameter+2*z, quantity.Size) + " diameter" + at + " × " + u.Figure(g.Length, quantity.Distance) + " " + g.what
	}
	if g.varies {
		return g.what + at
	}
	return g.what
}

// Tube is the ground of a straight tube, by its inside diameter and length.
func Tube(diameter, length float64) Ground {
	return Ground{Diameter: diameter, Length: length, what: "length", Area: func(_ int, z float64) (float64, error) { return surface.Cylinder(diameter+2*z, length) }}
}

func flat(area float64, what string) Ground {
	return Ground{what: what, Area: func(int, float64) (float64, error) { return area, nil }}
}

func disc(diameter float64, what string) Ground {
	g := flat(math.Pi/4*diameter*diameter, what)
	g.Disc = diameter
	return g
}

// curved is the ground of a part that does not unroll.
func curved(what string, area func(z float64) (float64, error)) Ground {
	return Ground{Curved: true, varies: true, what: what, Area: func(_ int, z float64) (float64, error) { return area(z) }}
}

// need is what is said of a key that is not stated.
func need(given bool, what, key string) error {
	if given {
		return nil
	}
	return errors.New(what + " is not stated (" + key + ")")
}

// first is the first of some errors: one missing fact at a time is said.
func first(list ...error) error {
	for _, err := range list {
		if err != nil {
			return err
		}
	}
	return nil
}

// OfPart is the ground of a part, by its form; of a tank it is the straight side
// alone. The error says which key is missing.
func OfPart(p *laminate.Part) (Ground, error) {
	switch p.Form {
	case laminate.NoPartForm:
		return Ground{}, errors.New("the form of the part is not stated (form)")
	case laminate.Pipe, laminate.Duct, laminate.Tank, laminate.ShellCourse:
		if err := first(need(p.InsideDiameter.Given(), "the inside diameter", "inside_diameter"), need(p.Length.Given(), "the length", "length")); err != nil {
			return Ground{}, err
		}
		g := Tube(p.InsideDiameter.SI(), p.Length.SI())
		if p.Form == laminate.Tank {
			g.what = "straight side, without its ends"
		}
		return g, nil
	case laminate.Panel, laminate.Cover:
		return plate(p)
	case laminate.Flange:
		bolts, bore := Bolted(p), p.Size
		if !bore.Given() {
			bore = p.InsideDiameter
		}
		if err := first(need(bolts.Outside > 0, "the outside diameter of the flange", "outside_diameter, or drilling and a size that it has"), need(bore.Given(), "the size of the flange", "size")); err != nil {
			return Ground{}, err
		}
		area, err := surface.Ring(bolts.Outside, bore.SI())
		return flat(area, "face of the flange"), err
	case laminate.Elbow, laminate.FlatBottom, laminate.HeadPart, laminate.Cone:
	}
	if err := need(p.InsideDiameter.Given(), "the inside diameter", "inside_diameter"); err != nil {
		return Ground{}, err
	}
	d := p.InsideDiameter.SI()
	switch p.Form {
	case laminate.FlatBottom:
		if !p.KnuckleRadius.Given() {
			return disc(d, "flat bottom"), nil
		}
		r := p.KnuckleRadius.SI()
		return curved("flat bottom with its knuckle", func(z float64) (float64, error) { return surface.KnuckledBottom(d/2+z, r+z) }), nil
	case laminate.Cone:
		alpha, small := p.HalfAngle.Value*math.Pi/180, p.SmallDiameter.SI()/2
		return curved("cone", func(z float64) (float64, error) {
			h, err := surface.Frustum(d/2+z*math.Cos(alpha), small+z*math.Cos(alpha), alpha)
			return h.Area, err
		}), first(need(p.HalfAngle.Given, "the half angle of the cone", "half_angle"), need(p.SmallDiameter.Given(), "the small diameter of the cone", "small_diameter"))
	case laminate.Elbow:
		return elbow(p, d)
	default:
		return head(p, d)
	}
}

func elbow(p *laminate.Part, d float64) (Ground, error) {
	turn, bend := p.Turn.Value*math.Pi/180, p.BendRadius.SI()
	err := first(need(p.BendRadius.Given(), "the bend radius", "bend_radius"), need(p.Turn.Given, "the turn of the elbow", "turn"), need(p.Miters.Given, "the number of miters", "miters, 0 for a smooth elbow"))
	if n := p.Miters.Value; n > 0 {
		return curved("mitered elbow", func(z float64) (float64, error) {
			m, err := surface.Mitered(d+2*z, bend, turn, n)
			return m.Area, err
		}), err
	}
	return curved("elbow", func(z float64) (float64, error) { return surface.Elbow(d/2+z, bend, turn) }), err
}

// Seams are how many a mitered elbow has, and how long each is round its outer face, m,
// by how thick its wall is; 0 long where a size is missing. Each is an ellipse.
func Seams(p *laminate.Part, thick float64) (number int, long float64) {
	if p.Form != laminate.Elbow || p.Miters.Value < 1 {
		return 0, 0
	}
	if p.InsideDiameter.Given() && p.BendRadius.Given() && p.Turn.Given {
		m, _ := surface.Mitered(p.InsideDiameter.SI()+2*thick, p.BendRadius.SI(), p.Turn.Value*math.Pi/180, p.Miters.Value)
		long = m.Seam
	}
	return p.Miters.Value, long
}

// SeamsSaid are they in words: "2 seams, each 28.2 in round its outer face"; "" of a
// part that has none.
func SeamsSaid(p *laminate.Part, thick float64, u quantity.System) string {
	n, long := Seams(p, thick)
	switch {
	case n == 0:
		return ""
	case long == 0:
		return quantity.Counted(n, "seam", "seams") + " of a length not known"
	case n == 1:
		return "1 seam, " + u.Figure(long, quantity.Size) + " round its outer face"
	}
	return quantity.Counted(n, "seam", "seams") + ", each " + u.Figure(long, quantity.Size) + " round its outer face"
}

// RingsSaid are the stiffening rings that a wall stands on, in words, and what nobody
// states of them; "" of a part for which none are stated.
func RingsSaid(p *laminate.Part, u quantity.System) string {
	apart, long := p.StiffenerSpacing.SI(), p.Length.SI()
	if apart <= 0 || !p.Form.HeldRound() {
		return ""
	}
	where := "between its ends"
	if p.Form == laminate.ShellCourse {
		long, where = p.Place.Free.Length, "on the whole shell"
	}
	between := "as many as its length takes"
	if long > 0 {
		between = strconv.Itoa(max(0, int(math.Ceil(long/apart*(1-1e-9)))-1)) + " of them " + where
	}
	ends := "what holds its ends round"
	if p.Place.Free.Ringed != "" {
		ends = "one at each end that is joined to " + p.Place.Free.Ringed + ", for a strap holds nothing round"
	}
	return "stiffening rings at most " + u.Stated(apart, quantity.Distance) + " apart, " + between + ", and " + ends + "; their section no key states"
}

func head(p *laminate.Part, d float64) (Ground, error) {
	depth, crown, knuckle := p.Depth.SI(), p.CrownRadius.SI(), p.KnuckleRadius.SI()
	of := func(h surface.Head, err error) (float64, error) { return h.Area, err }
	switch what := p.Head.String() + " head"; p.Head {
	case laminate.Hemispherical:
		return curved(what, func(z float64) (float64, error) { return of(surface.Hemisphere(d/2 + z)) }), nil
	case laminate.Ellipsoidal:
		return curved(what, func(z float64) (float64, error) { return of(surface.Ellipsoid(d/2+z, depth+z)) }), need(p.Depth.Given(), "the depth of the head", "depth")
	case laminate.Torispherical:
		return curved(what, func(z float64) (float64, error) { return of(surface.Torisphere(d+2*z, crown+z, knuckle+z)) }),
			first(need(p.CrownRadius.Given(), "the crown radius of the head", "crown_radius"), need(p.KnuckleRadius.Given(), "the knuckle radius of the head", "knuckle_radius"))
	case laminate.NoHeadShape:
	}
	return Ground{}, errors.New("the shape of the head is not stated (shape)")
}

// plate is the ground of a panel or a cover.
func plate(p *laminate.Part) (Ground, error) {
	what := p.Form.String()
	bolts := Bolted(p)
	switch {
	case p.Area.Given():
		return flat(p.Area.SI(), what+", by its area"), nil
	case p.Width.Given() && p.Length.Given():
		return flat(p.Width.SI()*p.Length.SI(), what+", width by length"), nil
	case p.Outside.Given():
		return disc(bolts.Outside, what+", by its outside diameter"), nil
	case bolts.Outside > 0:
		return disc(bolts.Outside, what+", by the outside diameter of its drilling"), nil
	case p.InsideDiameter.Given():
		return disc(p.InsideDiameter.SI(), what+", by its diameter"), nil
	}
	if p.Form == laminate.Panel {
		return Ground{}, errors.New("the area is not stated (area, or width and length)")
	}
	return Ground{}, errors.New("the size is not stated (area, width and length, outside_diameter, drilling and size, or inside_diameter)")
}

// Bolted is the ring of bolts of a flange or cover and how wide it is outside: what it
// states, else what its table of drillings has for its size, 0 what neither says.
func Bolted(p *laminate.Part) (d vessel.Drilling) {
	switch p.Drilling {
	case laminate.Class150:
		d, _ = vessel.Class150(p.Size.SI())
	case laminate.Class125:
		d, _ = vessel.Class125(p.Size.SI())
	case laminate.NoDrilling:
	}
	for _, l := range []struct {
		of     *float64
		stated quantity.Length
	}{{&d.Outside, p.Outside}, {&d.Circle, p.BoltCircle}, {&d.Bolt, p.BoltSize}} {
		if l.stated.SI() > 0 {
			*l.of = l.stated.SI()
		}
	}
	if p.Bolts.Given {
		d.Bolts = p.Bolts.Value
	}
	return d
}

// BoltsUp tells whether the bolts of one flange or cover go through another; not known
// where the bolts of one are not.
func BoltsUp(a, b *laminate.Part) (fit, known bool) {
	const off = 1e-3 // m between two circles that are one
	x, y := Bolted(a), Bolted(b)
	switch {
	case !(x.Circle > 0 && y.Circle > 0):
		return false, false
	case math.Abs(x.Circle-y.Circle) > off:
		return false, true
	}
	return x.Bolts == y.Bolts && x.Bolts > 0, x.Bolts > 0 && y.Bolts > 0
}
