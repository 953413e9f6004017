package advice

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
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
		r.Filler, r.FillerContent, r.FillerDensity = laminate.SiliconCarbide, laminate.Some(catalog.HardFillerShare), quantity.Density{}
	case b.conductive && !b.hard && r.Filler != laminate.CarbonPowder:
		r.Filler, r.FillerContent, r.FillerDensity = laminate.CarbonPowder, laminate.Some(catalog.CarbonPowderShare), quantity.Density{}
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
	r.Filler, r.FillerContent, r.FillerDensity = laminate.CarbonPowder, laminate.Some(catalog.CarbonPowderShare), quantity.Density{}
	return r
}
