package wall_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
)

// How far a membrane is off a thick cylinder: up to a tenth of the inside
// radius the strains are a membrane's, 1.5 % and 7.5 % low at the middle; from a
// fifth on the hoop strain that is judged is that at the bore.
func TestEvaluate_thickWallStrainsAtItsBore(t *testing.T) {
	var f struct {
		published.Head
		Nu    float64 `json:"nu"`
		Cases []struct {
			Inside   float64 `json:"inside_mm"`
			Outside  float64 `json:"outside_mm"`
			Bore     float64 `json:"hoop_at_bore"`
			Hoop     float64 `json:"hoop_at_middle"`
			Axial    float64 `json:"axial_at_middle"`
			HoopOff  float64 `json:"membrane_hoop_off"`
			AxialOff float64 `json:"membrane_axial_off"`
		} `json:"cases"`
	}
	published.Load(t, "wall/lame.json", &f)
	const gpa, pressure = 10, 1e5
	for _, c := range f.Cases {
		s := lamina(gpa, gpa, gpa/(2*(1+f.Nu)), f.Nu, c.Outside-c.Inside, 0)
		s.Part.InsideDiameter = quantity.New(2*c.Inside, quantity.Millimetre)
		s.Service.Pressure, s.Service.Vacuum = quantity.New(pressure, quantity.Pascal), quantity.New(0, quantity.Pascal)
		r := walltest.Evaluate(s, wall.Options{})
		k, unit := loadCase(t, r, wall.CasePressure), pressure/(gpa*1e9)
		published.Near(t, "hoop strain off by", k.StrainHoop/(c.Hoop*unit)-1, c.HoopOff, 1e-4)
		published.Near(t, "axial strain off by", k.StrainAxial/(c.Axial*unit)-1, c.AxialOff, 1e-4)
		want := k.StrainHoop
		if thick := (c.Outside - c.Inside) / c.Inside; thick > 0.2 {
			want = c.Bore * unit
		}
		if got := walltest.Criterion(t, r, wall.HoopStrain); math.Abs(got.Demand/want-1) > 1e-4 {
			t.Errorf("%v to %v mm: %v is judged, want %v", c.Inside, c.Outside, got.Demand, want)
		}
	}
}
