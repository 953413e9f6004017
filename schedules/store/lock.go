package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/system"
)

// Lock keeps other programs of this user off a document until Unlock or the
// end of the process, however it ends.
type Lock struct {
	file *os.File
}

// Holder tells who holds a lock. Fields that are not known are zero.
type Holder struct {
	PID      int       `json:"pid"`
	Host     string    `json:"host"`
	Terminal string    `json:"terminal"`
	Since    time.Time `json:"since"`
}

// LockedError says that another program holds the lock.
type LockedError struct {
	Path   string
	Holder Holder
}

func (e *LockedError) Error() string {
	var b strings.Builder
	b.WriteString(shown(e.Path) + ": is open in another program")
	h := e.Holder
	if h.PID == 0 {
		return b.String()
	}
	fmt.Fprintf(&b, ", process %d", h.PID)
	if h.Terminal != "" {
		b.WriteString(" on " + word.Clean(h.Terminal))
	}
	if here, err := os.Hostname(); h.Host != "" && (err != nil || h.Host != here) {
		b.WriteString(" of " + word.Clean(h.Host))
	}
	if !h.Since.IsZero() {
		b.WriteString(", since " + h.Since.Local().Format("15:04 on 2 January 2006"))
	}
	return b.String()
}

// TryLock takes the lock of the document at path, which need not exist, or
// fails at once. The lock is a file in the state folder, so that it works where
// the document's folder may not be written; other users have state folders of
// their own and are not kept off.
//
// The error is a *LockedError where another holds the lock, in this process or
// another; any other error says that there can be no lock, and work may go on
// without.
func TryLock(path string) (*Lock, error) {
	resolved, err := Resolve(path)
	if err != nil {
		return nil, err
	}
	dir, err := stateFolderFor("locks")
	if err != nil {
		return nil, fmt.Errorf("no lock on %s: %w", shown(path), err)
	}
	name := filepath.Join(dir, keyOf(resolved)+".lock")
	for try := 0; ; try++ {
		file, err := system.Open(name, os.O_RDWR|os.O_CREATE, 0o600)
		if err != nil && system.Passes(err) && try < lockTries {
			time.Sleep(lockPause)
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("no lock on %s: %w", shown(path), failure(name, "cannot be opened", err))
		}
		switch free, err := system.Lock(file); {
		case err != nil:
			file.Close()
			return nil, fmt.Errorf("no lock on %s: %w", shown(path), failure(name, "cannot be locked", err))
		case !free:
			holder := readHolder(file)
			file.Close()
			// Nobody in particular: a holder about to sign, or a program that
			// sweeps, which lets go at once.
			if holder.PID == 0 && try < lockTries {
				time.Sleep(lockPause)
				continue
			}
			return nil, &LockedError{Path: path, Holder: holder}
		}
		// The one before may have unlocked, and so removed, the very file
		// that was waited for: a lock on it would keep nobody off.
		if stillNamed(file, name) {
			writeHolder(file)
			return &Lock{file: file}, nil
		}
		file.Close()
	}
}

// How often, and how long apart, a lock is tried for that nobody has signed: half
// a second in all, since on a busy machine a program that sweeps may be made to
// wait while it has one.
const (
	lockTries = 100
	lockPause = 5 * time.Millisecond
)

// Unlock gives the lock back. A second call does nothing, nor one on nil.
func (l *Lock) Unlock() error {
	if l == nil || l.file == nil {
		return nil
	}
	file := l.file
	l.file = nil
	// Removed while still held: whoever opened it meanwhile looks again.
	err := os.Remove(file.Name())
	if errors.Is(err, os.ErrNotExist) {
		err = nil
	}
	return errors.Join(err, file.Close())
}

// stillNamed reports whether name leads to the very file that f has open.
func stillNamed(f *os.File, name string) bool {
	open, err := f.Stat()
	if err != nil {
		return false
	}
	named, err := os.Stat(name)
	return err == nil && os.SameFile(open, named)
}

func self() Holder {
	h := Holder{PID: os.Getpid(), Since: time.Now().Round(time.Second)}
	h.Host, _ = os.Hostname()
	// Empty where the system has no such link.
	tty, _ := os.Readlink("/proc/self/fd/0")
	if strings.HasPrefix(tty, "/dev/pts/") || strings.HasPrefix(tty, "/dev/tty") {
		h.Terminal = tty
	}
	return h
}

// writeHolder says in the lock file who has it. It only serves a message, so
// that a failure is no reason to go without a lock.
func writeHolder(f *os.File) {
	text, err := json.Marshal(self())
	if err != nil {
		return
	}
	// A new file has nothing to cut off, which would be a third of the cost of a lock.
	if info, err := f.Stat(); err != nil || info.Size() > 0 && f.Truncate(0) != nil {
		return
	}
	_, _ = f.WriteAt(text, 0)
}

// readHolder reads what writeHolder wrote. What it cannot make out, or what is
// left of a process that is gone (the new holder has not signed yet), is zero.
func readHolder(f *os.File) Holder {
	const enough = 4096
	text, err := io.ReadAll(io.NewSectionReader(f, 0, enough))
	if err != nil {
		return Holder{}
	}
	var h Holder
	if json.Unmarshal(text, &h) != nil || h.PID <= 0 {
		return Holder{}
	}
	if here, err := os.Hostname(); err == nil && here == h.Host && system.Gone(h.PID) {
		return Holder{}
	}
	return h
}
