package cli

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"frp/veilwright/cmd/internal/completion"
)

func TestCode_worseIsOrderedAndUnusableWins(t *testing.T) {
	rising := []Code{Fine, Incomplete, Broken, Unusable}
	for i, a := range rising {
		for j, b := range rising {
			if got, want := a.worse(b), rising[max(i, j)]; got != want {
				t.Errorf("%d and %d end with %d, want %d", a, b, got, want)
			}
		}
	}
}

// run calls the command line without a process of its own.
func run(args ...string) (stdout, stderr string, code Code) {
	var out, problems bytes.Buffer
	code = Run(args, Process{In: strings.NewReader(""), Out: &out, Err: &problems, Getenv: func(string) string { return "" }})
	return out.String(), problems.String(), code
}

// goneWriter is what nobody reads any more, or what is full.
type goneWriter struct{ err error }

func (w goneWriter) Write([]byte) (int, error) { return 0, w.err }

// Whoever reads no further knows that they do not: nothing is said of it, only
// the exit code tells. Everything else that keeps results from arriving is said once.
func TestRun_saysOnceThatResultsDoNotArrive(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	r.Close()
	t.Chdir(t.TempDir())
	for _, args := range [][]string{{"practice", "--glossary"}, {"practice", "--list"}, {"catalog", "--json"}, {"--help"}, {"--version"}, {"new", "--example"}, {"completion", "fish"}} {
		for want, out := range map[string]io.Writer{"": w, "veilwright: writing results: the disk is on strike\n": goneWriter{errors.New("the disk is on strike")}} {
			var problems bytes.Buffer
			code := Run(args, Process{In: strings.NewReader(""), Out: out, Err: &problems, Getenv: func(string) string { return "" }})
			if code != Unusable || problems.String() != want {
				t.Errorf("%q: code %d, %q, want %q", args, code, problems.String(), want)
			}
		}
	}
}

func TestAdvise_ofABadTableTellsTheFirstRowsAndCounts(t *testing.T) {
	t.Chdir(t.TempDir())
	example, _, _ := run("new", "--example")
	table := "fluid,concentration,temperature,family,build,grade,source,date\n" + strings.Repeat("x\n", 4_000) + "\"lye"
	for name, text := range map[string]string{"a.toml": example, "a.csv": table} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	const most = 20
	_, problems, code := run("advise", "--ratings", "a.csv", "a.toml")
	lines := strings.Split(strings.TrimSpace(problems), "\n")
	if code != Unusable || len(lines) != most+2 {
		t.Fatalf("code %d, %d lines:\n%s", code, len(lines), problems)
	}
	if got, want := lines[most], "veilwright: a.csv: 3980 more rows rejected, lines 22 to 4001; 0 are taken"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if !strings.HasPrefix(lines[most+1], "veilwright: a.csv:4002: row rejected: ") {
		t.Errorf("%q", lines[most+1])
	}
}

func TestRun_neverPanicsWhateverIsTyped(t *testing.T) {
	t.Chdir(t.TempDir())
	words := rapid.SampledFrom([]string{
		"check", "rules", "catalog", "completion", "complete", "help", "--json", "--units", "si", "--help", "-h",
		"--version", "--", "-", "", "--book", "--no-book", "=", "--units=us", "-x", "---", "\x1b[2J", "nowhere", "--theme=",
	})
	rapid.Check(t, func(t *rapid.T) {
		args := rapid.SliceOfN(words, 1, 5).Draw(t, "args")
		stdout, stderr, code := run(args...)
		if strings.ContainsRune(stdout+stderr, '\x1b') {
			t.Fatalf("%q sends an escape sequence: %q %q", args, stdout, stderr)
		}
		if code == Unusable && stderr == "" {
			t.Fatalf("%q is refused without a word", args)
		}
	})
}

func TestCompletion_worksInBash(t *testing.T) {
	dir := t.TempDir()
	for _, f := range []string{"alpha line.toml", "beta.toml", "note.txt"} {
		if err := os.WriteFile(filepath.Join(dir, f), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	// The program's stand-in is this test binary, which testscript runs by name.
	program := filepath.Join(t.TempDir(), "veilwright")
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(self, program); err != nil {
		t.Fatal(err)
	}
	const ask = `
source /dev/stdin
shift_words() { COMP_WORDS=("$@"); COMP_CWORD=$(( $# - 1 )); COMPREPLY=(); _veilwright; printf '%s\n' "${COMPREPLY[@]}"; }
shift_words "$VEILWRIGHT" "${TYPED[@]}"
`
	for typed, want := range map[string]string{
		"compl":            "completion\n",
		"completion ":      "bash\nfish\nzsh\n",
		"completion f":     "fish\n",
		"--units ":         "si\nus\n",
		"--units = s":      "si\n",
		"alp":              "alpha line.toml\n",
		`alpha\_li`:        "alpha line.toml\n",
		"completion --the": "--theme\n",
		"nothing-like-it":  "\n",
	} {
		var quoted []string
		for _, w := range strings.Split(typed, " ") {
			quoted = append(quoted, "'"+strings.ReplaceAll(w, "_", " ")+"'")
		}
		cmd := exec.Command("bash", "--norc", "-c", "TYPED=("+strings.Join(quoted, " ")+")"+ask)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "VEILWRIGHT="+program)
		cmd.Stdin = strings.NewReader(completion.Script(completion.Bash))
		text, err := cmd.Output()
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			t.Fatalf("%q: %v\n%s", typed, err, exit.Stderr)
		}
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(want, string(text)); d != "" {
			t.Errorf("after %q: %s", typed, d)
		}
	}
}
