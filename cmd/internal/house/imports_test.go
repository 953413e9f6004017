// Package house holds the house in order: which package may import which, how
// large files and packages may grow, and what must not stand in the tree.
package house

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "frp/veilwright"

// A floor of the house: the packages that match one of its patterns may import
// those that match one of `below`, and packages from outside the module as the
// tables here say. The first matching floor counts. In patterns, "x/..." is
// everything under x but not x itself.
type floor struct {
	packages []string
	below    []string
}

// floors reads the order of imports where it is stated for people: the block of
// DEVELOPERS.md after "Imports run one way", a line a floor.
func floors(t *testing.T) []floor {
	t.Helper()
	var all []floor
	for line := range strings.Lines(developersBlock(t, "Imports run one way")) {
		packages, below, ok := strings.Cut(line, "←")
		if !ok {
			t.Fatalf("DEVELOPERS.md: %q is no floor", line)
		}
		all = append(all, floor{strings.Fields(packages), strings.Fields(below)})
	}
	if len(all) < 10 {
		t.Fatalf("DEVELOPERS.md states %d floors", len(all))
	}
	return all
}

// developersBlock is the first block between fences that follows a sentence of
// DEVELOPERS.md.
func developersBlock(t *testing.T, after string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root(t), "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(text), after)
	_, rest, opened := strings.Cut(rest, "```\n")
	block, _, closed := strings.Cut(rest, "```\n")
	if !found || !opened || !closed {
		t.Fatalf("DEVELOPERS.md has no block after %q", after)
	}
	return block
}

// Modules from outside that belong to one part of the house.
var outside = []struct {
	modules []string
	only    []string
	because string
}{
	{
		[]string{"github.com/charmbracelet/bubbletea", "github.com/charmbracelet/bubbles", "github.com/muesli/termenv"},
		[]string{"tui", "tui/..."}, "only the terminal program knows a terminal",
	},
	{
		[]string{"github.com/charmbracelet/lipgloss"},
		[]string{"tui", "tui/...", "cmd/internal/quietstart"}, "only the terminal program knows a terminal; the quiet start keeps it silent elsewhere",
	},
	{[]string{"github.com/alecthomas/kong"}, []string{"cmd/internal/cli", "cmd/internal/completion", "cmd/internal/flag"}, "only the command line parses command lines"},
	{
		[]string{"github.com/BurntSushi/toml", "github.com/pelletier/go-toml/v2"},
		[]string{"schedules", "schedules/..."}, "only documents know their syntax",
	},
	{[]string{"net", "net/http", "net/rpc", "net/smtp"}, nil, "the program has no network"},
	{[]string{"plugin", "unsafe", "log", "testing/quick"}, nil, "nothing here needs it"},
}

// What model and rules may not know of the machine.
var (
	pure   = []string{"laminate", "laminate/...", "rules", "rules/..."}
	impure = []string{"os", "os/exec", "os/signal", "syscall", "io/fs", "path/filepath", "os/user"}
)

// Tests may use more: a benchmark holds reading a document against the bare
// syntax library, and tests of the model may read files under testdata.
var testsMay = map[string][]string{
	"cmd/internal/cli": {"github.com/BurntSushi/toml"},
	"schedules/store":  {"net"}, // to make a socket that is no document
}

type listed struct {
	ImportPath   string
	Name         string
	Dir          string
	Imports      []string
	TestImports  []string
	XTestImports []string
}

