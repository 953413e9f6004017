package worked

import (
	"math"

	"frp/veilwright/laminate/stiffness"
)

// Strains solves the wall for a case: its stretching stiffness a in N/m under line
// loads in N/m, which give the strains along, round and in shear; a wall that is
// skew twists as well.
func (w *List) Strains(under string, a [3][3]float64, axial, hoop float64, strain [3]float64, skew bool) {
	xx, xy, yy, nx, ny := w.Line(a[0][0]), w.Line(a[0][1]), w.Line(a[1][1]), w.Line(axial), w.Line(hoop)
	along, round := "strain along the axis under "+under, "strain round the wall under "+under
	if !skew {
		w.Add(along, "εx", "(Ayy·Nx − Axy·Ny)/(Axx·Ayy − Axy²)", Put("(#·# - #·#)/(#·# - #^2)", yy, nx, xy, ny, xx, yy, xy), strain[0], "", "")
		w.Add(round, "εy", "(Axx·Ny − Axy·Nx)/(Axx·Ayy − Axy²)", Put("(#·# - #·#)/(#·# - #^2)", xx, ny, xy, nx, xx, yy, xy), strain[1], "", "")
		return
	}
	// Not balanced: the wall twists as well.
	xs, ys, ss := w.Line(a[0][2]), w.Line(a[1][2]), w.Line(a[2][2])
	det := xx*(yy*ss-ys*ys) - xy*(xy*ss-xs*ys) + xs*(xy*ys-yy*xs)
	w.Add("determinant of A", "det", "Axx·(Ayy·Ass − Ays²) − Axy·(Axy·Ass − Axs·Ays) + Axs·(Axy·Ays − Ayy·Axs)",
		Put("#·(#·# - #^2) - #·(#·# - #·#) + #·(#·# - #·#)", xx, yy, ss, ys, xy, xy, ss, xs, ys, xs, xy, ys, yy, xs), det, "("+w.LineUnit()+")³", "")
	w.Add(along, "εx", "((Ayy·Ass − Ays²)·Nx − (Axy·Ass − Axs·Ays)·Ny)/det",
		Put("((#·# - #^2)·# - (#·# - #·#)·#)/#", yy, ss, ys, nx, xy, ss, xs, ys, ny, det), strain[0], "", "")
	w.Add(round, "εy", "((Axx·Ass − Axs²)·Ny − (Axy·Ass − Axs·Ays)·Nx)/det",
		Put("((#·# - #^2)·# - (#·# - #·#)·#)/#", xx, ss, xs, ny, xy, ss, xs, ys, nx, det), strain[1], "", "")
	w.Add("twist under "+under, "γ", "((Axy·Ays − Ayy·Axs)·Nx − (Axx·Ays − Axy·Axs)·Ny)/det",
		Put("((#·# - #·#)·# - (#·# - #·#)·#)/#", xy, ys, yy, xs, nx, xx, ys, xy, xs, ny, det), strain[2], "", "")
}

// Moduli writes those of a wall as a whole, from its stretching stiffness a in N/m
// over its thickness t in m: m in its plane, flex in bending.
func (w *List) Moduli(a [3][3]float64, t float64, m, flex stiffness.Moduli, skew bool) {
	along, round := "1/(t·a), a of the inverse of A", "1/(t·a), a of the inverse of A"
	var alongNumbers, roundNumbers string
	if xx, xy, yy := w.Line(a[0][0]), w.Line(a[0][1]), w.Line(a[1][1]); !skew {
		along, alongNumbers = "(Axx − Axy²/Ayy)/t", Put("(# - #^2/#)/#", xx, xy, yy, w.Length(t))
		round, roundNumbers = "(Ayy − Axy²/Axx)/t", Put("(# - #^2/#)/#", yy, xy, xx, w.Length(t))
	}
	const inverse = "from the inverse of the matrix of A, B and D: 12/(t³·d), d of the bent wall"
	w.Add("stretching modulus along the axis", "Eat", along, alongNumbers, w.Stress(m.Ex), w.StressUnit(), "")
	w.Add("stretching modulus round the wall", "Eht", round, roundNumbers, w.Stress(m.Ey), w.StressUnit(), "")
	w.Add("bending modulus along the axis", "Eaf", inverse, "", w.Stress(flex.Ex), w.StressUnit(), "")
	w.Add("bending modulus round the wall", "Ehf", inverse, "", w.Stress(flex.Ey), w.StressUnit(), "")
	w.Add("product of Poisson's ratios in bending", "νxνy", "both from the same inverse", Put("#·#", flex.Nuxy, flex.Nuyx), math.Max(0, flex.Nuxy*flex.Nuyx), "", "")
}

// Lowest writes the lowest of them.
func (w *List) Lowest(m, flex stiffness.Moduli) {
	w.Add("lowest modulus, stretching and bending", "E", "lowest of Eat, Eht, Eaf and Ehf", Put("min(min(#, #), min(#, #))", w.Stress(m.Ex), w.Stress(m.Ey), w.Stress(flex.Ex), w.Stress(flex.Ey)),
		w.Stress(min(m.Ex, m.Ey, flex.Ex, flex.Ey)), w.StressUnit(), "")
}

// Reduced gives Q11, Q12 and Q22 of a ply.
func Reduced(p stiffness.Ply) [3]float64 {
	one := 1 - p.Nu12*p.Nu12*p.E2/p.E1
	return [3]float64{p.E1 / one, p.Nu12 * p.E2 / one, p.E2 / one}
}

// Turned gives Qxx, Qxy and Qyy at an angle from the axis in degrees.
func Turned(q [3]float64, g, deg float64) [3]float64 {
	c, s := math.Cos(deg*math.Pi/180), math.Sin(deg*math.Pi/180)
	c2, s2 := c*c, s*s
	return [3]float64{
		q[0]*c2*c2 + 2*(q[1]+2*g)*s2*c2 + q[2]*s2*s2,
		(q[0]+q[2]-4*g)*s2*c2 + q[1]*(s2*s2+c2*c2),
		q[0]*s2*s2 + 2*(q[1]+2*g)*s2*c2 + q[2]*c2*c2,
	}
}

// Bar gives Q of a layer in the wall's axes, at one of six places: xx, xy, xs,
// yy, ys, ss.
func Bar(p stiffness.Ply, deg float64) [6]float64 {
	q := Reduced(p)
	c, s := math.Cos(deg*math.Pi/180), math.Sin(deg*math.Pi/180)
	x := Turned(q, p.G12, deg)
	return [6]float64{
		x[0], x[1], (q[0]-q[1]-2*p.G12)*s*c*c*c + (q[1]-q[2]+2*p.G12)*s*s*s*c,
		x[2], (q[0]-q[1]-2*p.G12)*s*s*s*c + (q[1]-q[2]+2*p.G12)*s*c*c*c,
		(q[0]+q[2]-2*q[1]-2*p.G12)*s*s*c*c + p.G12*(s*s*s*s+c*c*c*c),
	}
}
