package wall_test

import (
	"math"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
)

// line is a job of ducts of 36 in and 5 ft, a cone of 15° to 24 in and a duct of that, each
// of one woven roving under 0.361 psi from outside; change puts in what it likes.
func line(change func(*laminate.Job)) *laminate.Job {
	s := walltest.Pipe(walltest.Mixed(2)...)
	j := &laminate.Job{Service: s.Service, Resins: s.Resins, Laminates: []laminate.Laminate{{ID: "w", Plies: s.Plies}}}
	j.Service.Pressure, j.Service.Vacuum = quantity.New(0, psi), quantity.New(0.361, psi)
	for _, id := range []string{"D1", "D2", "D3", "D4", "T1", "D5"} {
		p := laminate.JobPart{ID: id, Laminate: "w"}
		p.Form, p.Process, p.Ends, p.InsideDiameter, p.Length, p.Flanged = laminate.Duct, laminate.ContactMolded, laminate.ClosedEnds, inches(36), inches(60), laminate.Some(true)
		switch id {
		case "T1":
			p.Form, p.Length, p.Flanged, p.SmallDiameter, p.HalfAngle = laminate.Cone, quantity.Length{}, laminate.Optional[bool]{}, inches(24), laminate.Some(15.0)
		case "D5":
			p.InsideDiameter = inches(24)
		}
		if n := len(j.Parts); n > 0 {
			j.Joints = append(j.Joints, laminate.Joint{ID: "J" + id, Between: [2]string{j.Parts[n-1].ID, id}})
		}
		j.Parts = append(j.Parts, p)
	}
	if change != nil {
		change(j)
	}
	return j
}

// bolt puts two flanges in the place of a strap.
func bolt(j *laminate.Job, joint int) {
	a, b := j.Joints[joint].Between[0], j.Joints[joint].Between[1]
	for _, id := range []string{"F" + a, "F" + b} {
		f := laminate.JobPart{ID: id, Laminate: "w"}
		f.Form = laminate.Flange
		j.Parts = append(j.Parts, f)
	}
	j.Joints[joint].Between = [2]string{a, "F" + a}
	j.Joints = append(j.Joints, laminate.Joint{ID: "bolted " + a, Between: [2]string{"F" + a, "F" + b}}, laminate.Joint{ID: "on " + b, Between: [2]string{"F" + b, b}})
}

func outside(t *testing.T, j *laminate.Job, id string) wall.Criterion {
	t.Helper()
	return walltest.Criterion(t, walltest.Evaluate(j.Wall(j.Part(id)), wall.Options{}), wall.ExternalPressure)
}

// bears is what a part bears over a free length that it states itself.
func bears(t *testing.T, id string, free quantity.Length) float64 {
	t.Helper()
	return outside(t, line(func(j *laminate.Job) { j.Parts[j.Part(id)].StiffenerSpacing = free }), id).Capacity
}

// What is strapped together is as free as all of it is long: a strap is no line of support
// (ASME VIII UG-28, from memory). Four ducts of 60 in, a cone of (36 − 24)/2/tan 15° =
// 22.392 in and one duct more are 322.392 in (arithmetic), whatever the ducts say of
// flanges where joints strap them; what they say of the ends of the line holds those.
func TestLine_aStrapHoldsNothingRound(t *testing.T) {
	whole := inches(4*60 + 6/math.Tan(15*math.Pi/180) + 60)
	for _, id := range []string{"D1", "D2", "D4", "D5"} {
		c := outside(t, line(nil), id)
		if want := bears(t, id, whole); math.Abs(c.Capacity/want-1) > 1e-9 || c.Answer != wall.Fails {
			t.Errorf("%s bears %v, over %v in %v: %+v", id, c.Capacity, whole.In(quantity.Inch), want, c)
		}
	}
	// Between flanges it is as free as it is long.
	bolted := line(func(j *laminate.Job) { bolt(j, 0); bolt(j, 1) })
	if c, want := outside(t, bolted, "D2"), bears(t, "D2", inches(60)); math.Abs(c.Capacity/want-1) > 1e-9 || c.Answer != wall.Holds {
		t.Errorf("between flanges it bears %v, want %v", c.Capacity, want)
	}
	if c, want := outside(t, bolted, "D4"), bears(t, "D4", inches(whole.In(quantity.Inch)-120)); math.Abs(c.Capacity/want-1) > 1e-9 {
		t.Errorf("beyond them it bears %v, want %v", c.Capacity, want)
	}
	// So does one that stands in a file of its own, which knows of no joint.
	filed := line(func(j *laminate.Job) {
		s := *j.Wall(1)
		s.Part.Place = laminate.Place{}
		j.Parts[1].Schedule, j.Parts[1].Laminate, j.Schedules = "d2.toml", "", map[string]*laminate.Schedule{"d2.toml": &s}
	})
	if c, want := outside(t, filed, "D2"), bears(t, "D2", whole); math.Abs(c.Capacity/want-1) > 1e-9 {
		t.Errorf("in a file of its own it bears %v, want %v", c.Capacity, want)
	}
	if w := filed.Wall(1); filed.With(1, w) != filed {
		t.Error("another job with what it has itself")
	}
}

