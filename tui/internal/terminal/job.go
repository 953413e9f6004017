package terminal

import (
	"os"
	"sync/atomic"
	"time"

	"golang.org/x/sys/unix"
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
	// Not SIGTSTP: once a Go program was told of one, none stops it any more.
	if unix.Kill(0, unix.SIGSTOP) == nil {
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

// JobControl says why the program cannot be suspended, "" when it can. A
// stopped program needs a shell that notices and can go on with it: one that is
// in the same session and outside of the program's process group (POSIX 3.264,
// orphaned process group; such a group's stop signals are not delivered).
func JobControl() string {
	const none = "there is no shell to go to and come back from: q quits"
	own, err := unix.Getsid(0)
	if err != nil || own == os.Getpid() {
		return none
	}
	group := unix.Getpgrp()
	for pid, steps := os.Getppid(), 0; pid > 1 && steps < 32; steps++ {
		session, err := unix.Getsid(pid)
		if err != nil || session != own {
			return none
		}
		theirs, err := unix.Getpgid(pid)
		if err != nil {
			return none
		}
		if theirs != group {
			return ""
		}
		// A wrapper in the same group: its own parent may be the shell.
		pid = parentOf(pid)
	}
	return none
}
