// Package all is the explicit list of the rules: what check runs, what the
// catalog prints and what the pages explain.
package all

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/rules/barrier"
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/joint/proof"
	"frp/veilwright/rules/others"
	"frp/veilwright/rules/parts"
	"frp/veilwright/rules/resin"
	"frp/veilwright/rules/sequence"
	"frp/veilwright/rules/special"
	"frp/veilwright/rules/structure"
	"frp/veilwright/rules/veil"
)

// Rules lists every rule, family by family. The list is made anew, the rules
// themselves are shared and not to be changed.
func Rules() []*rules.Rule {
	return slices.Concat(
		veil.Rules(), resin.Rules(), barrier.Rules(), sequence.Rules(), special.Rules(), structure.Rules(), parts.Rules(), joint.Rules(), proof.Rules(),
		others.Rules(), // last: they settle what the rules before them could not figure
	)
}

// Judge runs every rule over a schedule.
func Judge(s *laminate.Schedule, lib *laminate.Library, o rules.Options) *rules.Report {
	return rules.Judge(Rules(), s, lib, o)
}

// Find finds a rule by its id; the one that stands for a rule that failed too.
func Find(id string) (*rules.Rule, bool) {
	for _, r := range Rules() {
		if r.ID == id {
			return r, true
		}
	}
	for _, r := range []*rules.Rule{rules.InternalError, rules.JobIncomplete} {
		if r.ID == id {
			return r, true
		}
	}
	return nil, false
}
