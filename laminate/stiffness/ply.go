package stiffness

import (
	"fmt"
	"math"
)

// Matrix is a symmetric 3×3 matrix over xx, yy, xy, rows first.
type Matrix [3][3]float64

// Times returns the matrix times the column v.
func (m *Matrix) Times(v [3]float64) [3]float64 {
	return [3]float64{
		m[0][0]*v[0] + m[0][1]*v[1] + m[0][2]*v[2],
		m[1][0]*v[0] + m[1][1]*v[1] + m[1][2]*v[2],
		m[2][0]*v[0] + m[2][1]*v[1] + m[2][2]*v[2],
	}
}

// Ply is the elastic law of one sheet in its own axes, plane stress.
type Ply struct {
	E1   float64 // along the fiber, Pa
	E2   float64 // across it, Pa
	G12  float64 // in-plane shear, Pa
	Nu12 float64 // strain across for a pull along, sign turned
}

// Check says whether such a ply can exist: moduli from 1 Pa to 1e15 Pa, and
// ν12² below E1/E2, without which stretching it could give energy back.
//
// Source: Jones, Mechanics of Composite Materials, restrictions on elastic
// constants.
func (p Ply) Check() error {
	if err := checkModulus("E1", p.E1); err != nil {
		return err
	}
	if err := checkModulus("E2", p.E2); err != nil {
		return err
	}
	if err := checkModulus("G12", p.G12); err != nil {
		return err
	}
	// Negated so that NaN is refused too. Past the bound by less than rounding
	// the stiffness is worthless, hence the sliver.
	if !(p.Nu12*p.Nu12*p.E2/p.E1 < 1-1e-9) {
		return &DomainError{"Poisson's ratio ν12", p.Nu12, fmt.Sprintf("within ±√(E1/E2) = ±%.4g", math.Sqrt(p.E1/p.E2))}
	}
	return nil
}

// Nu21 returns the minor Poisson's ratio, ν12 E2/E1.
func (p Ply) Nu21() float64 { return p.Nu12 * p.E2 / p.E1 }

// Rotated returns the ply's plane-stress stiffness in Pa in axes from which its
// fiber is turned by angleDeg, from -360 to 360 degrees.
//
// Source: Jones; Kaw, chapter 2.
func (p Ply) Rotated(angleDeg float64) (Matrix, error) {
	if err := p.Check(); err != nil {
		return Matrix{}, err
	}
	if !within(angleDeg, -maxAngle, maxAngle) {
		return Matrix{}, &DomainError{"angle", angleDeg, "between -360 and 360 degrees"}
	}
	q := p.reduced()
	sin, cos := sincosDeg(angleDeg)
	return q.rotated(sin*sin, cos*cos, cos*sin), nil
}

// reduced is the plane-stress stiffness in ply axes, Pa.
type reduced struct{ q11, q12, q22, q66 float64 }

func (p Ply) reduced() reduced {
	d := 1 - p.Nu12*p.Nu21()
	return reduced{q11: p.E1 / d, q12: p.Nu12 * p.E2 / d, q22: p.E2 / d, q66: p.G12}
}

// rotated takes sin², cos² and their product.
func (q *reduced) rotated(s2, c2, cs float64) Matrix {
	c4, s4, c2s2 := c2*c2, s2*s2, c2*s2
	h := q.q12 + 2*q.q66
	m11 := q.q11*c4 + 2*h*c2s2 + q.q22*s4
	m22 := q.q11*s4 + 2*h*c2s2 + q.q22*c4
	m12 := (q.q11+q.q22-4*q.q66)*c2s2 + q.q12*(c4+s4)
	m66 := (q.q11+q.q22-2*q.q12-2*q.q66)*c2s2 + q.q66*(c4+s4)
	m16 := cs * ((q.q11-h)*c2 + (h-q.q22)*s2)
	m26 := cs * ((q.q11-h)*s2 + (h-q.q22)*c2)
	return Matrix{{m11, m12, m16}, {m12, m22, m26}, {m16, m26, m66}}
}

// sincosDeg is exact at the quarter turns, so that a hoop ply has no trace of
// shear coupling and a symmetric answer prints as one.
func sincosDeg(deg float64) (sin, cos float64) {
	switch math.Abs(deg) {
	case 0, 180, 360:
		return 0, 1
	case 90, 270:
		return 1, 0 // up to the sign of both, which a ply does not show
	}
	return math.Sincos(deg * math.Pi / 180)
}
