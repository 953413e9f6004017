package shell

import "math"

// CollapseSafety divides a collapse pressure into an allowable one.
const CollapseSafety = 5

// Collapse is the outside pressure in Pa at which a cylinder of one isotropic
// material held round at both ends collapses: E in Pa, Poisson's ratio, wall t,
// outside diameter and free length in m. ok is false where a figure is no
// positive number or the cylinder is too short for the formula, L/D at or below
// 0.45 √(t/D).
//
// p = 2.42 E/(1−ν²)^0.75 (t/D)^2.5 / (L/D − 0.45 √(t/D)).
//
// Source: Windenburg & Trilling 1934 (second-hand); 2.60 E at ν 0.3, as ASTM
// D3299 has it. A factor Do/L that ASTM D3299-18 prints before it (eq. 4) is not
// in Windenburg & Trilling and not here.
func Collapse(e, nu, t, diameter, length float64) (pressure float64, ok bool) {
	if !usable(e, t, diameter, length) || !(nu > -1 && nu < 0.5) {
		return 0, false
	}
	slender := length/diameter - 0.45*math.Sqrt(t/diameter)
	if slender <= 0 {
		return 0, false
	}
	p := 2.42 * e / math.Pow(1-nu*nu, 0.75) * math.Pow(t/diameter, 2.5) / slender
	return p, sound(p)
}

// CollapseEndless is the outside pressure in Pa at which an endless tube
// collapses: ¼ E/(1−ν²) (t/r)³, with the modulus of the wall bent round in Pa,
// the product of both Poisson's ratios of bending (ν² where they are alike),
// wall and mean radius in m. No shorter tube is weaker.
//
// Source: Roark (second-hand).
func CollapseEndless(e, nuSquared, t, radius float64) (pressure float64, ok bool) {
	if !usable(e, t, radius) || !(nuSquared >= 0 && nuSquared < 1) {
		return 0, false
	}
	r := t / radius
	p := e / (1 - nuSquared) * r * r * r / 4
	return p, sound(p)
}

// Bent are the moduli that outside pressure asks of an orthotropic wall.
type Bent struct {
	HoopFlexural, AxialFlexural, AxialTensile float64 // Pa
	NuProduct                                 float64 // of both flexural Poisson's ratios
}

// AllowableOrthotropic is the outside pressure in Pa that an orthotropic
// cylinder may bear, with a safety of 5 in it; wall t, outside diameter and free
// length in m.
//
// Pa = 0.84 · 0.8531 γ Ehf^¾ Eat^¼ t^2.5 / ((1−νxνy)^¾ L (Do/2)^1.5 · 5), γ = 1 −
// 0.001 Zp up to Zp = 100 and 0.9 beyond, Zp = Ehf^1.5/(Eat Eaf^½) (1−νxνy)^½
// L²/((Do/2) t).
//
// Source: ASME Section X, RD-1171.2 (second-hand; the exponent 1.5 restored by
// dimensions).
func AllowableOrthotropic(m Bent, t, diameter, length float64) (pressure float64, ok bool) {
	if !usable(m.HoopFlexural, m.AxialFlexural, m.AxialTensile, t, diameter, length) || !(m.NuProduct >= 0 && m.NuProduct < 1) {
		return 0, false
	}
	r, one := diameter/2, 1-m.NuProduct
	zp := m.HoopFlexural / m.AxialTensile * math.Sqrt(m.HoopFlexural/m.AxialFlexural*one) * length / r * length / t
	gamma := 0.9
	if zp <= 100 {
		gamma = 1 - 0.001*zp
	}
	p := 0.84 * 0.8531 * gamma * math.Pow(m.HoopFlexural, 0.75) * math.Pow(m.AxialTensile, 0.25) * math.Pow(t, 2.5) /
		(math.Pow(one, 0.75) * length * math.Pow(r, 1.5) * CollapseSafety)
	return p, sound(p)
}

// StiffenerInertia is the moment of inertia in m⁴ that a stiffener needs: p L
// Do³ · 5/(24 E), with the outside pressure and the stiffener's modulus in Pa,
// spacing and outside diameter in m.
//
// Source: ASME Section X (from memory).
func StiffenerInertia(pressure, spacing, diameter, e float64) (inertia float64, ok bool) {
	if !usable(pressure, spacing, diameter, e) {
		return 0, false
	}
	i := pressure * spacing * diameter * diameter * diameter * CollapseSafety / (24 * e)
	return i, sound(i)
}

// StiffenerWidth is the width of wall in m that acts with a stiffener: 1.1
// √(Do t), with outside diameter and wall in m (from memory).
func StiffenerWidth(diameter, t float64) float64 { return 1.1 * math.Sqrt(diameter*t) }

func sound(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
