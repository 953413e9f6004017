package wall_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
)

// A pipe whose wall is more than a fifth of its inside radius strains at its
// bore as Lamé's isotropic cylinder with closed ends does: ε = p/E ·
// ((1+ν)k² + 1 − 2ν)/(k² − 1), k the outside over the inside radius (Roark,
// second-hand). A membrane would be a third lower.
func TestEvaluate_thickWallStrainsAtItsBore(t *testing.T) {
	s := walltest.Pipe(walltest.Ply(catalog.Mat15, 28))
	s.Plies = []laminate.Ply{walltest.Ply(catalog.Mat15, 28)} // and no barrier
	s.Part.InsideDiameter = quantity.New(100, quantity.Millimetre)
	s.Service.Pressure, s.Service.Vacuum = quantity.New(100, psi), quantity.New(0, psi)
	r := walltest.Evaluate(s, wall.Options{})
	if r.Thickness < 0.025 || r.Whole-r.Thickness > 1e-12 {
		t.Fatalf("%v m of %v count", r.Thickness, r.Whole)
	}
	k := (0.05 + r.Thickness) / 0.05
	m := &r.Membrane
	nu := math.Sqrt(m.Nuxy * m.Nuyx)
	bore := s.Service.Pressure.SI() / m.Ey * ((1+nu)*k*k + 1 - 2*nu) / (k*k - 1)
	for _, name := range []string{wall.HoopStrain, wall.ResinStrain} {
		if c := walltest.Criterion(t, r, name); math.Abs(c.Demand/bore-1) > 0.01 || c.Demand < 1.3*r.Cases[0].StrainHoop {
			t.Errorf("%s: %v, Lamé %v, the membrane %v", name, c.Demand, bore, r.Cases[0].StrainHoop)
		}
	}
	// A thin one is a membrane.
	s.Part.InsideDiameter = quantity.New(3, quantity.Meter)
	r = walltest.Evaluate(s, wall.Options{})
	if c := walltest.Criterion(t, r, wall.HoopStrain); c.Demand != math.Abs(r.Cases[0].StrainHoop) || c.Reason != "" {
		t.Errorf("thin: %+v", c)
	}
}
