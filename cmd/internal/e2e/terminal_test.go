//go:build unix

// Package e2e runs the built program in a pseudo-terminal, with a virtual
// screen where a person's would be: it types keys, waits for what the screen
// shows, resizes, kills, and looks at what is left on disk.
package e2e

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
	"golang.org/x/sys/unix"

	// The program is built outside of the test's sight: without this its results
	// would be kept though the program has changed.
	_ "frp/veilwright/cmd/internal/cli"
)

// patience is how long a screen may take to show what is waited for. It is a
// limit for machines under load, not a measure; nothing sleeps.
const patience = 20 * time.Second

// program is the path of the binary under test, built once, as the tests are:
// with the race detector or without.
var program string

// raceLog is what the names of files begin with in which the race detector of
// the program under test says what it found, whatever becomes of the program.
var raceLog string

func TestMain(m *testing.M) {
	code, err := buildAndRun(m)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		code = 1
	}
	os.Exit(code)
}

func buildAndRun(m *testing.M) (int, error) {
	dir, err := os.MkdirTemp("", "veilwright-e2e-")
	if err != nil {
		return 0, err
	}
	defer func() { _ = os.RemoveAll(dir) }()
	program = filepath.Join(dir, "veilwright")
	build := exec.Command("go", "build", "-race="+strconv.FormatBool(raced), "-o", program, "frp/veilwright/cmd/veilwright")
	if text, err := build.CombinedOutput(); err != nil {
		return 0, fmt.Errorf("building the program: %w\n%s", err, text)
	}
	raceLog = filepath.Join(dir, "race")
	code := m.Run()
	found, err := filepath.Glob(raceLog + ".*")
	for _, name := range found {
		text, err := os.ReadFile(name)
		fmt.Fprintf(os.Stderr, "the program ran into a race:\n%s\n%v\n", text, err)
		code = 1
	}
	return code, err
}

// home is a place for one user of the program: folders of their own, nothing
// of the machine's.
type home struct {
	dir string // the present folder
	env []string
}

func newHome(t *testing.T) home {
	t.Helper()
	top := t.TempDir()
	h := home{dir: filepath.Join(top, "jobs")}
	for _, d := range []string{h.dir, filepath.Join(top, "state"), filepath.Join(top, "config")} {
		if err := os.Mkdir(d, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	h.env = []string{
		"TERM=xterm-256color", "LANG=C.UTF-8", "HOME=" + top, "PATH=" + os.Getenv("PATH"), "TMPDIR=" + top,
		"XDG_STATE_HOME=" + filepath.Join(top, "state"), "XDG_CONFIG_HOME=" + filepath.Join(top, "config"),
		"GORACE=log_path=" + raceLog,
	}
	return h
}

func (h home) path(name string) string { return filepath.Join(h.dir, name) }

func (h home) read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(h.path(name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func (h home) write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(h.path(name), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// run runs a command without a terminal.
func (h home) run(t *testing.T, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	cmd := exec.Command(program, args...)
	cmd.Dir, cmd.Env = h.dir, h.env
	var out, problems strings.Builder
	cmd.Stdout, cmd.Stderr = &out, &problems
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return out.String(), problems.String(), cmd.ProcessState.ExitCode()
}

// terminal is the program in a pseudo-terminal, seen through a virtual screen.
type terminal struct {
	t   *testing.T
	cmd *exec.Cmd
	tty *os.File

	frozen  sync.Mutex // held while the terminal reads nothing
	mu      sync.Mutex // guards screen, which is not safe by itself, and raw
	screen  *vt.Emulator
	raw     []byte
	changed chan struct{} // holds one token when the screen changed
	ended   chan struct{} // closed when the output ended
	mortal  bool          // a killed program is no failure: waits end in lost
	waited  chan struct{} // closed when the process was waited for
}

const (
	cols = 120
	rows = 36
)

// open starts the program in a terminal of the usual size.
func (h home) open(t *testing.T, args ...string) *terminal {
	t.Helper()
	cmd := exec.Command(program, args...)
	cmd.Dir, cmd.Env = h.dir, h.env
	return attach(t, cmd, cols, rows)
}

func attach(t *testing.T, cmd *exec.Cmd, w, h int) *terminal {
	t.Helper()
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: uint16(w), Rows: uint16(h)})
	if err != nil {
		t.Fatal(err)
	}
	wakeable(t, tty)
	s := &terminal{
		t: t, cmd: cmd, tty: tty, screen: vt.NewEmulator(w, h),
		changed: make(chan struct{}, 1), ended: make(chan struct{}), waited: make(chan struct{}),
	}
	// Answers of the screen to the program's questions; without a reader, writing to it would block.
	go func() { _, _ = io.Copy(tty, s.screen) }()
	go s.follow()
	go func() {
		_ = cmd.Wait()
		close(s.waited)
	}()
	t.Cleanup(func() {
		_ = cmd.Process.Kill()
		<-s.waited
		_ = tty.Close()
		_ = s.screen.InputPipe().(io.Closer).Close()
	})
	return s
}

// wakeable undoes that setting a size makes the file blocking: closing it has
// to wake its reader, or the terminal would not go away.
func wakeable(t *testing.T, tty *os.File) {
	t.Helper()
	if err := syscall.SetNonblock(int(tty.Fd()), true); err != nil {
		t.Fatal(err)
	}
}

func (s *terminal) follow() {
	defer close(s.ended)
	buf := make([]byte, 32<<10)
	for {
		s.frozen.Lock()
		s.frozen.Unlock() //nolint:staticcheck // a gate, not a section
		n, err := s.tty.Read(buf)
		if n > 0 {
			s.mu.Lock()
			_, _ = s.screen.Write(buf[:n])
			s.raw = append(s.raw, buf[:n]...)
			s.mu.Unlock()
			select {
			case s.changed <- struct{}{}:
			default:
			}
		}
		if err != nil {
			return
		}
	}
}

// text is what the screen shows, lines without trailing blanks.
func (s *terminal) text() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	lines := strings.Split(s.screen.String(), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " \r")
	}
	return strings.Join(lines, "\n")
}

// inAltScreen tells whether the program holds the whole screen.
func (s *terminal) inAltScreen() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.screen.IsAltScreen()
}

