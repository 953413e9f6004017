package statics

import (
	"cmp"
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// Uplift is what gas and liquid lift of the shell that stands on a flat bottom, its own
// weight not taken off.
type Uplift struct {
	Pressure, Force float64 // Pa over the circle of the bottom, and N in all
	When            string  // "in service", "under cleaning", "at the test"; "" where nothing lifts
	Missing         string  // what is missing for it in one of its states
}

// Uplifts are those of a bottom in the hardest state of the service, and in the test;
// nothing of what is no bottom of a founded vessel.
func Uplifts(p *rules.JobPass, bottom int) (service, test Uplift) {
	x := &p.Job.Parts[bottom]
	circle := math.Pi / 4 * x.InsideDiameter.SI() * x.InsideDiameter.SI()
	if x.Form != laminate.FlatBottom || !p.Founded || p.OnTop(bottom) || circle == 0 {
		return service, test
	}
	_, above := Closed(p)
	weigh := func(most *Uplift, by Pressing, when string) {
		force, missing := Lift(p, 0, by)
		if above {
			force += by.Gas(p, bottom) * circle
		}
		most.Missing = cmp.Or(most.Missing, missing)
		if missing == "" && force > most.Force {
			most.Pressure, most.Force, most.When = force/circle, force, when
		}
	}
	for _, u := range States(p, bottom) {
		when := "in service"
		if u != "" {
			when = "under " + string(u)
		}
		weigh(&service, u.Pressing(), when)
	}
	if Tested(p) {
		weigh(&test, InTest, "at the test")
	}
	return service, test
}
