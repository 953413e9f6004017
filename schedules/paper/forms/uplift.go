package forms

import (
	"cmp"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
	"frp/veilwright/schedules/paper"
)

// lifted is a flat bottom whose shell gas or liquid lifts: what that is, and what its
// hold-down was figured for, by others.
type lifted struct {
	bottom, by, held string
	missing          string
	tested           bool // it is lifted at the test, or may be
}

func (l *lifted) String() string {
	if l.by == "" {
		return "what lifts the shell on bottom " + l.bottom + " cannot be determined; " + l.held
	}
	return "the shell on bottom " + l.bottom + " is lifted " + l.by + "; " + l.held
}

// lifts are those of a job, with what is missing for one.
func (of *Subject) lifts() (list []lifted) {
	if of.judged == nil {
		return nil
	}
	p := &rules.JobPass{Assembly: of.Job.Assemble(), Library: of.Library, Units: of.Units, Parts: of.judged.Parts}
	for i := range of.Job.Parts {
		x := &of.Job.Parts[i]
		service, test := statics.Uplifts(p, i)
		l := lifted{bottom: x.ID, held: "what its hold-down was figured for is not stated (hold_down)", tested: test.When != "" || test.Missing != ""}
		if x.HoldDown.Given() {
			l.held = "its hold-down was figured, by others, for " + of.Units.Stated(x.HoldDown.SI(), quantity.Stress)
		}
		for _, u := range []statics.Uplift{service, test} {
			l.missing = cmp.Or(l.missing, u.Missing)
			if u.When == "" {
				continue
			}
			if l.by != "" {
				l.by += ", "
			}
			l.by += u.When + " by " + of.Units.Figure(u.Pressure, quantity.Stress) + " over its circle, " + of.Units.Figure(u.Force, quantity.Force) + " in all"
		}
		if l.by != "" || l.missing != "" {
			list = append(list, l)
		}
	}
	return list
}

// liftFacts say what lifts a shell and what holds it down.
func (of *Subject) liftFacts() (list paper.Facts) {
	for _, l := range of.lifts() {
		why := ""
		if l.missing != "" {
			why = " (" + l.missing + ")"
		}
		list = append(list, paper.Fact{Name: "uplift", Value: l.String() + why + ". The weight of the shell is not taken off (statics); anchors, lugs and foundation are figured by others"})
	}
	return list
}

// anchorOperations come before the test: what lifts a shell has to be held by then.
func (of *Subject) anchorOperations() (list []operation) {
	for _, l := range of.lifts() {
		when := ": lugs on the shell as the drawing of the hold-down has them, anchors where it serves: "
		if l.tested {
			when = ": NO TEST BEFORE lugs on the shell and anchors, by others, stand and bear what lifts it: "
		}
		list = append(list, operation{l.bottom + when + l.String(), hold, "drawing of the hold-down"})
	}
	return list
}

// anchorChecks are those of an inspection plan.
func (of *Subject) anchorChecks() (list []check) {
	for _, l := range of.lifts() {
		when := "before service"
		if l.tested {
			when = "before the test"
		}
		list = append(list, check{"hold-down of " + l.bottom, "by eye, against the drawing", "each lug and anchor", l.String(), "the schedule; " + inspection.ByPractice, when, hold})
	}
	return list
}
