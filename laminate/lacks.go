package laminate

// Lacks lists the keys that the material's form needs and that are not given.
// The glass content of a fiber material may stand on the plies instead, see
// [Ply.Lacks].
func (m *Material) Lacks() []string {
	var lacks []string
	need := func(given bool, key string) {
		if !given {
			lacks = append(lacks, key)
		}
	}
	switch m.Form {
	case NoForm:
		return []string{"form"}
	case ResinCoat:
		need(m.Thickness.Given(), "thickness")
	case Lamina:
		need(m.Thickness.Given(), "thickness")
		need(m.E1.Given(), "e1")
		need(m.E2.Given(), "e2")
		need(m.G12.Given(), "g12")
		need(m.Nu12.Given, "nu12")
	case RovingBand:
		need(m.Fiber != NoFiber, "fiber")
		need(m.Tow.Given(), "tow")
		need(m.Tows.Given, "tows")
		need(m.BandWidth.Given(), "band_width")
	default:
		need(m.Fiber != NoFiber, "fiber")
		need(m.ArealMass.Given(), "areal_mass")
	}
	return lacks
}

// Lacks lists the keys that a ply of the material m needs and does not give.
// Chopped glass has a usual glass content; nothing else has.
func (p *Ply) Lacks(m *Material) []string {
	var lacks []string
	if p.Resin == "" && m.Form != Lamina {
		lacks = append(lacks, "resin")
	}
	if !p.Angle.Given && (m.Form == RovingBand || m.Form == Unidirectional) {
		lacks = append(lacks, "angle")
	}
	fibrous := m.Form != ResinCoat && m.Form != Lamina && !m.Form.Chopped()
	if fibrous && !p.GlassContent.Given && !m.GlassContent.Given {
		lacks = append(lacks, "glass_content")
	}
	return lacks
}