func list(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Name,Dir,Imports,TestImports,XTestImports", "./...")
	cmd.Dir = root(t)
	text, err := cmd.Output()
	var failed *exec.ExitError
	if errors.As(err, &failed) {
		t.Fatalf("go list: %v\n%s", err, failed.Stderr)
	}
	if err != nil {
		t.Fatal(err)
	}
	var all []listed
	for dec := json.NewDecoder(strings.NewReader(string(text))); ; {
		var p listed
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}

func root(t *testing.T) string {
	t.Helper()
	dir, err := filepath.Abs("../../..")
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

func matches(name string, patterns []string) bool {
	return slices.ContainsFunc(patterns, func(p string) bool {
		if under, ok := strings.CutSuffix(p, "/..."); ok {
			return strings.HasPrefix(name, under+"/")
		}
		return name == p
	})
}

// published is what tests read check values with, and nothing else imports.
const published = "laminate/published"

// complaints says what is wrong with one import.
func complaints(floors []floor, from, imported string, inTest bool) []string {
	var wrong []string
	if inside, ok := strings.CutPrefix(imported, module+"/"); ok {
		if inside == from { // an external test of the package
			return nil
		}
		at := slices.IndexFunc(floors, func(f floor) bool { return matches(from, f.packages) })
		switch {
		case at < 0:
			wrong = append(wrong, "stands on no floor of the house")
		case inTest && matches(from, []string{"rules/..."}) && matches(inside, []string{"schedules"}):
			// Tests of rules read documents that people could have written.
		case inside == published:
			if !inTest {
				wrong = append(wrong, "may not import "+inside+": it is for tests")
			}
		case inTest && inside == "tui/internal/tuitest" && strings.HasPrefix(from, "tui/"):
		case inTest && strings.HasPrefix(inside, from+"/") && strings.HasSuffix(inside, "test"):
			// What helps to test a package stands under it and imports it.
		case !matches(inside, floors[at].below):
			wrong = append(wrong, "imports run one way, and not from here to "+inside)
		}
		return wrong
	}
	for _, o := range outside {
		if slices.Contains(o.modules, imported) && !matches(from, o.only) && !(inTest && slices.Contains(testsMay[from], imported)) {
			wrong = append(wrong, "may not import "+imported+": "+o.because)
		}
	}
	if !inTest && matches(from, pure) && from != published && slices.Contains(impure, imported) {
		wrong = append(wrong, "may not import "+imported+": model and rules know no files")
	}
	return wrong
}

func TestImports_runOneWay(t *testing.T) {
	packages, floors := list(t), floors(t)
	if len(packages) < 10 {
		t.Fatalf("go list finds %d packages: the search itself is broken", len(packages))
	}
	for _, p := range packages {
		from := strings.TrimPrefix(p.ImportPath, module+"/")
		if !slices.ContainsFunc(floors, func(f floor) bool { return matches(from, f.packages) }) {
			t.Errorf("%s stands on no floor of the house", from)
		}
		for _, i := range p.Imports {
			for _, c := range complaints(floors, from, i, false) {
				t.Errorf("%s: %s", from, c)
			}
		}
		for _, i := range slices.Concat(p.TestImports, p.XTestImports) {
			for _, c := range complaints(floors, from, i, true) {
				t.Errorf("%s (test): %s", from, c)
			}
		}
	}
}

// DEVELOPERS.md describes the house that is there: every package stands in its
// tree, and nothing stands in it that is not there.
func TestDevelopers_listsEveryPackage(t *testing.T) {
	described := map[string]bool{}
	for line := range strings.Lines(developersBlock(t, "## The house")) {
		dir, _, _ := strings.Cut(strings.TrimSpace(line), " ")
		dir = strings.TrimSuffix(dir, "/")
		described[dir] = true
		if info, err := os.Stat(filepath.Join(root(t), dir)); err != nil || !info.IsDir() {
			t.Errorf("DEVELOPERS.md describes %s, which is not there", dir)
		}
	}
	for _, p := range list(t) {
		if dir := strings.TrimPrefix(p.ImportPath, module+"/"); !described[dir] {
			t.Errorf("DEVELOPERS.md does not say what %s is", dir)
		}
	}
}

func TestImports_tableCatchesWhatItIsThereFor(t *testing.T) {
	floors := floors(t)
	for _, bad := range [][2]string{
		{"laminate", "frp/veilwright/rules"},
		{"laminate", "frp/veilwright/laminate/edit"},
		{"laminate/edit", "frp/veilwright/rules"},
		{"rules/veil", "frp/veilwright/schedules"},
		{"rules/veil", "os"},
		{"laminate/vessel", "frp/veilwright/laminate/published"},
		{"schedules", "frp/veilwright/rules"},
		{"schedules/store", "frp/veilwright/rules"},
		{"schedules/editor", "frp/veilwright/tui"},
		{"schedules/editor", "github.com/charmbracelet/bubbletea"},
		{"tui/internal/app", "github.com/BurntSushi/toml"},
		{"tui/internal/app", "frp/veilwright/cmd/internal/cli"},
		{"cmd/internal/cli", "github.com/charmbracelet/lipgloss"},
		{"cmd/internal/cli", "frp/veilwright/tui/internal/app"},
		{"tui/internal/draw", "frp/veilwright/tui/internal/keys"},
		{"tui/internal/widget", "frp/veilwright/rules"},
		{"tui/internal/page/bench", "frp/veilwright/tui/internal/app"},
		{"tui", "github.com/alecthomas/kong"},
		{"tui", "net/http"},
	} {
		if len(complaints(floors, bad[0], bad[1], false)) == 0 {
			t.Errorf("%s may import %s", bad[0], bad[1])
		}
	}
	if c := complaints(floors, "cmd/internal/quietstart", "github.com/charmbracelet/lipgloss", false); len(c) > 0 {
		t.Errorf("the quiet start: %q", c)
	}
}

// Go initializes packages that are ready in the order of their paths; the
// quiet start has to come before the library that asks the terminal.
func TestModulePath_sortsBeforeTheTerminalLibrary(t *testing.T) {
	if quiet := path.Join(module, "cmd/internal/quietstart"); quiet > "github.com/charmbracelet/bubbletea" {
		t.Errorf("%s sorts after the terminal library", quiet)
	}
	for _, p := range list(t) {
		if !strings.HasPrefix(p.ImportPath, module+"/") {
			t.Errorf("%s is not under %s", p.ImportPath, module)
		}
		if p.ImportPath == module+"/cmd/internal/quietstart" {
			for _, i := range p.Imports {
				if i != "github.com/charmbracelet/lipgloss" {
					t.Errorf("the quiet start waits for %s", i)
				}
			}
		}
	}
}
