package wall_test

import (
	"math"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
)

func TestEvaluate_theDesignBasisDecides(t *testing.T) {
	always := []string{wall.MinimumModulus, wall.MinimumThickness}
	for _, c := range []struct {
		name    string
		process laminate.Process
		basis   laminate.DesignBasis
		want    []string
	}{
		{"contact", laminate.ContactMolded, laminate.NoBasis, []string{wall.HoopStrength}},
		{"wound", laminate.Wound, laminate.NoBasis, []string{wall.HoopStrain, wall.AxialStrain, wall.ResinStrain}},
		{"stated", laminate.Wound, laminate.UnitLoad, []string{wall.UnitLoad}},
		{"nobody says", laminate.NoProcess, laminate.NoBasis, []string{wall.WhichBasis}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := walltest.Pipe(walltest.Mixed(3)...)
			s.Part.Process, s.Part.DesignBasis = c.process, c.basis
			r := walltest.Evaluate(s, wall.Options{})
			want := map[string]bool{}
			for _, name := range append(always, c.want...) {
				want[name] = true
			}
			for _, k := range r.Criteria {
				if k.Name != wall.ExternalPressure && k.Governs != want[k.Name] {
					t.Errorf("%s decides: %v", k.Name, k.Governs)
				}
				delete(want, k.Name)
			}
			if len(want) > 0 {
				t.Errorf("missing: %v", want)
			}
			if c.basis == laminate.NoBasis && c.process == laminate.NoProcess && r.Answer() != wall.Incomplete {
				t.Errorf("nobody says what decides, and the answer is %v", r.Answer())
			}
		})
	}
}

// Every missing fact is told by the key that would settle it.
func TestEvaluate_namesTheKeyThatIsMissing(t *testing.T) {
	vacuum := quantity.New(1, psi)
	for _, c := range []struct {
		name      string
		s         *laminate.Schedule
		change    func(*laminate.Schedule)
		criterion string
		key       string
	}{
		{"diameter", walltest.Pipe(walltest.Mixed(3)...), func(s *laminate.Schedule) { s.Part.InsideDiameter = quantity.Length{} }, wall.HoopStrength, "inside_diameter"},
		{"liquid height", walltest.Tank(walltest.Mixed(3)...), func(s *laminate.Schedule) { s.Part.LiquidHeight = quantity.Length{} }, wall.HoopStrain, "liquid_height"},
		{"specific gravity", walltest.Tank(walltest.Mixed(3)...), func(s *laminate.Schedule) { s.Service.SpecificGravity = laminate.Optional[float64]{} }, wall.HoopStrain, "specific_gravity"},
		{"partial factors", walltest.Pipe(walltest.Mixed(3)...), func(s *laminate.Schedule) { s.Part.DesignBasis = laminate.UnitLoad }, wall.UnitLoad, "k_factors"},
		{"pressure", walltest.Pipe(walltest.Mixed(3)...), func(s *laminate.Schedule) { s.Service.Pressure = quantity.Pressure{} }, wall.HoopStrength, "pressure"},
		{"vacuum", walltest.Pipe(walltest.Mixed(3)...), func(s *laminate.Schedule) { s.Service.Vacuum = quantity.Pressure{} }, wall.ExternalPressure, "vacuum"},
		{"stiffener spacing", walltest.Pipe(walltest.Mixed(1)...), func(s *laminate.Schedule) { s.Service.Vacuum = quantity.New(14, psi) }, wall.ExternalPressure, "stiffener_spacing"},
		{"warm wall", walltest.WoundPipe(4), func(s *laminate.Schedule) { s.Service.Upset = quantity.New(121, degF) }, wall.HoopStrain, "modulus_retention"},
		{"warm vacuum", walltest.WoundPipe(4), func(s *laminate.Schedule) {
			s.Service.Vacuum, s.Service.Upset = vacuum, quantity.New(121, degF)
		}, wall.ExternalPressure, "modulus_retention"},
		{"process", walltest.Pipe(walltest.Mixed(3)...), func(s *laminate.Schedule) { s.Part.Process = laminate.NoProcess }, wall.WhichBasis, "process"},
		{"angle", walltest.WoundPipe(4), func(s *laminate.Schedule) { s.Plies[3].Angle = laminate.Optional[float64]{} }, wall.HoopStrain, "angle"},
		{"resin", walltest.WoundPipe(4), func(s *laminate.Schedule) { s.Plies[3].Resin = "" }, wall.HoopStrain, "resin"},
		{"failure strain", walltest.WoundPipe(4), func(s *laminate.Schedule) {
			s.Resins[1].Family, s.Resins[1].Modulus, s.Resins[1].Poisson = laminate.NoFamily, quantity.New(3.2, quantity.Gigapascal), laminate.Some(0.36)
			s.Resins[1].Density = quantity.New(1150, quantity.KilogramPerCubicMeter)
		}, wall.ResinStrain, "failure_strain"},
		{"resin modulus", walltest.WoundPipe(4), func(s *laminate.Schedule) {
			s.Resins[1].Family, s.Resins[1].Density = laminate.NoFamily, quantity.New(1150, quantity.KilogramPerCubicMeter)
		}, wall.HoopStrain, "modulus"},
		{"flat panel", walltest.Pipe(walltest.Mixed(3)...), func(s *laminate.Schedule) { s.Part.Form = laminate.Panel }, wall.PlateStress, "width"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.change(c.s)
			k := walltest.Criterion(t, walltest.Evaluate(c.s, wall.Options{}), c.criterion)
			if k.Answer != wall.Incomplete || !strings.Contains(k.Reason, c.key) || k.Ratio != 0 {
				t.Errorf("%+v, want it open for %s", k, c.key)
			}
		})
	}
}

