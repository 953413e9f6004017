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
	"slices"
	"strings"

	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

// Record is an open record. Make it with Begin or Open; Close ends it.
type Record struct {
	path    string
	log     *store.AppendLog
	text    []byte
	now     *record.Record
	entries []Entry
	torn    string
	edition uint64
}

// Entry is one entry of a record, whatever its kind.
type Entry struct {
	Number int // from 1, in the order entered
	Struck bool
	Of     any // *record.Laid, *record.Reading, *record.Defect, *record.Decision or *record.Struck
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
// moved into a file beside it, and Torn says so. A file that is no readable
// record is left untouched.
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
	if tail != nil {
		r.torn = tail.String()
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

// gap is what is missing of the empty line that ends the last entry, where
// somebody wrote it by hand.
func gap(text []byte) string {
	switch {
	case bytes.HasSuffix(text, []byte("\n\n")), bytes.HasSuffix(text, []byte("\n\r\n")):
		return ""
	case bytes.HasSuffix(text, []byte("\n")):
		return "\n"
	}
	return "\n\n"
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
	r.entries = slices.Grow(r.entries[:0], len(now.Laid)+len(now.Readings)+len(now.Defects)+len(now.Dispositions)+len(now.Decisions)+len(now.Struck))
	add := func(e *record.Entry, of any) { r.entries = append(r.entries, Entry{e.Number, e.Struck, of}) }
	for i := range now.Laid {
		add(&now.Laid[i].Entry, &now.Laid[i])
	}
	for i := range now.Readings {
		add(&now.Readings[i].Entry, &now.Readings[i])
	}
	for i := range now.Defects {
		add(&now.Defects[i].Entry, &now.Defects[i])
	}
	for i := range now.Dispositions {
		add(&now.Dispositions[i].Entry, &now.Dispositions[i])
	}
	for i := range now.Decisions {
		add(&now.Decisions[i].Entry, &now.Decisions[i])
	}
	for i := range now.Struck {
		add(&now.Struck[i].Entry, &now.Struck[i])
	}
	slices.SortFunc(r.entries, func(a, b Entry) int { return a.Number - b.Number })
}

// Path is the record's file as it was opened.
func (r *Record) Path() string { return r.path }

// Now is what the record says; it is not to be changed.
func (r *Record) Now() *record.Record { return r.now }

// Entries are all entries in the order entered, struck ones too.
func (r *Record) Entries() []Entry { return r.entries }

// Torn says in one sentence that a half-written last entry was put aside when
// the record was opened, and where it is; "" where there was none.
func (r *Record) Torn() string { return r.torn }

// Edition counts up whenever Now changes.
func (r *Record) Edition() uint64 { return r.edition }

// Append adds an entry: a *record.Laid, *record.Reading, *record.Defect,
// *record.Disposition, *record.Decision or *record.Struck. When it returns nil the entry outlasts a
// power cut; when it returns an error the record is as it was.
func (r *Record) Append(entry any) error {
	added, err := schedules.RecordEntry(entry)
	if err != nil {
		return err
	}
	// An entry that takes none back reads the same behind the head alone as
	// behind thousands of others.
	_, strikes := entry.(*record.Struck)
	_, disposes := entry.(*record.Disposition) // of an entry before it
	alone := !strikes && !disposes && len(r.entries) < mostAlone
	alike := slices.Concat(schedules.RecordHead(&record.Record{}), added)
	added = append([]byte(gap(r.text)), added...)
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

// mostAlone is how many entries a record may have for the next one to be read
// alone; beyond, the bounds of the whole document are looked at too.
const mostAlone = 50_000

// join adds the one entry of a record to what the record says.
func (r *Record) join(text []byte, one *record.Record) {
	place := record.Entry{Number: len(r.entries) + 1, Line: 1 + bytes.Count(r.text, []byte("\n")) + len(gap(r.text))}
	now := *r.now
	add := func(e *record.Entry, of any) {
		*e = place
		r.entries = append(r.entries, Entry{Number: place.Number, Of: of})
	}
	switch {
	case len(one.Laid) > 0:
		add(&one.Laid[0].Entry, &one.Laid[0])
		now.Laid = append(now.Laid, one.Laid[0])
	case len(one.Readings) > 0:
		add(&one.Readings[0].Entry, &one.Readings[0])
		now.Readings = append(now.Readings, one.Readings[0])
	case len(one.Defects) > 0:
		add(&one.Defects[0].Entry, &one.Defects[0])
		now.Defects = append(now.Defects, one.Defects[0])
	case len(one.Dispositions) > 0:
		add(&one.Dispositions[0].Entry, &one.Dispositions[0])
		now.Dispositions = append(now.Dispositions, one.Dispositions[0])
	case len(one.Decisions) > 0:
		add(&one.Decisions[0].Entry, &one.Decisions[0])
		now.Decisions = append(now.Decisions, one.Decisions[0])
	}
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

// Strike takes an earlier entry back, with the reason, which is needed.
func (r *Record) Strike(number int, who, why string) error {
	if number < 1 || number > len(r.entries) {
		return fmt.Errorf("the record has no entry %d", number)
	}
	e := r.entries[number-1]
	if _, ok := e.Of.(*record.Struck); ok {
		return fmt.Errorf("entry %d strikes another one, and stands: what was struck is entered anew", number)
	}
	if e.Struck {
		return fmt.Errorf("entry %d is struck already", number)
	}
	if strings.TrimSpace(why) == "" {
		return errors.New("an entry is struck with a reason")
	}
	return r.Append(&record.Struck{Of: number, Who: who, Why: why})
}

// Close lets go of the file. A second call does nothing.
func (r *Record) Close() error { return r.log.Close() }
