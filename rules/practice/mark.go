package practice

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
)

// Line is one demand of an exercise and how it was met. A line of no points
// says more about a miss that another line has counted.
type Line struct {
	Demand string
	// Found is what the checker found of what was laid or chosen; where Right is
	// not empty, what was answered.
	Found string
	// Right is what there was to answer, where a figure, a word or plies are asked
	// for; Lacks what of it was left out, and Wrong what was named and is not so.
	Right, Lacks, Wrong string
	Points, Of          float64
	Missed              bool
	Why, Basis          string // why it is demanded; of a miss, why that matters
	Plies               []int  // single plies of the trainee's schedule it is about
}

// Text is the line in one sentence: where something had to be said, what was said
// and what is right come first.
func (l *Line) Text() string {
	if l.Right == "" {
		return l.Demand + ": " + l.Found
	}
	return "yours " + l.Found + ", right " + l.Right + ": " + l.Demand
}

// Mark is what an answer is worth.
type Mark struct {
	Lines      []Line
	Points, Of float64
	HintCost   float64 // share of the full mark
	Score      float64 // 0 to 1, hints taken off
	Notes      []string
	Solution   Answer // an answer that marks full, to stand beside the trainee's
	// Report is what the checker says of the wall that was laid or chosen, all
	// of it, whether it cost points or not; nil where there is none to judge.
	Report *rules.Report
}

// Passed is the score from which an exercise counts as mastered.
const Passed = 0.9

// Full tells whether nothing was missed, hints or not.
func (m *Mark) Full() bool {
	for i := range m.Lines {
		if m.Lines[i].Missed {
			return false
		}
	}
	return m.Of > 0
}

// add counts a line; points beyond its own are cut.
func (m *Mark) add(l Line) {
	l.Points = max(0, min(l.Points, l.Of))
	l.Missed = l.Missed || l.Points < l.Of
	m.Points += l.Points
	m.Of += l.Of
	m.Lines = append(m.Lines, l)
}

// Grade marks an answer to an exercise. It never fails: what was not answered
// is marked as such. The same answer gives the same mark.
func Grade(e *exercise.Exercise, a Answer, lib *laminate.Library, units quantity.System) Mark {
	if a.Schedule != nil {
		s := *a.Schedule
		s.Plies = laminate.SplitRow(&s, lib)
		a.Schedule = &s
	}
	m := Mark{Solution: Solve(e, lib, units)}
	g := &grader{exercise: e, library: lib, units: units, mark: &m, bench: benchOf(e, lib, units)}
	switch e.Kind {
	case exercise.Build:
		g.build(a)
	case exercise.Choose:
		g.choose(a)
	case exercise.Fix:
		g.fix(a)
	case exercise.Order:
		g.order(a)
	case exercise.Predict, exercise.Ignition:
		g.values(a)
	case exercise.NoKind:
	}
	for i := range min(max(a.Hints, 0), len(e.Hints)) {
		m.HintCost += e.Hints[i].Price()
	}
	if m.Of > 0 {
		m.Score = max(0, m.Points/m.Of-m.HintCost)
	}
	m.Score = math.Round(m.Score*1e6) / 1e6
	return m
}

type grader struct {
	exercise *exercise.Exercise
	library  *laminate.Library
	units    quantity.System
	mark     *Mark
	bench    *bench
}

func (g *grader) judge(s *laminate.Schedule) *rules.Report {
	return g.bench.judge(all.Rules(), s, rules.Options{Units: g.units})
}
