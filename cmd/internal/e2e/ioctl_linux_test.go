package e2e

import "golang.org/x/sys/unix"

// What terminals are asked by (tty_ioctl(4)).
const (
	readModes    = unix.TCGETS
	inputWaiting = unix.TIOCINQ
)
