package stiffness

import "fmt"

// Load is what acts on the edge of a piece of wall, a meter of width.
type Load struct {
	N [3]float64 // Nx, Ny, Nxy, N/m
	M [3]float64 // Mx, My, Mxy about the middle of the layers, N
}

func (f Load) check() error {
	names := [...]string{"Nx", "Ny", "Nxy"}
	for i, v := range f.N {
		if !within(v, -maxLoad, maxLoad) {
			return &DomainError{"line load " + names[i], v, "at most 1e15 N/m either way"}
		}
	}
	names = [...]string{"Mx", "My", "Mxy"}
	for i, v := range f.M {
		if !within(v, -maxLoad, maxLoad) {
			return &DomainError{"line moment " + names[i], v, "at most 1e15 N either way"}
		}
	}
	return nil
}

// Deformation is the strain of the middle and the curvature of a piece of wall.
// The zero value is the wall at rest; others come from Strained, Shell and Free,
// which let in nothing that is not finite.
type Deformation struct{ strain, curvature [3]float64 }

// Strain returns εx, εy and γxy of the middle, ratios.
func (d Deformation) Strain() [3]float64 { return d.strain }

// Curvature returns κx, κy and κxy, 1/m: strain at z is Strain + z Curvature.
func (d Deformation) Curvature() [3]float64 { return d.curvature }

// Strained returns the deformation of the given mid-plane strain (ratios) and
// curvature (1/m), each at most 1e6 either way.
func Strained(strain, curvature [3]float64) (Deformation, error) {
	for i := range 3 {
		if !within(strain[i], -maxStrain, maxStrain) {
			return Deformation{}, &DomainError{"strain", strain[i], "at most 1e6 either way"}
		}
		if !within(curvature[i], -maxStrain, maxStrain) {
			return Deformation{}, &DomainError{"curvature", curvature[i], "at most 1e6 1/m either way"}
		}
	}
	return Deformation{strain, curvature}, nil
}

// Shell returns how a wall that cannot warp answers line loads n = Nx, Ny, Nxy
// in N/m: strain A⁻¹ n, no curvature. The closed round shape supplies the
// moments B ε that this takes, which Load tells.
func (l *Laminate) Shell(n [3]float64) (Deformation, error) {
	if err := (Load{N: n}).check(); err != nil {
		return Deformation{}, fmt.Errorf("shell response: %w", err)
	}
	return Deformation{strain: l.tube.Times(n)}, nil
}

// Free returns how a plate free to warp answers line loads and moments, by the
// inverse of the whole 6×6.
func (l *Laminate) Free(f Load) (Deformation, error) {
	if err := f.check(); err != nil {
		return Deformation{}, fmt.Errorf("free response: %w", err)
	}
	var d Deformation
	for i := range 3 {
		for j := range 3 {
			d.strain[i] += l.plate[i][j]*f.N[j] + l.plate[i][j+3]*f.M[j]
			d.curvature[i] += l.plate[i+3][j]*f.N[j] + l.plate[i+3][j+3]*f.M[j]
		}
	}
	return d, nil
}

// Load returns what holds the laminate in the given deformation.
func (l *Laminate) Load(d Deformation) Load {
	an, bn := l.a.Times(d.strain), l.b.Times(d.curvature)
	bm, dm := l.b.Times(d.strain), l.d.Times(d.curvature)
	var f Load
	for i := range 3 {
		f.N[i] = an[i] + bn[i]
		f.M[i] = bm[i] + dm[i]
	}
	return f
}

// Place is where in a ply a point lies.
type Place int

// The places, from the process side outward.
const (
	Inner Place = iota
	Middle
	Outer
)

// String returns "inner", "middle" or "outer".
func (p Place) String() string {
	switch p {
	case Inner:
		return "inner"
	case Middle:
		return "middle"
	case Outer:
		return "outer"
	}
	return fmt.Sprintf("place %d", int(p))
}

// Point is strain and stress at one height of one ply.
type Point struct {
	Z         float64    // m from the middle of the laminate, outward
	Strain    [3]float64 // εx, εy, γxy
	Stress    [3]float64 // σx, σy, τxy, Pa
	PlyStrain [3]float64 // ε1, ε2, γ12: along the fiber, across it, shear
	PlyStress [3]float64 // σ1, σ2, τ12, Pa
}

// PlyState is a ply's points, indexed by Place.
type PlyState [3]Point

// At returns the point of the ply with index i, from 0 at the inside to Len less
// one; another index panics as a slice's would.
func (l *Laminate) At(i int, place Place, d Deformation) Point {
	var pt Point
	p := &l.plies[i]
	p.point(p.z(place), &d, &pt)
	return pt
}

// States writes every ply's points into out, which it grows only when its
// capacity is short, and returns it with length Len.
func (l *Laminate) States(d Deformation, out []PlyState) []PlyState {
	if cap(out) < len(l.plies) {
		out = make([]PlyState, len(l.plies))
	}
	out = out[:len(l.plies)]
	flat := d.curvature == [3]float64{}
	for i := range out {
		p, o := &l.plies[i], &out[i]
		p.point(p.inner, &d, &o[Inner])
		middle := p.z(Middle)
		if flat {
			o[Middle], o[Outer] = o[Inner], o[Inner]
			o[Middle].Z, o[Outer].Z = middle, p.out
			continue
		}
		p.point(middle, &d, &o[Middle])
		p.point(p.out, &d, &o[Outer])
	}
	return out
}

func (p *sheet) z(place Place) float64 {
	switch place {
	case Inner:
		return p.inner
	case Outer:
		return p.out
	default: // nothing of the others
	}
	return (p.inner + p.out) / 2
}

// point fills in everything at the height z.
func (p *sheet) point(z float64, d *Deformation, pt *Point) {
	pt.Z = z
	pt.Strain = [3]float64{
		d.strain[0] + z*d.curvature[0],
		d.strain[1] + z*d.curvature[1],
		d.strain[2] + z*d.curvature[2],
	}
	pt.PlyStrain = p.intoPly(&pt.Strain)
	pt.PlyStress = p.q.stress(&pt.PlyStrain)
	s, cs := &pt.PlyStress, p.cs
	pt.Stress = [3]float64{
		p.c2*s[0] + p.s2*s[1] - 2*cs*s[2],
		p.s2*s[0] + p.c2*s[1] + 2*cs*s[2],
		cs*(s[0]-s[1]) + (p.c2-p.s2)*s[2],
	}
}

// intoPly turns a strain into ply axes.
func (p *sheet) intoPly(e *[3]float64) [3]float64 {
	cs := p.cs
	return [3]float64{
		p.c2*e[0] + p.s2*e[1] + cs*e[2],
		p.s2*e[0] + p.c2*e[1] - cs*e[2],
		2*cs*(e[1]-e[0]) + (p.c2-p.s2)*e[2],
	}
}

func (q *reduced) stress(e *[3]float64) [3]float64 {
	return [3]float64{q.q11*e[0] + q.q12*e[1], q.q12*e[0] + q.q22*e[1], q.q66 * e[2]}
}