// Of an end that nobody states it is not known what holds it: what does not hold as an
// endless tube is incomplete, and which end that is is said.
func TestLine_anOpenEndHoldsNothing(t *testing.T) {
	open := func(plies []laminate.Ply) *laminate.Job {
		return line(func(j *laminate.Job) {
			j.Parts[5].Flanged = laminate.Some(false)
			j.Laminates[0].Plies = walltest.Pipe(plies...).Plies
		})
	}
	for _, id := range []string{"D1", "T1", "D5"} {
		if c := outside(t, open(walltest.Mixed(2)), id); c.Answer != wall.Incomplete || !strings.Contains(c.Reason, "part D5 round at its free end") {
			t.Errorf("%s: %+v", id, c)
		}
		if c := outside(t, open(walltest.Mixed(8)), id); c.Answer != wall.Holds || !strings.Contains(c.Reason, "endless tube") {
			t.Errorf("%s, thick: %+v", id, c)
		}
	}
	// A schedule by itself has no joints, and what it says counts.
	s := walltest.Pipe(walltest.Mixed(2)...)
	s.Part, s.Service.Pressure, s.Service.Vacuum = line(nil).Parts[0].Part, quantity.New(0, psi), quantity.New(0.361, psi)
	c := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.ExternalPressure)
	if want := bears(t, "D1", inches(60)); math.Abs(c.Capacity/want-1) > 1e-9 {
		t.Errorf("a schedule: %+v, want %v", c, want)
	}
}

// A cone stands as a cylinder of (L/2)(1 + Ds/Dl) where a line of support is at each of
// its ends, and else is of the length that is free, as wide as at its large end (ASME VIII
// UG-33(f) and UG-28, from memory): 22.392/2·(1 + 24/36) = 18.66 in by itself.
func TestLine_aConeThatNothingHoldsIsOfItsRun(t *testing.T) {
	bare, held := outside(t, line(nil), "T1"), outside(t, line(func(j *laminate.Job) { bolt(j, 3); bolt(j, 4) }), "T1")
	if !strings.Contains(bare.Reason, "free length 26.87 ft") || bare.Answer != wall.Fails {
		t.Errorf("strapped: %+v", bare)
	}
	if !strings.Contains(held.Reason, "free length 18.66 in") && !strings.Contains(held.Reason, "free length 1.555 ft") || held.Answer != wall.Holds {
		t.Errorf("between flanges: %+v", held)
	}
	// A wall of t·cos α over the whole run, and the endless one falls with the cube of that.
	duct := bears(t, "D4", inches(322.392))
	if most, least := duct*math.Pow(math.Cos(15*math.Pi/180), 2.5)*1.001, duct*math.Pow(math.Cos(15*math.Pi/180), 3)*0.999; bare.Capacity > most || bare.Capacity < least {
		t.Errorf("strapped it bears %v, the duct beside it %v", bare.Capacity, duct)
	}
	// Its own rings hold it, and are asked for.
	ringed := line(func(j *laminate.Job) { j.Parts[4].StiffenerSpacing = inches(10) })
	r := walltest.Evaluate(ringed.Wall(4), wall.Options{})
	if c := walltest.Criterion(t, r, wall.ExternalPressure); c.Answer != wall.Holds || !r.Stiffeners.Known {
		t.Errorf("ringed: %+v, %+v", c, r.Stiffeners)
	}
	// Of a shell it is as free as that is.
	hopper := line(func(j *laminate.Job) {
		j.Parts, j.Joints = []laminate.JobPart{j.Parts[4], j.Parts[3]}, nil
		j.Parts[1].Form, j.Parts[1].Length = laminate.ShellCourse, inches(240)
	})
	if c, want := outside(t, hopper, "T1"), bears(t, "T1", inches(262.392)); math.Abs(c.Capacity/want-1) > 1e-5 {
		t.Errorf("of a shell it bears %v, want %v", c.Capacity, want)
	}
}
