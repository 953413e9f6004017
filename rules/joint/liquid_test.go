package joint_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
)

// hopper is a cone that hangs below a course and ends in a flange: 144 in of a liquid
// of 1.3 above the course's bottom.
func hopper() *laminate.Job {
	j := sound()
	j.Service.Pressure, j.Service.SpecificGravity = psi(0), laminate.Some(1.3)
	j.Vessel.LiquidHeight, j.Nozzles, j.Test = inches(144), nil, laminate.Test{}
	cone, course, f := j.Parts[0], j.Parts[0], laminate.JobPart{ID: "f", Laminate: "wall"}
	cone.ID, course.ID = "cone", "course"
	cone.Form, cone.InsideDiameter, cone.SmallDiameter, cone.HalfAngle, cone.Length = laminate.Cone, inches(96), inches(12), laminate.Some(30.0), quantity.Length{}
	course.Form, course.InsideDiameter, course.Length = laminate.ShellCourse, inches(96), inches(168)
	f.Form, f.InsideDiameter, f.PressureClass, f.Thickness = laminate.Flange, inches(12), psi(10), inches(1)
	j.Parts = []laminate.JobPart{cone, course, f}
	of := j.Joints[0]
	of.Between, of.Width, of.FirstWidth = [2]string{"cone", "course"}, inches(1), inches(0.5)
	end := of
	end.ID, end.Between = "K", [2]string{"f", "cone"}
	j.Joints = []laminate.Joint{of, end}
	return j
}

func criterion(t *testing.T, j *laminate.Job, part int, name string) *wall.Criterion {
	t.Helper()
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	i := slices.IndexFunc(r.Parts[part].Wall.Criteria, func(c wall.Criterion) bool { return c.Name == name })
	if i < 0 {
		t.Fatalf("part %d has no %s", part, name)
	}
	return &r.Parts[part].Wall.Criteria[i]
}

// A cone from 96 to 12 in at 30° is 42/tan 30° = 72.746 in high: 216.746 in of 1.3 times
// 0.036127 psi/in are 10.18 psi on the flange at its end, above its class of 10 psi.
func TestLiquid_pressesOnWhatAJointHangs(t *testing.T) {
	if c := criterion(t, hopper(), 2, wall.FlangeClass); math.Abs(c.Demand/quantity.New(1, quantity.PSI).SI()-10.18) > 0.005 || c.Answer != wall.Fails {
		t.Errorf("%s: %v Pa, %s", c.Name, c.Demand, c.Answer)
	}
	stated := hopper() // by the course alone
	stated.Vessel.LiquidHeight, stated.Parts[1].LiquidHeight = quantity.Length{}, inches(144)
	if c := criterion(t, stated, 2, wall.FlangeClass); math.Abs(c.Demand/quantity.New(1, quantity.PSI).SI()-10.18) > 0.005 || c.Answer != wall.Fails {
		t.Errorf("by the course: %s: %v Pa, %s", c.Name, c.Demand, c.Answer)
	}
	// A pipe of 60 in in its place ends 276.746 in under the liquid: 13.00 psi on it.
	j := hopper()
	p := &j.Parts[2]
	p.Form, p.Length, p.Process = laminate.Pipe, inches(60), laminate.ContactMolded
	p.PressureClass, p.Thickness = quantity.Pressure{}, quantity.Length{}
	if c := criterion(t, j, 2, wall.HoopStrength); c.Case != wall.CaseHead && c.Case != wall.CasePressureHead {
		t.Errorf("%s is judged under %q", c.Name, c.Case)
	}
	if s := j.Wall(2); math.Abs(s.Part.LiquidHeight.SI()-276.746*0.0254) > 1e-4 || !s.Part.Place.Hangs {
		t.Errorf("the pipe is %s under the liquid", s.Part.LiquidHeight.Text())
	}
}

