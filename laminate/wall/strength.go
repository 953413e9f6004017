package wall

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/shell"
)

// strengthTable asks for the wall of the ten-to-one strength table.
func (e *evaluation) strengthTable() Criterion {
	c := Criterion{Name: HoopStrength, Kind: quantity.Thickness, Governs: governedBy(&e.s.Part, laminate.StrengthTable),
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
			why := "the table is for contact-molded mat and woven roving; " + plyName(e.rows[i].figures) + " of form " + form.String() + " is neither"
			if c.Governs {
				c.open(why)
			} else {
				c.skip(why)
			}
			return c
		default: // nothing of the others
		}
	}
	if e.wholeOpen != "" {
		c.open(e.wholeOpen)
		return c
	}
	if at >= 0 {
		s := shell.TableStrength(e.r.Whole, allMat)
		c.Case = e.r.Cases[at].Name
		c.Reason = "S = " + e.units.Figure(s, quantity.Stress) + laid(allMat)
		c.weigh(e.loads[at].inside*2*e.round.inside*shell.TableSafety/(2*s), e.r.Whole)
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
