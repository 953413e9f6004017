//go:build unix

package terminal

import (
	"os"
	"syscall"

	"golang.org/x/sys/unix"
)

// Signals are those that the program answers.
func Signals() []os.Signal {
	return []os.Signal{syscall.SIGHUP, syscall.SIGTERM, syscall.SIGINT, syscall.SIGQUIT, syscall.SIGTSTP, syscall.SIGCONT}
}

// Means tells what a signal asks.
func Means(s os.Signal) Wish {
	switch s {
	case syscall.SIGTSTP:
		return Suspend
	case syscall.SIGCONT:
		return Continue
	case syscall.SIGQUIT:
		return EndAndTell
	}
	return End
}

// writeAtOnce has a file opened so that a write to it can be given up.
const writeAtOnce = os.O_WRONLY | unix.O_NONBLOCK | unix.O_NOCTTY

// stopGroup stops the program's process group. Not by SIGTSTP: once a Go program
// was told of one, none stops it any more.
func stopGroup() error { return unix.Kill(0, unix.SIGSTOP) }

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
