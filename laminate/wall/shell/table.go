package shell

import (
	"errors"
	"math"

	"frp/veilwright/laminate/quantity"
)

const inch = 0.0254 // m

// TableStrength is the least tensile strength in Pa that a contact-molded
// laminate of mat and woven roving of the given thickness (m) is taken to have:
// 9 000 psi below 1/4 in, 12 000 from there, 13 500 from 5/16 in, 15 000 from
// 3/8 in. A laminate all of mat stays at 9 000 at any thickness.
//
// Source: NBS PS 15-69; ASTM C582 type I for mat (both from memory).
func TableStrength(thickness float64, allMat bool) float64 {
	psi := 9_000.0
	switch {
	case allMat || quantity.Below(thickness, inch/4):
	case quantity.Below(thickness, 5*inch/16):
		psi = 12_000
	case quantity.Below(thickness, 3*inch/8):
		psi = 13_500
	default:
		psi = 15_000
	}
	return quantity.New(psi, quantity.PSI).SI()
}

// TableSafety is the ratio of strength to stress that the table asks for.
const TableSafety = 10

// TableSurface is how much of a corrosion barrier the table counts, in m: the
// resin-rich surface that its laminates have (NBS PS 15-69, from memory).
const TableSurface = 0.1 * inch

// TableWall is the least whole wall in m, in sixteenths of an inch from 3/16,
// that holds a pressure (Pa) in a contact-molded pipe of the given inside
// diameter (m): t = pD/(2 S/10), S by TableStrength.
//
// Source: NBS PS 15-69 (from memory). The error says which figure is no
// positive number, or that no wall thinner than its radius does.
func TableWall(pressure, diameter float64, allMat bool) (float64, error) {
	if !usable(pressure, diameter) {
		return 0, errors.New("wall by the strength table: pressure and diameter must be positive numbers")
	}
	most := diameter / 2
	// Mat alone needs the thickest wall; no need to count up to it in vain.
	start := 3.0
	if least := pressure * diameter * TableSafety / (2 * TableStrength(most, allMat)); least < most {
		start = math.Max(start, math.Floor(least/(inch/16))-1)
	} else {
		return 0, errors.New("wall by the strength table: no wall thinner than its radius holds the pressure")
	}
	for n := start; ; n++ {
		t := n * inch / 16
		if t >= most {
			return 0, errors.New("wall by the strength table: no wall thinner than its radius holds the pressure")
		}
		if !quantity.Above(pressure*diameter*TableSafety/(2*TableStrength(t, allMat)), t) {
			return t, nil
		}
	}
}
