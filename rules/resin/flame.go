package resin

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// classOne is the highest ASTM E84 index of class A (1), NFPA 101.
const classOne = 25

// FlameSpread holds each resin that burns against the demand.
var FlameSpread = &rules.Rule{
	ID:     "flame-spread",
	Family: family,
	Title:  "Flame spread not shown to be low enough",
	Why: "Where a flame spread index is required, the proof is a test report on the laminate, not a family name: brominated and chlorendic resins resist fire, but many of them reach class 1 " +
		"(index 25 or less) only with antimony trioxide in the structure. A resin without bromine or chlorine is far above 25. " +
		"Fire reaches a pipe or tank from outside, so structure and outer surface count; a duct burns inside, so its barrier counts too. " +
		"A wall found to fail after erection has to come down; in a fire it spreads the fire.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "a flame spread index is required. For each resin of structure and outer surface, in ducts of the barrier too: tested index above the requirement (equal holds), or 25 or less required of a resin that is " +
		"neither brominated nor chlorendic and not tested: break; family suits but not tested, or 25 or less tested of a family that is neither and a source stated: warning; 25 or less tested of one that is neither without a source, more than 25 required of another family that is not tested, a ply whose resin family is not given, " +
		"or a barrier resin that would fail where the part's form is not stated: incomplete",
	Basis: "ASTM E84 index; class A (1) is 0–25 in NFPA 101 and IBC 803 (second-hand); families, antimony trioxide, and that other resins are far above 25: common practice, no source",
	Run:   flameSpread,
}

// mayBeDuct tells whether a part may belong to a duct, which burns inside.
func mayBeDuct(f laminate.PartForm) bool {
	return f == laminate.NoPartForm || f == laminate.Elbow || f == laminate.Flange
}

func flameSpread(p *rules.Pass) {
	demand := p.Schedule.Service.FlameSpread
	if !demand.Given {
		return
	}
	counts := rules.InStructure | rules.InOuterSurface
	if p.Schedule.Part.Form == laminate.Duct {
		counts |= rules.InBarrier
	}
	wanted := "flame spread of at most " + strconv.Itoa(demand.Value) + " is required; resin "
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		severity, reason := burns(r, demand.Value)
		switch {
		case severity == rules.Clear:
		case use&counts != 0:
			p.Report(rules.Finding{
				Severity: severity, Rows: p.RowsOfResin(i, counts), At: laminate.ResinRef(i, "flame_spread_tested"), Message: wanted + named(r) + reason,
			})
		case use&rules.InBarrier != 0 && severity == rules.Break && mayBeDuct(p.Schedule.Part.Form):
			unknown := "is not stated"
			if f := p.Schedule.Part.Form; f != laminate.NoPartForm {
				unknown = f.String() + " does not say whether it is one"
			}
			p.Report(rules.Finding{
				Severity: rules.Incomplete, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.PartRef("form"),
				Message: wanted + named(r) + reason + "; it is in the barrier, which counts in a duct, and the part's form " + unknown,
			})
		}
	}
	if p.Facts.Unresined&counts == 0 {
		return
	}
	var rows []int // a test report stands for itself, whatever the family
	for _, i := range p.RowsOfResin(-1, counts) {
		if r := p.Analysis.Rows[i].Resin; r == nil || !r.FlameSpreadTested.Given {
			rows = append(rows, i)
		}
	}
	if rows != nil {
		p.Report(rules.Finding{
			Severity: rules.Incomplete, Rows: rows, At: laminate.PlyRef(rows[0], "resin"),
			Message: "flame spread of at most " + strconv.Itoa(demand.Value) + " is required; the resin family of " + p.Plies(rows) + " is not stated",
		})
	}
}

// burns judges one resin that counts against the demand.
func burns(r *laminate.Resin, demand int) (rules.Severity, string) {
	suits := r.Family.Brominated() || r.Family == laminate.Chlorendic
	switch {
	case r.FlameSpreadTested.Given && r.FlameSpreadTested.Value > demand:
		return rules.Break, " was tested at " + strconv.Itoa(r.FlameSpreadTested.Value)
	case r.FlameSpreadTested.Given && r.FlameSpreadTested.Value <= classOne && !suits && r.Family != laminate.NoFamily:
		severity, ask := rules.Unusual(r.Source)
		return severity, " is said to be tested at " + strconv.Itoa(r.FlameSpreadTested.Value) + ", which resins neither brominated nor chlorendic are far above (" + strconv.Itoa(classOne) + " is the highest of class A)" + ask
	case r.FlameSpreadTested.Given, r.Family == laminate.NoFamily:
		return rules.Clear, "" // a family not given is told of by its plies
	case suits:
		return rules.Warning, " is of a family that can reach class 1, often only with antimony trioxide, but no tested index is stated"
	case demand <= classOne:
		return rules.Break, " is neither brominated nor chlorendic and has no tested index"
	}
	return rules.Incomplete, " has no tested index"
}
