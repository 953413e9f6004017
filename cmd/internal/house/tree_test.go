package house

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// How much one file and one package may hold, in lines of code: tests,
// comments and empty lines are not counted. About 400 and 1,500 are meant;
// what is beyond these has grown past all thought of it.
const (
	mostInFile    = 450
	mostInPackage = 2300
)

// overgrown are packages that passed it and wait to be cut: they may shrink to
// it, and not grow by a line.
var overgrown = map[string]int{"schedules": 2640, "laminate": 2326, "cmd/internal/cli": 2407}

// file is a text file of the tree.
type file struct {
	path string // from the root, with slashes
	text []byte
}

// tree reads the text files that belong to the project, fuzz corpora excepted.
func tree(t *testing.T) []file {
	t.Helper()
	var files []file
	top := root(t)
	err := filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if d.Name() == ".git" || d.Name() == "fuzz" {
				return fs.SkipDir
			}
			return nil
		}
		if !d.Type().IsRegular() || d.Name() == "go.sum" || d.Name() == ".git" { // a file in a second worktree
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if bytes.IndexByte(text, 0) >= 0 { // a binary that somebody built here
			return nil
		}
		name, err := filepath.Rel(top, path)
		if err != nil {
			return err
		}
		files = append(files, file{filepath.ToSlash(name), text})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func TestSize_ofFilesAndPackages(t *testing.T) {
	packages := map[string]int{}
	for _, f := range tree(t) {
		if !strings.HasSuffix(f.path, ".go") || strings.HasSuffix(f.path, "_test.go") {
			continue
		}
		lines := linesOfCode(f.text)
		packages[filepath.Dir(f.path)] += lines
		if lines > mostInFile {
			t.Errorf("%s has %d lines: cut it where two thoughts meet", f.path, lines)
		}
	}
	for p, lines := range packages {
		if lines > max(mostInPackage, overgrown[p]) {
			t.Errorf("package %s has %d lines: it is asking for a wall", p, lines)
		}
	}
}

func linesOfCode(text []byte) int {
	n := 0
	for line := range bytes.Lines(text) {
		line = bytes.TrimSpace(line)
		if len(line) > 0 && !bytes.HasPrefix(line, []byte("//")) {
			n++
		}
	}
	return n
}

func TestPackages_haveNamesAndCommentsThatSayWhatTheyOwn(t *testing.T) {
	empty := []string{"util", "utils", "common", "helper", "helpers", "types", "misc", "base", "lib"}
	commented := map[string]bool{}
	for _, f := range tree(t) {
		if !strings.HasSuffix(f.path, ".go") || strings.Contains(f.path, "testdata/") {
			continue
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), f.path, f.text, parser.ParseComments)
		if err != nil {
			t.Errorf("%s: %v", f.path, err)
			continue
		}
		dir := filepath.Dir(f.path)
		commented[dir] = commented[dir] || parsed.Doc != nil
		if slices.Contains(empty, parsed.Name.Name) {
			t.Errorf("%s: package %s says nothing of what it owns", f.path, parsed.Name.Name)
		}
		for _, d := range parsed.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if ok && fn.Recv == nil && fn.Name.Name == "init" && dir != "cmd/internal/quietstart" {
				t.Errorf("%s: an init function; what is needed is passed, not set up behind one's back", f.path)
			}
		}
	}
	for dir, ok := range commented {
		if !ok {
			t.Errorf("package %s has no package comment", dir)
		}
	}
}

// What does not belong into the tree.
var strangers = []struct {
	what string
	find *regexp.Regexp
}{
	{"unfinished work", regexp.MustCompile(`\b(TODO|FIXME|HACK|XXX)\b`)},
	{"a test that is skipped", regexp.MustCompile(`\b[tbf]\.(Skip|SkipNow|Skipf)\(`)},
	{"a number of an entry in some tracker", regexp.MustCompile(`(?i)\bissues? #?[0-9]`)},
	{"a folder of one machine", regexp.MustCompile(`/(root|Users|work)/[a-z]`)},
	{"a document that the project does not have", regexp.MustCompile(`\b[a-z_]+\.md\b`)},
}

var ownDocuments = regexp.MustCompile(`\b(README|DEVELOPERS)\.md\b`)

func TestTree_holdsNoStrangers(t *testing.T) {
	files := tree(t)
	known := map[string]bool{}
	for _, f := range files {
		known[filepath.Base(f.path)] = true
	}
	for _, f := range files {
		if f.path == "cmd/internal/house/tree_test.go" {
			continue
		}
		for n, line := range strings.Split(string(f.text), "\n") {
			line = ownDocuments.ReplaceAllString(line, "")
			for _, s := range strangers {
				if found := s.find.FindString(line); found != "" && !known[found] {
					t.Errorf("%s:%d: %s: %q", f.path, n+1, s.what, found)
				}
			}
		}
	}
}

// The two commands of README.md are all the set-up there is, and CI runs the
// very test command that it names.
func TestReadme_commandsAreTheOnesThatCIRuns(t *testing.T) {
	texts := map[string]string{}
	for _, f := range tree(t) {
		texts[f.path] = string(f.text)
	}
	for _, command := range []string{"go run ./cmd/veilwright", "go test ./..."} {
		if !regexp.MustCompile(`(?m)^    ` + regexp.QuoteMeta(command) + `( +#.*)?$`).MatchString(texts["README.md"]) {
			t.Errorf("README.md does not give %q on a line of its own", command)
		}
	}
	ci := texts[".ci/run"]
	if !strings.Contains(ci, "README.md") || !strings.Contains(ci, `[[ $test_command == "go test ./..." ]]`) {
		t.Error(".ci/run does not take its test command from README.md")
	}
}
