package workings_test

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/joint/workings"
)

// roofed is a tank of 10 ft and 20 ft high on a flat bottom, under a hemisphere, with water
// to a level in ft.
func roofed(level float64) *laminate.Job {
	j := pipes(120, 0, 2, 8, 3)
	j.Nozzles, j.Joints, j.Parts = nil, nil, j.Parts[:1]
	shell := j.Parts[0]
	part := func(id string, form laminate.PartForm) laminate.JobPart {
		p := shell
		p.ID, p.Form, p.Length, p.Ends = id, form, quantity.Length{}, laminate.NoEnds
		return p
	}
	bottom, course, head := part("f", laminate.FlatBottom), part("a", laminate.ShellCourse), part("h", laminate.HeadPart)
	bottom.Supported, course.Length, head.Head = laminate.Some(true), inches(240), laminate.Hemispherical
	j.Parts = []laminate.JobPart{bottom, course, head}
	j.Service.SpecificGravity, j.Vessel.LiquidHeight = laminate.Some(1.0), quantity.New(level, quantity.Foot)
	return j
}

// Statics, with water of 62.43 lb/ft³: 6 ft of it over the rim press 6·π·5² ft³ = 29,420 lb
// up on a hemisphere that holds 2/3·π·5³ ft³ = 16,340 lb, which leaves 13,075 lb; on a flat
// lid all of it; 3 psi of gas on 11,310 in² are 33,929 lb.
func TestUplifts_areStatics(t *testing.T) {
	for name, c := range map[string]struct {
		level  float64
		change func(*laminate.Job)
		lb     float64
		answer wall.Answer
	}{
		"a hemisphere":    {26, func(*laminate.Job) {}, 13075, wall.Incomplete},
		"held":            {26, func(j *laminate.Job) { j.Parts[0].HoldDown = psi(1.3) }, 13075, wall.Holds},
		"held too little": {26, func(j *laminate.Job) { j.Parts[0].HoldDown = psi(1) }, 13075, wall.Fails},
		"a flat lid": {26, func(j *laminate.Job) {
			j.Parts[2].Form, j.Parts[2].Head = laminate.Cover, laminate.NoHeadShape
		}, 29420, wall.Incomplete},
		"gas": {10, func(j *laminate.Job) { j.Service.Pressure = psi(3) }, 33929, wall.Incomplete},
		"gas of a part": {10, func(j *laminate.Job) {
			for i := range j.Parts {
				j.Parts[i].Pressure = psi(3)
			}
		}, 33929, wall.Incomplete},
		"gas and liquid": {26, func(j *laminate.Job) { j.Service.Pressure = psi(3) }, 33929 + 13075, wall.Incomplete},
		"the test": {10, func(j *laminate.Job) {
			j.Test = laminate.Test{Medium: laminate.TestWater, LiquidHeight: quantity.New(26, quantity.Foot), Pressure: psi(0)}
		}, 13075, wall.Incomplete},
		"nothing": {10, func(*laminate.Job) {}, 0, wall.NotApplicable},
	} {
		for _, units := range []quantity.System{quantity.US, quantity.Metric} {
			j := roofed(c.level)
			c.change(j)
			r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{Units: units})
			list := workings.Uplifts(r, catalog.Library(), units)
			if c.lb == 0 {
				if len(list) != 0 {
					t.Errorf("%s: %+v", name, list)
				}
				continue
			}
			if len(list) != 1 || list[0].Answer != c.answer || !strings.HasPrefix(list[0].Case, "bottom f, ") {
				t.Fatalf("%s: %+v", name, list)
			}
			force := c.lb
			if units == quantity.Metric {
				force *= 4.4482216152605
			}
			published.Near(t, name+": lift", step(t, list, workings.Uplift, "F"), force, 0.003*force)
			pocket(t, name, list[0].Steps)
			broken := slices.ContainsFunc(r.Findings, func(f rules.Finding) bool { return f.Rule == joint.UpliftUnheld && f.Severity == rules.Break })
			if broken != (c.answer == wall.Fails) || c.answer == wall.Incomplete != (list[0].Reason != "") {
				t.Errorf("%s: the rule breaks: %v; %s %s", name, broken, list[0].Answer, list[0].Reason)
			}
		}
	}
}

// Whose pressure it is that lifts.
func TestUplifts_sayWhoseGasItIs(t *testing.T) {
	for want, change := range map[string]func(*laminate.Job){
		"as the document states": func(j *laminate.Job) { j.Service.Pressure = psi(3) },
		"as the part states": func(j *laminate.Job) {
			for i := range j.Parts {
				j.Parts[i].Pressure = psi(3)
			}
		},
		"of the test, at the top of its fill": func(j *laminate.Job) {
			j.Test = laminate.Test{Medium: laminate.TestWater, LiquidHeight: quantity.New(10, quantity.Foot), Pressure: psi(3)}
		},
	} {
		j := roofed(10)
		change(j)
		r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
		said := false
		for _, c := range workings.Uplifts(r, catalog.Library(), quantity.US) {
			for _, s := range c.Steps {
				said = said || s.Symbol == "pg" && s.Formula == want
			}
		}
		if !said {
			t.Errorf("nothing says that the gas is %s", want)
		}
	}
}
