package page

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// Fresh tells of every finding of the report after a change whether the change
// brought it: no finding of the same rule and severity was there before about
// the same plies. Rows are followed through the change, so that a ply laid
// inside does not make every finding outside of it look new.
func Fresh(before, after *rules.Report) []bool {
	to := pair(before.Schedule.Plies, after.Schedule.Plies)
	known := make(map[kind][][]int, len(before.Findings))
	for i := range before.Findings {
		f := &before.Findings[i]
		known[kindOf(f)] = append(known[kindOf(f)], f.Rows)
	}
	fresh := make([]bool, len(after.Findings))
	for i := range after.Findings {
		f := &after.Findings[i]
		fresh[i] = !slices.ContainsFunc(known[kindOf(f)], func(rows []int) bool { return to.same(rows, f.Rows) })
	}
	return fresh
}

type kind struct {
	rule     *rules.Rule
	severity rules.Severity
}

func kindOf(f *rules.Finding) kind { return kind{f.Rule, f.Severity} }

// paired says which row before a change is which after it: equal rows at both
// ends stay paired, those between pair by position.
type paired struct{ was, is, head, tail int } // rows before and after, and equal ones at both ends

func pair(a, b []laminate.Ply) paired {
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	return paired{len(a), len(b), head, tail}
}

// row is the row after the change that a row before it is, -1 where it is gone.
func (p paired) row(before int) int {
	switch {
	case before < 0 || before >= p.was:
		return -1
	case before < p.head:
		return before
	case before >= p.was-p.tail:
		return before + p.is - p.was
	case before < p.is-p.tail:
		return before
	}
	return -1
}

// same tells whether two findings of one kind, one before and one after, are
// about the same thing: about no ply in particular, or about a ply in common.
// Rows of findings ascend.
func (p paired) same(before, after []int) bool {
	none := len(after) == 0
	for _, r := range before {
		r = p.row(r)
		if r < 0 {
			continue
		}
		none = false
		for len(after) > 0 && after[0] < r {
			after = after[1:]
		}
		if len(after) > 0 && after[0] == r {
			return true
		}
	}
	return none
}
