//go:build unix

package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
)

// The stall that is looked for is five seconds long; a program that does
// nothing takes milliseconds in the same pseudo-terminal. Anything between
// tells them apart, so the best of three runs may be this much slower than the
// best of three of the program that does nothing.
const stall = 2500 * time.Millisecond

// commands are calls of every command that needs no terminal, in a folder that
// holds tank.toml.
var commands = map[string][]string{
	"check":      {"check", "--plies", "--explain", "tank.toml", "gone.toml"},
	"wall":       {"wall", "tank.toml"},
	"winding":    {"winding", "tank.toml"},
	"takeoff":    {"takeoff", "tank.toml"},
	"advise":     {"advise", "tank.toml"},
	"propose":    {"propose", "tank.toml"},
	"verify":     {"verify", "gone.toml"},
	"compare":    {"compare", "tank.toml", "gone.toml"},
	"print":      {"print", "inspection-report", "tank.toml", "gone.toml", "gone.toml"},
	"diff":       {"diff", "tank.toml", "tank.toml"},
	"catalog":    {"catalog"},
	"rules":      {"rules"},
	"new":        {"new"},
	"tidy":       {"tidy", "tank.toml"},
	"completion": {"completion", "bash"},
}

// inTerminal are the commands that open the terminal program.
var inTerminal = []string{"practice"}

func TestHeadlessCommands_askTheTerminalNothing(t *testing.T) {
	dir := t.TempDir()
	build := func(name, pkg string) string {
		t.Helper()
		path := filepath.Join(dir, name)
		if text, err := exec.Command("go", "build", "-o", path, pkg).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		return path
	}
	idle := filepath.Join(dir, "idle.go")
	if err := os.WriteFile(idle, []byte("package main\n\nfunc main() {}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	nothing := build("idle", idle)
	program := build("veilwright", ".")

	folder := filepath.Join(dir, "jobs")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	offered := listed(t, folder, program)
	example, err := exec.Command(program, "new", "--example").Output()
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "tank.toml"), example, 0o644); err != nil {
		t.Fatal(err)
	}
	_, floor := bestOfThree(t, folder, nothing)

	calls := [][]string{{"--version"}, {"--help"}, {"chekc"}, {"help", "completion"}, {"complete", "--", ""}}
	for _, c := range offered {
		args, ok := commands[c]
		if !ok && !slices.Contains(inTerminal, c) {
			t.Errorf("%s: no call of this command is tried here", c)
		}
		if ok {
			calls = append(calls, args, []string{c, "--help"})
		}
	}
	for _, args := range calls {
		text, took := bestOfThree(t, folder, program, args...)
		if bytes.ContainsRune(text, '\x1b') {
			t.Fatalf("%q sends an escape sequence: %q", args, text)
		}
		if took > floor+stall {
			t.Fatalf("%q took %v where a program that does nothing took %v: it waits for an answer of the terminal", args, took, floor)
		}
	}
}

// listed gives the commands that completion offers in an empty folder.
func listed(t *testing.T, dir, program string) []string {
	t.Helper()
	cmd := exec.Command(program, "complete", "--", "")
	cmd.Dir = dir
	text, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	names := strings.Fields(string(text))
	if len(names) == 0 {
		t.Fatal("completion lists no command")
	}
	return names
}

// bestOfThree runs a program in a pseudo-terminal that answers nothing, and
// gives what it wrote and its shortest time.
func bestOfThree(t *testing.T, dir, program string, args ...string) ([]byte, time.Duration) {
	t.Helper()
	var all []byte
	best := time.Hour
	for range 3 {
		cmd := exec.Command(program, args...)
		cmd.Dir = dir
		// Where CI is set the styling library takes any terminal for none, and would ask nothing.
		cmd.Env = append(slices.DeleteFunc(os.Environ(), func(v string) bool {
			return strings.HasPrefix(v, "CI=") || strings.HasPrefix(v, "NO_COLOR=")
		}), "TERM=xterm-256color")
		start := time.Now()
		tty, err := pty.Start(cmd)
		if err != nil {
			t.Fatal(err)
		}
		// Reading fails with EIO when the program closes its end: that is the end.
		text, _ := io.ReadAll(tty)
		_ = cmd.Wait() // exit codes are not what is looked at here
		best = min(best, time.Since(start))
		all = append(all, text...)
		_ = tty.Close()
	}
	return all, best
}
