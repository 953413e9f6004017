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

// device is the number of a terminal, whatever name it was opened by; false for
// what is no terminal.
func device(f *os.File) (number int, known bool) {
	c, err := f.SyscallConn()
	if err != nil {
		return 0, false
	}
	wrong := c.Control(func(fd uintptr) { number, err = unix.IoctlGetInt(int(fd), unix.TIOCGDEV) })
	return number, err == nil && wrong == nil
}
