package shell

import (
	"errors"
	"math"
	"strconv"
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
	default: // nothing of the others
	}
	return unitProperty{500e3, 28_000e3}
}

// Property gives strength and modulus of a kind in N/m per kg/m² of glass.
func (k UnitKind) Property() (strength, modulus float64) {
	p := k.property()
	return p.strength, p.modulus
}

// UnitGlass is the glass in kg/m² of each kind, by UnitKind.
type UnitGlass [unitKinds]float64

// UnitStiffness is what layers of glass bear per strain of 1, in N/m: the unit
// moduli of the standard, which are minima where micromechanics give what is
// typical.
//
// Source: BS 4994 (second-hand; unidirectional from memory).
func UnitStiffness(g UnitGlass) (stiffness float64) {
	for k := range unitKinds {
		stiffness += k.property().modulus * g[k]
	}
	return stiffness
}

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
	strain = math.Min(ResinMost, ResinShare*failureStrain)
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
