package veil

import "frp/veilwright/laminate"

// Usual lists the traits of the service for which a veil of the fiber is the
// usual one, from the very lists that [VeilNotPreferred] goes by: nil where the
// service asks for no veil in particular or for another.
func Usual(s *laminate.Service, f laminate.Fiber) []laminate.Trait {
	var of []laminate.Trait
	switch {
	case f == laminate.Polyester:
		of = polyesterServices
	case f == laminate.Carbon:
		of = []laminate.Trait{laminate.StrongBase}
	case f == laminate.CGlass && !s.Contains.Has(laminate.Fluorides) && !(s.PH.Given && s.PH.Highest > highestForGlass):
		of = glassServices
	}
	var usual []laminate.Trait
	for _, t := range of {
		if s.Contains.Has(t) {
			usual = append(usual, t)
		}
	}
	return usual
}

// Stands gives the ends of the pH range in which veils of a fiber are used,
// both inclusive and not given where there is none (common practice, no
// source). ok is false where nothing is known of the fiber's range.
func Stands(f laminate.Fiber) (lowest, highest laminate.Optional[float64], ok bool) {
	switch {
	case f.Glass():
		return lowest, laminate.Some(highestForGlass), true
	case f == laminate.Polyester:
		return laminate.Some(lowestForPolyester), highest, true
	}
	return lowest, highest, false
}
