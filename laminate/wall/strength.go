package wall

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/laminate/wall/shell"
)

// strengthTable asks for the wall of the ten-to-one strength table.
func (e *evaluation) strengthTable() Criterion {
	c := Criterion{Name: HoopStrength, Kind: quantity.Thickness, Governs: governedBy(&e.s.Part, laminate.StrengthTable),
		Basis: "t = pD/(2 S/10), S the least tensile strength by thickness (NBS PS 15-69; ASTM C582 type I for mat; from memory)"}
	at := e.mostInside()
	if at < 0 && !e.insideOpen() {
		c.skip("no pressure or head from inside is given")
		return c
	}
	if len(e.rows) == 0 {
		c.open(e.r.Problem)
		return c
	}
	unfit := c.skip
	if c.Governs {
		unfit = c.open
	}
	allMat, why := e.tabled()
	if why != "" {
		unfit(why)
		return c
	}
	if e.wholeOpen != "" {
		c.open(e.wholeOpen)
		return c
	}
	if e.warmOpen != "" {
		c.open(e.warmOpen)
		return c
	}
	if at >= 0 {
		t, of := e.tableThickness()
		s := shell.TableStrength(t, allMat)
		c.Case = e.r.Cases[at].Name
		c.Reason = "S = " + e.units.Figure(s, quantity.Stress) + laid(allMat)
		s *= e.kept
		c.Reason += e.warmShare() + "; " + of
		c.weigh(e.form.Hoop*e.loads[at].inside*2*e.round.inside*shell.TableSafety/(2*s), t)
	}
	e.heedInside(&c)
	return c
}

// axialStrength asks the same along the axis where that asks for more of the wall than
// what presses round it, which round judges.
func (e *evaluation) axialStrength(round *Criterion) (c Criterion, asked bool) {
	at, most := -1, 0.0
	for i := range e.loads {
		if l := &e.loads[i]; l.judged {
			if most = max(most, l.hoop); at < 0 || l.axial > e.loads[at].axial {
				at = i
			}
		}
	}
	if !round.Governs || at < 0 || e.form.Apart && e.s.Part.Place.Axial == 0 {
		return c, false
	}
	w := e.facts().Along(e.loads[at].axial, most)
	if w.Skip != "" {
		return c, false
	}
	if w.Open == "" {
		w.Open = e.warmOpen
	}
	if c = e.weighed(AxialStrength, w); c.Judged() {
		c.Case = e.r.Cases[at].Name
	}
	return c, !round.Judged() || !c.Judged() || c.Ratio > round.Ratio
}

// tabled tells whether the structure is of mat alone, and why the strength table does
// not know it, "" where it does.
func (e *evaluation) tabled() (allMat bool, why string) {
	allMat = true
	for i := range e.rows {
		m := e.rows[i].figures.Material
		allMat = allMat && m.Form != laminate.WovenRoving
		if not := form.Untabled(e.rows[i].figures); not != "" && why == "" {
			why = "the strength table is for contact-molded mat and woven roving of glass; " + plyName(e.rows[i].figures) + not
		}
	}
	return allMat, why
}

// tableThickness is what the strength table counts, in m: the structure and of
// the barrier at most the table's own surface; in severe service the structure alone
// (ASTM D3299-18 6.1.3 eq. 2, of a tank's shell) of all that holds the liquid of a tank:
// its side, its courses, and the heads and cones that close it. Pipes, ducts and what of
// a line is between them are of a table that counts its own surface.
func (e *evaluation) tableThickness() (t float64, of string) {
	t = e.a.Zones[laminate.StructuralLayer].Thickness
	barrier := e.a.Barrier.Thickness
	switch {
	case barrier == 0:
		return t, "the structure is counted"
	case form.Holds(e.s.Part.Form) && !e.s.Part.Place.Line && service.Severe(&e.s.Service) && !e.o.CountBarrier:
		of = "the structure alone is counted, a tank in severe service (ASTM D3299-18 6.1.3"
		if e.s.Part.Form == laminate.HeadPart || e.s.Part.Form == laminate.Cone {
			of += " of its shell, taken for what closes it"
		}
		return t, of + ")"
	case quantity.Above(barrier, shell.TableSurface):
		return t + shell.TableSurface, "the structure and " + e.units.Thickness(shell.TableSurface) + " of the barrier are counted, the table's own surface"
	}
	return t + barrier, "the structure and the barrier are counted, which is no more than the table's own surface"
}

func laid(allMat bool) string {
	if allMat {
		return ", a wall all of mat"
	}
	return ", a wall of mat and woven roving"
}
