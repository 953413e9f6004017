package resin

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// mostApart is how far a stated heat deflection temperature lies from the typical one of its
// family, in K: products of a family differ by 20 °C and more. Common practice, no source.
const mostApart = 30.0

// HeatDeflectionUnusual holds what a resin states against its family.
var HeatDeflectionUnusual = &rules.Rule{
	ID:       "heat-deflection-unusual",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "Heat deflection temperature unlike its family's",
	Why: "What a resin bears is judged by the heat deflection temperature that it states. Products of a family differ by 20 °C and more, but not by 100: " +
		"such a figure is most often in the other unit, or that of another resin, and a wall judged by it softens in a service that was called fit for it.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When: "the heat_deflection of a resin of barrier or structure is more than 30 °C (54 °F) above what is typical of its family, and neither source nor product is stated: incomplete; " +
		"stated, or as far below: warning (the bounds themselves are within). The typical figures are those of resin-temperature",
	Basis: "typical heat deflection temperatures of the families from memory; 30 °C common practice, no source",
	ByUse: true,
	Run: func(p *rules.Pass) {
		for i, use := range p.Facts.Uses {
			r := &p.Schedule.Resins[i]
			typical := p.Library.Families[r.Family].HeatDeflection
			apart := r.HeatDeflection.SI() - typical.SI()
			if use&(rules.InBarrier|rules.InStructure) == 0 || !r.HeatDeflection.Given() || !typical.Given() || !quantity.Above(math.Abs(apart), mostApart) {
				continue
			}
			severity, ask := rules.Harmless()
			side := "below"
			if apart > 0 {
				side = "above"
				severity, ask = rules.Unusual(r.Source, r.Product)
			}
			stated, usual := p.Units.Pair(r.HeatDeflection.SI(), typical.SI(), quantity.Point)
			p.Report(rules.Finding{
				Severity: severity, Rows: p.RowsOfResin(i, rules.InBarrier|rules.InStructure), At: laminate.ResinRef(i, "heat_deflection"),
				Message: "the heat deflection temperature of resin " + named(r) + ", " + stated + ", is " + p.Units.Figure(math.Abs(apart), quantity.Rise) + " " + side + " the " + usual + " that is typical of its family" +
					rules.LooksLike(r.HeatDeflection, func(si float64) bool { return math.Abs(si-typical.SI()) <= mostApart }) + ask,
			})
		}
	},
}

// What cured and unfilled resins of these families have, and by how many times more strain
// than is typical of its family one fails. Common practice, no source.
var (
	usualModulus = quantity.Range{Low: 2e9, High: 6e9}     // Pa
	usualDensity = quantity.Range{Low: 1_000, High: 1_600} // kg/m³
)

const mostStrain = 3.0

// FiguresUnusual holds what else a resin states against what resins have.
var FiguresUnusual = &rules.Rule{
	ID:       "resin-figures-unusual",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "Modulus, density or strain that no resin has",
	Why: "The moduli of a wall rest on the modulus of its resin, its thickness on the density, and its allowable strain on the strain at which the resin fails. " +
		"A figure ten times off, or in another unit, makes a wall hold that does not, and nothing else in the document shows it.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When: "a resin that is used states a modulus above 6 GPa, a density of the cured and unfilled resin below 1.0 g/cm³, or a failure strain above three times that of its family, without a source or product: incomplete; " +
		"with one, or a modulus below 2 GPa or a density above 1.6 g/cm³: warning (the bounds themselves are within)",
	Basis: rules.CommonPractice,
	ByUse: true,
	Run: func(p *rules.Pass) {
		for i, use := range p.Facts.Uses {
			if use == 0 {
				continue
			}
			r := &p.Schedule.Resins[i]
			report := func(key, said string, weakens bool) {
				severity, ask := rules.Unusual(r.Source, r.Product)
				if weakens {
					severity, ask = rules.Harmless()
				}
				p.Report(rules.Finding{Severity: severity, Rows: p.RowsOfResin(i, use), At: laminate.ResinRef(i, key), Message: "resin " + named(r) + " has " + said + ask})
			}
			between := func(r quantity.Range, k quantity.Kind) string {
				return ", outside the " + p.Units.Figure(r.Low, k) + " to " + p.Units.Figure(r.High, k) + " that cured and unfilled resin has"
			}
			if m := r.Modulus; m.Given() && !usualModulus.Spans(m.SI()) {
				report("modulus", "a modulus of "+p.Units.Figure(m.SI(), quantity.Stress)+between(usualModulus, quantity.Stress)+rules.LooksLike(m, usualModulus.Spans), m.SI() < usualModulus.Low)
			}
			if d := r.Density; d.Given() && !usualDensity.Spans(d.SI()) {
				report("density", "a density of "+p.Units.Figure(d.SI(), quantity.Bulk)+between(usualDensity, quantity.Bulk)+rules.LooksLike(d, usualDensity.Spans), d.SI() > usualDensity.High)
			}
			if typical := p.Library.Families[r.Family].FailureStrain; typical > 0 && quantity.Above(r.FailureStrain.Value, mostStrain*typical) {
				meant := ""
				if x := quantity.ShareLooksLike(r.FailureStrain.Value, quantity.Range{Low: typical / mostStrain, High: mostStrain * typical}.Spans); x != "" {
					meant = "; it looks like " + x
				}
				report("failure_strain", "a failure strain of "+quantity.Percent(r.FailureStrain.Value)+", above three times the "+quantity.Percent(typical)+" that is typical of its family"+meant, false)
			}
		}
	},
}
