package laminate_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
)

func density(kgPerM3 float64) quantity.Density {
	return quantity.New(kgPerM3, quantity.KilogramPerCubicMeter)
}

// library has the densities of the check values: veil and mat as in the hand
// arithmetic of testdata/laminate, the rest plain.
func library() *laminate.Library {
	l := &laminate.Library{Materials: []laminate.Material{
		{ID: "veil", Form: laminate.Veil, Fiber: laminate.CGlass, ArealMass: quantity.New(45, quantity.GramPerSquareMeter), GlassContent: laminate.Some(0.10)},
		{ID: "pet", Form: laminate.Veil, Fiber: laminate.Polyester, ArealMass: quantity.New(45, quantity.GramPerSquareMeter), GlassContent: laminate.Some(0.10)},
		{ID: "mat", Form: laminate.ChoppedMat, Fiber: laminate.ECRGlass, ArealMass: quantity.New(1.5, quantity.OuncePerSquareFoot)},
		{ID: "chop", Form: laminate.SprayedChop, Fiber: laminate.ECRGlass, ArealMass: quantity.New(1.5, quantity.OuncePerSquareFoot)},
		{ID: "woven", Form: laminate.WovenRoving, Fiber: laminate.EGlass, ArealMass: quantity.New(24, quantity.OuncePerSquareYard), GlassContent: laminate.Some(0.55)},
		{ID: "band", Form: laminate.RovingBand, Fiber: laminate.ECRGlass, Tow: quantity.New(2200, quantity.Tex), Tows: laminate.Some(8), BandWidth: quantity.New(60, quantity.Millimetre), GlassContent: laminate.Some(0.70)},
		{ID: "coat", Form: laminate.ResinCoat, Thickness: quantity.New(10, quantity.Mil), Waxed: true},
		{ID: "tested", Form: laminate.Lamina, Thickness: quantity.New(1, quantity.Millimetre)},
	}}
	l.Fibers[laminate.CGlass].Density = density(2500)
	l.Fibers[laminate.EGlass].Density = density(2580)
	l.Fibers[laminate.ECRGlass].Density = density(2620)
	l.Fibers[laminate.Polyester].Density = density(1380)
	l.Fillers[laminate.SiliconCarbide].Density = density(3210)
	for _, f := range laminate.Families.All() {
		l.Families[f].Density = density(1150)
	}
	l.Index()
	return l
}

func schedule(plies ...laminate.Ply) *laminate.Schedule {
	s := &laminate.Schedule{Resins: []laminate.Resin{{ID: "a", Family: laminate.VinylEster}, {ID: "b", Family: laminate.Isophthalic}}, Plies: plies}
	for i := range s.Plies {
		if s.Plies[i].Count == 0 {
			s.Plies[i].Count = 1
		}
		if s.Plies[i].Resin == "" {
			s.Plies[i].Resin = "a"
		}
	}
	return s
}

