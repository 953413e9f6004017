package form

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/wall/worked"
)

// Answering is the way in which a part answers pressure.
type Answering uint8

// The ways.
const (
	ByMembrane Answering = iota // round shells
	ByBending                   // flat plates
	ByBolts                     // flanges
	ByGround                    // flat bottoms
)

// Answers gives the way of a form.
func Answers(f laminate.PartForm) Answering {
	switch f {
	case laminate.Cover, laminate.Panel:
		return ByBending
	case laminate.Flange:
		return ByBolts
	case laminate.FlatBottom:
		return ByGround
	default:
		return ByMembrane
	}
}

// Holds tells whether a liquid in the equipment is known to stand on a part of
// such a form.
func Holds(f laminate.PartForm) bool {
	switch f {
	case laminate.Tank, laminate.ShellCourse, laminate.FlatBottom, laminate.HeadPart, laminate.Cone:
		return true
	default:
		return false
	}
}

// Asks tells of a part that states no liquid height whether that is missing: where
// a liquid is known to stand on its form, or may since nobody states that, unless it is
// of a line of ducts or meets vapor alone, and where nobody knows how deep that of the
// equipment stands over it.
func Asks(s *laminate.Schedule) bool {
	p := &s.Part
	return p.Place.Unplaced || (Holds(p.Form) || p.Form == laminate.NoPartForm) && !p.Place.Line && s.Service.Contact != laminate.Vapor
}

// Shaped is what the form of a round part makes of the pressure in it.
type Shaped struct {
	Hoop, Axial float64 // times what a straight shell of the inside radius carries
	// Apart tells of a head: its factor is that of the greatest stress in any
	// direction, so the wall has to carry it along each, by itself.
	Apart  bool
	How    string // for reasons: "2:1 ellipsoid, factor 1"
	Source string // for the basis

	Outside bool // of what any formula here is for
}

// Straight is a pipe, a duct, a tank's side: round and as wide everywhere.
var Straight = Shaped{Hoop: 1, Axial: 1}

const (
	unsupported = "a bottom that does not stand on its foundation is a special design, which is not figured here"
	fromASME8   = "shape factor of ASME VIII and ASME RTP-1 (from memory)"
	// KnuckleBends is said of torispherical heads: finite elements of package
	// vessel's tests find 1.9 to 3 times, elastic, of knuckles of 10 and 6 %.
	KnuckleBends = "; a factor of thickness: on the faces of its knuckle a thin head is strained two to three times as much (finite elements)"
	fromLorenz   = "ASME B31.3 304.2.1, Lorenz (from memory)"
)

