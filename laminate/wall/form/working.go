package form

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/laminate/wall/worked"
)

// The steps below repeat how the figures of a criterion came about, for one that
// was judged; w has the steps before them, among them the pressure p, the
// thicknesses T and t and the moduli of the wall.

// size writes down what the document states.
func size(w *worked.List, what, symbol string, l quantity.Length) float64 {
	v := w.Length(l.SI())
	w.Add(what, symbol, "as the document states", "", v, w.LengthUnit(), "")
	return v
}

// WorkShape writes how the factors on the load come about.
func (x *Facts) WorkShape(w *worked.List) {
	f, open := x.Shape()
	p := x.Part
	if open != "" {
		return
	}
	d := w.Length(p.InsideDiameter.SI())
	factor := func(formula, numbers string) {
		w.Add("factor of the form", "k", formula, numbers, f.Hoop, "", f.Source)
	}
	switch p.Form {
	case laminate.HeadPart:
		switch p.Head {
		case laminate.Hemispherical:
			factor("1/2, hemispherical head", "1/2")
		case laminate.Ellipsoidal:
			h := size(w, "depth of the head", "h", p.Depth)
			factor("(2 + (D/(2·h))²)/6, ellipsoidal head", worked.Put("(2 + (#/(2·#))^2)/6", d, h))
		case laminate.Torispherical:
			l, r := size(w, "crown radius", "L", p.CrownRadius), size(w, "knuckle radius", "r", p.KnuckleRadius)
			w.Add("factor of the knuckle", "M", "(3 + sqrt(L/r))/4", worked.Put("(3 + sqrt(#/#))/4", l, r), vessel.TorisphereM(p.CrownRadius.SI(), p.KnuckleRadius.SI()), "", fromASME8)
			factor("M·L/D, torispherical head", worked.Put("(3 + sqrt(#/#))/4·#/#", l, r, l, d))
		case laminate.NoHeadShape:
		}
	case laminate.Cone:
		w.Add("half-angle at the apex", "α", "as the document states", "", p.HalfAngle.Value, "°", "")
		factor("1/cos(α), cone at its large end", worked.Put("1/cos(#)", p.HalfAngle.Value))
	case laminate.Elbow:
		b, mean := size(w, "bend radius of the center line", "Rb", p.BendRadius), d+w.Length(x.Whole)
		factor("(4·Rb/(D + T) − 1)/(4·Rb/(D + T) − 2), inside of a smooth bend", worked.Put("(4·#/# - 1)/(4·#/# - 2)", b, mean, b, mean))
	default: // straight
	}
}

// workCrown writes how the outside radius of a head comes about: see crown.
func (x *Facts) workCrown(w *worked.List, outside bool) float64 {
	m, _ := x.crown(outside)
	p, t, d := x.Part, w.Length(x.Whole), w.Length(x.Part.InsideDiameter.SI())
	radius := w.Length(m)
	formula, numbers, source := "L + T", worked.Put("# + #", w.Length(p.CrownRadius.SI()), t), ""
	switch p.Head {
	case laminate.Hemispherical:
		formula, numbers = "D/2 + T", worked.Put("#/2 + #", d, t)
	case laminate.Ellipsoidal:
		if !outside {
			formula, numbers, source = "(D/2)²/h + T, the top of an ellipsoid", worked.Put("(#/2)^2/# + #", d, w.Length(p.Depth.SI()), t), "geometry of the ellipse"
			break
		}
		share, _ := vessel.EllipsoidCrown(p.InsideDiameter.SI(), p.Depth.SI())
		w.Add("equivalent crown radius over the outside diameter", "K", "by D/(2·h), between rows of the table by proportion", "", share, "", "ASME VIII UG-33, from memory")
		formula, numbers = "K·(D + 2·T)", worked.Put("#·(# + 2·#)", share, d, t)
	case laminate.Torispherical, laminate.NoHeadShape:
	}
	w.Add("outside radius of the crown", "Ro", formula, numbers, radius, w.LengthUnit(), source)
	return radius
}

