package repeat_test

import (
	"math"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/laminate/wall/walltest"
)

// The least number holds, and one fewer does not.
func TestNeed_isTheLeastThatHolds(t *testing.T) {
	lib := catalog.Library()
	thinTank := walltest.Tank(walltest.Mixed(1)...)
	thinTank.Service.Pressure = quantity.New(1, quantity.PSI)
	vacuumPipe := walltest.Pipe()
	vacuumPipe.Service.Vacuum = quantity.New(7, quantity.PSI)
	vacuumPipe.Part.StiffenerSpacing = quantity.New(10, quantity.Foot)
	for _, c := range []struct {
		name string
		s    *laminate.Schedule
		unit repeat.Unit
	}{
		{"bare pipe of mat", walltest.Pipe(), repeat.Mat},
		{"bare pipe of mat and woven", walltest.Pipe(), repeat.MatAndWoven},
		{"pipe under vacuum", vacuumPipe, repeat.MatAndWoven},
		{"tank", thinTank, repeat.MatAndWoven},
		{"tank of mat", thinTank, repeat.Mat},
		{"wound pipe", walltest.WoundPipe(1), repeat.WoundCover},
		{"wound pipe, hoop and chop", walltest.WoundPipe(1), repeat.HoopAndChop},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.s.Service.Pressure = quantity.New(60, quantity.PSI)
			if c.s.Part.Form == laminate.Tank {
				c.s.Service.Pressure = quantity.New(1, quantity.PSI)
			}
			n, err := repeat.Need(c.s, lib, c.unit, wall.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if n.Repeats < 1 || n.Result.Answer() != wall.Holds || n.Governing.Name == "" {
				t.Fatalf("%d repeats, %v, governed by %+v", n.Repeats, n.Result.Answer(), n.Governing)
			}
			for _, f := range laminate.Validate(n.Apply(c.s, lib), lib) {
				t.Errorf("not a sound schedule: %+v", f)
			}
			fewer := n
			switch {
			case n.Plies[len(n.Plies)-1].Count > 1:
				fewer.Plies = append([]laminate.Ply(nil), n.Plies...)
				fewer.Plies[len(fewer.Plies)-1].Count--
			case len(n.Plies)%2 == 0 || n.Repeats > 1:
				fewer.Plies = n.Plies[:len(n.Plies)-2]
			default:
				fewer.Plies = nil
			}
			if r := walltest.Evaluate(fewer.Apply(c.s, lib), wall.Options{}); r.Answer() == wall.Holds {
				t.Errorf("%d repeats, and one fewer holds too", n.Repeats)
			}
		})
	}
}

