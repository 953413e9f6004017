package terminal

import (
	"sync/atomic"
	"time"
)

// Wish is what a signal asks.
type Wish int

// The wishes.
const (
	End        Wish = iota
	EndAndTell      // with what every goroutine is doing
	Suspend
	Continue
)

// Job is the program as a job of a shell.
type Job struct {
	stopped   atomic.Bool
	continued chan struct{}
}

// NewJob makes it.
func NewJob() *Job { return &Job{continued: make(chan struct{}, 1)} }

// Stop stops the program's process group, as Ctrl-Z in a terminal does, and
// returns once it goes on. The terminal has to be given back before.
func (j *Job) Stop() {
	j.stopped.Store(true)
	if stopGroup() == nil {
		// Time goes on for a stopped program too, and it may not have been
		// stopped at all: a second says nothing, but a moment after it does.
		for _, d := range []time.Duration{time.Second, 50 * time.Millisecond} {
			if j.continuedWithin(d) {
				break
			}
		}
	}
	j.stopped.Store(false)
}

func (j *Job) continuedWithin(d time.Duration) bool {
	select {
	case <-j.continued:
		return true
	case <-time.After(d):
		return false
	}
}

// Continued takes note of SIGCONT, and tells whether it ends a Stop. Otherwise
// somebody else stopped the program, with the terminal as it was.
func (j *Job) Continued() bool {
	if !j.stopped.CompareAndSwap(true, false) {
		return false
	}
	select {
	case j.continued <- struct{}{}:
	default:
	}
	return true
}