// WorkStep writes how far a head or a flat lid gives way under a person.
func (x *Facts) WorkStep(w *worked.List, c *Weighing) {
	if x.Part.Form != laminate.HeadPart {
		k, s, _ := x.workPlate(w, "kf", "figure of the plate's deflection under a force in its middle", pointSimply, pointClamped, func(f vessel.Plate) float64 { return f.Point })
		f, _ := x.plate()
		force := w.Force(stepForce)
		w.Add("force of a person", "P", "250 lb", "", force, w.ForceUnit(), c.Basis)
		w.Add("deflection in the middle", "δ", "kf·P·s²/(E·t³)", worked.Put("#·#·#^2/(#·#^3)", k, force, s, w.Stress(x.Modulus), w.Length(x.Structure)), w.Length(c.Demand), w.LengthUnit(), basisPlate)
		w.Add("deflection allowed", "δd", "0.005·"+worked.Pick(f.width > f.side, "C", "s"), worked.Put("0.005·#", w.Length(f.width)), w.Length(c.Capacity), w.LengthUnit(), "")
		return
	}
	radius := x.workCrown(w, false)
	e, t, p := w.Stress(x.Modulus), w.Length(x.Structure), w.Force(stepForce)
	w.Add("force of a person", "P", "250 lb", "", p, w.ForceUnit(), c.Basis)
	w.Add("deflection at the top, Poisson's ratio 0.3", "δ", "sqrt(3)/4·sqrt(1 − ν²)·P·Ro/(E·t²)", worked.Put("sqrt(3)/4·sqrt(1 - 0.3^2)·#·#/(#·#^2)", p, radius, e, t), w.Length(c.Demand), w.LengthUnit(), "")
	w.Add("deflection allowed", "δd", "0.005·D", worked.Put("0.005·#", w.Length(x.Part.InsideDiameter.SI())), w.Length(c.Capacity), w.LengthUnit(), "")
}

// WorkDome writes what outside pressure a head may bear.
func (x *Facts) WorkDome(w *worked.List, c *Weighing) {
	radius := x.workCrown(w, true)
	w.Add("allowable outside pressure", "pa", "0.36·(E/5)·(t/Ro)²", worked.Put("0.36·#/5·(#/#)^2", w.Stress(x.Modulus), w.Length(x.Structure), radius), w.Stress(c.Capacity), w.StressUnit(), c.Basis)
}

// WorkCone writes the cylinder that stands for a cone, whose thickness that counts is t
// in m, and its length where the cone is held round at both of its ends.
func (x *Facts) WorkCone(w *worked.List, t float64) {
	p := x.Part
	wall, free, _ := x.Cylinder(t)
	w.Add("half-angle at the apex", "α", "as the document states", "", p.HalfAngle.Value, "°", "")
	w.Add("thickness of the cylinder that stands for the cone", "te", "t·cos(α)", worked.Put("#·cos(#)", w.Length(t), p.HalfAngle.Value), w.Length(wall), w.LengthUnit(), "ASME VIII UG-33(f), from memory")
	if free.From != "" || !free.Given {
		return
	}
	long, _ := p.Rise()
	d, ds := w.Length(p.InsideDiameter.SI()), size(w, "inside diameter of the small end", "Ds", p.SmallDiameter)
	l := w.Length(long)
	w.Add("axial length of the cone", "Lc", "(D − Ds)/2·cos(α)/sin(α)", worked.Put("(# - #)/2·cos(#)/sqrt(1 - cos(#)^2)", d, ds, p.HalfAngle.Value, p.HalfAngle.Value), l, w.LengthUnit(), "")
	w.Add("length of that cylinder", "L", "Lc/2·(1 + Ds/D)", worked.Put("#/2·(1 + #/#)", l, ds, d), w.Length(free.Length), w.LengthUnit(), "ASME VIII UG-33(f), from memory")
}

// workPlate writes the figure k of the plate that a criterion is about, by pick,
// the side s that goes with it, and the pressure.
func (x *Facts) workPlate(w *worked.List, symbol, what string, simply, clamped string, pick func(vessel.Plate) float64) (k, s, pressure float64) {
	f, _ := x.plate()
	p := x.Part
	edge := vessel.Simply
	if p.Edge == laminate.Clamped {
		edge, simply = vessel.Clamped, clamped
	}
	k, s = pick(f.Plate), w.Length(f.side)
	source := basisPlate
	if p.Width.Given() && p.Width.SI() > 0 {
		long := math.Max(p.Width.SI(), p.Length.SI())
		w.Add("long side", "b", "as the document states", "", w.Length(long), w.LengthUnit(), "")
		w.Add("short side", "s", "as the document states", "", s, w.LengthUnit(), "")
		below, above := vessel.RectangleRows(edge, long, f.side)
		formula, numbers := f.how+": row of the table from b/s "+worked.Number(below.Ratio)+" on", worked.Number(pick(below.Plate))
		if above.Ratio > below.Ratio {
			formula = f.how + ": k1 + (k2 − k1)·(b/s − r1)/(r2 − r1), between rows r1 and r2 of the table"
			numbers = worked.Put("# + (# - #)·(#/# - #)/(# - #)", pick(below.Plate), pick(above.Plate), pick(below.Plate), w.Length(long), s, below.Ratio, above.Ratio, below.Ratio)
		}
		w.Add(what, symbol, formula, numbers, k, "", source)
	} else {
		w.Add("diameter that the plate spans", "C", f.how, "", w.Length(f.width), w.LengthUnit(), "")
		w.Add("radius of the plate", "s", "C/2", worked.Put("#/2", w.Length(f.width)), s, w.LengthUnit(), "")
		w.Add(what, symbol, simply+", Poisson's ratio 0.3", roundNumbers[simply], k, "", source)
	}
	return k, s, w.Stress(math.Max(x.Pressure, x.Vacuum))
}

