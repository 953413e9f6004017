package wall_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

// The least number holds, and one fewer does not.
func TestNeed_isTheLeastThatHolds(t *testing.T) {
	lib := catalog.Library()
	thinTank := tank(mixed(1)...)
	thinTank.Service.Pressure = quantity.New(1, psi)
	vacuumPipe := pipe()
	vacuumPipe.Service.Vacuum = quantity.New(7, psi)
	vacuumPipe.Part.StiffenerSpacing = quantity.New(10, ft)
	for _, c := range []struct {
		name string
		s    *laminate.Schedule
		unit wall.RepeatUnit
	}{
		{"bare pipe of mat", pipe(), wall.Mat},
		{"bare pipe of mat and woven", pipe(), wall.MatAndWoven},
		{"pipe under vacuum", vacuumPipe, wall.MatAndWoven},
		{"tank", thinTank, wall.MatAndWoven},
		{"tank of mat", thinTank, wall.Mat},
		{"wound pipe", woundPipe(1), wall.WoundCover},
		{"wound pipe, hoop and chop", woundPipe(1), wall.HoopAndChop},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.s.Service.Pressure = quantity.New(60, psi)
			if c.s.Part.Form == laminate.Tank {
				c.s.Service.Pressure = quantity.New(1, psi)
			}
			n, err := wall.Need(c.s, lib, c.unit, wall.Options{})
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
			if r := evaluate(fewer.Apply(c.s, lib), wall.Options{}); r.Answer() == wall.Holds {
				t.Errorf("%d repeats, and one fewer holds too", n.Repeats)
			}
		})
	}
}

func TestNeed_laysWhatASequenceAllows(t *testing.T) {
	lib := catalog.Library()
	s := pipe()
	s.Plies = append(s.Plies, laminate.Ply{Material: catalog.VeilC15, Resin: "wall", Zone: laminate.OuterSurface, Count: 1})
	s.Service.Pressure = quantity.New(100, psi)
	n, err := wall.Need(s, lib, wall.MatAndWoven, wall.Options{})
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
	s = woundPipe(1)
	s.Plies[3].Angle = laminate.Some(60.0)
	s.Service.Pressure = quantity.New(150, psi)
	n, err = wall.Need(s, lib, wall.WoundCover, wall.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(n.Plies) != 1 || n.Plies[0].Angle.Value != 60 || n.Plies[0].Count != n.Repeats || n.Row != len(s.Plies) {
		t.Errorf("%+v at row %d", n.Plies, n.Row)
	}
}

func TestNeed_nothingWhereTheWallIsEnough(t *testing.T) {
	n, err := wall.Need(pipe(mixed(6)...), catalog.Library(), wall.MatAndWoven, wall.Options{})
	if err != nil || n.Repeats != 0 || len(n.Plies) != 0 || n.Governing.Name == "" || n.Result.Answer() != wall.Holds {
		t.Errorf("%+v, %v", n, err)
	}
}

func TestNeed_saysWhyItCannot(t *testing.T) {
	lib := catalog.Library()
	for _, c := range []struct {
		name   string
		change func(*laminate.Schedule)
		unit   wall.RepeatUnit
		want   string
	}{
		{"a fact is missing", func(s *laminate.Schedule) { s.Part.InsideDiameter = quantity.Length{} }, wall.Mat, "inside_diameter"},
		{"no resin", func(s *laminate.Schedule) { s.Resins = nil }, wall.Mat, "no resin"},
		{"wound repeats in a wall that goes by the table", func(*laminate.Schedule) {}, wall.WoundCover, "contact-molded"},
		{"no wall will do", func(s *laminate.Schedule) { s.Service.Pressure = quantity.New(3000, psi) }, wall.Mat, "inside radius"},
		{"no such unit", func(*laminate.Schedule) {}, wall.NoUnit, "repeat unit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := pipe(mixed(1)...)
			s.Service.Pressure = quantity.New(300, psi)
			c.change(s)
			if n, err := wall.Need(s, lib, c.unit, wall.Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%d repeats, %v", n.Repeats, err)
			}
		})
	}
	if _, err := wall.Need(nil, nil, wall.Mat, wall.Options{}); err == nil {
		t.Error("no schedule, no error")
	}
}

func TestUnits_haveWords(t *testing.T) {
	for _, u := range wall.Units.All() {
		if got, ok := wall.Units.Parse(u.String()); !ok || got != u {
			t.Errorf("%v reads back as %v, %v", u, got, ok)
		}
	}
	if _, ok := wall.Units.Parse(""); ok {
		t.Error("nothing reads as a unit")
	}
}

func TestCourses_needLessTowardTheTop(t *testing.T) {
	lib := catalog.Library()
	s := tank(mixed(2)...)
	s.Part.InsideDiameter = quantity.New(20, ft)
	courses, err := wall.Courses(s, lib, wall.MatAndWoven, wall.Options{}, 0)
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
		near(t, "depth", c.Depth, max(0, s.Part.LiquidHeight.SI()-c.Bottom), 1e-12)
	}
	if !(courses[0].Repeats > courses[4].Repeats) {
		t.Errorf("%d at the bottom, %d at the top", courses[0].Repeats, courses[4].Repeats)
	}
	// The bottom course is what the wall needs that has nothing yet.
	bare := tank()
	bare.Part.InsideDiameter = quantity.New(20, ft)
	n, err := wall.Need(bare, lib, wall.MatAndWoven, wall.Options{})
	if err != nil || n.Repeats != courses[0].Repeats {
		t.Errorf("%d repeats (%v), the bottom course has %d", n.Repeats, err, courses[0].Repeats)
	}
	if _, err := wall.Courses(pipe(), lib, wall.Mat, wall.Options{}, 0); err == nil {
		t.Error("a pipe has courses")
	}
	if _, err := wall.Courses(s, lib, wall.Mat, wall.Options{}, 1e-6); err == nil {
		t.Error("millions of courses are listed")
	}
}
