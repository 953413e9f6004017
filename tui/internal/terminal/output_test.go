//go:build unix

package terminal

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/creack/pty"
)

// roleVariable makes this test binary play the program on a terminal.
const roleVariable = "TERMINAL_TEST_ROLE"

func TestMain(m *testing.M) {
	if os.Getenv(roleVariable) == "" {
		os.Exit(m.Run())
	}
	again := make(chan struct{}, 1)
	o := NewOutput(os.Stdout, func() { again <- struct{}{} })
	frame := bytes.Repeat([]byte("0123456789abcdef"), 4096) // more than a terminal holds
	_, _ = o.Write(frame)
	_, _ = o.Write(frame)
	if os.Getenv(roleVariable) == "regain" {
		_, _ = os.Stderr.WriteString("written\n")
		<-again
		_, _ = o.Write([]byte("drawn anew"))
		o.Leave(false)
		return
	}
	o.Leave(true)
	_, _ = os.Stderr.WriteString("left\n")
}

// on plays a role on a terminal that nobody reads, until it says something.
func on(t *testing.T, role, says string) *os.File {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe)
	// With another terminal the color library asks it for its colors first.
	cmd.Env = append(os.Environ(), roleVariable+"="+role, "TERM=dumb")
	said, says2, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stderr = says2
	tty, err := pty.Start(cmd)
	if err != nil {
		t.Fatal(err)
	}
	says2.Close()
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait(); tty.Close(); said.Close() })
	b := make([]byte, 100)
	n, err := said.Read(b)
	if err != nil || strings.TrimSpace(string(b[:n])) != says {
		t.Fatalf("it says %q, %v", b[:n], err)
	}
	return tty
}

// all is what a terminal was sent in the end.
func all(tty *os.File) string {
	var b bytes.Buffer
	_, _ = b.ReadFrom(tty) // a terminal whose program ended gives an error
	return b.String()
}

func TestOutput_isDrawnAnewOnceTheTerminalReadsAgain(t *testing.T) {
	got := all(on(t, "regain", "written"))
	if !strings.HasSuffix(got, regain+"drawn anew") {
		t.Errorf("in the end the terminal got %q", got[max(0, len(got)-200):])
	}
}

func TestOutput_leavesATerminalThatNobodyReads(t *testing.T) {
	got := all(on(t, "leave", "left"))
	if !strings.HasSuffix(got, leave) {
		t.Errorf("in the end the terminal got %q", got[max(0, len(got)-200):])
	}
}
