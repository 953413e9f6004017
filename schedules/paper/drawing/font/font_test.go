package font_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"frp/veilwright/schedules/paper/drawing/font"
)

// The advance of an em space is the em (Unicode 15, general punctuation), and
// figures of one typeface are equally wide, or columns of them would not line up.
func TestWidth_isThatOfTheTypeface(t *testing.T) {
	if one := font.Width("1", 10, false); one <= 0 || math.Abs(font.Width("0123456789", 10, false)-10*one) > 1e-9 {
		t.Errorf("figures are not equally wide: %g and %g", one, font.Width("0123456789", 10, false))
	}
	if a, b := font.Width("wide", 10, false), font.Width("wide", 20, false); math.Abs(b-2*a) > 1e-9 || font.Width("wide", 10, true) <= a {
		t.Errorf("twice the size is %g for %g", b, a)
	}
}

// Whatever the program itself says on paper, the typeface has.
func TestKnown_everyTextOfTheProgramIs(t *testing.T) {
	texts := 0
	for _, top := range []string{"laminate", "rules", "schedules"} {
		err := filepath.WalkDir(filepath.Join("../../../..", top), func(path string, d fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				lit, ok := n.(*ast.BasicLit)
				if !ok || lit.Kind != token.STRING {
					return true
				}
				text, err := strconv.Unquote(lit.Value)
				if err != nil {
					t.Fatal(err)
				}
				texts++
				for _, r := range text {
					if _, missing := font.Known(string(r)); r >= ' ' && r != '\ufeff' && missing != nil {
						t.Errorf("%s: the typeface lacks %q of %.60q", path, r, text)
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if texts < 1000 {
		t.Errorf("only %d texts were looked at", texts)
	}
}
