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
	if e.curved(&c) {
		return c
	}
	f, length, given, open := e.outside()
	if open != "" {
		c.open(open)
		return c
	}
	e.stiffeners(p, f)
	if !given {
		c.weigh(p, f.endless)
		c.Reason = "taken as endless, for no free length is given (stiffener_spacing): endless tube"
		if c.Answer == Fails {
			required, allowable := e.units.Pair(p, f.endless, quantity.Stress)
			why := "the free length between stiffeners is not given (stiffener_spacing); endless, the allowable is " + allowable + " of the " + required + " required"
			if s := e.r.Stiffeners; s.Known {
				why += "; rings at most " + e.units.AtMost(s.Spacing, quantity.Distance) + " apart would do"
			}
			c = Criterion{Name: c.Name, Kind: c.Kind, Case: c.Case, Governs: true, Basis: c.Basis}
			c.open(why)
			c.ByGlass = true
		}
		return c
	}
	capacity, which := f.allowable(length)
	c.Reason = which
	if sound(length) {
		c.Reason += ", free length " + e.units.Figure(length, quantity.Distance)
	}
	c.weigh(p, capacity)
	return c
}

// collapsing is a wall under outside pressure.
type collapsing struct {
	t, d     float64 // m: of the plies that count; outside diameter
	bent     shell.Bent
	modulus  float64 // Pa, of the isotropic formula, 0 where it does not apply
	nu       float64
	endless  float64 // Pa, allowable at any length
	membrane float64 // Pa, hoop modulus of a ring of the wall's own laminate
}

func (e *evaluation) collapse() (f collapsing, ok bool) {
	flex := e.lam.FreeBending()
	nus := math.Max(0, flex.Nuxy*flex.Nuyx)
	f = collapsing{
		t: e.r.Thickness, d: 2 * e.round.out, membrane: e.r.Membrane.Ey,
		bent: shell.Bent{HoopFlexural: flex.Ey, AxialFlexural: flex.Ex, AxialTensile: e.r.Membrane.Ex, NuProduct: nus},
	}
	if modulus, nu, alike := e.asIsotropic(); alike {
		f.modulus, f.nu = modulus, nu
	}
	f.endless, ok = shell.CollapseEndless(flex.Ey, nus, f.t, e.round.middle)
	f.endless /= shell.CollapseSafety
	return f, ok
}

// outside is the shell, or the cylinder that stands for a cone, under outside
// pressure, and its free length; or why it cannot be computed.
func (e *evaluation) outside() (f collapsing, length float64, given bool, open string) {
	f, ok := e.collapse()
	if e.s.Part.Form == laminate.Cone {
		var t float64
		if t, length, open = e.facts().Cone(f.t); open != "" {
			return f, 0, false, open
		}
		f.endless *= t / f.t * t / f.t * t / f.t
		f.t, given = t, true
	} else if ok {
		length, given = e.freeLength()
	}
	if !ok {
		open = "the collapse pressure is beyond what can be computed"
	}
	return f, length, given, open
}

// allowable is the lowest of the formulas that apply to a free length in m, and
// which it is.
func (f *collapsing) allowable(length float64) (capacity float64, which string) {
	capacity = math.Inf(1)
	if f.modulus > 0 {
		if p, ok := shell.Collapse(f.modulus, f.nu, f.t, f.d, length); ok {
			capacity, which = p/shell.CollapseSafety, "isotropic formula"
		}
	}
	if p, ok := shell.AllowableOrthotropic(f.bent, f.t, f.d, length); ok && p < capacity {
		capacity, which = p, "orthotropic formula"
	}
	if which == "" || capacity < f.endless {
		capacity, which = f.endless, "endless tube"
	}
	return capacity, which
}

// asIsotropic gives the modulus and Poisson's ratio of the isotropic formula,
// where the wall is near enough alike round and along: its lowest modulus.
func (e *evaluation) asIsotropic() (modulus, nu float64, ok bool) {
	m, flex := &e.r.Membrane, e.lam.FreeBending()
	if math.Max(m.Ex, m.Ey) > alike*math.Min(m.Ex, m.Ey) {
		return 0, 0, false
	}
	nu = math.Sqrt(math.Max(0, m.Nuxy*m.Nuyx))
	return math.Min(math.Min(m.Ex, m.Ey), math.Min(flex.Ex, flex.Ey)), nu, nu < 0.5
}

// stiffeners figures how far apart rings may stand for the wall between them to
// hold, by the formulas that judge it, and what section each needs. There is
// nothing to tell where the wall holds without.
func (e *evaluation) stiffeners(p float64, f collapsing) {
	if !quantity.Above(p, f.endless) {
		return
	}
	holds := func(length float64) bool {
		capacity, _ := f.allowable(length)
		return !quantity.Above(p, capacity)
	}
	// The formulas fall with the length. Nearer than a twentieth of the
	// diameter rings are a wall of their own.
	low, high := f.d/20, f.d
	if !holds(low) {
		return
	}
	for holds(high) {
		low, high = high, 2*high
	}
	for high-low > 1e-9*low {
		if middle := (low + high) / 2; holds(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	inertia, ok := shell.StiffenerInertia(p, low, f.d, f.membrane)
	e.r.Stiffeners = Stiffening{Known: ok, Spacing: low, Inertia: inertia, Width: shell.StiffenerWidth(f.d, f.t), Modulus: f.membrane}
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
	if p.Form == laminate.ShellCourse {
		l, ok = positive(p.Place.Shell)
	}
	switch {
	case !ok:
		return 0, false
	case p.Form == laminate.Tank || p.Form == laminate.ShellCourse:
		e.note("No stiffener spacing given: the straight side is the free length; a dished head adds to it (ASTM D3299-18 6.2.1).")
		return l, true
	case p.Flanged.Given && p.Flanged.Value:
		e.note("No stiffener spacing given: the length between flanges is the free length.")
		return l, true
	}
	return 0, false
}
