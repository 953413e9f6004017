package wall_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/laminate/wall/walltest"
)

// wild draws figures nobody should write beside such as people do.
func wild() *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.SampledFrom([]float64{0, -1, 1, 0.5, 0.3, 1e-300, 1e300, -1e300, math.NaN(), math.Inf(1), math.Inf(-1), 85, 90, 55}),
		rapid.Float64Range(1e-6, 1e6), rapid.Float64())
}

func drawQuantity[D quantity.Dimension](t *rapid.T, name string, u quantity.Unit[D]) quantity.Quantity[D] {
	if rapid.Bool().Draw(t, name+" given") {
		return quantity.New(wild().Draw(t, name), u)
	}
	return quantity.Quantity[D]{}
}

func drawShare(t *rapid.T, name string) laminate.Optional[float64] {
	return laminate.Optional[float64]{Value: wild().Draw(t, name), Given: rapid.Bool().Draw(t, name+" given")}
}

func anySchedule(t *rapid.T) *laminate.Schedule {
	byte255 := rapid.Uint8()
	word := func(name string, most uint8) uint8 {
		if rapid.IntRange(0, 19).Draw(t, name+" odd") == 0 {
			return byte255.Draw(t, name)
		}
		return rapid.Uint8Range(0, most).Draw(t, name)
	}
	gpa := quantity.Gigapascal
	s := &laminate.Schedule{
		Part: laminate.Part{
			Form: laminate.PartForm(word("form", 4)), Process: laminate.Process(word("process", 2)), Ends: laminate.Ends(word("ends", 2)),
			DesignBasis: laminate.DesignBasis(word("basis", 3)), InsideDiameter: drawQuantity(t, "diameter", quantity.Meter),
			Length: drawQuantity(t, "length", quantity.Meter), LiquidHeight: drawQuantity(t, "height", quantity.Meter),
			StiffenerSpacing: drawQuantity(t, "spacing", quantity.Meter), ModulusRetention: drawShare(t, "kept"),
			KFactors: laminate.KFactors{Given: rapid.Bool().Draw(t, "k"), Values: [5]float64{1.5, wild().Draw(t, "k2"), 1, 1, 1}},
		},
		Service: laminate.Service{
			Temperature: drawQuantity(t, "temperature", quantity.Fahrenheit), Pressure: drawQuantity(t, "pressure", quantity.PSI),
			Vacuum: drawQuantity(t, "vacuum", quantity.PSI), TestPressure: drawQuantity(t, "test", quantity.PSI), SpecificGravity: drawShare(t, "gravity"),
		},
		Resins: []laminate.Resin{{ID: "wall", Family: laminate.VinylEster}, {ID: "odd", Family: laminate.Family(word("family", 8)),
			Modulus: drawQuantity(t, "resin modulus", gpa), Poisson: drawShare(t, "resin poisson"), FailureStrain: drawShare(t, "failure"),
			Density: drawQuantity(t, "density", quantity.KilogramPerCubicMeter)}},
		Materials: []laminate.Material{{ID: "odd", Form: laminate.Form(word("material form", 8)), Fiber: laminate.Fiber(word("fiber", 5)),
			ArealMass: drawQuantity(t, "areal mass", quantity.KilogramPerSquareMeter), GlassContent: drawShare(t, "glass"),
			FiberModulus: drawQuantity(t, "fiber modulus", gpa), FiberPoisson: drawShare(t, "fiber poisson"), WarpShare: drawShare(t, "warp"),
			CrimpFactor: drawShare(t, "crimp"), Thickness: drawQuantity(t, "thickness", quantity.Millimetre),
			E1: drawQuantity(t, "e1", gpa), E2: drawQuantity(t, "e2", gpa), G12: drawQuantity(t, "g12", gpa), Nu12: drawShare(t, "nu12"),
			StrengthTension1: drawQuantity(t, "strength", gpa), StrengthShear: drawQuantity(t, "shear strength", gpa)}},
	}
	for i := range rapid.IntRange(0, 5).Draw(t, "rows") {
		name := fmt.Sprint("ply ", i)
		s.Plies = append(s.Plies, laminate.Ply{
			Material: rapid.SampledFrom([]string{"odd", catalog.Mat15, catalog.Woven24, catalog.BandHelical, "none"}).Draw(t, name),
			Resin:    rapid.SampledFrom([]string{"wall", "odd", ""}).Draw(t, name+" resin"),
			Zone:     laminate.Zone(rapid.Uint8Range(0, 4).Draw(t, name+" zone")),
			Count:    rapid.IntRange(-1, 9).Draw(t, name+" count"),
			Angle:    drawShare(t, name+" angle"), GlassContent: drawShare(t, name+" glass"), VoidContent: drawShare(t, name+" voids"),
		})
	}
	return s
}

