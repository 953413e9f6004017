package structure_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

func read[D quantity.Dimension](text string) (q quantity.Quantity[D]) {
	if err := quantity.Read(&q, text); err != nil {
		panic(err)
	}
	return q
}

func set[D quantity.Dimension](into *quantity.Quantity[D], text string) { *into = read[D](text) }

// own lays a material of the shop's own in the place of the woven roving: what the catalog
// has there, changed.
func own(change func(*laminate.Material)) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		m, _ := catalog.Library().Material(nil, catalog.Woven24)
		mine := *m
		mine.ID, mine.Source = "W", ""
		change(&mine)
		s.Materials = append(s.Materials, mine)
		s.Plies[ruletest.WovenRow].Material = "W"
	}
}

// lamina is a tested one of E-glass: 24 oz/yd² of it at 50 % are, by hand, 0.8137/2580 and
// 0.8137/1150 m, 1.023 mm or 40.3 mil, and 30.8 % of fiber by volume, which the rule of
// mixtures makes 0.308 · 72.4 + 0.692 · 3.2 = 24.5 GPa.
func lamina(change func(*laminate.Material)) func(*laminate.Schedule) {
	plain := own(func(m *laminate.Material) {
		m.Form, m.GlassContent = laminate.Lamina, laminate.Some(0.5)
		set(&m.Thickness, "40 mil")
		set(&m.E1, "16 GPa")
		set(&m.E2, "15 GPa")
		set(&m.G12, "3.5 GPa")
		m.Nu12 = laminate.Some(0.15)
		change(m)
	})
	return func(s *laminate.Schedule) {
		plain(s)
		s.Plies[ruletest.WovenRow].Angle = laminate.Some(0.0)
	}
}

