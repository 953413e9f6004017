package wall_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stand"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
)

func inches(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }

// part is a wall of mat and woven roving, 48 in across under 15 psi, in a form.
func part(form laminate.PartForm, change func(*laminate.Schedule)) *laminate.Schedule {
	s := walltest.Pipe(walltest.Mixed(5)...)
	s.Part.Form, s.Part.InsideDiameter, s.Part.LiquidHeight = form, inches(48), inches(0)
	s.Service.Pressure = quantity.New(15, psi)
	if change != nil {
		change(s)
	}
	return s
}

func judged(t *testing.T, s *laminate.Schedule, name string) wall.Criterion {
	t.Helper()
	c := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), name)
	if !c.Judged() {
		t.Fatalf("%s: %+v", name, c)
	}
	return c
}

// The thickness that the strength table asks of a part is its shape factor times
// that of a straight shell; the factors stand in testdata/vessel.
func TestForm_asksOfAPartItsShapeFactorTimesAStraightShell(t *testing.T) {
	pipe := judged(t, part(laminate.Pipe, nil), wall.HoopStrength).Demand
	for name, c := range map[string]struct {
		form   laminate.PartForm
		change func(*laminate.Part)
		factor float64
	}{
		"course":     {laminate.ShellCourse, func(*laminate.Part) {}, 1},
		"hemisphere": {laminate.HeadPart, func(p *laminate.Part) { p.Head = laminate.Hemispherical }, 0.5},
		"2:1":        {laminate.HeadPart, func(p *laminate.Part) { p.Head, p.Depth = laminate.Ellipsoidal, inches(12) }, 1},
		"6 %": {laminate.HeadPart, func(p *laminate.Part) {
			p.Head, p.CrownRadius, p.KnuckleRadius = laminate.Torispherical, inches(48), inches(2.88)
		}, 1.7706},
		"80-15": {laminate.HeadPart, func(p *laminate.Part) {
			p.Head, p.CrownRadius, p.KnuckleRadius = laminate.Torispherical, inches(38.4), inches(7.392)
		}, 0.8 * 1.320},
		"cone 30°": {laminate.Cone, func(p *laminate.Part) { p.HalfAngle = laminate.Some(30.0) }, 2 / math.Sqrt(3)},
	} {
		s := part(c.form, func(s *laminate.Schedule) { c.change(&s.Part) })
		k := judged(t, s, wall.HoopStrength)
		if got := k.Demand / pipe; math.Abs(got-c.factor) > 2e-4 {
			t.Errorf("%s: %v times, want %v", name, got, c.factor)
		}
		if c.form != laminate.ShellCourse && !strings.Contains(k.Reason, "factor") {
			t.Errorf("%s: %q does not name its factor", name, k.Reason)
		}
		// By strain the same: nothing but the factor on the load.
		s.Part.DesignBasis = laminate.StrainLimit
		if k := judged(t, s, wall.HoopStrain); k.Ratio <= 0 {
			t.Errorf("%s: %+v", name, k)
		}
	}
	elbow := part(laminate.Elbow, func(s *laminate.Schedule) {
		whole := walltest.Evaluate(s, wall.Options{}).Whole
		s.Part.Miters, s.Part.BendRadius = laminate.Some(0), quantity.New(1.5*(inches(48).SI()+whole), quantity.Meter)
	})
	if got := judged(t, elbow, wall.HoopStrength).Demand / pipe; math.Abs(got-1.25) > 1e-6 {
		t.Errorf("elbow of 1.5 D: %v times, want 1.25", got)
	}
}

