package terminal

import (
	"os"

	"golang.org/x/sys/unix"
)

// flush throws away what was written and not read yet (tcflush(3)).
func flush(tty *os.File) {
	if c, err := tty.SyscallConn(); err == nil {
		_ = c.Control(func(fd uintptr) { _ = unix.IoctlSetInt(int(fd), unix.TCFLSH, unix.TCOFLUSH) })
	}
}