// Shape finds the factors of the form, or why they cannot be told.
func (x *Facts) Shape() (f Shaped, open string) {
	p := x.Part
	d := p.InsideDiameter.SI()
	times := func(v float64) string { return ", factor " + x.Units.Figure(v, quantity.Times) }
	switch p.Form {
	case laminate.HeadPart:
		factor, ok := 0.0, false
		switch p.Head {
		case laminate.Hemispherical:
			factor, ok, f.How = vessel.Hemisphere, true, "hemispherical head"
		case laminate.Ellipsoidal:
			if _, given := positive(p.Depth); !given {
				return f, "the depth of the ellipsoidal head is not given (depth)"
			}
			factor, ok = vessel.Ellipsoid(d, p.Depth.SI())
			f.How = "ellipsoidal head, D/2h " + x.Units.Figure(d/(2*p.Depth.SI()), quantity.Times)
			open = "its diameter is more than 2.6 times twice its depth, beyond which no factor is known"
		case laminate.Torispherical:
			_, crown := positive(p.CrownRadius)
			_, knuckle := positive(p.KnuckleRadius)
			if !crown || !knuckle {
				return f, "crown and knuckle radius of the torispherical head are not both given (crown_radius, knuckle_radius)"
			}
			factor, ok = vessel.Torisphere(d, p.CrownRadius.SI(), p.KnuckleRadius.SI())
			f.How = "torispherical head, M " + x.Units.Figure(vessel.TorisphereM(p.CrownRadius.SI(), p.KnuckleRadius.SI()), quantity.Times)
			open = "its crown radius is above its diameter or its knuckle radius below 6 % of it, beyond which no factor is known"
		case laminate.NoHeadShape:
			return f, "the shape of the head is not given (shape)"
		}
		if f.Outside = !ok; f.Outside {
			return f, "head outside the table: " + open
		}
		open = ""
		f.Hoop, f.Axial, f.Apart, f.Source = factor, factor, true, fromASME8
		if p.Head == laminate.Torispherical {
			f.Source += KnuckleBends
		}
		f.How += times(factor)
	case laminate.Cone:
		if !p.HalfAngle.Given {
			return f, "the half-angle of the cone is not given (half_angle)"
		}
		factor, ok := vessel.Cone(p.HalfAngle.Value * math.Pi / 180)
		if f.Outside = !ok; f.Outside {
			return f, "head outside the table: a cone of more than 30° from its axis needs a knuckle that is figured by itself"
		}
		f = Shaped{Hoop: factor, Axial: factor, How: "cone at its large end, 1/cos α" + times(factor), Source: fromASME8}
		if p.Place.Tip {
			f.How = "cone, pressure and diameter at one place, 1/cos α" + times(factor)
		}
	case laminate.FlatBottom:
		if f = Straight; !p.Place.Top && p.Supported.Given && !p.Supported.Value {
			f.Outside = true
			return f, unsupported
		}
	case laminate.Elbow:
		if f.Outside = p.Miters.Value > 0; f.Outside {
			return f, "what a miter adds to the load of an elbow only a table that has to be bought would tell"
		}
		switch {
		case !p.Miters.Given:
			return f, "whether the elbow is smooth or mitered is not given (miters; 0 says smooth)"
		case !p.BendRadius.Given():
			return f, "the bend radius of the elbow is not given (bend_radius)"
		}
		in, out, ok := vessel.Elbow(p.BendRadius.SI(), d+x.Whole)
		if f.Outside = !ok || quantity.Below(p.BendRadius.SI(), d); f.Outside {
			return f, "the elbow bends more tightly than round one diameter, for which its factor is not meant"
		}
		f = Shaped{Hoop: in, Axial: 1, How: "inside of the bend" + times(in) + ", outside " + x.Units.Figure(out, quantity.Times), Source: fromLorenz}
	default:
		return Straight, ""
	}
	return f, open
}

// A person on what closes a vessel: the greatest deflection over its diameter, and
// the force.
const (
	stepShare = 0.005
	stepForce = 250 * 4.4482216152605 // N
	basisStep = "250 lb on 4 × 4 in, deflection at most ½ % of the diameter (ASTM D3299, ASTM D4097, from memory); "
)

// roof is the half-angle, in degrees, above which a cone on top is a roof that people
// step on; within it nobody stands on it. Common practice, no source.
const roof = 30

// Stepped tells whether a person may step on a part: a head, a flat lid or a roof that
// closes a vessel at its top.
func Stepped(p *laminate.Part) bool {
	return p.Place.Top && (p.Form == laminate.HeadPart || p.Form == laminate.Cover || p.Form == laminate.FlatBottom || p.Form == laminate.Cone && p.HalfAngle.Value > roof)
}

// Step asks what is Stepped how far it gives way under a person.
func (x *Facts) Step() Weighing {
	switch x.Part.Form {
	case laminate.HeadPart:
	case laminate.Cone:
		return Weighing{Kind: quantity.Size, Basis: basisStep + "by test", Open: "how far a conical roof gives way under a person no formula here tells: a test does"}
	default:
		return x.stepOn()
	}
	w := Weighing{Kind: quantity.Size, Moduli: true, Wall: true,
		Basis: basisStep + "shallow sphere under a point load (Reissner 1946, from memory)"}
	radius, open := x.crown(false)
	if w.Open = open; open != "" {
		return w
	}
	w.Demand, _ = vessel.PointLoad(stepForce, radius, x.Modulus, 0.3, x.Structure)
	w.Capacity = stepShare * x.Part.InsideDiameter.SI()
	w.Reason = "crown radius " + x.Units.Figure(radius, quantity.Size) + ", an upper bound: as if it stood on a point"
	return w
}

