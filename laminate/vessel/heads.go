package vessel

import "math"

// Under pressure p from inside a part of inside diameter D has to carry the line
// load factor × p D/2, so that a wall of allowable stress S is factor × p D/(2 S)
// thick. These are the factors, in the form of ASME VIII and RTP-1 (from
// memory; shape factors are of every handbook of shells). They are shape factors
// of thickness and no analysis: a knuckle of a thin plastic head bends more than
// they say.

// Hemisphere is ½: t = p R/(2 S).
const Hemisphere = 0.5

// Ellipsoid is K = ⅙ (2 + (D/2h)²) of a head h deep over a diameter D; 1 at 2:1.
// Not ok where D/2h is above 2.6, beyond which nobody gives the factor.
//
// Source: ASME VIII (from memory).
func Ellipsoid(diameter, depth float64) (factor float64, ok bool) {
	if !usable(diameter, depth) {
		return 0, false
	}
	r := diameter / (2 * depth)
	factor = (2 + r*r) / 6
	return factor, r <= 2.6*(1+1e-9) && sound(factor)
}

// Torisphere is M L/D, M = ¼ (3 + √(L/r)) of a head with the crown radius L and
// the knuckle radius r. Not ok where L is above D or r below 0.06 D, the limits
// of its use.
//
// Source: ASME VIII (from memory).
func Torisphere(diameter, crown, knuckle float64) (factor float64, ok bool) {
	if !usable(diameter, crown, knuckle) {
		return 0, false
	}
	factor = TorisphereM(crown, knuckle) * crown / diameter
	within := crown <= diameter*(1+1e-9) && knuckle >= 0.06*diameter*(1-1e-9) && knuckle <= crown*(1+1e-9)
	return factor, within && sound(factor)
}

// TorisphereM is M = ¼ (3 + √(L/r)), on the crown radius.
func TorisphereM(crown, knuckle float64) float64 { return (3 + math.Sqrt(crown/knuckle)) / 4 }

// Cone is 1/cos α at the diameter looked at, α the half-angle at the apex. Not
// ok above 30°: such a cone needs a knuckle that is figured by itself.
//
// Source: ASME VIII (from memory); membrane theory.
func Cone(halfAngle float64) (factor float64, ok bool) {
	if !(halfAngle > 0 && halfAngle < math.Pi/2*(1-1e-9)) {
		return 0, false
	}
	factor = 1 / math.Cos(halfAngle)
	return factor, halfAngle <= math.Pi/6*(1+1e-9)
}

// Elbow gives the factors on the hoop load of a straight pipe at the inside and
// the outside of a smooth bend: (4 Rb/D − 1)/(4 Rb/D − 2) and (4 Rb/D + 1)/(4
// Rb/D + 2), the bend radius of the center line over the mean diameter.
//
// Source: Lorenz; ASME B31.3 304.2.1 (from memory).
func Elbow(bend, diameter float64) (inside, outside float64, ok bool) {
	if !usable(bend, diameter) || 4*bend/diameter <= 2*(1+1e-9) {
		return 0, 0, false
	}
	x := 4 * bend / diameter
	inside, outside = (x-1)/(x-2), (x+1)/(x+2)
	return inside, outside, sound(inside)
}

// Miter is the half-angle of a mitered elbow that turns by turn in that many
// joints, and the length of its center line: 2 n Rb tan θ (geometry).
func Miter(turn, bend float64, joints int) (half, length float64, ok bool) {
	if joints < 1 || !usable(turn, bend) {
		return 0, 0, false
	}
	half = turn / (2 * float64(joints))
	if half >= math.Pi/2*(1-1e-9) {
		return 0, 0, false
	}
	length = 2 * float64(joints) * bend * math.Tan(half)
	return half, length, sound(length)
}

// PointLoad is how far a shallow spherical cap gives way under a force at its
// top: (√3/4) √(1 − ν²) P R/(E t²), with the crown radius and the thickness; an
// upper bound where the force is spread.
//
// Source: Reissner 1946 (from memory); the constant is 0.4131 at ν 0.3.
func PointLoad(force, radius, e, nu, t float64) (deflection float64, ok bool) {
	if !usable(force, radius, e, t) || !(nu >= 0 && nu < 1) {
		return 0, false
	}
	deflection = math.Sqrt(3) / 4 * math.Sqrt(1-nu*nu) * force * radius / (e * t * t)
	return deflection, sound(deflection)
}
