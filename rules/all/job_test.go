package all_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

func TestJudgeJob_aPartIsJudgedAsItsScheduleIs(t *testing.T) {
	s, lib := ruletest.Sound(), catalog.Library()
	s.Plies[0].Material = catalog.Mat15 // something to say of it
	alone, job := all.Judge(s, lib, rules.Options{}), rules.JudgeJob(all.Rules(), ruletest.Job(s), lib, rules.Options{})
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
		j := ruletest.Job(ruletest.Sound())
		change(j)
		if v := rules.JudgeJob(all.Rules(), j, lib, rules.Options{}).Verdict; v < rules.Incomplete {
			t.Errorf("%s: %s", name, v)
		}
	}
	for _, form := range laminate.JobForms.All() {
		j := ruletest.Job(ruletest.Sound())
		j.Parts[0].Form = form
		v := rules.JudgeJob(all.Rules(), j, lib, rules.Options{}).Verdict
		// What a straight tube needs is stated, and nothing that another form does.
		if form != laminate.Pipe && form != laminate.Duct && form != laminate.NoPartForm && v < rules.Incomplete {
			t.Errorf("%s: %s", form, v)
		}
	}
}

// asking is a rule that says what every figure is that a rule of jobs may ask for.
var asking = &rules.Rule{ID: "asking", Severity: []rules.Severity{rules.Note}, Job: func(p *rules.JobPass) {
	for i, part := range p.Parts {
		as := *part.Schedule
		at := func(change func(s *laminate.Schedule)) {
			s := as
			change(&s)
			r := p.Evaluate(&s, part.Analysis)
			p.Report(rules.Note, laminate.Ref{Kind: laminate.RefJobPart, Index: i}, "", "%v %v %v", r.Criteria, r.Cases, r.Notes)
		}
		at(func(*laminate.Schedule) {})
		at(func(s *laminate.Schedule) { s.Service.Pressure = quantity.New(12, quantity.PSI) })
		at(func(s *laminate.Schedule) { s.Part.LiquidHeight = inch(77) })
		at(func(s *laminate.Schedule) { s.Head.Units = quantity.Metric })
		at(func(s *laminate.Schedule) {
			s.Conditions = []laminate.Condition{{Name: "warm", Temperature: quantity.New(100, quantity.Fahrenheit)}}
		})
	}
	for i := range p.Job.Laminates {
		id := p.Job.Laminates[i].ID
		p.Report(rules.Note, laminate.Ref{Kind: laminate.RefLaminate, Index: i}, "", "%v %v", p.Analysis(id).Zones, p.Lining(id).Zones)
	}
}}

// What is taken over from the report before an edit is what judging anew says.
func TestJudgeJob_takesOverOnlyWhatIsAsItWas(t *testing.T) {
	lib, other := catalog.Library(), catalog.Library()
	other.Families[laminate.VinylEster].HeatDeflection = quantity.New(100, quantity.Fahrenheit)
	edits := []func(*laminate.Job){
		func(*laminate.Job) {},
		func(j *laminate.Job) { j.Parts[2].Length = inch(7) },
		func(j *laminate.Job) { j.Parts[3].InsideDiameter = inch(40) },
		func(j *laminate.Job) { j.Nozzles[1].PadDiameter = inch(4) },
		func(j *laminate.Job) { j.Nozzles[2].PressureClass = quantity.New(150, quantity.PSI) },
		func(j *laminate.Job) { j.Nozzles[2].Neck, j.Nozzles[3].Neck = "seal", j.Parts[0].Laminate },
		func(j *laminate.Job) { j.Nozzles[3].Size = inch(12) },
		func(j *laminate.Job) { j.Test.Pressure = quantity.New(20, quantity.PSI) },
		func(j *laminate.Job) { j.Test = laminate.Test{} },
		func(j *laminate.Job) { j.Laminates[0].Plies = j.Laminates[0].Plies[1:] },
		func(j *laminate.Job) { j.Laminates[0], j.Laminates[1] = j.Laminates[1], j.Laminates[0] },
		func(j *laminate.Job) { j.Laminates = j.Laminates[1:] },
		func(j *laminate.Job) { j.Joints[0].Outside, j.Joints[1].Inside = "seal", "strap" },
		func(j *laminate.Job) { j.Service.Pressure = quantity.New(9, quantity.PSI) },
		func(j *laminate.Job) { j.Service.Contains = laminate.TraitSet(laminate.Fluorides) },
		func(j *laminate.Job) { j.Resins[0].Family = laminate.Isophthalic },
		func(j *laminate.Job) { j.Laminates[3].Plies = j.Laminates[3].Plies[1:] },
		func(j *laminate.Job) { j.Parts[0], j.Parts[4] = j.Parts[4], j.Parts[0] },
		func(j *laminate.Job) { j.Parts = j.Parts[1:] },
		func(j *laminate.Job) { j.Parts[1].Laminate = "gone" },
		func(j *laminate.Job) { j.Vessel.LiquidHeight = inch(5) },
		func(j *laminate.Job) {
			j.Conditions = []laminate.Condition{{Name: "steam", Temperature: quantity.New(230, quantity.Fahrenheit)}}
		},
	}
	list := append(all.Rules(), asking)
	say := func(r *rules.JobReport) string {
		s := fmt.Sprint(r.Verdict)
		for i, p := range r.Parts {
			s += fmt.Sprintln(r.PartVerdict(i), p.Analysis.Zones, p.Wall.Criteria, p.Wall.NotChecked)
			for i := range p.Findings {
				s += fmt.Sprintln(p.Findings[i].Rule.ID, p.Findings[i].At, p.Findings[i].Message)
			}
		}
		for i := range r.Findings {
			s += fmt.Sprintln(r.Findings[i].Rule.ID, r.Findings[i].At, r.Findings[i].Message)
		}
		return s
	}
	rapid.Check(t, func(t *rapid.T) {
		j := wide(6, 12)
		for i := range j.Nozzles {
			j.Nozzles[i].PressureClass = quantity.New(25*float64(i%3), quantity.PSI)
		}
		before := rules.JudgeJob(list, j, lib, rules.Options{})
		for range rapid.IntRange(1, 4).Draw(t, "edits") {
			j = j.Clone()
			rapid.SampledFrom(edits).Draw(t, "edit")(j)
			if len(j.Parts) < 5 {
				return
			}
			o, with := rules.Options{}, lib
			if rapid.IntRange(0, 5).Draw(t, "units") == 0 {
				o.Units = quantity.Metric
			}
			if rapid.IntRange(0, 5).Draw(t, "library") == 0 {
				with = other
			}
			anew := rules.JudgeJob(list, j, with, o)
			o.Before = before
			after := rules.JudgeJob(list, j, with, o)
			if say(anew) != say(after) {
				t.Fatalf("anew\n%s\ntaken over\n%s", say(anew), say(after))
			}
			before = after
		}
	})
}

// What is made for one part of a job is not made again for each of the others: four times
// as many take about four times the memory.
func TestJudgeJob_makesInProportion(t *testing.T) {
	lib := catalog.Library()
	made := func(n int) float64 {
		j := wide(n, 12)
		return testing.AllocsPerRun(2, func() { rules.JudgeJob(all.Rules(), j, lib, rules.Options{}) })
	}
	if few, many := made(20), made(80); many > 5*few {
		t.Errorf("20 parts take %.0f pieces of memory, 80 take %.0f", few, many)
	}
}
