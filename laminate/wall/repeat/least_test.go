package repeat

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

// oneByOne is the search that least shortens: a repeat at a time.
func oneByOne(p *repeats, s *laminate.Schedule, lib *laminate.Library, unit Unit, o wall.Options) (Needed, bool) {
	n := Needed{Unit: unit, Row: p.row, Result: wall.Evaluate(s, lib, laminate.Analyze(s, lib), o)}
	n.Governing, _ = n.Result.Governing()
	for n.Result.Answer() != wall.Holds && n.Result.Answer() != wall.NotApplicable {
		if _, is := incomplete(n.Result); is && (n.Repeats > 0 || n.Result.Counted > 0) || n.Repeats == Most {
			return n, false
		}
		n.Repeats++
		n.Governing, _ = n.Result.Governing()
		n.Plies = p.repeat(n.Repeats)
		next := n.Apply(s, lib)
		n.Result = wall.Evaluate(next, lib, laminate.Analyze(next, lib), o)
	}
	if n.Repeats > 0 {
		n.Notes = p.notes
	}
	return n, true
}

// someWall is a part that could be asked for, with up to a few rows of wall.
func someWall(t *rapid.T) *laminate.Schedule {
	some := func(what string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, what) }
	s := &laminate.Schedule{
		Part: laminate.Part{
			Form: rapid.SampledFrom(laminate.PartForms.All()).Draw(t, "form"), Process: rapid.SampledFrom(laminate.Processes.All()).Draw(t, "process"),
			Ends: rapid.SampledFrom(laminate.EndsWords.All()).Draw(t, "ends"), InsideDiameter: quantity.New(some("diameter", 2, 120), quantity.Inch),
			DesignBasis: rapid.SampledFrom(append(laminate.DesignBases.All(), laminate.NoBasis)).Draw(t, "basis"),
			Length:      quantity.New(some("length", 1, 60), quantity.Foot), LiquidHeight: quantity.New(some("height", 1, 40), quantity.Foot),
			KFactors: laminate.KFactors{Values: [5]float64{1.5, 1.2, 1, 1.1, 1.5}, Given: true},
		},
		Service: laminate.Service{
			Temperature: quantity.New(100, quantity.Fahrenheit), SpecificGravity: laminate.Some(some("gravity", 0.8, 1.8)),
			Pressure: quantity.New(some("pressure", 0, 300), quantity.PSI), Vacuum: quantity.New(some("vacuum", 0, 15), quantity.PSI),
		},
		Resins: []laminate.Resin{{ID: "barrier", Family: laminate.NovolacVinylEster}, {ID: "structure", Family: rapid.SampledFrom(laminate.Families.All()).Draw(t, "family")}},
		Plies: []laminate.Ply{
			{Material: catalog.VeilC15, Resin: "barrier", Zone: laminate.InnerSurface, Count: 1},
			{Material: catalog.Mat15, Resin: "barrier", Zone: laminate.InteriorLayer, Count: 2},
		},
	}
	if rapid.IntRange(0, 3).Draw(t, "odd") > 0 { // most have an answer, and not at once
		s.Part.Form, s.Part.DesignBasis, s.Part.Ends = laminate.Pipe, laminate.StrainLimit, laminate.ClosedEnds
		s.Service.Pressure = quantity.New(some("pressure", 50, 300), quantity.PSI)
	}
	for range rapid.IntRange(0, 4).Draw(t, "rows") {
		p := laminate.Ply{Material: rapid.SampledFrom([]string{catalog.Mat15, catalog.Woven24, catalog.BandHelical, catalog.BandHoop, catalog.Chop15, catalog.Uni13}).Draw(t, "material"),
			Resin: "structure", Zone: laminate.StructuralLayer, Count: rapid.IntRange(1, 5).Draw(t, "count")}
		if deg, ok := catalog.UsualAngle(p.Material); ok || p.Material == catalog.Uni13 {
			p.Angle = laminate.Some(deg)
		}
		s.Plies = append(s.Plies, p)
	}
	return s
}

func TestNeed_isTheLeastThatAddingOneByOneFinds(t *testing.T) {
	lib := catalog.Library()
	found, repeated := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := someWall(t)
		unit := rapid.SampledFrom(Units.All()).Draw(t, "unit")
		p, err := plan(s, lib, laminate.Analyze(s, lib), unit)
		if err != nil {
			return
		}
		want, ok := oneByOne(&p, s, lib, unit, wall.Options{})
		got, err := Need(s, lib, unit, wall.Options{})
		switch {
		case ok != (err == nil):
			t.Fatalf("one by one: %v with %d repeats of %v; by bisection: %v", ok, want.Repeats, unit, err)
		case ok && !reflect.DeepEqual(got, want):
			t.Fatalf("%d repeats of %v after %v, one by one %d after %v", got.Repeats, unit, got.Governing, want.Repeats, want.Governing)
		case ok:
			found++
			if want.Repeats > 3 {
				repeated++
			}
		}
	})
	if found == 0 || repeated == 0 {
		t.Errorf("%d walls of those tried have an answer, %d of more than three repeats: nothing is proved", found, repeated)
	}
}
