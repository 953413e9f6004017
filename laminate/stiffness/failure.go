package stiffness

import (
	"errors"
	"fmt"
	"math"
)

// Limits are five figures that a ply bears, each positive: strains (ratios, at
// most 1e6) or stresses (Pa, 1 to 1e15) as the field that holds them says. Zero is a figure
// that is not known.
type Limits struct {
	FiberTension, FiberCompression float64
	CrossTension, CrossCompression float64
	Shear                          float64 // engineering strain where strains
}

func (m *Limits) list() [5]float64 {
	return [...]float64{m.FiberTension, m.FiberCompression, m.CrossTension, m.CrossCompression, m.Shear}
}

// known counts the figures given, each of which must lie within its domain.
func (m *Limits) known(lo, hi float64, want string) (int, error) {
	n := 0
	for i, v := range m.list() {
		if v == 0 {
			continue
		}
		if !within(v, lo, hi) {
			return 0, &DomainError{"limit of " + (FiberTension + Mode(i)).String(), v, want}
		}
		n++
	}
	return n, nil
}

// Allowables are what one ply bears. Strain is judged by maximum strain, each
// known figure for itself; Strength by Tsai–Wu, only where all five are known.
type Allowables struct {
	Strain   Limits // ratios
	Strength Limits // Pa
}

// Mode is the way in which a ply fails first.
type Mode int

// The modes, the first five in the order of the fields of Limits. Combined is a
// quadratic criterion's, which does not tell them apart.
const (
	NoMode Mode = iota
	FiberTension
	FiberCompression
	CrossTension
	CrossCompression
	Shear
	Combined
)

// String returns the mode in words.
func (m Mode) String() string {
	switch m {
	case NoMode:
		return "none"
	case FiberTension:
		return "tension along the fiber"
	case FiberCompression:
		return "compression along the fiber"
	case CrossTension:
		return "tension across the fiber"
	case CrossCompression:
		return "compression across the fiber"
	case Shear:
		return "shear"
	case Combined:
		return "all stresses together"
	}
	return fmt.Sprintf("mode %d", int(m))
}

// maximumStrain returns the largest share used of the known strain limits by a
// strain in ply axes, and which: 1 is failure, 0 no strain or no limit.
//
// Source: Jones; Kaw, chapter 2.
func (m *Limits) maximumStrain(e *[3]float64) (use float64, mode Mode) {
	take := func(v, limit float64, of Mode) {
		if limit > 0 && v/limit > use {
			use, mode = v/limit, of
		}
	}
	take(e[0], m.FiberTension, FiberTension)
	take(-e[0], m.FiberCompression, FiberCompression)
	take(e[1], m.CrossTension, CrossTension)
	take(-e[1], m.CrossCompression, CrossCompression)
	take(math.Abs(e[2]), m.Shear, Shear)
	return use, mode
}

// tsaiWu returns the share of its strength that a stress in ply axes (Pa) uses:
// one over the factor by which all stresses would have to grow together to
// reach F1σ1 + F2σ2 + F11σ1² + F22σ2² + F66τ² + 2F12σ1σ2 = 1, with
// F12 = −½ √(F11 F22). The share grows in proportion to the stress, as the sum
// itself does not. It is 0 where a limit is unknown.
//
// Source: Tsai & Wu, A General Theory of Strength for Anisotropic Materials
// (1971); F12 as in Tsai & Hahn, Introduction to Composite Materials (both from
// memory).
func (m *Limits) tsaiWu(s *[3]float64) float64 {
	f11, f22 := 1/(m.FiberTension*m.FiberCompression), 1/(m.CrossTension*m.CrossCompression)
	u, v, w := s[0]*math.Sqrt(f11), s[1]*math.Sqrt(f22), s[2]/m.Shear
	a := u*u + v*v - u*v + w*w
	b := s[0]*(1/m.FiberTension-1/m.FiberCompression) + s[1]*(1/m.CrossTension-1/m.CrossCompression)
	// share² − b share − a = 0, its one root that is not negative, by whichever
	// form does not subtract.
	root := math.Sqrt(b*b + 4*a)
	if b >= 0 {
		return (b + root) / 2
	}
	return 2 * a / (root - b)
}

// Failure is the ply that gives way first under one criterion.
type Failure struct {
	Ply    int // index from 0 at the inside; −1 where nothing is used
	Place  Place
	Mode   Mode
	Use    float64 // share used: 1 is failure, and the deformation may grow by 1/Use
	Judged int     // plies judged with every limit known
	Partly int     // plies judged with some of the five limits unknown
}

// LoadFactor returns by how much the whole deformation may grow until the first
// ply fails; ok is false where nothing is judged or nothing strained.
func (f Failure) LoadFactor() (factor float64, ok bool) {
	if !(f.Use > 1e-300) {
		return 0, false
	}
	return 1 / f.Use, true
}

// FirstFailure is the answer of both criteria.
type FirstFailure struct {
	ByStrain    Failure // maximum strain
	ByQuadratic Failure // Tsai–Wu
}

// errNoAllowables: the caller forgot the function, which is no user's mistake
// but must not be a panic either.
var errNoAllowables = errors.New("first ply failure: no allowables given")

// FirstPly looks for the first ply to fail as the deformation grows in
// proportion, asking allowables once for each index. Both faces of each ply
// are judged; nothing between can be worse, since strain runs straight from
// one to the other and both criteria bound a convex body. Plies without a limit
// are passed over, and Judged and Partly say how many were not.
func (l *Laminate) FirstPly(d Deformation, allowables func(ply int) Allowables) (FirstFailure, error) {
	if allowables == nil {
		return FirstFailure{}, errNoAllowables
	}
	out := FirstFailure{ByStrain: Failure{Ply: -1}, ByQuadratic: Failure{Ply: -1}}
	places := []Place{Inner, Outer}
	if d.curvature == [3]float64{} {
		places = places[:1] // the same strain all through
	}
	for i := range l.plies {
		m := allowables(i)
		strains, err := m.Strain.known(minLimit, maxStrain, "between 1e-12 and 1e6, or 0 for unknown")
		if err != nil {
			return FirstFailure{}, fmt.Errorf("first ply failure: %w", inLayer(i, err))
		}
		strengths, err := m.Strength.known(minModulus, maxModulus, "between 1 Pa and 1e15 Pa, or 0 for unknown")
		if err != nil {
			return FirstFailure{}, fmt.Errorf("first ply failure: %w", inLayer(i, err))
		}
		out.ByStrain.count(strains)
		if strengths == 5 {
			out.ByQuadratic.count(5)
		}
		if strains == 0 && strengths < 5 {
			continue
		}
		p := &l.plies[i]
		for _, place := range places {
			z := p.z(place)
			var e [3]float64
			for k := range 3 {
				e[k] = d.strain[k] + z*d.curvature[k]
			}
			e = p.intoPly(&e)
			if use, mode := m.Strain.maximumStrain(&e); use > out.ByStrain.Use {
				out.ByStrain.at(i, place, mode, use)
			}
			if strengths == 5 {
				s := p.q.stress(&e)
				if use := m.Strength.tsaiWu(&s); use > out.ByQuadratic.Use {
					out.ByQuadratic.at(i, place, Combined, use)
				}
			}
		}
	}
	return out, nil
}

func (f *Failure) count(known int) {
	switch {
	case known == 5:
		f.Judged++
	case known > 0:
		f.Partly++
	}
}

func (f *Failure) at(i int, place Place, mode Mode, use float64) {
	f.Ply, f.Place, f.Mode, f.Use = i, place, mode, use
}
