//go:build unix

package e2e

import (
	"os/exec"
	"strings"
	"testing"
)

// The harness itself, on a shell that everybody has.
func TestTerminal_showsKeysSizesAndTheEnd(t *testing.T) {
	s := attach(t, exec.Command("sh", "-c", `printf 'ready\n'; stty -echo; read line; printf 'got %s\n' "$line"; stty size; read rest; stty size; exit 7`), 40, 10)
	s.see("ready")
	s.press("ab", "c", "enter")
	s.see("got abc", "10 40")
	s.resize(60, 12)
	s.press("enter")
	s.see("12 60")
	if code := s.end(); code != 7 {
		t.Errorf("ended with %d", code)
	}
}

func TestHome_runsTheProgram(t *testing.T) {
	out, problems, code := newHome(t).run(t, "--version")
	if code != 0 || problems != "" || !strings.HasPrefix(out, "veilwright ") {
		t.Errorf("%q, %q, %d", out, problems, code)
	}
}
