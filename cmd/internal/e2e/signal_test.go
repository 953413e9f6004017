//go:build unix

package e2e

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// clog has the terminal read nothing any more, and the program write until it
// must be waiting: the kernel holds some 12 KiB, which is three screens.
func (s *terminal) clog() (thaw func()) {
	s.t.Helper()
	thaw = s.freeze()
	tick := time.NewTicker(20 * time.Millisecond) // longer than a frame
	defer tick.Stop()
	for n, full := 0, 0; full < 20; n++ {
		s.resize(cols-1+n%2, rows)
		s.press("i")
		<-tick.C
		waiting, err := unix.IoctlGetInt(int(s.tty.Fd()), inputWaiting)
		wakeable(s.t, s.tty)
		if err != nil || n > 1000 {
			s.t.Fatalf("the terminal does not fill up: %d bytes, %v", waiting, err)
		}
		if waiting >= 4095 { // all that shows of it (N_TTY_BUF_SIZE)
			full++
		}
	}
	s.resize(cols, rows)
	return thaw
}

// A frozen window, a line that hangs: nobody reads what the program writes.
func TestFrozenTerminal_losesNoWorkAndEndsWhenAsked(t *testing.T) {
	for _, sig := range []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP} {
		t.Run(sig.String(), func(t *testing.T) {
			t.Parallel()
			h := newHome(t)
			before := h.example(t, "a.toml")
			s := h.open(t, "a.toml")
			s.see("BENCH", "saved", "▸10 ")
			thaw := s.clog()
			s.press("+", "+", "+", "+", "+", "+")
			h.journalled(t, "= 7")
			s.signal(sig)
			select {
			case <-s.waited:
			case <-time.After(patience):
				t.Fatal("it does not end")
			}
			if !s.cooked() {
				t.Error("the terminal is left raw")
			}
			thaw()
			if code := s.end(); code != 2 {
				t.Errorf("ended with %d", code)
			}
			if s.inAltScreen() {
				t.Error("the terminal is left in the other screen")
			}
			h.recovers(t, before)
		})
	}
}

func TestFrozenTerminal_goesOnWhereItReadsAgain(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	h.example(t, "a.toml")
	s := h.open(t, "a.toml")
	s.see("BENCH", "saved", "▸10 ")
	thaw := s.clog()
	s.press("+", "+", "+", "+", "+", "+")
	h.journalled(t, "= 7")
	thaw()
	s.see("BENCH", "not saved", "×7")
	s.press("+").see("×8")
	s.press("s").see("saved a.toml")
	s.press("q")
	if code := s.end(); code != 0 {
		t.Errorf("ended with %d", code)
	}
}

func TestQuitSignal_keepsTheWorkAndGivesTheTerminalBack(t *testing.T) {
	h := newHome(t)
	s, before := h.edited(t)
	s.signal(syscall.SIGQUIT)
	if code := s.end(); code != 2 {
		t.Errorf("ended with %d", code)
	}
	if s.inAltScreen() || !s.cooked() {
		t.Error("the terminal is left as the program had it")
	}
	if !strings.Contains(s.wire(), "goroutine ") {
		t.Error("it does not say what it was doing")
	}
	h.recovers(t, before)
}

// numbered is a prompt that tells how many commands there were. The one before a program
// shows again when that leaves its own screen, and it may still be at work then, in a
// folder that is about to be removed; the next one shows when it has ended.
const numbered = `PS1=ready \#> `

// shell is an interactive shell with the program running in it.
func (h home) shell(t *testing.T) (s *terminal, pid int) {
	t.Helper()
	cmd := exec.Command("bash", "--norc", "--noprofile", "-i")
	cmd.Dir = h.dir
	cmd.Env = append(h.env, numbered, "PROGRAM="+program)
	s = attach(t, cmd, cols, rows)
	s.see("ready 1>")
	s.press(`"$PROGRAM" a.toml`, "enter").see("BENCH", "saved")
	list, err := os.ReadFile(fmt.Sprintf("/proc/%d/task/%d/children", cmd.Process.Pid, cmd.Process.Pid))
	if err != nil {
		t.Fatal(err)
	}
	if pid, err = strconv.Atoi(strings.TrimSpace(string(list))); err != nil {
		t.Fatalf("the shell's children are %q", list)
	}
	return s, pid
}

// Stopped by somebody else, the program comes back whole: drawn, and with keys
// that need no Enter.
func TestStopped_byASignalComesBackAsItWas(t *testing.T) {
	for _, sig := range []syscall.Signal{syscall.SIGTSTP, syscall.SIGSTOP} {
		t.Run(sig.String(), func(t *testing.T) {
			t.Parallel()
			h := newHome(t)
			h.example(t, "a.toml")
			s, pid := h.shell(t)
			s.press("+").see("topcoat ×2")
			for n := 3; n < 6; n++ {
				if err := syscall.Kill(pid, sig); err != nil {
					t.Fatal(err)
				}
				s.see("Stopped")
				if sig == syscall.SIGTSTP && s.inAltScreen() {
					t.Error("stopped, the shell is left in the program's screen")
				}
				s.press("fg", "enter")
				s.until("the program's screen", func(screen string) bool {
					return strings.Contains(screen, "BENCH") && !strings.Contains(screen, "Stopped")
				})
				s.press("+").see(fmt.Sprintf("topcoat ×%d", n))
				if s.cooked() {
					t.Error("it goes on with a terminal that echoes")
				}
			}
			s.press("q").see("NOT SAVED")
			s.press("2", "x").see("ready 5>") // it was started, and stopped three times
		})
	}
}

