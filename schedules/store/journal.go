package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"frp/veilwright/schedules/internal/system"
)

// Meta says what the bytes of a journal are.
type Meta struct {
	Base  Fingerprint // of the file that the edits began from; zero for a new document
	Label string      // what to call it in a list: its title
	Rev   uint64      // counts up with every change, undo included; 0 = not counted
}

// Journal keeps the unsaved text of one open document in the state folder, for
// the next start to find should the program end without saving.
//
// Save writes at once and without waiting for the disk, which a killed program
// cannot undo; a goroutine of the journal's own makes a second copy that also
// outlasts a power cut, at most once a second. Each journal has a folder and a
// lock of its own, so that nothing that another process left is ever
// overwritten. Its methods may be called from several goroutines.
type Journal struct {
	path string // full; "" while the document has no file
	key  string

	mu     sync.Mutex
	dir    string      // "" until the first Save, and again after Drop
	lock   *os.File    // held as long as dir is there
	texts  [2]*os.File // open as long
	image  []byte      // what the newest Save wrote
	floor  uint64      // Saves of revisions before this one come too late
	saves  uint64      // counts Saves that worked, and decides whose turn it is
	hard   uint64      // saves when the power-cut copy was made
	active bool        // the goroutine runs
	closed bool
	err    error // the present trouble

	stop chan struct{}
	done sync.WaitGroup
}

// The files in a journal's folder. Save writes over the first two in turn, so
// that one is whole while the other is written. Making a new file and renaming
// it would do as well, but takes ten times as long (ext4 also begins to write
// to the disk at once then: auto_da_alloc in ext4(5)), and Save is on the way
// of every key.
const (
	textOneName = "text-1"
	textTwoName = "text-2"
	durableName = "durable" // by the goroutine; may be older, but is on the disk
	lockName    = "lock"
)

const untitled = "untitled"

// hardenEvery is the shortest time between two power-cut copies.
const hardenEvery = time.Second

// NewJournal returns the journal of the document at path, or with "" of one
// that has no file yet. Nothing is written before the first Save. End it with
// Close.
func NewJournal(path string) *Journal {
	j := &Journal{path: path, key: journalKey(path), stop: make(chan struct{})}
	if full, err := filepath.Abs(path); err == nil && path != "" {
		j.path = full // the next start may be in another folder
	}
	return j
}

func journalKey(path string) string {
	if path == "" {
		return untitled
	}
	resolved, err := Resolve(path)
	if err != nil {
		// Its folder is gone or closed; the text is worth keeping all the same.
		if resolved, err = filepath.Abs(path); err != nil {
			resolved = path
		}
	}
	return keyOf(resolved)
}

// Save keeps data as the document's present text, in place of what it kept
// before. A revision older than one kept or dropped already is passed over, so
// that Saves may overtake each other.
//
// An error says why data is not kept, or will not outlast a power cut, and is
// Trouble's from then on until keeping works again. What was kept before stays,
// and the program can go on. After Close the error is fs.ErrClosed.
func (j *Journal) Save(data []byte, m Meta) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.closed {
		return fs.ErrClosed
	}
	if m.Rev != 0 && m.Rev < j.floor {
		return nil
	}
	image, err := encodeJournal(data, j.path, m, j.saves+1, self())
	if err == nil {
		err = j.keep(image)
	}
	if err != nil {
		j.err = err
		return err
	}
	j.floor = max(j.floor, m.Rev)
	j.image = image
	j.saves++
	if !j.active {
		j.active = true
		j.done.Add(1)
		go j.harden()
	}
	if !j.hardFailed() {
		j.err = nil
	}
	return j.err
}

// Trouble returns why the newest text is not kept safe, or nil.
func (j *Journal) Trouble() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.err
}

// Drop forgets what is kept, now that revision rev is saved in a file or given
// up. A newer revision than rev is left alone, and Saves of rev and older ones
// that come later are passed over. Rev 0 drops whatever is there.
func (j *Journal) Drop(rev uint64) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if rev != 0 {
		if rev < j.floor {
			return nil
		}
		j.floor = rev + 1
	}
	return j.forget()
}

// Close ends the journal and leaves what it keeps for the next start to find,
// safe from a power cut too.
func (j *Journal) Close() error {
	j.mu.Lock()
	if j.closed {
		j.mu.Unlock()
		return nil
	}
	j.closed = true
	close(j.stop)
	j.mu.Unlock()
	j.done.Wait()

	j.mu.Lock()
	dir, image, saves := j.dir, j.image, j.saves
	soft := image != nil && j.hard != saves
	j.mu.Unlock()
	var err error
	if soft {
		err = hardenOnce(dir, image)
	}

	j.mu.Lock()
	defer j.mu.Unlock()
	if j.image == nil {
		return j.forget()
	}
	return errors.Join(err, j.letGo())
}

// hardError is the trouble of the goroutine, which a working Save does not end.
type hardError struct{ error }

