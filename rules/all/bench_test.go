package all_test

import (
	"fmt"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
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
		material := catalog.Mat15
		if len(s.Plies)%2 == 1 {
			material = catalog.Woven24
		}
		s.Plies = append(s.Plies, laminate.Ply{Material: material, Resin: ruletest.Wall, Zone: laminate.StructuralLayer, Count: 1, GelAfter: len(s.Plies)%4 == 2})
	}
	s.Plies = append(s.Plies, coat)
	return s
}

// BenchmarkJudge is a whole judgment, analysis and wall included; what of it
// is theirs is told by the two other benchmarks.
func BenchmarkJudge(b *testing.B) {
	lib := catalog.Library()
	for _, n := range []int{10, 40, 2000} {
		s := tall(n)
		spoiled := tall(n)
		spoiled.Service.Contains = laminate.TraitSet(laminate.Fluorides, laminate.Hypochlorite)
		spoiled.Plies[ruletest.MatRow].GelAfter = false
		for i := range spoiled.Plies {
			spoiled.Plies[i].GelAfter = false
		}
		for name, c := range map[string]struct {
			s *laminate.Schedule
			o rules.Options
		}{"sound": {s, rules.Options{}}, "spoiled": {spoiled, rules.Options{}}, "spoiled, fixes": {spoiled, rules.Options{Fixes: true}}} {
			b.Run(fmt.Sprintf("%d rows %s", n, name), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					all.Judge(c.s, lib, c.o)
				}
			})
		}
	}
}

func BenchmarkAnalyzeAlone(b *testing.B) {
	lib := catalog.Library()
	for _, n := range []int{10, 40, 2000} {
		s := tall(n)
		b.Run(fmt.Sprintf("%d rows", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				laminate.Analyze(s, lib)
			}
		})
	}
}

func BenchmarkWallAlone(b *testing.B) {
	lib := catalog.Library()
	for _, n := range []int{10, 40, 2000} {
		s := tall(n)
		a := laminate.Analyze(s, lib)
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
	lib := catalog.Library()
	var list []*rules.Rule
	for _, r := range all.Rules() {
		switch r.ID {
		case "structure-fails", "structure-incomplete", "structure-idle":
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
