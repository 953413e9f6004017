// Package binder is what lies beside the schedule on the desk: the
// specification and the record, chosen once and shared by the pages that lay up
// and inspect.
package binder

import (
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/task"
	"frp/veilwright/tui/internal/widget"
)

// Binder is made with New.
type Binder struct {
	desk  *page.Desk
	files recorder.Case
	clock func() time.Time
	path  string // the schedule the record was opened beside

	doc      *editor.Document // the sum is of this document
	revision uint64
	sum      string
}

// New makes an empty binder. A nil clock is the machine's.
func New(d *page.Desk, clock func() time.Time) *Binder {
	if clock == nil {
		clock = time.Now
	}
	return &Binder{desk: d, clock: clock}
}

// Now is the time entries get; a record keeps it to the second.
func (b *Binder) Now() time.Time { return b.clock() }

// Specification is the one chosen and its file, nil where none is.
func (b *Binder) Specification() (*spec.Specification, string) { return b.files.Specification() }

// Record is the open record, nil where there is none.
func (b *Binder) Record() *recorder.Record { return b.files.Record() }

// Open opens a record, and OpenSpecification a specification, by its file.
func (b *Binder) Open(path string) error {
	b.path = b.desk.Doc.Path()
	return b.files.Open(path)
}

// OpenSpecification takes the specification at path.
func (b *Binder) OpenSpecification(path string) error {
	b.path = b.desk.Doc.Path()
	return b.files.Choose(path)
}

// Reset lets go of record and specification where the desk has another
// schedule's file by now.
func (b *Binder) Reset() {
	if b.desk.Doc.Path() == b.path {
		return
	}
	if err := b.files.Close(); err != nil {
		b.desk.Refuse(err.Error())
	}
}

// Close lets go of the files.
func (b *Binder) Close() error { return b.files.Close() }

// Sum is the SHA-256 of the schedule as it stands on the desk.
func (b *Binder) Sum() string {
	d := b.desk.Doc
	if b.doc != d || b.revision != d.Revision() || b.sum == "" {
		b.doc, b.revision, b.sum = d, d.Revision(), store.SumOf(d.Bytes()).String()
	}
	return b.sum
}

// Foreign tells why the open record is not of the schedule on the desk, "" when it is.
func (b *Binder) Foreign() string {
	r := b.files.Record()
	switch {
	case r == nil:
		return ""
	case r.Now().ScheduleSHA256 == "":
		return "the record does not tell which schedule it is of"
	case strings.EqualFold(r.Now().ScheduleSHA256, b.Sum()):
		return ""
	case b.desk.Doc.Dirty():
		return "the schedule has changes that are not saved: the record is of the saved one, or of another"
	}
	return "the record is of another schedule, or the schedule was changed since"
}

func (b *Binder) folder() string {
	if p := b.desk.Doc.Path(); p != "" {
		return filepath.Dir(p)
	}
	return "."
}

// unshelved opens what rests on no shop book.
var unshelved *shop.Shop

// ChooseSpecification is the choice of a specification's file.
func (b *Binder) ChooseSpecification() task.Task {
	look := func(name string, text []byte) (widget.PickerEntry, bool) {
		o := unshelved.Open(name, text, "")
		s := o.Specification
		if s == nil {
			return widget.PickerEntry{Why: o.Why()}, o.Kind == schedules.Specification
		}
		return widget.PickerEntry{Note: strings.TrimSpace(s.Number + " " + s.Title)}, true
	}
	return task.NewFiles(b.desk, "which specification?", b.folder(), nil, look, func(path string, _ int) (task.Task, error) {
		if err := b.OpenSpecification(path); err != nil {
			return nil, err
		}
		b.desk.Say("held against " + filepath.Base(path))
		return nil, nil
	})
}

const newRecord = "begin a new record"

