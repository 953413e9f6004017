package editor

import (
	"errors"
	"io/fs"
	"path/filepath"
	"time"

	"frp/veilwright/schedules/store"
)

// Journal keeps what is not saved for the next start to find, or drops what was
// kept once nothing is unsaved. It is to be called after every change, and does
// something once a revision. An error is returned when keeping begins to fail;
// work can go on.
func (d *Document) Journal() error {
	if d.kept == d.rev || d.journal == nil {
		return nil
	}
	var err error
	if d.Dirty() {
		label := d.now.Title
		if label == "" {
			label = d.name
		}
		err = d.journal.Save(d.Bytes(), store.Meta{Base: d.print, Label: label, Rev: d.rev})
	} else {
		err = d.journal.Drop(d.rev)
	}
	if err == nil {
		d.kept = d.rev
	}
	return err
}

// Discard gives up what is not saved, so that Close leaves nothing to recover.
func (d *Document) Discard() error {
	if d.journal == nil {
		return nil
	}
	d.kept = d.rev
	return d.journal.Drop(d.rev)
}

// Pending tells whether a program that ended without saving left work on this
// document, and when it was kept last.
func (d *Document) Pending() (found bool, when time.Time) {
	if len(d.pending) == 0 {
		return false, time.Time{}
	}
	return true, d.pending[0].Time
}

// TakeRecovered makes the work that was left behind the schedule as it stands,
// unsaved and with no history. Where the file changed since that work began,
// Save tells of a conflict. The error is a *ProblemsError where the text is no
// sound schedule; the document then is as it was.
func (d *Document) TakeRecovered() error {
	if len(d.pending) == 0 {
		return errors.New("there is no unsaved work to recover")
	}
	u := d.pending[0]
	source, s, err := decode(d.name, u.Bytes)
	if err != nil {
		return err
	}
	d.replace(source, s)
	if !u.Base.SameBytes(d.print) {
		d.print = u.Base
	}
	if err := d.Journal(); err != nil {
		return err
	}
	d.pending = d.pending[1:]
	return u.Drop()
}

// DropRecovered removes the newest work that was left behind, for good; older
// work comes up next.
func (d *Document) DropRecovered() error {
	if len(d.pending) == 0 {
		return nil
	}
	u := d.pending[0]
	d.pending = d.pending[1:]
	return u.Drop()
}

// Recover opens work that a program left behind: as the unsaved state of its
// document, or where that has no file, or none that can be read, as one that is
// not saved yet. The work is in the new document's journal then.
func Recover(u store.Unsaved, o Options) (*Document, error) {
	if u.Path != "" {
		d, err := Open(u.Path, o)
		var problems *ProblemsError
		switch {
		case err == nil:
			d.pending = []store.Unsaved{u}
			if err := d.TakeRecovered(); err != nil {
				return nil, errors.Join(err, d.Close())
			}
			return d, nil
		case !errors.Is(err, fs.ErrNotExist) && !errors.As(err, &problems):
			return nil, err
		}
	}
	name := u.Label
	if u.Path != "" {
		name = filepath.Base(u.Path)
	}
	source, s, err := decode(name, u.Bytes)
	if err != nil {
		return nil, err
	}
	library, err := o.library(u.Path)
	if err != nil {
		return nil, err
	}
	d := &Document{options: o, library: library, name: name, path: u.Path, print: u.Base, journal: store.NewJournal(u.Path)}
	d.replace(source, s)
	d.takeLock()
	if err := d.Journal(); err != nil {
		return nil, errors.Join(err, d.Close())
	}
	return d, u.Drop()
}
