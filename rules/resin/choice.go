package resin

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// BarrierResinsDiffer wants one resin in the barrier.
var BarrierResinsDiffer = &rules.Rule{
	ID:     "barrier-resins-differ",
	Family: family,
	Title:  "More than one resin family in the barrier",
	Why: "The barrier is chosen as a whole: the resin behind the veil meets the same fluid, a little later. Two families shrink and swell differently, so it blisters at the seam between them, " +
		"and the weaker of the two sets the life of the whole. It also invites taking the wrong drum in the shop. " +
		"There are reasons for it, such as an expensive resin in the veil only; a person has to decide that.",
	Severity: []rules.Severity{rules.Warning},
	When:     "plies of the inner surface and interior layer use resins of more than one family; differing fillers or cures of one family do not count",
	Basis:    rules.CommonPractice,
	Run:      barrierResinsDiffer,
}

func barrierResinsDiffer(p *rules.Pass) {
	first := p.FirstResinIn(rules.InBarrier, func(r *laminate.Resin) bool { return r.Family != laminate.NoFamily })
	if first < 0 {
		return
	}
	other := p.FirstResinIn(rules.InBarrier, func(r *laminate.Resin) bool {
		return r.Family != laminate.NoFamily && r.Family != p.Schedule.Resins[first].Family
	})
	if other < 0 {
		return
	}
	// The resin that meets the fluid was chosen for it: the others follow.
	lead := -1
	var rows []int
	for i := range p.Schedule.Plies {
		if !p.Analysis.Rows[i].Zone.InBarrier() {
			continue
		}
		for j := range p.Schedule.Resins {
			r := &p.Schedule.Resins[j]
			if r.ID != p.Schedule.Plies[i].Resin || r.Family == laminate.NoFamily {
				continue
			}
			if lead < 0 {
				lead = j
			}
			if r.Family != p.Schedule.Resins[lead].Family {
				rows = append(rows, i)
			}
			break
		}
	}
	if rows == nil {
		return
	}
	id := p.Schedule.Resins[lead].ID
	strange, _ := p.Schedule.Resin(p.Schedule.Plies[rows[0]].Resin)
	p.Report(rules.Finding{
		Severity: rules.Warning, Rows: rows, At: laminate.PlyRef(rows[0], "resin"),
		Message: "the barrier begins in resin " + named(&p.Schedule.Resins[lead]) + ", but " + p.Plies(rows) + " " + p.Are(rows) + " in " + named(strange),
		Fix: p.Fix("use one resin for the whole barrier: "+id, "put the barrier into resin "+id, laminate.PlyRef(rows[0], "resin"),
			func(d *edit.Draft) error {
				for _, i := range rows {
					d.Plies[i].Resin = id
				}
				return nil
			}),
	})
}

// ServiceIncomplete names the facts without which nothing can be judged.
var ServiceIncomplete = &rules.Rule{
	ID:     "service-incomplete",
	Family: family,
	Title:  "Service data missing",
	Why: "Veil, resin and barrier are chosen for the service: which fluid, how hot, how acidic or alkaline. Without these facts " +
		"most rules about veils and resins cannot be applied. Ask whoever runs the process for the worst case, upsets and cleaning included; " +
		"do not guess. Where the fluid contains nothing on the list, such as fluorides, say so with an empty list: a missing key does not mean none.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "temperature (an upset alone is not enough), pH, fluid or what the service contains are not given",
	Basis:    rules.CommonPractice,
	ByUse:    true,
	Run: func(p *rules.Pass) {
		s := &p.Schedule.Service
		if s.Fluid != "" && s.Temperature.Given() && s.PH.Given && s.Contains.Given {
			return
		}
		var missing, keys []string
		for _, fact := range []struct {
			given     bool
			name, key string
		}{{s.Fluid != "", "fluid", "fluid"}, {s.Temperature.Given(), "temperature", "temperature"}, {s.PH.Given, "pH", "ph"}} {
			if !fact.given {
				missing, keys = append(missing, fact.name), append(keys, fact.key)
			}
		}
		if missing == nil {
			p.Report(rules.Finding{
				Severity: rules.Incomplete, At: laminate.ServiceRef("contains"),
				Message: "the service does not state what it contains (an empty list means nothing special); fluorides, hypochlorite, acids, bases and solvents are not checked",
			})
			return
		}
		message := "the service does not state its " + rules.Join(missing, "and")
		if !s.Contains.Given {
			message += ", nor what it contains"
		}
		message += "; veil and resin are not checked"
		p.Report(rules.Finding{Severity: rules.Incomplete, At: laminate.ServiceRef(keys[0]), Message: message})
	},
}

// ConfirmResin stands in every report.
var ConfirmResin = &rules.Rule{
	ID:     "confirm-resin",
	Family: family,
	Title:  "Confirm the resin: manufacturer's data or coupons",
	Why: "A family name is a first choice, not a proof: products within a family differ, and mixtures, traces and upsets decide. The resin manufacturer's data for that concentration and temperature, " +
		"or coupons hung in the fluid (ASTM C581), are the evidence. Keep it with the job, so that the choice can be justified later.",
	Severity: []rules.Severity{rules.Note},
	When:     "always",
	Basis:    "ASTM C581; common practice, no source",
	ByUse:    true,
	Run: func(p *rules.Pass) {
		s := &p.Schedule.Service
		message := "confirm "
		if i := p.FirstResinIn(rules.InBarrier, func(r *laminate.Resin) bool { return r.Family != laminate.NoFamily }); i >= 0 {
			message += p.Schedule.Resins[i].Family.String()
		} else {
			message += "the barrier resin"
		}
		message += " for "
		if s.Fluid != "" {
			message += s.Fluid
		} else {
			message += "the fluid"
		}
		if s.Concentration.Given {
			message += " at " + quantity.Percent(s.Concentration.Value)
		} else {
			message += " at its concentration (not given)"
		}
		if hot := s.Hottest(); hot.Given() {
			reached, _ := p.Hottest(hot.SI())
			message += " and " + reached
		}
		message += " by the resin manufacturer's data or ASTM C581 coupons"
		p.Report(rules.Finding{Severity: rules.Note, At: laminate.ServiceRef("fluid"), Message: message})
	},
}
