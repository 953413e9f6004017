package wall

import (
	"cmp"
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall/form"
)

// facts are what the form of the part is asked with.
func (e *evaluation) facts() *form.Facts {
	f := &form.Facts{Part: &e.s.Part, Units: e.units, Whole: e.r.Whole, Structure: e.r.Thickness, Kept: e.kept, Pressure: e.flat, OneDepth: e.o.Depth > 0}
	if v, ok := positive(e.s.Service.Vacuum); ok {
		f.Vacuum = v
	}
	f.AllMat, f.Untabled = e.tabled()
	if e.moduliOpen() == "" {
		m, flex := &e.r.Membrane, e.lam.FreeBending()
		f.Modulus = math.Min(math.Min(m.Ex, m.Ey), math.Min(flex.Ex, flex.Ey))
	}
	return f
}

// weighed makes a criterion of what a form asks.
func (e *evaluation) weighed(name string, w form.Weighing) Criterion {
	c := Criterion{Name: name, Kind: w.Kind, Governs: true, Basis: w.Basis}
	switch {
	case w.Skip != "":
		c.skip(w.Skip)
	case w.Open != "":
		c.open(w.Open)
	case w.Wall && e.wholeOpen != "":
		c.open(e.wholeOpen)
	case w.Moduli && e.moduliOpen() != "":
		c.open(e.moduliOpen())
	default:
		switch {
		case w.Lift, w.Loads && e.s.Service.Vacuum.SI() > e.flat:
			c.Case = CaseVacuum
		case w.Inside, w.Loads:
			c.Case = e.flatCase
		}
		c.weigh(w.Demand, w.Capacity)
		if c.Judged() {
			c.Reason = w.Reason
		}
	}
	switch {
	case w.Loads:
		e.heed(&c)
	case w.Inside:
		e.heedInside(&c)
	case w.Lift:
		e.heed(&c, CaseVacuum)
	}
	return c
}

// special tells whether a part is more than a straight shell.
func (e *evaluation) special() bool {
	return e.form != form.Straight || form.Answers(e.s.Part.Form) != form.ByMembrane
}

// press notes the pressure on a part that is no round shell.
func (e *evaluation) press(pressure, head float64) {
	e.flat, e.flatCase = pressure+head, CasePressure
	if head > 0 {
		e.flatCase = CasePressureHead
	}
}

// ofForm are the criteria of a part by its form; of a round shell those of all
// shells and what its form adds.
func (e *evaluation) ofForm() (list []Criterion) {
	x := e.facts()
	if e.r.Rests != "" {
		return e.proved(x)
	}
	switch form.Answers(e.s.Part.Form) {
	case form.ByBending:
		list = []Criterion{e.weighed(PlateStress, x.PlateStress()), e.weighed(PlateDeflection, x.PlateDeflection()), e.modulus(), e.minimumThickness()}
	case form.ByBolts:
		list = []Criterion{e.weighed(FlangeThickness, x.FlangeThickness()), e.weighed(FlangeClass, x.FlangeClass()), e.weighed(BoltTorque, x.BoltTorque())}
	case form.ByGround:
		list = []Criterion{e.weighed(BottomSupport, x.Bottom()), e.weighed(HoldDown, x.HoldDown()), e.modulus(), e.minimumThickness()}
	case form.ByMembrane:
		list = append(slices.Grow(e.o.Room[:0], 10),
			e.strain(HoopStrain), e.strain(AxialStrain), e.strain(ResinStrain),
			e.strengthTable(), e.unitLoad(), e.external(), e.modulus(), e.minimumThickness())
		if c, asked := e.axialStrength(&list[3]); asked {
			list = append(list, c)
		}
		for i := range list {
			switch c := &list[i]; c.Name {
			case HoopStrain, AxialStrain, ResinStrain, HoopStrength, UnitLoad:
				e.shaped(c)
				if e.r.FormOpen != "" && c.Governs && c.Answer == NotApplicable { // nor does silence of the loads say that it holds
					c.open(e.r.FormOpen)
				}
			}
		}
	}
	if form.Stepped(&e.s.Part) {
		w := x.Step()
		if w.Open == "" {
			w.Open = e.round.open
		}
		list = append(list, e.weighed(StepLoad, w))
	}
	return list
}

// proved are the criteria of a part that rests on others. Where what they proved does
// not reach, its form stays open.
func (e *evaluation) proved(x *form.Facts) (list []Criterion) {
	inside, _ := e.unknown(CasePressure, CaseHead)
	vacuum, _ := e.unknown(CaseVacuum)
	checks := x.Proved(e.s.Service.Hottest().SI(), form.Softens(e.lib, e.a), e.a.Zones[laminate.StructuralLayer].Thickness, inside.Reason, vacuum.Reason)
	e.r.FormOpen = ""
	for i := range checks {
		c := e.weighed(checks[i].Name, x.Weighed(&checks[i]))
		if c.Answer != Holds && e.r.FormOpen == "" {
			e.r.FormOpen = e.r.Rests + "; what others proved does not reach: " + cmp.Or(checks[i].Says(e.units), c.Reason)
		}
		list = append(list, c)
	}
	if e.s.Part.Form == laminate.FlatBottom {
		list = append(list, e.weighed(HoldDown, x.HoldDown()))
	}
	return append(list, e.modulus(), e.minimumThickness())
}

// shaped adds to a criterion the factor it rests on.
func (e *evaluation) shaped(c *Criterion) {
	if e.form.Source != "" {
		c.Basis += "; " + e.form.Source
	}
	if e.form.How != "" && c.Judged() {
		if c.Reason != "" {
			c.Reason += "; "
		}
		c.Reason += e.form.How
	}
}
