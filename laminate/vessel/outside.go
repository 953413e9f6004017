package vessel

import "math"

// DomeSafety divides the modulus in Dome, as the standard prints it.
const DomeSafety = 5

// Dome is the outside pressure that a spherical cap, a hemisphere or the crown
// of a torisphere may bear: 0.36 (E/5) (t/Ro)², with the outside radius. It is
// 0.297 of the classical buckling pressure of a sphere, over 5.
//
// Source: ASTM D3299-18 6.2.2 eq. 5.
func Dome(e, t, radius float64) (allowable float64, ok bool) {
	if !usable(e, t, radius) {
		return 0, false
	}
	r := t / radius
	allowable = 0.36 * e / DomeSafety * r * r
	return allowable, sound(allowable)
}

// ClassicalSphere is the buckling pressure of a perfect sphere, 2E/√(3(1−ν²))
// (t/R)², which no real one reaches (textbook).
func ClassicalSphere(e, nu, t, radius float64) (pressure float64, ok bool) {
	if !usable(e, t, radius) || !(nu >= 0 && nu < 1) {
		return 0, false
	}
	r := t / radius
	pressure = 2 * e / math.Sqrt(3*(1-nu*nu)) * r * r
	return pressure, sound(pressure)
}

// crowns are the equivalent crown radii of ellipsoids over their outside
// diameter, by D/2h.
//
// Source: ASME VIII UG-33 (from memory).
var crowns = [][2]float64{{1, 0.50}, {1.2, 0.57}, {1.4, 0.65}, {1.6, 0.73}, {1.8, 0.81}, {2, 0.90}, {2.2, 0.99}, {2.4, 1.08}, {2.6, 1.18}}

// EllipsoidCrown is the radius of the dome that an ellipsoid is under outside
// pressure, over its outside diameter; not ok where D/2h is not 1 to 2.6.
//
// Source: ASME VIII UG-33 (from memory).
func EllipsoidCrown(diameter, depth float64) (share float64, ok bool) {
	if !usable(diameter, depth) {
		return 0, false
	}
	r := diameter / (2 * depth)
	if r < 1-1e-9 || r > 2.6+1e-9 {
		return 0, false
	}
	for i := 1; i < len(crowns); i++ {
		if a, b := crowns[i-1], crowns[i]; r <= b[0] || i == len(crowns)-1 {
			return a[1] + (b[1]-a[1])*(math.Min(math.Max(r, a[0]), b[0])-a[0])/(b[0]-a[0]), true
		}
	}
	return 0, false
}

// ConeAsCylinder gives the wall and the length of the cylinder, of the large
// end's diameter, that stands for a cone under outside pressure: t cos α and
// (L/2)(1 + Ds/Dl), with the axial length. A cone to a point has Ds 0.
//
// Source: ASME VIII UG-33(f) (from memory).
func ConeAsCylinder(t, halfAngle, length, small, large float64) (wall, free float64, ok bool) {
	if !usable(t, length, large) || !(small >= 0 && small < large) || !(halfAngle > 0 && halfAngle < math.Pi/2) {
		return 0, 0, false
	}
	return t * math.Cos(halfAngle), length / 2 * (1 + small/large), true
}
