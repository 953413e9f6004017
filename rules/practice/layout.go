package practice

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/exercise"
)

// Chosen is the wall that a choice of veil and resin family comes to: the usual
// barrier for the service, on what the exercise gives or else a small wall.
func Chosen(e *exercise.Exercise, lib *laminate.Library, veil string, family laminate.Family) *laminate.Schedule {
	return laidOut(e, lib, choice{veil: veil, family: family})
}

// laidOut lays a barrier on what the exercise gives outside of it; where that
// is nothing, on a small wall: mat, woven roving, mat and a waxed coat. Of a
// choice (no counts) the one resin family serves the whole wall.
func laidOut(e *exercise.Exercise, lib *laminate.Library, c choice) *laminate.Schedule {
	s := e.Given.Clone()
	zones := laminate.InferZones(s, lib)
	bare := !slices.ContainsFunc(zones, func(z laminate.Zone) bool { return !z.InBarrier() })
	r := edit.Recipe{Veil: c.veil, Veils: c.veils, Mat: catalog.Mat15, Mats: c.mats}
	if bare {
		r.Wall = laminate.Resin{ID: edit.FreeID(s, "structure"), Family: c.family}
		r.Structure = []laminate.Ply{{Material: catalog.Mat15, Count: 1}, {Material: catalog.Woven24, Count: 1}, {Material: catalog.Mat15, Count: 1}}
		r.Coat = catalog.Topcoat
		s.Resins = append(s.Resins, r.Wall)
	}
	if c.veils == 0 {
		for i := range s.Resins {
			s.Resins[i].Family = c.family
		}
		b := catalog.UsualBuild(&s.Service)
		r.Veils, r.Mats = b.Veils, b.Mats
	}
	barrier := barrierResin(s, zones, r.Wall.ID, c.family)
	service := &s.Service
	switch hard, carbon := service.Abrasive.Value, service.Conductive.Value; {
	case hard && carbon:
		// One resin holds one filler: powder goes to the veil, grit to the mats.
		r.Surface = *barrier
		r.Surface.ID, r.Surface.Origin = edit.FreeID(s, barrier.ID+"-veil"), 0
		edit.Fill(&r.Surface, laminate.CarbonPowder)
		edit.Fill(barrier, laminate.SiliconCarbide)
	case hard:
		edit.Fill(barrier, laminate.SiliconCarbide)
	case carbon:
		edit.Fill(barrier, laminate.CarbonPowder)
	}
	if service.Conductive.Value && s.Part.Grounding == "" {
		s.Part.Grounding = "lug at each end, bonded to the barrier"
	}
	r.Barrier = *barrier
	if bare {
		return r.Build(s, lib)
	}
	return r.Line(s, lib)
}

// barrierResin finds or makes the resin of the barrier: one that nothing
// outside of it is laid in.
func barrierResin(s *laminate.Schedule, zones []laminate.Zone, wall string, family laminate.Family) *laminate.Resin {
	outside := map[string]bool{wall: true}
	for i := range s.Plies {
		if !zones[i].InBarrier() {
			outside[s.Plies[i].Resin] = true
		}
	}
	at := slices.IndexFunc(s.Resins, func(r laminate.Resin) bool { return !outside[r.ID] })
	if at < 0 {
		s.Resins = append(s.Resins, laminate.Resin{ID: edit.FreeID(s, "barrier")})
		at = len(s.Resins) - 1
	}
	r := &s.Resins[at]
	r.Family = family
	if !s.Service.Abrasive.Value && r.Filler.Hard() || !s.Service.Conductive.Value && r.Filler == laminate.CarbonPowder {
		r.Filler, r.FillerContent = laminate.NoFiller, laminate.Optional[float64]{}
	}
	if s.Service.Contains.Has(laminate.Hypochlorite) {
		r.Cure, r.Thixotrope = laminate.PeroxideAmine, ""
	}
	return r
}
