package stiffness_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/stiffness"
)

func refused(t *testing.T, what string, f func() error) {
	t.Helper()
	err := f()
	if !errors.Is(err, stiffness.ErrDomain) {
		t.Errorf("%s: error %v, want one about the domain", what, err)
	}
}

// One isotropic sheet is every textbook's plate: A = Eh/(1−ν²), D = Eh³/12(1−ν²),
// and all moduli are the sheet's own.
func TestLaminate_singleIsotropicPly(t *testing.T) {
	const e, nu, h = 7e9, 0.3, 5e-3
	l := mustNew(t, stack(stiffness.Ply{E1: e, E2: e, G12: e / (2 * (1 + nu)), Nu12: nu}, h, 0))
	a, b, d := l.A(), l.B(), l.D()
	near(t, "A11", a[0][0], e*h/(1-nu*nu), 1e-12)
	near(t, "D11", d[0][0], e*h*h*h/(12*(1-nu*nu)), 1e-12)
	near(t, "D12", d[0][1], nu*d[0][0], 1e-12)
	if b != (stiffness.Matrix{}) {
		t.Errorf("B = %v, want nothing", b)
	}
	for _, m := range []stiffness.Moduli{l.Membrane(), l.FreeMembrane(), l.Bending(), l.FreeBending()} {
		near(t, "Ex", m.Ex, e, 1e-12)
		near(t, "Ey", m.Ey, e, 1e-12)
		near(t, "Gxy", m.Gxy, e/(2*(1+nu)), 1e-12)
		near(t, "νxy", m.Nuxy, nu, 1e-12)
		near(t, "νyx", m.Nuyx, nu, 1e-12)
	}
	if c := l.Coupling(); c != (stiffness.Coupling{}) {
		t.Errorf("coupling %+v, want none", c)
	}
}

// Equal layers following one another are one of their joint thickness.
func TestLaminate_equalAnglesAreOneThickPly(t *testing.T) {
	angles := make([]float64, 40)
	for i := range angles {
		angles[i] = 33
	}
	many, one := mustNew(t, stack(eGlass, 0.25e-3, angles...)), mustNew(t, stack(eGlass, 10e-3, 33))
	am, ao, dm, do := many.A(), one.A(), many.D(), one.D()
	for i := range 3 {
		for j := range 3 {
			near(t, "A", am[i][j], ao[i][j], 1e-12)
			near(t, "D", dm[i][j], do[i][j], 1e-12)
		}
	}
	if c := many.Coupling(); c.Bending > 1e-14 {
		t.Errorf("bending coupling %g of a uniform stack", c.Bending)
	}
	near(t, "Ex", many.FreeMembrane().Ex, one.Membrane().Ex, 1e-9)
}

// A symmetric and balanced stack neither warps nor twists; an antisymmetric
// pair couples pulling and twisting by B16 and B26 alone (Jones, chapter 4).
func TestLaminate_couplings(t *testing.T) {
	sym := mustNew(t, stack(eGlass, 0.5e-3, 55, -55, -55, 55))
	if c := sym.Coupling(); c.Shear > 1e-14 || c.Bending > 1e-14 {
		t.Errorf("symmetric balanced stack: %+v, want none", c)
	}
	near(t, "free Ex", sym.FreeMembrane().Ex, sym.Membrane().Ex, 1e-9)
	near(t, "free bending Ey", sym.FreeBending().Ey, sym.Bending().Ey, 1e-9)

	pair := mustNew(t, stack(eGlass, 1e-3, 55, -55))
	b := pair.B()
	scale := math.Abs(b[0][2]) + math.Abs(b[1][2])
	for _, v := range []float64{b[0][0], b[0][1], b[1][1], b[2][2]} {
		published.Near(t, "B but for 16 and 26", v, 0, 1e-9*scale)
	}
	if !(b[0][2] < 0 && b[1][2] < 0) {
		t.Errorf("B16 %g, B26 %g: want both below 0 with +α inside", b[0][2], b[1][2])
	}
	if c := pair.Coupling(); c.Shear > 1e-14 || c.Bending < 0.1 {
		t.Errorf("±α pair: %+v, want bending alone", c)
	}
	if one := mustNew(t, stack(eGlass, 1e-3, 55)).Coupling(); one.Shear < 0.1 {
		t.Errorf("single ply at 55°: %+v, want shear coupling", one)
	}
}

