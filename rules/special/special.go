// Package special owns the rules about barriers with a task of their own:
// those that conduct, those that stand abrasion, and fillers in general.
package special

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

const family = "special"

// Rules lists the family.
func Rules() []*rules.Rule {
	return []*rules.Rule{ConductiveBarrier, ConductivePath, AbrasiveBarrier, FillerInStructure, FillerHidesGlass}
}

func barrierRows(p *rules.Pass) []int {
	return p.Rows(func(r *laminate.RowFigures) bool { return r.Zone.InBarrier() })
}

// ConductiveBarrier wants carbon where charge has to go.
var ConductiveBarrier = &rules.Rule{
	ID:     "conductive-barrier",
	Family: family,
	Title:  "Barrier does not conduct as asked",
	Why: "Resin and glass insulate: a fluid that rubs along them charges the wall, and one spark from it lights a vapor. A conductive barrier has a carbon veil to spread the charge " +
		"and carbon powder in the resin, of the whole barrier or the veil layer, to lead it through to the veil. " +
		"The veil alone can be sealed off under a skin of bare resin; powder alone seldom makes a path along the wall.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "a conductive wall is asked for and the barrier has neither a carbon veil nor carbon powder (as a resin's filler, or a veil's own): break; only one of the two: warning. " +
		"A service that does not say is taken as not asking",
	Basis: rules.CommonPractice,
	Run:   conductiveBarrier,
}

func conductiveBarrier(p *rules.Pass) {
	if !p.Schedule.Service.Conductive.Value {
		return
	}
	veil, powder := false, p.FirstResinIn(rules.InBarrier, func(r *laminate.Resin) bool { return r.Filler == laminate.CarbonPowder }) >= 0
	for i := range p.Analysis.Rows {
		row := &p.Analysis.Rows[i]
		if !row.Zone.InBarrier() || rules.FormOf(row) != laminate.Veil {
			continue
		}
		veil = veil || row.Material.Fiber == laminate.Carbon
		powder = powder || row.Material.Conductive
	}
	f := rules.Finding{Severity: rules.Warning, Rows: barrierRows(p)}
	switch {
	case veil && powder:
		return
	case veil:
		f.Message = "a conductive wall is asked for and the barrier has a carbon veil but no carbon powder"
	case powder:
		f.Message = "a conductive wall is asked for and the barrier has carbon powder but no carbon veil"
		f.Fix = carbonVeil(p)
	default:
		f.Severity = rules.Break
		f.Message = "a conductive wall is asked for and the barrier has neither carbon veil nor carbon powder"
		f.Fix = carbonVeil(p)
	}
	p.Report(f)
}

// carbonVeil makes the veil that meets the fluid a carbon one.
func carbonVeil(p *rules.Pass) *rules.Fix {
	id, ok := p.StockVeil(laminate.Carbon)
	if !ok || len(p.Schedule.Plies) == 0 || rules.FormOf(&p.Analysis.Rows[0]) != laminate.Veil {
		return nil
	}
	return p.Fix(p.Plies([]int{0})+p.Verb([]int{0}, " becomes ", " become ")+id+", same count", "made "+p.Plies([]int{0})+" "+id, laminate.PlyRef(0, "material"),
		func(l *rules.Layup) error {
			l.Schedule.Plies[0].Material = id
			l.Schedule.Plies[0].GlassContent = laminate.Optional[float64]{}
			return nil
		})
}