// Figures of round plates in symbols, and with Poisson's ratio put in.
const (
	stressSimply, stressClamped   = "3·(3 + ν)/8", "3/4"
	deflectSimply, deflectClamped = "3·(1 − ν)·(5 + ν)/16", "3·(1 − ν²)/16"
	pointSimply, pointClamped     = "3·(1 − ν)·(3 + ν)/(4·π)", "3·(1 − ν²)/(4·π)"
)

var roundNumbers = map[string]string{
	stressSimply: "3·(3 + 0.3)/8", stressClamped: "3/4", deflectSimply: "3·(1 - 0.3)·(5 + 0.3)/16", deflectClamped: "3·(1 - 0.3^2)/16",
	pointSimply: "3·(1 - 0.3)·(3 + 0.3)/(4·3.14159265)", pointClamped: "3·(1 - 0.3^2)/(4·3.14159265)",
}

// WorkPlateStress writes how the bending stress of a flat part comes about.
func (x *Facts) WorkPlateStress(w *worked.List, c *Weighing) {
	k, s, p := x.workPlate(w, "k", "figure of the plate's stress", stressSimply, stressClamped, func(f vessel.Plate) float64 { return f.Stress })
	w.Add("bending stress", "σ", "k·p·s²/t²", worked.Put("#·#·#^2/#^2", k, p, s, w.Length(x.Structure)), w.Stress(c.Demand), w.StressUnit(), basisPlate)
	if x.Part.Basis() == laminate.StrainLimit {
		w.Add("allowable stress", "σd", "0.001·E", worked.Put("0.001·#", w.Stress(x.Modulus)), w.Stress(c.Capacity), w.StressUnit(), basisStrain)
		return
	}
	strength := w.Stress(shell.TableStrength(x.Structure, x.AllMat))
	w.Add("least tensile strength of the table at the thickness t", "S", "by thickness, "+worked.Pick(x.AllMat, "a wall all of mat", "a wall of mat and woven roving"), "", strength, w.StressUnit(), "NBS PS 15-69, from memory")
	w.Add("allowable stress", "σd", "S·retention/10", worked.Put("#·#/10", strength, x.Kept), w.Stress(c.Capacity), w.StressUnit(), "")
}

// WorkPlateDeflection writes how far a flat part gives way.
func (x *Facts) WorkPlateDeflection(w *worked.List, c *Weighing) {
	k, s, p := x.workPlate(w, "ky", "figure of the plate's deflection", deflectSimply, deflectClamped, func(f vessel.Plate) float64 { return f.Deflection })
	f, _ := x.plate()
	w.Add("deflection in the middle", "y", "ky·p·s⁴/(E·t³)", worked.Put("#·#·#^4/(#·#^3)", k, p, s, w.Stress(x.Modulus), w.Length(x.Structure)), w.Length(c.Demand), w.LengthUnit(), basisPlate)
	limit := x.Part.DeflectionLimit.Value
	w.Add("deflection allowed", "yd", "deflection limit of the document·"+worked.Pick(f.width > f.side, "C", "s"), worked.Put("#·#", limit, w.Length(f.width)), w.Length(c.Capacity), w.LengthUnit(), "")
}

// WorkFlangeThickness writes what is stated and what is built.
func (x *Facts) WorkFlangeThickness(w *worked.List, c *Weighing) {
	size(w, "thickness that the shop proved", "tf", x.Part.Thickness)
	w.Add("thickness that the laminate builds", "T", "Σ tp of all plies", "", w.Length(c.Capacity), w.LengthUnit(), "")
}

