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
	if lib == nil {
		lib = &laminate.Library{}
	}
	r := judge(list, s, lib, o.Units, true)
	r.PassedOver = passedOver(s, lib, r.Analysis)
	r.try = func(m *Fix) bool { return betters(list, r, lib, m, o.Units) }
	if o.Fixes {
		for i := range r.Findings {
			r.Fix(i)
		}
	}
	return r
}

func judge(list []*Rule, s *laminate.Schedule, lib *laminate.Library, units quantity.System, fix bool) *Report {
	r := &Report{Schedule: s, Analysis: laminate.Analyze(s, lib), Findings: make([]Finding, 0, 12)}
	p := &Pass{
		Schedule: s, Library: lib, Analysis: r.Analysis, Units: units,
		fix: fix, findings: &r.Findings,
	}
	p.Facts = gather(s, r.Analysis)
	p.Wall = func() *wall.Result {
		if r.Wall == nil {
			r.Wall = wall.Evaluate(s, lib, r.Analysis, wall.Options{Units: laminate.Some(units)})
		}
		return r.Wall
	}
	for _, rule := range list {
		if rule.Run != nil {
			run(rule, p)
		}
	}
	slices.SortStableFunc(r.Findings, byWeight)
	r.Verdict = worst(r.Findings)
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
func byWeight(a, b Finding) int {
	return cmp.Or(
		cmp.Compare(b.Severity, a.Severity),
		cmp.Compare(a.At.Kind, b.At.Kind),
		cmp.Compare(a.At.Index, b.At.Index),
		cmp.Compare(a.Rule.ID, b.Rule.ID),
	)
}

// tally counts what a rule holds against a schedule.
type tally struct{ breaks, incompletes int }

func tallies(r *Report) map[*Rule]tally {
	m := make(map[*Rule]tally, len(r.Findings))
	for i := range r.Findings {
		f := &r.Findings[i]
		t := m[f.Rule]
		switch f.Severity {
		case Break:
			t.breaks++
		case Incomplete:
			t.incompletes++
		default: // nothing of the others
		}
		m[f.Rule] = t
	}
	return m
}

// betters tries a fix out.
func betters(list []*Rule, before *Report, lib *laminate.Library, m *Fix, units quantity.System) bool {
	next, err := attempt(m, before.Schedule)
	if err != nil {
		return false
	}
	after := judge(list, next, lib, units, false)
	had := tallies(before)
	for rule, t := range tallies(after) {
		if t.breaks > had[rule].breaks || t.incompletes > had[rule].incompletes {
			return false
		}
	}
	b1, o1, c1, _ := before.Counts()
	b2, o2, c2, _ := after.Counts()
	return cmp.Or(cmp.Compare(b2, b1), cmp.Compare(o2, o1), cmp.Compare(c2, c1)) < 0
}

// attempt makes the edit; one that panics is one that cannot be made.
func attempt(m *Fix, s *laminate.Schedule) (next *laminate.Schedule, err error) {
	defer func() {
		if reason := recover(); reason != nil {
			next, err = nil, fmt.Errorf("trying a fix: %v", reason)
		}
	}()
	return m.Edit.Do(s)
}
