package wall

import (
	"errors"
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

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

// safety is the ratio of strength to stress that the table asks for.
const safety = 10

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
	if least := pressure * diameter * safety / (2 * TableStrength(most, allMat)); least < most {
		start = math.Max(start, math.Floor(least/(inch/16))-1)
	} else {
		return 0, errors.New("wall by the strength table: no wall thinner than its radius holds the pressure")
	}
	for n := start; ; n++ {
		t := n * inch / 16
		if t >= most {
			return 0, errors.New("wall by the strength table: no wall thinner than its radius holds the pressure")
		}
		if !exceeds(pressure*diameter*safety/(2*TableStrength(t, allMat)), t) {
			return t, nil
		}
	}
}

// strengthTable asks for the wall of the ten-to-one strength table.
func (e *evaluation) strengthTable() Criterion {
	c := Criterion{Name: HoopStrengthMinimum, Unit: "m", Decides: decidedBy(&e.s.Part, laminate.StrengthTable),
		Basis: "t = pD/(2 S/10) of the whole wall, S the least tensile strength by thickness (NBS PS 15-69; ASTM C582 type I for mat; from memory)"}
	at := e.mostInside()
	if at < 0 && !e.insideOpen() {
		c.skip("no pressure or head from inside is given")
		return c
	}
	if len(e.rows) == 0 {
		c.open(e.r.Problem)
		return c
	}
	allMat := true
	for i := range e.rows {
		switch form := e.rows[i].figures.Material.Form; form {
		case laminate.WovenRoving:
			allMat = false
		case laminate.RovingBand, laminate.Unidirectional, laminate.Lamina:
			why := "the table is for contact-molded mat and woven roving; " + plyName(e.rows[i].figures) + " is " + form.String()
			if c.Decides {
				c.open(why)
			} else {
				c.skip(why)
			}
			return c
		}
	}
	if e.wholeOpen != "" {
		c.open(e.wholeOpen)
		return c
	}
	if at >= 0 {
		s := TableStrength(e.r.Whole, allMat)
		c.Case = e.r.Cases[at].Name
		c.Reason = "S = " + stress(s, e.s.Units) + laid(allMat)
		c.weigh(e.loads[at].inside*2*e.shell.inside*safety/(2*s), e.r.Whole)
	}
	e.heedInside(&c)
	return c
}

func laid(allMat bool) string {
	if allMat {
		return ", a wall all of mat"
	}
	return ", a wall of mat and woven roving"
}

// stress spells a strength for a reason: "9000 psi", "62.1 MPa".
func stress(pa float64, u quantity.System) string {
	if u == quantity.Metric {
		return quantity.New(pa, quantity.Pascal).Format(quantity.Megapascal, 1)
	}
	return quantity.New(pa, quantity.Pascal).Format(quantity.PSI, 0)
}
