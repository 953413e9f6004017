package rules

import "frp/veilwright/laminate"

// Problem is what stands in a report for a problem of the document itself. It
// is in no list: no rule is run on a schedule that has one.
var Problem = &Rule{
	ID:     "unusable",
	Family: "rules",
	Title:  "The document cannot be used as it stands",
	Why: "A value that cannot be, or that could not be read, may stand anywhere in what follows from it, so no rule was asked. " +
		"The figures shown are of what could be read; nothing may be built from them. Once it is put right the rules judge again.",
	Severity: []Severity{Unusable},
	When:     "a value or a key of the document cannot be",
	Basis:    "the program's own check",
}

// Unjudged is the report of a schedule that cannot be used: its figures, as far
// as they go, and no rule's findings. s may be nil where nothing could be read.
// What is wrong is added to it.
func Unjudged(s *laminate.Schedule, lib *laminate.Library) *Report {
	if s == nil {
		s = &laminate.Schedule{}
	}
	return &Report{Schedule: s, Analysis: laminate.Analyze(s, lib), Verdict: Unusable, try: func(*Fix) bool { return false }}
}

// Add adds what makes the schedule unusable, and the rows it is about.
func (r *Report) Add(at laminate.Ref, rows []int, message string) {
	r.Findings = append(r.Findings, Finding{Rule: Problem, Severity: Unusable, Basis: Problem.Basis, At: at, Rows: rows, Message: message})
}