// A riser's liquid presses on it as a tank's does.
func TestEvaluate_aHeadCountsOnEveryForm(t *testing.T) {
	for _, form := range []laminate.PartForm{laminate.Pipe, laminate.Duct, laminate.NoPartForm, laminate.Tank} {
		s := walltest.Pipe(walltest.Mixed(3)...)
		s.Part.Form, s.Part.LiquidHeight, s.Service.SpecificGravity = form, quantity.New(60, ft), laminate.Some(1.5)
		s.Service.Pressure = quantity.New(0, psi)
		r := walltest.Evaluate(s, wall.Options{})
		// 60 ft of water at 0.4335 psi a foot, times 1.5, on a radius of 6 in; by hand.
		published.Near(t, form.String()+": head, psi", quantity.New(loadCase(t, r, wall.CaseHead).NHoop/(6*0.0254), quantity.Pascal).In(psi), 39.0, 0.05)
		s.Service.SpecificGravity = laminate.Optional[float64]{}
		if k := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.HoopStrength); k.Answer != wall.Incomplete {
			t.Errorf("%s: a liquid of unknown gravity: %+v", form, k)
		}
	}
}

// The least modulus is a figure of the laminate as it is tested, cold.
func TestEvaluate_minimumModulusIsCold(t *testing.T) {
	s := walltest.WoundPipe(4)
	cold := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.MinimumModulus)
	s.Service.Upset = quantity.New(300, degF)
	open := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.MinimumModulus)
	s.Part.ModulusRetention = laminate.Some(0.5)
	warm := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.MinimumModulus)
	if open.Answer != wall.Holds || warm.Answer != wall.Holds {
		t.Fatalf("%+v, %+v", open, warm)
	}
	published.Near(t, "without a retention", open.Ratio, cold.Ratio, 1e-9)
	published.Near(t, "with one", warm.Ratio, cold.Ratio, 1e-9)
}

func TestEvaluate_whatDoesNotApplySaysWhy(t *testing.T) {
	s := walltest.Pipe(walltest.Mixed(3)...)
	s.Service.Pressure = quantity.New(0, psi)
	r := walltest.Evaluate(s, wall.Options{})
	for _, name := range []string{wall.HoopStrain, wall.HoopStrength, wall.UnitLoad, wall.ExternalPressure} {
		if k := walltest.Criterion(t, r, name); k.Answer != wall.NotApplicable || k.Reason == "" {
			t.Errorf("%+v", k)
		}
	}
	if r.Loaded || r.Answer() != wall.Holds {
		t.Errorf("loaded %v, %v", r.Loaded, r.Answer())
	}
	if k := walltest.Criterion(t, walltest.Evaluate(walltest.WoundPipe(4), wall.Options{}), wall.HoopStrength); k.Answer != wall.NotApplicable || !strings.Contains(k.Reason, "roving-band") {
		t.Errorf("strength table of a wound wall: %+v", k)
	}
	s = walltest.WoundPipe(4)
	s.Part.DesignBasis = laminate.StrengthTable
	if k := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.HoopStrength); k.Answer != wall.Incomplete {
		t.Errorf("a strength table that decides on a wound wall: %+v", k)
	}
}

