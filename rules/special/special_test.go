package special_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules/ruletest"
)

func change(list ...func(*laminate.Schedule)) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		for _, c := range list {
			c(s)
		}
	}
}

func conductive(s *laminate.Schedule) {
	s.Service.Conductive = laminate.Some(true)
	s.Part.Grounding = "lug at each flange"
}

func abrasive(s *laminate.Schedule) { s.Service.Abrasive = laminate.Some(true) }

func filler(resin int, f laminate.Filler, share float64) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		s.Resins[resin].Filler, s.Resins[resin].FillerContent = f, laminate.Some(share)
	}
}

func veil(id string) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Plies[ruletest.VeilRow].Material = id }
}

func earth(text string) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Part.Grounding = text }
}

// ownVeil makes the veil one with carbon powder of its own.
func ownVeil(fiber laminate.Fiber) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		id := ruletest.Veil(s, "powder-veil", fiber, ruletest.Mil(14))
		s.Materials[0].Conductive = true
		s.Plies[ruletest.VeilRow].Material = id
	}
}

// Resistances: ADR 2017 6.9.2.14; RTP-1 part 2 on fillers in the structure;
// the builds: common practice, no source.
func TestSpecialRules(t *testing.T) {
	const liner, wall = 0, 1
	cases := []ruletest.Case{
		{Name: "nothing special asked"},

		{Name: "conductive with neither", Change: conductive, Want: []string{"break conductive-barrier 0 1", "warning conductive-path"},
			Says: []string{"neither carbon veil nor carbon powder", "10⁹ Ω", "10⁷ Ω", "10 Ω"}, Fixes: "use veil-carbon-11 for ply 1", After: []string{"warning conductive-barrier", "warning conductive-path"}},
		{Name: "conductive with a carbon veil alone", Change: change(conductive, veil(catalog.VeilCarbon11)), Want: []string{"warning conductive-barrier", "warning conductive-path"},
			Says: []string{"a carbon veil but no carbon powder"}},
		{Name: "conductive with carbon powder alone", Change: change(conductive, filler(liner, laminate.CarbonPowder, 0.05)),
			Want: []string{"warning conductive-barrier", "warning conductive-path", "note filler-hides-glass 0 1"}, Says: []string{"carbon powder but no carbon veil", "burns in part"},
			Fixes: "use veil-carbon-11 for ply 1", After: []string{"warning conductive-path", "note filler-hides-glass"}},
		{Name: "conductive with both", Change: change(conductive, veil(catalog.VeilCarbon11), filler(liner, laminate.CarbonPowder, 0.05)),
			Want: []string{"warning conductive-path", "note filler-hides-glass"}},
		{Name: "a carbon veil with powder of its own", Change: change(conductive, ownVeil(laminate.Carbon)), Want: []string{"warning conductive-path"}},
		{Name: "another veil with powder of its own", Change: change(conductive, ownVeil(laminate.Polyester)), Want: []string{"warning conductive-barrier", "warning conductive-path"}},
		{Name: "carbon in the structure does not count", Change: change(conductive, filler(wall, laminate.CarbonPowder, 0.05)),
			Want: []string{"break conductive-barrier", "warning conductive-path", "warning filler-in-structure", "note filler-hides-glass"}, Fixes: "veil-carbon-11",
			After: []string{"warning conductive-barrier", "warning conductive-path", "warning filler-in-structure", "note filler-hides-glass"}},
		{Name: "no earth stated", Change: change(conductive, ownVeil(laminate.Carbon), earth("")), Want: []string{"incomplete conductive-path"}, Says: []string{"ungrounded, a conductive wall is worse than none"}},
		{Name: "earth stated as none", Change: change(conductive, ownVeil(laminate.Carbon), earth(" None ")), Want: []string{"break conductive-path"}},
		{Name: "a carbon veil that nobody asked to conduct, no ground stated", Change: change(veil(catalog.VeilCarbon11), earth("")), Want: []string{"incomplete conductive-path"},
			Says: []string{"ply 1 is a conductive veil and the part does not state how it is grounded"}},
		{Name: "a carbon veil that nobody asked to conduct, not grounded", Change: change(veil(catalog.VeilCarbon11), earth("none")), Want: []string{"warning conductive-path"}},
		{Name: "a carbon veil that nobody asked to conduct, grounded", Change: change(veil(catalog.VeilCarbon11), earth("lug at each flange")), Want: []string{"note conductive-path"}, Says: []string{"10⁷ Ω"}},
		{Name: "carbon powder that nobody asked to conduct, no ground stated", Change: change(filler(liner, laminate.CarbonPowder, 0.05), earth("")),
			Want: []string{"incomplete conductive-path", "note filler-hides-glass"}, Says: []string{"resin liner of the barrier holds carbon powder"}},
		{Name: "not said whether it should conduct", Change: func(s *laminate.Schedule) { s.Service.Conductive = laminate.Optional[bool]{} }},

		{Name: "abrasive without filler", Change: abrasive, Want: []string{"warning abrasive-barrier 0 1"}, Says: []string{"no barrier resin holds silicon carbide or aluminum oxide"}},
		{Name: "abrasive with 30 %", Change: change(abrasive, filler(liner, laminate.SiliconCarbide, 0.30)), Want: []string{"note filler-hides-glass"}},
		{Name: "abrasive with 29.9 %", Change: change(abrasive, filler(liner, laminate.SiliconCarbide, 0.299)), Want: []string{"warning abrasive-barrier", "note filler-hides-glass"},
			Says: []string{"resin liner holds 29.9 % silicon-carbide; 30 to 40 % is usual"}},
		{Name: "abrasive with 40 %", Change: change(abrasive, filler(liner, laminate.AluminumOxide, 0.40)), Want: []string{"note filler-hides-glass"}},
		{Name: "abrasive with 41 %", Change: change(abrasive, filler(liner, laminate.AluminumOxide, 0.41)), Want: []string{"warning abrasive-barrier", "note filler-hides-glass"}},
		{Name: "abrasive, share not given", Change: change(abrasive, func(s *laminate.Schedule) { s.Resins[liner].Filler = laminate.SiliconCarbide }),
			Want: []string{"warning abrasive-barrier", "note filler-hides-glass"}, Says: []string{"the share of silicon-carbide in resin liner is not stated"}},
		{Name: "abrasive with carbon powder is not hard", Change: change(abrasive, filler(liner, laminate.CarbonPowder, 0.35)), Want: []string{"incomplete conductive-path", "warning abrasive-barrier", "note filler-hides-glass"}},
		{Name: "abrasive with one mat", Change: change(abrasive, filler(liner, laminate.SiliconCarbide, 0.35), func(s *laminate.Schedule) { s.Plies[ruletest.MatRow].Count = 1 }),
			Want: []string{"warning abrasive-barrier", "note filler-hides-glass"}, Says: []string{"fewer than two mats"}},
		{Name: "solids and not abrasive", Change: solids, Want: []string{"note abrasive-barrier"}, Says: []string{"is stated not to be abrasive"}},
		{Name: "solids and not said", Change: change(solids, func(s *laminate.Schedule) { s.Service.Abrasive = laminate.Optional[bool]{} }), Want: []string{"note abrasive-barrier"},
			Says: []string{"not stated whether it is abrasive"}},
		{Name: "solids, abrasive and built for it", Change: change(solids, abrasive, filler(liner, laminate.SiliconCarbide, 0.35)), Want: []string{"note filler-hides-glass"},
			Says: []string{"resin liner holds 35 % silicon-carbide", "glass = (residue − 35 %) / (1 − 35 %)"}},

		{Name: "filled structure", Change: change(filler(liner, laminate.SiliconCarbide, 0.35), func(s *laminate.Schedule) { s.Plies[ruletest.BondRow].Resin = ruletest.Liner }),
			Want: []string{"warning filler-in-structure 2", "note filler-hides-glass 0 1 2"}, Says: []string{"ply 4 (structure) is laid in resin liner, which holds silicon-carbide"},
			Fixes: "use resin wall for the structure", After: []string{"note filler-hides-glass"}},
		{Name: "filled structure and no unfilled resin", Change: change(filler(wall, laminate.SiliconCarbide, 0.35), func(s *laminate.Schedule) { s.Resins[liner].Family = laminate.NovolacVinylEster }),
			Want: []string{"warning filler-in-structure 2 3 4", "note filler-hides-glass 2 3 4 5"}},
		{Name: "two filled resins", Change: change(filler(liner, laminate.SiliconCarbide, 0.35), filler(wall, laminate.AluminumOxide, 0.10)),
			Want: []string{"warning filler-in-structure 2 3 4", "note filler-hides-glass 0 1", "note filler-hides-glass 2 3 4 5"}},
		{Name: "filled outer coat", Change: func(s *laminate.Schedule) {
			s.Resins = append(s.Resins, laminate.Resin{ID: "grit", Family: laminate.VinylEster, Filler: laminate.SiliconCarbide})
			s.Plies[ruletest.CoatRow].Resin = "grit"
		}, Want: []string{"note filler-hides-glass 5"}, Says: []string{"its share not stated"}},
	}
	ruletest.Run(t, "special", cases)
	ruletest.Covers(t, "special", cases)
}

func solids(s *laminate.Schedule) { s.Service.Contains = laminate.TraitSet(laminate.Solids) }
