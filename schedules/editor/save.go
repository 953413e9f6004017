package editor

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// ErrNoName is what Save and Reload return for a document that has no file yet.
var ErrNoName = errors.New("the schedule has no file yet: save it under a name")

// errNotSaved is what SaveAs returns for a document opened by Unjudged.
var errNotSaved = errors.New("this is handed in, not saved")

// ConflictError says that the file changed behind one's back, or exists where a
// new one was to be. It was left as it is.
type ConflictError = store.ConflictError

// Save writes the schedule into its file, in one step. The error is ErrNoName,
// a *ConflictError, a *store.LockedError while another program has it open, or
// a *store.Error; nothing is lost then. An error with Dirty false afterwards
// says that the file is written, but might not outlast a power cut.
//
// To write over a file that changed, SaveAs to the same path.
func (d *Document) Save() error { return d.saveOver(&d.print) }

func (d *Document) saveOver(expect *store.Fingerprint) error {
	if d.path == "" {
		return ErrNoName
	}
	if d.takeLock(); d.locked != nil {
		return d.locked
	}
	written, err := d.write(d.path, expect)
	if !written {
		return err
	}
	return errors.Join(err, d.settle())
}

// SaveAs writes the schedule into the file at path, which is the document's
// file from then on. Without overwrite a file that is there is a
// *ConflictError; with it the file is replaced, whatever it holds. The other
// errors are those of Save and of Options.Library; the document then stays with
// its old file.
func (d *Document) SaveAs(path string, overwrite bool) error {
	if d.journal == nil {
		return errNotSaved
	}
	resolved, err := store.Resolve(path)
	if err != nil {
		return err
	}
	if d.path != "" {
		if here, err := store.Resolve(d.path); err == nil && here == resolved {
			if overwrite {
				return d.saveOver(nil)
			}
			return d.saveOver(&d.print)
		}
	}
	library := d.library
	if d.path == "" || folder(d.path) != folder(path) {
		if library, err = d.options.library(path); err != nil {
			return err
		}
	}
	lock, err := store.TryLock(path)
	var locked *store.LockedError
	if errors.As(err, &locked) {
		return locked
	}
	expect := &store.Fingerprint{}
	if overwrite {
		expect = nil
	}
	written, err := d.write(path, expect)
	if !written {
		return errors.Join(err, lock.Unlock())
	}
	err = errors.Join(err, d.journal.Drop(0), d.journal.Close(), d.lock.Unlock())
	d.path, d.name, d.refuses = path, filepath.Base(path), false
	d.lock, d.locked, d.journal = lock, nil, store.NewJournal(path)
	// What was left behind belongs to the old file, and waits for it there.
	d.pending = nil
	if library != d.library {
		d.library = library
		d.rev++
	}
	return errors.Join(err, d.settle())
}

// write puts the text into the file at path. With an error it can be written
// all the same.
func (d *Document) write(path string, expect *store.Fingerprint) (written bool, err error) {
	text := d.Bytes()
	if err := readsBack(text, d.now); err != nil {
		return false, err
	}
	print, err := store.Write(path, text, expect)
	if print.IsZero() {
		return false, err
	}
	d.print = print
	d.saved, d.savedFrom, d.savedText = d.now, d.source, text
	d.history.open = false
	d.dirty.rev = 0
	return true, err
}

// settle drops the journal of what is saved now.
func (d *Document) settle() error {
	d.kept = 0
	return d.Journal()
}

// readsBack is an error unless text, read again, is the schedule s: nothing is
// written that could not be opened, or would say something else.
func readsBack(text []byte, s *laminate.Schedule) error {
	_, again, problems := schedules.Decode(text, nil)
	if len(problems) > 0 {
		return fmt.Errorf("not saved: it could not be read again: %s", problems[0])
	}
	if !bytes.Equal(schedules.New(s).Render(s), schedules.New(again).Render(again)) {
		return errors.New("not saved: the text would not say what the schedule says; please report this with the file")
	}
	return nil
}

// ChangedOnDisk tells whether the file is another than when it was read or
// written last; false for a document without a file.
func (d *Document) ChangedOnDisk() (bool, error) {
	if d.path == "" {
		return false, nil
	}
	return store.Changed(d.path, d.print)
}

// Reload reads the file and its shop books again and gives up what is not
// saved, with the history. The errors are those of Open; the document then is
// as it was.
func (d *Document) Reload() error {
	if d.path == "" {
		return ErrNoName
	}
	file, err := store.Read(d.path)
	if err != nil {
		return err
	}
	source, s, err := decode(d.path, file.Bytes)
	if err != nil {
		return err
	}
	library, err := d.options.library(d.path)
	if err != nil {
		return err
	}
	units := d.units
	d.load(source, s, file.Bytes)
	d.library, d.units = library, units
	d.print, d.refuses = file.Fingerprint, file.ReadOnly
	d.takeLock()
	return d.Journal()
}