func TestEvaluate_endsUnknownTakesTheWorse(t *testing.T) {
	of := func(ends laminate.Ends) (hoop, axial wall.Criterion) {
		s := walltest.WoundPipe(3)
		s.Part.Ends = ends
		r := walltest.Evaluate(s, wall.Options{})
		return walltest.Criterion(t, r, wall.HoopStrain), walltest.Criterion(t, r, wall.AxialStrain)
	}
	closedHoop, closedAxial := of(laminate.ClosedEnds)
	openHoop, openAxial := of(laminate.OpenEnds)
	hoop, axial := of(laminate.NoEnds)
	published.Near(t, "hoop", hoop.Ratio, math.Max(closedHoop.Ratio, openHoop.Ratio), 0)
	published.Near(t, "axial", axial.Ratio, math.Max(closedAxial.Ratio, openAxial.Ratio), 0)
	if !(openHoop.Ratio > closedHoop.Ratio) {
		t.Errorf("end thrust does not relieve the hoop: %v, %v", openHoop.Ratio, closedHoop.Ratio)
	}
}

func TestEvaluate_warmthLeavesTheShareGiven(t *testing.T) {
	s := walltest.WoundPipe(4)
	cold := walltest.Evaluate(s, wall.Options{})
	s.Service.Upset = quantity.New(180, degF)
	s.Part.ModulusRetention = laminate.Some(0.8)
	warm := walltest.Evaluate(s, wall.Options{})
	published.Near(t, "hoop modulus kept", warm.Membrane.Ey/cold.Membrane.Ey, 0.8, 1e-9)
	published.Near(t, "strain grown", walltest.Criterion(t, warm, wall.HoopStrain).Demand/walltest.Criterion(t, cold, wall.HoopStrain).Demand, 1/0.8, 1e-9)
	s.Part.ModulusRetention = laminate.Optional[float64]{}
	if k := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.MinimumThickness); k.Answer != wall.Holds {
		t.Errorf("the least wall rests on no modulus: %+v", k)
	}
	s.Service.Upset = quantity.New(120, degF)
	if k := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.HoopStrain); k.Answer != wall.Holds && k.Answer != wall.Fails {
		t.Errorf("120 °F is not above 120 °F: %+v", k)
	}
}

func TestEvaluate_countsTheBarrierOnlyWhereAsked(t *testing.T) {
	s := walltest.Pipe(walltest.Mixed(2)...)
	s.Plies = append(s.Plies, laminate.Ply{Material: catalog.VeilC15, Resin: "wall", Zone: laminate.OuterSurface, Count: 1})
	lib := catalog.Library()
	a := laminate.Analyze(s, lib)
	without, with := walltest.Evaluate(s, wall.Options{}), walltest.Evaluate(s, wall.Options{CountBarrier: true})
	published.Near(t, "structure", without.Thickness, a.Zones[laminate.StructuralLayer].Thickness, 1e-15)
	published.Near(t, "with barrier", with.Thickness, without.Thickness+a.Barrier.Thickness, 1e-15)
	if !(with.A[1][1] > without.A[1][1]) || with.Counted != without.Counted+2 {
		t.Errorf("A22 %v and %v, %d and %d rows", with.A[1][1], without.A[1][1], with.Counted, without.Counted)
	}
	first := without.Plies()[0]
	published.Near(t, "where the structure begins", first.Bottom, a.Barrier.Thickness, 1e-15)
}

func TestEvaluate_casesOfATank(t *testing.T) {
	s := walltest.Tank(walltest.Mixed(6)...)
	s.Service.Pressure = quantity.New(1, psi)
	s.Service.Vacuum = quantity.New(0.5, psi)
	s.Service.TestPressure = quantity.New(2, psi)
	r := walltest.Evaluate(s, wall.Options{})
	p, h, both := loadCase(t, r, wall.CasePressure), loadCase(t, r, wall.CaseHead), loadCase(t, r, wall.CasePressureHead)
	published.Near(t, "pressure and head", both.NHoop, p.NHoop+h.NHoop, 1e-6)
	published.Near(t, "end thrust of pressure alone", both.NAxial, p.NAxial, 1e-6)
	published.Near(t, "end thrust of a head", h.NAxial, 0, 0)
	test, vacuum := loadCase(t, r, wall.CaseTest), loadCase(t, r, wall.CaseVacuum)
	if test.Judged || !(test.NHoop > 0) || !(vacuum.NHoop < 0) || !(vacuum.NAxial < 0) {
		t.Errorf("test %+v, vacuum %+v", test, vacuum)
	}
	// Half way down is half the head; deeper than the bottom is the bottom.
	half := walltest.Evaluate(s, wall.Options{Depth: quantity.New(8, ft).SI()})
	published.Near(t, "half the head", loadCase(t, half, wall.CaseHead).NHoop, h.NHoop/2, 1e-6)
	deep := walltest.Evaluate(s, wall.Options{Depth: 1000})
	published.Near(t, "below the bottom", loadCase(t, deep, wall.CaseHead).NHoop, h.NHoop, 1e-6)
}

