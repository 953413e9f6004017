package form

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/wall/shell"
)

const (
	basisPlate = "flat isotropic plate of small deflection (Timoshenko; Roark, second-hand)"
	stretching = "; beyond half its thickness a plate carries by stretching too, and gives way less than this"
)

// plate is a flat part: its figures, the side they go by, and how it is held.
type plate struct {
	vessel.Plate
	side  float64 // m: radius of a round one, short side of a rectangle
	width float64 // m, that a deflection is a share of
	how   string
}

// plate finds what of a cover or panel bends, or why that cannot be told.
func (x *Facts) plate() (f plate, open string) {
	p := x.Part
	edge, how := vessel.Simply, "simply supported"
	switch p.Edge {
	case laminate.Clamped:
		edge, how = vessel.Clamped, "clamped"
	case laminate.NoEdgeSupport:
		how = "taken as simply supported, which is the worse, for nobody says how it is held (edge)"
		if p.Form == laminate.FlatBottom { // which states none
			how = "taken as simply supported, which is the worse"
		}
	case laminate.SimplySupported:
	}
	if long, given := positive(p.Width); given {
		short, also := positive(p.Length)
		if !also {
			return f, "of the rectangle only the width is given, not the length (length)"
		}
		short, long = math.Min(short, long), math.Max(short, long)
		figures, _ := vessel.RectanglePlate(edge, long, short)
		return plate{figures, short, short, "rectangle, " + how}, ""
	}
	if p.Form == laminate.Panel {
		return f, "what a flat panel spans is not given (width and length, of the part of a job)"
	}
	d, of := x.drilling()
	span, named := d.Circle, "on the bolt circle"
	if of == "" {
		if span, named = p.InsideDiameter.SI(), "over the inside diameter"; span <= 0 {
			return f, "what the cover spans is not given (bolt_circle, or a size that the drilling has, or inside_diameter)"
		}
	}
	figures, _ := vessel.RoundPlate(edge, 0.3)
	return plate{figures, span / 2, span, "round, " + how + " " + named}, ""
}

// drilling finds the ring of bolts of a flange or cover, and where it is from;
// "" where there is none.
func (x *Facts) drilling() (d vessel.Drilling, of string) {
	p := x.Part
	switch d = ground.Bolted(p); {
	case d.Circle <= 0:
	case p.BoltCircle.SI() > 0:
		of = "as stated"
	default:
		of = map[laminate.Drilling]string{laminate.Class150: "ASME B16.5 class 150 (from memory)", laminate.Class125: "ASME B16.1 class 125 (from memory)"}[p.Drilling]
	}
	return d, of
}

// strainLimit is the design strain of a wall.
const (
	strainLimit = 0.001
	basisStrain = "strain limit 0.001 (ASME Section X RD-1171.1, second-hand)"
)

// The least glass by mass of what the strength table knows: it goes by the thickness of
// laminates as they are laid, and resin makes a ply thicker, not stronger. From memory of
// the range that contact-molded laminates are laid in, a good third below what is usual.
const (
	leastInMat   = 0.20
	leastInWoven = 0.33
)

// Untabled says why the strength table does not know a ply in a structure, as it goes on
// behind the name of it; "" where it does: mat, sprayed chop and woven roving of glass,
// not starved of it, a veil of glass and resin without fiber between them.
func Untabled(r *laminate.RowFigures) string {
	m, least := r.Material, 0.0
	switch m.Form {
	case laminate.ResinCoat:
		return ""
	case laminate.ChoppedMat, laminate.SprayedChop:
		least = leastInMat
	case laminate.WovenRoving:
		least = leastInWoven
	case laminate.Veil:
	default: // nothing of the others
		return " of form " + m.Form.String() + " is neither"
	}
	if !m.Fiber.Glass() {
		return " is of " + m.Fiber.String() + " fiber"
	}
	if share, known := r.GlassMassFraction(); known && quantity.Below(share, least) {
		return ": " + quantity.Share(share) + " of glass, below " + quantity.Share(least)
	}
	return ""
}

