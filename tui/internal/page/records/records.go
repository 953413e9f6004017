// Package records is what lies beside the schedule on the desk: the
// specification and the record, chosen once and shared by the pages that lay up
// and inspect.
package records

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// Case is made with New.
type Case struct {
	desk  *page.Desk
	files recorder.Case
	clock func() time.Time
	path  string // the schedule the record was opened beside

	who, role string   // who enters in this sitting, and as what
	twins     []string // other records with the serial of the one that is open

	doc      *editor.Document // the sum is of this document
	revision uint64
	sum      string

	report *rules.Report // the fingerprints are of its schedule
	prints schedules.Fingerprints

	piece piece

	over   over
	wall   wall
	beside beside

	demands recorder.Demands // specifications beside the document

	waiting *recorder.Waiting // what is ahead of the records of the document
}

// New makes an empty case. A nil clock is the machine's.
func New(d *page.Desk, clock func() time.Time) *Case {
	if clock == nil {
		clock = time.Now
	}
	return &Case{desk: d, clock: clock}
}

// Now is the time entries get; a record keeps it to the second.
func (c *Case) Now() time.Time { return c.clock() }

// By is what every entry of this sitting begins with: who enters, as what, and
// when.
func (c *Case) By() record.Entry {
	return record.Entry{At: c.Now().Truncate(time.Second), Who: c.who, Role: c.role}
}

// Enters says who enters from now on: it is never taken out of a record.
func (c *Case) Enters(who, role string) {
	c.who, c.role = strings.TrimSpace(who), strings.TrimSpace(role)
}

// Another asks where a form has somebody else enter than has until now: a digit typed
// into the wrong line must sign nothing in another's name. asked is who was answered for.
func (c *Case) Another(who *page.Field, asked *string) error {
	name := strings.TrimSpace(who.Text)
	if c.who == "" || name == "" || name == c.who || name == *asked {
		return nil
	}
	return &page.Doubt{Why: "does " + name + " enter from now on, and no longer " + c.who, Answers: []page.Answer{{Text: c.who, Said: c.who + ", as before"}, {Text: name, Said: name + " from now on"}},
		Told: func(a page.Answer) { *asked = a.Text }}
}

// Laminator is the role of who lays up.
const Laminator = "laminator"

// Roles are what somebody usually enters as.
func Roles() []string { return []string{Laminator, "inspector", "engineer", record.Purchaser} }

// Fresh reads again what was read once and is other on disk by now: schedules of parts,
// shop books, the specification. It says what; the error, why some of it cannot be used.
func (c *Case) Fresh() (said string, err error) {
	names, err := c.desk.Doc.Reread()
	again, wrong := c.files.Reread()
	if _, path := c.files.Specification(); again {
		names = append(names, filepath.Base(path))
	}
	if err = errors.Join(err, wrong); err != nil || len(names) == 0 {
		return "", err
	}
	return strings.Join(names, ", ") + " changed on disk: read again", nil
}

// Behind says why nothing can be recorded of what is on the desk: what it was read from
// is other on disk by now, and somebody has to look at that first. "" where it is not.
func (c *Case) Behind() string {
	switch said, err := c.Fresh(); {
	case err != nil:
		return err.Error() + "; nothing is recorded until that is put right"
	case said != "":
		return said + "; look at it, then press again"
	}
	switch how, err := c.desk.Doc.Since(); {
	case err != nil:
		return err.Error()
	case how != store.Unchanged:
		return c.desk.Doc.Name() + " " + how.String() + ": s asks what to do, and nothing is recorded until then"
	}
	return ""
}

// Append puts an entry into the open record. What it is of may have changed on disk
// while its form stood open: then it is not entered before somebody looked at that.
func (c *Case) Append(entry record.Any) error {
	r := c.files.Record()
	if r == nil {
		return errors.New("the record was closed")
	}
	if why := c.Behind(); why != "" {
		return errors.New(why)
	}
	return r.Append(entry)
}

// Named goes on once it is known who enters: it asks but once a sitting. Nothing is
// entered of what is no longer on disk.
func (c *Case) Named(open func(page.Overlay), next func()) {
	if why := c.Behind(); why != "" {
		c.desk.Refuse(why)
		return
	}
	if c.who != "" {
		next()
		return
	}
	open(c.AskName(next))
}

