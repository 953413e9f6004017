package shell_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate/wall/shell"
)

// Radii 50 and 80 mm, closed ends, ν 0.3 (testdata/wall/lame.json): 2.390 p/E at the
// bore, the membrane 1.474. A ring of nothing is a membrane. The displacement of
// a thick ring, figured by finite differences from the balance of forces through
// the wall, gives the same for any ring.
func TestBore_isLame(t *testing.T) {
	if got := shell.Bore(50, 80, 0.3, 1, false); math.Abs(got-2.38974/1.47436) > 1e-5 {
		t.Errorf("bore %v", got)
	}
	if got := shell.Bore(1000, 1000.001, 0.3, 1, false); math.Abs(got-1) > 1e-5 {
		t.Errorf("thin %v", got)
	}
	for _, c := range []struct {
		a, b, nu, closed float64
		outside          bool
	}{{50, 80, 0.3, 1, false}, {50, 60, 0.25, 0, false}, {50, 80, 0.3, 1, true}, {50, 95, 0.1, 0, true}} {
		if got, want := shell.Bore(c.a, c.b, c.nu, c.closed, c.outside), boreByDifferences(c.a, c.b, c.nu, c.closed, c.outside); math.Abs(got/want-1) > 2e-3 {
			t.Errorf("%+v: %v, by differences %v", c, got, want)
		}
	}
}

// boreByDifferences marches u(r), with E 1 and a pressure of 1, from the inside
// face outward for two guesses of its hoop strain and an axial strain that gives
// the thrust; both are linear, so that the one that meets the pressure outside
// follows.
func boreByDifferences(a, b, nu, closed float64, outside bool) float64 {
	pin, pout := 1.0, 0.0
	thrust := closed * a * a / (b*b - a*a) // axial stress
	if outside {
		pin, pout, thrust = 0, 1, -closed*b*b/(b*b-a*a)
	}
	// With σz known everywhere: σr, σθ in terms of strains of plane stress plus ν·σz.
	end := func(hoop float64) float64 {
		const n = 20000
		h := (b - a) / n
		u := hoop * a
		radial := -pin
		for i := range n {
			r := a + h*float64(i)
			// εθ = u/r = (σθ − ν(σr+σz)); du/dr = σr − ν(σθ+σz); dσr/dr = (σθ − σr)/r.
			round := u/r + nu*(radial+thrust)
			u, radial = u+h*(radial-nu*(round+thrust)), radial+h*(round-radial)/r
		}
		return radial
	}
	at0, at1 := end(0), end(1)
	hoop := (-pout - at0) / (at1 - at0)
	middle, thick := (a+b)/2, b-a
	membrane := a/thick - nu*closed*a*a/(2*middle*thick)
	if outside {
		membrane = -b/thick + nu*closed*b*b/(2*middle*thick)
	}
	return hoop / membrane
}
