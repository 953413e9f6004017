package wall

import (
	"sort"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stiffness"
	"frp/veilwright/laminate/wall/moduli"
)

// strengthsKnown tells whether some counted ply has a tested strength.
func (e *evaluation) strengthsKnown() bool {
	for i := range e.rows {
		m := e.rows[i].figures.Material
		if m.Form == laminate.Lamina && moduli.Strengths(m) != (stiffness.Limits{}) {
			return true
		}
	}
	return false
}

// rowOfLayer finds the counted row whose first layer is at or before layer.
func (e *evaluation) rowOfLayer(layer int) *counted {
	behind := sort.Search(len(e.rows), func(i int) bool { return e.rows[i].layer > layer })
	return &e.rows[max(behind-1, 0)]
}

// firstPly says which ply gives way first as the whole load grows.
func (e *evaluation) firstPly(d stiffness.Deformation) string {
	first, err := e.lam.FirstPly(d, func(layer int) stiffness.Allowables {
		return moduli.Allowables(e.rowOfLayer(layer).figures.Material, e.kept)
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
