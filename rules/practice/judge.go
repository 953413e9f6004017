package practice

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/equipment"
	"frp/veilwright/rules/all"
)

// Judge runs the rules over plies that answer an exercise: as a wall, or as what
// is laid over the joint or at the nozzle that the exercise is about.
func Judge(e *exercise.Exercise, s *laminate.Schedule, lib *laminate.Library, units quantity.System) *rules.Report {
	return benchOf(e, lib, units).judge(all.Rules(), s, rules.Options{Units: units})
}

// bench judges one answer to an exercise after the other.
type bench struct {
	lib  *laminate.Library
	job  *laminate.Job // of an overlay, whole; nil of a wall
	over overlay.Overlay
	last *rules.JobReport // of the answer before: its walls are the same
}

// benchOf makes the job of an overlay whole: what else is laid at the joint or
// nozzle, and each size that the exercise does not state, is as the program proposes it.
func benchOf(e *exercise.Exercise, lib *laminate.Library, units quantity.System) *bench {
	b := &bench{lib: lib}
	if e.Overlay == overlay.None {
		return b
	}
	b.job, b.over = e.Job(&e.Given)
	p, err := equipment.Propose(b.job, lib, equipment.Options{Options: advice.Options{Units: units}})
	if err == nil {
		b.job = p.Job
	}
	return b
}

// judge runs rules over an answer.
func (b *bench) judge(list []*rules.Rule, s *laminate.Schedule, o rules.Options) *rules.Report {
	if b.job == nil {
		return rules.Judge(list, s, b.lib, o)
	}
	j := *b.job
	j.Resins, j.Materials, j.Laminates = exercise.WithResins(j.Resins, s.Resins), s.Materials, slices.Clone(j.Laminates)
	j.Laminates[j.Laminate(b.over.Laminate)].Plies = s.Plies
	o.Before = b.last
	b.last = rules.JudgeJob(list, &j, b.lib, o)
	return b.last.Laminate(b.over)
}
