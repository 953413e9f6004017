package practice

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
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
	var outer []laminate.Ply
	for i, p := range s.Plies {
		if !zones[i].InBarrier() {
			p.Zone = zones[i]
			outer = append(outer, p)
		}
	}
	whole := c.veils == 0
	if len(outer) == 0 {
		s.Resins = append(s.Resins, laminate.Resin{ID: freeID(s, "structure"), Family: c.family})
		wall := s.Resins[len(s.Resins)-1].ID
		outer = []laminate.Ply{
			{Material: catalog.Mat15, Resin: wall, Zone: laminate.StructuralLayer, Count: 1},
			{Material: catalog.Woven24, Resin: wall, Zone: laminate.StructuralLayer, Count: 1},
			{Material: catalog.Mat15, Resin: wall, Zone: laminate.StructuralLayer, Count: 1},
			{Material: catalog.Topcoat, Resin: wall, Zone: laminate.OuterSurface, Count: 1},
		}
	}
	if whole {
		for i := range s.Resins {
			s.Resins[i].Family = c.family
		}
		b := catalog.UsualBuild(&s.Service)
		c.veils, c.mats = b.Veils, b.Mats
	}
	liner := linerOf(s, outer, c.family)
	veil, mats := liner, liner
	service := &s.Service
	switch hard, carbon := service.Abrasive.Value, service.Conductive.Value; {
	case hard && carbon:
		// One resin holds one filler: powder goes to the veil, grit to the mats.
		second := s.Resins[liner]
		second.ID, second.Origin = freeID(s, s.Resins[liner].ID+"-veil"), 0
		fill(&second, laminate.CarbonPowder, catalog.CarbonPowderShare)
		s.Resins = append(s.Resins, second)
		veil = len(s.Resins) - 1
		fill(&s.Resins[mats], laminate.SiliconCarbide, catalog.HardFillerShare)
	case hard:
		fill(&s.Resins[liner], laminate.SiliconCarbide, catalog.HardFillerShare)
	case carbon:
		fill(&s.Resins[liner], laminate.CarbonPowder, catalog.CarbonPowderShare)
	}
	if service.Conductive.Value && s.Part.Grounding == "" {
		s.Part.Grounding = "lug at each end, bonded to the barrier"
	}
	s.Plies = append([]laminate.Ply{
		{Material: c.veil, Resin: s.Resins[veil].ID, Zone: laminate.InnerSurface, Count: c.veils},
		{Material: catalog.Mat15, Resin: s.Resins[mats].ID, Zone: laminate.InteriorLayer, Count: c.mats, GelAfter: true},
	}, outer...)
	return s
}

func fill(r *laminate.Resin, f laminate.Filler, share float64) {
	if r.Filler == f && r.FillerContent.Given {
		return
	}
	r.Filler, r.FillerContent = f, laminate.Some(share)
}

// linerOf finds or makes the resin of the barrier: one that nothing outside of
// it is laid in.
func linerOf(s *laminate.Schedule, outer []laminate.Ply, family laminate.Family) int {
	at := slices.IndexFunc(s.Resins, func(r laminate.Resin) bool {
		return !slices.ContainsFunc(outer, func(p laminate.Ply) bool { return p.Resin == r.ID })
	})
	if at < 0 {
		s.Resins = append(s.Resins, laminate.Resin{ID: freeID(s, "barrier")})
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
	return at
}

func freeID(s *laminate.Schedule, id string) string {
	for {
		if _, taken := s.Resin(id); !taken {
			return id
		}
		id += "-2"
	}
}