func TestForm_whatIsNotStatedOrHasNoFormulaIsOpen(t *testing.T) {
	for name, c := range map[string]struct {
		form    laminate.PartForm
		change  func(*laminate.Part)
		name    string
		says    string
		outside bool
	}{
		"no shape":       {laminate.HeadPart, func(*laminate.Part) {}, wall.HoopStrength, "shape", false},
		"no depth":       {laminate.HeadPart, func(p *laminate.Part) { p.Head = laminate.Ellipsoidal }, wall.HoopStrength, "depth", false},
		"no radii":       {laminate.HeadPart, func(p *laminate.Part) { p.Head, p.CrownRadius = laminate.Torispherical, inches(48) }, wall.HoopStrength, "knuckle_radius", false},
		"a shallow head": {laminate.HeadPart, func(p *laminate.Part) { p.Head, p.Depth = laminate.Ellipsoidal, inches(9) }, wall.HoopStrength, "outside the table", true},
		"a sharp knuckle": {laminate.HeadPart, func(p *laminate.Part) {
			p.Head, p.CrownRadius, p.KnuckleRadius = laminate.Torispherical, inches(48), inches(2)
		}, wall.HoopStrength, "outside the table", true},
		"a cone of no angle": {laminate.Cone, func(*laminate.Part) {}, wall.HoopStrength, "half_angle", false},
		"a steep cone":       {laminate.Cone, func(p *laminate.Part) { p.HalfAngle = laminate.Some(31.0) }, wall.HoopStrength, "30°", true},
		"an elbow":           {laminate.Elbow, func(*laminate.Part) {}, wall.HoopStrength, "miters", false},
		"a smooth elbow":     {laminate.Elbow, func(p *laminate.Part) { p.Miters = laminate.Some(0) }, wall.HoopStrength, "bend_radius", false},
		"a mitered elbow":    {laminate.Elbow, func(p *laminate.Part) { p.Miters = laminate.Some(2) }, wall.HoopStrength, "miter", true},
		"no level":           {laminate.ShellCourse, func(p *laminate.Part) { p.LiquidHeight = quantity.Length{} }, wall.HoopStrength, "liquid_height", false},
		"a bottom":           {laminate.FlatBottom, func(*laminate.Part) {}, wall.BottomSupport, "supported", false},
		"no form":            {laminate.NoPartForm, func(p *laminate.Part) { p.LiquidHeight = quantity.Length{} }, wall.HoopStrength, "(form)", false},
		"a bottom on legs":   {laminate.FlatBottom, func(p *laminate.Part) { p.Supported = laminate.Some(false) }, wall.BottomSupport, "special design", true},
		"a panel":            {laminate.Panel, func(*laminate.Part) {}, wall.PlateStress, "width", false},
		"a flange":           {laminate.Flange, func(*laminate.Part) {}, wall.FlangeThickness, "never", false},
		"no class":           {laminate.Flange, func(p *laminate.Part) { p.Thickness = inches(1) }, wall.FlangeClass, "pressure_class", false},
		"no bolts":           {laminate.Flange, func(p *laminate.Part) { p.Size, p.Drilling = inches(7), laminate.Class150 }, wall.BoltTorque, "drilling", false},
		"no torque":          {laminate.Flange, func(p *laminate.Part) { p.Size, p.Drilling = inches(6), laminate.Class150 }, wall.BoltTorque, "ft·lb", false},
	} {
		r := walltest.Evaluate(part(c.form, func(s *laminate.Schedule) { c.change(&s.Part) }), wall.Options{})
		k := walltest.Criterion(t, r, c.name)
		if k.Answer != wall.Incomplete || !strings.Contains(k.Reason+k.Basis, c.says) || (r.FormOpen != "") != c.outside {
			t.Errorf("%s: %+v, form open %q", name, k, r.FormOpen)
		}
		if !c.outside {
			continue
		}
		// Where no formula is for a form nothing says that it holds, though nothing loads it.
		r = walltest.Evaluate(part(c.form, func(s *laminate.Schedule) {
			s.Service.Pressure, s.Service.Vacuum, s.Part.LiquidHeight = quantity.New(0, quantity.PSI), quantity.New(0, quantity.PSI), inches(0)
			c.change(&s.Part)
		}), wall.Options{})
		if r.Answer() != wall.Incomplete || r.FormOpen == "" {
			t.Errorf("%s, of no load: %s, form open %q", name, r.Answer(), r.FormOpen)
		}
	}
}