// crown is the outside radius of a head at its top, in m; of an ellipsoid under outside
// pressure that of the sphere that stands for the whole head.
func (x *Facts) crown(outside bool) (radius float64, open string) {
	p := x.Part
	d, deep := p.InsideDiameter.SI(), p.Depth.SI()
	switch p.Head {
	case laminate.Hemispherical:
		return d/2 + x.Whole, ""
	case laminate.Torispherical:
		return p.CrownRadius.SI() + x.Whole, ""
	case laminate.Ellipsoidal:
		share, ok := vessel.EllipsoidCrown(d, deep)
		if !ok {
			return 0, "head outside the table: of an ellipsoid with D/2h from 1 to 2.6 alone the equivalent sphere is known"
		}
		if !outside {
			return d*d/(4*deep) + x.Whole, "" // of an ellipse where its short axis meets it
		}
		return share * (d + 2*x.Whole), ""
	case laminate.NoHeadShape:
	}
	return 0, "the shape of the head is not given (shape)"
}

// Dome judges a head under outside pressure.
func (x *Facts) Dome() Weighing {
	w := Weighing{Kind: quantity.Stress, Moduli: true, Wall: true, Demand: x.Vacuum, Basis: "0.36 (E/5)(t/Ro)² (ASTM D3299-18 eq. 5)"}
	if x.Part.Head == laminate.Ellipsoidal {
		w.Basis += "; equivalent radius of an ellipsoid (ASME VIII UG-33, from memory)"
	}
	radius, open := x.crown(true)
	if w.Open = open; open != "" {
		return w
	}
	w.Capacity, _ = vessel.Dome(x.Modulus, x.Structure, radius)
	w.Reason = "outside radius " + x.Units.Figure(radius, quantity.Size) + ", lowest modulus " + x.Units.Figure(x.Modulus, quantity.Stress)
	return w
}

// ConeBasis is added to the basis of a cone under outside pressure.
const ConeBasis = "; a cone as a cylinder (ASME VIII UG-33(f), from memory)"

// Cone gives the wall and the free length of the cylinder that stands for a cone
// under outside pressure, t the thickness that counts.
func (x *Facts) Cone(t float64) (wall, free float64, open string) {
	p := x.Part
	if !p.SmallDiameter.Given() {
		return 0, 0, "the diameter of the cone's small end is not given (small_diameter; 0 for a point)"
	}
	long, risen := p.Rise()
	wall, free, ok := vessel.ConeAsCylinder(t, p.HalfAngle.Value*math.Pi/180, long, p.SmallDiameter.SI(), p.InsideDiameter.SI())
	if !ok || !risen {
		return 0, 0, "the cone's allowable pressure is beyond what can be computed"
	}
	return wall, free, ""
}

// Narrowing is the worst place of a cone that stands on its small end.
type Narrowing struct {
	Above    float64 // m, of the place above the small end
	Diameter float64 // m, there
	Pressure float64 // Pa, there
	// Pa, at the large end, that load it as much: round, at that place; along its
	// meridian, where that is greatest, with the liquid that hangs below.
	Round, Along float64
}

// Borne says what a course is figured for that a bottom hangs from.
const Borne = "A bottom hangs from the shell, and where the vessel is held is not stated: each course is figured to carry all that hangs, the pressure at the bottom of the lowest course and the liquid below it, as if it were held above, and none of it, as if it were held below; the worse counts."

// Lifted says what a course is figured for that liquid lifts.
const Lifted = "The liquid presses under what narrows or closes the shell over this course, and lifts it: the course is figured to hold that down, its own weight not counted."

// Pulls says what pulls along the axis of a course, where something does.
func Pulls(p *laminate.Part) []string {
	switch {
	case !p.Place.Pull.Given():
		return nil
	case p.Place.Hangs:
		return []string{Borne}
	}
	return []string{Lifted}
}

// Held are the ways in which a part may be held that bears a liquid, added to the name
// of its case: a pull takes strain off the hoop, and where a course that a bottom hangs
// from is held nobody states.
func Held(p *laminate.Part) []string {
	if p.Place.Pull.Given() && p.Place.Hangs {
		return []string{"", HeldBelow}
	}
	return []string{""}
}

// HeldBelow is added to the name of a case of such a course that nothing pulls on.
const HeldBelow = ", held below"