func TestAnalyze_plyFiguresAgreeWithArithmetic(t *testing.T) {
	b, err := os.ReadFile(filepath.Join("..", "testdata", "laminate", "ply-figures.json"))
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Source string `json:"source"`
		Memory bool   `json:"from_memory"`
		Cases  []struct {
			Name      string  `json:"name"`
			Form      string  `json:"form"`
			Fiber     string  `json:"fiber"`
			ArealMass string  `json:"areal_mass"`
			FiberD    string  `json:"fiber_density"`
			Share     float64 `json:"share"`
			ResinD    string  `json:"resin_density"`
			Filler    string  `json:"filler"`
			FillerD   string  `json:"filler_density"`
			FillerC   float64 `json:"filler_content"`
			Thickness float64 `json:"thickness_mil"`
			Tolerance float64 `json:"tolerance_mil"`
			FiberPart float64 `json:"fiber_share"`
			Residue   float64 `json:"ignition_residue"`
		} `json:"cases"`
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(&file); err != nil || file.Source == "" || len(file.Cases) == 0 {
		t.Fatalf("cases cannot be read or name no source: %v", err)
	}
	for _, c := range file.Cases {
		t.Run(c.Name, func(t *testing.T) {
			m := laminate.Material{ID: "own", ArealMass: must(parseAreal(c.ArealMass)), FiberDensity: must(parseDensity(c.FiberD)), GlassContent: laminate.Some(c.Share)}
			m.Form, _ = laminate.Forms.Parse(c.Form)
			m.Fiber, _ = laminate.Fibers.Parse(c.Fiber)
			r := laminate.Resin{ID: "a", Density: must(parseDensity(c.ResinD))}
			if c.Filler != "" {
				r.Filler, _ = laminate.Fillers.Parse(c.Filler)
				r.FillerContent = laminate.Some(c.FillerC)
				r.FillerDensity = must(parseDensity(c.FillerD))
			}
			s := schedule(laminate.Ply{Material: "own"})
			s.Materials, s.Resins = []laminate.Material{m}, []laminate.Resin{r}
			row := laminate.Analyze(s, &laminate.Library{}).Rows[0]
			if !row.MassKnown || !row.ThicknessKnown {
				t.Fatal("figures not known")
			}
			published.Near(t, "thickness, mil", row.Thickness/25.4e-6, c.Thickness, c.Tolerance)
			share, _ := row.FiberMassFraction()
			published.Near(t, "fiber share", share, c.FiberPart, 0.0005)
			if c.Residue != 0 {
				published.Near(t, "ignition residue", (row.GlassMass+row.FillerMass)/row.Mass, c.Residue, 0.0006)
				residue := (row.GlassMass + row.FillerMass) / row.Mass
				published.Near(t, "share from the residue", (residue-c.FillerC)/(1-c.FillerC), share, 1e-12)
			}
		})
	}
}

func TestAnalyze_choppedGlassIsRicherInTheBarrier(t *testing.T) {
	a := laminate.Analyze(schedule(
		laminate.Ply{Material: "mat", Zone: laminate.InteriorLayer},
		laminate.Ply{Material: "mat", Zone: laminate.StructuralLayer},
		laminate.Ply{Material: "mat", Zone: laminate.InteriorLayer, GlassContent: laminate.Some(0.22)},
	), library())
	for i, want := range []float64{0.27, 0.30, 0.22} {
		got, _ := a.Rows[i].FiberMassFraction()
		published.Near(t, "fiber share", got, want, 1e-12)
	}
}

func TestAnalyze_shareOnThePlyIncludesTheFiller(t *testing.T) {
	s := schedule(laminate.Ply{Material: "mat", Zone: laminate.InteriorLayer, GlassContent: laminate.Some(0.223)})
	s.Resins[0].Filler, s.Resins[0].FillerContent = laminate.SiliconCarbide, laminate.Some(0.35)
	row := laminate.Analyze(s, library()).Rows[0]
	share, _ := row.FiberMassFraction()
	published.Near(t, "fiber share", share, 0.223, 1e-12)
	// The same ply as 27 % in unfilled resin: 49 mil.
	published.Near(t, "thickness, mil", row.Thickness/25.4e-6, 49.2, 0.3)
	published.Near(t, "filler share of the binder", row.FillerMass/(row.Mass-row.FiberMass), 0.35, 1e-12)
}

func TestAnalyze_bandIsACoverOfTwoLayersBetweenZeroAndHoop(t *testing.T) {
	// 8 tows of 2200 tex on 60 mm: 293.33 g/m² a layer.
	for _, c := range []struct{ angle, layers float64 }{{0, 1}, {0.5, 2}, {55, 2}, {84.9, 2}, {85, 1}, {90, 1}} {
		row := laminate.Analyze(schedule(laminate.Ply{Material: "band", Angle: laminate.Some(c.angle)}), library()).Rows[0]
		published.Near(t, "fiber, kg/m²", row.FiberMass, c.layers*0.29333333, 1e-7)
	}
	// Own arithmetic: 0.5866667 kg/m² at 70 %.
	cover := laminate.Analyze(schedule(laminate.Ply{Material: "band", Angle: laminate.Some(55.0)}), library()).Rows[0]
	published.Near(t, "thickness of a cover, mm", cover.Thickness*1e3, 0.4425524, 1e-6)
	published.Near(t, "mass of a cover, kg/m²", cover.Mass, 0.8380952, 1e-6)
	vf, _ := cover.FiberVolumeFraction()
	published.Near(t, "fiber volume share", vf, 0.5059711, 1e-6)
}

