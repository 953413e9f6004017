package veil

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules"
)

// VeilOutsidePH keeps each veil within its pH range.
var VeilOutsidePH = &rules.Rule{
	ID:       "veil-outside-ph",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Veil outside its pH range",
	Why: "Alkali above pH 12 leaches glass, and a C-glass veil, made for acids, dissolves out of the surface that it should hold together. " +
		"Strong acid slowly breaks down polyester fiber, so below pH 3 glass is the usual veil. " +
		"Fluorides and chlorine dioxide rule out glass: there polyester is used below pH 3, outside its range, as two veils over four mats. " +
		"The ends of the pH scale are no limits: concentrated acid lies below 0, where glass still serves, and strong caustic above 14, where polyester still serves.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning, rules.Note},
	When: "glass veil in the inner surface and a highest pH above 12 (12 itself is within): break; polyester veil and a lowest pH below 3 " +
		"(3 itself is within): warning; where fluorides or chlorine-dioxide rule out a glass veil, a note with two veils over four mats. pH not stated: incomplete for a glass veil with strong-base " +
		"and for a polyester veil with strong-acid; where glass is ruled out the latter is judged as below pH 3",
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
				f.Message = p.PliesAre(rows, "glass veil") + ", good up to pH 12; the service goes up to pH " + number(high)
			} else {
				f.Severity = rules.Incomplete
				f.Message = p.PliesAre(rows, "glass veil") + ", good up to pH 12; the service contains strong-base and its pH is not stated"
			}
			p.Report(f)
		}
	}
	if low := s.PH.Lowest; s.PH.Given && low < lowestForPolyester || !s.PH.Given && s.Contains.Has(laminate.StrongAcid) {
		if rows := polyesterVeils(p); rows != nil {
			f := rules.Finding{Severity: rules.Warning, Rows: rows}
			if s.PH.Given {
				f.Message = p.PliesAre(rows, "polyester veil") + ", good from pH 3 up; the service goes down to pH " + number(low)
			} else {
				f.Severity = rules.Incomplete
				f.Message = p.PliesAre(rows, "polyester veil") + ", good from pH 3 up; the service contains strong-acid and its pH is not stated"
			}
			if noGlass {
				f.Severity = rules.Warning
				if double := catalog.DoubleBuild; p.Facts.Veils >= double.Veils && p.Facts.Mats >= double.Mats {
					f.Severity = rules.Note
				}
				f.Message += "; no glass veil is used in " + p.Carried(laminate.Fluorides, laminate.ChlorineDioxide) +
					", so polyester is taken outside its range, as two veils over four mats, with coupons and an early inspection"
			} else {
				f.Fix = become(p, rows, laminate.CGlass)
			}
			p.Report(f)
		}
	}
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