func TestEvaluate_outsidePressureNamesItsFormula(t *testing.T) {
	s := walltest.Pipe(walltest.Mixed(2)...)
	s.Service.Pressure, s.Service.Vacuum = quantity.New(0, psi), quantity.New(1, psi)
	capacity := func(spacing quantity.Length) (wall.Criterion, *wall.Result) {
		s.Part.StiffenerSpacing = spacing
		r := walltest.Evaluate(s, wall.Options{})
		return walltest.Criterion(t, r, wall.ExternalPressure), r
	}
	short, r := capacity(quantity.New(3, ft))
	if !strings.Contains(short.Reason, "formula, free length 3 ft") || !short.Governs || short.Case != wall.CaseVacuum {
		t.Errorf("%+v", short)
	}
	if r.Stiffeners.Known {
		t.Errorf("rings for a wall that holds without: %+v", r.Stiffeners)
	}
	last := short.Capacity
	for _, l := range []float64{4, 8, 16, 64, 1000} {
		k, _ := capacity(quantity.New(l, ft))
		if k.Capacity > last {
			t.Errorf("free length %v ft bears %v Pa, a shorter one %v", l, k.Capacity, last)
		}
		last = k.Capacity
	}
	endless, _ := capacity(quantity.New(math.Inf(1), quantity.Meter))
	published.Near(t, "no stiffeners at all", endless.Capacity, last, 1e-9*last)
	if !strings.Contains(endless.Reason, "endless tube") || strings.Contains(endless.Reason, "Inf") {
		t.Errorf("%+v", endless)
	}
	// Enough even without an end: nobody has to say how far the stiffeners are.
	unknown, _ := capacity(quantity.Length{})
	if unknown.Answer != wall.Holds || unknown.Capacity != endless.Capacity {
		t.Errorf("%+v", unknown)
	}
}

func TestEvaluate_hardCasesHaveClearAnswers(t *testing.T) {
	thick := walltest.Pipe(walltest.Ply(catalog.Mat15, 200))
	thick.Part.DesignBasis = laminate.StrainLimit
	r := walltest.Evaluate(thick, wall.Options{})
	if k := walltest.Criterion(t, r, wall.HoopStrain); k.Answer != wall.Incomplete || !strings.Contains(k.Reason, "inside radius") {
		t.Errorf("a wall thicker than its radius: %+v", k)
	}
	none := walltest.Evaluate(walltest.Pipe(), wall.Options{})
	if !strings.Contains(none.Problem, "no structural ply") || walltest.Criterion(t, none, wall.HoopStrength).Answer != wall.Incomplete || len(none.Plies()) != 0 {
		t.Errorf("no structural ply: %q, %+v", none.Problem, none.Criteria)
	}
	single := walltest.Evaluate(walltest.Pipe(walltest.Ply(catalog.Woven24, 1)), wall.Options{})
	if single.Problem != "" || !(single.D[0][0] > 0) || len(single.Plies()) != 1 {
		t.Errorf("a single ply: %+v", single)
	}
	along := walltest.WoundPipe(0)
	along.Plies[3] = walltest.Wound(catalog.BandHoop, 0, 4)
	if r := walltest.Evaluate(along, wall.Options{}); r.Problem != "" || !(r.Membrane.Ex > r.Membrane.Ey) {
		t.Errorf("all along the axis: %q, %+v", r.Problem, r.Membrane)
	}
	if r := wall.Evaluate(nil, nil, nil, wall.Options{}); r.Problem == "" {
		t.Error("no schedule, and no problem")
	}
	s := walltest.WoundPipe(2)
	if r := wall.Evaluate(s, nil, laminate.Analyze(s, catalog.Library()), wall.Options{}); !strings.Contains(r.Problem, "not known") {
		t.Errorf("no library: %q", r.Problem)
	}
	unknown := walltest.Pipe(laminate.Ply{Material: "nobody's", Resin: "wall", Zone: laminate.StructuralLayer, Count: 1})
	if r := walltest.Evaluate(unknown, wall.Options{}); !strings.Contains(r.Problem, "ply 4: its material is not known") {
		t.Errorf("unknown material: %q", r.Problem)
	}
}

