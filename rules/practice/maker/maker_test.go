package maker_test

import (
	"strings"
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

// What a made exercise tells agrees with its data: the same heat, pH and share
// in words and figures, and no fluid with the nature of another.
func TestGenerate_tellsWhatItsDataSay(t *testing.T) {
	lib := catalog.Library()
	for step := 1; step <= exercise.Steps; step++ {
		for seed := range uint64(40) {
			e := maker.Generate(seed, step, lib)
			v, p := &e.Given.Service, &e.Given.Part
			wrong := func(what string) { t.Errorf("%s: %s; %s %+v", e.ID, what, e.Scenario, *v) }
			said := []string{quantity.US.Temperature(v.Temperature.SI()), "pH " + quantity.Number(v.PH.Lowest, 1) + " to " + quantity.Number(v.PH.Highest, 1) + "."}
			if v.Concentration.Given {
				said = append(said, quantity.Share(v.Concentration.Value)+" by mass")
			}
			for _, s := range said {
				if !strings.Contains(e.Scenario, s) {
					wrong("it does not tell " + s)
				}
			}
			if !v.Concentration.Given && strings.Contains(e.Scenario, "by mass") {
				wrong("it tells a share that is not stated")
			}
			if !strings.Contains(e.Title, v.Fluid) {
				wrong("the title is of another fluid: " + e.Title)
			}
			if heat := v.Temperature.In(quantity.Fahrenheit); heat < 40 || heat > 210 {
				wrong("water in it would freeze or boil")
			}
			for word, agrees := range map[string]bool{
				"acid":         v.PH.Highest <= 7,
				"hydroxide":    v.PH.Lowest >= 7 && v.Contains.Has(laminate.StrongBase),
				"brine":        v.Contains.Has(laminate.Brine),
				"slurry":       v.Abrasive.Value && v.Contains.Has(laminate.Solids),
				"hypochlorite": v.Contains.Has(laminate.Hypochlorite) && v.PH.Lowest > 7,
				"hazardous":    v.Conductive.Value && p.Grounding != "",
				" feeds ":      p.InsideDiameter.In(quantity.Inch) <= 16,
				"roof":         v.Temperature.In(quantity.Fahrenheit) <= 90,
				"sea water":    v.Temperature.In(quantity.Fahrenheit) <= 90,
			} {
				if strings.Contains(e.Scenario, word) && !agrees {
					wrong(word + " does not agree with the data")
				}
			}
			if v.Abrasive.Value && !strings.Contains(e.Scenario, "slurry") || v.Conductive.Value && !strings.Contains(e.Scenario, "hazardous") {
				wrong("it does not tell what it demands")
			}
		}
	}
}
