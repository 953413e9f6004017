// Package moduli finds how stiff the plies of a schedule are: by test values
// where the material is known by test, else from fiber, resin and fiber volume
// fraction, with the typical figures of a library where a schedule gives none.
// It says of every ply which it was, and keeps account of what was assumed.
package moduli

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stiffness"
)

// The usual woven roving: five yarns along to four across, and what its
// waviness leaves of the stiffness (from memory).
const (
	usualWarpShare = 5.0 / 9
	usualCrimp     = 0.9
)

// How a ply's moduli were had.
const (
	ByConstituents = "micromechanics"
	ByTypical      = "micromechanics, typical figures"
	ByTest         = "test values"
	ByResin        = "resin alone"
)

// Laws figures plies and remembers what it assumed. It is for one goroutine.
type Laws struct {
	lib     *laminate.Library
	kept    float64
	figured []figured // a ring
	next    int

	typicalFiber               [6]bool
	typicalResin               [9]bool
	usualWoven, filled, carbon bool
}

// New gives Laws that take typical figures from lib, which may be nil, and
// leave of every modulus the share kept, above 0 and at most 1.
func New(lib *laminate.Library, kept float64) *Laws { return &Laws{lib: lib, kept: kept} }

// recipe is what a ply's moduli follow from; equal recipes are figured once.
type recipe struct {
	material *laminate.Material
	resin    *laminate.Resin
	vf       float64
}

type figured struct {
	recipe
	law   stiffness.Ply
	basis string
}

// remembered bounds the search for an equal recipe.
const remembered = 16

// Ply finds the moduli (Pa) of a row's plies and how they were had, by test
// values where the material is a lamina and else from fiber, resin and fiber
// volume fraction. Where that cannot be done, trouble says why and names the
// key that is missing. The row's material must be known and its thickness above
// zero.
func (l *Laws) Ply(f *laminate.RowFigures) (law stiffness.Ply, basis, trouble string) {
	// Not by the share that wants the mass too: a filler of unknown amount
	// hides the mass and not the fiber's volume.
	vf := f.FiberVolume / f.Thickness
	key := recipe{f.Material, f.Resin, vf}
	for i := range l.figured {
		if l.figured[i].recipe == key {
			return l.figured[i].law, l.figured[i].basis, ""
		}
	}
	p, basis, trouble := l.figure(f, vf)
	if trouble == "" {
		if bad := p.Check(); bad != nil {
			trouble = bad.Error()
		}
	}
	if trouble != "" {
		return stiffness.Ply{}, "", trouble
	}
	p.E1 *= l.kept
	p.E2 *= l.kept
	p.G12 *= l.kept
	if len(l.figured) < remembered {
		l.figured = append(l.figured, figured{})
	}
	l.figured[l.next] = figured{key, p, basis}
	l.next = (l.next + 1) % remembered
	return p, basis, ""
}

func (l *Laws) figure(f *laminate.RowFigures, vf float64) (p stiffness.Ply, basis, trouble string) {
	m := f.Material
	if m.Form == laminate.Lamina {
		return tested(m)
	}
	if f.Resin == nil {
		return p, "", "it names no resin, so its moduli cannot be determined (resin)"
	}
	matrix, typicalResin, trouble := l.matrix(f.Resin)
	if trouble != "" {
		return p, "", trouble
	}
	if m.Form == laminate.ResinCoat {
		return stiffness.Ply{E1: matrix.E, E2: matrix.E, G12: matrix.G(), Nu12: matrix.Nu}, ByResin, ""
	}
	fiber, typicalFiber, trouble := l.fiber(m)
	if trouble != "" {
		return p, "", trouble
	}
	if !(vf > 0 && vf <= 1) {
		return p, "", "its fiber volume fraction is not known"
	}
	basis = ByConstituents
	if typicalResin || typicalFiber {
		basis = ByTypical
	}
	var err error
	switch m.Form {
	case laminate.Veil, laminate.ChoppedMat, laminate.SprayedChop:
		p, err = stiffness.Random(fiber, matrix, vf)
	case laminate.WovenRoving:
		if !m.WarpShare.Given || !m.CrimpFactor.Given {
			l.usualWoven = true
		}
		p, err = stiffness.Woven(fiber, matrix, vf, m.WarpShare.Or(usualWarpShare), m.CrimpFactor.Or(usualCrimp))
	case laminate.Unidirectional, laminate.RovingBand:
		p, err = stiffness.Unidirectional(fiber, matrix, vf)
	default:
		return p, "", "its material has no form (form)"
	}
	if err != nil {
		return p, "", err.Error()
	}
	return p, basis, ""
}

func tested(m *laminate.Material) (p stiffness.Ply, basis, trouble string) {
	for _, k := range [...]struct {
		key   string
		given bool
	}{{"e1", m.E1.Given()}, {"e2", m.E2.Given()}, {"g12", m.G12.Given()}, {"nu12", m.Nu12.Given}} {
		if !k.given {
			return p, "", "its lamina gives no test value for " + k.key
		}
	}
	return stiffness.Ply{E1: m.E1.SI(), E2: m.E2.SI(), G12: m.G12.SI(), Nu12: m.Nu12.Value}, ByTest, ""
}

