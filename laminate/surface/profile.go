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

// Profile is how a head or cone stands over its wide end, in the unit of its sizes:
// NaN where one of them is not known.
type Profile struct {
	Rise float64
	// At is how far it is from its wide end at x from its axis; NaN beyond it, of a
	// cone its wide end.
	At func(x float64) float64
}

// ConeProfile is that of a cone between two diameters, by its half-angle in radians.
func ConeProfile(wide, small, halfAngle float64) Profile {
	rise := math.Tan(halfAngle)
	return Profile{(wide - small) / 2 / rise, func(x float64) float64 {
		if x > wide/2 {
			return math.NaN()
		}
		return (wide/2 - x) / rise
	}}
}

// EllipsoidProfile is that of half an ellipsoid, or of half a sphere, as deep as wide.
func EllipsoidProfile(diameter, depth float64) Profile {
	return Profile{depth, func(x float64) float64 { return EllipsoidAt(diameter/2, depth, x) }}
}

// TorisphereProfile is that of a dish: it rises L − √((L−r)² − (D/2−r)²) (geometry).
func TorisphereProfile(diameter, crown, knuckle float64) Profile {
	under := (crown-knuckle)*(crown-knuckle) - (diameter/2-knuckle)*(diameter/2-knuckle)
	return Profile{crown - math.Sqrt(math.Max(0, under)), func(x float64) float64 { return TorisphereAt(diameter, crown, knuckle, x) }}
}