// materialCases are slips of unit and point in what a material states of itself. Typical
// figures are the catalog's: 72.4 GPa and 2,580 kg/m³ of E-glass; bounds are common practice,
// no source.
func materialCases() []ruletest.Case {
	type material = laminate.Material
	sourced := func(change func(*material)) func(*material) {
		return func(m *material) { change(m); m.Source = "coupons, invented" }
	}
	modulus := func(text string) func(*material) { return func(m *material) { set(&m.FiberModulus, text) } }
	density := func(text string) func(*material) { return func(m *material) { set(&m.FiberDensity, text) } }
	mass := func(text string) func(*material) { return func(m *material) { set(&m.ArealMass, text) } }
	e1 := func(text string) func(*material) { return func(m *material) { set(&m.E1, text) } }
	thick := func(text string) func(*material) { return func(m *material) { set(&m.Thickness, text) } }
	strong := func(text string) func(*material) { return func(m *material) { set(&m.StrengthTension1, text) } }
	return []ruletest.Case{
		{Name: "a fiber 25 % stiffer is within", Change: own(modulus("90.5 GPa"))},
		{Name: "a fiber ten times as stiff", Change: own(modulus("724 GPa")), Metric: true, Want: []string{"incomplete fiber-figures-unusual 3"}, Says: []string{"W: a fiber modulus of 724", "the 72.4 GPa of e-glass", "looks like 72.4 GPa", "state whose figure"}},
		{Name: "a fiber in the other unit, with a source", Change: own(sourced(modulus("72 Msi"))), Want: []string{"warning fiber-figures-unusual 3"}, Says: []string{"looks like 72 GPa"}},
		{Name: "a fiber too soft", Change: own(modulus("10.5 GPa")), Want: []string{"warning fiber-figures-unusual 3"}, Says: []string{"looks like 10.5 Msi"}},
		{Name: "a fiber of a tenth of its weight", Change: own(density("258 kg/m3")), Metric: true, Want: []string{"incomplete fiber-figures-unusual 3"}, Says: []string{"looks like 2580 kg/m³"}},
		{Name: "a fiber too heavy", Change: own(density("3300 kg/m3")), Want: []string{"warning fiber-figures-unusual 3"}},
		{Name: "of a fiber that nobody names, stiffer than any", Change: own(func(m *material) { m.Fiber = laminate.NoFiber; set(&m.FiberModulus, "724 GPa") }), Want: []string{"incomplete fiber-figures-unusual 3"}, Says: []string{"any fiber here"}},

		{Name: "1,300 g/m² is within", Change: own(mass("1300 g/m2"))},
		{Name: "oz/ft² for oz/yd²", Change: own(mass("24 oz/ft2")), Want: []string{"incomplete areal-mass-unusual 3"}, Says: []string{"216 oz/yd²", "woven-roving", "looks like 24 oz/yd²"}},
		{Name: "the same with a source", Change: own(sourced(mass("24 oz/ft2"))), Want: []string{"warning areal-mass-unusual 3"}},
		{Name: "a mat in oz/yd²", Change: own(func(m *material) {
			m.Form = laminate.ChoppedMat
			m.GlassContent = laminate.Some(0.3)
			set(&m.ArealMass, "1.5 oz/yd2")
		}), Want: []string{"warning areal-mass-unusual 3"}, Says: []string{"looks like 1.5 oz/ft²"}},
		{Name: "ten times the tows of a band", Change: func(s *laminate.Schedule) {
			own(func(m *material) {
				band, _ := catalog.Library().Material(nil, catalog.BandHoop)
				*m = *band
				m.ID, m.Source, m.Tows = "W", "", laminate.Some(120)
			})(s)
			s.Plies[ruletest.WovenRow].Angle = laminate.Some(90.0)
		}, Want: []string{"incomplete areal-mass-unusual 3"}, Says: []string{"4400 g/m²"}, Metric: true},

		{Name: "a sound lamina", Change: lamina(func(*material) {})},
		{Name: "25 % above the rule of mixtures is within", Change: lamina(e1("30.6 GPa"))},
		{Name: "a little more", Change: lamina(e1("31 GPa")), Metric: true, Want: []string{"incomplete lamina-too-stiff 3"}, Says: []string{"e1 of 31.0 GPa is above 24.5 GPa", "50 % of fiber"}},
		{Name: "with a source", Change: lamina(sourced(e1("31 GPa"))), Want: []string{"warning lamina-too-stiff 3"}},
		{Name: "stiffer than its fiber, source or not", Change: lamina(sourced(e1("160 GPa"))), Metric: true, Want: []string{"break lamina-too-stiff 3"}, Says: []string{"above 72.4 GPa, the modulus of its fiber; it looks like 16 GPa"}},
		{Name: "a shear modulus ten times", Change: lamina(func(m *material) { set(&m.G12, "35 GPa") }), Want: []string{"incomplete lamina-too-stiff 3"}, Says: []string{"half of", "looks like 3.5 GPa"}},
		{Name: "of unknown glass content", Change: lamina(func(m *material) { m.GlassContent = laminate.Optional[float64]{}; set(&m.E2, "150 GPa") }), Want: []string{"break lamina-too-stiff 3"}},

		{Name: "a thickness of 1.5 times its mass is within", Change: lamina(thick("60 mil"))},
		{Name: "mm for mil", Change: lamina(thick("38 mm")), Want: []string{"incomplete lamina-thickness-unlike-mass 3"}, Says: []string{"1496.1 mil", "40.3 mil", "looks like 38 mil"}},
		{Name: "mm for mil with a source", Change: lamina(sourced(thick("38 mm"))), Want: []string{"warning lamina-thickness-unlike-mass 3"}},
		{Name: "too thin for its mass", Change: lamina(thick("20 mil")), Want: []string{"warning lamina-thickness-unlike-mass 3"}},

		{Name: "a strength at 5 % is within", Change: lamina(strong("800 MPa"))},
		{Name: "a strength ten times", Change: lamina(strong("2000 MPa")), Metric: true, Want: []string{"incomplete lamina-too-strong 3"}, Says: []string{"2.00 GPa is above 0.800 GPa, at which e1 strains by 5 %", "or 200 MPa"}},
		{Name: "a strength ten times with a source", Change: lamina(sourced(strong("2000 MPa"))), Want: []string{"warning lamina-too-strong 3"}},
	}
}

// Whatever the catalog has is within what the catalog's own rules call usual.
func TestMaterialRules_findNothingInTheCatalog(t *testing.T) {
	lib := catalog.Library()
	for i := range lib.Materials {
		s := ruletest.Sound()
		s.Plies[ruletest.WovenRow].Material = lib.Materials[i].ID
		for _, f := range all.Judge(s, lib, rules.Options{}).Findings {
			switch f.Rule.ID {
			case "fiber-figures-unusual", "areal-mass-unusual", "lamina-too-stiff", "lamina-thickness-unlike-mass", "lamina-too-strong":
				t.Errorf("%s: %s", lib.Materials[i].ID, f.Message)
			}
		}
	}
}