// At the rim of the cone 144 in of the liquid are 6.763 psi, and what the cone holds
// below, 72.746/3·(1 + 1/8 + 1/64) = 27.66 in of it on its area, 1.299 psi: 8.06 psi pull,
// 195 lb/in on a strap of about 97 in, and not 164. At 200 psi it bonds 0.97 in.
func TestLiquid_inAHangingBottomPullsAtItsJoint(t *testing.T) {
	list, said := judged(hopper())
	if !slices.Contains(list, "break joint-shear-short") || !strings.Contains(said, "joint J: the strap bonds 0.44 in on each side, and 0.97 in are needed") {
		t.Errorf("%q\n%s", list, said)
	}
	// On its end, where a flange closes it, nothing hangs: 10.18 psi on 12.5 in are 32 lb/in.
	if strings.Contains(said, "joint K: the strap bonds") {
		t.Errorf("%s", said)
	}
	j := hopper()
	j.Parts[1].Ends = laminate.OpenEnds // says nothing of what the cone hangs from
	if _, said := judged(j); !strings.Contains(said, "0.97 in are needed") {
		t.Errorf("open ends:\n%s", said)
	}
}

func TestPartUnplaced(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*laminate.Job)
		want   string
	}{
		{"a joint holds it", func(*laminate.Job) {}, ""},
		{"nothing holds it", func(j *laminate.Job) { j.Joints = j.Joints[:1] }, "incomplete flange f: how deep the liquid stands over it is not known: no nozzle names it and no joint ties it to the shell"},
		{"it says how deep it is", func(j *laminate.Job) { j.Joints, j.Parts[2].LiquidHeight = j.Joints[:1], inches(0) }, ""},
		{"its own pressure", func(j *laminate.Job) { j.Joints, j.Parts[2].Pressure = j.Joints[:1], psi(3) }, "note flange f is figured for its own pressure alone"},
		{"no liquid", func(j *laminate.Job) { j.Joints, j.Vessel.LiquidHeight = j.Joints[:1], inches(0) }, ""},
		{"nobody says how deep", func(j *laminate.Job) { j.Vessel.LiquidHeight = quantity.Length{} }, "incomplete flange f: how deep the liquid stands over it is not known: the level of the liquid in the shell is not stated (vessel.liquid_height)"},
		{"nobody says how deep, its own pressure", func(j *laminate.Job) { j.Vessel.LiquidHeight, j.Parts[2].Pressure = quantity.Length{}, psi(3) }, "note flange f is figured for its own pressure alone"},
		{"the course says how deep", func(j *laminate.Job) { j.Vessel.LiquidHeight, j.Parts[1].LiquidHeight = quantity.Length{}, inches(144) }, ""},
		{"each part says that it is empty", func(j *laminate.Job) {
			j.Vessel.LiquidHeight, j.Parts[0].LiquidHeight, j.Parts[1].LiquidHeight, j.Joints = quantity.Length{}, inches(0), inches(0), j.Joints[:1]
		}, ""},
		{"a pipe by itself", func(j *laminate.Job) {
			j.Joints, j.Parts[2].Form, j.Parts[2].PressureClass, j.Parts[2].Thickness = j.Joints[:1], laminate.Pipe, quantity.Pressure{}, quantity.Length{}
		}, "incomplete pipe f: how deep"},
		{"a pipe of no length below", func(j *laminate.Job) {
			j.Parts[2].Form, j.Parts[2].PressureClass, j.Parts[2].Thickness = laminate.Pipe, quantity.Pressure{}, quantity.Length{}
		}, "how far part f reaches down is not stated (length)"},
	} {
		j := hopper()
		c.change(j)
		said := ""
		for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
			if f.Rule.ID == "part-unplaced" {
				said += f.Severity.String() + " " + f.Message + "\n"
			}
		}
		if c.want == "" && said != "" || !strings.Contains(said, c.want) {
			t.Errorf("%s: %q", c.name, said)
		}
	}
}

// A level of 0 says that the vessel holds nothing, contact with vapor alone that none is
// meant, and a cone between ducts is not asked for either.
func TestLiquid_isNotAskedOfWhatHoldsNone(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*laminate.Job)
		asks   bool
	}{
		"a vessel": {func(j *laminate.Job) { j.Vessel.LiquidHeight = quantity.Length{} }, true},
		"no level": {func(j *laminate.Job) { j.Vessel.LiquidHeight = inches(0) }, false},
		"vapor":    {func(j *laminate.Job) { j.Vessel.LiquidHeight, j.Service.Contact = quantity.Length{}, laminate.Vapor }, false},
		"ducts": {func(j *laminate.Job) {
			j.Vessel.LiquidHeight = quantity.Length{}
			j.Parts[1].Form, j.Parts[2].Form = laminate.Duct, laminate.Duct
		}, false},
	} {
		j := hopper()
		c.change(j)
		r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
		asks := slices.ContainsFunc(r.Parts[0].Wall.Unknown, func(u wall.UnknownLoad) bool { return u.Name == wall.CaseHead })
		_, said := judged(j)
		if asks != c.asks || strings.Contains(said, "how deep the liquid") != c.asks {
			t.Errorf("%s: asked %v\n%s", name, asks, said)
		}
		if faults := laminate.ValidateJob(j, catalog.Library()); name == "no level" && len(faults) > 0 && faults[0].Ref.Kind == laminate.RefVessel {
			t.Errorf("%v", faults)
		}
	}
}

