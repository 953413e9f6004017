package shell

import (
	"math"

	"frp/veilwright/laminate/quantity"
)

// Collapsing is a wall under outside pressure.
type Collapsing struct {
	T, D     float64 // m: of the plies that count; outside diameter
	Bent     Bent
	Modulus  float64 // Pa, of the isotropic formula, 0 where it does not apply
	Nu       float64
	Endless  float64 // Pa, allowable at any length
	Membrane float64 // Pa, hoop modulus of a ring of the wall's own laminate
}

// Allowable is the lowest of the formulas that apply to a free length in m, Pa, and
// which it is.
func (f *Collapsing) Allowable(length float64) (capacity float64, which string) {
	capacity = math.Inf(1)
	if f.Modulus > 0 {
		if p, ok := Collapse(f.Modulus, f.Nu, f.T, f.D, length); ok {
			capacity, which = p/CollapseSafety, "isotropic formula"
		}
	}
	if p, ok := AllowableOrthotropic(f.Bent, f.T, f.D, length); ok && p < capacity {
		capacity, which = p, "orthotropic formula"
	}
	if which == "" || capacity < f.Endless {
		capacity, which = f.Endless, "endless tube"
	}
	return capacity, which
}

// Spacing is the longest free length, m, at which an outside pressure, Pa, is allowed;
// not ok where any is, or none of a twentieth of the diameter.
func (f *Collapsing) Spacing(pressure float64) (length float64, ok bool) {
	holds := func(length float64) bool {
		capacity, _ := f.Allowable(length)
		return !quantity.Above(pressure, capacity)
	}
	// The formulas fall with the length. Nearer than a twentieth of the
	// diameter rings are a wall of their own.
	low, high := f.D/20, f.D
	if !quantity.Above(pressure, f.Endless) || !holds(low) {
		return 0, false
	}
	for holds(high) {
		low, high = high, 2*high
	}
	for high-low > 1e-9*low {
		if middle := (low + high) / 2; holds(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low, true
}