// ConductivePath wants the charge led to ground.
var ConductivePath = &rules.Rule{
	ID:     "conductive-path",
	Family: family,
	Title:  "The way of the charge to ground",
	Why: "A conductive barrier that is not grounded gathers charge like a capacitor and gives it off in one spark: it is worse than none. " +
		"The path has to be carried across every joint, with conductive adhesive or edge pieces, and out through the structure to a lug. " +
		"Joints are where it is forgotten, so the resistance is measured, first on the tank or a specimen, and to ground again at each inspection.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "a conductive wall is asked for and the part does not state how it is grounded (blank or \"none\"): break; it does: warning, with the figures to measure. " +
		"A service that does not say is taken as not asking",
	Basis: "ADR 2017 6.9.2.14: surface resistance at most 10⁹ Ω, to ground at most 10⁷ Ω, between parts in contact at most 10 Ω; ungrounded is worse than none: common practice, no source",
	Run: func(p *rules.Pass) {
		if !p.Schedule.Service.Conductive.Value {
			return
		}
		f := rules.Finding{At: laminate.PartRef("grounding")}
		switch strings.ToLower(strings.TrimSpace(p.Schedule.Part.Grounding)) {
		case "", "none", "no", "-":
			f.Severity = rules.Break
			f.Message = "a conductive wall is asked for and the part does not state how it is grounded: ungrounded it is worse than none"
		default:
			f.Severity = rules.Warning
			f.Message = "carry the conductive path across every joint and measure: surface resistance inside and outside at most 10⁹ Ω, to ground at most 10⁷ Ω, between parts in contact at most 10 Ω"
		}
		p.Report(f)
	},
}

// The build that stands abrasion (common practice, no source).
const (
	leastHard     = 0.30
	mostHard      = 0.40
	usualHard     = "35 %"
	abrasiveAsked = "the service is abrasive"
)

// AbrasiveBarrier wants hard filler in an abraded barrier.
var AbrasiveBarrier = &rules.Rule{
	ID:     "abrasive-barrier",
	Family: family,
	Title:  "Barrier not built for abrasion",
	Why: "Particles scour resin much faster than they scour ceramics. About 35 % by mass of silicon carbide or aluminum oxide in the barrier resin makes the grains carry the wear. " +
		"With less they lie too far apart; with more the mix no longer wets the mat and the barrier is dry. " +
		"Two mats at least have to hold it, or the filled layer chips off in plates at the first bend.",
	Severity: []rules.Severity{rules.Warning, rules.Note},
	When: "the service is abrasive and no barrier resin holds silicon carbide or aluminum oxide, or its share is not given or outside 30–40 % by mass of the mix (both bounds are within), " +
		"or the interior layer has fewer than two chopped plies: warning, all of it in one finding. Solids carried and the service not said to be abrasive: note",
	Basis: rules.CommonPractice,
	Run:   abrasiveBarrier,
}

func abrasiveBarrier(p *rules.Pass) {
	s := &p.Schedule.Service
	if !s.Abrasive.Value {
		if s.Contains.Has(laminate.Solids) {
			said := "and does not say whether it is abrasive"
			if s.Abrasive.Given {
				said = "and is said not to be abrasive"
			}
			p.Report(rules.Finding{
				Severity: rules.Note, At: laminate.ServiceRef("abrasive"),
				Message: "the service contains solids " + said + "; an abrasive one wants about " + usualHard + " silicon carbide or aluminum oxide in the barrier resin",
			})
		}
		return
	}
	var wrong []string
	at := laminate.Ref{}
	hard := false
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		if use&rules.InBarrier == 0 || !r.Filler.Hard() {
			continue
		}
		hard = true
		share := r.FillerContent
		switch {
		case !share.Given:
			wrong = append(wrong, "the share of "+r.Filler.String()+" in resin "+r.ID+" is not given, 30 to 40 % are usual")
		case quantity.Below(share.Value, leastHard) || quantity.Above(share.Value, mostHard):
			bound := leastHard
			if share.Value > mostHard {
				bound = mostHard
			}
			measured, _ := rules.Shares(share.Value, bound)
			wrong = append(wrong, "resin "+r.ID+" holds "+measured+" "+r.Filler.String()+", 30 to 40 % are usual")
		default:
			continue
		}
		at = laminate.ResinRef(i, "filler_content")
	}
	if !hard {
		wrong = append(wrong, "no barrier resin holds silicon carbide or aluminum oxide")
		if i := p.FirstResinIn(rules.InBarrier, func(*laminate.Resin) bool { return true }); i >= 0 {
			at = laminate.ResinRef(i, "filler")
		}
	}
	if p.Facts.Mats < catalog.SingleBuild.Mats {
		wrong = append(wrong, "the interior layer has fewer than two mats")
	}
	if wrong == nil {
		return
	}
	p.Report(rules.Finding{Severity: rules.Warning, Rows: barrierRows(p), At: at, Message: abrasiveAsked + " and " + rules.Join(wrong, "and")})
}

