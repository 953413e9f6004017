package wall

import (
	"math"
	"slices"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/shell"
)

// unitLoad judges the wall by unit loads, round it and along it.
func (e *evaluation) unitLoad() Criterion {
	c := Criterion{Name: UnitLoad, Kind: quantity.LineLoad, Governs: governedBy(&e.s.Part, laminate.UnitLoad),
		Basis: "unit loads of layers sharing one strain, K = 3 k1 k2 k3 k4 k5 (BS 4994, second-hand; unidirectional plies from memory)"}
	loaded := func(l applied) bool { return l.judged && (l.hoop > 0 || l.axial > 0) } // a dry course, by what hangs from it
	if !slices.ContainsFunc(e.loads, loaded) && !e.insideOpen() {
		c.skip("no pressure or head from inside is given")
		return c
	}
	unfit := c.skip
	if c.Governs {
		unfit = c.open
	}
	k := &e.s.Part.KFactors
	if !k.Given {
		unfit("the five partial factors are not given (k_factors)")
		return c
	}
	factor, err := shell.DesignFactor(k.Values)
	if err != nil {
		unfit(err.Error() + " (k_factors)")
		return c
	}
	if len(e.rows) == 0 {
		c.open(e.r.Problem)
		return c
	}
	hoop, axial, all, why := e.unitGlass()
	if why != "" {
		unfit(why)
		return c
	}
	if e.warmOpen != "" {
		c.open(e.warmOpen)
		return c
	}
	failure, why := e.failureStrain()
	if why != "" {
		c.open(why)
		return c
	}
	roundAbout, strain, err := shell.UnitCapacity(factor, failure, all, hoop)
	if err != nil {
		c.open(err.Error())
		return c
	}
	along, _, err := shell.UnitCapacity(factor, failure, all, axial)
	if err != nil {
		c.open(err.Error())
		return c
	}
	// Strength is taken to fall with warmth as stiffness does.
	roundAbout, along = roundAbout*e.kept, along*e.kept
	for i := range e.loads {
		if l := e.loads[i]; loaded(l) {
			e.unitCase(&c, i, "round the wall", l.hoop, roundAbout)
			e.unitCase(&c, i, "along the axis", l.axial, along)
		}
	}
	if c.Answer == Holds || c.Answer == Fails {
		c.Reason += "; K = 3"
		for _, v := range k.Values {
			c.Reason += " × " + strconv.FormatFloat(v, 'g', 4, 64)
		}
		c.Reason += " = " + strconv.FormatFloat(factor, 'g', 4, 64) + e.warmShare() + ", allowable strain " + strconv.FormatFloat(100*strain, 'g', 3, 64) + " %"
	}
	e.heedInside(&c)
	return c
}

// warmShare says what of its strength a warm wall is taken to keep.
func (e *evaluation) warmShare() string {
	if e.kept < 1 {
		return ", of which the warm wall keeps " + quantity.Share(e.kept)
	}
	return ""
}

// unitCase keeps the direction and case that use most of the wall.
func (e *evaluation) unitCase(c *Criterion, at int, direction string, demand, capacity float64) {
	if demand <= 0 || c.Answer == Incomplete {
		return
	}
	if capacity <= 0 {
		c.Case = e.r.Cases[at].Name
		c.open("no layer that counts carries load " + direction + " by this method")
		return
	}
	n := *c
	n.Case, n.Reason = e.r.Cases[at].Name, direction
	n.weigh(demand, capacity)
	if c.Answer == NotApplicable || n.Ratio > c.Ratio || n.Answer == Incomplete {
		*c = n
	}
}

// unitGlass sums the glass that carries round the wall and along it, and all
// that limits strain.
func (e *evaluation) unitGlass() (hoop, axial, all shell.UnitGlass, why string) {
	for i := range e.rows {
		r := &e.rows[i]
		f, m := r.figures, r.figures.Material
		if m.Form == laminate.Veil || m.Form == laminate.ResinCoat {
			continue
		}
		if m.Form == laminate.Lamina || !m.Fiber.Glass() {
			return hoop, axial, all, "unit properties are for mat, woven roving and rovings of glass; " + plyName(f) + " is none of them"
		}
		mass := f.GlassMass * float64(r.ply.Count)
		angle := math.Abs(r.angle)
		kind, round, along := shell.UnitUnidirectional, angle >= laminate.HoopFrom && angle <= 95, angle == 0
		switch m.Form {
		case laminate.ChoppedMat, laminate.SprayedChop:
			kind, round, along = shell.UnitMat, true, true
		case laminate.WovenRoving:
			kind, round = shell.UnitWoven, angle == 0 || angle == 90
			along = round
		default: // nothing of the others
		}
		if !round && !along {
			return hoop, axial, all, "unit properties are known along the axis and round the wall only; " + plyName(f) + " lies at another angle"
		}
		all[kind] += mass
		if round {
			hoop[kind] += mass
		}
		if along {
			axial[kind] += mass
		}
	}
	return hoop, axial, all, ""
}
