// Package editor owns an open schedule: its text as loaded, the schedule now,
// what is saved, the history of edits, and what the rules say of it by
// revision. It knows no screen and no terminal.
//
// A [Document] is for one goroutine; the schedules, reports and libraries it
// hands out are immutable and may go to others.
package editor

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

func folder(path string) string {
	if path == "" {
		return ""
	}
	return filepath.Dir(path)
}

// Document is an open schedule.
type Document struct {
	shop    *shop.Shop
	library *laminate.Library
	levels  []spec.LevelLimit
	stock   stock.Stock
	name    string
	path    string            // as given; "" while it has no file
	print   store.Fingerprint // of the file as read or written last
	refuses bool              // the file or its folder may not be written

	others *shop.OtherFiles              // what else was read, nil where nothing is to be read again
	beside map[string]*laminate.Schedule // of a job the schedules of its parts, as they were read last
	amiss  error                         // why what it rests on cannot be used any more

	equipment *equipment // of a job: the schedule is then the wall of one of its parts, or a laminate of its own

	source *schedules.Source
	loaded *laminate.Schedule // what source was read as
	now    *laminate.Schedule
	units  quantity.System
	// faulty says that there were problems as it was read, or became another
	// folder's: no edit makes any.
	faulty   bool
	unjudged bool            // no rule is asked
	laid     *rules.Overlaid // of what is unjudged: what it is laid as, nil of a wall

	saved     *laminate.Schedule // what the file says; nil when there is nothing saved
	savedFrom *schedules.Source  // the source that saved came from
	savedText []byte

	rev     uint64
	history history

	lock    *store.Lock
	locked  error          // another program has it: a *store.LockedError
	journal *store.Journal // nil where what is written is not saved
	kept    uint64         // revision that the journal holds or was dropped for
	pending []store.Unsaved
	unread  []schedules.Problem

	text   cached[struct{}, []byte]
	opened cached[struct{}, *shop.Opened]
	dirty  cached[struct{}, bool]
	report cached[quantity.System, *rules.Report]
}

// cached is a value that holds for one revision and key.
type cached[K comparable, V any] struct {
	rev   uint64 // 0: none
	key   K
	value V
}

func (c *cached[K, V]) get(rev uint64, key K, make func() V) V {
	if c.rev != rev || c.key != key {
		c.rev, c.key, c.value = rev, key, make()
	}
	return c.value
}

// ProblemsError says that a document cannot be shown as a schedule, and all the
// reasons.
type ProblemsError struct{ *shop.Opened }

func (e *ProblemsError) Error() string { return fmt.Sprintf("%q: %s", e.Name, e.Why()) }

// Shown is an error where there is nothing of the document to show: it is no
// schedule, part of its text cannot be read and would be lost by a save, or a
// shop book that holds for it cannot be used.
func Shown(o *shop.Opened) error {
	if o.Kind == schedules.Job && o.Usable() {
		return nil
	}
	o.Want(schedules.Schedule, "the terminal program")
	if o.Err != nil || o.Schedule == nil || o.Source.Partial() {
		return &ProblemsError{o}
	}
	return nil
}

// Open opens the schedule at path, which must exist, and takes its lock. A
// document that another program has open, or that may not be written, opens all
// the same: see ReadOnly. One with values that cannot be opens to be mended: its
// report says unusable until that is done. The error is a *ProblemsError where
// there is nothing to show, else a *store.Error. A nil shop is one without
// options.
func Open(path string, s *shop.Shop) (*Document, error) {
	file, err := store.Read(path)
	if err != nil {
		return nil, err
	}
	opened := s.Open(path, file.Bytes, filepath.Dir(path))
	if err := Shown(opened); err != nil {
		return nil, err
	}
	d := &Document{
		shop: s, name: filepath.Base(path), path: path,
		print: file.Fingerprint, refuses: file.ReadOnly,
		journal: store.NewJournal(path),
	}
	d.load(opened)
	d.takeLock()
	d.pending = leftBehind(path)
	return d, nil
}

