package resin

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// freezing is 0 °C in K.
var freezing = quantity.New(0, quantity.Celsius).SI()

// ServiceFreezes asks about water that is stated where it freezes.
var ServiceFreezes = &rules.Rule{
	ID:     "service-freezes",
	Family: family,
	Title:  "The service is where water freezes",
	Why: "What has a pH has water in it. Ice splits the wall that it grows in, and a strong brine or acid that stays liquid is known for how cold it may get. " +
		"More often the temperature is in another unit, °C stated as °F, or a digit is missing, and then no resin is judged for the heat that there is.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the temperature of the service is at 0 °C (32 °F) or below, and its pH is stated, or its fluid contains brine, strong acid, strong base or hypochlorite",
	Basis:    "water freezes at 0 °C, from memory",
	ByUse:    true,
	Run: func(p *rules.Pass) {
		v := &p.Schedule.Service
		if !v.Temperature.Given() || quantity.Above(v.Temperature.SI(), freezing) || !v.PH.Given && !v.Contains.Has(laminate.Brine, laminate.StrongAcid, laminate.StrongBase, laminate.Hypochlorite) {
			return
		}
		has, bound := p.Units.Pair(v.Temperature.SI(), freezing, quantity.Point)
		p.Report(rules.Finding{Severity: rules.Warning, At: laminate.ServiceRef("temperature"),
			Message: "the service is at " + has + ", and water freezes at " + bound + ": another unit, or what keeps it liquid? (temperature)"})
	},
}
