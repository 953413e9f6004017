package moduli_test

import (
	"math"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/moduli"
)

func row(t *testing.T, lib *laminate.Library, m laminate.Material, r laminate.Resin, p laminate.Ply) *laminate.RowFigures {
	t.Helper()
	p.Material, p.Resin, p.Count, p.Zone = m.ID, r.ID, 1, laminate.StructuralLayer
	s := &laminate.Schedule{Resins: []laminate.Resin{r}, Materials: []laminate.Material{m}, Plies: []laminate.Ply{p}}
	f := &laminate.Analyze(s, lib).Rows[0]
	if !f.ThicknessKnown {
		t.Fatal("thickness not known")
	}
	return f
}

func builtIn(t *testing.T, lib *laminate.Library, id string) laminate.Material {
	t.Helper()
	m, ok := lib.Material(nil, id)
	if !ok {
		t.Fatalf("no %s", id)
	}
	return *m
}

var vinylEster = laminate.Resin{ID: "wall", Family: laminate.VinylEster}

// BS 4994 (second-hand) designs by unit moduli of 14 000 N/mm per kg/m² of
// glass for mat and 16 000 for woven roving. The moduli figured here have to be
// stiffer than what a code designs by, and not by more than half.
func TestPly_comesNearTheUnitModuli(t *testing.T) {
	lib := catalog.Library()
	for _, c := range []struct {
		id   string
		unit float64 // N/m per kg/m²
	}{{catalog.Mat15, 14_000e3}, {catalog.Woven24, 16_000e3}} {
		f := row(t, lib, builtIn(t, lib, c.id), vinylEster, laminate.Ply{})
		p, basis, trouble := moduli.New(lib, 1).Ply(f)
		if trouble != "" || basis != moduli.ByTypical {
			t.Fatalf("%s: %q, %q", c.id, basis, trouble)
		}
		unit := math.Min(p.E1, p.E2) * f.Thickness / f.FiberMass
		if !(unit > c.unit) || unit > 1.5*c.unit {
			t.Errorf("%s: %.0f N/mm per kg/m², the code designs by %.0f", c.id, unit/1000, c.unit/1000)
		}
	}
}

func TestPly_takesWhatTheScheduleGives(t *testing.T) {
	lib := catalog.Library()
	gpa := func(v float64) quantity.Pressure { return quantity.New(v, quantity.Gigapascal) }
	resin := vinylEster
	resin.Modulus, resin.Poisson = gpa(3.2), laminate.Some(0.36)
	woven := builtIn(t, lib, catalog.Woven24)
	woven.FiberModulus, woven.FiberPoisson = gpa(72.4), laminate.Some(0.22)
	laws := moduli.New(lib, 1)
	usual, basis, trouble := laws.Ply(row(t, lib, woven, resin, laminate.Ply{}))
	if trouble != "" || basis != moduli.ByConstituents {
		t.Fatalf("%q, %q", basis, trouble)
	}
	if notes := strings.Join(laws.Assumptions(quantity.US), "\n"); strings.Contains(notes, "typical") || !strings.Contains(notes, "crimp factor 0.9") {
		t.Errorf("assumed: %s", notes)
	}
	woven.CrimpFactor, woven.WarpShare = laminate.Some(0.8), laminate.Some(0.5)
	laws = moduli.New(lib, 1)
	even, _, _ := laws.Ply(row(t, lib, woven, resin, laminate.Ply{}))
	if math.Abs(even.E1-even.E2) > 1 || math.Abs(even.G12/usual.G12-0.8/0.9) > 1e-9 || !(usual.E1 > usual.E2) {
		t.Errorf("5/9 and 0.9: %+v; 1/2 and 0.8: %+v", usual, even)
	}
	if notes := laws.Assumptions(quantity.US); len(notes) != 0 {
		t.Errorf("assumed: %s", notes)
	}
	warm, _, _ := moduli.New(lib, 0.5).Ply(row(t, lib, woven, resin, laminate.Ply{}))
	if math.Abs(warm.E1/even.E1-0.5) > 1e-12 || warm.Nu12 != even.Nu12 {
		t.Errorf("half kept: %+v of %+v", warm, even)
	}

	tested := laminate.Material{ID: "tested", Form: laminate.Lamina, Thickness: quantity.New(1, quantity.Millimetre),
		E1: gpa(40), E2: gpa(11), G12: gpa(3.6), Nu12: laminate.Some(0.29)}
	p, basis, _ := moduli.New(nil, 1).Ply(row(t, lib, tested, resin, laminate.Ply{}))
	if basis != moduli.ByTest || p.E1 != 40e9 || p.E2 != 11e9 || p.G12 != 3.6e9 || p.Nu12 != 0.29 {
		t.Errorf("%q: %+v", basis, p)
	}
	coat := builtIn(t, lib, catalog.Topcoat)
	p, basis, _ = moduli.New(lib, 1).Ply(row(t, lib, coat, resin, laminate.Ply{}))
	if basis != moduli.ByResin || p.E1 != 3.2e9 || math.Abs(p.G12-3.2e9/2/1.36) > 1 {
		t.Errorf("%q: %+v", basis, p)
	}
}

func TestPly_namesWhatIsMissing(t *testing.T) {
	lib := catalog.Library()
	mat := builtIn(t, lib, catalog.Mat15)
	tested := laminate.Material{ID: "tested", Form: laminate.Lamina, Thickness: quantity.New(1, quantity.Millimetre), E1: quantity.New(40, quantity.Gigapascal)}
	own := laminate.Resin{ID: "wall", Density: quantity.New(1150, quantity.KilogramPerCubicMeter)}
	stiff := own
	stiff.Modulus = quantity.New(3, quantity.Gigapascal)
	impossible := stiff
	impossible.Poisson = laminate.Some(0.7)
	for _, c := range []struct {
		lib  *laminate.Library
		f    *laminate.RowFigures
		want string
	}{
		{lib, row(t, lib, tested, vinylEster, laminate.Ply{}), "e2"},
		{lib, row(t, lib, mat, own, laminate.Ply{}), "(modulus)"},
		{lib, row(t, lib, mat, stiff, laminate.Ply{}), "(poisson)"},
		{lib, row(t, lib, mat, impossible, laminate.Ply{}), "Poisson's ratio"},
		{nil, row(t, lib, mat, laminate.Resin{ID: "wall", Family: laminate.VinylEster, Modulus: stiff.Modulus, Poisson: laminate.Some(0.36)}, laminate.Ply{}), "(fiber_modulus)"},
	} {
		if p, _, trouble := moduli.New(c.lib, 1).Ply(c.f); !strings.Contains(trouble, c.want) {
			t.Errorf("%+v, %q, want it to name %s", p, trouble, c.want)
		}
	}
}

func TestFailureStrain_ownBeforeFamily(t *testing.T) {
	lib := catalog.Library()
	family, ok := moduli.FailureStrain(lib, &vinylEster)
	if !ok || family != lib.Families[laminate.VinylEster].FailureStrain {
		t.Errorf("%v, %v", family, ok)
	}
	own := vinylEster
	own.FailureStrain = laminate.Some(0.03)
	if got, ok := moduli.FailureStrain(lib, &own); !ok || got != 0.03 {
		t.Errorf("%v, %v", got, ok)
	}
	if _, ok := moduli.FailureStrain(nil, &vinylEster); ok {
		t.Error("a failure strain out of nothing")
	}
}
