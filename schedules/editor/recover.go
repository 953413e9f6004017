package editor

import (
	"errors"
	"io/fs"
	"path/filepath"
	"time"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

// Work is a document at one revision, to be kept for the next start to find
// should the program end without saving. It may go to another goroutine.
type Work struct {
	journal *store.Journal
	render  func() []byte
	meta    store.Meta
	unsaved bool
}

// Work is the document as it stands.
func (d *Document) Work() Work {
	return Work{d.journal, d.rendering(), d.meta(), d.Dirty()}
}

func (d *Document) meta() store.Meta {
	label := d.now.Title
	if label == "" {
		label = d.name
	}
	return store.Meta{Base: d.print, Label: label, Rev: d.rev}
}

// Keep puts the work into the document's journal, or drops what was kept where
// nothing is unsaved. Work that is older than what is kept or saved by now is
// passed over. The error says why unsaved work is not kept, at each call as long
// as it is so.
func (w Work) Keep() error {
	switch {
	case w.journal == nil:
		return nil
	case !w.unsaved:
		return w.journal.Drop(w.meta.Rev)
	}
	err := w.journal.Save(w.render(), w.meta)
	if errors.Is(err, fs.ErrClosed) { // saved or given up meanwhile
		return nil
	}
	return err
}

// Journal keeps the work at once, unless this revision is kept already.
func (d *Document) Journal() error {
	if d.kept == d.rev {
		return nil
	}
	err := d.Work().Keep()
	if err == nil {
		d.kept = d.rev
	}
	return err
}

// NotKept tells why unsaved work is not kept, nil when it is or there is none.
func (d *Document) NotKept() error {
	if d.journal == nil {
		return nil
	}
	return d.journal.Trouble()
}

// Discard gives up what is not saved, so that Close leaves nothing to recover.
func (d *Document) Discard() error {
	if d.journal == nil {
		return nil
	}
	d.kept = d.rev
	return d.journal.Drop(d.rev)
}

// Left is work that a program left behind when it ended without saving.
type Left struct {
	// Path is the file that the work is of, or was to be; "" where it had no
	// name yet.
	Path  string
	Title string // what it was called last
	When  time.Time
	// Overtaken says that the file was saved since the work began: it holds
	// something that is not in the work.
	Overtaken bool
}

// Pending is the newest work that was left behind on this document, nil where
// there is none. A document that has no name stands for all work that has no
// file: it is opened by itself, see TakeRecovered.
func (d *Document) Pending() *Left {
	if len(d.pending) == 0 {
		return nil
	}
	u := &d.pending[0]
	l := &Left{Path: u.Path, Title: u.Label, When: u.Time}
	if d.path != "" {
		l.Overtaken = !u.Base.SameBytes(d.print)
	}
	return l
}

// leftBehind is what Pending tells of, newest first. What cannot be read of it
// is no reason not to open a document.
func leftBehind(path string) []store.Unsaved {
	if path != "" {
		left, _ := store.PendingFor(path)
		return left
	}
	all, _ := store.Pending()
	left := all[:0]
	for _, u := range all {
		// Journals of other things than documents have paths of other kinds.
		if u.Path == "" || filepath.Ext(u.Path) == store.Extension && u.Base.IsZero() && missing(u.Path) {
			left = append(left, u)
		}
	}
	return left
}

func missing(path string) bool {
	how, err := store.Since(path, store.Fingerprint{})
	return err == nil && how == store.Unchanged
}

// TakeRecovered takes up the newest work that was left behind and returns the
// document that has it, unsaved: this one, with one step back to what it said before, where the work is
// of its file, else another one, since no work is put under a name that is not
// its own. Where the file changed since that work began, Save tells of a
// conflict. The error is a *ProblemsError where the text is no sound schedule;
// the document then is as it was.
func (d *Document) TakeRecovered() (*Document, error) {
	if len(d.pending) == 0 {
		return d, errors.New("there is no unsaved work to recover")
	}
	u := d.pending[0]
	if d.path == "" && d.meant() == "" {
		other, err := Recover(u, d.shop)
		if err != nil {
			return d, err
		}
		d.pending = d.pending[1:]
		return other, nil
	}
	here := shop.Opened{Name: d.name, Library: d.library}
	opened := here.With(u.Bytes)
	if d.equipment != nil {
		if opened = d.equipment.read(d.name, u.Bytes, d.library); !opened.Usable() {
			return d, &ProblemsError{opened}
		}
	} else if opened.Schedule == nil {
		return d, &ProblemsError{opened}
	}
	was := d.whole()
	d.replace(opened)
	// Undo goes back past it, to what the file says.
	d.history = history{steps: []step{{label: "took up the unsaved work", texts: &texts{was, d.whole()}}}, done: 1}
	if !u.Base.SameBytes(d.print) {
		d.print = u.Base
	}
	if err := d.Journal(); err != nil {
		return d, err
	}
	d.pending = d.pending[1:]
	return d, d.took(opened, u)
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
func Recover(u store.Unsaved, s *shop.Shop) (*Document, error) {
	if u.Path != "" {
		d, err := Open(u.Path, s)
		var problems *ProblemsError
		switch {
		case err == nil:
			d.pending = []store.Unsaved{u}
			if _, err := d.TakeRecovered(); err != nil {
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
	opened := s.Open(name, u.Bytes, folder(u.Path))
	if opened.Schedule == nil && !(opened.Kind == schedules.Job && opened.Usable()) || opened.Err != nil {
		return nil, &ProblemsError{opened}
	}
	d := &Document{shop: s, name: name, path: u.Path, print: u.Base, journal: store.NewJournal(u.Path)}
	d.replace(opened)
	d.takeLock()
	if err := d.Journal(); err != nil {
		return nil, errors.Join(err, d.Close())
	}
	return d, d.took(opened, u)
}

// took drops work that was taken up whole. What could not be read of other work
// is in its journal alone, which waits for somebody to drop it.
func (d *Document) took(o *shop.Opened, u store.Unsaved) error {
	if o.Source.Partial() {
		d.unread = o.Problems
		return nil
	}
	return u.Drop()
}

// Unread is what could not be read of the work that was taken up last; it is
// still in the journal it was left in.
func (d *Document) Unread() []schedules.Problem { return d.unread }
