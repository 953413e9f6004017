package all_test

import (
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
)

// said is what rules say of a schedule, whatever the number of rows it is in.
func said(r *rules.Report) []string {
	set := map[string]bool{}
	for i := range r.Findings {
		if f := &r.Findings[i]; f.Rule.ID != "zones-inferred" {
			set[f.Rule.ID+" "+f.Severity.String()] = true
		}
	}
	return slices.Sorted(maps.Keys(set))
}

func sameFigure(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b))
}

// A schedule without zones says the same of plies, verdict and wall with the
// zones stated that are inferred, and with every row taken apart into single
// plies.
func TestInferredZones_sayTheSameStatedAndPlyByPly(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t, lib)
		for i := range s.Plies {
			s.Plies[i].Zone = laminate.NoZone
		}
		rows := 0
		for _, p := range s.Plies {
			rows += p.Count
		}
		s.Plies = laminate.SplitRow(s, lib)
		stated := s.Clone()
		for i, z := range laminate.InferZones(s, lib) {
			stated.Plies[i].Zone, stated.Plies[i].Rest = z, false
		}
		single := s.Clone()
		single.Plies = nil
		for _, p := range s.Plies {
			for k := range p.Count {
				one := p
				one.Count, one.Rest, one.GelAfter = 1, false, p.GelAfter && k == p.Count-1
				single.Plies = append(single.Plies, one)
			}
		}
		want := all.Judge(s, lib, rules.Options{})
		if n := want.Analysis.Total.Plies; n != rows {
			t.Fatalf("%d plies, %d in the rows", n, rows)
		}
		walled := wall.Evaluate(s, lib, want.Analysis, wall.Options{})
		for name, other := range map[string]*laminate.Schedule{"stated": stated, "single": single} {
			got := all.Judge(other, lib, rules.Options{})
			if got.Verdict != want.Verdict || !slices.Equal(said(got), said(want)) {
				t.Fatalf("%s: %v %v, inferred: %v %v", name, got.Verdict, said(got), want.Verdict, said(want))
			}
			for _, z := range laminate.Zones.All() {
				a, b := got.Analysis.Zones[z], want.Analysis.Zones[z]
				if a.Plies != b.Plies || !sameFigure(a.Thickness, b.Thickness) || !sameFigure(a.Mass, b.Mass) {
					t.Fatalf("%s: %s is %+v, inferred %+v", name, z, a, b)
				}
			}
			r := wall.Evaluate(other, lib, got.Analysis, wall.Options{})
			if r.Answer() != walled.Answer() || len(r.Criteria) != len(walled.Criteria) {
				t.Fatalf("%s: wall %v, inferred %v", name, r.Answer(), walled.Answer())
			}
			for i := range r.Criteria {
				if a, b := &r.Criteria[i], &walled.Criteria[i]; a.Name != b.Name || a.Answer != b.Answer || !sameFigure(a.Ratio, b.Ratio) {
					t.Fatalf("%s: %s %v %g, inferred %s %v %g", name, a.Name, a.Answer, a.Ratio, b.Name, b.Answer, b.Ratio)
				}
			}
		}
	})
}
