package stiffness_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"frp/veilwright/laminate/stiffness"
)

// anyPly draws plies that thermodynamics allow, glass to carbon to rubbery.
func anyPly() *rapid.Generator[stiffness.Ply] {
	return rapid.Custom(func(t *rapid.T) stiffness.Ply {
		p := stiffness.Ply{
			E1:  rapid.Float64Range(1e8, 3e11).Draw(t, "E1"),
			E2:  rapid.Float64Range(1e8, 3e11).Draw(t, "E2"),
			G12: rapid.Float64Range(1e8, 1e11).Draw(t, "G12"),
		}
		p.Nu12 = rapid.Float64Range(-0.95, 0.95).Draw(t, "ν12 of its bound") * math.Sqrt(p.E1/p.E2)
		return p
	})
}

func anyLayers() *rapid.Generator[[]stiffness.Layer] {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) stiffness.Layer {
		return stiffness.Layer{
			Ply:       anyPly().Draw(t, "ply"),
			Angle:     rapid.Float64Range(-90, 90).Draw(t, "angle"),
			Thickness: rapid.Float64Range(1e-4, 5e-3).Draw(t, "thickness"),
		}
	}), 1, 12)
}

func anyTriple(limit float64) *rapid.Generator[[3]float64] {
	return rapid.Custom(func(t *rapid.T) [3]float64 {
		// In steps, since the square of a strain of 1e-170 is no energy at all.
		g := rapid.IntRange(-1e6, 1e6)
		draw := func(label string) float64 { return limit * float64(g.Draw(t, label)) / 1e6 }
		return [3]float64{draw("x"), draw("y"), draw("xy")}
	})
}

func rapidNear(t *rapid.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Fatalf("%s = %.12g, want %.12g ± %.2g", what, got, want, tol)
	}
}

// Q11 + Q22 + 2 Q12 and Q66 − Q12 do not change as axes turn (Tsai & Pagano
// 1968; Jones), nor do the lengths of the two vectors that turn with 2θ and 4θ.
func TestRotated_keepsInvariants(t *testing.T) {
	invariants := func(q stiffness.Matrix) [4]float64 {
		u1 := (3*q[0][0] + 3*q[1][1] + 2*q[0][1] + 4*q[2][2]) / 8
		u4 := (q[0][0] + q[1][1] + 6*q[0][1] - 4*q[2][2]) / 8
		two := math.Hypot((q[0][0]-q[1][1])/2, q[0][2]+q[1][2])
		four := math.Hypot((q[0][0]+q[1][1]-2*q[0][1]-4*q[2][2])/8, (q[0][2]-q[1][2])/2)
		return [4]float64{u1, u4, two, four}
	}
	rapid.Check(t, func(t *rapid.T) {
		p := anyPly().Draw(t, "ply")
		at0, err := p.Rotated(0)
		if err != nil {
			t.Fatal(err)
		}
		turned, err := p.Rotated(rapid.Float64Range(-360, 360).Draw(t, "angle"))
		if err != nil {
			t.Fatal(err)
		}
		want, got := invariants(at0), invariants(turned)
		for i := range want {
			rapidNear(t, fmt.Sprintf("invariant %d", i), got[i], want[i], 1e-12*(at0[0][0]+at0[1][1]+at0[2][2]))
		}
	})
}

func TestRotated_quarterTurnsAreExact(t *testing.T) {
	at0, err := eGlass.Rotated(0)
	if err != nil {
		t.Fatal(err)
	}
	for _, angle := range []float64{90, -90, 270, -270} {
		q, err := eGlass.Rotated(angle)
		if err != nil {
			t.Fatal(err)
		}
		want := stiffness.Matrix{{at0[1][1], at0[0][1], 0}, {at0[0][1], at0[0][0], 0}, {0, 0, at0[2][2]}}
		if q != want {
			t.Errorf("at %g°: %v, want %v", angle, q, want)
		}
	}
}

