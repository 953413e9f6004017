package advice

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
)

// Materials that are taken first where the library has them.
const (
	usualMat  = catalog.Mat15
	usualCoat = catalog.Topcoat
)

func isCoat(m *laminate.Material) bool { return m.Form == laminate.ResinCoat && m.Waxed }

// mixed gives a resin what a build and a service ask of the barrier's mix.
func mixed(r laminate.Resin, s *laminate.Service, b build) laminate.Resin {
	switch {
	case b.hard && !r.Filler.Hard():
		edit.Fill(&r, laminate.SiliconCarbide)
	case b.conductive && !b.hard && r.Filler != laminate.CarbonPowder:
		edit.Fill(&r, laminate.CarbonPowder)
	}
	if s.Contains.Has(laminate.Hypochlorite) && r.Cure == laminate.NoCure {
		r.Cure = laminate.PeroxideAmine
	}
	return r
}

// conducting is the veil's mix where the mats' is filled hard: one resin holds
// one filler.
func conducting(r laminate.Resin, id string) laminate.Resin {
	r.ID, r.Origin = id, 0
	edit.Fill(&r, laminate.CarbonPowder)
	return r
}
