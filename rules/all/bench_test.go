package all_test

import (
	"fmt"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalogue"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

// tall is a schedule of n rows with a sound barrier and a structure of mat and
// woven roving with gel stops.
func tall(n int) *laminate.Schedule {
	s := ruletest.Sound()
	coat := s.Plies[ruletest.CoatRow]
	s.Plies = s.Plies[:ruletest.BondRow]
	for len(s.Plies) < n-1 {
		material := catalogue.Mat15
		if len(s.Plies)%2 == 1 {
			material = catalogue.Woven24
		}
		s.Plies = append(s.Plies, laminate.Ply{Material: material, Resin: ruletest.Wall, Zone: laminate.StructuralLayer, Count: 1, GelAfter: len(s.Plies)%4 == 2})
	}
	s.Plies = append(s.Plies, coat)
	return s
}

// BenchmarkJudge is a whole judgement, analysis and wall included; what of it
// is theirs is told by the two other benchmarks.
func BenchmarkJudge(b *testing.B) {
	lib := catalogue.Library()
	for _, n := range []int{10, 40, 2000} {
		s := tall(n)
		spoiled := tall(n)
		spoiled.Service.Carries = laminate.TraitSet(laminate.Fluorides, laminate.Hypochlorite)
		spoiled.Plies[ruletest.MatRow].GelAfter = false
		for i := range spoiled.Plies {
			spoiled.Plies[i].GelAfter = false
		}
		for name, c := range map[string]struct {
			s *laminate.Schedule
			o rules.Options
		}{"sound": {s, rules.Options{}}, "spoiled": {spoiled, rules.Options{}}, "spoiled, remedies": {spoiled, rules.Options{Remedies: true}}} {
			b.Run(fmt.Sprintf("%d rows %s", n, name), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					all.Judge(c.s, lib, c.o)
				}
			})
		}
	}
}

func BenchmarkAnalyseAlone(b *testing.B) {
	lib := catalogue.Library()
	for _, n := range []int{10, 40, 2000} {
		s := tall(n)
		b.Run(fmt.Sprintf("%d rows", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				laminate.Analyse(s, lib)
			}
		})
	}
}

func BenchmarkWallAlone(b *testing.B) {
	lib := catalogue.Library()
	for _, n := range []int{10, 40, 2000} {
		s := tall(n)
		a := laminate.Analyse(s, lib)
		b.Run(fmt.Sprintf("%d rows", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				wall.Evaluate(s, lib, a, wall.Options{})
			}
		})
	}
}

// BenchmarkRulesAlone leaves the wall's rules out, so what is left over the
// analysis is the rules themselves.
func BenchmarkRulesAlone(b *testing.B) {
	lib := catalogue.Library()
	var list []*rules.Rule
	for _, r := range all.Rules() {
		switch r.ID {
		case "wall-fails", "wall-open", "wall-idle":
		default:
			list = append(list, r)
		}
	}
	for _, n := range []int{10, 40, 2000} {
		s := tall(n)
		b.Run(fmt.Sprintf("%d rows", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				rules.Judge(list, s, lib, rules.Options{})
			}
		})
	}
}
