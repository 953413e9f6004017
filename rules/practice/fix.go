package practice

import (
	"fmt"
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
	report := Judge(e, &e.Given, lib, units)
	if solved == nil {
		return report, nil
	}
	found := misses(report, Judge(e, solved, lib, units), rules.Warning)
	var list []rules.Finding
	for _, f := range found {
		if !slices.ContainsFunc(list, func(have rules.Finding) bool { return have.Rule == f.Rule }) {
			list = append(list, f)
		}
	}
	return report, list
}

// Fixed begins the demand that one fault is put right; what follows names the fault.
const Fixed = "fixed: "

// fix marks what was found to be wrong, whether it is right now, and that
// nothing else went wrong.
func (g *grader) fix(a Answer) {
	s := g.taken(a.Schedule)
	given, faults := faultsOf(g.exercise, g.mark.Solution.Schedule, g.library, g.units)
	if g.exercise.NamesPlies() {
		g.named(a.Faults, s, given, faults)
	}
	var report *rules.Report
	if s != nil {
		report = g.judge(s)
		g.mark.Report = report
	}
	for i := range faults {
		f := &faults[i]
		l := Line{Demand: Fixed + f.Rule.Title, Of: pointsOfGroup, Points: pointsOfGroup, Found: "yes", Why: f.Rule.Why, Basis: f.Basis}
		switch report {
		case nil:
			l.Points, l.Found = 0, "the schedule has no plies"
		default:
			if left := worstOf(report, f.Rule); left > worstOf(g.judge(g.mark.Solution.Schedule), f.Rule) {
				l.Found = left.String() + " still: " + messageOf(report, f.Rule)
				l.Points = 0
				if left < f.Severity {
					l.Points = pointsOfGroup * kept(left)
				}
			}
		}
		g.mark.add(l)
	}
	g.demanded(s)
	l := Line{Demand: "no new findings", Of: pointsOfGroup, Points: pointsOfGroup, Found: "none", Basis: basisOfGroups, Why: "A fix must not break another rule. Nothing is worse than before."}
	if report == nil {
		l.Points, l.Found, l.Basis, l.Why = 0, "the schedule has no plies", own, "An empty schedule is not a fixed one."
		g.mark.add(l)
		return
	}
	fresh := misses(report, given, rules.Warning)
	fresh = slices.DeleteFunc(fresh, func(f rules.Finding) bool {
		return f.Severity <= worstOf(g.judge(g.mark.Solution.Schedule), f.Rule)
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
		l.Demand, l.Points, l.Of = "new finding", 0, 0
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

// onlyLacks tells whether what is given lacks something and has nothing wrong
// in it: all its plies stand in the answer, in their order, with others between
// them.
func onlyLacks(given, solved *laminate.Schedule) bool {
	if solved == nil {
		return false
	}
	want, have := singlePlies(given), singlePlies(solved)
	if len(have) <= len(want) {
		return false
	}
	for _, p := range have {
		if len(want) > 0 && want[0] == p {
			want = want[1:]
		}
	}
	return len(want) == 0
}

// singlePlies are the plies of a schedule one by one, with the resin each is
// laid in: equal where a person would call two the same ply.
func singlePlies(s *laminate.Schedule) []string {
	var list []string
	for _, p := range s.Plies {
		p.Zone = laminate.NoZone
		list = append(list, onePlyEach(s, p)...)
	}
	return list
}

// onePlyEach writes out the plies of a row; ids of resins and places in a file
// make no difference.
func onePlyEach(s *laminate.Schedule, p laminate.Ply) []string {
	resin := "none"
	if r, ok := s.Resin(p.Resin); ok {
		c := *r
		c.Origin, c.ID = 0, ""
		resin = fmt.Sprint(c)
	}
	count, gel := p.Count, p.GelAfter
	p.Origin, p.Count, p.Resin = 0, 1, ""
	var list []string
	for n := range count {
		p.GelAfter = gel && n == count-1
		list = append(list, fmt.Sprint(p)+resin)
	}
	return list
}

// named marks the plies that were said to be at fault: every fault counts once
// that has plies, and naming a sound ply takes as much away. Where something is
// only missing nothing has to be named; who did nothing has not found that out.
func (g *grader) named(said []int, s *laminate.Schedule, given *rules.Report, faults []rules.Finding) {
	said = slices.Compact(slices.Sorted(slices.Values(said)))
	var guilty []int
	var each [][]int // the plies of each fault
	total, hit := 0, 0
	missed := -1
	lacks := onlyLacks(&g.exercise.Given, g.mark.Solution.Schedule)
	for i := range faults {
		plies := singles(given.Analysis, faults[i].Rows)
		if len(plies) == 0 {
			continue
		}
		guilty = append(guilty, plies...)
		if lacks {
			continue
		}
		each = append(each, plies)
		total++
		if slices.ContainsFunc(said, func(n int) bool { return slices.Contains(plies, n) }) {
			hit++
		} else if missed < 0 {
			missed = i
		}
	}
	if total == 0 && !lacks {
		return
	}
	var wrong, about []int // named: sound ones, and those that a finding is about
	for _, n := range said {
		if slices.Contains(guilty, n) {
			about = append(about, n)
		} else {
			wrong = append(wrong, n)
		}
	}
	l := Line{
		Demand: "the defective plies are selected", Of: pointsOfGroup, Found: list(said), Right: oneOfEach(each), Basis: own,
		Why: "Whoever knows which ply is defective takes out that one and leaves the rest alone.",
	}
	l.Points = pointsOfGroup * max(0, float64(hit-len(wrong))/float64(max(1, total)))
	if lacks {
		l.Right = "none, a ply is missing"
		l.Points = pointsOfGroup * max(0, 1-float64(len(wrong)))
		if s == nil || slices.Equal(singlePlies(s), singlePlies(&g.exercise.Given)) && len(said) == 0 {
			l.Points, l.Found = 0, "nothing was selected or changed"
		}
		l.Why = "No ply is defective: something is missing, and no ply has to be removed for it."
		if len(about) > 0 {
			l.Right = "none, or " + list(about) + ", where a ply is missing"
			l.Why += " The rule that finds it points there, so naming that costs nothing."
		}
	}
	if len(wrong) > 0 {
		l.Wrong = list(wrong) + ": nothing is wrong there"
		l.Why = "Removing sound plies costs as much as leaving defective ones in."
	}
	if missed >= 0 {
		f := &faults[missed]
		l.Lacks, l.Why, l.Basis = list(singles(given.Analysis, f.Rows))+": "+f.Message, f.Rule.Why, f.Basis
	}
	g.mark.add(l)
}

// oneOfEach says which plies have to be named so that of each fault one is.
func oneOfEach(faults [][]int) string {
	faults = slices.SortedStableFunc(slices.Values(faults), func(a, b []int) int { return len(a) - len(b) })
	var words []string
	for i, plies := range faults {
		covered := slices.ContainsFunc(faults[:i], func(other []int) bool {
			return !slices.ContainsFunc(other, func(n int) bool { return !slices.Contains(plies, n) })
		})
		switch {
		case covered:
		case len(plies) > 1:
			words = append(words, "one of "+list(plies))
		default:
			words = append(words, list(plies))
		}
	}
	if words == nil {
		return list(nil)
	}
	return strings.Join(words, "; ")
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
