package stiffness

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Layer is one sheet of a laminate. Equal layers that follow one another may be
// handed in as one of their joint thickness: strain runs straight through it,
// so nothing is lost but the points in between.
type Layer struct {
	Ply       Ply
	Angle     float64 // degrees from x toward y, -360 to 360
	Thickness float64 // m, at least 1e-9
}

// Laminate is the stiffness of a stack about its own middle.
type Laminate struct {
	// A in N/m, B in N and D in N·m: N = A ε + B κ, M = B ε + D κ, with ε the
	// strain of the middle and κ the curvature in 1/m.
	a, b, d   Matrix
	thickness float64
	plies     []sheet

	// What the stack gives way, and how well that is known.
	tube      Matrix // A⁻¹, m/N
	bend      Matrix // D⁻¹, 1/(N·m)
	plate     [6][6]float64
	condition float64
}

// sheet is a layer as the answers need it: stiffness in its own axes, direction,
// place.
type sheet struct {
	q          reduced
	c2, s2, cs float64 // cos², sin² and their product
	inner, out float64 // z of the two faces, m
}

// New stacks the layers, the first at the inside, z outward from the middle of
// all of them. It costs the same number of allocations for one layer as for
// thousands, and time in proportion to them.
//
// Errors: ErrNoLayers; a *DomainError naming the layer; ErrIllConditioned.
//
// Source: Jones; Kaw, chapter 4.
func New(layers []Layer) (*Laminate, error) {
	l := &Laminate{}
	if err := l.Stack(layers); err != nil {
		return nil, err
	}
	return l, nil
}

// Stack makes l the laminate that [New] would make of the layers, in the memory
// that l has. After an error l is no laminate.
func (l *Laminate) Stack(layers []Layer) error {
	*l = Laminate{plies: slices.Grow(l.plies[:0], len(layers))[:len(layers)]}
	if len(layers) == 0 {
		return ErrNoLayers
	}
	for i := range layers {
		if err := layers[i].check(i); err != nil {
			return err
		}
		l.thickness += layers[i].Thickness
	}
	if !within(l.thickness, minThickness, maxThickness) {
		return &DomainError{"laminate thickness", l.thickness, "at most 100 m"}
	}
	z := -l.thickness / 2
	for i := range layers {
		y := &layers[i]
		p := &l.plies[i]
		p.q = y.Ply.reduced()
		sin, cos := sincosDeg(y.Angle)
		p.c2, p.s2, p.cs = cos*cos, sin*sin, cos*sin
		p.inner, p.out = z, z+y.Thickness
		z = p.out
		q := p.q.rotated(p.s2, p.c2, p.cs)
		l.add(&q, y.Thickness, (p.inner+p.out)/2)
	}
	l.cancel()
	for i := range 3 {
		for j := range i {
			l.a[i][j], l.b[i][j], l.d[i][j] = l.a[j][i], l.b[j][i], l.d[j][i]
		}
	}
	if err := l.invert(); err != nil {
		return l.explain(layers, err)
	}
	return nil
}

func (y *Layer) check(i int) error {
	if err := y.Ply.Check(); err != nil {
		return inLayer(i, err)
	}
	if !within(y.Angle, -maxAngle, maxAngle) {
		return &DomainError{numbered(i, "angle"), y.Angle, "between -360 and 360 degrees"}
	}
	if !within(y.Thickness, minThickness, maxThickness) {
		return &DomainError{numbered(i, "thickness"), y.Thickness, "between 1e-9 m and 100 m"}
	}
	return nil
}

// inLayer gives an error about a ply its place in the stack.
func inLayer(i int, err error) error {
	var d *DomainError
	if errors.As(err, &d) {
		return &DomainError{numbered(i, d.Quantity), d.Value, d.Want}
	}
	return fmt.Errorf("layer %d: %w", i+1, err)
}

// add brings in one sheet's upper triangles. The moment of inertia is taken
// about the sheet's own middle and shifted, which keeps the figures that the
// difference of two cubes would lose in a thin sheet far out.
func (l *Laminate) add(q *Matrix, t, mid float64) {
	tb, td := t*mid, t*(mid*mid+t*t/12)
	for i := range 3 {
		for j := i; j < 3; j++ {
			l.a[i][j] += q[i][j] * t
			l.b[i][j] += q[i][j] * tb
			l.d[i][j] += q[i][j] * td
		}
	}
}

// noise is what the rounding of doubles leaves of sums that cancel, as a share
// of what was summed.
const noise = 1e-12

// cancel makes nothing of what is nothing but rounding: the coupling of a wall
// alike on both sides of its middle, and that of shear in a balanced one.
func (l *Laminate) cancel() {
	h := l.thickness
	for i := range 3 {
		for j := i; j < 3; j++ {
			least := noise * math.Sqrt(l.a[i][i]*l.a[j][j])
			for _, value := range [...]*float64{&l.a[i][j], &l.b[i][j], &l.d[i][j]} {
				if math.Abs(*value) < least {
					*value = 0
				}
				least *= h
			}
		}
	}
}

// A returns the membrane stiffness, N/m.
func (l *Laminate) A() Matrix { return l.a }

// B returns the coupling of membrane and bending about the middle of the
// layers, N.
func (l *Laminate) B() Matrix { return l.b }

// D returns the bending stiffness about the middle of the layers, N·m.
func (l *Laminate) D() Matrix { return l.d }

// Thickness returns the sum of the layers, m.
func (l *Laminate) Thickness() float64 { return l.thickness }

// Len returns the number of layers.
func (l *Laminate) Len() int { return len(l.plies) }