// The compliance times the stiffness is one, and the compliance is that of
// gonum's general (LU) inverse, which knows nothing of symmetry.
func TestPlate_isInverseByGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := stiffness.New(anyLayers().Draw(t, "layers"))
		if err != nil {
			t.Fatal(err)
		}
		h := l.Thickness()
		// Meters make rows that do not compare; counting length in
		// thicknesses and force in gigapascal thicknesses does.
		unit := [6]float64{1, 1, 1, h, h, h}
		abd, got := mat.NewDense(6, 6, nil), mat.NewDense(6, 6, nil)
		a, b, d, plate := l.A(), l.B(), l.D(), l.Plate()
		for i := range 6 {
			for j := range 6 {
				v := 0.0
				switch {
				case i < 3 && j < 3:
					v = a[i][j]
				case i >= 3 && j >= 3:
					v = d[i-3][j-3]
				default:
					v = b[i%3][j%3]
				}
				abd.Set(i, j, v/(1e9*h*unit[i]*unit[j]))
				got.Set(i, j, plate[i][j]*1e9*h*unit[i]*unit[j])
				if plate[i][j] != plate[j][i] {
					t.Fatalf("compliance is not symmetric at %d, %d", i, j)
				}
			}
		}
		var want mat.Dense
		if err := want.Inverse(abd); err != nil {
			t.Fatal(err)
		}
		if !mat.EqualApprox(&want, got, 1e-13*l.Condition()*mat.Max(&want)) {
			t.Fatalf("compliance\n%.6g\nwant\n%.6g", mat.Formatted(got), mat.Formatted(&want))
		}
		freeMembrane, freeBending := l.FreeMembrane(), l.FreeBending()
		tol := 1e-13 * l.Condition() * mat.Max(&want)
		for i, e := range []float64{freeMembrane.Ex, freeMembrane.Ey, freeMembrane.Gxy} {
			rapidNear(t, "free membrane modulus", 1e9/e, want.At(i, i), tol)
		}
		for i, e := range []float64{freeBending.Ex, freeBending.Ey, freeBending.Gxy} {
			rapidNear(t, "free bending modulus", 12e9/e, want.At(i+3, i+3), tol)
		}
		// The membrane block alone, against gonum's again.
		held := l.Membrane()
		var tube mat.Dense
		if err := tube.Inverse(abd.Slice(0, 3, 0, 3)); err != nil {
			t.Fatal(err)
		}
		for i, e := range []float64{held.Ex, held.Ey, held.Gxy} {
			rapidNear(t, "membrane modulus", 1e9/e, tube.At(i, i), 1e-13*l.Condition()*mat.Max(&tube))
		}
		rapidNear(t, "νxy/Ex", held.Nuxy*1e9/held.Ex, -tube.At(0, 1), 1e-13*l.Condition()*mat.Max(&tube))
		bending := l.Bending()
		if err := tube.Inverse(abd.Slice(3, 6, 3, 6)); err != nil {
			t.Fatal(err)
		}
		for i, e := range []float64{bending.Ex, bending.Ey, bending.Gxy} {
			rapidNear(t, "bending modulus", 12e9/e, tube.At(i, i), 1e-13*l.Condition()*mat.Max(&tube))
		}
		var one mat.Dense
		one.Mul(abd, got)
		for i := range 6 {
			one.Set(i, i, one.At(i, i)-1)
		}
		if worst := mat.Norm(&one, math.Inf(1)); worst > 1e-13*l.Condition() {
			t.Fatalf("stiffness times compliance is off one by %g at condition number %g", worst, l.Condition())
		}
	})
}

func TestFree_returnsTheLoadItAnswers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := stiffness.New(anyLayers().Draw(t, "layers"))
		if err != nil {
			t.Fatal(err)
		}
		h := l.Thickness()
		want := stiffness.Load{N: anyTriple(1e6).Draw(t, "N"), M: anyTriple(1e6*h).Draw(t, "M")}
		d, err := l.Free(want)
		if err != nil {
			t.Fatal(err)
		}
		got := l.Load(d)
		tol := 1e-12 * l.Condition() * 1e6
		for i := range 3 {
			rapidNear(t, "N", got.N[i], want.N[i], tol)
			rapidNear(t, "M", got.M[i], want.M[i], tol*h)
		}
	})
}

// Work done by the edges is twice the energy stored in the plies (Clapeyron),
// and energy is positive. Simpson's rule over a ply's three points is exact.
func TestEnergy_isPositiveAndAccountsForTheWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layers := anyLayers().Draw(t, "layers")
		l, err := stiffness.New(layers)
		if err != nil {
			t.Fatal(err)
		}
		e, k := anyTriple(0.01).Draw(t, "strain"), anyTriple(0.01).Draw(t, "curvature")
		for i := range k {
			k[i] /= l.Thickness()
		}
		d, err := stiffness.Strained(e, k)
		if err != nil {
			t.Fatal(err)
		}
		stored, inPly := 0.0, 0.0
		for i, s := range l.States(d, nil) {
			for place, w := range [3]float64{1, 4, 1} {
				w *= layers[i].Thickness / 6
				for j := range 3 {
					stored += w * s[place].Stress[j] * s[place].Strain[j]
					inPly += w * s[place].PlyStress[j] * s[place].PlyStrain[j]
				}
			}
		}
		f, work := l.Load(d), 0.0
		for i := range 3 {
			work += f.N[i]*e[i] + f.M[i]*k[i]
		}
		if e != [3]float64{} && !(stored > 0) {
			t.Fatalf("energy %g is not positive", stored)
		}
		rapidNear(t, "work", work, stored, 1e-9*stored)
		rapidNear(t, "energy in ply axes", inPly, stored, 1e-9*stored)
	})
}

