package wall

import (
	"errors"
	"math"
	"strconv"

	"frp/veilwright/laminate"
)

// UnitKind is a kind of layer with unit properties of its own.
type UnitKind uint8

// The kinds.
const (
	UnitMat            UnitKind = iota // chopped mat and sprayed chop
	UnitWoven                          // woven roving
	UnitUnidirectional                 // along its fiber
	unitKinds
)

// unit properties, N/m per kg/m² of glass.
type unitProperty struct{ strength, modulus float64 }

// property of a kind.
//
// Source: BS 4994 (second-hand; unidirectional from memory): ultimate tensile
// unit strength 200, 250 and 500 N/mm per kg/m², unit modulus 14 000, 16 000 and
// 28 000.
func (k UnitKind) property() unitProperty {
	switch k {
	case UnitMat:
		return unitProperty{200e3, 14_000e3}
	case UnitWoven:
		return unitProperty{250e3, 16_000e3}
	}
	return unitProperty{500e3, 28_000e3}
}

// UnitGlass is the glass in kg/m² of each kind, by UnitKind.
type UnitGlass [unitKinds]float64

// DesignFactor is K = 3 k1 k2 k3 k4 k5 (BS 4994, second-hand); the error says
// that a factor is no positive number.
func DesignFactor(k [5]float64) (float64, error) {
	product := 3.0
	for i, v := range k {
		if !(v > 0 && v <= 1e6) {
			return 0, errors.New("design factor: k" + strconv.Itoa(i+1) + " must be a positive number")
		}
		product *= v
	}
	return product, nil
}

// UnitCapacity is the line load in N/m that layers sharing one strain may carry
// under the design factor K, and that strain: the least of (unit strength / K) /
// unit modulus over the kinds that limit, of 0.1 of the resin's failure strain
// (a ratio) and of 0.2 %; the load is the sum of unit modulus times strain times
// glass over what carries.
//
// Source: BS 4994 (second-hand). The error names what is no positive number.
func UnitCapacity(factor, failureStrain float64, limits, carries UnitGlass) (load, strain float64, err error) {
	if !usable(factor, failureStrain) {
		return 0, 0, errors.New("unit load: design factor and failure strain must be positive numbers")
	}
	strain = math.Min(resinMost, resinShare*failureStrain)
	stiffness := 0.0
	for k := range unitKinds {
		p := k.property()
		if !(limits[k] >= 0 && limits[k] <= 1e6 && carries[k] >= 0 && carries[k] <= 1e6) {
			return 0, 0, errors.New("unit load: glass must lie between 0 and 1e6 kg/m²")
		}
		if limits[k] > 0 || carries[k] > 0 {
			strain = math.Min(strain, p.strength/factor/p.modulus)
		}
		stiffness += p.modulus * carries[k]
	}
	return stiffness * strain, strain, nil
}

// unitLoad judges the wall by unit loads, round it and along it.
func (e *evaluation) unitLoad() Criterion {
	c := Criterion{Name: UnitLoad, Unit: "N/m", Decides: decidedBy(&e.s.Part, laminate.UnitLoad),
		Basis: "unit loads of layers sharing one strain, K = 3 k1 k2 k3 k4 k5 (BS 4994, second-hand)"}
	if e.mostInside() < 0 && !e.insideOpen() {
		c.skip("no pressure or head from inside is given")
		return c
	}
	unfit := c.skip
	if c.Decides {
		unfit = c.open
	}
	k := &e.s.Part.KFactors
	if !k.Given {
		unfit("the five partial factors are not given (k_factors)")
		return c
	}
	factor, err := DesignFactor(k.Values)
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
	failure, why := e.failureStrain()
	if why != "" {
		c.open(why)
		return c
	}
	roundAbout, strain, err := UnitCapacity(factor, failure, all, hoop)
	if err != nil {
		c.open(err.Error())
		return c
	}
	along, _, err := UnitCapacity(factor, failure, all, axial)
	if err != nil {
		c.open(err.Error())
		return c
	}
	for i := range e.loads {
		l := &e.loads[i]
		if !l.judged || l.inside <= 0 {
			continue
		}
		e.unitCase(&c, i, "round the wall", l.hoop, roundAbout)
		e.unitCase(&c, i, "along the axis", l.axial, along)
	}
	if c.Tell == Holds || c.Tell == Fails {
		c.Reason += "; K = 3"
		for _, v := range k.Values {
			c.Reason += " × " + strconv.FormatFloat(v, 'g', 4, 64)
		}
		c.Reason += " = " + strconv.FormatFloat(factor, 'g', 4, 64) + ", allowable strain " + strconv.FormatFloat(100*strain, 'g', 3, 64) + " %"
	}
	e.heedInside(&c)
	return c
}

// unitCase keeps the direction and case that use most of the wall.
func (e *evaluation) unitCase(c *Criterion, at int, direction string, demand, capacity float64) {
	if demand <= 0 || c.Tell == CannotTell {
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
	if c.Tell == NotApplicable || n.Ratio > c.Ratio || n.Tell == CannotTell {
		*c = n
	}
}

// unitGlass sums the glass that carries round the wall and along it, and all
// that limits strain.
func (e *evaluation) unitGlass() (hoop, axial, all UnitGlass, why string) {
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
		kind, round, along := UnitUnidirectional, angle >= hoopFrom && angle <= 95, angle == 0
		switch m.Form {
		case laminate.ChoppedMat, laminate.SprayedChop:
			kind, round, along = UnitMat, true, true
		case laminate.WovenRoving:
			kind, round = UnitWoven, angle == 0 || angle == 90
			along = round
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
