package wall_test

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

// hung is a course of 72 in across that no liquid reaches, with a depth in feet of water
// pulling on its circle from below.
func hung(depth float64, structure ...laminate.Ply) *laminate.Schedule {
	s := walltest.Pipe(structure...)
	s.Part.Form, s.Part.InsideDiameter, s.Part.LiquidHeight = laminate.ShellCourse, inches(72), inches(0)
	s.Part.Place = laminate.Place{Hangs: true, Pull: quantity.New(depth, ft)}
	s.Service.Pressure, s.Service.SpecificGravity = quantity.New(0, psi), laminate.Some(1.0)
	return s
}

func inPSI(pa float64) float64 { return pa / quantity.New(1, psi).SI() }

// structureOf is the thickness of a wall's structure in inches.
func structureOf(s *laminate.Schedule) float64 {
	return laminate.Analyze(s, catalog.Library()).Zones[laminate.StructuralLayer].Thickness / 0.0254
}

// Statics and the table of NBS PS 15-69 (from memory): 40 ft of water, 0.4335 psi a foot,
// pull p·D/4 = 17.34·72/4 = 312 lb/in on the structure alone; a wall all of mat has
// 9,000 psi, of which a tenth may be used, and warm the share that it keeps.
func TestAxialStrength_ofACourseThatABottomHangsFrom(t *testing.T) {
	for name, c := range map[string]struct {
		structure []laminate.Ply
		strength  float64 // psi, by the table at its thickness
		kept      float64
	}{
		"four mats":       {[]laminate.Ply{walltest.Ply(catalog.Mat15, 4)}, 9000, 1},
		"nine mats, warm": {[]laminate.Ply{walltest.Ply(catalog.Mat15, 9)}, 9000, 0.75},
		"woven, 0.36 in":  {walltest.Mixed(4), 13500, 1},
	} {
		s := hung(40, c.structure...)
		if c.kept < 1 {
			s.Service.Temperature, s.Part.ModulusRetention = quantity.New(150, degF), laminate.Some(c.kept)
		}
		got := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.AxialStrength)
		thick := structureOf(s)
		// Spread over the middle of the structure, some 0.3 in out: p R²/(2 Rm).
		demand, capacity := 40*0.4335*72/4/thick, c.strength/10*c.kept
		if !got.Governs || got.Case != wall.CaseHead || math.Abs(inPSI(got.Demand)/demand-1) > 0.012 || math.Abs(inPSI(got.Capacity)/capacity-1) > 1e-9 || (got.Answer == wall.Fails) != (demand > capacity) {
			t.Errorf("%s: %+v; by hand %.0f psi against %.0f", name, got, demand, capacity)
		}
	}
	// What the table does not know cannot be determined, and is not passed over.
	s := hung(40, walltest.Ply(catalog.Mat15, 1), walltest.Wound(catalog.BandHoop, 89, 6))
	if got := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.AxialStrength); got.Answer != wall.Incomplete || !strings.Contains(got.Reason, "strength table") {
		t.Errorf("wound: %+v", got)
	}
}

// The thrust of closed ends is half of the load round, and the table's thickness has it in
// it: nothing is said of a pipe, a tank or a head; nor where another basis decides.
func TestAxialStrength_isAskedWhereMorePullsThanTheThrust(t *testing.T) {
	head := part(laminate.HeadPart, func(s *laminate.Schedule) { s.Part.Head = laminate.Hemispherical })
	strain := hung(40, walltest.Mixed(4)...)
	strain.Part.DesignBasis = laminate.StrainLimit
	for name, s := range map[string]*laminate.Schedule{"a pipe": walltest.Pipe(walltest.Ply(catalog.Mat15, 2)), "a tank": walltest.Tank(walltest.Mixed(4)...), "a head": head, "strain": strain, "nothing hangs": hung(0, walltest.Mixed(4)...)} {
		for _, c := range walltest.Evaluate(s, wall.Options{}).Criteria {
			if c.Name == wall.AxialStrength {
				t.Errorf("%s: %+v", name, c)
			}
		}
	}
}

// What a joint states along the axis comes on top of the thrust of the pressure, and is a
// load of its own where nothing presses: statics. A pull takes strain off the hoop, so
// the load without it is judged beside it.
func TestAxialLoad_ofAJointPullsAtTheWall(t *testing.T) {
	const pound = 4.4482216152605 / 0.0254 // N/m
	s := walltest.Pipe(walltest.Mixed(4)...)
	s.Part.Place.Axial = 800 * pound
	r := walltest.Evaluate(s, wall.Options{})
	got, thick := walltest.Criterion(t, r, wall.AxialStrength), structureOf(s)
	demand := (800 + 50*12/4) / thick // p D/4
	if math.Abs(inPSI(got.Demand)/demand-1) > 0.01 || got.Answer != wall.Fails || !strings.Contains(got.Case, "axial load") {
		t.Errorf("%+v; by hand %.0f psi", got, demand)
	}
	alone := *s
	alone.Service.Pressure, alone.Part.DesignBasis = quantity.New(0, psi), laminate.StrainLimit
	of := walltest.Criterion(t, walltest.Evaluate(&alone, wall.Options{}), wall.AxialStrain)
	m := walltest.Evaluate(&alone, wall.Options{}).Membrane
	if want := 800 * pound / (m.Ex * thick * 0.0254); math.Abs(of.Demand/want-1) > 1e-9 || of.Case != wall.CaseAxial {
		t.Errorf("%+v, by N/(E t) %v", of, want)
	}
	relieved := *s
	relieved.Part.DesignBasis, relieved.Part.Place.Axial = laminate.StrainLimit, 100*pound
	plain := relieved
	plain.Part.Place.Axial = 0
	with, without := walltest.Criterion(t, walltest.Evaluate(&relieved, wall.Options{}), wall.HoopStrain), walltest.Criterion(t, walltest.Evaluate(&plain, wall.Options{}), wall.HoopStrain)
	if with.Demand != without.Demand {
		t.Errorf("hoop strain %v with the load, %v without", with.Demand, without.Demand)
	}
}

// By unit loads of BS 4994 (second-hand) a dry course bears what hangs from it as well:
// nothing presses round it, and the load along is judged all the same.
func TestUnitLoad_ofADryCourse(t *testing.T) {
	s := hung(40, walltest.Mixed(4)...)
	s.Part.DesignBasis, s.Part.KFactors = laminate.UnitLoad, laminate.KFactors{Values: [5]float64{1.5, 1.2, 1.1, 1.1, 1.5}, Given: true}
	c := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.UnitLoad)
	if want := 40 * 0.4335 * 72 / 4 * 4.4482216152605 / 0.0254; !c.Judged() || math.Abs(c.Demand/want-1) > 0.012 || !strings.HasPrefix(c.Reason, "along the axis") {
		t.Errorf("%+v, by hand %.0f N/m", c, want)
	}
}

// What is needed counts what pulls along: 40 ft of water on mats of 900 psi need 0.347 in.
func TestNeed_ofWhatHangs(t *testing.T) {
	s := hung(40, walltest.Ply(catalog.Mat15, 2))
	n, err := repeat.Need(s, catalog.Library(), repeat.Mat, wall.Options{})
	if err != nil {
		t.Fatal(err)
	}
	after, before := structureOf(n.Apply(s, catalog.Library())), structureOf(s)
	one := before / 2
	if n.Governing.Name != wall.AxialStrength || after < 0.342 || after-one >= 0.347 {
		t.Errorf("%d mats after %s: %.3f in", n.Repeats, n.Governing.Name, after)
	}
}