// fiber gives a material's fiber, and whether some figure is only typical.
func (l *Laws) fiber(m *laminate.Material) (c stiffness.Constituent, typical bool, trouble string) {
	var data laminate.FiberData
	if l.lib != nil && int(m.Fiber) < len(l.lib.Fibers) {
		data = l.lib.Fibers[m.Fiber]
	}
	modulus, given := positive(m.FiberModulus)
	if !given {
		typical = true
		if modulus, given = positive(data.Modulus); !given {
			return c, true, "the modulus of its fiber is not known (fiber_modulus)"
		}
	}
	nu := m.FiberPoisson.Value
	if !m.FiberPoisson.Given {
		typical = true
		if nu = data.Poisson; nu == 0 {
			return c, true, "Poisson's ratio of its fiber is not known (fiber_poisson)"
		}
	}
	if typical && int(m.Fiber) < len(l.typicalFiber) {
		l.typicalFiber[m.Fiber] = true
	}
	l.carbon = l.carbon || m.Fiber == laminate.Carbon
	return stiffness.Constituent{E: modulus, Nu: nu}, typical, ""
}

// matrix gives a cured resin, and whether some figure is only typical.
func (l *Laws) matrix(r *laminate.Resin) (c stiffness.Constituent, typical bool, trouble string) {
	data := family(l.lib, r)
	modulus, given := positive(r.Modulus)
	if !given {
		typical = true
		if modulus, given = positive(data.Modulus); !given {
			return c, true, "the modulus of its resin is not known (modulus)"
		}
	}
	nu := r.Poisson.Value
	if !r.Poisson.Given {
		typical = true
		if nu = data.Poisson; nu == 0 {
			return c, true, "Poisson's ratio of its resin is not known (poisson)"
		}
	}
	if typical && int(r.Family) < len(l.typicalResin) {
		l.typicalResin[r.Family] = true
	}
	l.filled = l.filled || r.Filler != laminate.NoFiller
	return stiffness.Constituent{E: modulus, Nu: nu}, typical, ""
}

func family(lib *laminate.Library, r *laminate.Resin) laminate.FamilyData {
	if lib == nil || int(r.Family) >= len(lib.Families) {
		return laminate.FamilyData{}
	}
	return lib.Families[r.Family]
}

// Constituents are the fiber and the resin that a ply's moduli come of, cold;
// false where they come of a test or of resin alone, or are not known.
func (l *Laws) Constituents(f *laminate.RowFigures) (fiber, matrix stiffness.Constituent, ok bool) {
	if m := f.Material; m == nil || f.Resin == nil || m.Form == laminate.Lamina || m.Form == laminate.ResinCoat {
		return fiber, matrix, false
	}
	matrix, _, trouble := l.matrix(f.Resin)
	if trouble != "" {
		return fiber, matrix, false
	}
	fiber, _, trouble = l.fiber(f.Material)
	return fiber, matrix, trouble == ""
}

// Weave is the warp share and the crimp factor of a woven roving.
func (*Laws) Weave(m *laminate.Material) (warpShare, crimp float64) {
	return m.WarpShare.Or(usualWarpShare), m.CrimpFactor.Or(usualCrimp)
}

// FailureStrain is the strain (a ratio) at which a cured resin fails, its own
// or its family's; ok is false where neither is known.
func FailureStrain(lib *laminate.Library, r *laminate.Resin) (strain float64, ok bool) {
	strain = r.FailureStrain.Value
	if !r.FailureStrain.Given {
		strain = family(lib, r).FailureStrain
	}
	return strain, strain > 0 && strain <= 1
}

// Assumptions says what was taken for granted so far, one sentence each.
func (l *Laws) Assumptions(units quantity.System) []string {
	var notes []string
	for i, used := range l.typicalFiber {
		if used && l.lib != nil {
			d := &l.lib.Fibers[i]
			notes = append(notes, laminate.Fiber(i).String()+" fiber: typical modulus "+units.Figure(d.Modulus.SI(), quantity.Stress)+sourced(d.Source))
		}
	}
	for i, used := range l.typicalResin {
		if used && l.lib != nil {
			d := &l.lib.Families[i]
			notes = append(notes, laminate.Family(i).String()+": typical modulus "+units.Figure(d.Modulus.SI(), quantity.Stress)+sourced(d.Source))
		}
	}
	if l.usualWoven {
		notes = append(notes, "Woven roving that says nothing else: warp share 5/9, crimp factor 0.9 (from memory); where no angle is stated its warp is figured along the axis, and laid round, as its strips are cut, it bears more round and less along (angle = 90 says so).")
	}
	if l.filled {
		notes = append(notes, "Filler is not counted as stiffening the resin, nor as changing its failure strain.")
	}
	if l.carbon {
		notes = append(notes, "Carbon fiber is taken as alike in all directions: across the fiber and in shear its plies come out too stiff.")
	}
	return notes
}

func sourced(source string) string {
	if source == "" {
		return ""
	}
	return "; " + source
}

// positive gives the figure of a stated quantity that is a finite number above
// zero.
func positive[D quantity.Dimension](q quantity.Quantity[D]) (float64, bool) {
	v := q.SI()
	return v, q.Given() && v > 0 && !math.IsInf(v, 1)
}