// FromBytes opens a document that has no file yet: an example, a new one,
// standard input. Name is what to call it, and where it ends in .toml the file
// that it is meant for. The error is as for Open.
func FromBytes(name string, b []byte, s *shop.Shop) (*Document, error) {
	opened := s.Open(name, b, "")
	if err := Shown(opened); err != nil {
		return nil, err
	}
	d := &Document{shop: s, name: name}
	d.load(opened)
	// Unsaved work is found again by the name that it was to get.
	d.journal = store.NewJournal(d.meant())
	d.pending = leftBehind(d.meant())
	return d, nil
}

// meant is the file that a document without one is meant for, "" where it has
// no name.
func (d *Document) meant() string {
	if filepath.Ext(d.name) == store.Extension {
		return d.name
	}
	return ""
}

// load makes a document what there is, saved and without a history.
func (d *Document) load(o *shop.Opened) {
	d.replace(o)
	d.saved, d.savedFrom, d.savedText = d.now, o.Source, o.Text
}

// replace makes a document what there is now, without a history.
func (d *Document) replace(o *shop.Opened) {
	d.source, d.loaded, d.now = o.Source, o.Schedule, o.Schedule
	d.library, d.levels, d.stock, d.faulty = o.Library, o.Levels, o.Stock, !o.Usable()
	if o.OtherFiles != nil {
		d.others, d.amiss = o.OtherFiles, nil
	}
	was := d.equipment
	if d.equipment = nil; o.Kind == schedules.Job {
		d.beside = o.Job.Schedules
		d.equipment = &equipment{job: o.Job, loaded: o.Job, saved: o.Job}
		if was != nil { // read again: work goes on where it was
			d.equipment.turn(follow(was.job, o.Job, was.part), was.lent)
		}
		d.now = d.equipment.wall()
		d.loaded = d.now
	}
	d.units = d.now.Units
	d.history = history{}
	d.rev++
}

// takeLock notes who has the lock, if somebody has. Where there can be no lock
// at all, work goes on without: the fingerprint still guards the file.
func (d *Document) takeLock() {
	if d.lock != nil || d.path == "" {
		return
	}
	d.locked = nil
	var err error
	var locked *store.LockedError
	if d.lock, err = store.TryLock(d.path); errors.As(err, &locked) {
		d.locked = locked
	}
}

// Path is the file as it was given, "" while there is none.
func (d *Document) Path() string { return d.path }

// Name is the file's name, or what the document was called when it was opened.
func (d *Document) Name() string { return d.name }

// ReadOnly tells whether Save would be refused as things stood when last looked
// at, and why. Such a document can be edited and saved under another name.
func (d *Document) ReadOnly() (bool, string) {
	switch {
	case d.locked != nil:
		return true, d.locked.Error()
	case d.refuses:
		return true, "the file or its folder may not be written"
	}
	return false, ""
}

// Now is the schedule as it stands.
func (d *Document) Now() *laminate.Schedule { return d.now }

// Library is the library for the document's folder.
func (d *Document) Library() *laminate.Library { return d.library }

// Levels are the limits of acceptance levels that the shop's book states.
func (d *Document) Levels() []spec.LevelLimit { return d.levels }

// Stock is how the shop buys and works, by its book.
func (d *Document) Stock() *stock.Stock { return &d.stock }

// Revision counts every change, undo and reload included; it never goes back.
func (d *Document) Revision() uint64 { return d.rev }

// Units is the system that figures are shown in; at first the document's own.
func (d *Document) Units() quantity.System { return d.units }

// SetUnits changes what is shown, not the document.
func (d *Document) SetUnits(u quantity.System) { d.units = u }

// Report is what the rules say of the schedule as it stands, in the present
// units; while it has problems, these alone. Of a laminate of a job that is laid
// somewhere it is what the rules of jobs say. It is made once a revision.
func (d *Document) Report() *rules.Report {
	return d.report.get(d.rev, d.units, func() *rules.Report {
		switch {
		case d.faulty && !d.unjudged:
			return d.read().Judge(rules.Options{Units: d.units})
		case d.Lent() != nil:
			return d.JobReport().Laminate(*d.Lent())
		case d.Job() != nil && d.Part() < len(d.Job().Parts):
			return d.JobReport().Part(d.Part())
		}
		return d.judge(d.now)
	})
}

