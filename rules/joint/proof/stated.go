package proof

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// TestContradicted holds what the service says of a test against the test of the job.
var TestContradicted = &rules.Rule{
	ID: "test-contradicted", Family: family, Title: "The service states a test that the job does not",
	Why: "The test of a job is its own table: that is what parts, straps and pads are held against and what the route sheet orders. " +
		"A test pressure that stands with the service is judged by nothing there, and whoever reads it may test with more than anything was figured for.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "the service of the job states a test pressure and its test another pressure: break; the job states no test, or none of a pressure: incomplete, " +
		"as where the schedule of a part states a test pressure that the test of the job has not",
	Basis: "the program's own check",
	Job: func(p *rules.JobPass) {
		test := p.Job.Test.Pressure
		hold := func(at laminate.Ref, says string, stated quantity.Pressure, contradicts rules.Severity) {
			switch {
			case !stated.Given() || stated.SI() <= 0 && !test.Given():
			case !test.Given():
				p.Report(rules.Incomplete, at, "", "%s a test pressure of %s, and the job no pressure of its test: nothing is judged for it and nothing orders it; the test of a job stands in [test]", says, p.Units.Stated(stated.SI(), quantity.Stress))
			case quantity.Compare(stated.SI(), test.SI()) != 0:
				a, b := p.Units.Pair(stated.SI(), test.SI(), quantity.Stress)
				p.Report(contradicts, at, "", "%s a test pressure of %s, and the test of the job has %s, which is what is judged and ordered ([test])", says, a, b)
			}
		}
		hold(laminate.Ref{Part: -1, Kind: laminate.RefService, Key: "test_pressure"}, "the service states", p.Job.Service.TestPressure, rules.Break)
		for i := range p.Job.Parts {
			x := &p.Job.Parts[i]
			if s, read := p.Job.Schedules[x.Schedule]; read && x.Schedule != "" {
				hold(laminate.JobPartRef(i, "schedule"), "part "+x.ID+": its schedule "+x.Schedule+" states", s.Service.TestPressure, rules.Incomplete)
			}
		}
	},
}

// TestHeldShort asks for a test that lasts.
var TestHeldShort = &rules.Rule{
	ID: "test-held-short", Family: family, Title: "The test is held for a short time",
	Why: "A leak through a barrier needs time to come out, and a wall of resin goes on giving way after the pressure is on. " +
		"A pressure that is let off as soon as it is reached shows neither.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the time that the test is held is stated and below 10 minutes (10 minutes are enough)",
	Basis:    "at least 10 minutes: ASME B31.3 A345, from memory",
	Job: func(p *rules.JobPass) {
		if held := p.Job.Test.Held; held.Given() && quantity.Below(held.SI(), leastHeld) {
			p.Report(rules.Warning, testRef("held"), "", "the test is held %s, under 10 min: state a longer time, or who asks for so little", held.Text())
		}
	},
}

// leastHeld is how long a test is held at least, s (ASME B31.3 A345, from memory).
const leastHeld = 600
