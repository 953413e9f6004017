package wall

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/form"
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
	if !ok {
		c.skip("no vacuum or outside pressure is given")
		e.heed(&c, CaseVacuum)
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
	if e.s.Part.Form == laminate.HeadPart {
		c = e.weighed(c.Name, e.facts().Dome())
		c.Case = CaseVacuum
		return c
	}
	f, free, open := e.outside()
	if open != "" {
		c.open(open)
		return c
	}
	e.stiffeners(p, f)
	if free.Note != "" {
		e.note(free.Note)
	}
	stands := ""
	if e.s.Part.Form == laminate.Cone {
		c.Basis += form.ConeBasis
		stands = " of the cylinder that stands for the cone"
	}
	if !free.Given {
		c.weigh(p, f.Endless)
		c.Reason = "taken as endless, for " + free.Why + ": endless tube" + stands
		if c.Answer == Fails {
			required, allowable := e.units.Pair(p, f.Endless, quantity.Stress)
			why := free.Why + "; endless, the allowable is " + allowable + " of the " + required + " required"
			if s := e.r.Stiffeners; s.Known {
				why += "; rings at most " + e.units.AtMost(s.Spacing, quantity.Distance) + " apart would do"
			}
			c = Criterion{Name: c.Name, Kind: c.Kind, Case: c.Case, Governs: true, Basis: c.Basis}
			c.open(why)
			c.ByGlass = true
		}
		return c
	}
	capacity, which := f.Allowable(free.Length)
	c.Reason = which + stands
	if sound(free.Length) {
		c.Reason += ", free length " + e.units.Figure(free.Length, quantity.Distance)
	}
	c.weigh(p, capacity)
	return c
}

func (e *evaluation) collapse() (f shell.Collapsing, ok bool) {
	flex := e.lam.FreeBending()
	nus := math.Max(0, flex.Nuxy*flex.Nuyx)
	f = shell.Collapsing{
		T: e.r.Thickness, D: 2 * e.round.out, Membrane: e.r.Membrane.Ey,
		Bent: shell.Bent{HoopFlexural: flex.Ey, AxialFlexural: flex.Ex, AxialTensile: e.r.Membrane.Ex, NuProduct: nus},
	}
	if modulus, nu, alike := e.asIsotropic(); alike {
		f.Modulus, f.Nu = modulus, nu
	}
	f.Endless, ok = shell.CollapseEndless(flex.Ey, nus, f.T, e.round.middle)
	f.Endless /= shell.CollapseSafety
	return f, ok
}

// outside is the shell, or the cylinder that stands for a cone, under outside
// pressure, and its free length; or why it cannot be computed.
func (e *evaluation) outside() (f shell.Collapsing, free form.Free, open string) {
	f, ok := e.collapse()
	t, free, open := e.facts().Cylinder(f.T)
	if !ok {
		open = "the collapse pressure is beyond what can be computed"
	}
	if t != f.T {
		f.Endless *= t / f.T * t / f.T * t / f.T
		f.T = t
	}
	return f, free, open
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
func (e *evaluation) stiffeners(p float64, f shell.Collapsing) {
	low, found := f.Spacing(p)
	if !found {
		return
	}
	inertia, ok := shell.StiffenerInertia(p, low, f.D, f.Membrane)
	e.r.Stiffeners = Stiffening{Known: ok, Spacing: low, Inertia: inertia, Width: shell.StiffenerWidth(f.D, f.T), Modulus: f.Membrane}
}
