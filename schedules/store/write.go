package store

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/system"
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

// Terms are those on which Replace puts bytes into a file.
type Terms struct {
	// Expect is what must be there: the file that was read, written or asked
	// about last, by content (a touch does not count); the zero Fingerprint
	// stands for no file.
	Expect Fingerprint
	// Lock is the file's where the caller holds it. Without one Replace takes
	// it for as long as it writes.
	Lock *Lock
	// Journal keeps the bytes before the file is touched, and drops them once
	// the file has them; nil where nobody's unsaved work is at stake.
	Journal *Journal
	Meta    Meta // what the journal says of them
}

// Replace puts data in the place of the file at path, in one step: whoever reads
// it, and whatever breaks, finds the old bytes or the new. Everything that
// replaces a document's file comes through here, so that each keeps to one
// order: the lock, what is expected to be there, the journal, the file.
//
// A symbolic link stays and its target is replaced. The file keeps its mode, its
// owner where that may be given, and its other names in the same folder (hard
// links), which lead to the new bytes too; names in other folders keep the old
// ones, which is what copies made of links are for. A new file gets 0666 less
// the umask.
//
// A file without any write bit, or in a folder without any, is refused even
// where the system would let it pass (as it lets root): somebody marked it so.
// The last look at what is there is taken just before the replacement; between
// programs of one user the lock closes what gap that leaves.
//
// The error is a *ConflictError where the file is another than expected, a
// *LockedError where another program has it open, or a *Error. After one with
// the zero Fingerprint the old file stands and nothing is left beside it; one
// with a Fingerprint says that the new bytes are in place, and what of it may
// not last.
func Replace(path string, data []byte, t Terms) (Fingerprint, error) {
	if t.Lock == nil {
		lock, err := TryLock(path)
		var locked *LockedError
		if errors.As(err, &locked) {
			// What is not as expected will not be when it is free either.
			if how, e := Since(path, t.Expect); e == nil && how != Unchanged {
				return Fingerprint{}, &ConflictError{Path: path, How: how}
			}
			return Fingerprint{}, locked
		}
		// Where there can be no lock at all, the fingerprint guards alone.
		defer func() { _ = lock.Unlock() }() // what was written stands either way
	}
	if t.Journal == nil {
		return write(path, data, &t.Expect)
	}
	// Without a journal there is all the more reason to save.
	_ = t.Journal.Save(data, t.Meta)
	print, err := write(path, data, &t.Expect)
	if !print.IsZero() {
		err = errors.Join(err, t.Journal.Drop(t.Meta.Rev))
	}
	return print, err
}

// write is Replace without lock and journal; expecting nil it replaces whatever
// is there.
func write(path string, data []byte, expect *Fingerprint) (Fingerprint, error) {
	return replace(path, data, expect, writeAll)
}

// Put puts data in the place of a small file of the program's own, or makes it:
// at once for whoever reads it, without waiting for the disk, and whatever is
// there. Its folder is made where it is missing. The error is a *Error.
func Put(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return failure(path, "cannot be written", err)
	}
	next, err := createNew(path, nil)
	if err != nil {
		return failure(path, "cannot be written", err)
	}
	defer next.Close()
	if err = writeAll(next, data); err == nil {
		err = system.Replace(next.Name(), path)
	}
	if err != nil {
		_ = os.Remove(next.Name())
		return failure(path, "cannot be written", err)
	}
	return nil
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
	next, err := createNew(resolved, old)
	if err != nil {
		return Fingerprint{}, notSaved(path, err)
	}
	linked := old != nil && system.HasOtherNames(resolved, old)
	info, now, err := fillNew(next, data, fill)
	if err == nil {
		// The writing took its time: look again.
		err = conflict(path, resolved, expect)
	}
	if err == nil {
		err = system.Replace(next.Name(), resolved)
	}
	if err != nil {
		_ = os.Remove(next.Name()) // while it is locked still, see sweepNew
		next.Close()
		var changed *ConflictError
		if errors.As(err, &changed) {
			return Fingerprint{}, err
		}
		return Fingerprint{}, notSaved(path, err)
	}
	print := fingerprint(resolved, info, SumOf(data), now)
	if linked {
		err = otherNames(path, resolved, old)
	}
	next.Close()
	if e := system.SyncFolder(filepath.Dir(resolved)); e != nil {
		err = errors.Join(err, failure(path, "is saved, but a power cut might undo that", e))
	}
	return print, err
}

// fillNew writes a new file and sees it on the disk.
func fillNew(next *os.File, data []byte, fill filler) (fs.FileInfo, time.Time, error) {
	if err := fill(next, data); err != nil {
		return nil, time.Time{}, err
	}
	if err := next.Sync(); err != nil {
		return nil, time.Time{}, err
	}
	now := time.Now()
	info, err := next.Stat()
	return info, now, err
}

// otherNames gives the new file the other names that the old one had in its
// folder. None of them is ever missing or half-written either.
func otherNames(path, resolved string, old fs.FileInfo) error {
	folder := filepath.Dir(resolved)
	entries, err := os.ReadDir(folder)
	var errs []error
	for _, e := range entries {
		name := filepath.Join(folder, e.Name())
		if info, err := os.Lstat(name); name == resolved || err != nil || !os.SameFile(old, info) {
			continue
		}
		next := newName(name, 0)
		sweepNew(next)
		if err = os.Link(resolved, next); err == nil {
			err = system.Replace(next, name)
		}
		if err != nil {
			_ = os.Remove(next)
			errs = append(errs, failure(path, "is saved, but its other name "+word.Clean(e.Name())+" keeps the old text", err))
		}
	}
	if err != nil {
		errs = append(errs, failure(path, "is saved, but its other names could not be looked for", err))
	}
	return errors.Join(errs...)
}

func notSaved(path string, err error) error {
	if _, gone := os.Stat(path); errors.Is(gone, fs.ErrNotExist) {
		return failure(path, "not saved, and there is no such file", err)
	}
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

// refuseWriting is an error where the file that info is of may not be written.
func refuseWriting(path, resolved string, info fs.FileInfo) error {
	if !info.Mode().IsRegular() {
		return refuseKind(path, info)
	}
	if info.Mode().Perm()&0o222 == 0 {
		return &Error{Path: path, Why: "is marked read-only", Err: fs.ErrPermission}
	}
	if err := system.MayWrite(resolved); err != nil {
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
	switch err := system.MayWriteFolder(folder, in); {
	case err == fs.ErrPermission: //nolint:errorlint // the very one, not what counts as it
		return &Error{Path: path, Why: "its folder is marked read-only", Err: err}
	case err != nil:
		return &Error{Path: path, Why: "its folder may not be written: " + explain(err), Err: err}
	}
	return nil
}
