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

// VeilNotPreferred tells of the usual veil.
var VeilNotPreferred = &rules.Rule{
	ID:     "veil-not-preferred",
	Family: family,
	Title:  "Another veil is usual in this service",
	Why: "Shops have settled on one veil for some services because it has stood there longest: synthetic polyester for pulping liquors, strong bases, " +
		"chlorine dioxide, plating solutions and lithium, C-glass for strong acids and hypochlorite. " +
		"In hypochlorite practice splits: C-glass wets out well and is the older choice, polyester is not leached by its alkali. In strong bases carbon serves too. " +
		"Another veil may do as well; whoever takes one should have coupons or a standing wall to point at, or the first leak will be laid at that door. " +
		"Polyester asks for more care with trapped air, pits and dry spots where the crew knows it less.",
	Severity: []rules.Severity{rules.Note},
	When: "a veil of the inner surface is not of the usual fiber. Where the service is on both lists either veil is usual; " +
		"where fluorides or a pH above 12 rule glass out, it is not asked for",
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
	message := p.Plies(rows) + " " + p.Are(rows) + " " + rules.FiberOf(&p.Analysis.Rows[rows[0]]).String() + " veil; "
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
			message += ", though in hypochlorite practice splits between c-glass and polyester"
		}
	}
	p.Report(rules.Finding{Severity: rules.Note, Rows: rows, Message: message})
}
