//go:build unix && !linux

package e2e

import "golang.org/x/sys/unix"

// What terminals are asked by (tty(4)).
const (
	readModes    = unix.TIOCGETA
	inputWaiting = unix.TIOCOUTQ
)