// PulledDry tells whether what hangs below pulls on a course that no liquid reaches,
// or may: how much hangs is not known.
func PulledDry(p *laminate.Part) bool {
	return p.Form == laminate.ShellCourse && p.Place.Hangs && !(p.Place.Pull.Given() && p.Place.Pull.SI() == 0)
}

// Pull is the share of the head of a liquid, Pa, that pulls along the axis: in heads
// and cones, which nothing else closes, in what leads down from a shell to an end that
// is closed, and in courses that a bottom hangs from or that liquid lifts. There it does not depend on what a
// course says of its ends. Of gives the pressure in Pa of a liquid of a specific gravity
// at a depth in m, name is that of the case; open says what is missing.
func Pull(s *laminate.Schedule, name string, head float64, of func(gravity, depth float64) float64) (pa float64, open string) {
	p := &s.Part
	switch {
	case strings.Contains(name, HeldBelow):
	case p.Form == laminate.ShellCourse && p.Place.Hangs && !p.Place.Pull.Given():
		return 0, "how much liquid hangs from it is not known: the sizes of what hangs below the shell"
	case p.Form == laminate.ShellCourse && p.Place.Pull.Given():
		return of(s.Service.SpecificGravity.Value, p.Place.Pull.SI()), ""
	case p.Form == laminate.HeadPart, p.Form == laminate.Cone, p.Place.Hangs && Answers(p.Form) == ByMembrane && p.Ends != laminate.OpenEnds:
		return head, ""
	}
	return 0, ""
}

// WorkPull writes how the pull on a course that a bottom hangs from or that liquid
// lifts, Pa, comes about.
func WorkPull(w *worked.List, name string, s *laminate.Schedule, pa float64) {
	if depth := s.Part.Place.Pull; depth.Given() && !strings.Contains(name, HeldBelow) {
		of := "the liquid over and in the hanging bottom"
		if !s.Part.Place.Hangs {
			of = "the liquid that lifts what is above"
		}
		w.Add(name+": what of the liquid pulls along", "pa", "γ·SG·hp, hp "+of+", over its inside circle", worked.Put(w.Water()+"·#·#", s.Service.SpecificGravity.Or(1), w.Length(depth.SI())), w.Stress(pa), w.StressUnit(), "statics")
	}
}

// steps are the places of a cone that are looked at for the pull along it.
const steps = 64

// Narrow finds where pressure times diameter is greatest in a cone that stands on
// its small end, under gas, Pa, and the head of a liquid, Pa, at its depth, m, which
// is that at the small end. Along it a place bears the pressure on its circle and the
// weight of the liquid below (statics). Not ok of other parts, without liquid, where
// the cone is not wholly stated and where one depth is looked at.
func (x *Facts) Narrow(gas, head, depth float64) (n Narrowing, ok bool) {
	p, liquid := x.Part, head/depth // Pa/m
	if x.OneDepth || !(head > 0 && depth > 0) {
		return n, false
	}
	long, known := p.Rise()
	if p.Form != laminate.Cone || !p.Place.Tip || !known || !(long > 0) {
		return n, false
	}
	large, small := p.InsideDiameter.SI(), p.SmallDiameter.SI()
	wider := (large - small) / long // m of diameter for a m of height
	pressure := func(up float64) float64 { return gas + liquid*math.Max(0, depth-up) }
	diameter := func(up float64) float64 { return small + wider*up }
	// (gas + liquid·(depth − up))·(small + wider·up) is a parabola.
	top := (wider*(gas+liquid*depth) - liquid*small) / (2 * wider * liquid)
	n.Above = math.Max(0, math.Min(top, math.Min(depth, long)))
	if pressure(long)*large > pressure(n.Above)*diameter(n.Above) {
		n.Above = long
	}
	n.Diameter, n.Pressure = diameter(n.Above), pressure(n.Above)
	n.Round = n.Pressure * n.Diameter / large
	for i := range steps + 1 {
		up := long * float64(i) / steps
		d, full := diameter(up), math.Min(up, depth)
		if d <= 0 {
			continue
		}
		b := diameter(full)
		weight := liquid * math.Pi / 12 * full * (b*b + b*small + small*small)
		n.Along = math.Max(n.Along, (pressure(up)*d+4*weight/(math.Pi*d))/large)
	}
	return n, true
}
