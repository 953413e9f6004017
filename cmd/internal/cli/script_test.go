package cli_test

import (
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"frp/veilwright/cmd/internal/cli"
)

// The program under test is this test binary, run under the program's name.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"veilwright": func() { os.Exit(int(cli.Main())) },
	})
}

// Scripts run in testdata/script; -update rewrites what they expect of cmp.
func TestCommands(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       os.Getenv("UPDATE_SCRIPTS") != "",
		Setup: func(e *testscript.Env) error {
			e.Setenv("HOME", filepath.Join(e.WorkDir, ".home"))
			e.Setenv("XDG_CONFIG_HOME", filepath.Join(e.WorkDir, ".home", "config"))
			e.Setenv("XDG_STATE_HOME", filepath.Join(e.WorkDir, ".home", "state"))
			e.Setenv("LATIN", "caf\xe9.toml")
			e.Setenv("LONG", strings.Repeat("x", 20_000))
			e.Setenv("BELL", "a\ab")
			e.Setenv("SEPARATOR", strings.Trim(strconv.Quote(string(filepath.Separator)), `"`)) // as JSON has it; ${/} as text has it
			return os.MkdirAll(filepath.Join(e.WorkDir, ".home"), 0o755)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"ends":   ends,
			"json":   jsonOutput,
			"make":   makeFile,
			"vanish": vanish,
			"join":   joinFiles,
			"swap":   swapText,
		},
	})
}

// noFigure is a figure that is none, with a unit or share behind it.
var noFigure = regexp.MustCompile(`(NaN|Inf) +(mil|mm|in|ft|lb|kg|oz|g|psi|kPa|Msi|GPa|%|°)`)

// ends CODE PROGRAM ARGS…: the program ends with that code. Output is left for
// stdout and stderr.
func ends(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: ends CODE PROGRAM ARGS...")
	}
	err := ts.Exec(args[1], args[2:]...)
	code := 0
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		code = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if strconv.Itoa(code) != args[0] {
		ts.Fatalf("%s ended with %d, not %s", strings.Join(args[1:], " "), code, args[0])
	}
	for _, stream := range []string{"stdout", "stderr"} {
		text := ts.ReadFile(stream)
		if strings.ContainsRune(text, '\x1b') {
			ts.Fatalf("an escape sequence on %s: %q", stream, text)
		}
		if strings.Contains(text, "goroutine ") || strings.Contains(text, "panic:") {
			ts.Fatalf("a panic: %s", text)
		}
		if noFigure.MatchString(text) {
			ts.Fatalf("what is no number on %s: %s", stream, text)
		}
	}
}

// json PATH VALUE: what standard output holds at a path of keys and indices
// ("0.zones.total.thickness_mm") is VALUE, both as JSON. "PATH #N" compares
// the length. Without arguments: it is one JSON value.
func jsonOutput(ts *testscript.TestScript, neg bool, args []string) {
	dec := json.NewDecoder(strings.NewReader(ts.ReadFile("stdout")))
	var at any
	if err := dec.Decode(&at); err != nil {
		ts.Fatalf("standard output is no JSON: %v", err)
	}
	if dec.More() {
		ts.Fatalf("standard output has more than one JSON value")
	}
	if len(args) == 0 {
		return
	}
	for _, key := range strings.FieldsFunc(args[0], func(r rune) bool { return r == '.' }) {
		switch v := at.(type) {
		case []any:
			i, err := strconv.Atoi(key)
			if err != nil || i >= len(v) {
				ts.Fatalf("%s: no element %s of %d", args[0], key, len(v))
			}
			at = v[i]
		case map[string]any:
			next, ok := v[key]
			if !ok {
				ts.Fatalf("%s: no key %s", args[0], key)
			}
			at = next
		default:
			ts.Fatalf("%s: nothing inside %v", args[0], v)
		}
	}
	want := strings.Join(args[1:], " ")
	got, err := json.Marshal(at)
	ts.Check(err)
	if length, ok := strings.CutPrefix(want, "#"); ok {
		got, want = []byte(strconv.Itoa(size(at))), length
	}
	if (string(got) == want) == neg {
		ts.Fatalf("%s is %s; asked for %s", args[0], got, want)
	}
}

func size(v any) int {
	switch v := v.(type) {
	case []any:
		return len(v)
	case map[string]any:
		return len(v)
	}
	return -1
}

// make FILE COUNT TEXT [HEAD [TAIL]]: a file of TEXT repeated, Go escapes
// understood, between HEAD and TAIL.
func makeFile(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: make FILE COUNT TEXT [HEAD [TAIL]]")
	}
	count, err := strconv.Atoi(args[1])
	ts.Check(err)
	parts := []string{"", "", ""}
	for i, a := range args[2:] {
		parts[i], err = strconv.Unquote(`"` + strings.ReplaceAll(a, `"`, `\"`) + `"`)
		ts.Check(err)
	}
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	_, err = f.WriteString(parts[1])
	ts.Check(err)
	chunk := strings.Repeat(parts[0], 1000)
	for ; count >= 1000; count -= 1000 {
		_, err = f.WriteString(chunk)
		ts.Check(err)
	}
	_, err = f.WriteString(strings.Repeat(parts[0], count) + parts[2])
	ts.Check(err)
	ts.Check(f.Close())
}

// join OUT FILE…: one file of several.
func joinFiles(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: join OUT FILE…")
	}
	var all string
	for _, name := range args[1:] {
		all += ts.ReadFile(name)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(all), 0o666))
}

// swap FILE OLD NEW OUT: a file with a text, which it must have, replaced.
func swapText(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 4 {
		ts.Fatalf("usage: swap FILE OLD NEW OUT")
	}
	text := ts.ReadFile(args[0])
	if !strings.Contains(text, args[1]) {
		ts.Fatalf("%s has no %q", args[0], args[1])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[3]), []byte(strings.ReplaceAll(text, args[1], args[2])), 0o666))
}

// vanish PROGRAM ARGS…: run with a standard output whose reader is gone; what
// it says on standard error is left in the file "said", its code checked.
func vanish(ts *testscript.TestScript, neg bool, args []string) {
	path, err := exec.LookPath(args[0])
	if err != nil {
		path = filepath.Join(filepath.SplitList(ts.Getenv("PATH"))[0], args[0])
	}
	reader, writer, err := os.Pipe()
	ts.Check(err)
	ts.Check(reader.Close())
	cmd := exec.Command(path, args[1:]...)
	cmd.Dir = ts.MkAbs(".")
	cmd.Env = append(os.Environ(), "HOME="+ts.Getenv("HOME"), "PATH="+ts.Getenv("PATH"))
	var said strings.Builder
	cmd.Stdout, cmd.Stderr = writer, &said
	_ = cmd.Run() // the code is looked at
	ts.Check(writer.Close())
	if code := cmd.ProcessState.ExitCode(); code != int(cli.Unusable) || neg {
		ts.Fatalf("ended with %d: %s", code, said.String())
	}
	ts.Check(os.WriteFile(ts.MkAbs("said"), []byte(said.String()), 0o600))
}
