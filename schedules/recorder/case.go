package recorder

import (
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// Case is what lies open beside a schedule: at most one specification and at
// most one record. The zero value has neither. Those who share a Case share the
// record: a log can be open but once.
type Case struct {
	demands     *spec.Specification
	demandsPath string
	print       store.Fingerprint // of its file, as it was read
	record      *Record
}

// Specification is the one chosen, nil where none is, and its file.
func (c *Case) Specification() (*spec.Specification, string) { return c.demands, c.demandsPath }

// Record is the open record, nil where there is none.
func (c *Case) Record() *Record { return c.record }

// Choose takes the specification at path; the one before stays where it cannot
// be read.
func (c *Case) Choose(path string) error {
	file, err := store.Read(path)
	if err != nil {
		return err
	}
	o, err := opened(path, schedules.Specification)
	if err != nil {
		return err
	}
	c.demands, c.demandsPath, c.print = o.Specification, path, file.Fingerprint
	return nil
}

// Reread reads the specification again where its file is no longer as it was read, and
// tells whether it is. The error says why it cannot be used; the one before stays then.
func (c *Case) Reread() (changed bool, err error) {
	if c.demands == nil {
		return false, nil
	}
	if how, err := store.Since(c.demandsPath, c.print); err == nil && how == store.Unchanged {
		return false, nil
	}
	return true, c.Choose(c.demandsPath)
}

// Open opens the record at path in place of the one that is open, which stays
// where that fails.
func (c *Case) Open(path string) error {
	if c.record != nil && c.record.Path() == path && c.record.Held() == nil {
		return nil
	}
	return c.put(Open(path))
}

// Begin begins a record and opens it in place of the one that is open.
func (c *Case) Begin(path string, head *record.Record) error { return c.put(Begin(path, head)) }

func (c *Case) put(r *Record, err error) error {
	if err != nil {
		return err
	}
	old := c.record
	c.record = r
	if old != nil {
		return old.Close()
	}
	return nil
}

// CloseRecord lets go of the record alone.
func (c *Case) CloseRecord() error {
	r := c.record
	if c.record = nil; r == nil {
		return nil
	}
	return r.Close()
}

// Close lets go of the record and forgets the specification: the schedule
// became another one, or the program ends.
func (c *Case) Close() error {
	c.demands, c.demandsPath = nil, ""
	return c.CloseRecord()
}
