package resin

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// hot is 180 °F in K: above it the middling families need special thought
// (D3299, D4097).
var hot = quantity.New(180, quantity.Fahrenheit).SI()

// coldest is -40 °F, which is -40 °C, in K: colder, nothing that is known of
// these resins holds (common practice, no source).
var coldest = quantity.New(-40, quantity.Fahrenheit).SI()

// Margin is kept under the heat deflection temperature, and nearer than Care little is
// left, in K. Both from memory.
const (
	Margin = 20.0
	Care   = 40.0
)

// ResinTemperature keeps the service temperature within what the resins bear.
var ResinTemperature = &rules.Rule{
	ID:       "resin-temperature",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Service temperature too high for the resin",
	Why: "A resin softens as it nears its heat deflection temperature: stiffness falls, the fluid diffuses faster, and the barrier blisters or crazes. " +
		"Iso- and terephthalic polyester, vinyl ester and brominated vinyl ester are usual below 180 °F; above it novolac vinyl ester is usual (in acids also bisphenol-fumarate and " +
		"chlorendic polyester). Within 20 °C (36 °F) of the heat deflection temperature the wall creeps, and figures from room-temperature values do not hold; " +
		"within 40 °C (72 °F) little is left for a warm summer or a poor cure. Products within a family differ by 20 °C and more: where a resin does not state its own temperature a typical one is taken. " +
		"Short upsets count: a surface that has blistered once does not heal.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "the higher of operating and upset temperature is above the heat deflection temperature less 20 °C, for a resin of barrier or structure: break; above it less 40 °C: warning (the bounds themselves are within). " +
		"A resin that states no heat_deflection is judged by the typical one of its family: isophthalic 95, terephthalic 105, bisphenol-fumarate 125, chlorendic 135, vinyl ester 100, brominated vinyl ester 105, " +
		"novolac 145, brominated novolac 140 °C. Above 180 °F (180 °F itself is within) with a barrier resin of iso- or terephthalic polyester, vinyl ester or brominated vinyl ester: warning; the worse counts. " +
		"heat_deflection stated but no temperature, or a temperature below -40 °F (-40 °F itself is within): incomplete; above 180 °F with a barrier ply whose resin family is not stated: incomplete",
	Basis: "common practice, no source; ASTM D3299 and D4097 ask for special consideration above 180 °F; 20 and 40 °C and typical heat deflection temperatures from memory",
	ByUse: true,
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
		case at.Given():
			if softens(p, i, counts) {
				continue
			}
			if tooHot && counts&rules.InBarrier != 0 && middling(r.Family) {
				reached, bound := p.Hottest(hot)
				p.Report(rules.Finding{
					Severity: rules.Warning, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "family"),
					Message: reached + " is above " + bound + "; barrier resin " + named(r) + " is usual below that",
				})
			}
		case r.HeatDeflection.Given():
			p.Report(rules.Finding{
				Severity: rules.Incomplete, Rows: p.RowsOfResin(i, counts), At: laminate.ServiceRef("temperature"),
				Message: "the heat deflection temperature of resin " + named(r) + " is " + p.Units.Temperature(r.HeatDeflection.SI()) + "; the service temperature is not stated",
			})
		}
	}
	if v := &p.Schedule.Service; v.Temperature.Given() && quantity.Below(v.Temperature.SI(), coldest) {
		reached, bound := p.Units.Pair(v.Temperature.SI(), coldest, quantity.Point)
		p.Report(rules.Finding{
			Severity: rules.Incomplete, At: laminate.ServiceRef("temperature"),
			Message: reached + " is below " + bound + ", where no rule knows a resin: state the resin manufacturer's word for it with the job",
			Basis:   rules.CommonPractice,
		})
	}
	if tooHot {
		reached, bound := p.Hottest(hot)
		unresined(p, reached+" is above "+bound)
	}
}

// Deflects is the heat deflection temperature of a resin, its own or else the typical
// one of its family, not given where neither is known, and what it is called.
func Deflects(r *laminate.Resin, lib *laminate.Library) (t quantity.Temperature, whose string) {
	if r.HeatDeflection.Given() {
		return r.HeatDeflection, "the heat deflection temperature"
	}
	return lib.Families[r.Family].HeatDeflection, "the typical heat deflection temperature"
}

// softens reports a resin that the service comes too near the heat deflection
// temperature of: its own, else the typical one of its family.
func softens(p *rules.Pass, resin int, where rules.Place) bool {
	r, at := &p.Schedule.Resins[resin], p.Schedule.Service.Hottest()
	deflects, whose := Deflects(r, p.Library)
	advice := ""
	if !r.HeatDeflection.Given() {
		advice = "; the resin's own (heat_deflection) replaces it"
	}
	if !deflects.Given() {
		return false
	}
	severity, less := rules.Break, Margin
	switch {
	case quantity.Above(at.SI(), deflects.SI()-Margin):
	case quantity.Above(at.SI(), deflects.SI()-Care):
		severity, less = rules.Warning, Care
	default:
		return false
	}
	reached, bound := p.Hottest(deflects.SI() - less)
	p.Report(rules.Finding{
		Severity: severity, Rows: p.RowsOfResin(resin, where), At: laminate.ResinRef(resin, "heat_deflection"),
		Message: reached + " is above " + bound + ", " + whose + " of resin " + named(r) + ", " + p.Units.Temperature(deflects.SI()) + ", less " + p.Units.Figure(less, quantity.Rise) + advice,
		Basis:   "20 and 40 °C under the heat deflection temperature, and typical ones of the families: from memory",
	})
	return true
}
