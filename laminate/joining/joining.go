// Package joining holds the equations of what is laid onto cured parts: straps
// over butt joints, pads and necks of nozzles, and what a test of the whole
// proves. Everything is plain float64 in SI: meters, pascals, newtons per meter.
//
// A bond onto a cured face is adhesion: its average shear is what is figured.
// Its peaks at the ends are not, and no length makes them go away.
package joining

import "math"

// BondLength is how much bond each side of a joint needs: N F/τ, the axial line
// load over the shear that one square may carry, measured from the gap, the
// taper not counted.
//
// Source: the form is that of ASTM D3299, BS 4994 and ADR; the shear is the
// caller's.
func BondLength(axial, shear float64) float64 { return math.Max(0, axial) / shear }

// AxialLoad is the pull that pressure gives the wall of a closed tube, whose
// bond lies at the diameter: p D/4.
func AxialLoad(pressure, diameter float64) float64 { return pressure * diameter / 4 }

// HoopLoad is p D/2.
func HoopLoad(pressure, diameter float64) float64 { return pressure * diameter / 2 }

// TaperRatio is the least length of a taper of an overlay to its step.
//
// Source: ADR 6.9.2.10.
const TaperRatio = 6

// Taper is the ratio of the run-out at either side of a strap to its thickness:
// (W − w1)/2 over t, from the width of the first ply to the whole.
func Taper(width, first, thickness float64) float64 { return (width - first) / 2 / thickness }

// StrapWidth is the least whole width of a strap of the thickness t: the largest
// of 16 t beside the gap, of two bonds and the gap, and of what keeps the taper.
//
// Source: 16 t is the table of NBS PS 15-69 (from memory), whole; that the gap is
// beside it is on the safe side. The rest is geometry.
func StrapWidth(thickness, bond, gap, first float64) float64 {
	return math.Max(16*thickness+gap, math.Max(2*bond+gap, first+2*TaperRatio*thickness))
}

// PlyWidths are those of n plies, growing evenly from the first to the whole
// width; one ply has the whole.
func PlyWidths(first, width float64, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = width
		if n > 1 {
			list[i] = first + float64(i)*(width-first)/float64(n-1)
		}
	}
	return list
}

// Stagger is how far a ply has to stop short of its neighbor: the taper's ratio
// times its own thickness.
func Stagger(thickness float64) float64 { return TaperRatio * thickness }

// Bonded are two equal walls and the layer that joins them, for the peaks of
// shear.
type Bonded struct {
	Modulus, Thickness    float64 // of a wall, Pa and m
	Shear, LayerThickness float64 // modulus of the layer, Pa, and m
}

// Peak is the greatest shear over the mean at the ends of a bond of the length:
// (w/2) coth(w/2), w = λ L, λ² = 2 G/(E t ta).
//
// Source: Volkersen 1938.
func (b Bonded) Peak(length float64) float64 {
	w := math.Sqrt(2*b.Shear/(b.Modulus*b.Thickness*b.LayerThickness)) * length
	if w < 1e-9 {
		return 1
	}
	return w / 2 / math.Tanh(w/2)
}

// PadDiameter is the least diameter of a nozzle's pad: twice the opening, and
// the opening and 6 in for one under 6 in. Beyond twice the opening nothing
// counts.
//
// Source: ASTM D3299 (from memory).
func PadDiameter(opening float64) float64 {
	const six = 6 * 0.0254
	if opening < six {
		return math.Max(2*opening, opening+six)
	}
	return 2 * opening
}

// PadLoad is what the structure of a pad has to carry, N/m, in place of what an
// opening takes away: [N d − (U − N) r]/r, r = min(dr, 2d) − d, and not below 0.
// needed is the hoop load there, carries what the shell may bear, which is at
// least needed. It is infinite where the pad reaches no further than the
// opening.
//
// Source: area replacement, statics; ASME Section VIII in principle (from
// memory).
func PadLoad(needed, carries, opening, pad float64) float64 {
	ring := math.Min(pad, 2*opening) - opening
	if ring <= 0 {
		return math.Inf(1)
	}
	return math.Max(0, (needed*opening-math.Max(0, carries-needed)*ring)/ring)
}

// PadShear is the mean shear of a pad's bond: the load that the opening takes
// away comes in over one half of the ring, N d/(π/8 (dr² − d²)).
func PadShear(needed, opening, pad float64) float64 {
	return needed * opening / (math.Pi / 8 * (pad*pad - opening*opening))
}

// BlowOut is the mean shear that pressure puts on the bond of a neck, bonded for
// h along the neck and along the shell: p d/(4 h).
func BlowOut(pressure, diameter, bonded float64) float64 { return pressure * diameter / (4 * bonded) }

// Proof is the share of a design pressure that a test proves at one place; below
// 1 it leaves something unproved, and above it loads the place beyond its
// design.
func Proof(test, design float64) float64 { return test / design }

// GasEnergy is what gas above the pressure of the air gives off where it bursts,
// J: p₁V/(k−1) [1 − (pa/p₁)^((k−1)/k)], the gauge pressure in Pa, the volume in
// m³, k 1.4 of air.
//
// Source: ASME PCC-2 501-II (from memory).
func GasEnergy(gauge, volume float64) float64 {
	const k, air = 1.4, 101_325.0
	p := gauge + air
	return p * volume / (k - 1) * (1 - math.Pow(air/p, (k-1)/k))
}
