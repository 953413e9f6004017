package veil

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// VeilOutsidePH keeps each veil within the pH it stands.
var VeilOutsidePH = &rules.Rule{
	ID:     "veil-outside-ph",
	Family: family,
	Title:  "Veil outside the pH it stands",
	Why: "Alkali above pH 12 leaches glass, and a C-glass veil, made for acids, is eaten out of the surface it should hold together. " +
		"Polyester fiber is slowly split by strong acid, so below pH 3 glass is the usual veil. " +
		"Fluorides and chlorine dioxide leave no choice of glass: there polyester is used below pH 3 knowingly. " +
		"The ends of the pH scale are no limits: concentrated acid lies below 0, where glass is at its best, and strong caustic above 14, where polyester still serves.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning, rules.Note},
	When: "glass veil in the inner surface and a highest pH above 12 (12 itself is within): break; polyester veil and a lowest pH below 3 " +
		"(3 itself is within): warning, note where fluorides or chlorine-dioxide leave no glass veil. No pH given: incomplete for a glass veil with strong-base " +
		"and for a polyester veil with strong-acid, the latter a note where no glass veil is left",
	Basis: rules.CommonPractice,
	Run:   veilOutsidePH,
}

func veilOutsidePH(p *rules.Pass) {
	s := &p.Schedule.Service
	noGlass := s.Contains.Has(laminate.Fluorides, laminate.ChlorineDioxide)
	if high := s.PH.Highest; s.PH.Given && high > highestForGlass || !s.PH.Given && s.Contains.Has(laminate.StrongBase) {
		if rows := glassVeils(p); rows != nil {
			f := rules.Finding{Severity: rules.Break, Rows: rows, Fix: become(p, rows, laminate.Polyester)}
			if s.PH.Given {
				f.Message = "the service goes up to pH " + number(high) + " and " + p.Plies(rows) + " " + p.Are(rows) + " glass veil, good up to pH 12"
			} else {
				f.Severity = rules.Incomplete
				f.Message = "the service contains strong-base, its pH is not given, and " + p.Plies(rows) + " " + p.Are(rows) +
					" glass veil, good up to pH 12: cannot be judged"
			}
			p.Report(f)
		}
	}
	if low := s.PH.Lowest; s.PH.Given && low < lowestForPolyester || !s.PH.Given && s.Contains.Has(laminate.StrongAcid) {
		if rows := polyesterVeils(p); rows != nil {
			f := rules.Finding{Severity: rules.Warning, Rows: rows}
			if s.PH.Given {
				f.Message = "the service goes down to pH " + number(low) + " and " + p.Plies(rows) + " " + p.Are(rows) + " polyester veil, good from pH 3 up"
			} else {
				f.Severity = rules.Incomplete
				f.Message = "the service contains strong-acid, its pH is not given, and " + p.Plies(rows) + " " + p.Are(rows) +
					" polyester veil, good from pH 3 up: cannot be judged"
			}
			if noGlass {
				f.Severity = rules.Note
				f.Message += "; " + p.Carried(laminate.Fluorides, laminate.ChlorineDioxide) + " leave no glass veil, so it is used knowingly"
			} else {
				f.Fix = become(p, rows, laminate.CGlass)
			}
			p.Report(f)
		}
	}
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
