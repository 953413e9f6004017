package store

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"github.com/google/renameio/v2"
	"golang.org/x/sys/unix"
)

// ConflictError says that a file changed behind one's back and was left as it
// is.
type ConflictError struct {
	Path string
	How  Change // Edited, Removed or Created
}

func (e *ConflictError) Error() string {
	return shown(e.Path) + ": " + e.How.String() + "; it was left as it is"
}

// Write replaces the file at path with data, in one step: whoever reads it, and
// whatever breaks, finds the old bytes or the new. A symbolic link stays and
// its target is replaced. The file keeps its mode, and its owner where that may
// be given; a new file gets 0666 less the umask.
//
// With expect the file must still be what it was (by content: a touch does not
// count), or for the zero Fingerprint not exist, else it is left alone and the
// error is a *ConflictError. Nil replaces whatever is there. The last look is
// taken just before the replacement; between programs of one user TryLock
// closes what gap that leaves.
//
// A file without any write bit, or in a folder without any, is refused even
// where the system would let it pass (as it lets root): somebody marked it so.
//
// The error is a *Error or a *ConflictError. After one with the zero
// Fingerprint the old file stands and nothing is left beside it; one with a
// Fingerprint says that the new bytes are in place, but might not outlast a
// power cut.
func Write(path string, data []byte, expect *Fingerprint) (Fingerprint, error) {
	return replace(path, data, expect, writeAll)
}

// filler writes all of data to w. Tests give one that fails halfway.
type filler func(w io.Writer, data []byte) error

func writeAll(w io.Writer, data []byte) error {
	_, err := w.Write(data)
	return err
}

func replace(path string, data []byte, expect *Fingerprint, fill filler) (Fingerprint, error) {
	if len(data) > MaxSize {
		return Fingerprint{}, tooLarge(path, nil)
	}
	resolved, err := Resolve(path)
	if err != nil {
		return Fingerprint{}, err
	}
	old, err := os.Stat(resolved)
	if err != nil {
		if !errors.Is(err, fs.ErrNotExist) {
			return Fingerprint{}, failure(path, "cannot be saved", err)
		}
		old = nil
	}
	if old != nil {
		if err := refuseWriting(path, resolved, old); err != nil {
			return Fingerprint{}, err
		}
	}
	if err := refuseFolder(path, resolved); err != nil {
		return Fingerprint{}, err
	}
	if err := conflict(path, resolved, expect); err != nil {
		return Fingerprint{}, err
	}
	return swap(path, resolved, data, old, expect, fill)
}

// swap is replace past the checks that need no writing.
func swap(path, resolved string, data []byte, old fs.FileInfo, expect *Fingerprint, fill filler) (Fingerprint, error) {
	folder := filepath.Dir(resolved)
	mode := renameio.WithPermissions(0o666)
	if old != nil {
		mode = renameio.WithStaticPermissions(old.Mode().Perm())
	}
	// The folder is named, or the library would try renames to find one out.
	next, err := renameio.NewPendingFile(resolved, renameio.WithTempDir(folder), mode)
	if err != nil {
		return Fingerprint{}, notSaved(path, err)
	}
	defer func() { _ = next.Cleanup() }() // of a file that is in place already it does nothing
	if old != nil {
		keepOwner(next.File, old)
	}
	if err := fill(next, data); err != nil {
		return Fingerprint{}, notSaved(path, err)
	}
	if err := next.Sync(); err != nil {
		return Fingerprint{}, notSaved(path, err)
	}
	now := time.Now()
	info, err := next.Stat()
	if err != nil {
		return Fingerprint{}, notSaved(path, err)
	}
	// The writing took its time: look again.
	if err := conflict(path, resolved, expect); err != nil {
		return Fingerprint{}, err
	}
	if err := next.CloseAtomicallyReplace(); err != nil {
		return Fingerprint{}, notSaved(path, err)
	}
	print := fingerprint(info, SumOf(data), now)
	if err := syncFolder(folder); err != nil {
		return print, failure(path, "is saved, but a power cut might undo that", err)
	}
	return print, nil
}

func notSaved(path string, err error) error {
	return failure(path, "not saved, and the file is as it was", err)
}

func conflict(path, resolved string, expect *Fingerprint) error {
	if expect == nil {
		return nil
	}
	how, err := Since(resolved, *expect)
	if err != nil {
		return err
	}
	if how != Unchanged {
		return &ConflictError{Path: path, How: how}
	}
	return nil
}

// keepOwner gives the new file the old one's owner and group. Who may not give
// files away keeps at least the group, or else owns what he wrote.
func keepOwner(next *os.File, old fs.FileInfo) {
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

// refuseWriting is an error where the file that info is of may not be written.
func refuseWriting(path, resolved string, info fs.FileInfo) error {
	if !info.Mode().IsRegular() {
		return refuseKind(path, info)
	}
	if info.Mode().Perm()&0o222 == 0 {
		return &Error{Path: path, Why: "is marked read-only", Err: fs.ErrPermission}
	}
	if err := unix.Access(resolved, unix.W_OK); err != nil {
		return failure(path, "may not be written", err)
	}
	return nil
}

// refuseFolder is an error where the file's folder may not take a replacement.
func refuseFolder(path, resolved string) error {
	folder := filepath.Dir(resolved)
	in, err := os.Stat(folder)
	if err != nil {
		return &Error{Path: path, Why: "its folder cannot be found: " + explain(err), Err: err}
	}
	if in.Mode().Perm()&0o222 == 0 {
		return &Error{Path: path, Why: "its folder is marked read-only", Err: fs.ErrPermission}
	}
	if err := unix.Access(folder, unix.W_OK|unix.X_OK); err != nil {
		return &Error{Path: path, Why: "its folder may not be written: " + explain(err), Err: err}
	}
	return nil
}

// syncFolder makes the names in a folder outlast a power cut. File systems that
// know no such thing say EINVAL or ENOTSUP (fsync(2)), which is no fault.
func syncFolder(folder string) error {
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
