package wall_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/mat"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	provedby "frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
	"frp/veilwright/laminate/wall/worked"
)

// matrices turns the printed A, B and D round with a general-purpose library and
// compares what is said to come of them.
func matrices(t *testing.T, name string, c *wall.Calculation) {
	t.Helper()
	at := map[string]float64{}
	for _, section := range c.Sections {
		for _, x := range section.Steps {
			if v, err := strconv.ParseFloat(worked.Number(x.Value), 64); err == nil && x.Symbol != "" && (at[x.Symbol] == 0 || len(x.Symbol) != 3) {
				at[x.Symbol] = v
			}
		}
	}
	if at["Ehf"] == 0 {
		return
	}
	whole := mat.NewDense(6, 6, nil)
	axis := [3]string{"x", "y", "s"}
	for i := range 3 {
		for j := range 3 {
			place := axis[min(i, j)] + axis[max(i, j)]
			whole.Set(i, j, at["A"+place])
			whole.Set(i, j+3, at["B"+place])
			whole.Set(i+3, j, at["B"+place])
			whole.Set(i+3, j+3, at["D"+place])
		}
	}
	var inverse, tube mat.Dense
	if inverse.Inverse(whole) != nil || tube.Inverse(whole.Slice(0, 3, 0, 3)) != nil {
		t.Fatalf("%s: the printed matrices cannot be turned round", name)
	}
	cube := 12 / (at["t"] * at["t"] * at["t"])
	for symbol, want := range map[string]float64{
		"Ehf": cube / inverse.At(4, 4), "Eaf": cube / inverse.At(3, 3), "Eat": 1 / (at["t"] * tube.At(0, 0)),
		"νxνy": inverse.At(3, 4) * inverse.At(3, 4) / (inverse.At(3, 3) * inverse.At(4, 4)),
	} {
		if math.Abs(at[symbol]/want-1) > 1e-3 {
			t.Errorf("%s: %s is printed as %v, of the printed matrices it is %v", name, symbol, at[symbol], want)
		}
	}
}

// Figures without a unit: shares, ratios, strains and factors; and the criteria
// whose demand is a strain.
var (
	without = map[string]bool{
		"Vf": true, "η": true, "νu": true, "ν12": true, "ν21": true, "νf": true, "νm": true, "νxνy": true, "ν": true, "w": true, "k": true, "ky": true, "kf": true, "M": true, "K": true,
		"εx": true, "εy": true, "γ": true, "ε": true, "εd": true, "Zp": true,
	}
	ofStrains = map[string]bool{"hoop strain": true, "axial strain": true, "resin strain": true}
)

// What a calculation says of the parts of a job comes out by hand, put in and
// worked out here from the equations of the shared sources alone: Roark's round
// plate, statics of a bolt circle, Reissner's shallow sphere, ASTM D3299 eq. 5.
func TestCalculation_writesOutWhatFormsAsk(t *testing.T) {
	find := func(s *laminate.Schedule, u quantity.System, symbol string) worked.Step {
		t.Helper()
		lib := catalog.Library()
		c := wall.Calculate(s, lib, laminate.Analyze(s, lib), wall.Options{Units: laminate.Some(u)})
		for _, section := range c.Sections {
			for _, x := range section.Steps {
				if x.Symbol == symbol {
					return x
				}
			}
		}
		t.Fatalf("no step %s", symbol)
		return worked.Step{}
	}
	near := func(what string, got worked.Step, want float64, unit string) {
		t.Helper()
		if math.Abs(got.Value/want-1) > 1e-5 || got.Unit != unit || got.Numbers == "" {
			t.Errorf("%s: %+v, by hand %v %s", what, got, want, unit)
		}
	}
	cover := part(laminate.Cover, func(s *laminate.Schedule) { s.Part.Edge = laminate.SimplySupported })
	thick := find(cover, quantity.US, "t").Value
	near("stress of a cover of 48 in under 15 psi", find(cover, quantity.US, "σ"), 1.2375*15*24*24/(thick*thick), "psi")
	flange := part(laminate.Flange, func(s *laminate.Schedule) {
		s.Part.Size, s.Part.Drilling, s.Part.Thickness = inches(3), laminate.Class150, inches(0.3)
		s.Part.PressureClass, s.Part.Torque = quantity.New(50, psi), quantity.New(20, quantity.FootPound)
	})
	force := 15 * math.Pi / 4 * 36 / 4
	near("force on one of 4 bolts on 6 in", find(flange, quantity.US, "F"), force, "lb")
	near("torque of a 5/8 in bolt", find(flange, quantity.US, "Tb"), 0.2*force*0.625/12, "ft·lb")
	near("the same in N·m", find(flange, quantity.Metric, "Tb"), 0.2*force*0.625/12*1.3558179483314, "N·m")
	head := part(laminate.HeadPart, func(s *laminate.Schedule) {
		s.Part.Head, s.Part.CrownRadius, s.Part.KnuckleRadius, s.Part.Place.Top, s.Service.Vacuum = laminate.Torispherical, inches(48), inches(4), true, quantity.New(0.2, psi)
	})
	e, t1, ro := find(head, quantity.US, "E").Value, find(head, quantity.US, "t").Value, 48+find(head, quantity.US, "T").Value
	near("deflection under 250 lb", find(head, quantity.US, "δ"), math.Sqrt(3)/4*math.Sqrt(0.91)*250*ro/(e*t1*t1), "in")
	near("outside pressure that the head bears", find(head, quantity.US, "pa"), 0.36*e/5*(t1/ro)*(t1/ro), "psi")
}

