package vessel

import "math"

// Courses of a shell whose requirement grows with the head as k h serve down to
// the head t/k: ServesTo is that head in m.
//
// Source: ASTM D3299-18 6.1.3 has the requirement; the rest is arithmetic.
func ServesTo(t, perHead float64) (head float64, ok bool) {
	if !usable(t, perHead) {
		return 0, false
	}
	head = t / perHead
	return head, sound(head)
}

// PerHead is k in t = k h, for a shell of diameter D under a liquid of weight w
// (N/m³) with an allowable stress S: w D/(2 S).
//
// Source: ASTM D3299-18 6.1.3.
func PerHead(weight, diameter, allowable float64) (k float64, ok bool) {
	if !usable(weight, diameter, allowable) {
		return 0, false
	}
	k = weight * diameter / (2 * allowable)
	return k, sound(k)
}

// Boundary is up to what height a repeat of the unit has to stand on a wall of
// thickness t without it, under a liquid H high: H − t/k, not below 0.
func Boundary(t, perHead, liquid float64) (height float64, ok bool) {
	head, ok := ServesTo(t, perHead)
	return math.Max(0, liquid-head), ok && liquid >= 0 && sound(liquid)
}

// BendingLength is how far the bending of the bottom corner reaches up a shell:
// 2.5 √(R t) (theory of shells, textbook).
func BendingLength(radius, t float64) float64 { return 2.5 * math.Sqrt(radius*t) }

// FlatBottom is the least thickness in m of a flat bottom that stands on its
// whole foundation: 3/16 in to 6 ft of diameter, ¼ to 12 ft, ⅜ above.
//
// Source: ASTM D3299, D4097 (from memory).
func FlatBottom(diameter float64) float64 {
	switch feet := diameter / (12 * inch); {
	case feet <= 6*(1+1e-9):
		return 3.0 / 16 * inch
	case feet <= 12*(1+1e-9):
		return 0.25 * inch
	}
	return 0.375 * inch
}

// Knuckle is the least radius of the corner of a flat bottom, how far its
// reinforcement runs up the wall before it tapers, and over what length, in m: 1
// in and 8 in to 4 ft of diameter, 1½ in and 12 in above; 4 in of taper.
//
// Source: ASTM D3299, D4097 (from memory; the taper second-hand).
func Knuckle(diameter float64) (radius, height, taper float64) {
	if diameter <= 48*inch*(1+1e-9) {
		return inch, 8 * inch, 4 * inch
	}
	return 1.5 * inch, 12 * inch, 4 * inch
}

// LeastTaper is the least length of a taper over its step.
//
// Source: ADR 2017 6.9.2.10.
const LeastTaper = 6
