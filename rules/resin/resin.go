// Package resin owns the rules about resins: heat, acid, alkali, cure and
// fire, and what the service must say before any of them can be judged.
package resin

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

const family = "resin"

// Rules lists the family.
func Rules() []*rules.Rule {
	return []*rules.Rule{
		ResinTemperature, ResinForAcid, ResinInAlkali, ResinInSolvent, RatingMissing, RatingAgainst, ResinForBrine, HypochloriteCure, FlameSpread, HeatDeflectionUnusual, FiguresUnusual,
		BarrierResinsDiffer, FamilyMissing, ServiceIncomplete, ConfirmResin, ServiceFreezes,
	}
}

// middling tells whether the family is at home in most services below 180 °F
// but not in strong acid or heat (common practice, no source).
func middling(f laminate.Family) bool {
	return f.PlainEster() || f == laminate.VinylEster || f == laminate.BrominatedVinylEster
}

// named spells a resin: its id and family.
func named(r *laminate.Resin) string {
	if r.Family == laminate.NoFamily {
		return r.ID + " (family not stated)"
	}
	return r.ID + " (" + r.Family.String() + ")"
}

// unresined reports that barrier plies without a resin family could not be judged.
func unresined(p *rules.Pass, because string) {
	if p.Facts.Unresined&rules.InBarrier == 0 {
		return
	}
	rows := p.RowsOfResin(-1, rules.InBarrier)
	p.Report(rules.Finding{
		Severity: rules.Incomplete, Rows: rows, At: laminate.PlyRef(rows[0], "resin"),
		Message: because + "; the resin family of " + p.Plies(rows) + " is not stated",
	})
}