func TestAnalyze_voidsThickenButDoNotWeigh(t *testing.T) {
	a := laminate.Analyze(schedule(laminate.Ply{Material: "woven"}, laminate.Ply{Material: "woven", VoidContent: laminate.Some(0.05)}), library())
	published.Near(t, "thickness with voids", a.Rows[1].Thickness, a.Rows[0].Thickness/0.95, 1e-15)
	published.Near(t, "mass with voids", a.Rows[1].Mass, a.Rows[0].Mass, 0)
}

func TestAnalyze_coatHasThicknessAndNoFiber(t *testing.T) {
	a := laminate.Analyze(schedule(laminate.Ply{Material: "coat"}), library())
	row := a.Rows[0]
	published.Near(t, "thickness, mil", row.Thickness/25.4e-6, 10, 1e-9)
	published.Near(t, "mass, kg/m²", row.Mass, 254e-6*1150, 1e-12)
	if row.FiberMass != 0 || !row.MassKnown || row.Zone != laminate.OuterSurface {
		t.Errorf("coat: %+v", row)
	}
}

func TestAnalyze_laminaWeighsOnlyWhereItsFactsAreGiven(t *testing.T) {
	s := schedule(laminate.Ply{Material: "tested"}, laminate.Ply{Material: "full"})
	s.Materials = []laminate.Material{{ID: "full", Form: laminate.Lamina, Thickness: quantity.New(1, quantity.Millimetre),
		ArealMass: quantity.New(1, quantity.KilogramPerSquareMeter), GlassContent: laminate.Some(0.5), FiberDensity: density(2500)}}
	a := laminate.Analyze(s, library())
	if a.Rows[0].MassKnown || !a.Rows[0].ThicknessKnown || a.Rows[0].Mass != 0 {
		t.Errorf("tested lamina without facts: %+v", a.Rows[0])
	}
	if !a.Rows[1].MassKnown {
		t.Error("lamina with its facts has no mass")
	}
	published.Near(t, "mass", a.Rows[1].Mass, 2, 1e-12)
	if a.Total.MassKnown || !a.Total.ThicknessKnown {
		t.Error("a total with a ply of unknown mass passes for known, or its thickness does not")
	}
	published.Near(t, "total thickness, mm", a.Total.Thickness*1e3, 2, 1e-12)
}

func TestAnalyze_glassIsNotFiber(t *testing.T) {
	a := laminate.Analyze(schedule(laminate.Ply{Material: "pet"}, laminate.Ply{Material: "mat"}), library())
	if g, ok := a.Rows[0].GlassMassFraction(); !ok || g != 0 {
		t.Errorf("a polyester veil has glass %v, %v", g, ok)
	}
	if f, ok := a.Rows[0].FiberMassFraction(); !ok || math.Abs(f-0.10) > 1e-12 {
		t.Errorf("a polyester veil has fiber %v, %v", f, ok)
	}
	published.Near(t, "chopped glass, kg/m²", a.Total.ChoppedGlassMass, 0.4577, 1e-4)
}

