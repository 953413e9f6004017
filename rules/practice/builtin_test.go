package practice_test

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules"
)

func builtIn(t *testing.T) []*exercise.Exercise {
	t.Helper()
	list, problems := schedules.Exercises()
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return list
}

func find(t *testing.T, id string) *exercise.Exercise {
	t.Helper()
	for _, e := range builtIn(t) {
		if e.ID == id {
			return e
		}
	}
	t.Fatalf("no exercise %s", id)
	return nil
}

func TestExercises_coverEveryStepAndKind(t *testing.T) {
	list := builtIn(t)
	if len(list) < 40 {
		t.Errorf("%d exercises", len(list))
	}
	steps, kinds, ids := map[int]int{}, map[exercise.Kind]int{}, map[string]bool{}
	for _, e := range list {
		steps[e.Step]++
		kinds[e.Kind]++
		if ids[e.ID] || len(e.Hints) == 0 {
			t.Errorf("%s: twice, or without a hint", e.ID)
		}
		ids[e.ID] = true
	}
	for step := 1; step <= exercise.Steps; step++ {
		if steps[step] < 5 {
			t.Errorf("step %d has %d exercises", step, steps[step])
		}
	}
	for _, k := range exercise.Kinds.All() {
		if kinds[k] < 3 {
			t.Errorf("%d exercises of the kind %s", kinds[k], k)
		}
	}
}

// A scene and its data are one job: what the words call the part is its form, a
// fluid that is named is the fluid of the service, a tank stands and has a level.
func TestExercises_tellJobsThatCouldBeTrue(t *testing.T) {
	words := map[string][]laminate.PartForm{
		"tank": {laminate.Tank}, "duct": {laminate.Duct}, "panel": {laminate.Panel}, "header": {laminate.Pipe, laminate.Duct},
		"caustic": nil, "hypochlorite": nil, "brine": nil, "sulfuric": nil, "hydrochloric": nil,
	}
	for _, e := range builtIn(t) {
		p, v := &e.Given.Part, &e.Given.Service
		if p.Form == laminate.NoPartForm {
			continue
		}
		title := strings.ToLower(e.Title)
		for word, forms := range words {
			if forms != nil && strings.Contains(title, word) && !slices.Contains(forms, p.Form) {
				t.Errorf("%s: %q is a %s", e.ID, e.Title, p.Form)
			}
		}
		if p.Form == laminate.Tank && (!p.LiquidHeight.Given() || p.Length.Given() && p.LiquidHeight.SI() > p.Length.SI()) {
			t.Errorf("%s: a tank %s high filled to %s", e.ID, p.Length.Text(), p.LiquidHeight.Text())
		}
		for fluid, trait := range map[string]laminate.Trait{"hydroxide": laminate.StrongBase, "caustic": laminate.StrongBase, "hypochlorite": laminate.Hypochlorite, "hydrochloric": laminate.StrongAcid, "sulfuric": laminate.StrongAcid, "brine": laminate.Brine} {
			if strings.Contains(strings.ToLower(v.Fluid), fluid) && v.Contains.Given && !v.Contains.Has(trait) && v.Concentration.Or(1) > 0.02 {
				t.Errorf("%s: %q does not contain %s", e.ID, v.Fluid, trait)
			}
		}
	}
}

// spoil turns a right answer into a wrong one of the same kind.
func spoil(e *exercise.Exercise, right practice.Answer) practice.Answer {
	wrong := right
	switch e.Kind {
	case exercise.Choose:
		wrong.Veil, wrong.Family = "mat-1.5", laminate.Isophthalic
	case exercise.Fix, exercise.Build:
		s := right.Schedule.Clone()
		s.Plies = s.Plies[1:]
		wrong.Schedule = s
	case exercise.Order:
		s := right.Schedule.Clone()
		s.Plies[0], s.Plies[len(s.Plies)-1] = s.Plies[len(s.Plies)-1], s.Plies[0]
		wrong.Schedule = s
	case exercise.Predict, exercise.Ignition:
		wrong.Values = append([]string{"1 um"}, right.Values[1:]...)
		if e.Questions[0].Ask.Answer() == exercise.Content {
			wrong.Values[0] = "99 %"
		} else if e.Questions[0].Ask == exercise.Verdict {
			wrong.Values[0] = map[bool]string{true: "break", false: "clear"}[right.Values[0] == "clear"]
		}
	case exercise.NoKind:
	}
	return wrong
}

