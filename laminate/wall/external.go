package wall

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/shell"
)

// alike is how much axial and hoop modulus may differ for the isotropic formula
// to be asked (common practice, no source).
const alike = 1.2

const basisExternal = "lowest of the formulas that apply, safety 5: isotropic (Windenburg & Trilling 1934), orthotropic (ASME Section X RD-1171.2), endless tube (Roark); formulas second-hand, safety factor 5 from memory, isotropic where the moduli differ by at most 1.2 (common practice, no source)"

// external judges outside pressure. A cylinder held at its ends is never weaker
// than an endless one, so the formulas for a free length count only down to the
// endless tube's figure; beyond it they fall away with the length and say
// nothing any more.
func (e *evaluation) external() Criterion {
	c := Criterion{Name: ExternalPressure, Kind: quantity.Stress, Governs: true, Basis: basisExternal}
	p, ok := positive(e.s.Service.Vacuum)
	if !ok && !e.s.Service.Vacuum.Given() {
		e.heed(&c, CaseVacuum)
		return c
	}
	if !ok {
		c.skip("no vacuum or outside pressure is given")
		return c
	}
	c.Case = CaseVacuum
	for i := range e.r.Cases {
		// The name says so where nobody gave the ends.
		if e.r.Cases[i].Name == CaseVacuum+endsClosed {
			c.Case = e.r.Cases[i].Name
		}
	}
	if e.round.open != "" {
		c.open(e.round.open)
		return c
	}
	if reason := e.moduliOpen(); reason != "" {
		c.open(reason)
		return c
	}
	t, d := e.r.Thickness, 2*e.round.out
	flex := e.lam.FreeBending()
	nus := math.Max(0, flex.Nuxy*flex.Nuyx)
	endless, ok := shell.CollapseEndless(flex.Ey, nus, t, e.round.middle)
	if !ok {
		c.open("the collapse pressure is beyond what can be computed")
		return c
	}
	endless /= shell.CollapseSafety
	e.stiffeners(p, t, d)
	length, given := e.freeLength()
	if !given {
		c.weigh(p, endless)
		c.Reason = "taken as endless, for no free length is given (stiffener_spacing): endless tube"
		if c.Answer == Fails {
			required, allowable := e.units.Pair(p, endless, quantity.Stress)
			why := "the free length between stiffeners is not given (stiffener_spacing); endless, the allowable is " + allowable + " of the " + required + " required"
			c = Criterion{Name: c.Name, Kind: c.Kind, Case: c.Case, Governs: true, Basis: c.Basis}
			c.open(why)
		}
		return c
	}
	capacity, which := math.Inf(1), ""
	if iso, ok := e.isotropic(t, d, length); ok {
		capacity, which = iso, "isotropic formula"
	}
	m := shell.Bent{HoopFlexural: flex.Ey, AxialFlexural: flex.Ex, AxialTensile: e.r.Membrane.Ex, NuProduct: nus}
	if ortho, ok := shell.AllowableOrthotropic(m, t, d, length); ok && ortho < capacity {
		capacity, which = ortho, "orthotropic formula"
	}
	if which == "" || capacity < endless {
		capacity, which = endless, "endless tube"
	}
	c.Reason = which
	if sound(length) {
		c.Reason += ", free length " + e.units.Figure(length, quantity.Distance)
	}
	c.weigh(p, capacity)
	return c
}

// isotropic is the isotropic formula's allowable pressure, where the wall is
// near enough alike round and along, by its lowest modulus.
func (e *evaluation) isotropic(t, d, length float64) (float64, bool) {
	modulus, nu, ok := e.asIsotropic()
	if !ok {
		return 0, false
	}
	p, ok := shell.Collapse(modulus, nu, t, d, length)
	return p / shell.CollapseSafety, ok
}

func (e *evaluation) asIsotropic() (modulus, nu float64, ok bool) {
	m, flex := &e.r.Membrane, e.lam.FreeBending()
	if math.Max(m.Ex, m.Ey) > alike*math.Min(m.Ex, m.Ey) {
		return 0, 0, false
	}
	nu = math.Sqrt(math.Max(0, m.Nuxy*m.Nuyx))
	return math.Min(math.Min(m.Ex, m.Ey), math.Min(flex.Ex, flex.Ey)), nu, nu < 0.5
}

// stiffeners figures what spacing the wall could do with.
func (e *evaluation) stiffeners(p, t, d float64) {
	modulus, nu, ok := e.asIsotropic()
	if !ok {
		return
	}
	spacing, ok := shell.StiffenerSpacing(modulus, nu, t, d, p)
	if !ok {
		return
	}
	inertia, ok := shell.StiffenerInertia(p, spacing, d, e.r.Membrane.Ey)
	e.r.Stiffeners = Stiffening{Known: ok, Spacing: spacing, Inertia: inertia}
}

// freeLength is the length between places that hold the wall round: the
// stiffener spacing, else the straight side of a tank or a pipe between its
// flanges. An infinite spacing is one: no stiffeners.
//
// Source: ASTM D3299-18 6.2.1 says what to measure on a tank.
func (e *evaluation) freeLength() (length float64, given bool) {
	p := &e.s.Part
	if p.StiffenerSpacing.Given() {
		l := p.StiffenerSpacing.SI()
		return l, l > 0
	}
	l, ok := positive(p.Length)
	switch {
	case !ok:
		return 0, false
	case p.Form == laminate.Tank:
		e.note("No stiffener spacing given: the straight side is the free length; a dished head adds to it (ASTM D3299-18 6.2.1).")
		return l, true
	case p.Flanged.Given && p.Flanged.Value:
		e.note("No stiffener spacing given: the length between flanges is the free length.")
		return l, true
	}
	return 0, false
}
