package quantity

import (
	"fmt"
	"math"
)

// negligible is the magnitude, in SI, under which nothing in this trade is
// measured, and under which arithmetic is noise.
const negligible = 1e-12

// Limits of a size, SI. A low of 0 is excluded unless Zero says otherwise.
type Limits struct {
	Low, High float64
	Zero      bool
}

// Outside says in words why a size cannot be meant, "" where it can or is not
// given.
func (q Quantity[D]) Outside(l Limits) string {
	if !q.given {
		return ""
	}
	v := q.si
	if v >= l.Low && v <= l.High && (v >= negligible || v == 0 && l.Zero) {
		return "" // as nearly all are: nothing is worded for them
	}
	said := fmt.Sprintf("%q", clip(q.Text()))
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return "it is no number"
	case v != 0 && math.Abs(v) < negligible:
		return said + " is too little to be meant"
	case v < 0 && l.Low >= 0:
		return said + " is below zero"
	case v == 0 && !l.Zero:
		return said + " is not above zero"
	case v < l.Low && !(v == 0 && l.Zero):
		return said + " is beyond reason: at least " + SI[D](l.Low).Text() + " is expected"
	case v > l.High:
		return said + " is beyond reason: at most " + SI[D](l.High).Text() + " is expected"
	}
	return ""
}

// Range bounds a bare figure; open ends are left out.
type Range struct {
	Low, High         float64
	OpenLow, OpenHigh bool
}

// Outside says in words why a figure cannot be, "" where it can.
func (r Range) Outside(x float64) string {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return "it is no number"
	case x != 0 && math.Abs(x) < negligible:
		return fmt.Sprintf("%v is too little to be meant", x)
	case x < r.Low || x > r.High || r.OpenLow && x == r.Low || r.OpenHigh && x == r.High:
		return fmt.Sprintf("%v is not %s", x, r)
	}
	return ""
}

// Unlikely says in words why a figure can only be a slip, "" where it may be
// meant.
func (r Range) Unlikely(x float64) string {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return "it is no number"
	case x < r.Low || x > r.High:
		return fmt.Sprintf("%v is beyond reason: %s is expected", x, r)
	}
	return ""
}

func (r Range) String() string {
	a, b := fmt.Sprintf("from %v ", r.Low), fmt.Sprintf("to %v", r.High)
	if r.OpenLow {
		a = fmt.Sprintf("above %v ", r.Low)
	}
	switch {
	case r.OpenLow && r.OpenHigh:
		b = fmt.Sprintf("and below %v", r.High)
	case r.OpenLow:
		b = fmt.Sprintf("and at most %v", r.High)
	case r.OpenHigh:
		b = fmt.Sprintf("to below %v", r.High)
	}
	return a + b
}
