package walltest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"
	"strings"
)

// Calculator works out an expression of a calculation as a pocket calculator
// does: it knows nothing of walls.
func Calculator(text string) (float64, error) {
	text = powers(strings.NewReplacer("·", "*", "−", "-", "²", "^2").Replace(text))
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
			case "max":
				return math.Max(in[0], in[1])
			case "cos":
				return math.Cos(in[0] * math.Pi / 180)
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
