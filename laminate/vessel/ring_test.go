package vessel_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate/vessel"
)

// Figures of NBS PS 15-69 as they are remembered; 150 mm is 6 in, and between two sizes
// or classes the lower one bounds.
func TestRememberedFlange_isThatOfTheLowerSizeAndClass(t *testing.T) {
	const in, psi = 0.0254, 6894.757293168361
	for _, c := range []struct{ size, class, want float64 }{
		{12, 60, 0.75}, {12, 75, 1}, {24, 25, 0.75}, {24, 150, 1.875}, {36, 50, 1.125}, {18, 50, 0.875}, {150 / 25.4, 100, 0.75}, {3, 300, 0.75},
	} {
		got, _, _, ok := vessel.RememberedFlange(c.size*in, c.class*psi)
		if !ok || math.Abs(got/in-c.want) > 1e-9 {
			t.Errorf("%v in at %v psi: %v in, want %v", c.size, c.class, got/in, c.want)
		}
	}
	for _, c := range []struct{ size, class float64 }{{1.5, 50}, {12, 10}} {
		if _, _, _, ok := vessel.RememberedFlange(c.size*in, c.class*psi); ok {
			t.Errorf("%v in at %v psi is in no table", c.size, c.class)
		}
	}
}