// A tube does not warp: Shell leaves no curvature, and the moment that takes is
// B ε.
func TestShell_suppressesCurvature(t *testing.T) {
	l := mustNew(t, stack(eGlass, 1e-3, 55, -55, 90))
	n := [3]float64{40e3, 80e3, 0}
	d, err := l.Shell(n)
	if err != nil {
		t.Fatal(err)
	}
	if d.Curvature() != [3]float64{} {
		t.Errorf("curvature %v", d.Curvature())
	}
	got, b := l.Load(d), l.B()
	bending := b.Times(d.Strain())
	for i := range 3 {
		published.Near(t, "N", got.N[i], n[i], 1e-6)
		published.Near(t, "M", got.M[i], bending[i], 1e-9)
	}
	free, err := l.Free(stiffness.Load{N: n})
	if err != nil {
		t.Fatal(err)
	}
	if free.Curvature() == [3]float64{} {
		t.Error("free plate of an unsymmetric stack stays flat")
	}
}

func TestNew_refusesBadInput(t *testing.T) {
	good := stiffness.Layer{Ply: eGlass, Angle: 0, Thickness: 1e-3}
	with := func(change func(*stiffness.Layer)) []stiffness.Layer {
		l := good
		change(&l)
		return []stiffness.Layer{good, l}
	}
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name   string
		layers []stiffness.Layer
		want   string
	}{
		{"zero thickness", with(func(l *stiffness.Layer) { l.Thickness = 0 }), "layer 2 thickness is 0"},
		{"negative thickness", with(func(l *stiffness.Layer) { l.Thickness = -1e-3 }), "layer 2 thickness"},
		{"NaN thickness", with(func(l *stiffness.Layer) { l.Thickness = nan }), "layer 2 thickness"},
		{"infinite thickness", with(func(l *stiffness.Layer) { l.Thickness = inf }), "layer 2 thickness"},
		{"too thick together", stack(eGlass, 60, 0, 90), "laminate thickness is 120"},
		{"NaN angle", with(func(l *stiffness.Layer) { l.Angle = nan }), "layer 2 angle"},
		{"infinite angle", with(func(l *stiffness.Layer) { l.Angle = inf }), "layer 2 angle"},
		{"no ply", with(func(l *stiffness.Layer) { l.Ply = stiffness.Ply{} }), "layer 2 E1 is 0"},
		{"NaN E2", with(func(l *stiffness.Layer) { l.Ply.E2 = nan }), "layer 2 E2"},
		{"negative G12", with(func(l *stiffness.Layer) { l.Ply.G12 = -1 }), "layer 2 G12"},
		{"NaN ν12", with(func(l *stiffness.Layer) { l.Ply.Nu12 = nan }), "layer 2 Poisson's ratio"},
		{"ν12 past its bound", with(func(l *stiffness.Layer) { l.Ply.Nu12 = 1.96 }), "layer 2 Poisson's ratio ν12 is 1.96, must be within ±√(E1/E2) = ±1.949"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := stiffness.New(c.layers)
			refused(t, c.name, func() error { return err })
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %q, want it to say %q", err, c.want)
			}
		})
	}
	if _, err := stiffness.New(nil); !errors.Is(err, stiffness.ErrNoLayers) {
		t.Errorf("no layers: %v", err)
	}
}

