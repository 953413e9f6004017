package quantity

import (
	"slices"
	"strings"
)

// Spans tells whether a figure lies in the range, its ends included but for
// conversion noise.
func (r Range) Spans(x float64) bool { return !Below(x, r.Low) && !Above(x, r.High) }

// LooksLike says what a stated value that can hardly be right was probably meant to
// be: its number with another unit of the dimension ("290 °F" of "290 degC"), or the
// value with its point one or two places off. It is "" where nothing is usual;
// usual judges a figure in SI.
func LooksLike[D Dimension](q Quantity[D], usual func(si float64) bool) string {
	if !q.given {
		return ""
	}
	var d D
	var said []string
	number, name := split(q.Text())
	own := Unit[D](d.units()[0])
	for _, u := range d.units() {
		if u.name == name || slices.Contains(u.also, name) {
			own = Unit[D](u)
		}
	}
	for _, u := range d.units() {
		if other, err := Parse[D](number + " " + u.name); err == nil && u.name != own.name && usual(other.si) {
			said = append(said, number+" "+Unit[D](u).symbol())
		}
	}
	for _, f := range offPoint {
		if other := New(q.In(own)*f, own); usual(other.si) {
			said = append(said, shortest(other, own)+" "+own.symbol())
			break
		}
	}
	return strings.Join(said, " or ")
}

// ShareLooksLike is LooksLike of a share of 1: "1.5 %" of 0.15.
func ShareLooksLike(share float64, usual func(float64) bool) string {
	for _, f := range offPoint {
		if usual(share * f) {
			return ShareText(share * f)
		}
	}
	return ""
}

// offPoint is what a value is out by whose point stands one or two places off.
var offPoint = []float64{0.1, 10, 0.01, 100}
