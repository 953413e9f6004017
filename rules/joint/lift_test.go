package joint_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/joint/statics"
)

// roofed is a tank of 10 ft and two courses of 10 ft on a flat bottom, under a hemisphere,
// filled with water to a level in ft.
func roofed(level float64) *laminate.Job {
	j := sound()
	headed(j)
	j.Service.Pressure, j.Service.SpecificGravity = psi(0), laminate.Some(1.0)
	j.Vessel.LiquidHeight = quantity.New(level, quantity.Foot)
	for i := range j.Parts {
		p := &j.Parts[i]
		p.InsideDiameter, p.Ends = inches(120), laminate.NoEnds
		if p.Form == laminate.ShellCourse {
			p.Length = inches(120)
		}
	}
	more := j.Joints[0]
	more.ID, more.Between = "K", [2]string{"b", "h"}
	j.Joints = append(j.Joints, more)
	return j
}

// Statics: water at 26 ft presses on the circle at 20 ft with 6 ft of it, and weighs on that
// with the hemisphere full of it: 6·π·5² − 2/3·π·5³ = 209.4 ft³ of 62.43 lb, 13,075 lb up, on
// the joint of the roof and on that below it alike.
func TestStrap_bearsWhatLiquidLifts(t *testing.T) {
	for level, want := range map[float64]float64{26: 13075, 19: 0} {
		j := roofed(level)
		r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
		p := &rules.JobPass{Assembly: j.Assemble(), Library: catalog.Library(), Parts: r.Parts}
		for i := range j.Joints {
			n, missing := statics.Strap(p, i)
			if up := n.Thrust * math.Pi / 4 * n.Diameter * n.Diameter / 4.4482216152605; missing != "" || math.Abs(up-want) > 0.005*want+1e-6 {
				t.Errorf("at %v ft joint %s pulls %.0f lb, by statics %.0f; %s", level, j.Joints[i].ID, up, want, missing)
			}
		}
		// The course is figured for it too: p·D/4 of what lifts over its circle.
		pull := r.Parts[1].Schedule.Part.Place.Pull.SI() * math.Pi / 4 * 120 * 120 * 0.0254 * 0.0254 / (0.3048 * 0.3048 * 0.3048) * 62.43
		if math.Abs(pull-want) > 0.005*want {
			t.Errorf("at %v ft the course is figured for %.0f lb, by statics %.0f", level, pull, want)
		}
	}
}

func TestUpliftUnheld(t *testing.T) {
	held := func(v float64) func(j *laminate.Job) { return func(j *laminate.Job) { j.Parts[0].HoldDown = psi(v) } }
	for name, c := range map[string]struct {
		level  float64
		change func(j *laminate.Job)
		want   string
	}{
		"below the roof":  {19, func(*laminate.Job) {}, ""},
		"up in the roof":  {26, func(*laminate.Job) {}, "incomplete the shell on bottom f is lifted in service by 1.2 psi over its circle, 130"},
		"held":            {26, held(1.3), ""},
		"held too little": {26, held(1), "break the shell on bottom f is lifted in service by 1.2 psi over its circle, and its hold-down was figured for 1.0 psi"},
		"by gas":          {19, func(j *laminate.Job) { j.Service.Pressure = psi(3) }, "incomplete the shell on bottom f is lifted in service by 3.0 psi"},
		"gas and no roof": {19, func(j *laminate.Job) { j.Service.Pressure, j.Parts, j.Joints = psi(3), j.Parts[:3], j.Joints[:1] }, ""},
		"by the fill of a test": {19, func(j *laminate.Job) {
			j.Test = laminate.Test{Medium: laminate.TestWater, LiquidHeight: quantity.New(26, quantity.Foot)}
		}, "incomplete the shell on bottom f is lifted at the test by 1.2 psi"},
	} {
		j := roofed(c.level)
		c.change(j)
		said := ""
		for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{Units: quantity.US}).Findings {
			if f.Rule == joint.UpliftUnheld {
				said += f.Severity.String() + " " + f.Message
			}
		}
		if c.want == "" && said != "" || !strings.HasPrefix(said, c.want) {
			t.Errorf("%s: %q, want %q", name, said, c.want)
		}
	}
}

// A bottom carries nothing round: what its foundation bears where a nozzle leaves it a
// recess no formula of a shell tells.
func TestPadThin_onAFlatBottomIsNotFigured(t *testing.T) {
	j := roofed(19)
	n := sound().Nozzles[0]
	n.On, n.Height, n.Offset, n.Pad = "f", quantity.Length{}, inches(0), ""
	j.Nozzles = []laminate.Nozzle{n}
	_, said := judged(j)
	if !strings.Contains(said, "its pad cannot be determined: part f is a flat bottom") {
		t.Error(said)
	}
}

// Of a pipe whose ends are both joined each end has a strap: 8 in wide it lies on 4 in, and
// a hole of 4 in, 5 in from an end, takes an inch of it.
func TestOpeningOffPart_inTheStrapOfAPipe(t *testing.T) {
	for height, want := range map[float64]bool{5: true, 43: true, 7: false} {
		j := sound()
		c := j.Parts[1]
		c.ID = "c"
		j.Parts = append(j.Parts, c)
		j.Parts[0].Length = inches(48)
		j.Joints[0].Width = inches(8)
		more := j.Joints[0]
		more.ID, more.Between = "K", [2]string{"a", "c"}
		j.Joints = append(j.Joints, more)
		j.Nozzles[0].Height, j.Nozzles[0].Size = inches(height), inches(4)
		if _, said := judged(j); strings.Contains(said, "its opening cuts into the strap at the") != want {
			t.Errorf("at %v in: %s", height, said)
		}
	}
}

