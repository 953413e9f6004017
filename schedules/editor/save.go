package editor

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// ErrNoName is what Save and Reload return for a document that has no file yet.
var ErrNoName = errors.New("the schedule has no file yet: save it under a name")

// errNotSaved is what Overwrite returns for a document opened by Unjudged.
var errNotSaved = errors.New("this is handed in, not saved")

// ConflictError says that the file changed behind one's back, or exists where a
// new one was to be. It was left as it is.
type ConflictError = store.ConflictError

// Target is a file to save into, as it was when Look looked at it.
type Target struct {
	Path string
	// Change is what would be lost by saving there: Edited and Removed are of
	// the document's own file, Created says that another file is there.
	Change store.Change

	seen store.Fingerprint
	own  bool // it is the document's file, by whatever name
}

// Look looks at the file at path before the schedule is saved there, and
// refreshes what ReadOnly says where it is the document's own. The error is a
// *store.Error: it is there and cannot be looked at.
func (d *Document) Look(path string) (Target, error) {
	t := Target{Path: path, own: d.isOwn(path)}
	var err error
	if t.own {
		d.Refresh()
		t.Path, t.seen = d.path, d.print
		if t.Change, err = store.Since(d.path, d.print); err != nil || t.Change == store.Unchanged {
			return t, err
		}
	}
	file, err := store.Read(path)
	switch {
	case err == nil:
		t.seen = file.Fingerprint
		if !t.own {
			t.Change = store.Created
		}
		return t, nil
	case errors.Is(err, fs.ErrNotExist):
		t.seen = store.Fingerprint{}
		return t, nil
	}
	return t, err
}

func (d *Document) isOwn(path string) bool {
	if d.path == "" {
		return false
	}
	here, err := store.Resolve(d.path)
	there, wrong := store.Resolve(path)
	return err == nil && wrong == nil && here == there
}

// Save writes the schedule into its file, in one step. The error is ErrNoName,
// a *ConflictError, a *store.LockedError while another program has it open, or
// a *store.Error; nothing is lost then. An error with Dirty false afterwards
// says that the file is written, but might not outlast a power cut.
func (d *Document) Save() error {
	if d.path == "" {
		return ErrNoName
	}
	return d.SaveAs(d.path)
}

// SaveAs writes the schedule into the file at path, which is the document's
// file from then on. Another's file that is there, or what changed in its own, is
// a *ConflictError. The other errors are those of Save and of Options.Library;
// the document then stays with its old file.
func (d *Document) SaveAs(path string) error {
	t, err := d.Look(path)
	if err != nil {
		return err
	}
	if t.Change != store.Unchanged {
		return &ConflictError{Path: t.Path, How: t.Change}
	}
	return d.Overwrite(t)
}

// Overwrite is SaveAs for somebody who knows what Look found there: that is
// replaced, unless it changed since, which is a *ConflictError.
func (d *Document) Overwrite(t Target) error {
	if d.journal == nil {
		return errNotSaved
	}
	if t.own {
		return d.saveOver(t.seen)
	}
	library := d.library
	if d.path == "" || folder(d.path) != folder(t.Path) {
		var err error
		if library, err = d.shop.Library(folder(t.Path)); err != nil {
			return err
		}
	}
	lock, err := store.TryLock(t.Path)
	var locked *store.LockedError
	if errors.As(err, &locked) {
		return locked
	}
	written, err := d.write(t.Path, t.seen, lock)
	if !written {
		return errors.Join(err, lock.Unlock())
	}
	err = errors.Join(err, d.journal.Close(), d.lock.Unlock())
	d.path, d.name, d.refuses = t.Path, filepath.Base(t.Path), false
	d.lock, d.locked, d.journal = lock, nil, store.NewJournal(t.Path)
	// What was left behind belongs to the old file, and waits for it there.
	d.pending = nil
	if library != d.library {
		d.library = library
		d.rev++
		d.faulty = !d.read().Usable() // another folder may have other books
		d.kept = d.rev
	}
	return err
}

func (d *Document) saveOver(expect store.Fingerprint) error {
	if d.takeLock(); d.locked != nil {
		return d.locked
	}
	_, err := d.write(d.path, expect, d.lock)
	return err
}

// write puts the text into the file at path. With an error it can be written
// all the same.
func (d *Document) write(path string, expect store.Fingerprint, lock *store.Lock) (written bool, err error) {
	text := d.Bytes()
	if err := d.readsBack(text); err != nil {
		return false, err
	}
	print, err := store.Replace(path, text, store.Terms{Expect: expect, Lock: lock, Journal: d.journal, Meta: d.meta()})
	if print.IsZero() {
		return false, err
	}
	d.print, d.refuses = print, false
	d.saved, d.savedFrom, d.savedText = d.now, d.source, text
	if d.equipment != nil {
		d.equipment.saved = d.equipment.job
	}
	d.history.open = false
	d.dirty.rev = 0
	d.kept = d.rev
	return true, err
}

// readsBack is an error unless text, read again, is the schedule as it stands:
// nothing is written that could not be opened, or would say something else.
// Problems that it was opened with may be saved, they are there to be mended.
func (d *Document) readsBack(text []byte) error {
	if d.equipment != nil {
		return d.equipment.readsBack(d.name, text, d.library)
	}
	source, again, problems := schedules.Decode(text, d.library)
	if len(problems) > 0 && !d.faulty || again == nil || source.Partial() {
		return fmt.Errorf("not saved: it could not be read again: %s", problems[0])
	}
	if !bytes.Equal(schedules.New(d.now).Render(d.now), schedules.New(again).Render(again)) {
		return errors.New("not saved: the text would not say what the schedule says; please report this with the file")
	}
	return nil
}

// Since tells what happened to the file since it was read or written last;
// nothing can happen to a document without a file.
func (d *Document) Since() (store.Change, error) {
	if d.path == "" {
		return store.Unchanged, nil
	}
	return store.Since(d.path, d.print)
}

// Refresh looks again whether the document may be saved, and takes the lock if
// whoever had it is gone: what ReadOnly says is true from now on.
func (d *Document) Refresh() {
	if d.path == "" {
		return
	}
	d.takeLock()
	d.refuses = !store.Writable(d.path)
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
	opened := d.shop.Open(d.path, file.Bytes, folder(d.path))
	if err := Shown(opened); err != nil {
		return err
	}
	units := d.units
	d.load(opened)
	d.units = units
	d.print, d.refuses = file.Fingerprint, file.ReadOnly
	d.takeLock()
	return d.Journal()
}
