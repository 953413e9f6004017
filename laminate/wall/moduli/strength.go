package moduli

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stiffness"
)

// Strengths are those of a material known by test, in Pa; 0 where none is given.
func Strengths(m *laminate.Material) stiffness.Limits {
	var l stiffness.Limits
	l.FiberTension, _ = positive(m.StrengthTension1)
	l.FiberCompression, _ = positive(m.StrengthCompression1)
	l.CrossTension, _ = positive(m.StrengthTension2)
	l.CrossCompression, _ = positive(m.StrengthCompression2)
	l.Shear, _ = positive(m.StrengthShear)
	return l
}

// Allowables gives a lamina's tested strengths, and as strain limits the same
// over the modulus of the cold ply, which a straight line to failure gives.
//
// Strength is taken to fall with warmth as stiffness does, which leaves the
// strain at failure as it was.
func Allowables(m *laminate.Material, kept float64) stiffness.Allowables {
	if m.Form != laminate.Lamina {
		return stiffness.Allowables{}
	}
	s := Strengths(m)
	warm := stiffness.Limits{FiberTension: kept * s.FiberTension, FiberCompression: kept * s.FiberCompression,
		CrossTension: kept * s.CrossTension, CrossCompression: kept * s.CrossCompression, Shear: kept * s.Shear}
	return stiffness.Allowables{Strength: warm, Strain: stiffness.Limits{
		FiberTension:     s.FiberTension / m.E1.SI(),
		FiberCompression: s.FiberCompression / m.E1.SI(),
		CrossTension:     s.CrossTension / m.E2.SI(),
		CrossCompression: s.CrossCompression / m.E2.SI(),
		Shear:            s.Shear / m.G12.SI(),
	}}
}