// What a reviewer gets from the printed numbers is the printed result, and the
// criteria come out as they are judged.
func TestCalculation_aPocketCalculatorGetsThePrintedResults(t *testing.T) {
	warm := walltest.Pipe(walltest.Mixed(4)...)
	warm.Service.Temperature, warm.Part.ModulusRetention = quantity.New(150, degF), laminate.Some(0.7)
	sucked := walltest.Pipe(walltest.Ply(catalog.Mat15, 6))
	sucked.Service.Vacuum, sucked.Part.StiffenerSpacing = quantity.New(2, psi), quantity.New(4, ft)
	woven := walltest.Pipe(walltest.Mixed(3)...)
	woven.Service.Vacuum, woven.Part.StiffenerSpacing, woven.Part.DesignBasis = quantity.New(3, psi), quantity.New(6, ft), laminate.StrainLimit
	hoop := walltest.Pipe(walltest.Ply(catalog.Mat15, 1), walltest.Wound(catalog.BandHoop, 89, 6))
	hoop.Part.Process, hoop.Service.Vacuum = laminate.Wound, quantity.New(0.5, psi)
	pairs := walltest.WoundPipe(6)
	pairs.Conditions = []laminate.Condition{{Name: "operating", Temperature: quantity.New(100, degF)}, {Name: "steam-out", Temperature: quantity.New(100, degF), Pressure: quantity.New(0, psi), Vacuum: quantity.New(0, psi)}}
	units := walltest.Pipe(walltest.Mixed(5)...)
	units.Part.DesignBasis, units.Part.KFactors = laminate.UnitLoad, laminate.KFactors{Values: [5]float64{1.5, 1.2, 1.1, 1.1, 1.5}, Given: true}
	units.Part.LiquidHeight, units.Service.SpecificGravity = quantity.New(10, ft), laminate.Some(1.2)
	skew := walltest.Pipe(walltest.Ply(catalog.Mat15, 2), walltest.Wound(catalog.Uni13, 40, 2))
	skew.Part.DesignBasis = laminate.StrainLimit
	filled := walltest.Pipe(walltest.Mixed(3)...)
	filled.Resins[1].Filler, filled.Resins[1].FillerContent = laminate.AluminumOxide, laminate.Some(0.3)
	laid := walltest.Pipe(walltest.Mixed(3)...)
	for i := range laid.Plies {
		laid.Plies[i].VoidContent = laminate.Some(0.02)
		if laid.Plies[i].Material == catalog.Mat15 {
			laid.Plies[i].GlassContent = laminate.Some(0.31)
		}
	}
	proved := walltest.Tank(walltest.Mixed(4)...)
	proved.Service.Pressure, proved.Service.TestPressure, proved.Service.Vacuum = quantity.New(1, psi), quantity.New(2, psi), quantity.New(1, psi)
	proved.Part.StiffenerSpacing = quantity.New(6, ft)
	head := part(laminate.HeadPart, func(s *laminate.Schedule) {
		s.Part.Head, s.Part.Depth, s.Part.Place.Top, s.Service.Vacuum = laminate.Ellipsoidal, inches(12), true, quantity.New(0.1, psi)
	})
	elbow := part(laminate.Elbow, func(s *laminate.Schedule) { s.Part.Miters, s.Part.BendRadius = laminate.Some(0), inches(72) })
	cover := part(laminate.Cover, func(s *laminate.Schedule) { s.Part.DeflectionLimit = laminate.Some(0.01) })
	flange := part(laminate.Flange, func(s *laminate.Schedule) {
		s.Part.Size, s.Part.Drilling, s.Part.Thickness = inches(12), laminate.Class150, inches(0.3)
		s.Part.PressureClass, s.Part.Torque = quantity.New(50, psi), quantity.New(13.7, quantity.FootPound)
	})
	lid := part(laminate.Cover, func(s *laminate.Schedule) { s.Part.Place.Top = true })
	hatch := part(laminate.Cover, func(s *laminate.Schedule) {
		s.Part.Place.Top, s.Part.Edge, s.Part.Width, s.Part.Length = true, laminate.Clamped, inches(40), inches(30)
	})
	dished := part(laminate.HeadPart, func(s *laminate.Schedule) {
		s.Part.Head, s.Part.CrownRadius, s.Part.KnuckleRadius, s.Part.Place.Top = laminate.Torispherical, inches(48), inches(4), true
		s.Part.LiquidHeight, s.Service.SpecificGravity, s.Service.Vacuum = inches(24), laminate.Some(1.3), quantity.New(0.2, psi)
	})
	half := part(laminate.HeadPart, func(s *laminate.Schedule) {
		s.Part.Head, s.Part.Place.Top, s.Service.Vacuum = laminate.Hemispherical, true, quantity.New(0.2, psi)
	})
	cone := part(laminate.Cone, func(s *laminate.Schedule) {
		s.Part.HalfAngle, s.Part.SmallDiameter, s.Service.Vacuum = laminate.Some(25.0), inches(6), quantity.New(0.2, psi)
		s.Part.LiquidHeight, s.Service.SpecificGravity, s.Part.Ends = inches(36), laminate.Some(1.3), laminate.ClosedEnds
	})
	panel := part(laminate.Panel, func(s *laminate.Schedule) {
		s.Part.Width, s.Part.Length, s.Part.DeflectionLimit, s.Service.Vacuum = inches(30), inches(20), laminate.Some(0.01), quantity.New(18, psi)
	})
	strip := part(laminate.Panel, func(s *laminate.Schedule) {
		s.Part.Width, s.Part.Length, s.Part.DeflectionLimit, s.Part.Edge, s.Part.DesignBasis = inches(10), inches(80), laminate.Some(0.01), laminate.Clamped, laminate.StrainLimit
	})
	clamped := part(laminate.Cover, func(s *laminate.Schedule) {
		s.Part.DeflectionLimit, s.Part.Edge, s.Part.LiquidHeight, s.Service.SpecificGravity = laminate.Some(0.01), laminate.Clamped, inches(60), laminate.Some(1.2)
	})
	floor := part(laminate.FlatBottom, func(s *laminate.Schedule) {
		s.Part.Supported, s.Service.Vacuum, s.Part.HoldDown = laminate.Some(true), quantity.New(0.1, psi), quantity.New(0.2, psi)
	})
	others := part(laminate.Cone, func(s *laminate.Schedule) { // of a proof, which no formula replaces
		s.Part.HalfAngle, s.Service.Vacuum, s.Part.LiquidHeight, s.Service.SpecificGravity = laminate.Some(45.0), quantity.New(0.2, psi), inches(36), laminate.Some(1.3)
		s.Service.Temperature = quantity.New(100, quantity.Fahrenheit)
		s.Part.Proof = roofProof()
	})
	course := part(laminate.ShellCourse, func(s *laminate.Schedule) {
		s.Part.Place.Free.Length, s.Service.Vacuum, s.Part.LiquidHeight, s.Service.SpecificGravity = inches(120).SI(), quantity.New(0.5, psi), inches(100), laminate.Some(1.2)
	})
	below, pulled := hung(40, walltest.Mixed(4)...), walltest.Pipe(walltest.Mixed(4)...)
	below.Service.Temperature, below.Part.ModulusRetention = quantity.New(150, degF), laminate.Some(0.7)
	pulled.Part.Place.Axial = 150e3
	steps, criteria := 0, map[string]bool{}
	for name, s := range map[string]*laminate.Schedule{
		"dished": dished, "half": half, "cone": cone, "panel": panel, "strip": strip, "clamped": clamped, "floor": floor, "course": course, "hung": below, "pulled": pulled, "by others": others,
		"head": head, "elbow": elbow, "cover": cover, "flange": flange,
		"lid": lid, "hatch": hatch, "mat and woven": walltest.Pipe(walltest.Mixed(3)...), "warm": warm, "sucked": sucked, "woven, sucked": woven, "helical": walltest.WoundPipe(6), "hoop": hoop, "tank": walltest.Tank(walltest.Mixed(6)...), "conditions": pairs, "unit loads and a head": units,
		"not balanced": skew, "filled": filled, "laid": laid, "proved": proved,
	} {
		for _, u := range []quantity.System{quantity.US, quantity.Metric} {
			lib := catalog.Library()
			o := wall.Options{Units: laminate.Some(u)}
			a := laminate.Analyze(s, lib)
			r := wall.Evaluate(s, lib, a, o)
			c := wall.Calculate(s, lib, a, o)
			judged := map[string]float64{}
			matrices(t, name, &c)
			for _, section := range c.Sections {
				for _, x := range section.Steps {
					if x.Symbol == "utilization" {
						judged[x.What] = math.Max(judged[x.What], x.Value)
					}
					if x.Value != 0 && math.Abs(x.Value) < 1e-9 { // what the rounding of doubles leaves is nothing
						t.Errorf("%s: %s is printed as %s", name, x.What, worked.Number(x.Value))
					}
					if unit := worked.Pick(x.Symbol == "utilization", x.In, x.Unit); unit == "" && !math.IsNaN(x.Value) && !without[x.Symbol] && !ofStrains[x.What] {
						t.Errorf("%s: %s is printed without a unit: %s %s", name, x.What, x.Result(), x.PutIn())
					}
					if x.Numbers == "" {
						continue
					}
					steps++
					got, err := walltest.Calculator(x.Numbers)
					if err != nil {
						t.Fatalf("%s: %s: %q: %v", name, x.What, x.Numbers, err)
					}
					printed, _ := strconv.ParseFloat(worked.Number(x.Value), 64)
					if math.Abs(got-printed) > 2e-4*math.Abs(printed)+1e-9 {
						t.Errorf("%s: %s: %s = %v, printed %v", name, x.What, x.Numbers, got, printed)
					}
				}
			}
			for i := range r.Criteria {
				if k := &r.Criteria[i]; k.Measured() {
					criteria[k.Name] = true
					if v, ok := judged[k.Title()]; !ok || math.Abs(v-k.Ratio) > 1e-9*k.Ratio {
						t.Errorf("%s: %s is %v in the calculation, judged %v", name, k.Name, v, k.Ratio)
					}
				}
			}
		}
	}
	for _, name := range []string{wall.HoopStrain, wall.AxialStrain, wall.ResinStrain, wall.HoopStrength, wall.AxialStrength, wall.UnitLoad, wall.ExternalPressure, wall.MinimumModulus, wall.MinimumThickness,
		wall.PlateStress, wall.PlateDeflection, wall.FlangeThickness, wall.FlangeClass, wall.BoltTorque, wall.BottomSupport, wall.HoldDown, wall.StepLoad, provedby.Pressure, provedby.Vacuum} {
		if !criteria[name] {
			t.Error("no case works out ", name)
		}
	}
	if steps < 1500 {
		t.Error(fmt.Sprint("only ", steps, " steps"))
	}
}