func TestNeed_laysWhatASequenceAllows(t *testing.T) {
	lib := catalog.Library()
	s := walltest.Pipe()
	s.Plies = append(s.Plies, laminate.Ply{Material: catalog.VeilC15, Resin: "wall", Zone: laminate.OuterSurface, Count: 1})
	s.Service.Pressure = quantity.New(100, quantity.PSI)
	n, err := repeat.Need(s, lib, repeat.MatAndWoven, wall.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if n.Row != 2 || n.Plies[0].Material != catalog.Mat15 || n.Plies[1].Material != catalog.Woven24 || n.Plies[len(n.Plies)-1].Material != catalog.Mat15 {
		t.Errorf("at row %d: %+v", n.Row, n.Plies)
	}
	next := n.Apply(s, lib)
	if last := next.Plies[len(next.Plies)-1]; last.Zone != laminate.OuterSurface || len(s.Plies) != 3 {
		t.Errorf("the outer surface is not last, or the schedule itself was changed: %+v", next.Plies)
	}
	if len(n.Notes) == 0 {
		t.Error("materials were chosen without a word")
	}
	// What is there already sets the pattern.
	s = walltest.WoundPipe(1)
	s.Plies[3].Angle = laminate.Some(60.0)
	s.Service.Pressure = quantity.New(150, quantity.PSI)
	n, err = repeat.Need(s, lib, repeat.WoundCover, wall.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(n.Plies) != 1 || n.Plies[0].Angle.Value != 60 || n.Plies[0].Count != n.Repeats || n.Row != len(s.Plies) {
		t.Errorf("%+v at row %d", n.Plies, n.Row)
	}
}

func TestNeed_nothingWhereTheWallIsEnough(t *testing.T) {
	n, err := repeat.Need(walltest.Pipe(walltest.Mixed(6)...), catalog.Library(), repeat.MatAndWoven, wall.Options{})
	if err != nil || n.Repeats != 0 || len(n.Plies) != 0 || n.Governing.Name == "" || n.Result.Answer() != wall.Holds {
		t.Errorf("%+v, %v", n, err)
	}
}

func TestNeed_saysWhyItCannot(t *testing.T) {
	lib := catalog.Library()
	for _, c := range []struct {
		name   string
		change func(*laminate.Schedule)
		unit   repeat.Unit
		want   string
	}{
		{"a fact is missing", func(s *laminate.Schedule) { s.Part.InsideDiameter = quantity.Length{} }, repeat.Mat, "inside_diameter"},
		{"no resin", func(s *laminate.Schedule) { s.Resins = nil }, repeat.Mat, "no resin"},
		{"wound repeats in a wall that goes by the table", func(*laminate.Schedule) {}, repeat.WoundCover, "contact-molded"},
		{"no wall will do", func(s *laminate.Schedule) { s.Service.Pressure = quantity.New(3000, quantity.PSI) }, repeat.Mat, "inside radius"},
		{"no such unit", func(*laminate.Schedule) {}, repeat.NoUnit, "repeat unit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := walltest.Pipe(walltest.Mixed(1)...)
			s.Service.Pressure = quantity.New(300, quantity.PSI)
			c.change(s)
			if n, err := repeat.Need(s, lib, c.unit, wall.Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%d repeats, %v", n.Repeats, err)
			}
		})
	}
	if _, err := repeat.Need(nil, nil, repeat.Mat, wall.Options{}); err == nil {
		t.Error("no schedule, no error")
	}
}

func TestUnits_haveWords(t *testing.T) {
	for _, u := range repeat.Units.All() {
		if got, ok := repeat.Units.Parse(u.String()); !ok || got != u {
			t.Errorf("%v reads back as %v, %v", u, got, ok)
		}
	}
	if _, ok := repeat.Units.Parse(""); ok {
		t.Error("nothing reads as a unit")
	}
}

func TestCourses_needLessTowardTheTop(t *testing.T) {
	lib := catalog.Library()
	s := walltest.Tank(walltest.Mixed(2)...)
	s.Part.InsideDiameter = quantity.New(20, quantity.Foot)
	courses, err := repeat.Courses(s, lib, repeat.MatAndWoven, wall.Options{}, 0)
	if err != nil {
		t.Fatal(err)
	}
	// 18 ft of straight side in courses of 4 ft.
	if len(courses) != 5 || courses[0].Bottom != 0 || courses[4].Top != s.Part.Length.SI() {
		t.Fatalf("%d courses, the last up to %v", len(courses), courses[len(courses)-1].Top)
	}
	for i, c := range courses {
		if c.Result.Answer() != wall.Holds {
			t.Errorf("course %d: %v", i+1, c.Result.Answer())
		}
		if i > 0 && c.Repeats > courses[i-1].Repeats {
			t.Errorf("course %d needs more than the one below", i+1)
		}
		if want := max(0, s.Part.LiquidHeight.SI()-c.Bottom); math.Abs(c.Depth-want) > 1e-12 {
			t.Errorf("course %d lies %v m deep, want %v", i+1, c.Depth, want)
		}
	}
	if !(courses[0].Repeats > courses[4].Repeats) {
		t.Errorf("%d at the bottom, %d at the top", courses[0].Repeats, courses[4].Repeats)
	}
	// The bottom course is what the wall needs that has nothing yet.
	bare := walltest.Tank()
	bare.Part.InsideDiameter = quantity.New(20, quantity.Foot)
	n, err := repeat.Need(bare, lib, repeat.MatAndWoven, wall.Options{})
	if err != nil || n.Repeats != courses[0].Repeats {
		t.Errorf("%d repeats (%v), the bottom course has %d", n.Repeats, err, courses[0].Repeats)
	}
	if _, err := repeat.Courses(walltest.Pipe(), lib, repeat.Mat, wall.Options{}, 0); err == nil {
		t.Error("a pipe has courses")
	}
	if _, err := repeat.Courses(s, lib, repeat.Mat, wall.Options{}, 1e-6); err == nil {
		t.Error("millions of courses are listed")
	}
}
