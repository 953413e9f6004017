package maker_test

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/practice"
	"frp/veilwright/rules/practice/maker"
)

func TestGenerate_isAlwaysSolvableAndTheSame(t *testing.T) {
	lib := catalog.Library()
	kinds := map[exercise.Kind]int{}
	rapid.Check(t, func(t *rapid.T) {
		seed, step := rapid.Uint64().Draw(t, "seed"), rapid.IntRange(1, exercise.Steps).Draw(t, "step")
		e := maker.Generate(seed, step, lib)
		kinds[e.Kind]++
		if again := maker.Generate(seed, step, lib); again.Scenario != e.Scenario || again.Kind != e.Kind || len(again.Given.Plies) != len(e.Given.Plies) {
			t.Fatal("the same seed gives another exercise")
		}
		if e.Step != step || e.Title == "" || e.Scenario == "" || e.Task == "" || len(e.Hints) == 0 {
			t.Fatalf("%+v", e)
		}
		if faults := laminate.Validate(&e.Given, lib); len(faults) > 0 {
			t.Fatalf("given: %+v", faults)
		}
		if v := &e.Given.Service; v.PH.Lowest > v.PH.Highest || !v.Temperature.Given() {
			t.Fatalf("service %+v", v)
		}
		a := practice.Solve(e, lib, quantity.US)
		if m := practice.Grade(e, a, lib, quantity.US); m.Score != 1 || !m.Full() {
			t.Fatalf("%s %s: the solution marks %v: %+v", e.ID, e.Kind, m.Score, m.Lines)
		}
		if m := practice.Grade(e, practice.Answer{}, lib, quantity.US); m.Score != 0 {
			t.Fatalf("nothing marks %v", m.Score)
		}
		if m := practice.Grade(e, practice.Answer{Schedule: &e.Given}, lib, quantity.US); m.Full() {
			t.Fatalf("%s: what is given marks full", e.Kind)
		}
		if a.Schedule != nil {
			if breaks, incompletes, _, _ := all.Judge(a.Schedule, lib, rules.Options{}).Counts(); breaks+incompletes > 0 {
				t.Fatalf("the solution breaks %d rules", breaks)
			}
		}
	})
	for _, k := range exercise.Kinds.All() {
		if kinds[k] == 0 {
			t.Errorf("no exercise of the kind %s was made", k)
		}
	}
}
