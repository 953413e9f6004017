package resin

import (
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// concentrated is the fraction above which a strong acid takes water out of a
// resin, as sulfuric acid does (common practice, no source).
const concentrated = 0.75

// Beyond these pH no acid or alkali is met that the rules are about: hydrochloric
// acid as it is sold is near -1, 50 % caustic near 15 (from memory).
const (
	lowestKnown  = -2
	highestKnown = 16
)

// ResinInSolvent keeps plain polyesters out of solvents.
var ResinInSolvent = &rules.Rule{
	ID:       "resin-in-solvent",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Solvent swells the barrier resin",
	Why: "Aromatic, chlorinated and ketone solvents swell and soften a cured resin: the surface turns soft, cracks when it dries, and the glass behind it is wetted. " +
		"Plain polyesters go first; vinyl esters and novolacs hold in some solvents and fail in others of the same kind, as vapor too. " +
		"Practice goes by the resin manufacturer's data for that very solvent, concentration and temperature, or by coupons.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "the service contains solvent and a barrier resin is iso- or terephthalic polyester: break; of any other family: warning, rated in a shop book or not. " +
		"A barrier ply whose resin family is not stated: incomplete",
	Basis: rules.CommonPractice,
	ByUse: true,
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
	ID:       "rating-missing",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Only a rating can tell whether the resin holds",
	Why: "Nitric and chromic acid oxidize every resin, and sulfuric acid above about 75 % takes the water out of it and chars it: a few percent or degrees decide, and no family is safe by its name. " +
		"Hypochlorite decays faster above about 120 °F, at the wall first, and practice stops there. " +
		"Put the resin manufacturer's or the shop's own rating for this fluid into a shop book, or choose another material.",
	Severity: []rules.Severity{rules.Incomplete},
	When: "the shop books do not rate the family of a barrier resin for this fluid, and the service contains strong-acid (or goes below pH 2) with oxidizer, " +
		"strong-acid at a stated concentration above 75 %, hypochlorite above 120 °F at the higher of operating and upset temperature, or goes below pH -2 or above pH 16 (the bounds themselves are within)",
	Basis: rules.CommonPractice,
	ByUse: true,
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
		reached, bound := p.Shares(s.Concentration.Value, concentrated)
		because = acid + " at " + reached + ", above " + bound
	case has(laminate.Hypochlorite) && hottest.Given() && quantity.Above(hottest.SI(), mild):
		reached, bound := p.Hottest(mild)
		because = "the service contains hypochlorite at " + reached + ", above " + bound
	case s.PH.Given && s.PH.Lowest < lowestKnown:
		because = "the service goes below pH " + strconv.Itoa(lowestKnown) + ", where no rule knows a resin"
	case s.PH.Given && s.PH.Highest > highestKnown:
		because = "the service goes above pH " + strconv.Itoa(highestKnown) + ", where no rule knows a resin"
	default:
		return
	}
	rated := catalog.RatingsOf(p.Library, s.Fluid)
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		if use&rules.InBarrier == 0 || r.Family == laminate.NoFamily ||
			slices.ContainsFunc(rated, func(x laminate.Rating) bool { return x.Family == r.Family }) {
			continue // RatingAgainst weighs its rows
		}
		p.Report(rules.Finding{
			Severity: rules.Incomplete, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "family"),
			Message: because + "; no shop book has a rating of " + r.Family.String() + " for it",
		})
	}
	unresined(p, because)
}

// RatingAgainst holds the barrier resin against what the shop books say of it.
var RatingAgainst = &rules.Rule{
	ID:       "rating-against",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "The shop book's ratings do not bear the resin",
	Why: "A rating is what somebody knows of this very fluid, at a concentration and a temperature. A row that refuses the resin outweighs whatever the family is known for. " +
		"Beyond the range of the rows nothing is known: a few percent or degrees may decide, so nothing is interpolated. " +
		"Ask the resin manufacturer for that concentration and temperature, hang coupons, or take a resin that is rated there.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "the shop books rate the family of a barrier resin for this fluid, and every row that holds the concentration and the higher of operating and upset temperature refuses it " +
		"(\"not recommended\", \"not suitable\"): break; no row holds them: incomplete (the bounds of a row are within; what the service does not state rules no row out)",
	Basis: "the shop books' ratings; that nothing is interpolated: common practice, no source",
	ByUse: true,
	Run:   ratingAgainst,
}

func ratingAgainst(p *rules.Pass) {
	s := &p.Schedule.Service
	all := catalog.RatingsOf(p.Library, s.Fluid)
	if all == nil {
		return
	}
	holding := catalog.Ratings(p.Library, s)
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		of := func(list []laminate.Rating) []laminate.Rating {
			return slices.DeleteFunc(slices.Clone(list), func(x laminate.Rating) bool { return x.Family != r.Family })
		}
		rows, here := of(all), of(holding)
		if use&rules.InBarrier == 0 || r.Family == laminate.NoFamily || len(rows) == 0 ||
			slices.ContainsFunc(here, func(x laminate.Rating) bool { return !catalog.Refuses(&x) }) {
			continue
		}
		f := rules.Finding{Severity: rules.Break, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "family")}
		if len(here) > 0 {
			f.Message = r.Family.String() + " is rated \"" + here[0].Grade + "\" for " + s.Fluid + " here (" + catalog.RatingName(&here[0]) + ")"
		} else {
			f.Severity = rules.Incomplete
			f.Message = beyond(p, r.Family, rows)
		}
		p.Report(f)
	}
}

// beyond says that the service lies outside of what the rows of a family rate.
func beyond(p *rules.Pass, f laminate.Family, rows []laminate.Rating) string {
	s, x := &p.Schedule.Service, &rows[0]
	low, high := p.Units.Pair(x.Concentration[0], x.Concentration[1], quantity.Fraction)
	message := f.String() + " is rated for " + s.Fluid + " from " + low + " to " + high
	if x.MaxTemperature.Given() {
		message += " up to " + p.Units.Temperature(x.MaxTemperature.SI())
	}
	message += " (" + catalog.RatingName(x) + ")"
	if more := len(rows) - 1; more > 0 {
		message += " and in " + quantity.Counted(more, "more row", "more rows")
	}
	var at []string
	if s.Concentration.Given {
		at = append(at, quantity.Percent(s.Concentration.Value))
	}
	if hot := s.Hottest(); hot.Given() {
		reached, _ := p.Hottest(hot.SI())
		at = append(at, reached)
	}
	return message + "; no row holds the service's " + rules.Join(at, "and")
}

// ResinForBrine points at vinyl esters for hot brine.
var ResinForBrine = &rules.Rule{
	ID:       "resin-for-brine",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Vinyl ester is usual in warm brine",
	Why: "Brine itself attacks neither resin nor veil. Warm salt water slowly splits the ester links of a plain polyester, though, and chlorine from the cells makes brine far worse than salt alone. " +
		"Up to 120 °F iso- and terephthalic polyester have a long record; above it vinyl ester is usual. " +
		"Where the brine carries free chlorine, state hypochlorite or oxidizer too.",
	Severity: []rules.Severity{rules.Note},
	When:     "the service contains brine, the higher of operating and upset temperature is above 120 °F (120 °F itself is within) and a barrier resin is iso- or terephthalic polyester",
	Basis:    rules.CommonPractice,
	ByUse:    true,
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
