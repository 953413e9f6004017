package catalog_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
)

func load(t *testing.T, name string, into any) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "laminate", name))
	if err != nil {
		t.Fatal(err)
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

func TestLibrary_hasTheIdsDocumentsRelyOn(t *testing.T) {
	want := strings.Fields(`veil-c-10 veil-c-15 veil-polyester-15 veil-carbon-11 mat-0.75 mat-1.0 mat-1.5 mat-2.0
		chop-1.5 woven-18 woven-24 uni-13 band-hoop band-helical topcoat`)
	var got []string
	l := catalog.Library()
	for _, m := range l.Materials {
		got = append(got, m.ID)
		if found, ok := l.Material(nil, m.ID); !ok || found.ID != m.ID {
			t.Errorf("%s is not found by its id", m.ID)
		}
		if m.Name == "" || m.Source == "" {
			t.Errorf("%s has name %q and source %q", m.ID, m.Name, m.Source)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("ids %v, want %v", got, want)
	}
}

func TestLibrary_rackIsOfItsMaterials(t *testing.T) {
	l := catalog.Library()
	if len(l.Rack) != 9 {
		t.Errorf("rack of %d for nine digits", len(l.Rack))
	}
	for _, id := range l.Rack {
		if _, ok := l.Material(nil, id); !ok {
			t.Errorf("rack names %q", id)
		}
	}
}

func TestLibrary_isFresh(t *testing.T) {
	a := catalog.Library()
	a.Materials[0].ID, a.Rack[0] = "changed", "changed"
	if b := catalog.Library(); b.Materials[0].ID == "changed" || b.Rack[0] == "changed" {
		t.Error("a change in one library shows in the next")
	}
}

func TestLibrary_densitiesAreWithinTheRangesNamed(t *testing.T) {
	var file struct {
		Source string `json:"source"`
		Ranges []struct {
			Of     string  `json:"of"`
			Low    float64 `json:"low"`
			High   float64 `json:"high"`
			Source string  `json:"source"`
		} `json:"ranges"`
	}
	load(t, "densities.json", &file)
	l := catalog.Library()
	has := map[string]float64{}
	for _, f := range laminate.Families.All() {
		has[f.String()] = l.Families[f].Density.In(quantity.KilogramPerCubicMeter)
	}
	for _, f := range laminate.Fibers.All() {
		has[f.String()] = l.Fibers[f].Density.In(quantity.KilogramPerCubicMeter)
	}
	for _, f := range laminate.Fillers.All() {
		has[f.String()] = l.Fillers[f].Density.In(quantity.KilogramPerCubicMeter)
	}
	if len(file.Ranges) != len(has) {
		t.Errorf("%d ranges for %d densities", len(file.Ranges), len(has))
	}
	ranges := map[string][2]float64{}
	for _, r := range file.Ranges {
		ranges[r.Of] = [2]float64{r.Low, r.High}
		if d, ok := has[r.Of]; !ok || d < r.Low-1e-6 || d > r.High+1e-6 || r.Source == "" {
			t.Errorf("%s: %v kg/m³, range %v to %v (%s)", r.Of, d, r.Low, r.High, r.Source)
		}
	}
	for _, m := range l.Materials {
		if m.Form == laminate.ResinCoat {
			continue
		}
		d, ok := l.FiberDensity(&m)
		if r := ranges[m.Fiber.String()]; !ok || d < r[0]-1e-6 || d > r[1]+1e-6 {
			t.Errorf("%s: fiber %v kg/m³, range %v", m.ID, d, r)
		}
	}
}

func TestLibrary_everyFigureHasASource(t *testing.T) {
	l := catalog.Library()
	for _, f := range laminate.Families.All() {
		d := l.Families[f]
		gpa := d.Modulus.In(quantity.Gigapascal)
		if d.Source == "" || gpa < 3.0 || gpa > 3.4+1e-9 || d.Poisson != 0.36 || d.FailureStrain < 0.01 || d.FailureStrain > 0.06 {
			t.Errorf("%v: %+v", f, d)
		}
	}
	for _, f := range laminate.Fibers.All() {
		if d := l.Fibers[f]; d.Source == "" || !d.Modulus.Given() || d.Poisson <= 0 {
			t.Errorf("%v: %+v", f, d)
		}
	}
	for _, f := range laminate.Fillers.All() {
		if l.Fillers[f].Source == "" {
			t.Errorf("%v has no source", f)
		}
	}
}

func TestLibrary_buildsComeNearTheStandardFigures(t *testing.T) {
	var file struct {
		Source    string  `json:"source"`
		Memory    bool    `json:"from_memory"`
		Tolerance float64 `json:"relative_tolerance"`
		Why       string  `json:"why_tolerance"`
		Builds    []struct {
			Name      string   `json:"name"`
			Plies     []string `json:"plies"`
			Thickness float64  `json:"thickness_in"`
		} `json:"builds"`
	}
	load(t, "standard-builds.json", &file)
	for _, b := range file.Builds {
		s := &laminate.Schedule{Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}}}
		for _, id := range b.Plies {
			s.Plies = append(s.Plies, laminate.Ply{Material: id, Resin: "r", Count: 1})
		}
		a := laminate.Analyze(s, catalog.Library())
		if got := a.Total.Thickness / 0.0254; !a.Total.MassKnown || math.Abs(got/b.Thickness-1) > file.Tolerance {
			t.Errorf("%s: %.3f in, standard %.3f in", b.Name, got, b.Thickness)
		}
	}
}

// Common practice, no source: a veil ply is about 0.015 in at 90 % resin, one
// veil and two mats are called 100 mil, two and four 200 mil.
func TestLibrary_barriersReachTheirNominalThickness(t *testing.T) {
	for _, veil := range []string{catalog.VeilC15, catalog.VeilPolyester15} {
		for n, mil := range map[int]float64{1: 100, 2: 200} {
			s := &laminate.Schedule{Resins: []laminate.Resin{{ID: "r", Family: laminate.NovolacVinylEster}}, Plies: []laminate.Ply{
				{Material: veil, Resin: "r", Count: n}, {Material: catalog.Mat15, Resin: "r", Count: 2 * n}}}
			a := laminate.Analyze(s, catalog.Library())
			if got := a.Barrier.Thickness / 25.4e-6; got < mil || got > 1.2*mil {
				t.Errorf("%d × %s barrier: %.1f mil for a nominal %v", n, veil, got, mil)
			}
			if each := a.Rows[0].Thickness / 25.4e-6; math.Abs(each-15) > 0.5 {
				t.Errorf("%s: %.2f mil", veil, each)
			}
		}
	}
}

func TestUsualAngle_isOfBandsAlone(t *testing.T) {
	for _, m := range catalog.Library().Materials {
		if _, ok := catalog.UsualAngle(m.ID); ok != (m.Form == laminate.RovingBand) {
			t.Errorf("%s: usual angle %v", m.ID, ok)
		}
	}
}
