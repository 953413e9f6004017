package proof

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// farAbove is how many times the service a test puts on equipment at most before one of
// the two looks like a slip: tests go to one and a half. Common practice, no source.
const farAbove = 2

// TestFarAbove asks whether test and service are of one equipment.
var TestFarAbove = &rules.Rule{
	ID: "test-far-above-service", Family: family, Title: "The test is far above what the service states",
	Why: "A test goes to one and a half times the service. Where it goes to several times it either the test is wrong, and may break what it tests, or the service is: a level of 1.4 for 14 ft, a specific gravity of 0.12 for 1.2, " +
		"and then every wall is figured for a tenth of what stands on it.",
	Severity: []rules.Severity{rules.Warning},
	When: "the test puts more than twice its service on the part of a shell that it presses most, or on a part of a line, whose service has a pressure at all (twice is within); " +
		"what stands higher in a shell, where little of the liquid is over it, is held by its strain",
	Basis: rules.CommonPractice + ": one and a half times is asked for",
	Job: func(p *rules.JobPass) {
		if !statics.Tested(p) {
			return
		}
		presses := func(i int) (test, service float64) {
			test, missing := statics.TestAt(p, i, 0)
			service, more := statics.PressureAt(p, i, 0)
			if missing != "" || more != "" {
				return math.NaN(), math.NaN()
			}
			return test, service
		}
		var at []laminate.Ref
		hardest, most := -1, 0.0
		for i := range p.Job.Parts {
			test, service := presses(i)
			switch {
			case !p.Line(i):
				if p.InShell(i) && test > most {
					hardest, most = i, test
				}
			case service > 0 && quantity.Above(test, farAbove*service):
				at = append(at, laminate.JobPartRef(i, ""))
			}
		}
		if hardest >= 0 {
			if test, service := presses(hardest); service > 0 && quantity.Above(test, farAbove*service) {
				at = append([]laminate.Ref{laminate.JobPartRef(hardest, "")}, at...)
			}
		}
		if len(at) == 0 {
			return
		}
		i := at[0].Index
		test, service := presses(i)
		a, b := p.Units.Pair(test, service, quantity.Stress)
		p.ReportAt(rules.Warning, at, "", "the test puts %s on part %s%s, %s times its service of %s: is the test too high, or a pressure, level or specific gravity of the service too low by a point or a unit?",
			a, p.Job.Parts[i].ID, more(len(at)-1), p.Units.Figure(test/service, quantity.Times), b)
	},
}

// tepid is what water from a main never reaches, and above cold test-temperature-unfit
// asks what a wall keeps, K. Common practice, no source.
var (
	tepid = quantity.New(100, quantity.Fahrenheit).SI()
	cold  = quantity.New(120, quantity.Fahrenheit).SI()
)

// TestWarmer asks about a test that is warmer than all that the service states.
var TestWarmer = &rules.Rule{
	ID: "test-warmer-than-service", Family: family, Title: "The test is warmer than the service ever is",
	Why: "A test is made with water as it comes from the main, and equipment that is tested warm has a warm service. Where the test is the warmer of the two one of them is in another unit, or a digit is missing: " +
		"a service of 43 °C that is stated as 43 °F lets every resin and every strength hold.",
	Severity: []rules.Severity{rules.Warning, rules.Note},
	When:     "the temperature of the test is above the hottest of the service and of all parts: note; and above 100 °F (38 °C), warmer than any main (the bounds are within): warning; above 120 °F (49 °C), where test-temperature-unfit asks what the wall keeps, nothing more",
	Basis:    rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		t, hottest := p.Job.Test.Temperature, p.Job.Service.Hottest()
		for i := range p.Parts {
			if h := p.Parts[i].Schedule.Service.Hottest(); h.Given() && !(hottest.SI() >= h.SI()) {
				hottest = h
			}
		}
		if !t.Given() || !hottest.Given() || !quantity.Above(t.SI(), hottest.SI()) || quantity.Above(t.SI(), cold) {
			return
		}
		severity := rules.Note
		if quantity.Above(t.SI(), tepid) {
			severity = rules.Warning
		}
		a, b := p.Units.Pair(t.SI(), hottest.SI(), quantity.Point)
		p.Report(severity, testRef("temperature"), "", "the test is at %s, and the service reaches %s: is one of them in another unit? (service.temperature, test.temperature)", a, b)
	},
}