// Sliding the laminate's plane cannot change how it gives way, and letting a
// wall warp can only soften it.
func TestModuli_freeNeverAboveHeld(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := stiffness.New(anyLayers().Draw(t, "layers"))
		if err != nil {
			t.Fatal(err)
		}
		slack := 1 + 1e-12*l.Condition()
		for _, c := range []struct {
			name       string
			free, held stiffness.Moduli
		}{{"membrane", l.FreeMembrane(), l.Membrane()}, {"bending", l.FreeBending(), l.Bending()}} {
			if c.free.Ex > c.held.Ex*slack || c.free.Ey > c.held.Ey*slack || c.free.Gxy > c.held.Gxy*slack {
				t.Fatalf("%s: free %+v above held %+v", c.name, c.free, c.held)
			}
			rapidNear(t, "νyx Ex", c.held.Nuyx*c.held.Ex, c.held.Nuxy*c.held.Ey, 1e-9*c.held.Ex*c.held.Ey/math.Min(c.held.Ex, c.held.Ey)*(1+math.Abs(c.held.Nuxy)))
		}
	})
}

// First failure at the stated factor uses exactly all of the strength, and no
// point inside any ply uses more than the faces.
func TestFirstPly_isProportionalAndWorstAtAFace(t *testing.T) {
	limit := stiffness.Allowables{
		Strain:   stiffness.Limits{FiberTension: 0.02, FiberCompression: 0.01, CrossTension: 0.003, CrossCompression: 0.012, Shear: 0.015},
		Strength: stiffness.Limits{FiberTension: 800e6, FiberCompression: 500e6, CrossTension: 30e6, CrossCompression: 120e6, Shear: 50e6},
	}
	all := func(int) stiffness.Allowables { return limit }
	rapid.Check(t, func(t *rapid.T) {
		l, err := stiffness.New(anyLayers().Draw(t, "layers"))
		if err != nil {
			t.Fatal(err)
		}
		e, k := anyTriple(0.01).Draw(t, "strain"), anyTriple(1).Draw(t, "curvature")
		e[0] += 0.011 // never at rest
		d, err := stiffness.Strained(e, k)
		if err != nil {
			t.Fatal(err)
		}
		first, err := l.FirstPly(d, all)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range []stiffness.Failure{first.ByStrain, first.ByQuadratic} {
			factor, ok := f.LoadFactor()
			if !ok {
				t.Fatalf("nothing strained: %+v", f)
			}
			s := l.At(f.Ply, f.Place, d)
			if f.Mode == stiffness.Combined {
				for i := range s.PlyStress {
					s.PlyStress[i] *= factor
				}
				// The criterion as published, written out apart from the code.
				rapidNear(t, "Tsai–Wu sum at failure", tsaiWuSum(limit.Strength, s.PlyStress), 1, 1e-9)
			}
			for i := range l.Len() {
				m := l.At(i, stiffness.Middle, d)
				for j := range m.PlyStress {
					m.PlyStress[j] *= factor
					m.PlyStrain[j] *= factor
				}
				if f.Mode == stiffness.Combined {
					if sum := tsaiWuSum(limit.Strength, m.PlyStress); sum > 1+1e-9 {
						t.Fatalf("middle of ply %d has failed before: %g", i, sum)
					}
				} else if math.Abs(m.PlyStrain[2]) > limit.Strain.Shear*(1+1e-9) || m.PlyStrain[1] > limit.Strain.CrossTension*(1+1e-9) {
					t.Fatalf("middle of ply %d has failed before: %v", i, m.PlyStrain)
				}
			}
		}
	})
}

func tsaiWuSum(m stiffness.Limits, s [3]float64) float64 {
	f1, f2 := 1/m.FiberTension-1/m.FiberCompression, 1/m.CrossTension-1/m.CrossCompression
	f11, f22, f66 := 1/(m.FiberTension*m.FiberCompression), 1/(m.CrossTension*m.CrossCompression), 1/(m.Shear*m.Shear)
	f12 := -0.5 * math.Sqrt(f11*f22)
	return f1*s[0] + f2*s[1] + f11*s[0]*s[0] + f22*s[1]*s[1] + f66*s[2]*s[2] + 2*f12*s[0]*s[1]
}
