package resin

import (
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// concentrated is the fraction above which a strong acid takes water out of a
// resin, as sulfuric acid does (common practice, no source).
const concentrated = 0.75

// ResinInSolvent keeps plain polyesters out of solvents.
var ResinInSolvent = &rules.Rule{
	ID:     "resin-in-solvent",
	Family: family,
	Title:  "Solvent swells the barrier resin",
	Why: "Aromatic, chlorinated and ketone solvents swell and soften a cured resin: the surface turns soft, cracks when it dries, and the glass behind it is wetted. " +
		"Plain polyesters go first; vinyl esters and novolacs hold in some solvents and fail in others of the same kind, as vapor too. " +
		"Practice goes by the resin manufacturer's data for that very solvent, concentration and temperature, or by coupons.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "the service contains solvent and a barrier resin is iso- or terephthalic polyester: break; of any other family: warning, rated in a shop book or not. " +
		"A barrier ply whose resin family is not stated: incomplete",
	Basis: rules.CommonPractice,
	Run:   resinInSolvent,
}

func resinInSolvent(p *rules.Pass) {
	if !p.Schedule.Service.Contains.Has(laminate.Solvent) {
		return
	}
	const because = "the service contains solvent"
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		if use&rules.InBarrier == 0 || r.Family == laminate.NoFamily {
			continue
		}
		f := rules.Finding{
			Severity: rules.Warning, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "family"),
			Message: because + " and the barrier resin is " + named(r),
		}
		if r.Family.PlainEster() {
			f.Severity = rules.Break
			f.Message += ", which solvents swell and soften"
		} else {
			f.Message += "; it holds in some solvents only: go by the resin manufacturer's data for this one, or coupons"
		}
		p.Report(f)
	}
	unresined(p, because)
}

// RatingMissing names services in which no family is known to hold.
var RatingMissing = &rules.Rule{
	ID:     "rating-missing",
	Family: family,
	Title:  "Only a rating can tell whether the resin holds",
	Why: "Nitric and chromic acid oxidize every resin, and sulfuric acid above about 75 % takes the water out of it and chars it: a few percent or degrees decide, and no family is safe by its name. " +
		"Hypochlorite decays faster above about 120 °F, at the wall first, and practice stops there. " +
		"Put the resin manufacturer's or the shop's own rating for this fluid into a shop book, or choose another material.",
	Severity: []rules.Severity{rules.Incomplete},
	When: "a barrier resin has no rating in the shop books for this fluid, concentration and temperature, other than one that refuses it, and the service contains strong-acid (or goes below pH 2) with oxidizer, " +
		"strong-acid at a stated concentration above 75 %, or hypochlorite above 120 °F at the higher of operating and upset temperature (the bounds themselves are within)",
	Basis: rules.CommonPractice,
	Run:   ratingMissing,
}

func ratingMissing(p *rules.Pass) {
	s := &p.Schedule.Service
	has, hottest := s.Contains.Has, s.Hottest()
	acid := strings.TrimSuffix(strongAcid(s), ",")
	var because string
	switch {
	case acid != "" && has(laminate.Oxidizer):
		because = acid + " with oxidizer"
	case acid != "" && s.Concentration.Given && quantity.Above(s.Concentration.Value, concentrated):
		reached, bound := rules.Shares(s.Concentration.Value, concentrated)
		because = acid + " at " + reached + ", above " + bound
	case has(laminate.Hypochlorite) && hottest.Given() && quantity.Above(hottest.SI(), mild):
		reached, bound := p.Hottest(mild)
		because = "the service contains hypochlorite at " + reached + ", above " + bound
	default:
		return
	}
	rated := slices.DeleteFunc(catalog.Ratings(p.Library, s), func(r laminate.Rating) bool { return catalog.Refuses(&r) })
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		if use&rules.InBarrier == 0 || r.Family == laminate.NoFamily ||
			slices.ContainsFunc(rated, func(x laminate.Rating) bool { return x.Family == r.Family }) {
			continue
		}
		p.Report(rules.Finding{
			Severity: rules.Incomplete, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "family"),
			Message: because + "; no shop book has a rating of " + r.Family.String() + " for it",
		})
	}
	unresined(p, because)
}

// ResinForBrine points at vinyl esters for hot brine.
var ResinForBrine = &rules.Rule{
	ID:     "resin-for-brine",
	Family: family,
	Title:  "Vinyl ester is usual in warm brine",
	Why: "Brine itself attacks neither resin nor veil. Warm salt water slowly splits the ester links of a plain polyester, though, and chlorine from the cells makes brine far worse than salt alone. " +
		"Up to 120 °F iso- and terephthalic polyester have a long record; above it vinyl ester is usual. " +
		"Where the brine carries free chlorine, state hypochlorite or oxidizer too.",
	Severity: []rules.Severity{rules.Note},
	When:     "the service contains brine, the higher of operating and upset temperature is above 120 °F (120 °F itself is within) and a barrier resin is iso- or terephthalic polyester",
	Basis:    rules.CommonPractice,
	Run:      resinForBrine,
}

func resinForBrine(p *rules.Pass) {
	hottest := p.Schedule.Service.Hottest()
	if !p.Schedule.Service.Contains.Has(laminate.Brine) || !hottest.Given() || !quantity.Above(hottest.SI(), mild) {
		return
	}
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		if use&rules.InBarrier == 0 || !r.Family.PlainEster() {
			continue
		}
		reached, bound := p.Hottest(mild)
		p.Report(rules.Finding{
			Severity: rules.Note, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "family"),
			Message: "the service contains brine at " + reached + ", above " + bound + ", and the barrier resin is " + named(r) + "; vinyl ester is usual",
		})
	}
}
