package practice

import (
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// faultsOf are the findings of what is given that the answer does without, one
// a rule, worst first.
func faultsOf(e *exercise.Exercise, solved *laminate.Schedule, lib *laminate.Library, units quantity.System) (*rules.Report, []rules.Finding) {
	report := judge(&e.Given, lib, units)
	if solved == nil {
		return report, nil
	}
	found := misses(report, judge(solved, lib, units), rules.Warning)
	var list []rules.Finding
	for _, f := range found {
		if !slices.ContainsFunc(list, func(have rules.Finding) bool { return have.Rule == f.Rule }) {
			list = append(list, f)
		}
	}
	return report, list
}

// fix marks what was found to be wrong, whether it is right now, and that
// nothing else went wrong.
func (g *grader) fix(a Answer) {
	s := g.taken(a.Schedule)
	given, faults := faultsOf(g.exercise, g.mark.Solution.Schedule, g.library, g.units)
	g.named(a.Faults, given, faults)
	var report *rules.Report
	if s != nil {
		report = judge(s, g.library, g.units)
	}
	for i := range faults {
		f := &faults[i]
		l := Line{Demand: "fixed: " + f.Rule.Title, Of: pointsOfGroup, Points: pointsOfGroup, Found: "it is"}
		switch report {
		case nil:
			l.Points, l.Found, l.Why, l.Basis = 0, "nothing was laid", f.Rule.Why, f.Basis
		default:
			if left := worstOf(report, f.Rule); left > worstOf(judge(g.mark.Solution.Schedule, g.library, g.units), f.Rule) {
				l.Found, l.Why, l.Basis = left.String()+" still: "+messageOf(report, f.Rule), f.Rule.Why, f.Basis
				l.Points = 0
				if left < f.Severity {
					l.Points = pointsOfGroup * kept(left)
				}
			}
		}
		g.mark.add(l)
	}
	g.demanded(s)
	l := Line{Demand: "nothing else went wrong", Of: pointsOfGroup, Points: pointsOfGroup, Found: "nothing did"}
	if report == nil {
		l.Points, l.Found, l.Basis, l.Why = 0, "nothing was laid", own, "A schedule that is thrown away is not fixed."
		g.mark.add(l)
		return
	}
	fresh := misses(report, given, rules.Warning)
	fresh = slices.DeleteFunc(fresh, func(f rules.Finding) bool {
		return f.Severity <= worstOf(judge(g.mark.Solution.Schedule, g.library, g.units), f.Rule)
	})
	if len(fresh) == 0 {
		g.mark.add(l)
	}
	for i := range fresh {
		f := &fresh[i]
		if i == 0 {
			l.Points = pointsOfGroup * kept(f.Severity)
		}
		l.Missed = true
		l.Found, l.Why, l.Basis, l.Plies = f.Severity.String()+": "+f.Message, f.Rule.Why, f.Basis, singles(report.Analysis, f.Rows)
		g.mark.add(l)
		l.Demand, l.Points, l.Of = "also went wrong", 0, 0
	}
	g.keeps(s)
}

func messageOf(r *rules.Report, rule *rules.Rule) string {
	for i := range r.Findings {
		if r.Findings[i].Rule == rule {
			return r.Findings[i].Message
		}
	}
	return ""
}

// named marks the plies that were said to be at fault: every fault counts once
// that has plies, and naming a sound ply takes as much away.
func (g *grader) named(said []int, given *rules.Report, faults []rules.Finding) {
	said = slices.Compact(slices.Sorted(slices.Values(said)))
	var guilty []int
	total, hit := 0, 0
	missed := -1
	for i := range faults {
		plies := singles(given.Analysis, faults[i].Rows)
		if len(plies) == 0 {
			continue
		}
		total++
		guilty = append(guilty, plies...)
		if slices.ContainsFunc(said, func(n int) bool { return slices.Contains(plies, n) }) {
			hit++
		} else if missed < 0 {
			missed = i
		}
	}
	if total == 0 {
		return
	}
	var wrong []int
	for _, n := range said {
		if !slices.Contains(guilty, n) {
			wrong = append(wrong, n)
		}
	}
	l := Line{Demand: "the plies at fault are named", Of: pointsOfGroup, Found: "named " + list(said), Basis: own}
	l.Points = pointsOfGroup * max(0, float64(hit-len(wrong))/float64(total))
	switch {
	case missed >= 0:
		f := &faults[missed]
		l.Why, l.Basis = "Not seen: "+f.Message+". "+f.Rule.Why, f.Basis
	case len(wrong) > 0:
		l.Why = "Nothing is wrong with " + list(wrong) + ". Tearing out what is sound costs as much as leaving in what is not."
	}
	g.mark.add(l)
}

func list(plies []int) string {
	if len(plies) == 0 {
		return "none"
	}
	words := make([]string, len(plies))
	for i, n := range plies {
		words[i] = strconv.Itoa(n)
	}
	if len(plies) == 1 {
		return "ply " + words[0]
	}
	return "plies " + strings.Join(words, ", ")
}
