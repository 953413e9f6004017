package app

import (
	"os"

	"golang.org/x/sys/unix"
)

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