// What hangs pulls on the courses above it as on the joint, 8.06 psi on their circle, on
// each alike, for the pressure falls upward as the liquid below grows; and on none that
// the vessel is held below. A bottom on its foundation pulls on nothing.
func TestLiquid_inAHangingBottomPullsAtEachCourse(t *testing.T) {
	j := hopper()
	upper := j.Parts[1]
	upper.ID, upper.Length, j.Parts[1].Length = "upper", inches(84), inches(84)
	j.Parts = append(j.Parts, upper)
	between := j.Joints[0]
	between.ID, between.Between = "L", [2]string{"course", "upper"}
	j.Joints = append(j.Joints, between)
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	axial := func(part int, name string) float64 {
		for _, c := range r.Parts[part].Wall.Cases {
			if c.Name == name {
				return c.NAxial * 2 / (48 * 0.0254) / quantity.New(1, quantity.PSI).SI()
			}
		}
		return math.NaN()
	}
	for _, part := range []int{1, 3} { // spread over the middle of the plies, about 48.5 in
		if got, below := axial(part, wall.CaseHead), axial(part, wall.CaseHead+", held below"); math.Abs(got-8.06*48/48.4) > 0.06 || below != 0 {
			t.Errorf("course %d: %.3f psi pull, held below %.3f", part, got, below)
		}
	}
	if _, said := judged(j); !strings.Contains(said, "joint L: the strap bonds 0.44 in on each side, and 0.97 in are needed") {
		t.Errorf("%s", said)
	}
	// The same hangs from a course that the liquid does not reach, held at its top.
	full := j.Vessel.LiquidHeight
	j.Vessel.LiquidHeight = inches(84)
	r = rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	dry := axial(3, wall.CaseHead)
	if wet := axial(1, wall.CaseHead); !(dry > 0) || dry != wet || axial(3, wall.CaseHead+", held below") != 0 {
		t.Errorf("dry course %.3f psi pull, wet %.3f", dry, wet)
	}
	for _, c := range r.Parts[3].Wall.Cases {
		if c.NHoop != 0 {
			t.Errorf("%s: %g N/m round a dry course", c.Name, c.NHoop)
		}
	}
	gravity := j.Service.SpecificGravity
	j.Service.SpecificGravity = laminate.Optional[float64]{}
	r = rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	if !slices.ContainsFunc(r.Parts[3].Wall.Unknown, func(u wall.UnknownLoad) bool { return strings.HasPrefix(u.Reason, "the specific gravity") }) {
		t.Errorf("a liquid of no weight: %+v", r.Parts[3].Wall.Unknown)
	}
	j.Service.SpecificGravity, j.Vessel.LiquidHeight = gravity, inches(0)
	r = rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	if got := axial(3, wall.CaseHead); got > 0 {
		t.Errorf("an empty vessel: %.3f psi pull", got)
	}
	j.Vessel.LiquidHeight = full
	j.Parts[0].InsideDiameter = quantity.Length{}
	r = rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	if !slices.ContainsFunc(r.Parts[1].Wall.Unknown, func(u wall.UnknownLoad) bool { return strings.HasPrefix(u.Reason, "how much liquid hangs") }) {
		t.Errorf("a cone of no size: %+v", r.Parts[1].Wall.Unknown)
	}
	flat := &j.Parts[0]
	flat.Form, flat.InsideDiameter, flat.Supported = laminate.FlatBottom, inches(96), laminate.Some(true)
	r = rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	if got := axial(1, wall.CaseHead); got != 0 {
		t.Errorf("over a foundation %.3f psi pull", got)
	}
}

