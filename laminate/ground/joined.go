package ground

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Bores are how wide a part is inside at its ends, m, the wide end of a cone first;
// none where one is not stated, or of a plate, which has no bore.
func Bores(p *laminate.Part) []float64 {
	if p.Form == laminate.Cover || p.Form == laminate.Panel {
		return nil
	}
	return ends(p)
}

// ends are the diameters that a part may be joined at, m: of a flange or cover what it
// states, else its nominal size.
func ends(p *laminate.Part) (list []float64) {
	stated := []quantity.Length{p.InsideDiameter}
	switch p.Form {
	case laminate.Cone:
		stated = append(stated, p.SmallDiameter)
	case laminate.Flange, laminate.Cover:
		if !p.InsideDiameter.Given() {
			stated[0] = p.Size
		}
	default:
	}
	for _, d := range stated {
		if !d.Given() {
			return nil
		}
		list = append(list, d.SI())
	}
	return list
}

// Joined is how wide each of two parts is inside and outside where a joint joins them,
// m, NaN where that is not known, by what is stated of them and how thick their
// laminates are. A cone is as wide as its end that the other fits. The laminate of a
// flange or a cover is no tube: the strap lies on a hub that goes on in the other's
// wall, and only of two such, the safe side, each counts as its own.
func Joined(parts [2]*laminate.Part, thick [2]float64) (inside, outside [2]float64) {
	for k, p := range parts {
		inside[k] = meets(p, parts[1-k])
		outside[k] = inside[k] + 2*thick[k]
	}
	if one, other := Flat(parts[0]), Flat(parts[1]); one != other {
		k := 0
		if other {
			k = 1
		}
		outside[k] = outside[1-k]
	}
	return inside, outside
}

// meets is how wide a part is inside where it meets another, m: of two ends of a cone
// that fit as well the wider, and that too where a cone states no small end.
func meets(p, other *laminate.Part) (m float64) {
	if own := ends(p); len(own) == 1 {
		return own[0]
	}
	m = math.NaN()
	if p.Form == laminate.Cone && !p.SmallDiameter.Given() && p.InsideDiameter.Given() {
		return p.InsideDiameter.SI()
	}
	step := math.Inf(1)
	for _, a := range ends(p) {
		for _, b := range ends(other) {
			if apart := math.Abs(a - b); apart < step {
				m, step = a, apart
			}
		}
	}
	return m
}

// Flat tells of a part whose laminate is a ring or a plate, and no wall that a strap
// goes on from.
func Flat(p *laminate.Part) bool { return p.Form == laminate.Flange || p.Form == laminate.Cover }
