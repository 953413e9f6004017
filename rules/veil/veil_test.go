package veil_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules/ruletest"
)

func ph(low, high float64) laminate.PHRange {
	return laminate.PHRange{Lowest: low, Highest: high, Given: true}
}

func with(veil string, r laminate.PHRange, traits ...laminate.Trait) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		s.Plies[ruletest.VeilRow].Material = veil
		s.Service.PH = r
		s.Service.Contains = laminate.TraitSet(traits...)
	}
}

func double(change func(*laminate.Schedule), veils, mats int) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		change(s)
		s.Plies[ruletest.VeilRow].Count, s.Plies[ruletest.MatRow].Count = veils, mats
	}
}

const eGlassVeil = "veil-e"

// The limits are common practice, no source: C-glass up to pH 12, polyester
// from pH 3 up, glass out of fluorides, carbon out of hypochlorite.
func TestVeilRules(t *testing.T) {
	mild, none := ph(6, 8), laminate.PHRange{}
	cases := []ruletest.Case{
		{Name: "glass veil in a mild service", Change: with(catalog.VeilC15, mild)},
		{Name: "glass veil in fluorides", Change: with(catalog.VeilC15, mild, laminate.Fluorides),
			Want: []string{"break fluorides-attack-glass-veil 0"}, Says: []string{"contains fluorides and ply 1 is a glass veil (veil-c-15)"},
			Fixes: "use veil-polyester-15 for ply 1, same count"},
		{Name: "two glass veils in fluorides keep their number", Change: func(s *laminate.Schedule) {
			with(catalog.VeilC15, mild, laminate.Fluorides)(s)
			s.Plies[0].Count = 2
		}, Want: []string{"break fluorides-attack-glass-veil 0"}, Says: []string{"plies 1–2 are glass veil"}, Fixes: "use veil-polyester-15 for plies 1–2"},
		{Name: "any glass is glass", Change: func(s *laminate.Schedule) {
			s.Materials = []laminate.Material{{ID: eGlassVeil, Form: laminate.Veil, Fiber: laminate.EGlass, ArealMass: catalogVeil().ArealMass, GlassContent: laminate.Some(0.1)}}
			with(eGlassVeil, ph(6, 12.5), laminate.Fluorides)(s)
		}, Want: []string{"break fluorides-attack-glass-veil 0", "break veil-outside-ph 0"}, Fixes: "veil-polyester-15"},
		{Name: "polyester veil in fluorides", Change: with(catalog.VeilPolyester15, mild, laminate.Fluorides)},
		{Name: "fluorides do not reach an outer veil", Change: func(s *laminate.Schedule) {
			with(catalog.VeilPolyester15, mild, laminate.Fluorides)(s)
			s.Plies[ruletest.CoatRow].Material = catalog.VeilC15
		}},

		{Name: "glass veil at pH 12", Change: with(catalog.VeilC15, ph(6, 12))},
		{Name: "glass veil above pH 12", Change: with(catalog.VeilC15, ph(6, 12.01)), Want: []string{"break veil-outside-ph 0"},
			Says: []string{"up to pH 12.01", "good up to pH 12"}, Fixes: "veil-polyester-15"},
		{Name: "glass veil below pH 0", Change: with(catalog.VeilC15, ph(-1, 1))},
		{Name: "glass veil in strong base of unknown pH", Change: with(catalog.VeilC15, none, laminate.StrongBase),
			Want: []string{"incomplete veil-outside-ph 0", "note veil-not-preferred 0"}, Says: []string{"its pH is not stated"}, Fixes: "veil-polyester-15"},
		{Name: "polyester veil in strong base of unknown pH", Change: with(catalog.VeilPolyester15, none, laminate.StrongBase)},
		{Name: "polyester veil at pH 3", Change: with(catalog.VeilPolyester15, ph(3, 8))},
		{Name: "polyester veil below pH 3", Change: with(catalog.VeilPolyester15, ph(2.99, 8)), Want: []string{"warning veil-outside-ph 0"},
			Says: []string{"down to pH 2.99", "good from pH 3 up"}, Fixes: "veil-c-15"},
		{Name: "polyester veil above pH 14", Change: with(catalog.VeilPolyester15, ph(13, 14.5))},
		{Name: "polyester veil below pH 3 where fluorides leave no glass", Change: with(catalog.VeilPolyester15, ph(1, 3), laminate.Fluorides),
			Want: []string{"warning veil-outside-ph 0"}, Says: []string{"no glass veil is used in fluorides, so polyester is taken outside its range, as two veils over four mats"}},
		{Name: "two polyester veils over four mats below pH 3 where fluorides leave no glass", Change: double(with(catalog.VeilPolyester15, ph(1, 3), laminate.Fluorides), 2, 4),
			Want: []string{"note veil-outside-ph 0"}, Says: []string{"no glass veil is used in fluorides, so polyester is taken outside its range, as two veils over four mats"}},
		{Name: "two polyester veils over three mats are not enough", Change: double(with(catalog.VeilPolyester15, ph(1, 3), laminate.Fluorides), 2, 3),
			Want: []string{"warning veil-outside-ph 0"}},
		{Name: "one polyester veil over four mats is not enough", Change: double(with(catalog.VeilPolyester15, ph(1, 3), laminate.ChlorineDioxide), 1, 4),
			Want: []string{"warning veil-outside-ph 0"}, Says: []string{"no glass veil is used in chlorine-dioxide"}},
		{Name: "polyester veil below pH 3 in chlorine dioxide", Change: with(catalog.VeilPolyester15, ph(1, 3), laminate.ChlorineDioxide),
			Want: []string{"warning veil-outside-ph 0"}},
		{Name: "polyester veil in strong acid of unknown pH", Change: with(catalog.VeilPolyester15, none, laminate.StrongAcid),
			Want: []string{"incomplete veil-outside-ph 0", "note veil-not-preferred 0"}, Fixes: "veil-c-15"},
		{Name: "polyester veil in strong acid of unknown pH with fluorides", Change: with(catalog.VeilPolyester15, none, laminate.StrongAcid, laminate.Fluorides),
			Want: []string{"warning veil-outside-ph 0"}},
		{Name: "carbon veil has no pH limit", Change: with(catalog.VeilCarbon11, ph(0, 14))},

		{Name: "carbon veil in hypochlorite", Change: with(catalog.VeilCarbon11, ph(10, 12), laminate.Hypochlorite),
			Want: []string{"break carbon-veil-in-hypochlorite 0", "note veil-not-preferred 0"}, Fixes: "veil-c-15"},
		{Name: "carbon veil in strongly alkaline hypochlorite", Change: with(catalog.VeilCarbon11, ph(10, 13), laminate.Hypochlorite),
			Want: []string{"break carbon-veil-in-hypochlorite 0"}, Fixes: "veil-polyester-15"},
		{Name: "carbon veil deeper in the barrier in hypochlorite", Change: func(s *laminate.Schedule) {
			with(catalog.VeilC15, ph(10, 12), laminate.Hypochlorite)(s)
			carbon := laminate.Ply{Material: catalog.VeilCarbon11, Resin: ruletest.Liner, Zone: laminate.InteriorLayer, Count: 1}
			s.Plies = append([]laminate.Ply{s.Plies[0], carbon}, s.Plies[1:]...)
		}, Want: []string{"break carbon-veil-in-hypochlorite 1"}, Fixes: "for ply 2"},
		{Name: "no carbon veil in hypochlorite", Change: with(catalog.VeilC15, ph(10, 12), laminate.Hypochlorite)},
		{Name: "a demand to conduct stands against the fix", Change: func(s *laminate.Schedule) {
			with(catalog.VeilCarbon11, ph(10, 12), laminate.Hypochlorite)(s)
			s.Service.Conductive = laminate.Some(true)
			s.Part.Grounding = "lug"
		}, Want: []string{"break carbon-veil-in-hypochlorite 0", "note veil-not-preferred 0"}},
		{Name: "carbon veil in an oxidizer", Change: with(catalog.VeilCarbon11, mild, laminate.Oxidizer),
			Want: []string{"warning carbon-veil-in-oxidizer 0"}, Says: []string{"contains oxidizer"}, Fixes: "veil-c-15"},
		{Name: "carbon veil in chlorine dioxide", Change: with(catalog.VeilCarbon11, mild, laminate.ChlorineDioxide),
			Want: []string{"warning carbon-veil-in-oxidizer 0", "note veil-not-preferred 0"}, Fixes: "veil-polyester-15"},

		{Name: "polyester usual in lithium", Change: with(catalog.VeilC15, mild, laminate.Lithium), Want: []string{"note veil-not-preferred 0"},
			Says: []string{"polyester is the usual veil for lithium"}},
		{Name: "polyester usual in pulping liquor", Change: with(catalog.VeilCarbon11, mild, laminate.PulpingLiquor), Want: []string{"note veil-not-preferred 0"}},
		{Name: "polyester usual in plating solution", Change: with(catalog.VeilPolyester15, mild, laminate.PlatingSolution)},
		{Name: "carbon serves in strong base", Change: with(catalog.VeilCarbon11, ph(12, 14), laminate.StrongBase)},
		{Name: "glass usual in strong acid", Change: with(catalog.VeilCarbon11, ph(0, 3), laminate.StrongAcid), Want: []string{"note veil-not-preferred 0"},
			Says: []string{"c-glass is the usual veil for strong-acid"}},
		{Name: "glass veil in strong acid", Change: with(catalog.VeilC15, ph(0, 3), laminate.StrongAcid)},
		{Name: "practice is divided in hypochlorite", Change: with(catalog.VeilPolyester15, ph(9, 11), laminate.Hypochlorite), Want: []string{"note veil-not-preferred 0"},
			Says: []string{"practice is divided"}},
		{Name: "fluorides rule out the usual glass veil", Change: with(catalog.VeilPolyester15, ph(3, 5), laminate.StrongAcid, laminate.Fluorides)},
		{Name: "on both lists either veil is usual", Change: with(catalog.VeilC15, ph(10, 12), laminate.Hypochlorite, laminate.StrongBase)},

		{Name: "no veil first", Change: func(s *laminate.Schedule) { s.Plies = s.Plies[1:] }, Want: []string{"break veil-missing 0"},
			Says: []string{"ply 1 is mat-1.5"}, Fixes: "add veil-c-15 as ply 1"},
		{Name: "no veil first in fluorides", Change: func(s *laminate.Schedule) {
			s.Plies = s.Plies[1:]
			s.Service.Contains = laminate.TraitSet(laminate.Fluorides)
		}, Want: []string{"break veil-missing 0"}, Fixes: "add veil-polyester-15 as ply 1"},
		{Name: "a leading veil in another zone", Change: func(s *laminate.Schedule) { s.Plies[0].Zone = laminate.InteriorLayer },
			Want: []string{"break veil-missing 0"}, Says: []string{"its zone is interior-layer"}, Fixes: "move ply 1 to the inner surface"},
		{Name: "no ply at all", Change: func(s *laminate.Schedule) { s.Plies = nil }, Want: []string{"break veil-missing"}, Says: []string{"no plies"}},
	}
	ruletest.Run(t, "veil", cases)
	ruletest.Covers(t, "veil", cases)
}

func catalogVeil() laminate.Material {
	m, _ := catalog.Library().Material(nil, catalog.VeilC15)
	return *m
}
