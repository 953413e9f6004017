//go:build unix

package system

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"golang.org/x/sys/unix"
)

// Flags of Open beside those of package os.
const (
	NoWait   = syscall.O_NONBLOCK | syscall.O_NOCTTY // do not wait for a pipe's other end, nor take a terminal
	NoFollow = syscall.O_NOFOLLOW                    // refuse a symbolic link
)

// Open opens a file that may be renamed and removed while it is open.
func Open(name string, flag int, mode fs.FileMode) (*os.File, error) {
	return os.OpenFile(name, flag, mode)
}

// AtOnce reads a file that was opened with NoWait and never waits, as package os
// would: a regular file of the kernel's may give no end, but more when there is
// more (its log, a trace). Reading on is EAGAIN then.
func AtOnce(f *os.File) io.Reader { return atOnce{f} }

type atOnce struct{ f *os.File }

func (r atOnce) Read(p []byte) (int, error) {
	raw, err := r.f.SyscallConn()
	if err != nil {
		return 0, err
	}
	n := 0
	wrong := raw.Read(func(fd uintptr) bool {
		for {
			if n, err = syscall.Read(int(fd), p); !errors.Is(err, syscall.EINTR) {
				return true
			}
		}
	})
	switch {
	case wrong != nil:
		return 0, wrong
	case err != nil:
		return 0, err
	case n == 0 && len(p) > 0:
		return 0, io.EOF
	}
	return n, nil
}

// Lock takes the exclusive lock on an open file, which ends when the file is
// closed, by hand or by the end of the process. It reports false where somebody
// else has it. Readers are not kept off.
func Lock(f *os.File) (bool, error) {
	for {
		err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
		switch {
		case err == nil:
			return true, nil
		case errors.Is(err, syscall.EINTR):
		case errors.Is(err, syscall.EWOULDBLOCK):
			return false, nil
		default:
			return false, err
		}
	}
}

// Replace puts the file next in the place of the one at path, in one step.
func Replace(next, path string) error { return os.Rename(next, path) }

// Passes tells whether an error of Open, Replace or a removal may be over in a
// moment, without anybody's doing.
func Passes(error) bool { return false }

// SyncFolder makes the names in a folder outlast a power cut. File systems that
// know no such thing say EINVAL or ENOTSUP (fsync(2)), which is no fault.
func SyncFolder(folder string) error {
	d, err := os.Open(folder)
	if err != nil {
		// A folder may be open to writing and searching, but not to reading.
		if errors.Is(err, fs.ErrPermission) {
			return nil
		}
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) && !errors.Is(err, syscall.ENOTSUP) {
		return err
	}
	return nil
}

// Number is the file's in its file system (the inode), 0 where it has none.
// Path is where info was taken of.
func Number(_ string, info fs.FileInfo) uint64 {
	if st, ok := info.Sys().(*syscall.Stat_t); ok {
		return st.Ino
	}
	return 0
}

// HasOtherNames tells whether the file at path, which info was taken of, has
// further names (hard links). Info then stays good for os.SameFile once another
// file is at path.
func HasOtherNames(_ string, info fs.FileInfo) bool {
	st, ok := info.Sys().(*syscall.Stat_t)
	return ok && st.Nlink > 1
}

// IsOwn tells whether a file is this user's.
func IsOwn(info fs.FileInfo) bool {
	st, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(st.Uid) == os.Geteuid()
}

// KeepOwner gives the new file the old one's owner and group. Who may not give
// files away keeps at least the group, or else owns what he wrote.
func KeepOwner(next *os.File, old fs.FileInfo) {
	was, ok := old.Sys().(*syscall.Stat_t)
	if !ok {
		return
	}
	info, err := next.Stat()
	if err != nil {
		return
	}
	if is, ok := info.Sys().(*syscall.Stat_t); ok && is.Uid == was.Uid && is.Gid == was.Gid {
		return
	}
	if next.Chown(int(was.Uid), int(was.Gid)) != nil {
		_ = next.Chown(-1, int(was.Gid))
	}
}

// MayWrite is an error where the system would not let this user write a file.
func MayWrite(path string) error { return unix.Access(path, unix.W_OK) }

// MayWriteFolder is an error where the system would not let this user make files
// in a folder. A folder without any write bit is refused with fs.ErrPermission
// even where the system would let it pass, as it lets root.
func MayWriteFolder(folder string, info fs.FileInfo) error {
	if info.Mode().Perm()&0o222 == 0 {
		return fs.ErrPermission
	}
	return unix.Access(folder, unix.W_OK|unix.X_OK)
}

// Gone tells whether a process of this machine has ended; not knowing is false.
func Gone(pid int) bool { return errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) }

// StateFolder and ConfigFolder are where the system has a program keep what is
// its own and what a user sets, by its environment; "" where that does not say.
// Source: XDG Base Directory Specification 0.8.
func StateFolder() string { return underHome(".local", "state") }

// ConfigFolder is described with StateFolder.
func ConfigFolder() string { return underHome(".config") }

func underHome(below ...string) string {
	home := os.Getenv("HOME")
	if !filepath.IsAbs(home) {
		return ""
	}
	return filepath.Join(home, filepath.Join(below...))
}

// Home names the variables that StateFolder and ConfigFolder go by, for a message.
const Home = "HOME"

// Explain puts errors that only this system has into plain words, "" for others.
func Explain(error) string { return "" }