// WorkFlangeClass writes the pressure and the class.
func (x *Facts) WorkFlangeClass(w *worked.List, c *Weighing) {
	w.Add("pressure class that the shop proved", "pc", "as the document states", "", w.Stress(c.Capacity), w.StressUnit(), "")
}

// WorkBoltTorque writes what a bolt is turned with.
func (x *Facts) WorkBoltTorque(w *worked.List, c *Weighing) {
	d, of := x.drilling()
	_, circle, _ := vessel.BoltForces(x.Pressure, math.Min(d.Circle, math.Max(x.Part.Size.SI(), 1e-3)), d)
	w.Add("bolt circle", "C", "drilling: "+of, "", w.Length(d.Circle), w.LengthUnit(), "")
	w.Add("bolt", "d", "nominal diameter, "+quantity.Counted(d.Bolts, "bolt", "bolts"), "", w.Length(d.Bolt), w.LengthUnit(), "")
	w.Add("force on a bolt", "F", "π/4·p·C²/number of bolts", worked.Put("3.14159265/4·#·#^2/#", w.Stress(x.Pressure), w.Length(d.Circle), float64(d.Bolts)), w.Force(circle), w.ForceUnit(), "statics; the pressure on the whole bolt circle")
	w.Add("torque that it takes", "Tb", "0.2·F·d/"+worked.Pick(w.US, "12", "1000"), worked.Put("0.2·#·#/"+worked.Pick(w.US, "12", "1000"), w.Force(circle), w.Length(d.Bolt)), w.Torque(c.Demand), w.TorqueUnit(), c.Basis)
	w.Add("torque that the shop allows", "Td", "as the document states", "", w.Torque(c.Capacity), w.TorqueUnit(), "")
}

// WorkBottom writes the least thickness of a bottom.
func (x *Facts) WorkBottom(w *worked.List, c *Weighing) {
	d := size(w, "inside diameter", "D", x.Part.InsideDiameter)
	feet := w.Length(12 * 0.0254)
	least := func(m float64) string { return worked.Number(w.Length(m)) + " " + w.LengthUnit() }
	w.Add("least thickness of a bottom on its foundation", "tb", least(0.1875*0.0254)+" up to D = "+worked.Number(6*feet)+" "+w.LengthUnit()+", "+least(0.25*0.0254)+" up to "+worked.Number(12*feet)+" "+w.LengthUnit()+", "+least(0.375*0.0254)+" beyond; D = "+worked.Number(d)+" "+w.LengthUnit(), "", w.Length(c.Demand), w.LengthUnit(), c.Basis)
}

// WorkNarrow writes where a cone that stands on its small end is loaded most, under
// gas, Pa, and a liquid of a specific gravity to a depth, m.
func (x *Facts) WorkNarrow(w *worked.List, name string, gas, gravity, depth float64, n *Narrowing) {
	p := x.Part
	large, small, alpha, y := w.Length(p.InsideDiameter.SI()), w.Length(p.SmallDiameter.SI()), p.HalfAngle.Value, w.Length(n.Above)
	w.Add(name+": place above the small end where pressure times diameter is greatest", "y", "top of the parabola (pressure + γ·SG·(h − y))·(Ds + 2·y·tan α), within the cone and the liquid", "", y, w.LengthUnit(), "")
	w.Add(name+": diameter there", "Dy", "Ds + 2·y·tan(α)", worked.Put("# + 2·#·sqrt(1 - cos(#)^2)/cos(#)", small, y, alpha, alpha), w.Length(n.Diameter), w.LengthUnit(), "")
	w.Add(name+": pressure there", "py", "pressure + γ·SG·(h − y), γ of water in "+worked.Pick(w.US, "lb/in³", "N/mm³"), worked.Put("# + "+w.Water()+"·#·(# - #)", w.Stress(gas), gravity, w.Length(math.Max(depth, n.Above)), y), w.Stress(n.Pressure), w.StressUnit(), "")
	w.Add(name+": pressure at the large end that loads it round as much", "p", "py·Dy/D", worked.Put("#·#/#", w.Stress(n.Pressure), w.Length(n.Diameter), large), w.Stress(n.Round), w.StressUnit(), "")
	w.Add(name+": pressure at the large end that pulls along it as much", "pa", "greatest of (p(y)·D(y) + 4·W(y)/(π·D(y)))/D, W the liquid below y", "", w.Stress(n.Along), w.StressUnit(), "statics")
}
