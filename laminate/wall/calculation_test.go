package wall_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

// calculator works out an expression of a calculation as a pocket calculator
// does: it knows nothing of walls.
func calculator(text string) (float64, error) {
	text = strings.NewReplacer("·", "*", "−", "-", "²", "^2").Replace(text)
	e, err := parser.ParseExpr(text)
	if err != nil {
		return 0, err
	}
	var of func(ast.Expr) float64
	of = func(e ast.Expr) float64 {
		switch x := e.(type) {
		case *ast.BasicLit:
			v, _ := strconv.ParseFloat(x.Value, 64)
			return v
		case *ast.ParenExpr:
			return of(x.X)
		case *ast.UnaryExpr:
			return -of(x.X)
		case *ast.CallExpr:
			var in []float64
			for _, a := range x.Args {
				in = append(in, of(a))
			}
			switch x.Fun.(*ast.Ident).Name {
			case "sqrt":
				return math.Sqrt(in[0])
			case "abs":
				return math.Abs(in[0])
			case "min":
				return math.Min(in[0], in[1])
			case "pow":
				return math.Pow(in[0], in[1])
			}
		case *ast.BinaryExpr:
			a, b := of(x.X), of(x.Y)
			switch x.Op {
			case token.ADD:
				return a + b
			case token.SUB:
				return a - b
			case token.MUL:
				return a * b
			case token.QUO:
				return a / b
			}
		}
		return math.NaN()
	}
	return of(e), nil
}

// powers writes a^b, which binds tighter than anything, as pow(a, b).
func powers(s string) string {
	for {
		at := strings.LastIndexByte(s, '^')
		if at < 0 {
			return s
		}
		i, j := at, at+1
		if s[i-1] == ')' {
			for depth := 0; ; {
				i--
				if s[i] == ')' {
					depth++
				} else if s[i] == '(' {
					if depth--; depth == 0 {
						break
					}
				}
			}
		} else {
			for i > 0 && strings.IndexByte("0123456789.", s[i-1]) >= 0 {
				i--
			}
		}
		for j < len(s) && strings.IndexByte("0123456789.", s[j]) >= 0 {
			j++
		}
		s = s[:i] + "pow(" + s[i:at] + ", " + s[at+1:j] + ")" + s[j:]
	}
}

// What a reviewer gets from the printed numbers is the printed result, and the
// criteria come out as they are judged.
func TestCalculation_aPocketCalculatorGetsThePrintedResults(t *testing.T) {
	warm := pipe(mixed(4)...)
	warm.Service.Temperature, warm.Part.ModulusRetention = quantity.New(150, degF), laminate.Some(0.7)
	sucked := pipe(ply(catalog.Mat15, 6))
	sucked.Service.Vacuum, sucked.Part.StiffenerSpacing = quantity.New(2, psi), quantity.New(4, ft)
	woven := pipe(mixed(3)...)
	woven.Service.Vacuum, woven.Part.StiffenerSpacing, woven.Part.DesignBasis = quantity.New(3, psi), quantity.New(6, ft), laminate.StrainLimit
	hoop := pipe(ply(catalog.Mat15, 1), wound(catalog.BandHoop, 89, 6))
	hoop.Part.Process, hoop.Service.Vacuum = laminate.Wound, quantity.New(0.5, psi)
	pairs := woundPipe(6)
	pairs.Conditions = []laminate.Condition{{Name: "operating", Temperature: quantity.New(100, degF)}, {Name: "steam-out", Temperature: quantity.New(100, degF), Pressure: quantity.New(0, psi), Vacuum: quantity.New(0, psi)}}
	units := pipe(mixed(5)...)
	units.Part.DesignBasis, units.Part.KFactors = laminate.UnitLoad, laminate.KFactors{Values: [5]float64{1.5, 1.2, 1.1, 1.1, 1.5}, Given: true}
	units.Part.LiquidHeight, units.Service.SpecificGravity = quantity.New(10, ft), laminate.Some(1.2)
	steps := 0
	for name, s := range map[string]*laminate.Schedule{
		"mat and woven": pipe(mixed(3)...), "warm": warm, "sucked": sucked, "woven, sucked": woven, "helical": woundPipe(6), "hoop": hoop, "tank": tank(mixed(6)...), "conditions": pairs, "unit loads and a head": units,
	} {
		for _, u := range []quantity.System{quantity.US, quantity.Metric} {
			lib := catalog.Library()
			o := wall.Options{Units: laminate.Some(u)}
			a := laminate.Analyze(s, lib)
			r := wall.Evaluate(s, lib, a, o)
			c := wall.Calculate(s, lib, a, o)
			judged := map[string]float64{}
			for _, section := range c.Sections {
				for _, x := range section.Steps {
					if x.Symbol == "utilization" {
						judged[x.What] = math.Max(judged[x.What], x.Value)
					}
					if x.Numbers == "" {
						continue
					}
					steps++
					got, err := calculator(powers(strings.ReplaceAll(x.Numbers, "²", "^2")))
					if err != nil {
						t.Fatalf("%s: %s: %q: %v", name, x.What, x.Numbers, err)
					}
					printed, _ := strconv.ParseFloat(wall.Number(x.Value), 64)
					if math.Abs(got-printed) > 2e-4*math.Abs(printed)+1e-9 {
						t.Errorf("%s: %s: %s = %v, printed %v", name, x.What, x.Numbers, got, printed)
					}
				}
			}
			for i := range r.Criteria {
				if k := &r.Criteria[i]; k.Judged() {
					if v, ok := judged[k.Title()]; !ok || math.Abs(v-k.Ratio) > 1e-9*k.Ratio {
						t.Errorf("%s: %s is %v in the calculation, judged %v", name, k.Name, v, k.Ratio)
					}
				}
			}
		}
	}
	if steps < 500 {
		t.Error(fmt.Sprint("only ", steps, " steps"))
	}
}
