package wall_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

type source struct {
	Source     string `json:"source"`
	FromMemory bool   `json:"from_memory"`
	Note       string `json:"note"`
}

// load reads a file of check values strictly and logs where they come from.
func load(t testing.TB, folder, name string, into any) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", folder, name))
	if err != nil {
		t.Fatal(err)
	}
	var head source
	if err := json.Unmarshal(b, &head); err != nil || head.Source == "" {
		t.Fatalf("%s names no source (%v)", name, err)
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	t.Log(head.Source)
}

func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6g, want %.6g ± %.2g", what, got, want, tol)
	}
}

var (
	in   = quantity.Inch
	ft   = quantity.Foot
	psi  = quantity.PSI
	degF = quantity.Fahrenheit
)

// pipe is a 12 in contact-molded pipe with a barrier of veil and two mats, and
// a structure of mat and woven roving.
func pipe(structure ...laminate.Ply) *laminate.Schedule {
	s := &laminate.Schedule{
		Part: laminate.Part{Form: laminate.Pipe, Process: laminate.ContactMolded, InsideDiameter: quantity.New(12, in),
			Length: quantity.New(20, ft), Ends: laminate.ClosedEnds},
		Service: laminate.Service{Temperature: quantity.New(100, degF), Pressure: quantity.New(50, psi), Vacuum: quantity.New(0, psi)},
		Resins: []laminate.Resin{
			{ID: "liner", Family: laminate.VinylEster},
			{ID: "wall", Family: laminate.VinylEster},
		},
		Plies: []laminate.Ply{
			{Material: catalog.VeilC15, Resin: "liner", Zone: laminate.InnerSurface, Count: 1},
			{Material: catalog.Mat15, Resin: "liner", Zone: laminate.InteriorLayer, Count: 2, GelAfter: true},
		},
	}
	s.Plies = append(s.Plies, structure...)
	return s
}

func ply(material string, count int) laminate.Ply {
	return laminate.Ply{Material: material, Resin: "wall", Zone: laminate.StructuralLayer, Count: count}
}

func wound(material string, angle float64, count int) laminate.Ply {
	p := ply(material, count)
	p.Angle = laminate.Some(angle)
	return p
}

// mixed is n woven rovings between mats.
func mixed(n int) []laminate.Ply {
	plies := []laminate.Ply{ply(catalog.Mat15, 1)}
	for range n {
		plies = append(plies, ply(catalog.Woven24, 1), ply(catalog.Mat15, 1))
	}
	return plies
}

func woundPipe(covers int) *laminate.Schedule {
	s := pipe(ply(catalog.Mat15, 1), wound(catalog.BandHelical, 55, covers))
	s.Part.Process = laminate.Wound
	return s
}

// tank is 10 ft across with 16 ft of a liquid of specific gravity 1.2.
func tank(structure ...laminate.Ply) *laminate.Schedule {
	s := pipe(structure...)
	s.Part = laminate.Part{Form: laminate.Tank, Process: laminate.ContactMolded, DesignBasis: laminate.StrainLimit,
		InsideDiameter: quantity.New(120, in), Length: quantity.New(18, ft), LiquidHeight: quantity.New(16, ft), Ends: laminate.ClosedEnds}
	s.Service = laminate.Service{Temperature: quantity.New(90, degF), SpecificGravity: laminate.Some(1.2), Pressure: quantity.New(0, psi), Vacuum: quantity.New(0, psi)}
	return s
}

func evaluate(s *laminate.Schedule, o wall.Options) *wall.Result {
	lib := catalog.Library()
	return wall.Evaluate(s, lib, laminate.Analyze(s, lib), o)
}

// failer is a test or a property of one.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

func criterion(t failer, r *wall.Result, name string) wall.Criterion {
	t.Helper()
	for _, c := range r.Criteria {
		if c.Name == name {
			return c
		}
	}
	t.Fatalf("no criterion %s; problem %q", name, r.Problem)
	return wall.Criterion{}
}

func loadCase(t testing.TB, r *wall.Result, name string) wall.Case {
	t.Helper()
	for _, c := range r.Cases {
		if c.Name == name {
			return c
		}
	}
	t.Fatalf("no case %s among %+v", name, r.Cases)
	return wall.Case{}
}