// judge asks the rules; fixes are tried out when a page asks for one.
func (d *Document) judge(s *laminate.Schedule) *rules.Report {
	if d.unjudged {
		r := rules.Judge(nil, s, d.library, rules.Options{Units: d.units})
		r.Overlay = d.laid
		return r
	}
	o := shop.Opened{Kind: schedules.Schedule, Schedule: s, Source: d.source, Library: d.library}
	if d.faulty {
		o = *d.read().With(d.source.Render(s))
	}
	return o.Judge(rules.Options{Units: d.units})
}

// Saved is what the file says, as far as it was read or written here, judged;
// nil while there is no file.
func (d *Document) Saved() *rules.Report {
	if d.path == "" || d.saved == nil {
		return nil
	}
	return d.judge(d.saved)
}

// Opened is the schedule as it was opened, judged: what undo goes back to.
func (d *Document) Opened() *rules.Report {
	s := d.now
	for i := d.history.done - 1; i >= 0; i-- {
		s = d.history.steps[i].apply(s, true)
	}
	return d.judge(s)
}

// Problems are what keeps the schedule as it stands from being judged; what
// check says of the file once it is saved.
func (d *Document) Problems() []schedules.Problem {
	if !d.faulty {
		return nil
	}
	return d.read().Problems
}

// read is the text as it stands, read again.
func (d *Document) read() *shop.Opened {
	return d.opened.get(d.rev, struct{}{}, func() *shop.Opened {
		if d.equipment != nil {
			return d.equipment.read(d.name, d.Bytes(), d.library)
		}
		o := shop.Opened{Name: d.name, Library: d.library}
		return o.With(d.Bytes())
	})
}

// Preview is what the rules would say after an edit, which is not made. The
// error is the edit's own.
func (d *Document) Preview(e edit.Edit) (*rules.Report, error) {
	if w := d.equipment; w != nil && w.lent != nil {
		next, err := w.lift(e).Do(w.job)
		if err != nil {
			return nil, err
		}
		if next == w.job {
			return d.Report(), nil
		}
		return d.judgeJob(next).Laminate(*w.lent), nil
	}
	next, err := e.Do(d.now)
	if err != nil {
		return nil, err
	}
	if next == d.now {
		return d.Report(), nil
	}
	return d.judge(next), nil
}

// Bytes is the text of the schedule as it stands: what a save would write. It
// is not to be changed.
func (d *Document) Bytes() []byte {
	return d.text.get(d.rev, struct{}{}, func() []byte { return d.rendering()() })
}

// Line is the line of a place in that text, from 1; 0 where it has none.
func (d *Document) Line(at laminate.Ref) int {
	if d.equipment != nil {
		return d.jobLine(at)
	}
	if d.now == d.loaded {
		return d.source.Line(at)
	}
	return d.read().Source.Line(at)
}

// Dirty tells whether the schedule differs from what is saved; a document that
// has no file from what it was opened with. Undone to the saved state it is
// clean again.
func (d *Document) Dirty() bool {
	return d.dirty.get(d.rev, struct{}{}, func() bool {
		switch {
		case d.equipment != nil && d.source == d.savedFrom:
			return d.equipment.job != d.equipment.saved && !schedules.SameJob(d.equipment.job, d.equipment.saved)
		case d.now == d.saved && d.source == d.savedFrom:
			return false
		case d.source == d.savedFrom:
			return !same(d.now, d.saved)
		}
		return !bytes.Equal(d.savedText, d.Bytes())
	})
}

// Close ends the work on the document: its lock is given back. Unsaved work
// stays in the journal for the next start to find, unless Discard was called.
func (d *Document) Close() error {
	if d.journal == nil {
		return nil
	}
	kept := d.Journal()
	err := errors.Join(kept, d.journal.Close(), d.lock.Unlock())
	d.lock = nil
	return err
}