func TestForm_headsUnderOutsidePressureGoByTheirSphere(t *testing.T) {
	dome := func(share float64, change func(*laminate.Part)) {
		t.Helper()
		s := part(laminate.HeadPart, func(s *laminate.Schedule) {
			s.Service.Vacuum = quantity.New(0.1, psi)
			change(&s.Part)
		})
		r := walltest.Evaluate(s, wall.Options{})
		c := walltest.Criterion(t, r, wall.ExternalPressure)
		e := math.Min(r.Membrane.Ex, r.Membrane.Ey)
		most, _ := vessel.Dome(e, r.Thickness, share*inches(48).SI()+r.Whole)
		// Bending moduli may be lower than the membrane's, never by half.
		if !c.Judged() || c.Capacity > most*1.02 || c.Capacity < most/2 {
			t.Errorf("allowable %v, a dome %v: %+v", c.Capacity, most, c)
		}
	}
	dome(0.5, func(p *laminate.Part) { p.Head = laminate.Hemispherical })
	dome(0.9, func(p *laminate.Part) { p.Head, p.Depth = laminate.Ellipsoidal, inches(12) })
	dome(1, func(p *laminate.Part) {
		p.Head, p.CrownRadius, p.KnuckleRadius = laminate.Torispherical, inches(48), inches(4)
	})
	cone := part(laminate.Cone, func(s *laminate.Schedule) {
		s.Service.Vacuum, s.Part.HalfAngle, s.Part.SmallDiameter = quantity.New(0.1, psi), laminate.Some(25.0), inches(6)
	})
	straight := part(laminate.Tank, func(s *laminate.Schedule) { s.Service.Vacuum = quantity.New(0.1, psi) })
	a, b := judged(t, cone, wall.ExternalPressure), judged(t, straight, wall.ExternalPressure)
	if !(a.Capacity > b.Capacity) { // far shorter than 20 ft
		t.Errorf("a cone bears %v, a long shell %v", a.Capacity, b.Capacity)
	}
}

func TestForm_aCourseIsHeldRoundAtTheEndsOfItsShell(t *testing.T) {
	course := func(feet float64) float64 {
		return judged(t, part(laminate.ShellCourse, func(s *laminate.Schedule) {
			s.Service.Vacuum, s.Part.Length = quantity.New(0.1, psi), quantity.New(4, quantity.Foot)
			s.Part.Place.Free.Length = quantity.New(feet, quantity.Foot).SI()
		}), wall.ExternalPressure).Capacity
	}
	if a, b := course(8), course(16); !(a > b) {
		t.Errorf("a course of a shell of 8 ft bears %v, one of 16 ft %v", a, b)
	}
}

func TestForm_aPersonOnAHead(t *testing.T) {
	s := part(laminate.HeadPart, func(s *laminate.Schedule) {
		s.Part.Head, s.Part.CrownRadius, s.Part.KnuckleRadius, s.Part.Place.Top = laminate.Torispherical, inches(48), inches(4), true
	})
	r := walltest.Evaluate(s, wall.Options{})
	c := walltest.Criterion(t, r, wall.StepLoad)
	want, _ := vessel.PointLoad(250*4.4482216152605, inches(48).SI()+r.Whole, math.Min(r.Membrane.Ex, r.Membrane.Ey), 0.3, r.Thickness)
	if !c.Judged() || c.Demand < want*0.95 || c.Demand > want*2 || math.Abs(c.Capacity-0.005*inches(48).SI()) > 1e-12 {
		t.Errorf("%+v, want about %v", c, want)
	}
}

// At its top an ellipsoid is a sphere of a²/b, a half its diameter and b its depth (the
// curvature of an ellipse where its short axis meets it); the equivalent radius of the code
// is for outside pressure, which the whole head bears. 12 ft and 36 in deep: 144 in, not
// 0.9 of the diameter.
func TestForm_aPersonOnAnEllipsoidStandsOnItsTop(t *testing.T) {
	for _, c := range []struct{ across, deep, radius float64 }{{144, 36, 144}, {48, 12, 48}, {48, 24, 24}, {100, 20, 125}} {
		s := part(laminate.HeadPart, func(s *laminate.Schedule) {
			s.Part.Head, s.Part.InsideDiameter, s.Part.Depth, s.Part.Place.Top = laminate.Ellipsoidal, inches(c.across), inches(c.deep), true
			s.Service.Vacuum = quantity.New(0.01, psi)
		})
		r := walltest.Evaluate(s, wall.Options{})
		round := part(laminate.HeadPart, func(s *laminate.Schedule) {
			s.Part.Head, s.Part.InsideDiameter, s.Part.Place.Top = laminate.Hemispherical, inches(2*c.radius), true
		})
		got, want := walltest.Criterion(t, r, wall.StepLoad), judged(t, round, wall.StepLoad)
		if !got.Judged() || math.Abs(got.Demand/want.Demand-1) > 1e-9 {
			t.Errorf("%g in across and %g in deep gives way by %v, a hemisphere of %g in by %v", c.across, c.deep, got.Demand, c.radius, want.Demand)
		}
		// Under outside pressure it stays the equivalent sphere: 0.9 of 2:1.
		if k := walltest.Criterion(t, r, wall.ExternalPressure); c.across == 144 && !strings.Contains(k.Reason, "outside radius 130") {
			t.Errorf("%+v", k)
		}
	}
}

