package proof_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/ruletest"
)

// The sound pipe stands at 25 psi and at 75 % of a tenth of what breaks it, so by hand at
// 33.3 psi at its limit, at 50 psi at 1.5 times it, and at 333 psi it breaks. Its hoop strain
// is 70 % of 0.1 %, so that 2.5 % are reached at 892 psi, and the 5 % of its resin at 1,784.
func TestScheduleTests(t *testing.T) {
	test := func(psi float64) func(*laminate.Schedule) {
		return func(s *laminate.Schedule) { s.Service.TestPressure = quantity.New(psi, quantity.PSI) }
	}
	both := func(list ...func(*laminate.Schedule)) func(*laminate.Schedule) {
		return func(s *laminate.Schedule) {
			for _, change := range list {
				change(s)
			}
		}
	}
	strain := func(s *laminate.Schedule) { s.Part.DesignBasis = laminate.StrainLimit }
	ruletest.Run(t, "joints", []ruletest.Case{
		{Name: "no test"},
		{Name: "a test as the service", Change: test(25)},
		{Name: "a test below the service", Change: test(2.5), Want: []string{"warning schedule-test-below-service"}, Says: []string{"2.5 psi", "25.0 psi", "10 % of it"}},
		{Name: "past what it allows", Change: test(37.5), Want: []string{"note schedule-overstrained-at-test"}, Says: []string{"37.5 psi", "where the service has 25.0 psi", "hoop strength"}},
		{Name: "at its limit still", Change: test(33.3)},
		{Name: "at 1.5 times its limit", Change: test(49.9), Want: []string{"note schedule-overstrained-at-test"}},
		{Name: "far past", Change: test(50.1), Want: []string{"warning schedule-overstrained-at-test"}},
		{Name: "typed ten times", Change: test(334), Want: []string{"break schedule-overstrained-at-test"}, Says: []string{"it breaks there"}},
		{Name: "just whole", Change: test(333), Want: []string{"warning schedule-overstrained-at-test"}},
		{Name: "the glass breaks first", Change: both(strain, test(893)), Want: []string{"break schedule-overstrained-at-test"}, Says: []string{"laminates of glass break at 2.5"}},
		{Name: "just before", Change: both(strain, test(891)), Want: []string{"warning schedule-overstrained-at-test"}},
		{Name: "the resin breaks first", Change: both(strain, test(9000)), Want: []string{"break schedule-overstrained-at-test"}, Says: []string{"and resin liner breaks at 5"}},
		{Name: "no pressure in service", Change: both(test(375), func(s *laminate.Schedule) { s.Service.Pressure = quantity.New(0, quantity.PSI) }), Want: []string{"break schedule-overstrained-at-test"}},
		{Name: "nothing can be judged", Change: both(test(375), func(s *laminate.Schedule) { s.Part.InsideDiameter = quantity.Length{} }), Want: []string{"incomplete schedule-overstrained-at-test"}},
		{Name: "of a job its own test is judged", Change: both(test(375), func(s *laminate.Schedule) { s.Part.Place.Tested = true })},
	})
}