func TestNew_illConditionedSaysWhy(t *testing.T) {
	soft := stiffness.Ply{E1: 200e9, E2: 1, G12: 1, Nu12: 0}
	for _, c := range []struct {
		name   string
		layers []stiffness.Layer
		want   string
	}{
		{"fibers alone, one direction", stack(soft, 1e-3, 0), "E1 of layer 1 is 2e+11 Pa and E2 of layer 1 only 1 Pa"},
		{"fibers alone, two directions", stack(soft, 1e-3, 55, -55), "only 1 Pa"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := stiffness.New(c.layers)
			if !errors.Is(err, stiffness.ErrIllConditioned) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %q, want ill-conditioned saying %q", err, c.want)
			}
		})
	}
	tight := stiffness.Ply{E1: 1e9, E2: 1e9, G12: 1, Nu12: 1 - 2e-9}
	_, err := stiffness.New(stack(tight, 1e-3, 0))
	if !errors.Is(err, stiffness.ErrIllConditioned) || !strings.Contains(err.Error(), "Poisson's ratio of layer 1") {
		t.Errorf("error %q, want it to blame Poisson's ratio", err)
	}
	// Real walls are nowhere near the bound.
	veil := stiffness.Ply{E1: 3.8e9, E2: 3.8e9, G12: 1.4e9, Nu12: 0.34}
	carbon := stiffness.Ply{E1: 181e9, E2: 10.3e9, G12: 7.17e9, Nu12: 0.28}
	l := mustNew(t, []stiffness.Layer{{veil, 0, 0.3e-3}, {carbon, 0, 10e-3}, {eGlass, 90, 0.2e-3}})
	if l.Condition() > 1e3 {
		t.Errorf("condition number %g of a real wall", l.Condition())
	}
}

// The corners of the domain: an answer that is finite all through, or an error.
func TestDomain_cornersStayFinite(t *testing.T) {
	ends := []float64{1, 1e15}
	checked := 0
	for _, e1 := range ends {
		for _, e2 := range ends {
			for _, g := range ends {
				for _, h := range []float64{1e-9, 50} {
					for _, angle := range []float64{0, 30, -360} {
						p := stiffness.Ply{E1: e1, E2: e2, G12: g, Nu12: 0.999999 * math.Sqrt(e1/e2)}
						l, err := stiffness.New([]stiffness.Layer{{p, angle, h}, {p, -angle, h}})
						if err != nil {
							if !errors.Is(err, stiffness.ErrIllConditioned) {
								t.Errorf("E1 %g E2 %g G %g h %g: %v", e1, e2, g, h, err)
							}
							continue
						}
						checked++
						allFinite(t, l)
					}
				}
			}
		}
	}
	if checked == 0 {
		t.Error("no corner gave a laminate")
	}
}

func allFinite(t *testing.T, l *stiffness.Laminate) {
	t.Helper()
	var all []float64
	for _, m := range []stiffness.Moduli{l.Membrane(), l.FreeMembrane(), l.Bending(), l.FreeBending()} {
		all = append(all, m.Ex, m.Ey, m.Gxy, m.Nuxy, m.Nuyx)
	}
	c := l.Coupling()
	all = append(all, c.Shear, c.Bending, l.Condition())
	plate := l.Plate()
	for i := range plate {
		all = append(all, plate[i][:]...)
	}
	load := [3]float64{1e15, -1e15, 1e15}
	d, err := l.Free(stiffness.Load{N: load, M: load})
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range l.States(d, nil) {
		for _, p := range s {
			all = append(all, p.Z)
			for _, v := range [][3]float64{p.Strain, p.Stress, p.PlyStrain, p.PlyStress} {
				all = append(all, v[:]...)
			}
		}
	}
	f, err := l.FirstPly(d, func(int) stiffness.Allowables {
		small := stiffness.Limits{FiberTension: 1, FiberCompression: 1e15, CrossTension: 1, CrossCompression: 1e15, Shear: 1}
		tiny := stiffness.Limits{FiberTension: 1e-12, FiberCompression: 1e-12, CrossTension: 1e-12, CrossCompression: 1e-12, Shear: 1e-12}
		return stiffness.Allowables{Strain: tiny, Strength: small}
	})
	if err != nil {
		t.Fatal(err)
	}
	all = append(all, f.ByStrain.Use, f.ByQuadratic.Use)
	for _, v := range all {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("a figure of the laminate %v is %g", l.A(), v)
		}
	}
}

func TestResponse_refusesBadInput(t *testing.T) {
	l := mustNew(t, stack(eGlass, 1e-3, 0))
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300} {
		for i := range 3 {
			var bad [3]float64
			bad[i] = v
			refused(t, "shell", func() error { _, err := l.Shell(bad); return err })
			refused(t, "free, N", func() error { _, err := l.Free(stiffness.Load{N: bad}); return err })
			refused(t, "free, M", func() error { _, err := l.Free(stiffness.Load{M: bad}); return err })
			refused(t, "strain", func() error { _, err := stiffness.Strained(bad, [3]float64{}); return err })
			refused(t, "curvature", func() error { _, err := stiffness.Strained([3]float64{}, bad); return err })
		}
	}
}

