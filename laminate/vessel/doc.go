// Package vessel holds the formulas of the parts of equipment that are no
// straight shell: heads, cones, elbows, flat plates, flanges with their bolts,
// courses and flat bottoms. Each stands with its source and nothing else.
//
// Everything is plain float64 in SI: meters, pascals, newtons; angles in
// radians where nothing else is said. No function returns NaN or an infinity:
// where a figure is out of the formula's domain, ok is false.
package vessel

import "math"

// usable reports whether every v lies in (0, 1e30], which NaN never does.
func usable(vs ...float64) bool {
	for _, v := range vs {
		if !(v > 0 && v <= 1e30) {
			return false
		}
	}
	return true
}

func sound(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
