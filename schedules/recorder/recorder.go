// Package recorder owns an open record: the log on disk that only grows, what
// it says so far, and the specification it is held against.
//
// An entry is decoded together with all before it first and only then added, so
// that nothing gets into a record that could not be read back; when Append
// returns nil the entry outlasts a power cut. What was entered is never
// changed: it is struck, with a reason, by a later entry.
package recorder

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

// Record is an open record. Make it with Begin or Open; Close ends it.
type Record struct {
	path    string
	log     *store.AppendLog // nil where another program has it
	held    error            // that it has
	text    []byte
	now     *record.Record
	entries []record.Any
	torn    string
	edition uint64
}

// Begin makes a new record with the given head at path, where no file may be
// yet, and opens it.
func Begin(path string, head *record.Record) (*Record, error) {
	text := schedules.RecordHead(head)
	if _, _, problems := schedules.DecodeRecord(text); len(problems) > 0 {
		return nil, fmt.Errorf("%s cannot be begun: %s", path, problems[0])
	}
	if _, err := store.Replace(path, text, store.Terms{}); err != nil {
		var conflict *store.ConflictError
		if errors.As(err, &conflict) {
			return nil, fmt.Errorf("there is a file %s already: a new record takes a new name", path)
		}
		return nil, err
	}
	return Open(path)
}

// Open opens the record at path to be added to. What can be read stays, however
// it ends. A last entry that cannot, because a power cut left it half-written, is
// moved into a file beside it; Torn says so, and an entry of the record does, for
// good. A file that is no readable record is left untouched. One that another
// program adds to is opened to be looked at, as Held says.
func Open(path string) (*Record, error) {
	// Looked at before it is opened as a log, which cuts what is not whole: a
	// document of another kind must not lose its end.
	text, now, torn, err := read(path)
	if err != nil {
		return nil, err
	}
	same := false
	log, tail, err := store.OpenAppendLog(path, func(b []byte) int {
		if same = torn == "" && bytes.Equal(b, text); same {
			return len(b)
		}
		return schedules.WholeEntries(b)
	})
	var locked *store.LockedError
	if errors.As(err, &locked) {
		r := &Record{path: path, held: err}
		r.take(text, now)
		return r, nil
	}
	if err != nil {
		return nil, err
	}
	if !same {
		if text, now, _, err = read(path); err != nil {
			return nil, errors.Join(err, log.Close())
		}
	}
	r := &Record{path: path, log: log}
	r.take(text, now)
	if tail == nil {
		return r, nil
	}
	r.torn = tail.String()
	cut := &record.Cut{Bytes: tail.Bytes, Aside: filepath.Base(tail.Aside), SHA256: tail.Sum.String(),
		Entry: record.Entry{At: time.Now(), Who: "veilwright", Role: "program"}}
	if err := r.Append(cut); err != nil {
		return nil, errors.Join(err, log.Close())
	}
	return r, nil
}

func read(path string) (text []byte, now *record.Record, torn string, err error) {
	o, err := opened(path, schedules.Record)
	if err != nil {
		return nil, nil, "", err
	}
	return o.Text, o.Record, o.Torn, nil
}

// opened takes in a document that has to be of a kind.
func opened(path string, kind schedules.Kind) (*shop.Opened, error) {
	var books *shop.Shop // neither a record nor a specification rests on any
	o := books.Read(path)
	if !o.Want(kind, "an inspection") {
		return nil, fmt.Errorf("%s: %s", path, o.Why())
	}
	return o, nil
}

func (r *Record) take(text []byte, now *record.Record) {
	r.text, r.now = text, now
	r.edition++
	r.entries = now.Entries()
}

// Path is the record's file as it was opened.
func (r *Record) Path() string { return r.path }

// Held says why nothing can be added: another program has the record open, and
// this is what it said when it was opened here. nil where entries can be added.
func (r *Record) Held() error { return r.held }

// Now is what the record says; it is not to be changed.
func (r *Record) Now() *record.Record { return r.now }

// Entries are all entries in the order entered, struck ones too.
func (r *Record) Entries() []record.Any { return r.entries }

// Torn says in one sentence that a half-written last entry was put aside when
// the record was opened, and where it is; "" where there was none.
func (r *Record) Torn() string { return r.torn }

// Edition counts up whenever Now changes.
func (r *Record) Edition() uint64 { return r.edition }

