package all_test

import (
	"slices"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

// A trait that a document may state and no rule weighs is a fact passed over in
// silence. For each there has to be a wall that is judged otherwise with it
// than without; the walls are sound but for one veil, family and temperature.
func TestEveryServiceTraitIsWeighed(t *testing.T) {
	lib := catalog.Library()
	said := func(s *laminate.Schedule, traits ...laminate.Trait) []string {
		s.Service.Contains = laminate.TraitSet(traits...)
		var list []string
		for _, f := range all.Judge(s, lib, rules.Options{}).Findings {
			list = append(list, f.Severity.String()+" "+f.Rule.ID)
		}
		return list
	}
	var walls []*laminate.Schedule
	for _, veil := range []string{catalog.VeilC15, catalog.VeilPolyester15, catalog.VeilCarbon11} {
		for _, family := range []laminate.Family{laminate.Isophthalic, laminate.VinylEster} {
			for _, heat := range []float64{100, 130} {
				s := ruletest.Sound()
				s.Plies[ruletest.VeilRow].Material = veil
				for i := range s.Resins {
					s.Resins[i].Family, s.Resins[i].HeatDeflection = family, quantity.New(300, quantity.Fahrenheit)
				}
				s.Service.Temperature = ruletest.Fahrenheit(heat)
				walls = append(walls, s)
			}
		}
	}
	for _, trait := range laminate.TraitWords.All() {
		if !slices.ContainsFunc(walls, func(s *laminate.Schedule) bool { return !slices.Equal(said(s), said(s, trait)) }) {
			t.Errorf("no rule weighs %v", trait)
		}
	}
}
