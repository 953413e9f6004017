package all_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

func TestJudgeJob_aPartIsJudgedAsItsScheduleIs(t *testing.T) {
	s, lib := ruletest.Sound(), catalog.Library()
	s.Plies[0].Material = catalog.Mat15 // something to say of it
	alone, job := all.Judge(s, lib, rules.Options{}), rules.JudgeJob(all.Rules(), laminate.JobOf(s), lib, rules.Options{})
	if len(job.Parts) != 1 || len(job.Findings) > 0 || job.Verdict != alone.Verdict || len(job.Parts[0].Findings) != len(alone.Findings) {
		t.Fatalf("%+v, alone %+v", job, alone)
	}
	for i, f := range job.Parts[0].Findings {
		if f.At != alone.Findings[i].At || f.Message != alone.Findings[i].Message {
			t.Errorf("%+v, alone %+v", f, alone.Findings[i])
		}
	}
}

func TestJudgeJob_isNeverClearOverWhatNoRuleKnows(t *testing.T) {
	lib := catalog.Library()
	if v := all.Judge(ruletest.Sound(), lib, rules.Options{}).Verdict; v != rules.Clear {
		t.Fatalf("the schedule to begin with is %s", v)
	}
	for name, change := range map[string]func(*laminate.Job){
		"no part":            func(j *laminate.Job) { j.Parts = nil },
		"a schedule unread":  func(j *laminate.Job) { j.Parts[0].Schedule = "x.toml" },
		"a joint":            func(j *laminate.Job) { j.Joints = []laminate.Joint{{ID: "j"}} },
		"a test":             func(j *laminate.Job) { j.Test.Medium = laminate.TestWater },
		"a nozzle":           func(j *laminate.Job) { j.Nozzles = []laminate.Nozzle{{ID: "n"}} },
		"a laminate missing": func(j *laminate.Job) { j.Parts[0].Laminate = "gone" },
	} {
		j := laminate.JobOf(ruletest.Sound())
		change(j)
		if v := rules.JudgeJob(all.Rules(), j, lib, rules.Options{}).Verdict; v < rules.Incomplete {
			t.Errorf("%s: %s", name, v)
		}
	}
	for _, form := range laminate.JobForms.All() {
		j := laminate.JobOf(ruletest.Sound())
		j.Parts[0].Form = form
		v := rules.JudgeJob(all.Rules(), j, lib, rules.Options{}).Verdict
		// What a straight tube needs is stated, and nothing that another form does.
		if form != laminate.Pipe && form != laminate.Duct && form != laminate.NoPartForm && v < rules.Incomplete {
			t.Errorf("%s: %s", form, v)
		}
	}
}
