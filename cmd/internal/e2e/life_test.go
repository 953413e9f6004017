//go:build unix

package e2e

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// journalled waits until the state folder keeps a text.
func (h home) journalled(t *testing.T, text string) {
	t.Helper()
	state := h.state()
	tick := time.NewTicker(5 * time.Millisecond)
	defer tick.Stop()
	for limit := time.Now().Add(patience); time.Now().Before(limit); <-tick.C {
		found := false
		_ = filepath.WalkDir(state, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || strings.Contains(path, ".veilwright-new") { // not kept before it has its name
				return nil //nolint:nilerr // files come and go while it works
			}
			kept, err := os.ReadFile(path)
			// The journal may hold the text as a value of another format.
			plain := strings.NewReplacer(`\n`, "\n", `\"`, `"`).Replace(string(kept))
			found = found || err == nil && strings.Contains(plain, text)
			return nil
		})
		if found {
			return
		}
	}
	t.Fatalf("nothing under %s keeps %q", state, text)
}

// state is the folder of what the program keeps for itself.
func (h home) state() string {
	for _, v := range h.env {
		if dir, ok := strings.CutPrefix(v, "XDG_STATE_HOME="); ok {
			return filepath.Join(dir, "veilwright")
		}
	}
	return ""
}

// edited opens the example and counts its topcoat up to seven, which is kept
// but not saved.
func (h home) edited(t *testing.T) (s *terminal, before string) {
	t.Helper()
	before = h.example(t, "a.toml")
	s = h.open(t, "a.toml")
	s.see("BENCH", "saved", "▸10 ")
	s.press("+", "+", "+", "+", "+", "+").see("not saved", "×7")
	h.journalled(t, "= 7")
	return s, before
}

// recovers reopens the example and takes what was left behind.
func (h home) recovers(t *testing.T, before string) {
	t.Helper()
	if h.read(t, "a.toml") != before {
		t.Error("the file changed without a save")
	}
	s := h.open(t, "a.toml")
	s.see("UNSAVED WORK")
	s.press("enter").see("not saved", "×7")
	s.press("s").see("saved a.toml")
	s.press("q")
	if code := s.end(); code != 0 {
		t.Errorf("ended with %d", code)
	}
	if !strings.Contains(h.read(t, "a.toml"), "= 7") {
		t.Errorf("what was recovered was not saved:\n%s", h.read(t, "a.toml"))
	}
	next := h.open(t, "a.toml")
	if screen := next.see("BENCH", "saved"); strings.Contains(screen, "UNSAVED WORK") {
		t.Errorf("recovered and saved, it is offered again:\n%s", screen)
	}
}

func TestRecovery_afterKill(t *testing.T) {
	h := newHome(t)
	s, before := h.edited(t)
	s.signal(syscall.SIGKILL)
	s.end()
	h.recovers(t, before)
}

func TestRecovery_afterHangup(t *testing.T) {
	h := newHome(t)
	s, before := h.edited(t)
	s.signal(syscall.SIGHUP)
	if code := s.end(); code == 0 {
		t.Error("a hang-up ended as if a person had quit")
	}
	if s.inAltScreen() {
		t.Error("the terminal was left in the other screen")
	}
	h.recovers(t, before)
}

func TestRecovery_afterTheTerminalWentAway(t *testing.T) {
	h := newHome(t)
	s, before := h.edited(t)
	// Closing its other end hangs up every process on the terminal.
	if err := s.tty.Close(); err != nil {
		t.Fatal(err)
	}
	select {
	case <-s.waited:
	case <-time.After(patience):
		t.Fatal("the program outlives its terminal")
	}
	h.recovers(t, before)
}

func TestTwoTerminals_doNotOverwriteEachOther(t *testing.T) {
	h := newHome(t)
	before := h.example(t, "a.toml")
	first := h.open(t, "a.toml")
	first.see("BENCH", "saved")
	second := h.open(t, "a.toml")
	second.see("BENCH")
	second.press("+").see("×2")
	second.press("s").see("read only")
	if h.read(t, "a.toml") != before {
		t.Error("the second terminal wrote the file that the first has open")
	}
	first.press("+", "+").see("×3")
	first.press("s").see("saved a.toml")
	if !strings.Contains(h.read(t, "a.toml"), "= 3") {
		t.Error("the first terminal could not save")
	}
}

func TestFile_changedBehindOnesBackIsNoticed(t *testing.T) {
	h := newHome(t)
	before := h.example(t, "a.toml")
	s := h.open(t, "a.toml")
	s.see("BENCH", "saved")
	s.press("+").see("not saved")
	theirs := strings.Replace(before, "revision = 3", "revision = 4", 1)
	h.write(t, "a.toml", theirs)
	s.press("s").see("changed")
	if h.read(t, "a.toml") != theirs {
		t.Error("somebody else's change was overwritten without a question")
	}
}

func TestReadOnlyFolder_keepsTheWorkAndTheFile(t *testing.T) {
	h := newHome(t)
	before := h.example(t, "a.toml")
	if err := os.Chmod(h.dir, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.Chmod(h.dir, 0o755) })
	s := h.open(t, "a.toml")
	s.see("BENCH")
	s.press("+").see("×2")
	s.press("s").see("read only")
	if h.read(t, "a.toml") != before {
		t.Error("the file in a read-only folder was written")
	}
	s.see("×2")
	entries, err := os.ReadDir(h.dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("something was left beside it: %v, %v", entries, err)
	}
}

// A file size limit of zero is a disk that is full for everybody: document,
// journal and lock.
func TestFullDisk_keepsTheWorkAndTheFile(t *testing.T) {
	h := newHome(t)
	before := h.example(t, "a.toml")
	cmd := exec.Command("sh", "-c", `ulimit -f 0; exec "$0" a.toml`, program)
	cmd.Dir, cmd.Env = h.dir, h.env
	s := attach(t, cmd, cols, rows)
	s.see("BENCH")
	s.press("+").see("not saved", "×2")
	s.press("s")
	s.until("a word on why it was not saved", func(screen string) bool {
		return strings.Contains(screen, "largest file size") || strings.Contains(screen, "read only") || strings.Contains(screen, "full")
	})
	s.see("not saved", "×2")
	if h.read(t, "a.toml") != before {
		t.Error("the file was lost on a full disk")
	}
}

func TestSuspend_comesBackAsItWas(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	shell := exec.Command("bash", "--norc", "--noprofile", "-i")
	shell.Dir = h.dir
	shell.Env = append(h.env, numbered, "PROGRAM="+program)
	s := attach(t, shell, cols, rows)
	s.see("ready 1>")
	s.press(`"$PROGRAM" a.toml`, "enter").see("BENCH", "saved")
	s.press("+").see("×2")
	s.press("ctrl+z").see("Stopped")
	if s.inAltScreen() {
		t.Error("suspended, the shell is left in the program's screen")
	}
	s.press("fg", "enter").see("BENCH", "not saved", "×2")
	s.press("+").see("×3")
	// The shell's death is not the program's, which would go on keeping its work
	// in a folder that is being removed.
	s.press("s").see("saved")
	s.press("q").see("ready 3>")
}

func TestSuspend_isRefusedWhereNobodyCouldResume(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	s := h.open(t, "a.toml")
	s.see("BENCH", "saved")
	s.press("ctrl+z").press("+").see("×2")
}
