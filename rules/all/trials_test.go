package all_test

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/ruletest"
)

// loads draws loads, what is left of moduli, conditions, and rows like others.
func loads(t *rapid.T, s *laminate.Schedule) {
	psi := func(name string, of ...float64) quantity.Pressure {
		v := rapid.SampledFrom(append(of, -1)).Draw(t, name)
		if v < 0 {
			return quantity.Pressure{}
		}
		return quantity.New(v, quantity.PSI)
	}
	v := &s.Service
	v.Pressure, v.Vacuum, v.TestPressure = psi("pressure", 0, 5, 50, 400), psi("vacuum", 0, 1, 14.7), psi("test", 10)
	if rapid.Bool().Draw(t, "loose") {
		s.Part.InsideDiameter = quantity.New(rapid.SampledFrom([]float64{1, 6, 48, 300}).Draw(t, "diameter"), quantity.Inch)
		s.Part.LiquidHeight = quantity.New(20, quantity.Foot)
		v.SpecificGravity = laminate.Some(1.2)
	}
	s.Part.ModulusRetention = maybe(t, "kept", rapid.SampledFrom([]float64{0.5, 0.8, 1}))
	if rapid.IntRange(0, 3).Draw(t, "conditions") == 0 {
		s.Conditions = []laminate.Condition{
			{Name: "operating", Temperature: ruletest.Fahrenheit(90), Pressure: psi("operating", 1)},
			{Name: "upset", Temperature: ruletest.Fahrenheit(130), Vacuum: psi("upset", 1), ModulusRetention: laminate.Some(0.6)},
		}
	}
	for range rapid.IntRange(0, 4).Draw(t, "again") {
		if n := len(s.Plies); n > 0 {
			s.Plies = append(s.Plies, s.Plies[rapid.IntRange(0, n-1).Draw(t, "row")])
		}
	}
}

// Trying a fix counts what a whole judgment would say, no more and no less.
func TestTrials_keepWhatWholeJudgmentsWouldKeep(t *testing.T) {
	lib := catalog.Library()
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t, lib)
		loads(t, s)
		n, err := ruletest.Trials(s, lib, rules.Options{Units: quantity.System(rapid.IntRange(0, 1).Draw(t, "units"))})
		if err != nil {
			t.Fatal(err)
		}
		tried += n
	})
	if tried == 0 {
		t.Error("no fix was tried")
	}
}
