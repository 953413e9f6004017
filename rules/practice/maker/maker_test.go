package maker_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
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
			if breaks, incompletes, _, _ := practice.Judge(e, a.Schedule, lib, quantity.US).Counts(); breaks+incompletes > 0 {
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

// What is made about joints comes in all three kinds, with most of what may be wrong with
// a strap or a seal; a word that is not the right one does not mark full.
func TestGenerate_joints(t *testing.T) {
	lib := catalog.Library()
	words, laid, kinds := map[string]int{}, map[overlay.Kind]int{}, map[exercise.Kind]int{}
	for seed := range uint64(160) {
		e := maker.Generate(seed, exercise.Steps, lib)
		laid[e.Overlay]++
		if faults := e.Faults(); len(faults) > 0 {
			t.Fatalf("%s: %+v", e.ID, faults)
		}
		if e.Overlay.Inside() && e.Given.Part.InsideDiameter.Cmp(catalog.LeastReach) < 0 {
			t.Errorf("%s: no hand reaches the joint in %s", e.ID, e.Given.Part.InsideDiameter.Text())
		}
		kinds[e.Kind]++
		if s := practice.Solve(e, lib, quantity.US).Schedule; s != nil {
			if breaks, incompletes, warnings, _ := practice.Judge(e, s, lib, quantity.US).Counts(); breaks+incompletes+warnings > 0 {
				t.Errorf("%s: its answer has %d breaks, %d incomplete, %d warnings", e.ID, breaks, incompletes, warnings)
			}
		}
		if e.Kind != exercise.Predict {
			continue
		}
		right := practice.Solve(e, lib, quantity.US).Values
		words[right[1]]++
		for _, word := range exercise.Worst.Words() {
			m := practice.Grade(e, practice.Answer{Values: []string{right[0], word}}, lib, quantity.US)
			if m.Full() != (word == right[1]) {
				t.Errorf("%s: %q marks %v, right is %q", e.ID, word, m.Score, right)
			}
		}
	}
	for _, k := range []exercise.Kind{exercise.Order, exercise.Predict, exercise.Fix} {
		if kinds[k] < 30 {
			t.Errorf("%d of the kind %s", kinds[k], k)
		}
	}
	if laid[overlay.None] > 0 || laid[overlay.Strap] < 15 || laid[overlay.Seal] < 15 || laid[overlay.Pad] < 15 || laid[overlay.LaidInside] < 15 || len(words) < 7 {
		t.Errorf("%v of %v", words, laid)
	}
}