func TestExercises_solutionsMarkFullAndWrongAnswersDoNot(t *testing.T) {
	lib := catalog.Library()
	for _, e := range builtIn(t) {
		for _, units := range []quantity.System{quantity.US, quantity.Metric} {
			right := practice.Solve(e, lib, units)
			if m := practice.Grade(e, right, lib, units); m.Score != 1 || !m.Full() {
				t.Errorf("%s in %s: the solution marks %v: %+v", e.ID, units, m.Score, m.Lines)
			}
			for name, a := range map[string]practice.Answer{"nothing": {}, "spoiled": spoil(e, right), "as given": {Schedule: &e.Given}} {
				m := practice.Grade(e, a, lib, units)
				if m.Full() || m.Score >= 1 || m.Score < 0 {
					t.Errorf("%s: the answer %q marks %v", e.ID, name, m.Score)
				}
				for _, l := range m.Lines {
					if l.Why == "" || l.Basis == "" || l.Found == "" {
						t.Errorf("%s, %q: missed without a reason: %+v", e.ID, name, l)
					}
					if l.Points < 0 || l.Points > l.Of {
						t.Errorf("%s: %+v", e.ID, l)
					}
				}
			}
		}
		if m := practice.Grade(e, practice.Answer{}, lib, quantity.US); m.Score != 0 {
			t.Errorf("%s: nothing marks %v", e.ID, m.Score)
		}
	}
}

func TestExercises_answersBreakNoRule(t *testing.T) {
	lib := catalog.Library()
	for _, e := range builtIn(t) {
		s := practice.Solve(e, lib, quantity.US).Schedule
		if s == nil {
			continue
		}
		breaks, incompletes, _, _ := practice.Judge(e, s, lib, quantity.US).Counts()
		if breaks+incompletes > 0 {
			t.Errorf("%s: %d breaks, %d open", e.ID, breaks, incompletes)
		}
	}
}

// What common practice (no source) gives for each service; the solver is told
// none of it.
func TestSolve_agreesWithCommonPractice(t *testing.T) {
	cases := []struct {
		id, veil string
		families []laminate.Family
	}{
		{"a2-first-veil", "veil-c-15", []laminate.Family{laminate.VinylEster}},
		{"a3-etch-rinse", "veil-polyester-15", []laminate.Family{laminate.VinylEster}},
		{"b1-caustic-day-tank", "veil-polyester-15", []laminate.Family{laminate.VinylEster}},
		{"b2-hot-pickle", "veil-c-15", []laminate.Family{laminate.NovolacVinylEster}},
		{"b3-fume-duct", "veil-polyester-15", []laminate.Family{laminate.BrominatedVinylEster, laminate.BrominatedNovolacVinylEster}},
		{"e6-pulp-bleach", "veil-polyester-15", []laminate.Family{laminate.VinylEster, laminate.NovolacVinylEster}},
	}
	lib := catalog.Library()
	for _, c := range cases {
		a := practice.Solve(find(t, c.id), lib, quantity.US)
		ok := false
		for _, f := range c.families {
			ok = ok || a.Family == f
		}
		if a.Veil != c.veil || !ok {
			t.Errorf("%s: %s in %s", c.id, a.Veil, a.Family)
		}
	}
	// Conductive: one carbon veil, two mats, carbon powder. Abrasion: about 35 %
	// hard filler. Hypochlorite: two veils, four mats, a cure without cobalt.
	s := practice.Solve(find(t, "e1-solvent-drain"), lib, quantity.US).Schedule
	if r, _ := s.Resin(s.Plies[1].Resin); s.Plies[0].Material != "veil-carbon-11" || s.Plies[1].Count != 2 || r.Filler != laminate.CarbonPowder {
		t.Errorf("conductive: %+v", s.Plies)
	}
	s = practice.Solve(find(t, "e2-grit-line"), lib, quantity.US).Schedule
	if r, _ := s.Resin(s.Plies[1].Resin); !r.Filler.Hard() || r.FillerContent.Value != 0.35 {
		t.Errorf("abrasive: %+v", s.Resins)
	}
	s = practice.Solve(find(t, "e3-bleach-header"), lib, quantity.US).Schedule
	if r, _ := s.Resin(s.Plies[1].Resin); s.Plies[0].Count != 2 || s.Plies[1].Count != 4 || r.Cure != laminate.PeroxideAmine {
		t.Errorf("hypochlorite: %+v %+v", s.Plies, s.Resins)
	}
}