// finite walks a value and names the first float that is not.
func finite(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return fmt.Sprintf("%s is %v", path, f)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return finite(v.Elem(), path)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if !v.Type().Field(i).IsExported() {
				continue
			}
			if bad := finite(v.Field(i), path+"."+v.Type().Field(i).Name); bad != "" {
				return bad
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if bad := finite(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); bad != "" {
				return bad
			}
		}
	}
	return ""
}

func TestEvaluate_isFiniteForAnything(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule(t)
		r := wall.Evaluate(s, lib, laminate.Analyze(s, lib), wall.Options{CountBarrier: rapid.Bool().Draw(t, "barrier"), Depth: wild().Draw(t, "depth")})
		if bad := finite(reflect.ValueOf(r), "result"); bad != "" {
			t.Fatal(bad)
		}
		if bad := finite(reflect.ValueOf(r.Plies()), "plies"); bad != "" || len(r.Plies()) != r.Counted {
			t.Fatalf("%s; %d plies of %d", bad, len(r.Plies()), r.Counted)
		}
		for _, c := range r.Criteria {
			if (c.Answer == wall.Incomplete || c.Answer == wall.NotApplicable) && (c.Reason == "" || c.Ratio != 0) {
				t.Fatalf("no reason, or a ratio: %+v", c)
			}
		}
	})
}

// An evaluation takes over the memory of one that ended, and nothing that it
// figured.
func TestEvaluate_isOfItsScheduleAlone(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s, other := anySchedule(t), anySchedule(t)
		of := func(s *laminate.Schedule) (*wall.Result, []wall.PlyStrain) {
			r := wall.Evaluate(s, lib, laminate.Analyze(s, lib), wall.Options{})
			return r, r.Plies()
		}
		first, strains := of(s)
		of(other)
		again, strainsAgain := of(s)
		if diff := cmp.Diff(first, again, cmpopts.IgnoreUnexported(wall.Result{})); diff != "" {
			t.Fatalf("after another wall:\n%s", diff)
		}
		if diff := cmp.Diff(strains, strainsAgain); diff != "" {
			t.Fatalf("strains after another wall:\n%s", diff)
		}
		if diff := cmp.Diff(strains, first.Plies()); diff != "" {
			t.Fatalf("strains asked for later:\n%s", diff)
		}
	})
}

func TestNeed_endsForAnything(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule(t)
		n, err := repeat.Need(s, lib, rapid.SampledFrom(repeat.Units.All()).Draw(t, "unit"), wall.Options{})
		if err == nil && n.Result.Answer() != wall.Holds {
			t.Fatalf("%d repeats: %v", n.Repeats, n.Result.Answer())
		}
	})
}

// A wall of more plies strains no more, and rows of one ply each are the same
// wall as one row of many.
func TestEvaluate_morePliesStrainLess(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "plies")
		of := func(s *laminate.Schedule) float64 {
			r := wall.Evaluate(s, lib, laminate.Analyze(s, lib), wall.Options{})
			for _, c := range r.Criteria {
				if c.Name == wall.HoopStrain {
					return c.Ratio
				}
			}
			return math.NaN()
		}
		one, more := of(walltest.Pipe(walltest.Ply(catalog.Mat15, n))), of(walltest.Pipe(walltest.Ply(catalog.Mat15, n+1)))
		if !(more < one) {
			t.Fatalf("%d plies use %v, one more %v", n, one, more)
		}
		var rows []laminate.Ply
		for range n {
			rows = append(rows, walltest.Ply(catalog.Mat15, 1))
		}
		if same := of(walltest.Pipe(rows...)); math.Abs(same-one) > 1e-12*one {
			t.Fatalf("%d rows use %v, one row of as many %v", n, same, one)
		}
	})
}
