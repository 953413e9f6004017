package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"sync"

	"frp/veilwright/schedules/internal/system"
)

// AppendLog is an open log: a file that only ever grows by whole entries. While
// it is open other programs, of other users too, cannot open it as a log;
// anybody may read it. Its methods may be called from several goroutines.
type AppendLog struct {
	path     string
	resolved string
	sidecar  *Lock // nil where there is no state folder

	mu   sync.Mutex
	file *os.File
	size int64
	err  error // why no more may be appended
}

// TornTail tells of an entry that was cut short, by a power cut or a full disk,
// and was put aside when the log was opened.
type TornTail struct {
	Bytes int    // its length
	Aside string // the file that has it now, beside the log
	Sum   Sum    // of its bytes
}

// String says it in a sentence.
func (t TornTail) String() string {
	return fmt.Sprintf("the last entry was cut short; its %d bytes were moved to %s", t.Bytes, shown(t.Aside))
}

// OpenAppendLog opens the log at path, which must exist: begin one with Replace,
// so that its beginning is there whole or not at all.
//
// Complete returns how many leading bytes of the log are whole entries; all of
// them is the usual answer. It has to tell an entry that was cut at the end of
// a line from a whole one, so that an entry should end in something that only
// ends entries, such as an empty line. After a power cut the tail can also be
// zero bytes. What is not whole is moved into a file beside the log, named after
// it with .torn-1, .torn-2 and so on, before the log is cut; the TornTail tells.
// A log of which nothing is whole is refused: it is none, or not of this kind.
//
// The error is a *LockedError where another program has the log open, or this
// one has (the document's TryLock is a part of having it open).
func OpenAppendLog(path string, complete func([]byte) int) (*AppendLog, *TornTail, error) {
	resolved, err := Resolve(path)
	if err != nil {
		return nil, nil, err
	}
	// The file's own lock keeps off everybody, the sidecar can say who it is.
	sidecar, err := TryLock(path)
	var locked *LockedError
	if errors.As(err, &locked) {
		return nil, nil, err
	}
	l := &AppendLog{path: path, resolved: resolved, sidecar: sidecar}
	torn, err := l.open(complete)
	if err != nil {
		if l.file != nil {
			l.file.Close()
		}
		return nil, nil, errors.Join(err, sidecar.Unlock())
	}
	return l, torn, nil
}

func (l *AppendLog) open(complete func([]byte) int) (*TornTail, error) {
	info, err := os.Stat(l.resolved)
	if err != nil {
		return nil, failure(l.path, "cannot be opened", err)
	}
	if err := refuseWriting(l.path, l.resolved, info); err != nil {
		return nil, err
	}
	if l.file, _, err = openRegular(l.resolved, os.O_RDWR|os.O_APPEND); err != nil {
		return nil, err
	}
	switch free, err := system.Lock(l.file); {
	case err != nil:
		return nil, failure(l.path, "cannot be locked", err)
	case !free:
		return nil, &LockedError{Path: l.path}
	}
	if !stillNamed(l.file, l.resolved) {
		return nil, &ConflictError{Path: l.path, How: Edited}
	}
	data, err := readOpened(l.path, l.file, 0)
	if err != nil {
		return nil, err
	}
	whole := complete(data)
	if whole > len(data) || whole <= 0 && len(data) > 0 {
		return nil, &Error{Path: l.path, Why: "holds no whole entry, so nothing is added to it"}
	}
	l.size = int64(whole)
	if whole == len(data) {
		return nil, nil
	}
	return l.putAside(data[whole:])
}

// putAside saves the torn tail and cuts it off, in this order.
func (l *AppendLog) putAside(tail []byte) (*TornTail, error) {
	for n := 1; ; n++ {
		aside := fmt.Sprintf("%s.torn-%d", l.resolved, n)
		_, err := write(aside, tail, &Fingerprint{})
		var conflict *ConflictError
		if errors.As(err, &conflict) {
			continue
		}
		if err != nil {
			return nil, &Error{Path: l.path, Why: "its last entry was cut short, and cannot be put aside: " + err.Error(), Err: err}
		}
		if err := l.cut(); err != nil {
			return nil, failure(l.path, "its last entry was cut short, and cannot be cut off", err)
		}
		return &TornTail{Bytes: len(tail), Aside: aside, Sum: SumOf(tail)}, nil
	}
}

// cut brings the file back to its whole entries.
func (l *AppendLog) cut() error {
	return errors.Join(l.file.Truncate(l.size), l.file.Sync())
}

// Size returns the length of the log in bytes.
func (l *AppendLog) Size() int64 {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.size
}

// Append adds one entry, which must end in a newline and hold no zero byte.
// When it returns nil the entry outlasts a power cut. When it returns an error
// the log is as it was, unless the error says that a part may be there. It
// fails with a *ConflictError, and from then on always, when the file was
// changed or replaced by another program.
func (l *AppendLog) Append(entry []byte) error { return l.append(entry, writeAll) }

func (l *AppendLog) append(entry []byte, fill filler) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.err != nil {
		return l.err
	}
	if !bytes.HasSuffix(entry, []byte{'\n'}) || bytes.IndexByte(entry, 0) >= 0 {
		return &Error{Path: l.path, Why: "an entry must end in a newline and hold no zero byte"}
	}
	if l.size+int64(len(entry)) > MaxSize {
		return &Error{Path: l.path, Why: fmt.Sprintf("is full: a document may have %d MiB at most", MaxSize>>20)}
	}
	if err := l.undisturbed(); err != nil {
		l.err = err
		return err
	}
	// Not every system appends of itself.
	if _, err := l.file.Seek(l.size, io.SeekStart); err != nil {
		return l.takeBack(err)
	}
	if err := fill(l.file, entry); err != nil {
		return l.takeBack(err)
	}
	if err := l.file.Sync(); err != nil {
		// The system may have thrown away what it could not write and not
		// say so a second time (fsync(2)): only opening anew tells.
		err = l.takeBack(err)
		l.err = err
		return err
	}
	l.size += int64(len(entry))
	return nil
}

func (l *AppendLog) takeBack(cause error) error {
	err := failure(l.path, "the entry was not added", cause)
	if cut := l.cut(); cut != nil {
		err = &Error{Path: l.path, Why: "the entry was not added (" + explain(cause) +
			") and a part of it may be there, to be put aside when the log is opened next", Err: cause}
		l.err = err
	}
	return err
}

// undisturbed is an error when the file is another, or of another length, than
// this log left it.
func (l *AppendLog) undisturbed() error {
	named, err := os.Stat(l.resolved)
	if errors.Is(err, fs.ErrNotExist) {
		return &ConflictError{Path: l.path, How: Removed}
	}
	if err != nil {
		return failure(l.path, "the entry was not added", err)
	}
	open, err := l.file.Stat()
	if err != nil {
		return failure(l.path, "the entry was not added", err)
	}
	if !os.SameFile(open, named) || open.Size() != l.size {
		return &ConflictError{Path: l.path, How: Edited}
	}
	return nil
}

// Close ends the log. A second call does nothing.
func (l *AppendLog) Close() error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.file == nil {
		return nil
	}
	err := errors.Join(l.file.Close(), l.sidecar.Unlock())
	l.file, l.sidecar = nil, nil
	l.err = &Error{Path: l.path, Why: "is closed", Err: fs.ErrClosed}
	return err
}