// What the fill of a test pulls along is the water over and in the hanging bottom, whatever
// presses on a course: 84 + 27.66 in of it on a course that no liquid reaches, where 12 + 27.66 in
// of 1.3 times its weight do in service.
func TestLiquid_ofATestPullsAtEachCourse(t *testing.T) {
	j := hopper()
	upper := j.Parts[1]
	upper.ID, upper.Length, j.Parts[1].Length = "upper", inches(84), inches(84)
	upper.DesignBasis, upper.ModulusRetention = laminate.StrainLimit, laminate.Some(0.25)
	j.Parts, j.Vessel.LiquidHeight = append(j.Parts, upper), inches(12)
	j.Test = laminate.Test{Medium: laminate.TestWater, Pressure: psi(0), LiquidHeight: inches(84)}
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	service := math.NaN()
	for _, c := range r.Parts[3].Wall.Criteria {
		if c.Name == wall.AxialStrain {
			service = c.Ratio
		}
	}
	want := "the test puts the pull of what hangs below on it, " + quantity.Utilization(service*(84+27.663)/(12+27.663)/1.3) + " of what its axial strain allows of such a fill"
	if _, said := judged(j); !(service < 1) || !strings.Contains(said, "part upper: "+want) {
		t.Errorf("%.3f in service, want %q:\n%s", service, want, said)
	}
}

// By the strength table the same course is judged by its strength along the axis, and a fill
// that it bears says nothing of it; nor does one that loads no more than the empty vessel.
func TestLiquid_ofATestPullsByTheStrengthTable(t *testing.T) {
	for name, c := range map[string]struct {
		level, keeps float64
		basis        laminate.DesignBasis
		says         string
	}{
		// Water over and in the bottom, 84 + 27.66 in, pull 4.03·96/4 = 97 lb/in on 0.122 in
		// of mat, 793 psi against 900·0.25 = 225 (NBS PS 15-69, from memory).
		"more than it bears": {84, 0.25, laminate.StrengthTable, "part upper: the test puts the pull of what hangs below on it, 352 % of what its axial strength allows of such a fill"},
		"less":               {84, 1, laminate.StrengthTable, ""},
		"no basis":           {84, 1, laminate.UnitLoad, "part upper: how far the test strains it cannot be determined: with the fill of the test unit load cannot be determined: the five partial factors are not given (k_factors)"},
	} {
		j := hopper()
		upper := j.Parts[1]
		upper.ID, upper.Length, j.Parts[1].Length = "upper", inches(84), inches(84)
		upper.DesignBasis, upper.ModulusRetention = c.basis, laminate.Some(c.keeps)
		j.Parts, j.Vessel.LiquidHeight = append(j.Parts, upper), inches(12)
		j.Test = laminate.Test{Medium: laminate.TestWater, Pressure: psi(0), LiquidHeight: inches(c.level)}
		_, said := judged(j)
		if c.says == "" && strings.Contains(said, "part upper: ") && !strings.Contains(said, "part upper: what the test proves") || !strings.Contains(said, c.says) {
			t.Errorf("%s: want %q:\n%s", name, c.says, said)
		}
	}
}

// A flange that closes a shell below hangs from it as a bottom does: 168 in of 1.3 times
// 0.036127 psi/in press on it, 7.89 psi, and pull on each course, whatever is said of its ends.
func TestLiquid_onAFlangeBelowPullsAtEachCourse(t *testing.T) {
	for name, n := range map[string]int{"two courses": 2, "one course": 1} {
		j := hopper()
		course, f := j.Parts[1], j.Parts[2]
		f.ID, f.Size = "f", inches(96)
		course.Length, course.Ends = inches(168/float64(n)), laminate.OpenEnds
		j.Parts, j.Vessel = []laminate.JobPart{f}, laminate.Vessel{LiquidHeight: inches(168), Rim: "ring"}
		j.Joints = j.Joints[:1]
		j.Joints[0].Between = [2]string{"f", "c0"}
		for i := range n {
			c := course
			c.ID = fmt.Sprint("c", i)
			j.Parts = append(j.Parts, c)
		}
		r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
		for i := 1; i <= n; i++ {
			pull := math.NaN()
			for _, c := range r.Parts[i].Wall.Cases {
				if c.Name == wall.CaseHead {
					pull = c.NAxial * 2 / (48 * 0.0254) / quantity.New(1, quantity.PSI).SI()
				}
			}
			if math.Abs(pull-7.89*48/48.4) > 0.06 {
				t.Errorf("%s: course %d: %.3f psi pull", name, i, pull)
			}
		}
	}
}
