package quantity

import (
	"math"
	"slices"
	"strconv"
)

// Quantity is a physical value of dimension D. It keeps the SI figure and,
// when it was read from text, the spelling, so that a document can be written
// back as its author wrote it. Two quantities compare equal with == only if
// value and spelling are the same; use Cmp to compare what they measure.
type Quantity[D Dimension] struct {
	si    float64
	given bool
	text  string
}

// The dimensions a document can speak of.
type (
	Length      = Quantity[length]        // m
	ArealMass   = Quantity[arealMass]     // kg/m²
	Density     = Quantity[density]       // kg/m³
	Pressure    = Quantity[pressure]      // Pa; moduli and strengths too
	Temperature = Quantity[temperature]   // K; a point on a scale, never a difference
	TowSize     = Quantity[linearDensity] // kg/m
	Area        = Quantity[area]          // m²
	Mass        = Quantity[mass]          // kg
	Resistance  = Quantity[resistance]    // Ω
	LineForce   = Quantity[lineForce]     // N/m; a force on a length of wall
	Moment      = Quantity[moment]        // N·m; the torque of a bolt
	Duration    = Quantity[duration]      // s
)

// New gives a value in the unit u, for example New(113, Mil).
func New[D Dimension](value float64, u Unit[D]) Quantity[D] {
	return Quantity[D]{si: value*u.scale + u.offset, given: true}
}

// SI makes a quantity from a figure in the dimension's SI unit.
func SI[D Dimension](value float64) Quantity[D] {
	return Quantity[D]{si: value, given: true}
}

// Given tells whether a value was stated at all.
func (q Quantity[D]) Given() bool { return q.given }

// SI gives the figure in the dimension's SI unit, 0 when not given.
func (q Quantity[D]) SI() float64 { return q.si }

// In gives the figure in the unit u.
func (q Quantity[D]) In(u Unit[D]) float64 { return (q.si - u.offset) / u.scale }

// Text gives the spelling a document carries: as typed, else the shortest
// decimal that reads back to the same value in the dimension's SI unit name.
// It is empty when the quantity is not given.
func (q Quantity[D]) Text() string {
	switch {
	case !q.given:
		return ""
	case q.text != "":
		return q.text
	}
	var d D
	u := d.units()[0]
	return q.TextIn(Unit[D](u))
}

// TextIn spells the value in the unit u with the fewest digits that read back
// to the same value, trying whole and short decimals first.
func (q Quantity[D]) TextIn(u Unit[D]) string {
	if !q.given {
		return ""
	}
	return shortest(q, u) + " " + u.name
}

// TextFor is Text for whoever reads in the system: as it was written where that
// is in a unit of the system, else in u.
func (q Quantity[D]) TextFor(s System, u Unit[D]) string {
	if _, name := split(q.text); q.text != "" && (s == US) == slices.Contains(customary, name) {
		return q.text
	}
	return q.TextIn(u)
}

// customary are the US units that a document may be written in.
var customary = []string{"mil", "in", "ft", "ft2", "oz/ft2", "oz/yd2", "lb/ft2", "lb/ft3", "lb/in3", "lb", "psi", "ksi", "Msi", "inHg", "inH2O", "inWC", "degF", "°F", "lb/in", "ft-lb", "in-lb"}

// Spelled gives the same value spelled in the unit u, as a person would have
// typed it; reading the spelling gives the very same quantity.
func (q Quantity[D]) Spelled(u Unit[D]) Quantity[D] {
	if !q.given {
		return q
	}
	text := q.TextIn(u)
	if read, err := Parse[D](text); err == nil {
		return read
	}
	q.text = text
	return q
}

// shortest finds the decimal with the fewest digits that stands for q within
// 1e-12 of its value: conversions leave noise in the last bits that nobody
// typed.
func shortest[D Dimension](q Quantity[D], u Unit[D]) string {
	v := q.In(u)
	for digits := 1; digits <= 15; digits++ {
		s := strconv.FormatFloat(v, 'g', digits, 64)
		back, err := strconv.ParseFloat(s, 64)
		if err == nil && math.Abs(back*u.scale+u.offset-q.si) <= 1e-12*math.Abs(q.si) {
			return plain(back)
		}
	}
	return plain(v)
}

// plain prints without an exponent where that stays readable.
func plain(v float64) string {
	if a := math.Abs(v); a != 0 && (a < 1e-6 || a >= 1e15) {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// String is Text, or "not given".
func (q Quantity[D]) String() string {
	if !q.given {
		return "not given"
	}
	return q.Text()
}

// Format prints the value in the unit u with a fixed number of decimals, for
// screens and messages: "113.1 mil".
func (q Quantity[D]) Format(u Unit[D], decimals int) string {
	if !q.given {
		return "not given"
	}
	return Number(q.In(u), decimals) + " " + u.symbol()
}

// tolerance is the relative difference below which two figures are the same:
// far above conversion noise, far below anything a gauge can tell.
const tolerance = 1e-9

// Cmp compares what two quantities measure: -1, 0 or +1, where figures within
// one part in 10⁹ are equal, so that "250 mil", "0.25 in" and "6.35 mm" are
// the same thickness and "180 degF" is not above 180 °F.
func (q Quantity[D]) Cmp(other Quantity[D]) int { return Compare(q.si, other.si) }

// Compare is Cmp for bare figures of one unit.
func Compare(a, b float64) int {
	size := math.Max(math.Abs(a), math.Abs(b))
	if a == b || !math.IsInf(size, 0) && math.Abs(a-b) <= tolerance*size {
		return 0
	}
	if a < b {
		return -1
	}
	return 1
}

// Above tells whether a is more than b beyond conversion noise.
func Above(a, b float64) bool { return Compare(a, b) > 0 }

// Below tells whether a is less than b beyond conversion noise.
func Below(a, b float64) bool { return Compare(a, b) < 0 }
