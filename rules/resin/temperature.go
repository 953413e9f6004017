package resin

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// hot is 180 °F in K: above it the middling families need special thought
// (D3299, D4097); margin is kept under the heat deflection temperature.
var hot = quantity.New(180, quantity.Fahrenheit).SI()

const margin = 20.0 // K, from memory

// ResinTemperature keeps the service temperature within what the resins bear.
var ResinTemperature = &rules.Rule{
	ID:     "resin-temperature",
	Family: family,
	Title:  "Service temperature too high for the resin",
	Why: "A resin softens as it nears its heat deflection temperature: stiffness falls, the fluid diffuses faster, and the barrier blisters or crazes. " +
		"Iso- and terephthalic polyester, vinyl ester and brominated vinyl ester are usual below 180 °F; above it novolac vinyl ester is usual (in acids also bisphenol-fumarate and " +
		"chlorendic polyester). Within 20 °C (36 °F) of the heat deflection temperature the wall creeps, and figures from room-temperature values do not hold. " +
		"Short upsets count: a surface that has blistered once does not heal.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "the higher of operating and upset temperature is above 180 °F (180 °F itself is within) and a barrier resin is iso- or terephthalic polyester, vinyl ester or " +
		"brominated vinyl ester: warning; above a given heat deflection temperature less 20 °C, for a resin of barrier or structure: break. " +
		"heat deflection stated but no temperature: incomplete; above 180 °F with a barrier ply whose resin family is not stated: incomplete",
	Basis: "common practice, no source; ASTM D3299 and D4097 ask for special consideration above 180 °F; 20 °C from memory",
	Run:   resinTemperature,
}

func resinTemperature(p *rules.Pass) {
	at := p.Schedule.Service.Hottest()
	tooHot := at.Given() && quantity.Above(at.SI(), hot)
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		counts := use & (rules.InBarrier | rules.InStructure)
		switch {
		case counts == 0:
		case r.HeatDeflection.Given() && !at.Given():
			p.Report(rules.Finding{
				Severity: rules.Incomplete, Rows: p.RowsOfResin(i, counts), At: laminate.ServiceRef("temperature"),
				Message: "the heat deflection temperature of resin " + named(r) + " is " + p.Units.Temperature(r.HeatDeflection.SI()) + "; the service temperature is not stated",
			})
		case r.HeatDeflection.Given() && quantity.Above(at.SI(), r.HeatDeflection.SI()-margin):
			reached, bound := p.Hottest(r.HeatDeflection.SI() - margin)
			less := p.Units.Figure(margin, quantity.Rise)
			p.Report(rules.Finding{
				Severity: rules.Break, Rows: p.RowsOfResin(i, counts), At: laminate.ResinRef(i, "heat_deflection"),
				Message: reached + " is above " + bound + ", the heat deflection temperature of resin " + named(r) + " less " + less,
				Basis:   "design temperature at least " + less + " under the heat deflection temperature, from memory",
			})
		case tooHot && counts&rules.InBarrier != 0 && middling(r.Family):
			reached, bound := p.Hottest(hot)
			p.Report(rules.Finding{
				Severity: rules.Warning, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "family"),
				Message: reached + " is above " + bound + "; barrier resin " + named(r) + " is usual below that",
			})
		}
	}
	if tooHot {
		reached, bound := p.Hottest(hot)
		unresined(p, reached+" is above "+bound)
	}
}
