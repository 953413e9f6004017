package stiffness_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/stiffness"
)

// The limits that Halpin & Kardos 1976 state: resin alone at 0, fiber alone at
// 1.
func TestUnidirectional_limits(t *testing.T) {
	for _, c := range []struct {
		name string
		vf   float64
		want stiffness.Constituent
	}{{"no fiber", 0, resin}, {"all fiber", 1, glass}, {"next to no fiber", 1e-9, resin}, {"next to no resin", 1 - 1e-9, glass}} {
		t.Run(c.name, func(t *testing.T) {
			p, err := stiffness.Unidirectional(glass, resin, c.vf)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "E1", p.E1, c.want.E, 1e-6)
			near(t, "E2", p.E2, c.want.E, 1e-6)
			near(t, "G12", p.G12, c.want.E/(2*(1+c.want.Nu)), 1e-6)
			near(t, "ν12", p.Nu12, c.want.Nu, 1e-6)
		})
	}
}

// Whatever the packing, E2 and G12 lie between stacking in series (Reuss) and
// in parallel (Voigt), and more fiber is stiffer.
func TestUnidirectional_withinBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := stiffness.Constituent{E: rapid.Float64Range(10e9, 400e9).Draw(t, "Ef"), Nu: rapid.Float64Range(0, 0.4).Draw(t, "νf")}
		m := stiffness.Constituent{E: rapid.Float64Range(0.01e9, 9e9).Draw(t, "Em"), Nu: rapid.Float64Range(0.2, 0.49).Draw(t, "νm")}
		vf := rapid.Float64Range(0, 1).Draw(t, "vf")
		p, err := stiffness.Unidirectional(f, m, vf)
		if err != nil {
			t.Fatal(err)
		}
		const slack = 1e-9
		if reuss := 1 / (vf/f.E + (1-vf)/m.E); p.E2 < reuss*(1-slack) || p.E2 > p.E1*(1+slack) {
			t.Fatalf("E2 %g outside %g to %g", p.E2, reuss, p.E1)
		}
		voigt, reuss := vf*f.G()+(1-vf)*m.G(), 1/(vf/f.G()+(1-vf)/m.G())
		if p.G12 < reuss*(1-slack) || p.G12 > voigt*(1+slack) {
			t.Fatalf("G12 %g outside %g to %g", p.G12, reuss, voigt)
		}
	})
}

// The 3/8 and 5/8 shortcut stands for the stiffness averaged over all
// directions (Tsai & Pagano 1968). Over the glass contents that mats have it is
// known to lie above: by at most 12 % in E and by at most 6 % in G, as the doc
// comment says.
func TestRandom_closeToAverageOverDirections(t *testing.T) {
	for _, vf := range []float64{0.05, 0.1, 0.15, 0.2, 0.25, 0.3} {
		p, err := stiffness.Random(glass, resin, vf)
		if err != nil {
			t.Fatal(err)
		}
		u, err := stiffness.Unidirectional(glass, resin, vf)
		if err != nil {
			t.Fatal(err)
		}
		var q11, q12, q66 float64
		const n = 360
		for i := range n {
			q, err := u.Rotated(float64(i) * 180 / n)
			if err != nil {
				t.Fatal(err)
			}
			q11, q12, q66 = q11+q[0][0]/n, q12+q[0][1]/n, q66+q[2][2]/n
		}
		if over := p.E1 / (q11 - q12*q12/q11); over < 1 || over > 1.12 {
			t.Errorf("vf %g: E is %.3f of the average, want 1 to 1.12", vf, over)
		}
		if over := p.G12 / q66; over < 1 || over > 1.06 {
			t.Errorf("vf %g: G is %.3f of the average, want 1 to 1.06", vf, over)
		}
		// Alike all ways: G = E/2(1+ν), so that turning it changes nothing.
		turned, err := p.Rotated(37)
		if err != nil {
			t.Fatal(err)
		}
		flat, err := p.Rotated(0)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "Q11 turned", turned[0][0], flat[0][0], 1e-12)
		published.Near(t, "Q16 turned", turned[0][2], 0, 1e-6*flat[0][0])
	}
}

// A cloth is a cross-ply: at crimp 1 its moduli are those of plies at 0° and 90°
// laminated in the same shares.
func TestWoven_isACrossPly(t *testing.T) {
	const vf, share = 0.38, 5.0 / 9
	u, err := stiffness.Unidirectional(glass, resin, vf)
	if err != nil {
		t.Fatal(err)
	}
	l := mustNew(t, []stiffness.Layer{{Ply: u, Angle: 0, Thickness: share * 1e-3}, {Ply: u, Angle: 90, Thickness: (1 - share) * 1e-3}})
	want := l.Membrane()
	for _, crimp := range []float64{1, 0.9} {
		p, err := stiffness.Woven(glass, resin, vf, share, crimp)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "E1", p.E1, crimp*want.Ex, 1e-12)
		near(t, "E2", p.E2, crimp*want.Ey, 1e-12)
		near(t, "G12", p.G12, crimp*want.Gxy, 1e-12)
		near(t, "ν12", p.Nu12, want.Nuxy, 1e-12)
	}
	even, err := stiffness.Woven(glass, resin, vf, 0.5, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "E2 of an even cloth", even.E2, even.E1, 1e-12)
	all, err := stiffness.Woven(glass, resin, vf, 1, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "E1 of a cloth of warp alone", all.E1, u.E1, 1e-12)
	near(t, "ν12 of a cloth of warp alone", all.Nu12, u.Nu12, 1e-12)
}

func TestMicromechanics_refusesBadInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	type call func(f, m stiffness.Constituent, vf float64) (stiffness.Ply, error)
	calls := map[string]call{
		"unidirectional": stiffness.Unidirectional,
		"random":         stiffness.Random,
		"woven": func(f, m stiffness.Constituent, vf float64) (stiffness.Ply, error) {
			return stiffness.Woven(f, m, vf, 0.5, 0.9)
		},
	}
	bad := []stiffness.Constituent{{0, 0.3}, {-1, 0.3}, {nan, 0.3}, {inf, 0.3}, {1e9, nan}, {1e9, 0.5}, {1e9, -1}, {1e9, inf}, {1e300, 0.3}, {1e9, -1 + 1e-16}}
	for name, f := range calls {
		for _, c := range bad {
			refused(t, name, func() error { _, err := f(c, resin, 0.3); return err })
			refused(t, name, func() error { _, err := f(glass, c, 0.3); return err })
		}
		for _, vf := range []float64{-0.01, 1.01, nan, inf} {
			refused(t, name, func() error { _, err := f(glass, resin, vf); return err })
		}
	}
	for _, v := range []float64{-0.1, 1.1, nan, inf} {
		refused(t, "warp share", func() error { _, err := stiffness.Woven(glass, resin, 0.3, v, 0.9); return err })
		refused(t, "crimp", func() error { _, err := stiffness.Woven(glass, resin, 0.3, 0.5, v); return err })
	}
	refused(t, "crimp", func() error { _, err := stiffness.Woven(glass, resin, 0.3, 0.5, 0); return err })
}