// until waits for the screen to satisfy a condition.
func (s *terminal) until(what string, holds func(screen string) bool) string {
	s.t.Helper()
	limit := time.NewTimer(patience)
	defer limit.Stop()
	for {
		now := s.text()
		if holds(now) {
			return now
		}
		select {
		case <-s.changed:
		case <-s.ended:
			if now = s.text(); holds(now) {
				return now
			}
			if s.mortal {
				panic(lost{})
			}
			s.t.Fatalf("the program ended before %s; the screen was\n%s", what, now)
		case <-limit.C:
			s.t.Fatalf("waited in vain for %s; the screen is\n%s", what, s.text())
		}
	}
}

// see waits until all the texts stand on the screen.
func (s *terminal) see(texts ...string) string {
	s.t.Helper()
	return s.until(fmt.Sprintf("%q", texts), func(screen string) bool {
		for _, text := range texts {
			if !strings.Contains(screen, text) {
				return false
			}
		}
		return true
	})
}

// which waits until one of the texts stands on the screen, and gives the last of
// those that do: what opens over a page hides nothing of its title.
func (s *terminal) which(texts ...string) (found string) {
	s.t.Helper()
	s.until(fmt.Sprintf("one of %q", texts), func(screen string) bool {
		for _, text := range texts {
			if strings.Contains(screen, text) {
				found = text
			}
		}
		return found != ""
	})
	return found
}

// wire is what the program has sent so far, escape sequences and all.
func (s *terminal) wire() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return string(s.raw)
}

// gone waits until a text has left the screen.
func (s *terminal) gone(text string) {
	s.t.Helper()
	s.until(fmt.Sprintf("%q to go", text), func(screen string) bool { return !strings.Contains(screen, text) })
}

var named = map[string]string{
	"enter": "\r", "esc": "\x1b", "tab": "\t", "backspace": "\x7f", "space": " ",
	"up": "\x1b[A", "down": "\x1b[B", "right": "\x1b[C", "left": "\x1b[D",
	"home": "\x1b[H", "end": "\x1b[F", "pgup": "\x1b[5~", "pgdown": "\x1b[6~", "delete": "\x1b[3~",
	"ctrl+c": "\x03", "ctrl+z": "\x1a", "ctrl+u": "\x15", "ctrl+a": "\x01", "ctrl+k": "\x0b",
}

// press types keys, named or as text, each on its own; "" waits as read does.
func (s *terminal) press(keys ...string) *terminal {
	s.t.Helper()
	for _, k := range keys {
		if k == "" {
			s.read()
		}
		if bytes, ok := named[k]; ok {
			k = bytes
		}
		if _, err := io.WriteString(s.tty, k); err != nil && s.mortal {
			panic(lost{})
		} else if err != nil {
			s.t.Fatalf("typing %q: %v; the screen is\n%s", k, err, s.text())
		}
	}
	return s
}

// read waits as long as somebody takes at least who looks at what opened: keys
// that edit at once rest so long, for they may be typed ahead for something else.
func (s *terminal) read() *terminal {
	time.Sleep(250 * time.Millisecond)
	return s
}

// resize changes the terminal's size as a window does.
func (s *terminal) resize(w, h int) {
	s.t.Helper()
	s.mu.Lock()
	s.screen.Resize(w, h)
	s.mu.Unlock()
	if err := pty.Setsize(s.tty, &pty.Winsize{Cols: uint16(w), Rows: uint16(h)}); err != nil {
		s.t.Fatal(err)
	}
	wakeable(s.t, s.tty)
}

// freeze has the terminal read nothing any more, but for what it waits for just
// now; what it gives back has it read again.
func (s *terminal) freeze() (thaw func()) {
	s.frozen.Lock()
	thaw = sync.OnceFunc(s.frozen.Unlock)
	s.t.Cleanup(thaw)
	return thaw
}

// cooked tells whether the terminal is in the modes that a shell wants.
func (s *terminal) cooked() bool {
	s.t.Helper()
	modes, err := unix.IoctlGetTermios(int(s.tty.Fd()), readModes)
	wakeable(s.t, s.tty)
	if err != nil {
		s.t.Fatal(err)
	}
	const wants = unix.ICANON | unix.ECHO | unix.ISIG
	return modes.Lflag&wants == wants
}

// signal sends a signal to the program itself.
func (s *terminal) signal(sig syscall.Signal) {
	s.t.Helper()
	if err := s.cmd.Process.Signal(sig); err != nil {
		s.t.Fatal(err)
	}
}

// end waits for the program to end and gives its exit code, -1 after a signal.
func (s *terminal) end() int {
	s.t.Helper()
	select {
	case <-s.waited:
	case <-time.After(patience):
		s.t.Fatalf("the program does not end; the screen is\n%s", s.text())
	}
	select {
	case <-s.ended:
	case <-time.After(patience):
		s.t.Fatal("the terminal stays open")
	}
	return s.cmd.ProcessState.ExitCode()
}
