package veil

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// polyesterServices and glassServices are the services in which one veil is
// the usual one (common practice, no source).
var (
	polyesterServices = []laminate.Trait{
		laminate.PulpingLiquor, laminate.StrongBase, laminate.ChlorineDioxide, laminate.PlatingSolution, laminate.Lithium,
	}
	glassServices = []laminate.Trait{laminate.StrongAcid, laminate.Hypochlorite}
)

// VeilNotPreferred names the usual veil.
var VeilNotPreferred = &rules.Rule{
	ID:       "veil-not-preferred",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Another veil is usual in this service",
	Why: "For some services one veil is usual because it has the longest record there: synthetic polyester for pulping liquors, strong bases, " +
		"chlorine dioxide, plating solutions and lithium, C-glass for strong acids and hypochlorite. " +
		"For hypochlorite, practice is divided: C-glass wets out well and is the older choice; polyester is not leached by its alkali. In strong bases carbon also serves. " +
		"Another veil may serve as well; whoever chooses one should have coupons or a part in service as evidence. " +
		"A crew that knows polyester veil less has to watch for trapped air, pits and dry spots.",
	Severity: []rules.Severity{rules.Note},
	When: "a veil of the inner surface is not of the usual fiber. Where the service is on both lists either veil is usual; " +
		"where fluorides or a pH above 12 rule glass out, glass is not expected",
	Basis: rules.CommonPractice,
	Run:   veilNotPreferred,
}

func veilNotPreferred(p *rules.Pass) {
	s := &p.Schedule.Service
	polyester := s.Contains.Has(polyesterServices...)
	glass := s.Contains.Has(glassServices...) && !s.Contains.Has(laminate.Fluorides) && !(s.PH.Given && s.PH.Highest > highestForGlass)
	if !polyester && !glass {
		return
	}
	carbon := s.Contains.Has(laminate.StrongBase)
	rows := p.Rows(func(r *laminate.RowFigures) bool {
		return veilOf(r, func(f laminate.Fiber) bool {
			return !(polyester && f == laminate.Polyester || glass && f == laminate.CGlass || carbon && f == laminate.Carbon)
		})
	})
	if rows == nil {
		return
	}
	message := p.PliesAre(rows, rules.FiberOf(&p.Analysis.Rows[rows[0]]).String()+" veil") + "; "
	if polyester {
		message += "polyester"
		if carbon {
			message += " (or carbon)"
		}
		message += " is the usual veil for " + p.Carried(polyesterServices...)
	}
	if glass {
		if polyester {
			message += ", "
		}
		message += "c-glass is the usual veil for " + p.Carried(glassServices...)
		if s.Contains.Has(laminate.Hypochlorite) {
			message += "; for hypochlorite, practice is divided between c-glass and polyester"
		}
	}
	p.Report(rules.Finding{Severity: rules.Note, Rows: rows, Message: message})
}
