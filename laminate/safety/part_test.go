package safety_test

import (
	"slices"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/safety"
)

// What is tested under pressure says water and not air, whatever somebody may go
// into says permit and attendant, and nothing else says either.
func TestForPart_followsPressureAndForm(t *testing.T) {
	for _, f := range laminate.JobForms.All() {
		for _, psi := range []float64{0, 20} {
			var s laminate.Schedule
			s.Part.Form, s.Service.Pressure = f, quantity.New(psi, quantity.PSI)
			got := ids(safety.ForPart(&s))
			if slices.Contains(got, "tank-entry") != safety.Encloses(f) || slices.Contains(got, "pressure-test") != (psi > 0 || f == laminate.Tank) {
				t.Errorf("%s at %g psi: %v", f, psi, got)
			}
		}
	}
}
