//go:build unix

package tui

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

// hangVariable makes this test binary a program that hangs once a shop book
// cannot be searched for.
const hangVariable = "TUI_TEST_HANG"

func TestMain(m *testing.M) {
	if os.Getenv(hangVariable) == "" {
		os.Exit(m.Run())
	}
	d, err := editor.FromBytes("vent.toml", []byte(stack), shop.New(shop.Options{Trouble: func(error) {
		_, _ = os.Stderr.WriteString("hangs: ")
		select {}
	}}))
	if err == nil {
		err = Run(d, Options{Theme: "mono"})
	}
	_, _ = os.Stderr.WriteString(err.Error())
}

// A mistake in the program that never ends takes neither the work with it nor
// the terminal, and the system's wish to end it is heard.
func TestRun_endsWhenAskedThoughItHangs(t *testing.T) {
	state, dir := t.TempDir(), t.TempDir()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe)
	cmd.Dir = dir
	// With another terminal the color library asks it for its colors first.
	cmd.Env = append(os.Environ(), hangVariable+"=1", "XDG_STATE_HOME="+state, "TERM=screen")
	said, says, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stderr = says
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 80, Rows: 24})
	if err != nil {
		t.Fatal(err)
	}
	says.Close()
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait(); tty.Close(); said.Close() })
	seen := ""
	see := func(text string) {
		t.Helper()
		b := make([]byte, 32<<10)
		for !strings.Contains(seen, text) {
			n, err := tty.Read(b)
			if err != nil {
				t.Fatalf("%v before %q was seen", err, text)
			}
			seen += string(b[:n])
		}
	}
	see("BENCH")
	_, _ = io.WriteString(tty, "+")
	see("×2")
	book := filepath.Join(dir, store.BookName) // a link in a circle
	if err := os.Symlink(book, book); err != nil {
		t.Fatal(err)
	}
	_, _ = io.WriteString(tty, "s")
	if _, err := said.Read(make([]byte, len("hangs: "))); err != nil {
		t.Fatal(err)
	}
	rest := make(chan string)
	go func() {
		b, _ := io.ReadAll(tty) // a terminal whose program ended gives an error
		rest <- string(b)
	}()
	if err := cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	select {
	case end := <-rest:
		if !strings.Contains(seen+end, "\x1b[?1049l") {
			t.Errorf("the terminal is left in the program's screen: %q", end)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("it does not end")
	}
	word, _ := io.ReadAll(said)
	if !strings.Contains(string(word), "ended by the system (terminated) while it did not answer") || !strings.Contains(string(word), "kept") {
		t.Errorf("it says %q", word)
	}
	kept := errors.New("nothing is kept")
	_ = filepath.WalkDir(state, func(path string, d fs.DirEntry, err error) error {
		if b, wrong := os.ReadFile(path); err == nil && wrong == nil && strings.Contains(string(b), "count") {
			kept = nil
		}
		return nil
	})
	if kept != nil {
		t.Error(kept)
	}
}