// under lists the files under the state folder and beside the documents, but the
// list of those that were open last.
func (h home) under(t *testing.T) []string {
	t.Helper()
	var files []string
	for _, dir := range []string{h.state(), h.dir} {
		_ = filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
			if err == nil && !d.IsDir() && d.Name() != "recent.json" {
				name, _ := filepath.Rel(dir, path)
				files = append(files, name)
			}
			return nil
		})
	}
	return files
}

func TestLocks_areGoneHoweverTheProgramEnds(t *testing.T) {
	for name, end := range map[string]func(s *terminal){
		"quit":       func(s *terminal) { s.press("q") },
		"terminated": func(s *terminal) { s.signal(syscall.SIGTERM) },
		"hung up":    func(s *terminal) { s.signal(syscall.SIGHUP) },
		"with a record open": func(s *terminal) {
			s.press("tab").see("lay-up")
			s.press("5").see("no record")
			s.press("3").see("start a new record")
			s.press("1").see("serial number")
			s.press("C-1", "enter", "enter").see("begun a-record-1.toml")
			s.press("q")
		},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			h := newHome(t)
			h.example(t, "a.toml")
			s := h.open(t, "a.toml")
			s.see("BENCH", "saved")
			end(s)
			s.end()
			files := h.under(t)
			files = slices.DeleteFunc(files, func(name string) bool { return filepath.Ext(name) == ".toml" })
			if len(files) > 0 {
				t.Errorf("left behind: %q", files)
			}
		})
	}
	t.Run("killed with a record open, and started again", func(t *testing.T) {
		t.Parallel()
		h := newHome(t)
		h.example(t, "a.toml")
		s := h.open(t, "a.toml")
		s.see("BENCH", "saved")
		s.press("tab").see("lay-up")
		s.press("5").see("no record")
		s.press("3").see("start a new record")
		s.press("1").see("serial number")
		s.press("C-1", "enter", "enter").see("begun a-record-1.toml")
		s.signal(syscall.SIGKILL)
		s.end()
		s = h.open(t, "a.toml")
		s.see("BENCH", "saved")
		// It sweeps beside everything else: on a busy machine that takes its time.
		left := func() (n int) {
			for _, name := range h.under(t) {
				if filepath.Ext(name) == ".lock" {
					n++
				}
			}
			return n
		}
		for limit := time.Now().Add(patience); left() > 1 && time.Now().Before(limit); {
			time.Sleep(10 * time.Millisecond)
		}
		s.press("q")
		s.end()
		if files := h.under(t); !slices.Equal(files, []string{"a-record-1.toml", "a.toml"}) {
			t.Errorf("left behind: %q", files)
		}
	})
	t.Run("no terminal", func(t *testing.T) {
		h := newHome(t)
		h.example(t, "a.toml")
		if _, said, code := h.run(t, "a.toml"); code != 2 || !strings.Contains(said, "terminal") {
			t.Errorf("%d, %s", code, said)
		}
		if files := h.under(t); !slices.Equal(files, []string{"a.toml"}) {
			t.Errorf("left behind: %q", files)
		}
	})
}

// What killed programs left is gone after the next start, and nothing else is.
func TestStart_sweepsWhatIsLeft(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	key := strings.Repeat("0123456789abcdef", 2)
	left := map[string]string{
		h.path(".a.toml.veilwright-new"):                                           "half of it",
		filepath.Join(h.state(), "locks", key+".lock"):                             "",
		filepath.Join(h.state(), "journals", ".gone-"+key+"-1", "text-1"):          "somebody's text",
		filepath.Join(h.state(), "journals", "untitled-17", "lock"):                "",
		filepath.Join(h.state(), "journals", ".gone-untitled-18", "durable"):       "",
		filepath.Join(h.state(), "journals", ".gone-untitled-18", "text-2"):        "",
		filepath.Join(h.state(), "journals", key+"-19", ".durable.veilwright-new"): "",
		filepath.Join(h.state(), "journals", key+"-19", "lock"):                    "",
	}
	stays := map[string]string{h.path(".a.toml.swp"): "an editor's", filepath.Join(h.state(), "locks", "notes"): "mine"}
	for _, files := range []map[string]string{left, stays} {
		for path, text := range files {
			if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	s := h.open(t, "a.toml")
	s.see("BENCH", "saved")
	// It sweeps beside everything else: a busy machine may take a while.
	swept := func() bool {
		for path := range left {
			if _, err := os.Lstat(path); err == nil {
				return false
			}
		}
		return true
	}
	for range 200 {
		if swept() {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	s.press("q")
	s.end()
	want := []string{"locks/notes", ".a.toml.swp", "a.toml"}
	if files := h.under(t); !slices.Equal(files, want) {
		t.Errorf("there are %q, want %q", files, want)
	}
}
