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
	Gas             float64 // Pa of it over that circle, of gas under what closes the shell
	When            string  // "in service", "under cleaning", "at the test"; "" where nothing lifts
	Missing         string  // what is missing for it in one of its states

	by Pressing
}

// Raised is what liquid does to one part of a shell that it lifts.
type Raised struct {
	Part        int
	Foot, Force float64 // Pa of the liquid at its lower end, and N upward; downward below 0
}

// Raises are the parts of which liquid lifts the shell, or holds it down.
func (u *Uplift) Raises(p *rules.JobPass) (list []Raised) {
	liquid := func(part int, up float64) float64 {
		pa, _ := u.by.At(p, part, up) // nothing is missing: it was weighed
		return pa - u.by.Gas(p, part)
	}
	for i := range p.Job.Parts {
		n := p.Lifted(0, func(part int, up float64) float64 {
			if part != i {
				return 0
			}
			return liquid(part, up)
		})
		if n != 0 {
			list = append(list, Raised{i, liquid(i, 0), n})
		}
	}
	return list
}

// Uplifts are those of a bottom in the hardest state of the service, and in the test;
// nothing of what is no bottom of a founded vessel.
func Uplifts(p *rules.JobPass, bottom int) (service, test Uplift) {
	x := &p.Job.Parts[bottom]
	circle := math.Pi / 4 * x.InsideDiameter.SI() * x.InsideDiameter.SI()
	if x.Form != laminate.FlatBottom || !p.Founded || p.OnTop(bottom) || circle == 0 {
		return service, test
	}
	_, above := p.Closed()
	weigh := func(most *Uplift, by Pressing, when string) {
		force, missing := Lift(p, 0, by)
		gas := 0.0
		if above {
			gas = by.Gas(p, bottom)
		}
		force += gas * circle
		most.Missing = cmp.Or(most.Missing, missing)
		if missing == "" && force > most.Force {
			most.Pressure, most.Force, most.Gas, most.When, most.by = force/circle, force, gas, when, by
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
