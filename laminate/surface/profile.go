package surface

import "math"

// EllipsoidAt is how high half an ellipsoid of radius a and depth b stands above
// its rim at x from its axis, in the unit of its sizes: b √(1 − (x/a)²). No
// number beyond the rim.
func EllipsoidAt(a, b, x float64) float64 { return b * math.Sqrt(1-x/a*(x/a)) }

// TorisphereAt is how high a dish of crown radius L with the knuckle radius r
// stands above its rim of diameter D at x from its axis: in the crown its depth
// less L − √(L² − x²), in the knuckle √(r² − (x − D/2 + r)²). No number beyond
// the rim, or where L, r and D make no such dish.
func TorisphereAt(diameter, crown, knuckle, x float64) float64 {
	h, err := Torisphere(diameter, crown, knuckle)
	if err != nil {
		return math.NaN()
	}
	if x <= CrownRim(diameter, crown, knuckle) {
		return h.Depth - x*x/(crown+math.Sqrt(crown*crown-x*x))
	}
	out := x - diameter/2 + knuckle
	return math.Sqrt(knuckle*knuckle - out*out)
}

// CrownRim is the radius at which the crown of a dish goes over into its
// knuckle: L (D/2 − r)/(L − r), in the unit of its sizes.
func CrownRim(diameter, crown, knuckle float64) float64 {
	return crown * (diameter/2 - knuckle) / (crown - knuckle)
}
