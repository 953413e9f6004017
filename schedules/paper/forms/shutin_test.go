package forms_test

import (
	"fmt"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper/forms"
)

// The joint that closes the vessel is not laid before somebody says how its seal is: with
// the manway of the example cut to a hand's width nobody gets out.
func TestRouteSheet_stopsBeforeASealThatNobodyCanLay(t *testing.T) {
	for size, stops := range map[float64]bool{24: false, 12: true} {
		of := exampleJob(t, func(j *laminate.Job) {
			for i := range j.Nozzles {
				if j.Nozzles[i].Cover != "" {
					j.Nozzles[i].Size, j.Nozzles[i].Opening = quantity.New(size, quantity.Inch), quantity.New(size, quantity.Inch)
				}
			}
		})
		said := fmt.Sprintf("%+v", forms.RouteSheet(of))
		if strings.Contains(said, "joint J4, shell-3 to head: NOT YET. It closes the vessel") != stops {
			t.Errorf("%v in: %v, want %v\n%s", size, !stops, stops, said)
		}
		if !strings.Contains(said, "entry permit") {
			t.Errorf("no caution: %s", said)
		}
	}
}
