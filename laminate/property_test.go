package laminate_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

var materials = []string{"veil", "pet", "mat", "chop", "woven", "band", "coat", "tested", "unknown"}

func anyPly(zone *rapid.Generator[laminate.Zone]) *rapid.Generator[laminate.Ply] {
	return rapid.Custom(func(t *rapid.T) laminate.Ply {
		p := laminate.Ply{
			Material: rapid.SampledFrom(materials).Draw(t, "material"),
			Resin:    rapid.SampledFrom([]string{"a", "b", ""}).Draw(t, "resin"),
			Zone:     zone.Draw(t, "zone"),
			Count:    rapid.IntRange(1, 5).Draw(t, "count"),
			GelAfter: rapid.Bool().Draw(t, "gel"),
		}
		if rapid.Bool().Draw(t, "share?") {
			p.GlassContent = laminate.Some(rapid.Float64Range(0.01, 1).Draw(t, "share"))
		}
		if rapid.Bool().Draw(t, "angle?") {
			p.Angle = laminate.Some(rapid.Float64Range(0, 90).Draw(t, "angle"))
		}
		if rapid.Bool().Draw(t, "void?") {
			p.VoidContent = laminate.Some(rapid.Float64Range(0, 0.5).Draw(t, "void"))
		}
		return p
	})
}

func anyZone() *rapid.Generator[laminate.Zone] {
	return rapid.SampledFrom(append(laminate.Zones.All(), laminate.NoZone))
}

func statedZone() *rapid.Generator[laminate.Zone] { return rapid.SampledFrom(laminate.Zones.All()) }

func withPlies(plies []laminate.Ply) *laminate.Schedule {
	return &laminate.Schedule{Resins: []laminate.Resin{{ID: "a", Family: laminate.VinylEster}, {ID: "b", Family: laminate.Isophthalic,
		Filler: laminate.SiliconCarbide, FillerContent: laminate.Some(0.35)}}, Plies: plies}
}

func close9(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(a)) }

func TestAnalyze_thicknessAndMassAreAdditive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plies := rapid.SliceOfN(anyPly(anyZone()), 0, 12).Draw(t, "plies")
		a := laminate.Analyze(withPlies(plies), library())
		var thickness, mass, zones float64
		for i, r := range a.Rows {
			thickness += float64(plies[i].Count) * r.Thickness
			mass += float64(plies[i].Count) * r.Mass
			if !close9(thickness, r.ToHere) {
				t.Fatalf("row %d ends at %v, its plies at %v", i, r.ToHere, thickness)
			}
		}
		for _, z := range laminate.Zones.All() {
			zones += a.Zones[z].Thickness
		}
		barrier := a.Zones[laminate.InnerSurface].Mass + a.Zones[laminate.InteriorLayer].Mass
		if !close9(a.Total.Thickness, thickness) || !close9(zones, thickness) || !close9(a.Total.Mass, mass) || !close9(a.Barrier.Mass, barrier) {
			t.Fatalf("total %v of %v, zones %v, mass %v of %v", a.Total.Thickness, thickness, zones, a.Total.Mass, mass)
		}
	})
}

func TestAnalyze_orderOfPliesOfStatedZonesDoesNotWeigh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plies := rapid.SliceOfN(anyPly(statedZone()), 1, 10).Draw(t, "plies")
		moved := rapid.Permutation(plies).Draw(t, "moved")
		a, b := laminate.Analyze(withPlies(plies), library()), laminate.Analyze(withPlies(moved), library())
		if !close9(a.Total.Mass, b.Total.Mass) || !close9(a.Total.Thickness, b.Total.Thickness) || !close9(a.Barrier.FiberMass, b.Barrier.FiberMass) {
			t.Fatalf("moving plies changed %+v to %+v", a.Total, b.Total)
		}
	})
}

func TestAnalyze_aCountIsThatManyRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plies := rapid.SliceOfN(anyPly(statedZone()), 1, 6).Draw(t, "plies")
		var single []laminate.Ply
		for _, p := range plies {
			for range p.Count {
				one := p
				one.Count = 1
				single = append(single, one)
			}
		}
		a, b := laminate.Analyze(withPlies(plies), library()), laminate.Analyze(withPlies(single), library())
		if !close9(a.Total.Mass, b.Total.Mass) || !close9(a.Total.Thickness, b.Total.Thickness) || a.Total.Plies != b.Total.Plies {
			t.Fatalf("%+v, one by one %+v", a.Total, b.Total)
		}
	})
}

// Values no reader lets through must not become NaN either.
func TestAnalyze_isFiniteForAnything(t *testing.T) {
	wild := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, -1, 1, math.NaN(), math.Inf(1), math.Inf(-1), 1e308, 5e-324}))
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string) float64 { return wild.Draw(t, label) }
		m := laminate.Material{ID: "own", Form: rapid.SampledFrom(laminate.Forms.All()).Draw(t, "form"), Fiber: rapid.SampledFrom(laminate.Fibers.All()).Draw(t, "fiber"),
			ArealMass: quantity.New(draw("areal"), quantity.KilogramPerSquareMeter), FiberDensity: density(draw("rho f")),
			GlassContent: laminate.Some(draw("g")), Thickness: quantity.New(draw("t"), quantity.Meter),
			Tow: quantity.New(draw("tow"), quantity.Tex), Tows: laminate.Some(rapid.Int().Draw(t, "tows")), BandWidth: quantity.New(draw("band"), quantity.Meter)}
		if rapid.Bool().Draw(t, "band by tows") {
			m.ArealMass = quantity.ArealMass{}
		}
		r := laminate.Resin{ID: "a", Density: density(draw("rho r")), Filler: laminate.SiliconCarbide, FillerContent: laminate.Some(draw("phi")), FillerDensity: density(draw("rho filler"))}
		p := laminate.Ply{Material: "own", Resin: "a", Count: rapid.IntRange(-1, 1000).Draw(t, "count"), Angle: laminate.Some(draw("angle")), VoidContent: laminate.Some(draw("void"))}
		if rapid.Bool().Draw(t, "share on ply") {
			p.GlassContent = laminate.Some(draw("ply g"))
		}
		a := laminate.Analyze(&laminate.Schedule{Materials: []laminate.Material{m}, Resins: []laminate.Resin{r}, Plies: []laminate.Ply{p, p}}, library())
		row := a.Rows[0]
		for what, v := range map[string]float64{"thickness": row.Thickness, "mass": row.Mass, "fiber": row.FiberMass, "volume": row.FiberVolume, "filler": row.FillerMass,
			"booked": row.Booked, "total mass": a.Total.Mass, "total thickness": a.Total.Thickness, "to here": a.Rows[1].ToHere} {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				t.Fatalf("%s is %v", what, v)
			}
		}
	})
}

func BenchmarkAnalyze2000Rows(b *testing.B) {
	var plies []laminate.Ply
	for i := range 2000 {
		plies = append(plies, laminate.Ply{Material: materials[i%7], Resin: []string{"a", "b"}[i/7%2], Count: 1 + i%2, Angle: laminate.Some(55.0)})
	}
	s, lib := withPlies(plies), library()
	b.ReportAllocs()
	for b.Loop() {
		laminate.Analyze(s, lib)
	}
}
