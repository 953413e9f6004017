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
	to := follow(before.Schedule, after.Schedule)
	known := make(map[kind][][]int, len(before.Findings))
	for i := range before.Findings {
		f := &before.Findings[i]
		known[kindOf(f)] = append(known[kindOf(f)], moved(f.Rows, to))
	}
	fresh := make([]bool, len(after.Findings))
	for i := range after.Findings {
		f := &after.Findings[i]
		fresh[i] = !slices.ContainsFunc(known[kindOf(f)], func(rows []int) bool { return same(rows, f.Rows) })
	}
	return fresh
}

type kind struct {
	rule     *rules.Rule
	severity rules.Severity
}

func kindOf(f *rules.Finding) kind { return kind{f.Rule, f.Severity} }

// follow gives of every row before a change its row after it, -1 where it is
// gone: equal rows at both ends stay paired, those between pair by position.
func follow(before, after *laminate.Schedule) []int {
	a, b := before.Plies, after.Plies
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	to := make([]int, len(a))
	for i := range a {
		switch {
		case i < head:
			to[i] = i
		case i >= len(a)-tail:
			to[i] = i + len(b) - len(a)
		case i < len(b)-tail:
			to[i] = i
		default:
			to[i] = -1
		}
	}
	return to
}

func moved(rows, to []int) []int {
	var out []int
	for _, r := range rows {
		if r >= 0 && r < len(to) && to[r] >= 0 {
			out = append(out, to[r])
		}
	}
	return out
}

// same tells whether two findings of one kind are about the same thing: about
// no ply in particular, or about a ply in common.
func same(a, b []int) bool {
	if len(a) == 0 && len(b) == 0 {
		return true
	}
	return slices.ContainsFunc(a, func(r int) bool { return slices.Contains(b, r) })
}
