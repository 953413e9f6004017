package wall

import (
	"math"

	"frp/veilwright/laminate/quantity"
)

// sound tells whether v can be computed with.
func sound(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// positive gives the figure of a stated quantity that is a finite number above
// zero.
func positive[D quantity.Dimension](q quantity.Quantity[D]) (float64, bool) {
	v := q.SI()
	return v, q.Given() && v > 0 && sound(v)
}

// exceeds tells whether a is above b by more than conversion noise.
func exceeds(a, b float64) bool { return quantity.Above(a, b) }
