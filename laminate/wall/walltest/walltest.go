// Package walltest builds the walls that tests of the structure are about.
package walltest

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

// Pipe is a 12 in contact-molded pipe with a barrier of veil and two mats, and
// a structure of mat and woven roving.
func Pipe(structure ...laminate.Ply) *laminate.Schedule {
	s := &laminate.Schedule{
		Part: laminate.Part{Form: laminate.Pipe, Process: laminate.ContactMolded, InsideDiameter: quantity.New(12, quantity.Inch),
			Length: quantity.New(20, quantity.Foot), Ends: laminate.ClosedEnds},
		Service: laminate.Service{Temperature: quantity.New(100, quantity.Fahrenheit), Pressure: quantity.New(50, quantity.PSI), Vacuum: quantity.New(0, quantity.PSI)},
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

// Ply is a row of the structure.
func Ply(material string, count int) laminate.Ply {
	return laminate.Ply{Material: material, Resin: "wall", Zone: laminate.StructuralLayer, Count: count}
}

// Wound is one at an angle in degrees.
func Wound(material string, angle float64, count int) laminate.Ply {
	p := Ply(material, count)
	p.Angle = laminate.Some(angle)
	return p
}

// Mixed is n woven rovings between mats.
func Mixed(n int) []laminate.Ply {
	plies := []laminate.Ply{Ply(catalog.Mat15, 1)}
	for range n {
		plies = append(plies, Ply(catalog.Woven24, 1), Ply(catalog.Mat15, 1))
	}
	return plies
}

// WoundPipe is Pipe with helical covers over a bond mat.
func WoundPipe(covers int) *laminate.Schedule {
	s := Pipe(Ply(catalog.Mat15, 1), Wound(catalog.BandHelical, 55, covers))
	s.Part.Process = laminate.Wound
	return s
}

// Tank is 10 ft across with 16 ft of a liquid of specific gravity 1.2.
func Tank(structure ...laminate.Ply) *laminate.Schedule {
	s := Pipe(structure...)
	s.Part = laminate.Part{Form: laminate.Tank, Process: laminate.ContactMolded, DesignBasis: laminate.StrainLimit,
		InsideDiameter: quantity.New(120, quantity.Inch), Length: quantity.New(18, quantity.Foot), LiquidHeight: quantity.New(16, quantity.Foot), Ends: laminate.ClosedEnds}
	s.Service = laminate.Service{Temperature: quantity.New(90, quantity.Fahrenheit), SpecificGravity: laminate.Some(1.2), Pressure: quantity.New(0, quantity.PSI), Vacuum: quantity.New(0, quantity.PSI)}
	return s
}

// Evaluate evaluates a wall with the built-in library.
func Evaluate(s *laminate.Schedule, o wall.Options) *wall.Result {
	lib := catalog.Library()
	return wall.Evaluate(s, lib, laminate.Analyze(s, lib), o)
}

// failer is a test or a property of one.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

// Criterion finds a criterion by its name.
func Criterion(t failer, r *wall.Result, name string) wall.Criterion {
	t.Helper()
	for _, c := range r.Criteria {
		if c.Name == name {
			return c
		}
	}
	t.Fatalf("no criterion %s; problem %q", name, r.Problem)
	return wall.Criterion{}
}
