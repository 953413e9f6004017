package form_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/form"
)

func tip(large, small, angle float64) *form.Facts {
	p := &laminate.Part{Form: laminate.Cone, InsideDiameter: quantity.New(large, quantity.Inch)}
	p.SmallDiameter, p.HalfAngle, p.Place.Tip = quantity.New(small, quantity.Inch), laminate.Some(angle), true
	return &form.Facts{Part: p}
}

// From 96 to 12 in at 30°, 72.746 in high. Under 216.746 in pressure times diameter grows
// up to the rim: 144 of the 216.746 in there. Under 40 in the parabola
// (40 − y)·(12 + 1.1547·y) has its top at 20 − 12/2.3094 = 14.804 in, 25.196 in deep on
// 29.094 in. What hangs below the rim is 72.746/3·(1 + 1/8 + 1/64) = 27.659 in of liquid.
func TestNarrow_isTheGreatestPressureTimesDiameter(t *testing.T) {
	const inch = 0.0254
	for _, c := range []struct{ depth, above, diameter, pressure, round, along float64 }{
		{216.746, 72.746, 96, 144, 144, 144 + 27.659},
		{40, 14.804, 29.094, 25.196, 25.196 * 29.094 / 96, math.NaN()},
	} {
		n, ok := tip(96, 12, 30).Narrow(0, c.depth, c.depth*inch)
		for _, v := range [][2]float64{{n.Above / inch, c.above}, {n.Diameter / inch, c.diameter}, {n.Pressure, c.pressure}, {n.Round, c.round}, {n.Along, c.along}} {
			if !ok || math.Abs(v[0]-v[1]) > 2e-3 {
				t.Errorf("under %v in: %v, not %v", c.depth, v[0], v[1])
			}
		}
	}
}

// No place of the cone is loaded more than it says, and the tip's pressure on the large
// end is never less.
func TestNarrow_boundsEachPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.Float64Range(0, 90).Draw(t, "small")
		x := tip(96, small, rapid.Float64Range(5, 60).Draw(t, "angle"))
		gas, depth := rapid.Float64Range(0, 50).Draw(t, "gas"), rapid.Float64Range(0.1, 20).Draw(t, "depth")
		n, ok := x.Narrow(gas, 10*depth, depth)
		long, _ := x.Part.Rise()
		if !ok {
			t.Fatal("no place")
		}
		for i := range 101 {
			up := long * float64(i) / 100
			d := (small + (96-small)*float64(i)/100) / 96
			if p := gas + 10*math.Max(0, depth-up); p*d > n.Round*(1+1e-9)+1e-12 {
				t.Fatalf("%v times %v at %v is more than %v", p, d, up, n.Round)
			}
		}
		if most := gas + 10*depth; n.Round > most*(1+1e-9) || n.Along > most*(1+1e-9) || n.Along < gas {
			t.Fatalf("round %v, along %v of at most %v", n.Round, n.Along, most)
		}
	})
}
