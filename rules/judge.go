package rules

import (
	"cmp"
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

// Options say how to judge.
type Options struct {
	// Units are the reader's: messages give figures in them.
	Units quantity.System
	// Fixes asks for the mechanical fixes of all findings at once. Each
	// is tried out, which costs one more judgment a fix; without it findings
	// carry none until Report.Fix asks for one.
	Fixes bool
	// Before is a report of the same job before an edit, by the same rules: what it
	// says of parts whose wall is as it was is taken over. It may be nil.
	Before *JobReport
}

// Judge runs the rules of the list over a schedule. It changes neither
// schedule nor library and gives the same report every time.
//
// A fix is offered only where the schedule after it is better: no rule gives
// a break or an incomplete it did not give before, and the numbers of breaks, incompletes
// and warnings, compared in that order, are lower.
func Judge(list []*Rule, s *laminate.Schedule, lib *laminate.Library, o Options) *Report {
	return judge(list, s, nil, lib, o)
}

// judge is Judge with the analysis of the schedule, nil where it is to be made.
func judge(list []*Rule, s *laminate.Schedule, a *laminate.Analysis, lib *laminate.Library, o Options) *Report {
	if lib == nil {
		lib = &laminate.Library{}
	}
	if a == nil {
		a = laminate.Analyze(s, lib)
	}
	r := &Report{Schedule: s, Analysis: a, Findings: make([]Finding, 0, 12)}
	p := &Pass{Schedule: s, Library: lib, Analysis: r.Analysis, Units: o.Units, fix: true, findings: &r.Findings}
	p.Facts = gather(s, r.Analysis, nil)
	p.Wall = func() *wall.Result {
		if r.Wall == nil {
			r.Wall = wall.Evaluate(s, lib, r.Analysis, wall.Options{Units: laminate.Some(o.Units)})
		}
		return r.Wall
	}
	for _, rule := range list {
		if rule.Run != nil {
			run(rule, p)
		}
	}
	slices.SortStableFunc(r.Findings, byWeight)
	r.Verdict = Worst(r.Findings)
	r.PassedOver = passedOver(s, lib, r.Analysis)
	r.try = (&trials{list: list, library: lib, before: r, facts: p.Facts}).betters
	if o.Fixes {
		for i := range r.Findings {
			r.Fix(i)
		}
	}
	return r
}

// run gives one rule its turn. A rule that fails must not take the others'
// findings with it, nor pass for a rule that had nothing to say.
func run(rule *Rule, p *Pass) {
	p.rule = rule
	guarded(rule, p.findings, func() { rule.Run(p) })
}

func guarded(rule *Rule, findings *[]Finding, turn func()) {
	before := len(*findings)
	defer func() {
		if reason := recover(); reason != nil {
			*findings = append((*findings)[:before], Finding{
				Rule: InternalError, Severity: Incomplete, Basis: InternalError.Basis,
				Message: fmt.Sprintf("rule %s failed: %v", rule.ID, reason),
			})
		}
	}()
	turn()
}

// InternalError is what stands in a report for a rule that failed. It is in no
// list: nothing but a fault of the program gives it.
var InternalError = &Rule{
	ID:     "internal-error",
	Family: "rules",
	Title:  "Internal error in a rule",
	Why: "A rule failed because of an error in the program, so what it looks for was not checked. " +
		"The other findings are valid. Check that point by hand, and report the error with this schedule.",
	Severity: []Severity{Incomplete},
	When:     "a rule did not finish",
	Basis:    "the program's own check",
}

// byWeight orders findings: worst first, then by place, then by rule.
func byWeight(a, b Finding) int { return compare(&a, &b) }

func compare(a, b *Finding) int {
	switch {
	case a.Severity != b.Severity:
		return cmp.Compare(b.Severity, a.Severity)
	case a.At.Kind != b.At.Kind:
		return cmp.Compare(a.At.Kind, b.At.Kind)
	case a.At.Index != b.At.Index:
		return cmp.Compare(a.At.Index, b.At.Index)
	}
	return cmp.Compare(a.Rule.ID, b.Rule.ID)
}

// inOrder is a list by weight, what weighs alike as it stood. Of thousands it moves
// places and not findings.
func inOrder(list []Finding) []Finding {
	if len(list) == 0 {
		return list
	}
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(compare(&list[a], &list[b]), a-b) })
	sorted := make([]Finding, len(list))
	for to, from := range order {
		sorted[to] = list[from]
	}
	return sorted
}
