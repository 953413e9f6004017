package wall

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stiffness"
)

// strengthsKnown tells whether some counted ply has a tested strength.
func (e *evaluation) strengthsKnown() bool {
	for i := range e.rows {
		m := e.rows[i].figures.Material
		if m.Form == laminate.Lamina && strengths(m) != (stiffness.Limits{}) {
			return true
		}
	}
	return false
}

func strengths(m *laminate.Material) stiffness.Limits {
	var l stiffness.Limits
	l.FiberTension, _ = positive(m.StrengthTension1)
	l.FiberCompression, _ = positive(m.StrengthCompression1)
	l.CrossTension, _ = positive(m.StrengthTension2)
	l.CrossCompression, _ = positive(m.StrengthCompression2)
	l.Shear, _ = positive(m.StrengthShear)
	return l
}

// allowables gives a lamina's tested strengths, and as strain limits the same
// over the modulus of the cold ply, which a straight line to failure gives.
//
// Strength is taken to fall with warmth as stiffness does, which leaves the
// strain at failure as it was.
func allowables(m *laminate.Material, kept float64) stiffness.Allowables {
	if m.Form != laminate.Lamina {
		return stiffness.Allowables{}
	}
	s := strengths(m)
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

// rowOfLayer finds the counted row whose first layer is at or before layer.
func (e *evaluation) rowOfLayer(layer int) *counted {
	lo, hi := 0, len(e.rows)-1
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if e.rows[mid].layer <= layer {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return &e.rows[lo]
}

// firstPly says which ply gives way first as the whole load grows.
func (e *evaluation) firstPly(d stiffness.Deformation) string {
	first, err := e.lam.FirstPly(d, func(layer int) stiffness.Allowables {
		return allowables(e.rowOfLayer(layer).figures.Material, e.kept)
	})
	if err != nil {
		return "cannot be determined: " + err.Error()
	}
	text := e.failure("maximum strain", first.ByStrain)
	if q := e.failure("the quadratic criterion", first.ByQuadratic); q != "" {
		if text != "" {
			text += "; "
		}
		text += q
	}
	if text == "" {
		return "cannot be determined: the known strengths are not strained"
	}
	if n := e.lam.Len() - first.ByStrain.Judged; n > 0 {
		text += "; of some plies not all strengths are known"
	}
	return text
}

func (e *evaluation) failure(by string, f stiffness.Failure) string {
	factor, ok := f.LoadFactor()
	if !ok || f.Ply < 0 {
		return ""
	}
	c := e.rowOfLayer(f.Ply)
	return plyName(c.figures) + " at " + strconv.FormatFloat(factor, 'g', 3, 64) + " times this load by " + by + " (" + f.Mode.String() + ")"
}