func TestEvaluate_firstPlyWhereStrengthsAreKnown(t *testing.T) {
	s := lamina(40, 11, 3.6, 0.29, 0.7, 55, -55, 55, -55)
	s.Part.InsideDiameter = quantity.New(600, quantity.Millimetre)
	s.Service.Pressure = quantity.New(100, quantity.Kilopascal)
	if c := loadCase(t, walltest.Evaluate(s, wall.Options{}), wall.CasePressure); !strings.HasPrefix(c.FirstPly, "cannot be determined: no ply's strengths") {
		t.Errorf("%q", c.FirstPly)
	}
	mpa := func(v float64) quantity.Pressure { return quantity.New(v, quantity.Megapascal) }
	m := &s.Materials[0]
	m.StrengthTension1, m.StrengthCompression1 = mpa(800), mpa(500)
	m.StrengthTension2, m.StrengthCompression2, m.StrengthShear = mpa(40), mpa(120), mpa(60)
	c := loadCase(t, walltest.Evaluate(s, wall.Options{}), wall.CasePressure)
	if !strings.Contains(c.FirstPly, "by maximum strain (tension across the fiber)") || !strings.Contains(c.FirstPly, "by the quadratic criterion") {
		t.Errorf("%q", c.FirstPly)
	}
}

func TestEvaluate_plyFiguresSayWhereTheyAreFrom(t *testing.T) {
	r := walltest.Evaluate(walltest.WoundPipe(2), wall.Options{})
	if got := r.Plies()[1].Basis; got != "micromechanics, typical figures" {
		t.Errorf("basis %q", got)
	}
	s := walltest.WoundPipe(2)
	for i := range s.Resins {
		s.Resins[i].Modulus, s.Resins[i].Poisson = quantity.New(3.4, quantity.Gigapascal), laminate.Some(0.35)
	}
	lib := catalog.Library()
	for _, id := range []string{catalog.Mat15, catalog.BandHelical} {
		m, _ := lib.Material(nil, id)
		own := *m
		own.FiberModulus, own.FiberPoisson = quantity.New(80, quantity.Gigapascal), laminate.Some(0.22)
		s.Materials = append(s.Materials, own)
	}
	own := walltest.Evaluate(s, wall.Options{})
	if got := own.Plies()[1].Basis; got != "micromechanics" {
		t.Errorf("basis %q", got)
	}
	if !(own.Plies()[1].E1 > r.Plies()[1].E1) {
		t.Errorf("a stiffer fiber leaves E1 at %v", own.Plies()[1].E1)
	}
	if notes := strings.Join(r.Notes, "\n"); !strings.Contains(notes, "ecr-glass fiber: typical modulus") || !strings.Contains(notes, "vinyl-ester: typical modulus") {
		t.Errorf("typical figures unsaid:\n%s", notes)
	}
	for _, want := range []string{"wind", "seismic", "hold-down", "supports", "lifting", "burial", "thermal expansion", "fatigue"} {
		if !strings.Contains(strings.Join(r.NotChecked, "\n"), want) {
			t.Errorf("not said to be unchecked: %s", want)
		}
	}
}

func TestEvaluate_speaksTheReadersUnits(t *testing.T) {
	s := walltest.Tank(walltest.Mixed(3)...)
	for _, c := range []struct {
		units laminate.Optional[quantity.System]
		want  string
	}{
		{laminate.Optional[quantity.System]{}, "6.9 psi"}, {laminate.Some(quantity.US), "6.9 psi"}, {laminate.Some(quantity.Metric), "47.8 kPa"},
	} {
		if notes := strings.Join(walltest.Evaluate(s, wall.Options{Units: c.units}).Notes, "\n"); !strings.Contains(notes, "A water fill proves "+c.want) {
			t.Errorf("want %s in:\n%s", c.want, notes)
		}
	}
}

func TestEvaluate_aPressureBeyondFiguringIsOpenWhateverTheEnds(t *testing.T) {
	s := walltest.Pipe(walltest.Ply("mat-1.5", 3))
	s.Part.Ends, s.Part.InsideDiameter = laminate.NoEnds, quantity.New(1e300, quantity.Meter)
	s.Part.DesignBasis = laminate.StrengthTable
	for _, c := range walltest.Evaluate(s, wall.Options{}).Criteria {
		if c.Name == wall.HoopStrength && (c.Answer != wall.Incomplete || c.Reason == "") {
			t.Errorf("%+v", c)
		}
	}
}
