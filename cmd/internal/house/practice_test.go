package house

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
)

// Where the figures of practice may stand: the catalog, and the model below it,
// which infers zones and glass contents by two of them. To the glossary a
// topcoat is a word of the trade.
var figuresStandIn = []string{"laminate/catalog/", "laminate/zones.go", "laminate/figures.go", "laminate/glossary/"}

// figure is one figure of practice: how it may be spelled, and the names under
// which somebody would write it down again.
type figure struct {
	name   string
	values []float64
	names  *regexp.Regexp
}

func figuresOfPractice() []figure {
	length := func(name, names string, l quantity.Length) figure {
		return figure{name, []float64{l.In(quantity.Mil), l.In(quantity.Inch), l.In(quantity.Millimetre), l.SI()}, regexp.MustCompile("(?i)" + names)}
	}
	return []figure{
		{"catalog.HardFillerShare", []float64{catalog.HardFillerShare}, regexp.MustCompile("(?i)hard|filler")},
		{"catalog.CarbonPowderShare", []float64{catalog.CarbonPowderShare, 0.10}, regexp.MustCompile("(?i)carbon|powder|filler")},
		{"catalog.MatsInOneGo", []float64{catalog.MatsInOneGo}, regexp.MustCompile("(?i)mats|inOneGo")},
		{"laminate.MatsBehind", []float64{2}, regexp.MustCompile("(?i)^(usual|double|single|least)?mats")},
		{"laminate.HoopFrom", []float64{laminate.HoopFrom}, regexp.MustCompile("(?i)hoop")},
		{"laminate.ChoppedBarrierGlassContent", []float64{laminate.ChoppedBarrierGlassContent}, regexp.MustCompile("(?i)share|content|glass")},
		length("catalog.ThickestInOneGo", "thick|inOneGo", catalog.ThickestInOneGo),
		length("catalog.HeaviestBarrier", "heav|thick", catalog.HeaviestBarrier),
		length("catalog.ThinnestBarrier", "thin|least", catalog.ThinnestBarrier),
		length("catalog.ThinnestInnerSurface", "thin|least", catalog.ThinnestInnerSurface),
		length("catalog.ThickestVeilPly", "thick|veil", catalog.ThickestVeilPly),
		length("catalog.SingleBuild", "nominal|single", catalog.SingleBuild.Nominal),
		length("catalog.DoubleBuild", "nominal|double", catalog.DoubleBuild.Nominal),
	}
}

// seconds finds, in one file, ids of built-in materials as bare strings and
// second copies of the figures of practice: as a constant or variable, as a
// field of a composite literal, or as a length made from its number.
func seconds(name string, source []byte) ([]string, error) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, source, 0)
	if err != nil {
		return nil, err
	}
	ids := map[string]bool{}
	for _, m := range catalog.Library().Materials {
		ids[m.ID] = true
	}
	var found []string
	report := func(at token.Pos, what string) {
		found = append(found, set.Position(at).String()+": "+what)
	}
	named := func(name string, e ast.Expr) {
		v, ok := number(e)
		if !ok {
			return
		}
		for _, f := range figuresOfPractice() {
			if f.names.MatchString(name) && slices.ContainsFunc(f.values, func(x float64) bool { return quantity.Compare(x, v) == 0 }) {
				report(e.Pos(), name+" is "+f.name+" again")
			}
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			if text, err := strconv.Unquote(n.Value); n.Kind == token.STRING && err == nil && ids[text] {
				report(n.Pos(), n.Value+" is an id of the catalog")
			}
		case *ast.ValueSpec:
			for i, v := range n.Values {
				named(n.Names[i].Name, v)
			}
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok {
				named(key.Name, n.Value)
			}
		case *ast.CallExpr:
			if l, ok := length(n); ok {
				for _, f := range figuresOfPractice() {
					if len(f.values) == 4 && quantity.Compare(f.values[3], l) == 0 {
						report(n.Pos(), "this length is "+f.name+" again")
					}
				}
			}
		}
		return true
	})
	return found, nil
}

// number reads 0.35 and laminate.Some(0.35).
func number(e ast.Expr) (float64, bool) {
	if call, ok := e.(*ast.CallExpr); ok && len(call.Args) == 1 {
		e = call.Args[0]
	}
	lit, ok := e.(*ast.BasicLit)
	if !ok {
		return 0, false
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(lit.Value, "_", ""), 64)
	return v, err == nil
}

// length reads quantity.New(250, quantity.Mil) and the like in m.
func length(call *ast.CallExpr) (float64, bool) {
	if len(call.Args) != 2 {
		return 0, false
	}
	v, ok := number(call.Args[0])
	unit, is := call.Args[1].(*ast.SelectorExpr)
	if !ok || !is {
		return 0, false
	}
	switch unit.Sel.Name {
	case "Mil":
		return quantity.New(v, quantity.Mil).SI(), true
	case "Inch":
		return quantity.New(v, quantity.Inch).SI(), true
	case "Millimetre":
		return quantity.New(v, quantity.Millimetre).SI(), true
	}
	return 0, false
}

// One place for what practice takes for granted: two of them drift apart.
func TestPractice_figuresAndIdsStandInTheCatalogAlone(t *testing.T) {
	looked := 0
	for _, f := range tree(t) {
		if !strings.HasSuffix(f.path, ".go") || strings.HasSuffix(f.path, "_test.go") ||
			slices.ContainsFunc(figuresStandIn, func(p string) bool { return strings.HasPrefix(f.path, p) }) {
			continue
		}
		looked++
		found, err := seconds(f.path, f.text)
		if err != nil {
			t.Fatal(err)
		}
		for _, what := range found {
			t.Error(what)
		}
	}
	if looked < 100 {
		t.Fatalf("%d files looked at: the search itself is broken", looked)
	}
}

func TestPractice_searchFindsWhatItIsThereFor(t *testing.T) {
	for _, second := range []string{
		`var mat = "mat-1.5"`, `const carbonShare = 0.10`, `const carbonShare = 0.05`, `const hardShare = 0.35`, `const mostMats = 4`,
		`var mostInOneGo = quantity.New(0.25, quantity.Inch).SI()`, `var heavy = quantity.New(250, quantity.Mil).SI()`, `const heaviest = 250.0`,
		`const thinnest = 80.0`, `const thinnestInner = 10.0`, `const nominalDouble = 200.0`, `const hoopFrom = 85`,
		`var r = laminate.Resin{FillerContent: laminate.Some(0.05)}`, `var r = laminate.Resin{FillerContent: laminate.Some(0.35)}`,
		`const matBarrierShare = 0.27`, `const doubleMats = 4`,
	} {
		if found, err := seconds("x.go", []byte("package x\n\n"+second+"\n")); err != nil || len(found) == 0 {
			t.Errorf("%s is not found (%v)", second, err)
		}
	}
	for _, other := range []string{`const columns = 80`, `const most = 4`, `var gap = quantity.New(1, quantity.Inch)`, `const family = "veil"`} {
		if found, err := seconds("x.go", []byte("package x\n\n"+other+"\n")); err != nil || len(found) > 0 {
			t.Errorf("%s is taken for a figure of practice: %v (%v)", other, found, err)
		}
	}
}
