package cli

import (
	"bytes"
	"errors"
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