// bent gives what bends a plate, from whichever side is the greater.
func (x *Facts) bent(basis string, kind quantity.Kind) (w Weighing, f plate, pressure float64) {
	w = Weighing{Kind: kind, Basis: basis, Moduli: true, Loads: true}
	if pressure = max(x.Pressure, x.Vacuum); pressure <= 0 {
		w.Skip = noLoad
		return w, f, 0
	}
	f, w.Open = x.plate()
	return w, f, pressure
}

// PlateStress holds the bending stress of a flat part against what its design
// basis allows.
func (x *Facts) PlateStress() Weighing {
	w, f, pressure := x.bent(basisPlate, quantity.Stress)
	if w.Skip != "" || w.Open != "" {
		return w
	}
	switch x.Part.Basis() {
	case laminate.StrengthTable:
		if w.Open = x.Untabled; w.Open != "" {
			return w
		}
		s := shell.TableStrength(x.Structure, x.AllMat)
		w.Capacity = s * x.Kept / shell.TableSafety
		w.Basis += "; a tenth of the table's strength (NBS PS 15-69, from memory)"
		w.Reason = "S = " + x.Units.Figure(s, quantity.Stress)
	case laminate.StrainLimit:
		w.Capacity = x.Modulus * strainLimit
		w.Basis += "; " + basisStrain
		w.Reason = "0.001 of the lowest modulus, " + x.Units.Figure(x.Modulus, quantity.Stress)
	case laminate.UnitLoad, laminate.NoBasis:
		w.Open = "a plate is judged by the strength table or the strain limit, and neither is the design basis (design_basis)"
		return w
	}
	w.Demand = f.StressAt(pressure, f.side, x.Structure)
	w.Reason += "; " + f.how
	return w
}

// PlateDeflection holds the deflection against the limit that the document
// states; where it states none nothing is asked.
func (x *Facts) PlateDeflection() Weighing {
	w, f, pressure := x.bent(basisPlate+"; the limit is the document's (deflection_limit)", quantity.Size)
	limit := x.Part.DeflectionLimit
	switch {
	case !limit.Given:
		return Weighing{Kind: w.Kind, Basis: w.Basis, Skip: "no limit of deflection is stated (deflection_limit); a hundredth of the span is usual of panels (common practice, no source)"}
	case w.Skip != "" || w.Open != "":
		return w
	}
	w.Demand, w.Capacity = f.DeflectionAt(pressure, f.side, x.Modulus, x.Structure), limit.Value*f.width
	w.Reason = f.how
	if w.Demand > x.Structure/2 {
		w.Reason += stretching
	}
	return w
}

// stepOn asks a flat lid on top of a vessel how far it gives way under a person.
func (x *Facts) stepOn() Weighing {
	w := Weighing{Kind: quantity.Size, Moduli: true, Basis: basisStep + basisPlate}
	f, open := x.plate()
	if w.Open = open; open != "" {
		return w
	}
	w.Demand, w.Capacity = f.PointAt(stepForce, f.side, x.Modulus, x.Structure), stepShare*f.width
	w.Reason = f.how + ", an upper bound: as if it stood on a point"
	if w.Demand > x.Structure/2 {
		w.Reason += stretching
	}
	if w.Demand > w.Capacity {
		w.Reason += "; a flat lid of that span wants ribs, which are not figured here, or the shape of a dished head"
	}
	return w
}

// FlangeThickness wants the shop's own figure and a laminate that builds it: no
// formula gives the thickness of a flange of laminate.
func (x *Facts) FlangeThickness() Weighing {
	w := Weighing{Kind: quantity.Thickness, Wall: true, Capacity: x.Whole, Reason: "what the laminate builds against what is stated",
		Basis: "the shop's own figure, proved by its tests (ASTM D5421 goes by performance and covers no design); never computed"}
	if w.Demand = x.Part.Thickness.SI(); w.Demand <= 0 {
		w.Open = "the flange's thickness is not stated: the shop's table or its tests say it (thickness)"
	}
	return w
}

