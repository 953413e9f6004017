package ruletest

import (
	"cmp"
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
)

// Trials holds what a report keeps of the fixes offered to it against judging the
// schedule after each as a whole, and tells of the first that is kept and makes the
// schedule no better, or the other way round. It tells too how many were tried.
func Trials(s *laminate.Schedule, lib *laminate.Library, o rules.Options) (tried int, err error) {
	o.Fixes = false
	before := all.Judge(s, lib, o)
	for i := range before.Findings {
		offer := before.Offered(i)
		if offer == nil {
			continue
		}
		tried++
		want := better(before, offer, lib, o)
		if got := before.Fix(i) != nil; got != want {
			return tried, fmt.Errorf("%s at %+v: %q is kept: %v, and makes the schedule better: %v",
				before.Findings[i].Rule.ID, before.Findings[i].At, offer.Text, got, want)
		}
	}
	return tried, nil
}

type held struct{ breaks, incompletes int }

func perRule(r *rules.Report) map[*rules.Rule]held {
	m := map[*rules.Rule]held{}
	for i := range r.Findings {
		h := m[r.Findings[i].Rule]
		switch r.Findings[i].Severity {
		case rules.Break:
			h.breaks++
		case rules.Incomplete:
			h.incompletes++
		default: // nothing of the others
		}
		m[r.Findings[i].Rule] = h
	}
	return m
}

// better judges what a fix makes of a schedule as everything else is judged.
func better(before *rules.Report, fix *rules.Fix, lib *laminate.Library, o rules.Options) bool {
	next, err := done(fix, before.Schedule)
	if err != nil {
		return false
	}
	after := all.Judge(next, lib, o)
	had := perRule(before)
	for rule, h := range perRule(after) {
		if h.breaks > had[rule].breaks || h.incompletes > had[rule].incompletes {
			return false
		}
	}
	b1, o1, c1, _ := before.Counts()
	b2, o2, c2, _ := after.Counts()
	return cmp.Or(cmp.Compare(b2, b1), cmp.Compare(o2, o1), cmp.Compare(c2, c1)) < 0
}

func done(fix *rules.Fix, s *laminate.Schedule) (next *laminate.Schedule, err error) {
	defer func() {
		if reason := recover(); reason != nil {
			err = fmt.Errorf("%v", reason)
		}
	}()
	return fix.Edit.Do(s)
}