func TestAnalyze_saysWhatItCannotKnow(t *testing.T) {
	named := func(s *laminate.Schedule) {}
	for _, c := range []struct {
		name            string
		ply             laminate.Ply
		change          func(*laminate.Schedule)
		thickness, mass bool
	}{
		{"unknown material", laminate.Ply{Material: "nobody's"}, named, false, false},
		{"undefined resin", laminate.Ply{Material: "mat", Resin: "nobody's"}, named, false, false},
		{"no resin", laminate.Ply{Material: "mat"}, func(s *laminate.Schedule) { s.Plies[0].Resin = "" }, false, false},
		{"coat without resin", laminate.Ply{Material: "coat"}, func(s *laminate.Schedule) { s.Plies[0].Resin = "" }, true, false},
		{"band without angle", laminate.Ply{Material: "band"}, named, false, false},
		{"filler without its share", laminate.Ply{Material: "mat"}, func(s *laminate.Schedule) { s.Resins[0].Filler = laminate.SiliconCarbide }, true, false},
		{"filler of unknown density", laminate.Ply{Material: "mat"}, func(s *laminate.Schedule) {
			s.Resins[0].Filler, s.Resins[0].FillerContent = laminate.CarbonPowder, laminate.Some(0.1)
		}, true, false},
		{"resin of no family", laminate.Ply{Material: "mat"}, func(s *laminate.Schedule) { s.Resins[0].Family = laminate.NoFamily }, false, false},
		{"woven without share", laminate.Ply{Material: "own"}, func(s *laminate.Schedule) {
			s.Materials = []laminate.Material{{ID: "own", Form: laminate.WovenRoving, Fiber: laminate.EGlass, ArealMass: quantity.New(800, quantity.GramPerSquareMeter)}}
		}, false, false},
		{"all void", laminate.Ply{Material: "mat", VoidContent: laminate.Some(1.0)}, named, false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := schedule(c.ply)
			c.change(s)
			a := laminate.Analyze(s, library())
			row := a.Rows[0]
			if row.ThicknessKnown != c.thickness || row.MassKnown != c.mass {
				t.Errorf("thickness known %v, mass known %v", row.ThicknessKnown, row.MassKnown)
			}
			if a.Total.ThicknessKnown != c.thickness || a.Total.MassKnown != c.mass {
				t.Errorf("total: thickness known %v, mass known %v", a.Total.ThicknessKnown, a.Total.MassKnown)
			}
			if (row.Thickness > 0) != c.thickness || row.Mass != 0 {
				t.Errorf("thickness %v, mass %v", row.Thickness, row.Mass)
			}
			if _, ok := row.FiberMassFraction(); ok {
				t.Error("a fiber share of an unknown mass")
			}
		})
	}
}

func TestAnalyze_bookedThicknessStandsBesideTheComputedOne(t *testing.T) {
	s := schedule(laminate.Ply{Material: "own"})
	s.Materials = []laminate.Material{library().Materials[2]}
	s.Materials[0].ID = "own"
	s.Materials[0].Thickness = quantity.New(55, quantity.Mil)
	row := laminate.Analyze(s, library()).Rows[0]
	published.Near(t, "booked, mil", row.Booked/25.4e-6, 55, 1e-9)
	published.Near(t, "computed, mil", row.Thickness/25.4e-6, 43.4, 0.05)
}

func TestAnalyze_numbersSinglePlies(t *testing.T) {
	a := laminate.Analyze(schedule(laminate.Ply{Material: "veil"}, laminate.Ply{Material: "mat", Count: 2, GelAfter: true}, laminate.Ply{Material: "woven"}), library())
	if a.Rows[1].First != 2 || a.Rows[1].Last != 3 || a.Rows[2].First != 4 || a.Rows[2].Last != 4 {
		t.Errorf("numbers: %+v", a.Rows)
	}
	if a.BarrierEnd != 2 || a.Barrier.Plies != 3 || a.Total.Plies != 4 || !a.Inferred {
		t.Errorf("barrier end %d, plies %d of %d", a.BarrierEnd, a.Barrier.Plies, a.Total.Plies)
	}
	// Veil and two mats at 27 %: 14.6 + 2 · 49.2, a nominal 100 mil.
	published.Near(t, "barrier, mil", a.Barrier.Thickness/25.4e-6, 113.1, 0.15)
	published.Near(t, "to here", a.Rows[2].ToHere, a.Total.Thickness, 1e-15)
}

// The dimensions have no names outside their package: these read through a
// value's own type.
func parseAreal(s string) (q quantity.ArealMass, err error) { return read(q, s) }
func parseDensity(s string) (q quantity.Density, err error) { return read(q, s) }

func read[D quantity.Dimension](_ quantity.Quantity[D], s string) (quantity.Quantity[D], error) {
	return quantity.Parse[D](s)
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
