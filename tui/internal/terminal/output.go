package terminal

import (
	"errors"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// patience is how long a terminal may take nothing at all before what is written
// to it is thrown away. A slow one, which takes a little, is waited for.
const patience = 250 * time.Millisecond

// Escape sequences (ECMA-48; the private modes are xterm's). CAN ends one that
// was cut in the middle.
const (
	can = "\x18"
	// regain sets what the library had set, some of which may be lost.
	regain = can + "\x1b[0m\x1b[?1049h\x1b[?25l\x1b[?2004h\x1b[?1002h\x1b[?1006h"
	leave  = can + "\x1b[0m\x1b[?1002l\x1b[?1006l\x1b[?2004l\x1b[?25h\x1b[?1049l"
)

// Output is a terminal to write to that holds nobody up. While the terminal
// reads, it is one like any other. Once it takes nothing for a moment (a frozen
// window, a line that hangs, Ctrl-S), what is written is thrown away, until it
// reads again and the whole screen is drawn anew.
type Output struct {
	out     *os.File
	tty     *os.File // the same, opened anew so that a write can be given up; nil where it cannot be
	repaint func()

	closed  atomic.Bool
	mu      sync.Mutex // held while something is written
	stalled bool
	waiting sync.WaitGroup // for wait
}

// NewOutput makes it of a terminal; repaint is called when the whole screen is
// to be drawn anew.
func NewOutput(out *os.File, repaint func()) *Output {
	o := &Output{out: out, repaint: repaint}
	for _, name := range []string{"/proc/self/fd/1", "/dev/tty"} {
		// Others share the open file that out is, and would not know what to do
		// with one that does not wait.
		f, err := os.OpenFile(name, writeAtOnce, 0)
		if err != nil {
			continue
		}
		this, known := device(f)
		that, _ := device(out)
		if known && this == that && f.SetWriteDeadline(time.Time{}) == nil {
			o.tty = f
			break
		}
		f.Close()
	}
	return o
}

// Write writes to the terminal, or throws away what it does not take.
func (o *Output) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.tty == nil && !o.closed.Load() {
		return o.out.Write(p)
	}
	for rest := p; len(rest) > 0; {
		if o.closed.Load() || o.stalled {
			break
		}
		if err := o.tty.SetWriteDeadline(time.Now().Add(patience)); err != nil {
			return 0, err
		}
		n, err := o.tty.Write(rest)
		rest = rest[n:]
		if errors.Is(err, os.ErrDeadlineExceeded) {
			if n == 0 && !o.closed.Load() {
				o.stalled = true
				o.waiting.Go(o.wait)
			}
			continue
		}
		if err != nil {
			return len(p) - len(rest), err
		}
	}
	return len(p), nil
}

// First shows a frame of lines from the top left of a screen that is empty.
func (o *Output) First(frame string) {
	// What the terminal does not take is drawn anew by the library.
	_, _ = o.Write([]byte("\x1b[H" + strings.ReplaceAll(frame, "\n", "\r\n")))
}

// wait goes on once the terminal reads again.
func (o *Output) wait() {
	if o.tty.SetWriteDeadline(time.Time{}) != nil || o.closed.Load() { // in this order: see Leave
		return
	}
	if _, err := o.tty.Write([]byte(regain)); err != nil {
		return
	}
	o.mu.Lock()
	o.stalled = false
	o.mu.Unlock()
	go o.repaint()
}

// Leave ends the writing, within a moment. The library has given the screen back
// by now; unless it came to that, because the terminal did not read or because
// the library is stuck, what nobody has read is thrown away for the screen to be
// given back behind it.
func (o *Output) Leave(stuck bool) {
	if o.closed.Swap(true) || o.tty == nil {
		return
	}
	_ = o.tty.SetWriteDeadline(time.Now()) // whoever writes just now gives up
	o.waiting.Wait()
	o.mu.Lock()
	defer o.mu.Unlock()
	if stuck || o.stalled {
		flush(o.tty)
		_ = o.tty.SetWriteDeadline(time.Now().Add(patience))
		_, _ = o.tty.Write([]byte(leave))
	}
	o.tty.Close()
}

// Fd is the terminal's, for the library to ask and set its modes.
func (o *Output) Fd() uintptr { return o.out.Fd() }

// Read and Close are there for the library to know a terminal by.
func (o *Output) Read(p []byte) (int, error) { return o.out.Read(p) }

// Close does nothing: see Leave.
func (*Output) Close() error { return nil }
