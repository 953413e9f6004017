// Package special owns the rules about barriers with a task of their own:
// those that conduct, those that stand abrasion, and fillers in general.
package special

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
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
	ID:       "conductive-barrier",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Barrier does not conduct as required",
	Why: "Resin and glass insulate: a fluid that rubs along them charges the wall, and one spark ignites the vapor. A conductive barrier has a carbon veil to spread the charge " +
		"and carbon powder in the resin, of the whole barrier or the veil layer, to lead it through to the veil. " +
		"A veil alone can be insulated by the resin over it; powder alone seldom makes a continuous path along the wall.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "a conductive wall is required and the barrier has neither a carbon veil nor carbon powder (as a resin's filler, or a veil's own): break; only one of the two: warning; " +
		"not stated counts as not required",
	Basis: rules.CommonPractice,
	Run:   conductiveBarrier,
}

func conductiveBarrier(p *rules.Pass) {
	if !p.Schedule.Service.Conductive.Value {
		return
	}
	veil, powder := false, false
	for i := range p.Analysis.Rows {
		row := &p.Analysis.Rows[i]
		conducts, filled := rules.Conducts(row)
		veil = veil || conducts && row.Material.Fiber == laminate.Carbon
		powder = powder || filled || conducts && row.Material.Conductive
	}
	f := rules.Finding{Severity: rules.Warning, Rows: barrierRows(p)}
	switch {
	case veil && powder:
		return
	case veil:
		f.Message = "a conductive wall is required and the barrier has a carbon veil but no carbon powder"
	case powder:
		f.Message = "a conductive wall is required and the barrier has carbon powder but no carbon veil"
		f.Fix = carbonVeil(p)
	default:
		f.Severity = rules.Break
		f.Message = "a conductive wall is required and the barrier has neither carbon veil nor carbon powder"
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
	return p.Fix("use "+id+" for "+p.Plies([]int{0})+", same count", "changed "+p.Plies([]int{0})+" to "+id, laminate.PlyRef(0, "material"),
		func(d *edit.Draft) error {
			d.Plies[0].Material = id
			d.Plies[0].GlassContent = laminate.Optional[float64]{}
			return nil
		})
}

// ConductivePath wants the charge led to ground.
var ConductivePath = &rules.Rule{
	ID:     "conductive-path",
	Family: family,
	Title:  "Path to ground",
	Why: "A conductive barrier that is not grounded stores charge like a capacitor and discharges in one spark: it is worse than none. " +
		"The path has to continue across every joint, with conductive adhesive or edge pieces, and out through the structure to a grounding lug. " +
		"Joints are where it is interrupted, so measure the resistance: first on the part or a specimen, and to ground again at each inspection.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning, rules.Note},
	When: "a conductive wall is required, or a carbon veil, a conductive veil or carbon powder lies in the barrier, and the part does not state how it is grounded: incomplete; " +
		"it states that it is not (\"none\"): break where a conductive wall is required, else warning; it states how: warning where a conductive wall is required, else note, with the figures to measure",
	Basis: "ADR 2017 6.9.2.14: surface resistance at most 10⁹ Ω, to ground at most 10⁷ Ω, between parts in contact at most 10 Ω; ungrounded is worse than none: common practice, no source",
	Run: func(p *rules.Pass) {
		required := p.Schedule.Service.Conductive.Value
		why := "a conductive wall is required"
		if !required {
			if why = conducts(p); why == "" {
				return
			}
		}
		f := rules.Finding{At: laminate.PartRef("grounding"), Severity: rules.Warning}
		switch stated, grounded := rules.Grounded(&p.Schedule.Part); {
		case !stated:
			f.Severity = rules.Incomplete
			f.Message = why + " and the part does not state how it is grounded (grounding); ungrounded, a conductive wall is worse than none"
		case !grounded:
			if required {
				f.Severity = rules.Break
			}
			f.Message = why + " and the part states that it is not grounded; ungrounded, a conductive wall is worse than none"
		default:
			if !required {
				f.Severity = rules.Note
			}
			f.Message = "carry the conductive path across every joint and measure: surface resistance inside and outside at most 10⁹ Ω, to ground at most 10⁷ Ω, between parts in contact at most 10 Ω"
		}
		p.Report(f)
	},
}

// conducts says what of the barrier conducts though nobody asked for it, which
// stores charge all the same; empty where nothing does.
func conducts(p *rules.Pass) string {
	veils, resin := rules.Conducting(p.Analysis)
	switch {
	case veils != nil:
		return p.PliesAre(veils, "conductive veil")
	case resin != "":
		return "resin " + resin + " of the barrier holds carbon powder"
	}
	return ""
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
	ID:       "abrasive-barrier",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Barrier not built for abrasion",
	Why: "Particles wear resin much faster than ceramics. With about 35 % by mass of silicon carbide or aluminum oxide in the barrier resin the grains take the wear. " +
		"With less they lie too far apart; with more the mix no longer wets the mat and the barrier is dry. " +
		"At least two mats have to hold it, or the filled layer chips off at the first elbow.",
	Severity: []rules.Severity{rules.Warning, rules.Note},
	When: "the service is abrasive and no barrier resin holds silicon carbide or aluminum oxide, or its share is not stated or outside 30–40 % by mass of the mix (both bounds are within), " +
		"or the interior layer has fewer than two chopped plies: warning, all of it in one finding; solids contained and the service not stated to be abrasive: note",
	Basis: rules.CommonPractice,
	Run:   abrasiveBarrier,
}

func abrasiveBarrier(p *rules.Pass) {
	s := &p.Schedule.Service
	if !s.Abrasive.Value {
		if s.Contains.Has(laminate.Solids) {
			said := "and it is not stated whether it is abrasive"
			if s.Abrasive.Given {
				said = "and is stated not to be abrasive"
			}
			p.Report(rules.Finding{
				Severity: rules.Note, At: laminate.ServiceRef("abrasive"),
				Message: "the service contains solids " + said + "; for an abrasive one, about " + usualHard + " silicon carbide or aluminum oxide in the barrier resin is usual",
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
			wrong = append(wrong, "the share of "+r.Filler.String()+" in resin "+r.ID+" is not stated; 30 to 40 % is usual")
		case quantity.Below(share.Value, leastHard) || quantity.Above(share.Value, mostHard):
			bound := leastHard
			if share.Value > mostHard {
				bound = mostHard
			}
			measured, _ := p.Shares(share.Value, bound)
			wrong = append(wrong, "resin "+r.ID+" holds "+measured+" "+r.Filler.String()+"; 30 to 40 % is usual")
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
	Why: "Filler thickens the resin, so that roving is wetted badly and dry strands stay in the wall; it takes the place of glass and makes the laminate brittle. " +
		"RTP-1 allows only the pigments, dyes and fillers that its part 2 lists. " +
		"Strength values for the wall were not measured with it, and the ignition test no longer gives the glass content directly.",
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
				Message: p.Plies(rows) + " (structure) " + p.Are(rows) + " laid in resin " + r.ID + ", which holds " + r.Filler.String(),
			}
			if id := unfilled(p.Schedule, r); id != "" {
				f.Fix = p.Fix("use resin "+id+" for the structure, unfilled and of the same family", "changed the structure to resin "+id, f.At, func(d *edit.Draft) error {
					for _, row := range rows {
						d.Plies[row].Resin = id
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
	Why: "An ignition test burns the resin and weighs the residue. Mineral filler stays with the glass, so the residue reads too high and a laminate short of glass can pass; " +
		"carbon powder burns only in part. Correct the residue for the known share of filler, " +
		"or count the plies in the residue, and state on the record which was done.",
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
				f.Message = "resin " + r.ID + " holds " + r.Filler.String() + ", its share not stated: an ignition test does not give the glass content of " + p.Plies(rows)
			default:
				s := quantity.Percent(share.Value)
				f.Message = "resin " + r.ID + " holds " + s + " " + r.Filler.String() + ", which stays in an ignition test of " + p.Plies(rows) +
					": glass = (residue − " + s + ") / (1 − " + s + ")"
			}
			p.Report(f)
		}
	},
}