// AskName is the form of who enters from now on.
func (c *Case) AskName(next func()) page.Overlay {
	who := &page.Field{Label: "name", Text: c.who, Hint: "with every entry from now on"}
	role := &page.Field{Label: "role", Text: c.role, Choices: Roles()}
	c.Offer(who)
	s := &page.Form{Head: "who enters? asked once a sitting", Fields: []*page.Field{who, role}}
	s.Check = func(i int) error {
		switch f := s.Fields[i]; {
		case strings.TrimSpace(f.Text) != "":
		case f == who:
			return errors.New("a name is needed: somebody answers for each entry")
		case f == role:
			return errors.New("role: a digit takes one")
		}
		return nil
	}
	s.Take = func() error {
		c.Enters(who.Text, role.Text)
		if next != nil {
			next()
		} else {
			c.desk.Say("entries are by " + c.who + " (" + c.role + ") from now on")
		}
		return nil
	}
	return s
}

// Specification is the one chosen and its file, nil where none is.
func (c *Case) Specification() (*spec.Specification, string) { return c.files.Specification() }

// Record is the open record, nil where there is none.
func (c *Case) Record() *recorder.Record { return c.files.Record() }

// piece is what lay-up and inspection are about: what of the job, and by the record
// that was open of it last which one of several that are built alike.
type piece struct {
	n            uint64
	what, record string
}

// Piece changes with the piece that is laid up and inspected: what was measured,
// typed and answered of one gets into the record of no other.
func (c *Case) Piece() uint64 {
	was, now := c.piece, piece{c.piece.n, c.What(), ""}
	if r := c.files.Record(); r != nil {
		now.record = r.Path()
	}
	switch {
	case now.what != was.what, now.record != "" && was.record != "" && now.record != was.record:
		now.n++
	case now.record == "":
		now.record = was.record
	}
	c.piece = now
	return now.n
}

// Open opens a record, and OpenSpecification a specification, by its file.
func (c *Case) Open(path string) error {
	c.path = c.desk.Doc.Path()
	err := c.files.Open(path)
	if r := c.files.Record(); err == nil && r != nil {
		c.twins = recorder.SameSerial(path, r.Now())
		c.follow(r.Now())
		err = c.sweepAhead(r)
	}
	return err
}

// SameSerial names the other records beside the open one that have its serial.
func (c *Case) SameSerial() []string {
	if c.files.Record() == nil {
		return nil
	}
	return c.twins
}

// OpenSpecification takes the specification at path.
func (c *Case) OpenSpecification(path string) error {
	c.path = c.desk.Doc.Path()
	return c.files.Choose(path)
}

// Reset lets go of record and specification where the desk has another
// schedule's file by now.
func (c *Case) Reset() {
	if c.desk.Doc.Path() == c.path {
		return
	}
	c.over, c.beside = over{}, beside{}
	if err := c.files.Close(); err != nil {
		c.desk.Refuse(err.Error())
	}
}

// Close lets go of the files.
func (c *Case) Close() error {
	w := c.waiting
	c.waiting = nil
	return errors.Join(c.files.Close(), w.Close())
}

// Sum is the SHA-256 of the schedule as it stands on the desk.
func (c *Case) Sum() string {
	d := c.desk.Doc
	if c.doc != d || c.revision != d.Revision() || c.sum == "" {
		c.doc, c.revision, c.sum = d, d.Revision(), store.SumOf(d.Bytes()).String()
	}
	return c.sum
}

// Fingerprints are those of what is laid up and inspected, as it stands.
func (c *Case) Fingerprints() *schedules.Fingerprints {
	if r := c.Report(); c.report != r {
		c.report, c.prints = r, schedules.Fingerprints{}
		if c.over.lost == "" || r.Overlay == nil {
			c.prints = recorder.Fingerprints(r, c.desk.Doc.Library())
		}
	}
	return &c.prints
}

// isOf tells whether a record is of the schedule on the desk.
func (c *Case) isOf(r *record.Record) bool {
	if of, _ := r.Of(); of != "" {
		return strings.EqualFold(of, c.Fingerprints().Schedule)
	}
	return strings.EqualFold(r.ScheduleSHA256, c.Sum())
}