func (e hardError) Unwrap() error { return e.error }

func (j *Journal) hardFailed() bool {
	var hard hardError
	return errors.As(j.err, &hard)
}

// keep writes image in place of the text before the last, without waiting for
// the disk.
func (j *Journal) keep(image []byte) error {
	if j.dir != "" {
		if _, err := os.Stat(j.dir); err != nil {
			// Somebody cleared the state folder: begin again.
			_ = j.letGo()
			j.dir, j.err = "", nil // what went wrong there no longer matters
		}
	}
	if j.dir == "" {
		if err := j.open(); err != nil {
			return err
		}
	}
	f := j.texts[j.saves%2]
	if _, err := f.WriteAt(image, 0); err != nil {
		return journalFailure(err)
	}
	// Cut after writing, not to nothing before: that has ext4 write at once too.
	if err := f.Truncate(int64(len(image))); err != nil {
		return journalFailure(err)
	}
	return nil
}

func journalFailure(err error) error {
	return failure("recovery journal", "cannot be written", err)
}

// open makes the folder. The lock is held before there is any text, so that
// others, who look at nothing without text, never take it for a dead one's.
func (j *Journal) open() error {
	base, err := stateFolderFor("journals")
	if err != nil {
		return journalFailure(err)
	}
	for range journalTries {
		if j.dir, err = os.MkdirTemp(base, j.key+"-*"); err != nil {
			break
		}
		if err = j.openFiles(); err == nil {
			return nil
		}
		_ = os.RemoveAll(j.dir)
		_ = j.letGo()
	}
	j.dir = ""
	return journalFailure(err)
}

// journalTries is how often a journal is begun again that a starting program
// took for a leftover, in the moment before it was locked. On a busy machine one that
// sweeps all the time wins most of them, so that twenty were too few.
const journalTries = 500

func (j *Journal) openFiles() error {
	create := func(name string) (*os.File, error) {
		return system.Open(filepath.Join(j.dir, name), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	}
	var err error
	if j.lock, err = create(lockName); err != nil {
		return err
	}
	if free, err := system.Lock(j.lock); err != nil || !free || !stillNamed(j.lock, j.lock.Name()) {
		return errors.Join(err, errors.New("its lock is not to be had"))
	}
	if j.texts[0], err = create(textOneName); err != nil {
		return err
	}
	j.texts[1], err = create(textTwoName)
	return err
}

// letGo closes what openFiles opened, the lock last.
func (j *Journal) letGo() error {
	err := j.closeTexts()
	if j.lock != nil {
		err = errors.Join(err, j.lock.Close())
	}
	j.lock = nil
	return err
}

func (j *Journal) closeTexts() error {
	var errs []error
	for _, f := range j.texts {
		if f != nil {
			errs = append(errs, f.Close())
		}
	}
	j.texts = [2]*os.File{}
	return errors.Join(errs...)
}

func (j *Journal) forget() error {
	j.err = nil // nothing is unsaved that should be kept
	if j.dir == "" {
		return nil
	}
	_ = j.closeTexts() // on some systems the name of an open file stays
	err := removeJournal(j.dir)
	_ = j.letGo()
	_ = os.Remove(j.dir) // where it could not be moved
	removeRest(j.dir)
	j.dir, j.image = "", nil
	return err
}

// harden makes power-cut copies until there is nothing new.
func (j *Journal) harden() {
	defer j.done.Done()
	for {
		j.mu.Lock()
		dir, image, saves := j.dir, j.image, j.saves
		if j.closed || image == nil || saves == j.hard {
			j.active = false
			j.mu.Unlock()
			return
		}
		j.mu.Unlock()

		err := hardenOnce(dir, image)

		j.mu.Lock()
		switch {
		case j.dir != dir:
			// Dropped meanwhile: whatever went wrong no longer matters.
		case err == nil:
			j.hard = saves
			if j.hardFailed() {
				j.err = nil
			}
		case j.err == nil:
			j.err = hardError{err}
		}
		j.mu.Unlock()

		pause := time.NewTimer(hardenEvery)
		select {
		case <-pause.C:
		case <-j.stop:
			pause.Stop()
		}
	}
}

// hardenOnce makes the power-cut copy. It needs no lock: a drop takes the whole
// folder away, and then there is nowhere to put a copy.
func hardenOnce(dir string, image []byte) error {
	name := filepath.Join(dir, durableName)
	next, err := system.Open(newName(name, 0), os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return journalFailure(err)
	}
	_, _, err = fillNew(next, image, writeAll)
	if err = errors.Join(err, next.Close()); err == nil {
		err = system.Replace(next.Name(), name)
	}
	if err != nil {
		_ = os.Remove(next.Name())
		return journalFailure(err)
	}
	if err := errors.Join(system.SyncFolder(dir), system.SyncFolder(filepath.Dir(dir))); err != nil {
		return journalFailure(err)
	}
	return nil
}