func TestFirstPly_saysWhatItCouldNotJudge(t *testing.T) {
	l := mustNew(t, stack(eGlass, 1e-3, 0, 90, 0, 90))
	d, err := stiffness.Strained([3]float64{1e-3, -2e-3, 0}, [3]float64{})
	if err != nil {
		t.Fatal(err)
	}
	full := stiffness.Limits{FiberTension: 0.02, FiberCompression: 0.01, CrossTension: 0.004, CrossCompression: 0.012, Shear: 0.015}
	got, err := l.FirstPly(d, func(ply int) stiffness.Allowables {
		switch ply {
		case 0:
			return stiffness.Allowables{Strain: full, Strength: stiffness.Limits{FiberTension: 800e6}}
		case 1:
			return stiffness.Allowables{Strain: stiffness.Limits{CrossTension: 0.002}}
		}
		return stiffness.Allowables{}
	})
	if err != nil {
		t.Fatal(err)
	}
	// The second ply, turned by 90°, is pulled across its fiber by 1e-3.
	want := stiffness.Failure{Ply: 1, Place: stiffness.Inner, Mode: stiffness.CrossTension, Use: 0.5, Judged: 1, Partly: 1}
	if got.ByStrain != want {
		t.Errorf("by strain %+v, want %+v", got.ByStrain, want)
	}
	if q := got.ByQuadratic; q.Ply != -1 || q.Judged != 0 {
		t.Errorf("quadratic judged plies whose strengths are not known: %+v", q)
	}
	if _, ok := got.ByQuadratic.LoadFactor(); ok {
		t.Error("a load factor where nothing was judged")
	}

	rest, err := l.FirstPly(stiffness.Deformation{}, func(int) stiffness.Allowables { return stiffness.Allowables{Strain: full} })
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := rest.ByStrain.LoadFactor(); ok || rest.ByStrain.Judged != 4 {
		t.Errorf("a wall at rest: %+v, want four plies judged and no factor", rest.ByStrain)
	}

	if _, err := l.FirstPly(d, nil); err == nil {
		t.Error("no allowables at all: no error")
	}
	for _, v := range []float64{-1, math.NaN(), math.Inf(1)} {
		refused(t, "limits", func() error {
			_, err := l.FirstPly(d, func(int) stiffness.Allowables {
				return stiffness.Allowables{Strain: stiffness.Limits{Shear: v}}
			})
			return err
		})
		refused(t, "strengths", func() error {
			_, err := l.FirstPly(d, func(int) stiffness.Allowables {
				return stiffness.Allowables{Strength: stiffness.Limits{CrossTension: v}}
			})
			return err
		})
	}
}

// Pressed one way alone, a ply uses stress over compressive strength, however
// much weaker it is when pulled: by the criterion's own intercepts.
func TestFirstPly_pressedAloneUsesStressOverStrength(t *testing.T) {
	p := stiffness.Ply{E1: 38e9, E2: 10e9, G12: 3.3e9, Nu12: 0}
	l := mustNew(t, stack(p, 1e-3, 0))
	d, err := l.Shell([3]float64{0, -1e6 * 1e-3, 0})
	if err != nil {
		t.Fatal(err)
	}
	got, err := l.FirstPly(d, func(int) stiffness.Allowables {
		return stiffness.Allowables{Strength: stiffness.Limits{FiberTension: 8e8, FiberCompression: 5e8, CrossTension: 1, CrossCompression: 1e9, Shear: 5e7}}
	})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "share used", got.ByQuadratic.Use, 1e-3, 1e-11)
}

func TestNames_inWords(t *testing.T) {
	seen := map[string]bool{}
	for m := stiffness.NoMode; m <= stiffness.Combined; m++ {
		if s := m.String(); s == "" || strings.HasPrefix(s, "mode ") || seen[s] {
			t.Errorf("mode %d is called %q", int(m), s)
		} else {
			seen[s] = true
		}
	}
}
