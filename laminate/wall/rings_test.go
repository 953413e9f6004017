package wall_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
)

// Rings stand as far apart as the formula that judges the wall allows, whatever
// the wall: stated as the spacing, that holds, and a hundredth more fails.
func TestStiffeners_areTheSpacingThatHolds(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		var s *laminate.Schedule
		switch rapid.SampledFrom([]string{"mat", "mixed", "helical", "hoop"}).Draw(t, "wall") {
		case "mat":
			s = walltest.Pipe(walltest.Ply(catalog.Mat15, rapid.IntRange(2, 12).Draw(t, "plies")))
		case "mixed":
			s = walltest.Pipe(walltest.Mixed(rapid.IntRange(1, 6).Draw(t, "plies"))...)
		case "helical":
			s = walltest.WoundPipe(rapid.IntRange(2, 12).Draw(t, "covers"))
		default:
			s = walltest.Pipe(walltest.Ply(catalog.Mat15, 1), walltest.Wound(catalog.BandHoop, 89, rapid.IntRange(2, 12).Draw(t, "covers")))
		}
		s.Service.Pressure, s.Service.Vacuum = quantity.New(0, psi), quantity.New(rapid.Float64Range(0.05, 15).Draw(t, "vacuum"), psi)
		s.Part.InsideDiameter = quantity.New(rapid.Float64Range(4, 144).Draw(t, "diameter"), in)
		r := walltest.Evaluate(s, wall.Options{})
		if !r.Stiffeners.Known {
			return
		}
		found++
		for _, x := range []struct {
			times float64
			want  wall.Answer
		}{{1, wall.Holds}, {1.01, wall.Fails}} {
			s.Part.StiffenerSpacing = quantity.New(r.Stiffeners.Spacing*x.times, quantity.Meter)
			if x.times == 1 {
				// As a person would state what is printed.
				if err := quantity.Read(&s.Part.StiffenerSpacing, quantity.US.AtMost(r.Stiffeners.Spacing, quantity.Distance)); err != nil {
					t.Fatal(err)
				}
			}
			if k := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.ExternalPressure); k.Answer != x.want {
				t.Fatalf("%v times the spacing %v m: %+v", x.times, r.Stiffeners.Spacing, k)
			}
		}
	})
	if found == 0 {
		t.Error("no wall wants rings")
	}
}

// By hand, of I = p L D³ · 5/(24 E) and 1.1 √(D t) (from memory).
func TestStiffeners_sectionIsTheFormula(t *testing.T) {
	s := walltest.Pipe(walltest.Ply(catalog.Mat15, 4))
	s.Part.InsideDiameter = quantity.New(48, in)
	s.Service.Pressure, s.Service.Vacuum = quantity.New(0, psi), quantity.New(0.5413, psi)
	r := walltest.Evaluate(s, wall.Options{})
	x := r.Stiffeners
	if !x.Known {
		t.Fatal("no rings")
	}
	d := 48*0.0254 + 2*r.Whole
	published.Near(t, "second moment, m⁴", x.Inertia, s.Service.Vacuum.SI()*x.Spacing*d*d*d*5/(24*r.Membrane.Ey), 1e-15)
	published.Near(t, "width, m", x.Width, 1.1*math.Sqrt(d*r.Thickness), 1e-12)
}
