package house

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"strconv"
	"strings"
	"testing"

	"frp/veilwright/laminate/glossary"
)

// worded is where every text that a person can read is held against the words
// of the glossary.
var worded = []string{"laminate/", "rules/", "schedules/", "tui/", "cmd/", "README.md"}

// allowed are retired words that stay in a text, with the reason.
var allowed = []struct{ path, word, because string }{
	{"laminate/word/renamed.go", "", "it lists the retired words of documents, to name the new ones"},
	{"cmd/internal/report/wall.go", "demand", "demand and capacity are what engineers call the two sides of a criterion"},
	{"laminate/glossary/entries.go", "", "it lists the retired words; its own test holds its sentences"},
}

// TestWords_saysOneWordForOneThing walks the string literals of the source, the
// embedded texts, exercises, templates and README.
func TestWords_saysOneWordForOneThing(t *testing.T) {
	used := map[int]bool{}
	files := tree(t)
	for _, f := range files {
		if !readable(f.path) || !within(f.path, worded) {
			continue
		}
		for line, text := range texts(t, f) {
			for _, slip := range glossary.Check(text) {
				if i, ok := allowance(f.path, slip.Found); ok {
					used[i] = true
					continue
				}
				t.Errorf("%s:%d: %q is not used here, say %q: %.100q", f.path, line, slip.Found, slip.Say, text)
			}
		}
	}
	for i, a := range allowed {
		if within(a.path, worded) && !used[i] {
			t.Errorf("%s: %q is allowed there (%s) and does not occur", a.path, a.word, a.because)
		}
	}
}

func within(name string, areas []string) bool {
	for _, a := range areas {
		if name == a || strings.HasSuffix(a, "/") && strings.HasPrefix(name, a) {
			return true
		}
	}
	return false
}

func allowance(name, word string) (int, bool) {
	for i, a := range allowed {
		if a.path == name && (a.word == "" || strings.EqualFold(a.word, word)) {
			return i, true
		}
	}
	return 0, false
}

// readable tells the files that hold text for people.
func readable(name string) bool {
	if strings.Contains(name, "testdata/") || strings.HasSuffix(name, "_test.go") {
		return false
	}
	switch path.Ext(name) {
	case ".go", ".txt", ".toml":
		return true
	}
	return name == "README.md"
}

// texts gives what a person can read of a file, by line: of Go source the
// string literals, imports and keys of struct tags excepted.
func texts(t *testing.T, f file) map[int]string {
	t.Helper()
	lines := map[int]string{}
	if path.Ext(f.path) != ".go" {
		for i, line := range strings.Split(string(f.text), "\n") {
			lines[i+1] = line
		}
		return lines
	}
	set := token.NewFileSet()
	parsed, err := parser.ParseFile(set, f.path, f.text, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.BasicLit:
			if text, err := strconv.Unquote(n.Value); n.Kind == token.STRING && err == nil {
				at := set.Position(n.Pos()).Line
				lines[at] += " " + text
			}
		}
		return true
	})
	return lines
}