// A flat lid of 10 ft held with a wall that a dished head broke with.
func TestForm_aPersonOnAFlatLid(t *testing.T) {
	lid := func(form laminate.PartForm, edge laminate.EdgeSupport, n int) *laminate.Schedule {
		s := walltest.Pipe(walltest.Mixed(n)...)
		s.Part = laminate.Part{Form: form, Process: laminate.ContactMolded, InsideDiameter: inches(120), LiquidHeight: inches(0), Shape: laminate.Shape{Edge: edge, Supported: laminate.Some(true), Place: laminate.Place{Top: true}}}
		s.Service.Pressure = quantity.New(0, psi)
		return s
	}
	// The constants are those of Timoshenko's plates, as in testdata/vessel/plates.json.
	for edge, k := range map[laminate.EdgeSupport]float64{laminate.SimplySupported: 0.5515, laminate.Clamped: 0.2172, laminate.NoEdgeSupport: 0.5515} {
		r := walltest.Evaluate(lid(laminate.Cover, edge, 2), wall.Options{})
		c := walltest.Criterion(t, r, wall.StepLoad)
		want := func(e float64) float64 {
			a, t := inches(60).SI(), r.Thickness
			return k * 250 * 4.4482216152605 * a * a / (e * t * t * t)
		}
		// The lowest of all moduli is that of bending or below that of stretching.
		if low, high := want(math.Min(r.Membrane.Ex, r.Membrane.Ey)), want(0.5*math.Min(r.Membrane.Ex, r.Membrane.Ey)); c.Answer != wall.Fails || c.Demand < low*0.999 || c.Demand > high {
			t.Errorf("%v: %+v, want from %v to %v", edge, c, low, high)
		}
		if math.Abs(c.Capacity-inches(0.6).SI()) > 1e-12 || !strings.Contains(c.Reason, "stretching") || !strings.Contains(c.Reason, "ribs") {
			t.Errorf("%+v", c)
		}
	}
	if c := judged(t, lid(laminate.Cover, laminate.SimplySupported, 14), wall.StepLoad); c.Answer != wall.Holds || strings.Contains(c.Reason, "ribs") {
		t.Errorf("%+v", c)
	}
	// Of a conical roof no formula tells; nobody steps on a steep one.
	for angle, want := range map[float64]wall.Answer{75: wall.Incomplete, 30: wall.NotApplicable} {
		cone := lid(laminate.Cone, laminate.NoEdgeSupport, 14)
		cone.Part.HalfAngle = laminate.Some(angle)
		r, got := walltest.Evaluate(cone, wall.Options{}), wall.NotApplicable
		for _, c := range r.Criteria {
			if c.Name == wall.StepLoad {
				got = c.Answer
			}
		}
		if got != want {
			t.Errorf("a cone of %g°: %s, want %s", angle, got, want)
		}
	}
	// A flat end on top is asked the same, and stands on nothing.
	flat := lid(laminate.FlatBottom, laminate.NoEdgeSupport, 2)
	if c := judged(t, flat, wall.StepLoad); c.Answer != wall.Fails {
		t.Errorf("%+v", c)
	}
	if c := walltest.Criterion(t, walltest.Evaluate(flat, wall.Options{}), wall.BottomSupport); c.Answer != wall.Incomplete || !strings.Contains(c.Reason, "no foundation") {
		t.Errorf("%+v", c)
	}
	// Nobody steps on the cover of a manway, nor on a bottom.
	for _, form := range []laminate.PartForm{laminate.Cover, laminate.FlatBottom} {
		s := lid(form, laminate.Clamped, 2)
		s.Part.Place.Top = false
		for _, c := range walltest.Evaluate(s, wall.Options{}).Criteria {
			if c.Name == wall.StepLoad {
				t.Errorf("%v: %+v", form, c)
			}
		}
	}
}

