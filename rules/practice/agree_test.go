package practice_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/practice"
)

// filled is the share of a filler in the resins of a schedule.
func filled(s *laminate.Schedule, f laminate.Filler) (shares []float64) {
	for i := range s.Resins {
		if s.Resins[i].Filler == f {
			shares = append(shares, s.Resins[i].FillerContent.Value)
		}
	}
	return shares
}

func TestFillers_adviceAndPracticeTakeTheSameShare(t *testing.T) {
	lib := catalog.Library()
	for filler, service := range map[laminate.Filler]laminate.Service{
		laminate.CarbonPowder:   {Conductive: laminate.Some(true)},
		laminate.SiliconCarbide: {Abrasive: laminate.Some(true)},
	} {
		service.Fluid, service.Contains = "rinse water", laminate.TraitSet()
		service.Temperature, service.PH = quantity.New(100, quantity.Fahrenheit), laminate.PHRange{Lowest: 6, Highest: 8, Given: true}
		s := &laminate.Schedule{Service: service, Part: laminate.Part{Grounding: "lug at each end"}}
		proposed, err := advice.WithBarrier(s, lib, advice.Options{})
		if err != nil {
			t.Fatal(err)
		}
		solved := practice.Solve(&exercise.Exercise{Kind: exercise.Build, Given: *s}, lib, quantity.US).Schedule
		a, b := filled(proposed, filler), filled(solved, filler)
		if len(a) != 1 || len(b) != 1 || a[0] != b[0] {
			t.Errorf("%v: advice takes %v, practice %v", filler, a, b)
		}
	}
}