// FillerInStructure keeps powder out of the structure.
var FillerInStructure = &rules.Rule{
	ID:     "filler-in-structure",
	Family: family,
	Title:  "Filled resin in the structure",
	Why: "Filler thickens the resin, so that roving and fabric are wetted badly and dry strands stay in the wall; it takes the place of glass and makes the laminate brittle. " +
		"RTP-1 allows no pigment, dye or filler but what its part 2 lists. " +
		"Strength values for the wall were not measured with it, and the glass content can no longer be read from the ash.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a ply of the structural layer is laid in a resin that names a filler, whatever its share",
	Basis:    "RTP-1 part 2; common practice, no source",
	Run: func(p *rules.Pass) {
		for i, use := range p.Facts.Uses {
			r := &p.Schedule.Resins[i]
			if use&rules.InStructure == 0 || r.Filler == laminate.NoFiller {
				continue
			}
			rows := p.RowsOfResin(i, rules.InStructure)
			f := rules.Finding{
				Severity: rules.Warning, Rows: rows, At: laminate.PlyRef(rows[0], "resin"),
				Message: p.Plies(rows) + " " + p.Are(rows) + " structure and laid in resin " + r.ID + ", which holds " + r.Filler.String(),
			}
			if id := unfilled(p.Schedule, r); id != "" {
				f.Fix = p.Fix("the structure is laid in resin "+id+", unfilled and of the same family", "put the structure into resin "+id, f.At, func(l *rules.Layup) error {
					for _, row := range rows {
						l.Schedule.Plies[row].Resin = id
					}
					return nil
				})
			}
			p.Report(f)
		}
	},
}

// unfilled is the id of a resin like r without filler.
func unfilled(s *laminate.Schedule, r *laminate.Resin) string {
	for i := range s.Resins {
		if s.Resins[i].Family == r.Family && s.Resins[i].Filler == laminate.NoFiller {
			return s.Resins[i].ID
		}
	}
	return ""
}

// FillerHidesGlass warns the inspector.
var FillerHidesGlass = &rules.Rule{
	ID:     "filler-hides-glass",
	Family: family,
	Title:  "Filler hides the glass content",
	Why: "An ignition test burns the resin and weighs what stays. Mineral filler stays with the glass, so the residue reads too high and a starved laminate passes for a good one; " +
		"carbon powder burns in part and cannot be told from either. Correct the residue for the known share of filler, " +
		"or count the plies in the ash, and say on the record which was done.",
	Severity: []rules.Severity{rules.Note},
	When:     "a ply is laid in a resin that names a filler; one finding for each such resin",
	Basis:    "ASTM D2584 weighs the residue, whatever it is; the correction is arithmetic",
	Run: func(p *rules.Pass) {
		for i, use := range p.Facts.Uses {
			r := &p.Schedule.Resins[i]
			if use == 0 || r.Filler == laminate.NoFiller {
				continue
			}
			rows := p.RowsOfResin(i, use)
			f := rules.Finding{Severity: rules.Note, Rows: rows, At: laminate.ResinRef(i, "filler")}
			switch share := r.FillerContent; {
			case r.Filler == laminate.CarbonPowder:
				f.Message = "resin " + r.ID + " holds carbon powder, which burns in part: an ignition test does not give the glass content of " + p.Plies(rows)
			case !share.Given:
				f.Message = "resin " + r.ID + " holds " + r.Filler.String() + ", its share not given: an ignition test does not give the glass content of " + p.Plies(rows)
			default:
				s := rules.Share(share.Value)
				f.Message = "resin " + r.ID + " holds " + s + " " + r.Filler.String() + ", which stays in an ignition test of " + p.Plies(rows) +
					": glass = (residue − " + s + ") / (1 − " + s + ")"
			}
			p.Report(f)
		}
	},
}