func TestForm_platesFlangesAndBottoms(t *testing.T) {
	thin := part(laminate.Cover, func(s *laminate.Schedule) {
		s.Part.Size, s.Part.Drilling, s.Part.Edge, s.Part.DeflectionLimit = inches(24), laminate.Class150, laminate.SimplySupported, laminate.Some(0.01)
	})
	r := walltest.Evaluate(thin, wall.Options{})
	c := walltest.Criterion(t, r, wall.PlateStress)
	// 4 039 psi at 1 in (testdata/vessel/plates.json), by the square of the thickness.
	if want := 4039 * math.Pow(inches(1).SI()/r.Thickness, 2) * quantity.New(1, psi).SI(); math.Abs(c.Demand/want-1) > 1e-3 || c.Answer != wall.Fails {
		t.Errorf("a cover: %+v, want %v", c, want)
	}
	if c := walltest.Criterion(t, r, wall.PlateDeflection); c.Answer != wall.Fails || !strings.Contains(c.Reason, "stretching") {
		t.Errorf("%+v", c)
	}
	thin.Part.Edge = laminate.NoEdgeSupport
	if c := judged(t, thin, wall.PlateStress); !strings.Contains(c.Reason, "nobody says") {
		t.Errorf("%+v", c)
	}
	panel := part(laminate.Panel, func(s *laminate.Schedule) {
		s.Part.Width, s.Part.Length, s.Part.Edge = inches(20), inches(10), laminate.Clamped
		s.Service.Pressure = quantity.New(0.5, psi)
	})
	r = walltest.Evaluate(panel, wall.Options{})
	c = walltest.Criterion(t, r, wall.PlateStress)
	if want := 0.497 * 0.5 * math.Pow(inches(10).SI()/r.Thickness, 2) * quantity.New(1, psi).SI(); math.Abs(c.Demand/want-1) > 1e-6 {
		t.Errorf("a panel: %+v, want %v", c, want)
	}
	flange := part(laminate.Flange, func(s *laminate.Schedule) {
		s.Service.Pressure = quantity.New(50, psi)
		s.Part.Size, s.Part.Drilling, s.Part.Thickness = inches(12), laminate.Class150, inches(0.3)
		s.Part.PressureClass, s.Part.Torque = quantity.New(50, psi), quantity.New(13.7, quantity.FootPound)
	})
	// 13.8 ft·lb hold 50 psi on the bolt circle (testdata/vessel/flanges.json).
	if c := judged(t, flange, wall.BoltTorque); c.Answer != wall.Fails || math.Abs(c.Demand/quantity.New(13.8, quantity.FootPound).SI()-1) > 5e-3 {
		t.Errorf("%+v", c)
	}
	if c := judged(t, flange, wall.FlangeClass); c.Answer != wall.Holds || c.Ratio != 1 {
		t.Errorf("%+v", c)
	}
	flange.Service.Pressure = quantity.New(51, psi)
	if c := judged(t, flange, wall.FlangeClass); c.Answer != wall.Fails {
		t.Errorf("%+v", c)
	}
	flange.Part.Thickness = inches(2)
	if c := judged(t, flange, wall.FlangeThickness); c.Answer != wall.Fails {
		t.Errorf("%+v", c)
	}
	bottom := part(laminate.FlatBottom, func(s *laminate.Schedule) {
		s.Part.Supported, s.Part.InsideDiameter = laminate.Some(true), inches(150)
	})
	if c := judged(t, bottom, wall.BottomSupport); math.Abs(c.Demand-inches(0.375).SI()) > 1e-12 {
		t.Errorf("%+v", c)
	}
	// A vacuum lifts it, and what holds it down is figured by others: by as much as they say.
	for _, c := range []struct {
		vacuum, states float64 // psi
		want           wall.Answer
	}{{0, -1, wall.NotApplicable}, {0.1, -1, wall.Incomplete}, {0.1, 0.1, wall.Holds}, {0.1, 0.09, wall.Fails}, {0, 0.1, wall.NotApplicable}} {
		bottom.Service.Vacuum, bottom.Part.HoldDown = quantity.New(c.vacuum, psi), quantity.Pressure{}
		if c.states >= 0 {
			bottom.Part.HoldDown = quantity.New(c.states, psi)
		}
		if got := walltest.Criterion(t, walltest.Evaluate(bottom, wall.Options{}), wall.HoldDown); got.Answer != c.want || c.want == wall.Incomplete && !strings.Contains(got.Reason, "(hold_down)") {
			t.Errorf("%g psi where %g are stated: %+v", c.vacuum, c.states, got)
		}
	}
	bottom.Service.Vacuum = quantity.Pressure{}
	if got := walltest.Criterion(t, walltest.Evaluate(bottom, wall.Options{}), wall.HoldDown); got.Answer != wall.Incomplete {
		t.Errorf("no vacuum stated: %+v", got)
	}
}

