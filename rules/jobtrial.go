package rules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
)

// betters tells whether a fix of what is laid somewhere makes the job better: it changes
// what plies are made of and nothing else, no rule holds more against any part, joint or
// nozzle after it, and all of them together hold less.
func (r *JobReport) betters(o overlay.Overlay, m *Fix) bool {
	was := o.Wall(r.Job)
	next, err := new(trial).attempt(m, was, r.library)
	if err != nil || !madeOfOther(was, next) {
		return false
	}
	j, err := o.With(r.Job, next)
	if err != nil {
		return false
	}
	after := JudgeJob(r.rules, j, r.library, Options{Units: r.units, Before: r})
	had, all := r.tallies()
	has, left := after.tallies()
	for rule, t := range has {
		if t.worse(had[rule]) {
			return false
		}
	}
	return left.less(all)
}

// madeOfOther tells that each ply stands where it stood and is of another material or
// resin at most; a resin that others may be laid in too is as it was.
func madeOfOther(was, is *laminate.Schedule) bool {
	if len(is.Plies) != len(was.Plies) || len(is.Resins) < len(was.Resins) || !same(is.Resins[:len(was.Resins)], was.Resins) || is.Part != was.Part || is.Service != was.Service {
		return false
	}
	for i := range is.Plies {
		a, b := &was.Plies[i], &is.Plies[i]
		if a.Count != b.Count || a.Zone != b.Zone || a.GelAfter != b.GelAfter {
			return false
		}
	}
	return true
}

// tallies counts the findings of the whole job, by rule and of all.
func (r *JobReport) tallies() (by map[*Rule]tally, all tally) {
	by = map[*Rule]tally{}
	count := func(list []Finding) {
		for i := range list {
			t := by[list[i].Rule]
			t.count(list[i].Severity)
			by[list[i].Rule] = t
			all.count(list[i].Severity)
		}
	}
	count(r.Findings)
	for _, p := range r.Parts {
		count(p.Findings)
	}
	return by, all
}
