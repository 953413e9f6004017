package vessel

import "math"

const inch = 0.0254

// Drilling is the ring of bolts of a flange, in m.
type Drilling struct {
	Outside float64 // diameter
	Circle  float64 // of the bolts
	Bolts   int
	Bolt    float64 // nominal diameter
}

// Hole is a bolt's hole: ⅛ in more than the bolt (common practice, no source).
func (d Drilling) Hole() float64 { return d.Bolt + inch/8 }

type drilled struct {
	size, outside, circle float64 // in
	bolts                 int
	bolt                  float64 // in
}

// class150 is the flat-faced drilling of pipe flanges to 24 in.
//
// Source: ASME B16.5 class 150 (from memory; in every handbook of piping).
var class150 = []drilled{
	{1, 4.25, 3.125, 4, 0.5}, {1.5, 5, 3.875, 4, 0.5}, {2, 6, 4.75, 4, 0.625}, {3, 7.5, 6, 4, 0.625}, {4, 9, 7.5, 8, 0.625},
	{6, 11, 9.5, 8, 0.75}, {8, 13.5, 11.75, 8, 0.75}, {10, 16, 14.25, 12, 0.875}, {12, 19, 17, 12, 0.875}, {14, 21, 18.75, 12, 1},
	{16, 23.5, 21.25, 16, 1}, {18, 25, 22.75, 16, 1.125}, {20, 27.5, 25, 20, 1.125}, {24, 32, 29.5, 20, 1.25},
}

// class125 is the drilling of larger ones.
//
// Source: ASME B16.1 class 125 (from memory).
var class125 = []drilled{{30, 38.75, 36, 28, 1.25}, {36, 46, 42.75, 32, 1.5}, {42, 53, 49.5, 36, 1.5}, {48, 59.5, 56, 44, 1.5}}

// Class150 gives the drilling of a nominal size in m; not ok where the table has
// none.
func Class150(size float64) (Drilling, bool) { return find(class150, size) }

// Class125 is Class150 for sizes from 30 in.
func Class125(size float64) (Drilling, bool) { return find(class125, size) }

// metric are the nominal diameters, mm, that nominal sizes in inches are paired with
// where that is not 25 to the inch.
//
// Source: DN of ISO 6708 beside the NPS of ASME B36.10 (from memory; in every handbook
// of piping).
var metric = map[float64]float64{0.5: 15, 0.75: 20, 1.25: 32, 1.5: 40, 2.5: 65, 3: 80}

// SameNominal tells whether two diameters in m are one, or one nominal size that the one
// has in inches and the other in millimeters: 8 in and 200 mm.
func SameNominal(a, b float64) bool {
	return alike(a, b) || paired(a, b) || paired(b, a)
}

func paired(inches, other float64) bool {
	n := math.Round(inches/inch*4) / 4
	mm, odd := metric[n]
	if !odd {
		mm = 25 * n
	}
	return n > 0 && alike(inches, n*inch) && alike(other, mm/1000)
}

func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-3*a }

func find(table []drilled, size float64) (Drilling, bool) {
	for _, d := range table {
		if SameNominal(d.size*inch, size) {
			return Drilling{d.outside * inch, d.circle * inch, d.bolts, d.bolt * inch}, true
		}
	}
	return Drilling{}, false
}

// Friction factors of bolts: T = K F d (textbook).
const (
	DryBolt   = 0.2
	OiledBolt = 0.15
)

// BoltForces gives the force on one bolt under pressure p, in N: with the
// pressure on the bore alone, and on the whole circle of the bolts, as with a
// full-face gasket that leaks to it. What seats the gasket is not in it (statics).
func BoltForces(pressure, bore float64, d Drilling) (bored, circle float64, ok bool) {
	if !usable(pressure, bore, d.Circle) || d.Bolts < 1 {
		return 0, 0, false
	}
	a := math.Pi / 4 * pressure / float64(d.Bolts)
	bored, circle = a*bore*bore, a*d.Circle*d.Circle
	return bored, circle, sound(bored) && sound(circle)
}

// Torque is what a bolt is turned with for a force F: K F d, in N·m.
func Torque(force, bolt, friction float64) float64 { return friction * force * bolt }
