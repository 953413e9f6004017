package ground_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
)

// Geometry: where a joint is, both parts are as wide as the bore that goes through it.
func TestJoined_isTheEndThatTheOtherPartFits(t *testing.T) {
	pipe := func(d float64) laminate.Part { return laminate.Part{Form: laminate.Pipe, InsideDiameter: m(d)} }
	cone := laminate.Part{Form: laminate.Cone, InsideDiameter: m(3), Shape: laminate.Shape{SmallDiameter: m(0.15)}}
	reducer := laminate.Part{Form: laminate.Cone, InsideDiameter: m(0.16), Shape: laminate.Shape{SmallDiameter: m(0.1)}}
	flange := laminate.Part{Form: laminate.Flange, Shape: laminate.Shape{Size: m(0.15)}}
	own := flange
	own.Size, own.InsideDiameter = quantity.Length{}, m(0.15)
	none := math.NaN()
	for name, c := range map[string]struct {
		one, other      laminate.Part
		inside, outside [2]float64 // walls of 10 mm, and of 30 mm the other
	}{
		"two pipes":                    {pipe(2), pipe(2), [2]float64{2, 2}, [2]float64{2.02, 2.06}},
		"a cone and its course":        {cone, pipe(3), [2]float64{3, 3}, [2]float64{3.02, 3.06}},
		"a cone and its outlet":        {cone, pipe(0.15), [2]float64{0.15, 0.15}, [2]float64{0.17, 0.21}},
		"a cone and its flange":        {cone, flange, [2]float64{0.15, 0.15}, [2]float64{0.17, 0.17}}, // the ring is no wall
		"a flange of a stated bore":    {cone, own, [2]float64{0.15, 0.15}, [2]float64{0.17, 0.17}},
		"a pipe and its flange":        {pipe(0.15), flange, [2]float64{0.15, 0.15}, [2]float64{0.17, 0.17}},
		"a cone on a cone":             {cone, reducer, [2]float64{0.15, 0.16}, [2]float64{0.17, 0.22}},
		"a cone and what is not known": {cone, laminate.Part{Form: laminate.Flange}, [2]float64{none, none}, [2]float64{none, none}},
		"two flanges":                  {flange, flange, [2]float64{0.15, 0.15}, [2]float64{0.17, 0.21}},
		"a pipe under a cover":         {pipe(1), laminate.Part{Form: laminate.Cover}, [2]float64{1, none}, [2]float64{1.02, 1.02}},
	} {
		in, out := ground.Joined([2]*laminate.Part{&c.one, &c.other}, [2]float64{0.01, 0.03})
		in2, out2 := ground.Joined([2]*laminate.Part{&c.other, &c.one}, [2]float64{0.03, 0.01})
		for k := range in {
			for _, v := range [][2]float64{{in[k], c.inside[k]}, {out[k], c.outside[k]}, {in2[1-k], c.inside[k]}, {out2[1-k], c.outside[k]}} {
				if math.Abs(v[0]-v[1]) > 1e-12 || math.IsNaN(v[0]) != math.IsNaN(v[1]) {
					t.Errorf("%s: %v inside, %v outside, want %v and %v", name, in, out, c.inside, c.outside)
				}
			}
		}
	}
}

// A strap between the small end of a cone and a flange is as long round as the cone is
// there, whatever the flange's ring is laid up of, and whether it states its bore or not.
func TestOfStrap_atTheSmallEndOfACone(t *testing.T) {
	lib := catalog.Library()
	mats := func(n int) []laminate.Ply { return []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: n}} }
	j := &laminate.Job{
		Resins:    []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Laminates: []laminate.Laminate{{ID: "l", Plies: mats(2)}, {ID: "ring", Plies: mats(20)}},
		Parts: []laminate.JobPart{
			{ID: "c", Laminate: "l", Part: laminate.Part{Form: laminate.Cone, InsideDiameter: m(3), Shape: laminate.Shape{SmallDiameter: m(0.15)}}},
			{ID: "f", Laminate: "ring", Part: laminate.Part{Form: laminate.Flange, Shape: laminate.Shape{Size: m(0.15)}}},
		},
	}
	x := &laminate.Joint{ID: "j", Between: [2]string{"c", "f"}, FirstWidth: m(0.05), Width: m(0.2), InsideWidth: m(0.1)}
	thick := laminate.Analyze(j.Wall(0), lib).Total.Thickness
	for _, stated := range []quantity.Length{{}, m(0.15)} {
		j.Parts[1].InsideDiameter = stated
		g, err := ground.OfStrap(j, x, laminate.Analyze(j.Schedule(0), lib), lib)
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := g.Area(1, 0); math.Abs(got-math.Pi*(0.15+2*thick)*0.2) > 1e-9 {
			t.Errorf("strap: %v m²", got)
		}
		if g, err = ground.OfSeal(j, x, lib); err != nil {
			t.Fatal(err)
		}
		if got, _ := g.Area(0, 0); math.Abs(got-math.Pi*0.15*0.1) > 1e-9 {
			t.Errorf("seal: %v m²", got)
		}
	}
}
