package vessel

import "math"

// Edge is how a plate is held.
type Edge uint8

// The edges.
const (
	Simply Edge = iota
	Clamped
)

// Plate are the figures of a flat plate under pressure p: its greatest stress is
// Stress × p s²/t² and its middle moves by Deflection × p s⁴/(E t³), s the radius
// of a round one, the short side of a rectangle; under a force F in the middle that
// moves by Point × F s²/(E t³). Small deflections: past half the thickness it begins
// to carry by its stretching.
type Plate struct{ Stress, Deflection, Point float64 }

// RoundPlate gives the figures of a round plate: simply supported 3(3+ν)/8,
// 3(1−ν)(5+ν)/16 and 3(1−ν)(3+ν)/4π, clamped ¾ at its edge, 3(1−ν²)/16 and
// 3(1−ν²)/4π.
//
// Source: Timoshenko; Roark (textbook, derived again in a test).
func RoundPlate(edge Edge, nu float64) (Plate, bool) {
	if !(nu >= 0 && nu <= 0.5) {
		return Plate{}, false
	}
	if edge == Clamped {
		return Plate{0.75, 3 * (1 - nu*nu) / 16, 3 * (1 - nu*nu) / (4 * math.Pi)}, true
	}
	return Plate{3 * (3 + nu) / 8, 3 * (1 - nu) * (5 + nu) / 16, 3 * (1 - nu) * (3 + nu) / (4 * math.Pi)}, true
}

// rectangles are the figures of rectangular plates at ν 0.3, by the long side
// over the short one; the last row is a strip.
//
// Source: Navier's series and Ritz's method, which a test repeats; they agree
// with the tables of Roark and Timoshenko to the third place; clamped under a force
// Timoshenko's (from memory), which five terms of Ritz come near to from below.
var rectangles = []struct {
	ratio           float64
	simply, clamped Plate
}{
	{1, Plate{0.287, 0.0444, 0.1267}, Plate{0.308, 0.0138, 0.0612}},
	{1.2, Plate{0.376, 0.0617, 0.1480}, Plate{0.383, 0.0188, 0.0707}},
	{1.4, Plate{0.453, 0.0774, 0.1623}, Plate{0.435, 0.0226, 0.0755}},
	{1.6, Plate{0.517, 0.0907, 0.1715}, Plate{0.468, 0.0251, 0.0778}},
	{1.8, Plate{0.569, 0.1017, 0.1771}, Plate{0.487, 0.0267, 0.0786}},
	{2, Plate{0.610, 0.1106, 0.1804}, Plate{0.497, 0.0277, 0.0788}},
	{3, Plate{0.713, 0.1336, 0.1849}, Plate{0.50, 0.028, 0.0792}},
	{5, Plate{0.748, 0.1416, 0.1852}, Plate{0.50, 0.0284, 0.0792}},
}

// RectangleRow is a row of the table of rectangular plates.
type RectangleRow struct {
	Ratio float64 // long side over the short one
	Plate
}

// RectangleRows gives the rows of the table that a rectangle lies between; twice
// the last of one that is longer, a strip.
func RectangleRows(edge Edge, long, short float64) (below, above RectangleRow) {
	of := func(i int) RectangleRow {
		if edge == Clamped {
			return RectangleRow{rectangles[i].ratio, rectangles[i].clamped}
		}
		return RectangleRow{rectangles[i].ratio, rectangles[i].simply}
	}
	last := len(rectangles) - 1
	for i := 1; i <= last; i++ {
		if math.Max(1, long/short) < rectangles[i].ratio {
			return of(i - 1), of(i)
		}
	}
	return of(last), of(last)
}

// RectanglePlate gives the figures of a rectangular plate at ν 0.3, between rows
// of the table by proportion; past five short sides it is a strip.
func RectanglePlate(edge Edge, long, short float64) (Plate, bool) {
	if !usable(long, short) || short > long*(1+1e-9) {
		return Plate{}, false
	}
	a, b := RectangleRows(edge, long, short)
	if a.Ratio == b.Ratio {
		return a.Plate, true
	}
	f := (math.Max(1, long/short) - a.Ratio) / (b.Ratio - a.Ratio)
	return Plate{a.Stress + f*(b.Stress-a.Stress), a.Deflection + f*(b.Deflection-a.Deflection), a.Point + f*(b.Point-a.Point)}, true
}

// StressAt is the greatest stress in Pa of a plate of side s under pressure p.
func (p Plate) StressAt(pressure, s, t float64) float64 { return p.Stress * pressure * s * s / (t * t) }

// DeflectionAt is how far its middle moves, in m.
func (p Plate) DeflectionAt(pressure, s, e, t float64) float64 {
	return p.Deflection * pressure * s * s * s * s / (e * t * t * t)
}

// PointAt is how far its middle moves under a force there, in m; an upper bound where
// the force is spread.
func (p Plate) PointAt(force, s, e, t float64) float64 {
	return p.Point * force * s * s / (e * t * t * t)
}

// Thickness is the least in m whose greatest stress is the allowable one.
func (p Plate) Thickness(pressure, s, allowable float64) (t float64, ok bool) {
	if !usable(pressure, s, allowable) {
		return 0, false
	}
	t = s * math.Sqrt(p.Stress*pressure/allowable)
	return t, sound(t)
}
