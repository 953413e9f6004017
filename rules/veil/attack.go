package veil

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// FluoridesAttackGlassVeil keeps glass out of fluorides.
var FluoridesAttackGlassVeil = &rules.Rule{
	ID:       "fluorides-attack-glass-veil",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Fluorides attack a glass veil",
	Why: "Fluorides dissolve the silica that glass is made of. The veil is the first ply that the fluid reaches: where its fibers dissolve, " +
		"channels are left that lead the fluid past the resin-rich surface into the mats, and the barrier fails years early. " +
		"Fluorides do not attack an organic veil.",
	Severity: []rules.Severity{rules.Break},
	When:     "the service contains fluorides, in whatever amount, and a veil of the inner surface is glass of any kind",
	Basis:    "common practice, no source; USACE EM 1110-1-4008 ch. 7 also uses a veil other than glass for hydrofluoric acid",
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
			Message: "the service contains fluorides and " + p.PliesAre(rows, "glass veil") + " (" + p.Analysis.Rows[rows[0]].Material.ID + ")",
			Fix:     become(p, rows, laminate.Polyester),
		})
	},
}

// CarbonVeilInHypochlorite keeps carbon out of hypochlorite.
var CarbonVeilInHypochlorite = &rules.Rule{
	ID:       "carbon-veil-in-hypochlorite",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Hypochlorite attacks a carbon veil",
	Why: "Hypochlorite oxidizes carbon, and carbon speeds up the decay of hypochlorite at its surface, so each degrades the other. " +
		"The veil is consumed, the fluid reaches the mats, and the gas that is released blisters the surface. " +
		"Where the wall must conduct as well, requirement and service contradict each other: settle that before anything is built.",
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
			Message: "the service contains hypochlorite and " + p.PliesAre(rows, "carbon veil"),
			Fix:     become(p, rows, Taken(&p.Schedule.Service)),
		})
	},
}

// CarbonVeilInOxidizer asks for care where carbon meets oxidizers.
var CarbonVeilInOxidizer = &rules.Rule{
	ID:       "carbon-veil-in-oxidizer",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Carbon veil in an oxidizing service",
	Why: "Chlorine dioxide, wet chlorine, nitric and chromic acid oxidize carbon fiber, slowly or fast, depending on concentration and temperature. " +
		"A veil that is being consumed loses its conductive path and opens the surface. " +
		"A person who knows the service has to decide, from coupons or from a part that has served in it.",
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
			Message: "the service contains " + p.Carried(laminate.ChlorineDioxide, laminate.Oxidizer) + " and " + p.PliesAre(rows, "carbon veil"),
			Fix:     become(p, rows, Taken(&p.Schedule.Service)),
		})
	},
}
