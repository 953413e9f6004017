//go:build unix

package pace

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/creack/pty"
)

// terminal runs a program in a pseudo-terminal, keeps the clock of its output
// and answers the queries a common terminal answers, unless silent.
type terminal struct {
	cmd     *exec.Cmd
	file    *os.File
	started time.Time
	silent  bool

	mark  []byte // what is on the wire once the program is ready
	begun chan begun

	mu   sync.Mutex
	last time.Time // of the latest output
	wake chan struct{}
}

func start(tb testing.TB, silent bool, mark, program string, args ...string) *terminal {
	tb.Helper()
	t := &terminal{cmd: exec.Command(program, args...), silent: silent, mark: []byte(mark), begun: make(chan begun, 1), wake: make(chan struct{}, 1)}
	home := tb.TempDir()
	t.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "HOME="+home, "XDG_STATE_HOME="+filepath.Join(home, "state"),
		"XDG_CONFIG_HOME="+filepath.Join(home, "config"), "CI=", "NO_COLOR=")
	t.started = time.Now()
	f, err := pty.StartWithSize(t.cmd, &pty.Winsize{Rows: 36, Cols: 120})
	if err != nil {
		tb.Fatal(err)
	}
	t.file = f
	go t.read()
	tb.Cleanup(t.stop)
	return t
}

func (t *terminal) read() {
	buf := make([]byte, 64<<10)
	var seen []byte
	for {
		n, err := t.file.Read(buf)
		if n > 0 {
			t.mu.Lock()
			t.last = time.Now()
			t.mu.Unlock()
			if !t.silent {
				t.answer(buf[:n])
			}
			if t.mark != nil {
				// At once: what a program does after its first frame is no part of its start.
				if seen = append(seen, buf[:n]...); bytes.Contains(seen, t.mark) {
					t.begun <- begun{t.last.Sub(t.started), t.cpu(), t.memory("VmRSS:"), t.memory("RssAnon:"), t.faults()}
					t.mark, seen = nil, nil
				}
			}
			select {
			case t.wake <- struct{}{}:
			default:
			}
		}
		if err != nil {
			return
		}
	}
}

func (t *terminal) answer(out []byte) {
	if bytes.Contains(out, []byte("\x1b]11;?")) {
		_, _ = io.WriteString(t.file, "\x1b]11;rgb:0000/0000/0000\x1b\\")
	}
	if bytes.Contains(out, []byte("\x1b[6n")) {
		_, _ = io.WriteString(t.file, "\x1b[1;1R")
	}
}

var errNothing = errors.New("no output came")

// ready waits until the program is.
func (t *terminal) ready() (begun, error) {
	select {
	case b := <-t.begun:
		return b, nil
	case <-time.After(20 * time.Second):
		return begun{}, errNothing
	}
}

// press sends a key and says how long the first output after it took.
func (t *terminal) press(key string) (time.Duration, error) {
	select {
	case <-t.wake:
	default:
	}
	sent := time.Now()
	if _, err := io.WriteString(t.file, key); err != nil {
		return 0, err
	}
	select {
	case <-t.wake:
	case <-time.After(5 * time.Second):
		return 0, errNothing
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.last.Sub(sent), nil
}

// cpu is the processor time of the process so far.
func (t *terminal) cpu() time.Duration {
	tasks, _ := filepath.Glob("/proc/" + strconv.Itoa(t.cmd.Process.Pid) + "/task/*/schedstat")
	var total time.Duration
	for _, task := range tasks {
		b, err := os.ReadFile(task)
		if err != nil {
			continue
		}
		ns, _ := strconv.ParseInt(strings.Fields(string(b))[0], 10, 64)
		total += time.Duration(ns)
	}
	return total
}

// memory is a line of what the system says of the process, in KiB: VmRSS is all
// that is resident, RssAnon that of it which is in no file.
func (t *terminal) memory(what string) float64 {
	b, _ := os.ReadFile("/proc/" + strconv.Itoa(t.cmd.Process.Pid) + "/status")
	for line := range strings.Lines(string(b)) {
		if rest, ok := strings.CutPrefix(line, what); ok {
			kib, _ := strconv.ParseFloat(strings.Fields(rest)[0], 64)
			return kib
		}
	}
	return 0
}

// faults is how many pages the system had to bring in so far, whatever else is on
// the cores: each costs a microsecond or two.
func (t *terminal) faults() float64 {
	b, _ := os.ReadFile("/proc/" + strconv.Itoa(t.cmd.Process.Pid) + "/stat")
	const minor = 7 // of the fields behind the name, which ends with a bracket (proc_pid_stat(5))
	fields := strings.Fields(string(b[bytes.LastIndexByte(b, ')')+1:]))
	if len(fields) <= minor {
		return 0
	}
	n, _ := strconv.ParseFloat(fields[minor], 64)
	return n
}

func (t *terminal) stop() {
	_ = t.cmd.Process.Kill()
	_ = t.cmd.Wait()
	_ = t.file.Close()
}
