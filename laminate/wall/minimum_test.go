package wall_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
)

// By hand: the unit modulus of mat is 14 000 N/mm per kg/m² of glass (BS 4994,
// second-hand), so n kg/m² bear 14e6 n N/m for a strain of 1.
func TestEvaluate_minimumModuliOfMat(t *testing.T) {
	s := walltest.Pipe(walltest.Ply(catalog.Mat15, 8))
	s.Part.DesignBasis = laminate.StrainLimit
	r := walltest.Evaluate(s, wall.Options{})
	k := walltest.Criterion(t, r, wall.HoopStrain)
	glass := 8 * 0.4577276 // 1.5 oz/ft² of mat
	strain := loadCase(t, r, wall.CasePressure).NHoop / (14e6 * glass)
	// Poisson's effect of the axial load takes the same share off both.
	published.Near(t, "hoop strain on minimum moduli", k.RatioMinimum/k.Ratio, r.Membrane.Ey*r.Thickness/(14e6*glass), 1e-6)
	if k.RatioMinimum > strain/0.001 {
		t.Errorf("%v of the limit, more than %v without Poisson's effect", k.RatioMinimum, strain/0.001)
	}
	if h := walltest.Criterion(t, walltest.Evaluate(walltest.WoundPipe(4), wall.Options{}), wall.HoopStrain); h.RatioMinimum != 0 {
		t.Errorf("a minimum modulus at 55°: %+v", h)
	}
}
