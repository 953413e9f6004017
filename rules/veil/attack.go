package veil

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// FluoridesAttackGlassVeil keeps glass out of fluorides.
var FluoridesAttackGlassVeil = &rules.Rule{
	ID:     "fluorides-attack-glass-veil",
	Family: family,
	Title:  "Fluorides attack a glass veil",
	Why: "Fluorides dissolve the silica that glass is made of. The veil is the first ply the fluid finds: where its fibers are eaten away, " +
		"channels stay behind that lead the fluid past the resin-rich surface into the mats, and the barrier fails years before its time. " +
		"An organic veil has nothing for fluorides to attack.",
	Severity: []rules.Severity{rules.Break},
	When:     "the service contains fluorides, in whatever amount, and a veil of the inner surface is of any glass",
	Basis:    "common practice, no source; USACE EM 1110-1-4008 ch. 7 likewise takes another veil than glass for hydrofluoric acid",
	Run: func(p *rules.Pass) {
		if !p.Schedule.Service.Contains.Has(laminate.Fluorides) {
			return
		}
		rows := glassVeils(p)
		if rows == nil {
			return
		}
		p.Report(rules.Finding{
			Severity: rules.Break, Rows: rows,
			Message: "the service contains fluorides and " + p.Plies(rows) + " " + p.Are(rows) + " glass veil (" + p.Analysis.Rows[rows[0]].Material.ID + ")",
			Fix:     become(p, rows, laminate.Polyester),
		})
	},
}

// CarbonVeilInHypochlorite keeps carbon out of hypochlorite.
var CarbonVeilInHypochlorite = &rules.Rule{
	ID:     "carbon-veil-in-hypochlorite",
	Family: family,
	Title:  "Hypochlorite attacks a carbon veil",
	Why: "Hypochlorite oxidizes carbon, and carbon speeds up the decay of hypochlorite at its surface, so so each degrades the other. " +
		"The veil goes, the fluid stands in the mats, and the gas that is set free blisters the surface. " +
		"Where the wall must conduct as well, the demand and the service contradict each other: settle that before anything is built.",
	Severity: []rules.Severity{rules.Break},
	When:     "the service contains hypochlorite and a carbon veil lies anywhere in the barrier",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		if !p.Schedule.Service.Contains.Has(laminate.Hypochlorite) {
			return
		}
		rows := carbonVeils(p)
		if rows == nil {
			return
		}
		p.Report(rules.Finding{
			Severity: rules.Break, Rows: rows,
			Message: "the service contains hypochlorite and " + p.Plies(rows) + " " + p.Are(rows) + " carbon veil",
			Fix:     become(p, rows, usual(&p.Schedule.Service)),
		})
	},
}

// CarbonVeilInOxidizer asks for care where carbon meets oxidizers.
var CarbonVeilInOxidizer = &rules.Rule{
	ID:     "carbon-veil-in-oxidizer",
	Family: family,
	Title:  "Carbon veil in an oxidizing service",
	Why: "Chlorine dioxide, wet chlorine, nitric and chromic acid oxidize carbon fiber, slowly or fast depending on concentration and heat. " +
		"A veil that is being consumed loses the path it was meant to conduct by and opens the surface. " +
		"Somebody who knows the service has to decide, from coupons or from a wall that has stood in it.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the service contains chlorine-dioxide or oxidizer and a carbon veil lies anywhere in the barrier",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		if !p.Schedule.Service.Contains.Has(laminate.ChlorineDioxide, laminate.Oxidizer) {
			return
		}
		rows := carbonVeils(p)
		if rows == nil {
			return
		}
		p.Report(rules.Finding{
			Severity: rules.Warning, Rows: rows,
			Message: "the service contains " + p.Carried(laminate.ChlorineDioxide, laminate.Oxidizer) + " and " + p.Plies(rows) + " " + p.Are(rows) + " carbon veil",
			Fix:     become(p, rows, usual(&p.Schedule.Service)),
		})
	},
}
