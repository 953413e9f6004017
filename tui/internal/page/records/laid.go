package records

import (
	"cmp"
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/tui/internal/page"
)

// over is what of a job is laid at a joint or nozzle and laid up or inspected now,
// instead of the wall on the desk.
type over struct {
	chosen bool
	overlay.Overlay

	from   *rules.JobReport // the report is out of this one
	report *rules.Report
	lost   string // why the job has it no more
}

// wall is the report of a part of a job with what the whole job says of it.
type wall struct {
	from   *rules.JobReport
	part   int
	report *rules.Report
}

// Turn has lay-up and inspection, and the bench, be about what is laid at a joint or
// nozzle; a record of something else is closed.
func (c *Case) Turn(o overlay.Overlay) error {
	c.turn(o)
	c.path = c.desk.Doc.Path()
	return c.closeAnothers()
}

// turn turns to it, whichever record is open.
func (c *Case) turn(o overlay.Overlay) {
	c.over = over{chosen: true, Overlay: o}
	c.desk.Doc.Lend(o)
	c.desk.Replaced()
}

// TurnBack has them, and the bench, be about the wall of the part on the desk; a
// record of something else is closed.
func (c *Case) TurnBack() error {
	c.over = over{}
	c.desk.Doc.Turn(c.desk.Doc.Part())
	c.desk.Replaced()
	return c.closeAnothers()
}

func (c *Case) closeAnothers() error {
	if r := c.files.Record(); r != nil && c.ofAnother(r.Now()) != "" {
		c.beside = beside{}
		return c.files.CloseRecord()
	}
	return nil
}

// follow turns to what a record is of, as far as it is of the job on the desk.
func (c *Case) follow(r *record.Record) {
	j := c.desk.Doc.Job()
	if j == nil || !r.OfOverlay() {
		c.over = over{}
		c.desk.Doc.Turn(c.desk.Doc.Part())
		c.desk.Replaced()
		return
	}
	if o, err := overlay.Find(j, r.Part, r.Joint, r.Overlay); err == nil {
		c.turn(o)
	}
}

// Overlay is what is laid at a joint or nozzle and laid up or inspected now, nil
// where it is the wall on the desk.
func (c *Case) Overlay() *rules.Overlaid { return c.Report().Overlay }

// Report is of what is laid up and inspected.
func (c *Case) Report() *rules.Report {
	j := c.desk.Doc.Job()
	if j == nil || len(j.Parts) == 0 {
		return c.desk.Report()
	}
	now := c.desk.Doc.JobReport()
	if part := c.desk.Doc.Part(); !c.over.chosen {
		if x := &c.wall; x.from != now || x.part != part {
			x.from, x.part, x.report = now, part, now.PartReport(part)
		}
		return c.wall.report
	}
	if x := &c.over; x.from != now {
		x.from, x.lost = now, ""
		o, err := overlay.Find(now.Job, x.Part, x.Of, x.Kind)
		if err != nil {
			// The job has it no more: nothing is left to lay, rather than the plies of
			// something else.
			x.lost = "the job " + err.Error()
			o = x.Overlay
			o.At, o.Laminate = laminate.Ref{}, ""
		}
		x.report = now.Overlay(o)
	}
	return c.over.report
}

// Schedule is what is laid up and inspected.
func (c *Case) Schedule() *laminate.Schedule { return c.Report().Schedule }

// Analysis is that of the schedule.
func (c *Case) Analysis() *laminate.Analysis { return c.Report().Analysis }

// RowOf is the row that holds a single ply, -1 where there is none.
func (c *Case) RowOf(ply int) int { return laid.RowOf(c.Analysis(), ply) }

// Take is what a single ply takes.
func (c *Case) Take(ply int) laid.Ply {
	r, u := c.Report(), c.desk.Units()
	if r.Overlay == nil {
		return laid.Of(r.Schedule, r.Analysis, ply, u)
	}
	if c.over.lost != "" {
		return laid.Ply{Row: -1, Missing: c.over.lost}
	}
	on, missing := r.Overlay.Ground(r.Overlay.Job, c.desk.Doc.Library())
	return laid.On(&on, missing, r.Analysis, ply, u)
}

// NoPlies says why there is nothing to lay up, "" where there is.
func (c *Case) NoPlies() string {
	r := c.Report()
	switch {
	case r.Analysis.Total.Plies > 0:
		return ""
	case c.over.lost != "":
		return c.over.lost + ": the job page leads to another"
	case r.Overlay != nil:
		return r.Overlay.Lacks(r.Overlay.Job) + ": on the job page p fills it in, e states it"
	}
	return "the schedule has no ply to lay up"
}