// Append adds an entry, sealed behind all that is there. Its time, and the name
// and role of whoever enters it, are set by then. When it returns nil the entry
// outlasts a power cut; when it returns an error the record is as it was.
func (r *Record) Append(entry record.Any) error {
	switch e := entry.Head(); {
	case r.held != nil:
		return r.held
	case strings.TrimSpace(e.Who) == "" || strings.TrimSpace(e.Role) == "":
		return errors.New("not recorded: who enters it, and as what? A name and a role are needed")
	case e.At.IsZero():
		return errors.New("not recorded: an entry has a time")
	}
	added := schedules.SealEntry(entry, r.now.Trail.Last)
	// An entry that is about none before it reads the same behind the head alone
	// as behind thousands of others; where there may be too many, all are read.
	alone := len(r.entries) < schedules.MostEntries
	switch entry.(type) {
	case *record.Struck, *record.Disposition, *record.Adopted, *record.Joined:
		alone = false
	}
	alike := slices.Concat(schedules.RecordHead(&record.Record{}), added)
	added = append([]byte(schedules.RecordGap(r.text)), added...)
	text := slices.Concat(r.text, added)
	read := text
	if alone {
		read = alike
	}
	now, _, problems := schedules.DecodeRecord(read)
	if len(problems) > 0 {
		return fmt.Errorf("not recorded: %s", withoutLine(problems[0]))
	}
	if err := r.log.Append(added); err != nil {
		return err
	}
	if alone {
		r.join(text, now)
	} else {
		r.take(text, now)
	}
	return nil
}

// join adds the one entry of a record to what the record says.
func (r *Record) join(text []byte, one *record.Record) {
	now := *r.now
	entry := one.Entries()[0]
	e := entry.Head()
	e.Number, e.Line = len(r.entries)+1, 1+bytes.Count(r.text, []byte("\n"))+len(schedules.RecordGap(r.text))
	now.Laid = append(now.Laid, one.Laid...)
	now.Readings = append(now.Readings, one.Readings...)
	now.Defects = append(now.Defects, one.Defects...)
	now.Decisions = append(now.Decisions, one.Decisions...)
	now.Cuts = append(now.Cuts, one.Cuts...)
	now.Revisions = append(now.Revisions, one.Revisions...)
	now.Dimensions = append(now.Dimensions, one.Dimensions...)
	now.Hydrotests = append(now.Hydrotests, one.Hydrotests...)
	now.Instruments = append(now.Instruments, one.Instruments...)
	now.PostCures = append(now.PostCures, one.PostCures...)
	now.Holds = append(now.Holds, one.Holds...)
	now.Specimens = append(now.Specimens, one.Specimens...)
	now.Marked = append(now.Marked, one.Marked...)
	now.Photographs = append(now.Photographs, one.Photographs...)
	now.Preparations = append(now.Preparations, one.Preparations...)
	now.Bonds = append(now.Bonds, one.Bonds...)
	now.Trail.Sealed++
	now.Trail.Last = record.Next(now.Trail.Last, e.Content)
	if n := len(now.Trail.Loose); n > 0 {
		now.Trail.Loose = slices.Clone(now.Trail.Loose)
		now.Trail.Loose[n-1] = e.Number
	}
	r.entries = append(r.entries, entry)
	r.text, r.now = text, &now
	r.edition++
}

// withoutLine is a problem for somebody who typed a value and sees no line.
func withoutLine(p schedules.Problem) string {
	if p.Key == "" {
		return p.Message
	}
	return p.Key + ": " + p.Message
}

// Entry is the entry of a number, nil where the record has none.
func (r *Record) Entry(number int) record.Any {
	if number < 1 || number > len(r.entries) {
		return nil
	}
	return r.entries[number-1]
}

// Strike takes an earlier entry back, with the reason, which is needed. by is who
// strikes it, and when.
func (r *Record) Strike(number int, by record.Entry, why string) error {
	of := r.Entry(number)
	if of == nil {
		return fmt.Errorf("the record has no entry %d", number)
	}
	switch of.(type) {
	case *record.Struck:
		return fmt.Errorf("entry %d strikes another one, and stands: what was struck is entered anew", number)
	case *record.Adopted, *record.Joined, *record.Cut:
		return fmt.Errorf("entry %d says how the record came about, and stands", number)
	}
	if of.Head().Struck {
		return fmt.Errorf("entry %d is struck already", number)
	}
	if strings.TrimSpace(why) == "" {
		return errors.New("an entry is struck with a reason")
	}
	return r.Append(&record.Struck{Entry: by, OfID: of.Head().ID, Why: why})
}

// Adopt has somebody answer for the entries of the record at path that have no
// seal, as they stand; why, which is needed, says how they are known.
func Adopt(path string, by record.Entry, why string) error {
	if strings.TrimSpace(why) == "" {
		return errors.New("why is needed: how the entries are known")
	}
	r, err := Open(path)
	if err != nil {
		return err
	}
	if len(r.now.Trail.Unsealed) == 0 {
		return errors.Join(errors.New("no entry waits to be adopted"), r.Close())
	}
	return errors.Join(r.Append(&record.Adopted{Entry: by, Why: why}), r.Close())
}

// Close lets go of the file. A second call does nothing.
func (r *Record) Close() error {
	if r.log == nil {
		return nil
	}
	return r.log.Close()
}
