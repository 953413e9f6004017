// Package shell holds the formulas by which round walls are judged, each with
// its source and nothing else: collapse under outside pressure, the strength
// table of contact-molded walls, and unit loads.
//
// Everything is plain float64 in SI. No function returns NaN or an infinity:
// where a figure is out of the formula's domain, a flag or an error says so.
package shell

// usable reports whether every v lies in (0, 1e30], which NaN never does.
func usable(vs ...float64) bool {
	for _, v := range vs {
		if !(v > 0 && v <= 1e30) {
			return false
		}
	}
	return true
}

// The design strain of a resin-bound wall is ResinShare of the resin's failure
// strain, and never above ResinMost.
//
// Source: BS 4994 (second-hand); ADR 2017 6.9.2.3.5.
const (
	ResinShare = 0.1
	ResinMost  = 0.002
)