// part is the id of the part on the desk, "" where it is a schedule.
func (c *Case) part() string {
	j := c.desk.Doc.Job()
	if j == nil || len(j.Parts) == 0 {
		return ""
	}
	return j.Parts[c.desk.Doc.Part()].ID
}

// CanTakeUp says why lay-up cannot go on to the schedule on the desk as another
// revision of the record's, "" when it can.
func (c *Case) CanTakeUp(key string) string {
	if why := c.NeedOwn(key); why != "" {
		return why
	}
	if c.isOf(c.files.Record().Now()) {
		return "the record is of the schedule on the desk"
	}
	return c.cannotBegin()
}

// TakeUp is the form by which somebody named has lay-up go on to the schedule on
// the desk: plies that were laid are held against it too.
func (c *Case) TakeUp() page.Overlay {
	why := &page.Field{Label: "why", Hint: c.It() + " is laid to another revision from now on"}
	return &page.Form{Head: "take up the schedule on the desk for this record", Fields: []*page.Field{why}, Check: func(int) error {
		if strings.TrimSpace(why.Text) == "" {
			return errors.New("why: a revision in mid-job is answered for")
		}
		return nil
	}, Take: func() error {
		d, r := c.desk.Doc, c.files.Record()
		from := 1
		for i := range r.Now().Laid {
			if t := &r.Now().Laid[i]; !t.Struck {
				from = max(from, t.Ply+1)
			}
		}
		x := &record.Revision{Entry: c.By(), Schedule: filepath.Base(d.Path()), Number: c.Schedule().Revision, Fingerprint: c.Fingerprints().Schedule, From: from,
			Why: strings.TrimSpace(why.Text)}
		if err := c.Append(x); err != nil {
			return err
		}
		c.desk.Say(fmt.Sprintf("taken up from ply %d on; plies laid before are held against it too", from))
		return nil
	}}
}

// NeedRecord says why nothing can be recorded, "" when it can; key is the one
// that opens a record.
func (c *Case) NeedRecord(key string) string {
	r := c.files.Record()
	switch {
	case r == nil:
		return "no record is open: " + key + " opens or starts one"
	case r.Held() != nil:
		return "to look at only: " + r.Held().Error() + "; " + key + " opens it again"
	}
	return ""
}

// Foreign tells why the open record is not of the schedule on the desk, "" when it is.
func (c *Case) Foreign() string {
	r := c.files.Record()
	switch {
	case r == nil:
		return ""
	case c.foreign(r.Now()) != "":
		return c.foreign(r.Now())
	case c.isOf(r.Now()):
		return ""
	case r.Now().ScheduleFingerprint == "" && r.Now().ScheduleSHA256 == "":
		return "the record does not name its schedule"
	case c.desk.Doc.Dirty():
		return "the schedule has changes that are not saved: the record is of the saved one, or of another"
	}
	return "the record is of another schedule, or the schedule has changed since"
}

func (c *Case) folder() string {
	if p := c.desk.Doc.Path(); p != "" {
		return filepath.Dir(p)
	}
	return "."
}

// said notices that a record is open, and before all what was recovered of it.
func (c *Case) said(what string) {
	if torn := c.files.Record().Torn(); torn != "" {
		c.desk.Say("recovered: " + torn)
		return
	}
	if held := c.files.Record().Held(); held != nil {
		c.desk.Refuse(what + " to look at only: " + held.Error())
		return
	}
	if why := c.Foreign(); why != "" {
		c.desk.Refuse(what + ": " + why)
		return
	}
	c.desk.Say(what)
}

// RecordLine names the open record in a few words.
func (c *Case) RecordLine() string {
	r := c.files.Record()
	if r == nil {
		return "no record"
	}
	serial := "no serial number" // what is marked on the piece comes first: the end may be cut
	if n := r.Now().SerialNumber(); n != "" {
		serial = "serial " + draw.Clean(n)
	}
	return serial + ", record " + draw.Clean(filepath.Base(r.Path()))
}

// SpecificationLine names the specification in a few words.
func (c *Case) SpecificationLine() string {
	s, path := c.files.Specification()
	if s == nil {
		return "no specification"
	}
	name := strings.TrimSpace(draw.Clean(s.Number) + " " + draw.Clean(s.Title))
	if name == "" {
		name = draw.Clean(filepath.Base(path))
	}
	return "against " + name
}