// ChooseRecord is the choice of a record's file, or of beginning one.
func (b *Binder) ChooseRecord() task.Task {
	look := func(name string, text []byte) (widget.PickerEntry, bool) {
		o := unshelved.Open(name, text, "")
		r := o.Record
		if r == nil {
			return widget.PickerEntry{Why: o.Why()}, o.Kind == schedules.Record
		}
		e := widget.PickerEntry{Note: about(r), Word: "another schedule", Look: b.desk.Theme.Warning}
		if o.Torn != "" {
			e.Note += " · last entry half-written"
		}
		if strings.EqualFold(r.ScheduleSHA256, b.Sum()) {
			e.Word, e.Look = "this schedule", b.desk.Theme.Good
		}
		return e, true
	}
	first := []widget.PickerEntry{{Name: newRecord, Note: "of the schedule on the desk", Why: b.cannotBegin()}}
	return task.NewFiles(b.desk, "which record?", b.folder(), first, look, func(path string, first int) (task.Task, error) {
		if first == 0 {
			return b.begin(), nil
		}
		if err := b.Open(path); err != nil {
			return nil, err
		}
		b.said("opened " + filepath.Base(path))
		return nil, nil
	})
}

// said notices that a record is open, and before all what was recovered of it.
func (b *Binder) said(what string) {
	if torn := b.files.Record().Torn(); torn != "" {
		b.desk.Say("recovered: " + torn)
		return
	}
	if why := b.Foreign(); why != "" {
		b.desk.Refuse(what + ": " + why)
		return
	}
	b.desk.Say(what)
}

func about(r *record.Record) string {
	n := len(r.Laid) + len(r.Readings) + len(r.Defects) + len(r.Decisions)
	s := strconv.Itoa(n) + " entries"
	if n == 1 {
		s = "1 entry"
	}
	if r.Serial != "" {
		s = "serial " + r.Serial + ", " + s
	}
	return s
}

// cannotBegin says why no record can be begun: one belongs to the bytes of a file.
func (b *Binder) cannotBegin() string {
	d := b.desk.Doc
	switch {
	case d.Path() == "":
		return "a record is of a schedule's file, and this schedule has none yet: s saves it"
	case d.Dirty():
		return "a record is of the saved schedule: s saves it first"
	}
	return ""
}

// begin asks for the serial number and the name of a new record's file.
func (b *Binder) begin() task.Task {
	serial := &page.Field{Label: "serial number", Hint: "of the part, as marked on it"}
	name := &page.Field{Label: "record's file", Text: b.proposal(), Hint: "beside the schedule"}
	s := &task.Sheet{Head: "begin a record", Fields: []*page.Field{serial, name}}
	s.Take = func() (task.Task, error) {
		path, err := b.pathOf(name.Text)
		if err != nil {
			return nil, err
		}
		if why := b.cannotBegin(); why != "" {
			return nil, errors.New(why)
		}
		d := b.desk.Doc
		b.path = d.Path()
		err = b.files.Begin(path, &record.Record{Schedule: filepath.Base(d.Path()), ScheduleRevision: d.Now().Revision,
			ScheduleSHA256: b.Sum(), Serial: strings.TrimSpace(serial.Text)})
		if err != nil {
			return nil, err
		}
		b.said("begun " + filepath.Base(path))
		return nil, nil
	}
	return s
}

func (b *Binder) pathOf(name string) (string, error) {
	name = strings.TrimSpace(name)
	if name == "" {
		return "", errors.New("a file name is needed")
	}
	if filepath.Ext(name) != store.Extension {
		name += store.Extension
	}
	if filepath.Base(name) == name {
		name = filepath.Join(b.folder(), name)
	}
	return name, nil
}

// proposal is the first free name beside the schedule.
func (b *Binder) proposal() string {
	stem := strings.TrimSuffix(filepath.Base(b.desk.Doc.Path()), store.Extension)
	for n := 1; n < 10_000; n++ {
		name := stem + "-record-" + strconv.Itoa(n) + store.Extension
		if _, err := os.Lstat(filepath.Join(b.folder(), name)); errors.Is(err, os.ErrNotExist) {
			return name
		}
	}
	return ""
}

// RecordLine names the open record in a few words.
func (b *Binder) RecordLine() string {
	r := b.files.Record()
	if r == nil {
		return "no record"
	}
	s := "record " + draw.Clean(filepath.Base(r.Path()))
	if serial := r.Now().Serial; serial != "" {
		s += ", serial " + draw.Clean(serial)
	}
	return s
}

// SpecificationLine names the specification in a few words.
func (b *Binder) SpecificationLine() string {
	s, path := b.files.Specification()
	if s == nil {
		return "no specification"
	}
	name := strings.TrimSpace(draw.Clean(s.Number) + " " + draw.Clean(s.Title))
	if name == "" {
		name = draw.Clean(filepath.Base(path))
	}
	return "against " + name
}