// OnBench says why nothing of this can be shown on the bench, "" when it can.
func (c *Case) OnBench() string {
	o, lent := c.Overlay(), c.desk.Doc.Lent()
	switch {
	case o == nil && lent == nil, o != nil && lent != nil && *lent == o.Overlay:
		return ""
	case lent != nil:
		return "the bench is on " + lent.Name() + ": Enter on the job page leads to another"
	}
	return "the bench is on the wall of part " + c.part() + ": Enter on the job page leads to " + o.Name()
}

// What is laid up and inspected in a few words, "" of a schedule by itself.
func (c *Case) What() string {
	if o := c.Overlay(); o != nil {
		return o.Name()
	}
	if p := c.part(); p != "" {
		return "part " + p
	}
	return ""
}

// It is What of sentences: a schedule by itself is the part's.
func (c *Case) It() string { return cmp.Or(c.What(), "the part") }

// head is of a record that is begun now.
func (c *Case) head() *record.Record {
	r := &record.Record{Part: c.part(), ScheduleRevision: c.Schedule().Revision, ScheduleFingerprint: c.Fingerprints().Schedule, ScheduleSHA256: c.Sum()}
	if o := c.Overlay(); o != nil {
		r.Part, r.Joint, r.Overlay = o.Part, o.Of, o.Kind
	}
	return r
}

// ofAnother names what a record is of where that is something else of the job than
// what is laid up and inspected now: two parts may have one wall, and two joints
// one strap.
func (c *Case) ofAnother(r *record.Record) string {
	if c.part() == "" {
		if c.isOf(r) {
			return ""
		}
		return r.What()
	}
	if o := c.Overlay(); o != nil {
		return acceptance.OfAnother(r, c.PartOf(r), &o.Overlay)
	}
	return acceptance.OfAnother(r, c.PartOf(r), nil)
}

// PartOf is the id of the part that a record has to be of, "" where it need not name
// one: the desk has a schedule, or a job of one part.
func (c *Case) PartOf(r *record.Record) string {
	if j := c.desk.Doc.Job(); r.What() == "" && j != nil && len(j.Parts) == 1 {
		return ""
	}
	return c.part()
}

// stem is how the name of a new record's file begins: the job, the part, the joint,
// and what of it.
func (c *Case) stem(file string) string {
	r := c.head()
	parts := []string{file, page.FileWord(r.Part), page.FileWord(r.Joint), page.FileWord(r.Overlay.Said())}
	var said []string
	for _, p := range parts {
		if p != "" {
			said = append(said, p)
		}
	}
	return strings.Join(said, "-")
}

// foreign says that a record is of something else of the job.
func (c *Case) foreign(r *record.Record) string {
	if of := c.ofAnother(r); of != "" {
		return fmt.Sprintf("the record is of %s, and %s is on the desk", of, cmp.Or(strings.TrimPrefix(c.What(), "part "), "a schedule alone"))
	}
	return ""
}

// NeedOwn says why nothing can be recorded of what is laid up and inspected now: no
// record is open, or one of something else of the job. What is measured or laid of
// one part never gets into the record of another. key is the one that opens a record.
func (c *Case) NeedOwn(key string) string {
	if why := c.NeedRecord(key); why != "" {
		return why
	}
	switch of := c.OfAnother(); {
	case of == "":
		return ""
	case c.part() == "":
		return "record of " + of + ": " + key + " opens another, its job has to be opened first"
	default:
		return "record of " + of + ": " + key + " opens another, the job page leads there"
	}
}

// OfAnother names what the open record is of where that is something else of a job
// than what is laid up and inspected now.
func (c *Case) OfAnother() string {
	if r := c.files.Record(); r != nil {
		return c.ofAnother(r.Now())
	}
	return ""
}

// NeedThis says why no ply can be recorded: beside that of NeedOwn, the record is of
// another schedule than the one on the desk.
func (c *Case) NeedThis(key string) string {
	if why := c.NeedOwn(key); why != "" {
		return why
	}
	switch {
	case c.isOf(c.files.Record().Now()):
		return ""
	case c.desk.Doc.Dirty():
		return "the record is of the saved schedule: s saves, 0 on the inspect page takes it up"
	}
	return "the record is of another revision: 0 on the inspect page takes this one up"
}