// Which end of a pipe its only joint is at no key says: 4 in of strap at the one end or the
// other, and a hole of 4 in. Of a pipe of 10 in both are too near.
func TestOpeningOffPart_whereTheEndOfAJointIsNotKnown(t *testing.T) {
	const may, sure = "its opening cuts into the strap of joint J if that is at the ", "its opening cuts into the strap at the bottom of part a"
	for _, c := range []struct {
		length, height, pad float64
		severity, says      string
	}{
		{48, 5, 0, "incomplete", may + "bottom of part a, which no key says: its middle is 5 in from there, and opening and strap reach 6 in"},
		{48, 43, 0, "incomplete", may + "top of part a"},
		{48, 24, 0, "", ""},
		{10, 5, 0, "break", sure},
		{48, 8, 12, "warning", "its pad reaches the strap of joint J if that is at the bottom of part a, which no key says"},
		{19, 9.5, 12, "warning", "its pad reaches the strap at the bottom of part a"},
	} {
		j := sound()
		j.Parts[0].Length = inches(c.length)
		j.Joints[0].Width, j.Joints[0].Inside = inches(8), ""
		n := &j.Nozzles[0]
		n.Height, n.Size, n.Pad, n.PadDiameter = inches(c.height), inches(4), "", quantity.Length{}
		if c.pad > 0 {
			n.Pad, n.PadDiameter = "strap", inches(c.pad)
		}
		list, said := judged(j)
		if has := slices.Contains(list, c.severity+" opening-off-part"); has != (c.says != "") || !strings.Contains(said, c.says) || c.says == "" && strings.Contains(said, "cuts into") {
			t.Errorf("%+v: %q\n%s", c, list, said)
		}
	}
}

// A pipe that hangs from its nozzle has its only joint at the top, one that rises from a
// head at the bottom; one that has straps of two widths has one of them at either end.
func TestOpeningOffPart_whereTheEndOfAJointFollows(t *testing.T) {
	j := sound()
	c := j.Parts[1]
	c.ID = "c"
	j.Parts = append(j.Parts, c)
	j.Parts[0].Length, j.Joints[0].Width = inches(48), inches(8)
	more := j.Joints[0]
	more.ID, more.Between, more.Width = "K", [2]string{"a", "c"}, inches(4)
	j.Joints = append(j.Joints, more)
	j.Nozzles[0].Height, j.Nozzles[0].Size, j.Nozzles[0].Pad = inches(5), inches(4), ""
	if _, said := judged(j); !strings.Contains(said, "cuts into the strap of joint J if that is at the bottom of part a, which no key says") {
		t.Error(said)
	}
	for _, c := range []struct {
		head   int // the part that the pipe is tied to: of a bottom it hangs, of a top it rises
		height float64
		want   bool
	}{{0, 5, false}, {0, 43, true}, {3, 5, true}, {3, 43, false}} {
		j := tanked()
		j.Joints = []laminate.Joint{{ID: "P", Between: [2]string{j.Parts[c.head].ID, "pipe"}, Outside: "strap", Width: inches(8), FirstWidth: inches(2)}}
		j.Nozzles = []laminate.Nozzle{{ID: "N", On: "pipe", Height: inches(c.height), Size: inches(4)}}
		_, said := judged(j)
		if got := strings.Contains(said, "its opening cuts into the strap at the"); got != c.want || strings.Contains(said, "no key says") {
			t.Errorf("%+v: %s", c, said)
		}
	}
}

// tanked is a course between hemispheres, and a pipe that a joint is to tie to one of them.
func tanked() *laminate.Job {
	j := sound()
	head, pipe := j.Parts[0], j.Parts[1]
	upright(j)
	course := j.Parts[0]
	head.ID, head.Form, head.Length, head.Head = "low", laminate.HeadPart, quantity.Length{}, laminate.Hemispherical
	top := head
	top.ID = "top"
	pipe.ID, pipe.Length = "pipe", inches(48)
	j.Parts = []laminate.JobPart{head, course, pipe, top}
	return j
}

// 14 psi over the circle of 10 ft are 158,336 lb, 70 tons; 6 psi of vacuum ask for as much.
func TestHoldDownHigh(t *testing.T) {
	for _, c := range []struct {
		held, vacuum, wide float64
		says               string
	}{
		{2, 0.5, 120, ""}, {14, 0.5, 120, "stated for 14.0 psi, 158336 lb over its circle, and more than 2.0 psi is not usual"}, {12, 6, 120, ""}, {12.1, 6, 120, "come to 6.0 psi"}, {14, 0.5, 48, ""},
	} {
		j := roofed(10)
		j.Service.Vacuum = psi(c.vacuum)
		for i := range j.Parts {
			j.Parts[i].InsideDiameter = inches(c.wide)
		}
		j.Parts[0].HoldDown = psi(c.held)
		said := ""
		for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
			if f.Rule.ID == "hold-down-high" {
				said = f.Message
			}
		}
		if (said == "") != (c.says == "") || !strings.Contains(said, c.says) {
			t.Errorf("%+v: %q", c, said)
		}
	}
}
