package forms

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/rules/others"
	"frp/veilwright/schedules/paper"
)

// proven is what a part, joint or nozzle rests on, by others.
type proven struct {
	name, by, says string // says goes on behind the name: "rests on test 7, …"
}

// proofs are those that something of the job rests on, of what the paper is about.
func (of *Subject) proofs() (list []proven) {
	if of.judged == nil {
		return nil
	}
	for i := range of.judged.Findings {
		f := &of.judged.Findings[i]
		if at := (laminate.Ref{Kind: f.At.Kind, Index: f.At.Index}); f.Rule != others.RestsOnOthers || !of.covers(at) {
			continue
		}
		if t, ok := others.Of(of.judged, of.Library, of.Units, f.At); ok {
			list = append(list, proven{t.Name, t.Proof.By, strings.TrimPrefix(f.Message, t.Name+" ") + "; stated as proved: " + t.Proof.Figures(of.Units)})
		}
	}
	return list
}

// proofFacts say what rests on others.
func (of *Subject) proofFacts() paper.Sheet {
	var facts stated
	for _, p := range of.proofs() {
		facts.add(p.name, p.says)
	}
	if facts.facts == nil {
		return nil
	}
	return paper.Sheet{paper.Heading{Level: 2, Text: "What rests on others"}, facts.facts}
}

// proofOperations come before anything is laid: what was proved has to be at hand.
func (of *Subject) proofOperations() (list []operation) {
	for _, p := range of.proofs() {
		list = append(list, operation{"proof at hand, of the revision named, signed by whoever answers for it: " + p.name + " " + p.says, hold, p.by})
	}
	return list
}

// proofChecks are those of an inspection plan.
func (of *Subject) proofChecks() (list []check) {
	for _, p := range of.proofs() {
		list = append(list, check{"proof of " + p.name, "the document, against this revision", "each", p.says, "the schedule; " + inspection.ByPractice, "before it is laid", hold})
	}
	return list
}