// FlangeClass wants the class that the shop proved its thickness for to cover
// the pressure.
func (x *Facts) FlangeClass() Weighing {
	w := Weighing{Kind: quantity.Stress, Inside: true, Demand: x.Pressure, Capacity: x.Part.PressureClass.SI(), Basis: "the pressure class for which the shop proved the flange (ASTM D5421)"}
	switch {
	case w.Capacity <= 0:
		w.Open = "the pressure class that the flange was proved for is not stated (pressure_class)"
	case x.Part.Thickness.SI() <= 0:
		w.Open = "a class is one of a thickness, and the flange's is not stated (thickness)"
	}
	return w
}

// BoltTorque wants the shop's greatest torque to be enough to hold the pressure.
func (x *Facts) BoltTorque() Weighing {
	w := Weighing{Kind: quantity.Torque, Inside: true, Capacity: x.Part.Torque.SI(),
		Basis: "T = K F d with K 0.2, dry, F from the pressure on the whole bolt circle (arithmetic; K from memory); nothing added to seat the gasket"}
	d, of := x.drilling()
	switch {
	case x.Pressure <= 0:
		w.Skip = noLoad
		return w
	case of == "" || d.Bolts < 1 || d.Bolt <= 0:
		w.Open = "the bolts are not known: no drilling of that size is (drilling, size), and circle, number and size are not all stated (bolt_circle, bolts, bolt_size)"
		return w
	}
	if x.Part.Drilling != laminate.NoDrilling {
		w.Basis += "; drilling of " + of
	}
	bored, circle, ok := vessel.BoltForces(x.Pressure, math.Min(d.Circle, math.Max(x.Part.Size.SI(), 1e-3)), d)
	w.Demand = vessel.Torque(circle, d.Bolt, vessel.DryBolt)
	w.Reason = x.Units.Span(bored, circle, quantity.Force) + " a bolt, " + quantity.Counted(d.Bolts, "bolt", "bolts")
	switch {
	case !ok:
		w.Open = "the force on the bolts is beyond what can be computed"
	case w.Capacity <= 0:
		w.Open = "the most that the shop lets a bolt be turned with is not stated: its flange test says it (torque); it takes " +
			x.Units.AtLeast(w.Demand, quantity.Torque) + " to hold the pressure, " + w.Reason
	}
	return w
}

// Bottom asks whether a flat bottom stands on its foundation: then it carries
// nothing but seals, and if not nothing here figures it.
func (x *Facts) Bottom() Weighing {
	w := Weighing{Kind: quantity.Thickness, Wall: true, Capacity: x.Whole, Reason: "it seals and carries nothing",
		Basis: "least thickness of a bottom that stands on its whole foundation, by diameter (ASTM D3299, ASTM D4097, from memory)"}
	p := x.Part
	d := p.InsideDiameter.SI()
	w.Demand = vessel.FlatBottom(d)
	switch {
	case p.Place.Top:
		w.Open = "it closes the vessel at its top, where no foundation bears it: enter it as a cover (form)"
	case !p.Supported.Given:
		w.Open = "whether the whole bottom stands on its foundation is not stated (supported)"
	case !p.Supported.Value:
		w.Open = unsupported
	case d <= 0:
		w.Open = "the inside diameter is not given (inside_diameter)"
	}
	return w
}

// HoldDown holds a vacuum over a flat bottom against what those who figured its
// hold-down say that it bears: nothing here figures that.
func (x *Facts) HoldDown() Weighing {
	w := Weighing{Kind: quantity.Stress, Lift: true, Demand: x.Vacuum, Capacity: x.Part.HoldDown.SI(), Reason: "as stated, of the vacuum alone; what lifts the shell from inside is judged of the job as a whole (uplift-unheld); anchors and foundation are figured by others",
		Basis: "the vacuum that the hold-down of the bottom was figured for, as the document states (arithmetic); never computed"}
	switch {
	case x.Vacuum <= 0:
		w.Skip = "no vacuum or outside pressure is given; what lifts the shell from inside is judged of the job as a whole (uplift-unheld)"
	case w.Capacity <= 0:
		w.Open = "vacuum lifts a flat bottom, and the vacuum that its hold-down was figured for is not stated (hold_down)"
	}
	return w
}