// Whatever the shape, no ply more makes a part worse, and nothing is neither
// number nor word.
func TestForm_aPlyMoreMakesNoPartWorse(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "woven")
		drawn := func(name string) quantity.Length {
			return inches(rapid.Float64Range(1, 100).Draw(t, name))
		}
		build := func(n int, p laminate.Part) *wall.Result {
			s := walltest.Pipe(walltest.Mixed(n)...)
			s.Part = p
			s.Service.Vacuum = quantity.New(0.2, psi)
			return wall.Evaluate(s, lib, laminate.Analyze(s, lib), wall.Options{})
		}
		p := laminate.Part{Form: rapid.SampledFrom(laminate.JobForms.All()).Draw(t, "form"), InsideDiameter: drawn("diameter"), LiquidHeight: inches(0), Ends: laminate.ClosedEnds,
			DesignBasis: rapid.SampledFrom([]laminate.DesignBasis{laminate.StrengthTable, laminate.StrainLimit}).Draw(t, "basis"), Length: drawn("length"),
			Shape: laminate.Shape{Head: rapid.SampledFrom(laminate.HeadShapes.All()).Draw(t, "shape"), CrownRadius: drawn("crown"), KnuckleRadius: drawn("knuckle"), Depth: drawn("depth"),
				HalfAngle: laminate.Some(rapid.Float64Range(1, 40).Draw(t, "angle")), SmallDiameter: inches(0.5), BendRadius: drawn("bend"), Miters: laminate.Some(0), Supported: laminate.Some(true),
				Width: drawn("width"), DeflectionLimit: laminate.Some(0.01), Size: inches(12), Drilling: laminate.Class150, Thickness: inches(1), PressureClass: quantity.New(10, psi),
				Torque: quantity.New(9, quantity.FootPound), Place: laminate.Place{Top: rapid.Bool().Draw(t, "top"), Free: stand.Run{Length: drawn("shell").SI()}}}}
		less, more := build(n, p), build(n+1, p)
		for _, c := range less.Criteria {
			k := walltest.Criterion(t, more, c.Name)
			if math.IsNaN(c.Ratio) || c.Answer == wall.Incomplete && c.Reason == "" {
				t.Fatalf("%+v", c)
			}
			switch c.Name {
			case wall.HoopStrength, wall.PlateStress, wall.PlateDeflection, wall.StepLoad, wall.FlangeThickness, wall.BottomSupport, wall.HoldDown:
			default: // moduli are those of the mix, and so are strains in part
				continue
			}
			if c.Judged() && k.Judged() && k.Ratio > c.Ratio*(1+1e-6) {
				t.Fatalf("%s: %v with %d woven, %v with one more", c.Name, c.Ratio, n, k.Ratio)
			}
		}
	})
}

// A mat of polyester is no mat of the strength table, whatever stands on it.
func TestStrengthTable_knowsGlassAlone(t *testing.T) {
	plies := func(material string) []laminate.Ply {
		return append(walltest.Mixed(3), laminate.Ply{Material: material, Resin: "wall", Zone: laminate.StructuralLayer, Count: 1})
	}
	own := func(s *laminate.Schedule) {
		s.Part.DesignBasis = laminate.StrengthTable
		s.Materials = append(s.Materials,
			laminate.Material{ID: "mat", Form: laminate.ChoppedMat, Fiber: laminate.Polyester, ArealMass: quantity.New(0.45, quantity.KilogramPerSquareMeter), GlassContent: laminate.Some(0.3)},
			laminate.Material{ID: "cloth", Form: laminate.WovenRoving, Fiber: laminate.Carbon, ArealMass: quantity.New(0.8, quantity.KilogramPerSquareMeter), GlassContent: laminate.Some(0.5)})
	}
	for material, says := range map[string]string{"mat": "is of polyester fiber", "cloth": "is of carbon fiber", catalog.BandHelical: "of form roving-band is neither", catalog.Mat15: ""} {
		for name, s := range map[string]*laminate.Schedule{
			wall.HoopStrength: part(laminate.Pipe, func(s *laminate.Schedule) { s.Plies = walltest.Pipe(plies(material)...).Plies; own(s) }),
			wall.PlateStress: part(laminate.Cover, func(s *laminate.Schedule) {
				s.Plies = walltest.Pipe(plies(material)...).Plies
				own(s)
				s.Part.Edge = laminate.SimplySupported
			}),
		} {
			if material == catalog.BandHelical {
				s.Plies[len(s.Plies)-1].Angle = laminate.Some(55.0)
			}
			c := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), name)
			if says == "" && !c.Judged() || says != "" && (c.Answer != wall.Incomplete || !strings.Contains(c.Reason, says)) {
				t.Errorf("%s of %s: %+v", name, material, c)
			}
		}
	}
}
