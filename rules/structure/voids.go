package structure

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// mostVoids is the share of voids by volume above which no figure of a laminate holds.
// Common practice, no source: a well rolled ply has one to three percent.
const mostVoids = 0.05

// VoidsHigh keeps air from passing for wall.
var VoidsHigh = &rules.Rule{
	ID:       "voids-high",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "A ply is figured with more voids than a sound one has",
	Why: "Voids make a ply thicker and weaker: strength that goes by thickness would count the air in it. They are where fluid collects and where plies come apart. " +
		"A laminate with so many is rolled out again while it is wet, or rejected.",
	Severity: []rules.Severity{rules.Break},
	When:     "a ply states a void_content above 5 %",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		for i := range p.Schedule.Plies {
			if v := p.Schedule.Plies[i].VoidContent; v.Given && quantity.Above(v.Value, mostVoids) {
				p.Report(rules.Finding{Severity: rules.Break, Rows: []int{i}, At: laminate.PlyRef(i, "void_content"),
					Message: p.Plies([]int{i}) + ": " + quantity.Share(v.Value) + " of voids, above " + quantity.Share(mostVoids) + ": its thickness is no strength"})
			}
		}
	},
}
