package takeoff

import (
	"errors"
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/surface"
)

// Kind is what a piece is.
type Kind uint8

// The kinds.
const (
	Part Kind = iota
	Joint
	Nozzle
)

// Piece is a laminate and what it is laid on.
type Piece struct {
	Name     string // "" for the one of a schedule
	Kind     Kind
	Count    int                // how many alike
	Schedule *laminate.Schedule // plies, resins, materials
	Ground   Ground
	Missing  error // why the ground is not known
}

// Ground is what plies are laid on.
type Ground struct {
	// Area gives the area of the single ply i, counted from 0, whose middle
	// lies z m outside the face that the first ply is laid on.
	Area func(i int, z float64) (float64, error)
	// Diameter and Length are those of a tube, round which strips close; 0
	// for all else. Disc is the diameter of a disc.
	Diameter, Length, Disc float64
	Curved                 bool // does not unroll
}

// Tube is the ground of a straight tube, by its inside diameter and length.
func Tube(diameter, length float64) Ground {
	return Ground{Diameter: diameter, Length: length, Area: func(_ int, z float64) (float64, error) { return surface.Cylinder(diameter+2*z, length) }}
}

// Flat is the ground of a flat part of any outline.
func Flat(area float64) Ground {
	return Ground{Area: func(int, float64) (float64, error) { return area, nil }}
}

// Disc is the ground of a round flat part.
func Disc(diameter float64) Ground {
	area := math.Pi / 4 * diameter * diameter
	g := Flat(area)
	g.Disc = diameter
	return g
}

// Of is the one piece that a schedule is. The ends of a tank are not in it.
func Of(s *laminate.Schedule) Piece {
	p := Piece{Count: 1, Schedule: s}
	p.Ground, p.Missing = plain(&s.Part)
	return p
}

// plain is the ground of the forms that schedules have.
func plain(p *laminate.Part) (Ground, error) {
	if p.Form == laminate.Panel {
		if !p.Area.Given() {
			return Ground{}, errors.New("the area is not stated (area)")
		}
		return Flat(p.Area.SI()), nil
	}
	if !p.InsideDiameter.Given() {
		return Ground{}, errors.New("the inside diameter is not stated (inside_diameter)")
	}
	if !p.Length.Given() {
		return Ground{}, errors.New("the length is not stated (length)")
	}
	return Tube(p.InsideDiameter.SI(), p.Length.SI()), nil
}
