package acceptance

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules/conformance"
)

// belongs tells whether the record is of this very schedule, by its content.
func (j *judge) belongs() {
	l := Line{Key: "record.schedule", Demand: "record of this schedule", Basis: "fingerprint of the schedule's content, shop books included"}
	of, taken := j.Record.Of()
	here, was := j.Report.Schedule.Revision, j.Record.ScheduleRevision
	if taken != nil {
		was = taken.Number
		j.note(fmt.Sprintf("entry %d: revision %s taken up from ply %d on%s%s", taken.Entry.Number, revisionText(was), taken.From, taken.As(), record.Because(taken.Why)))
	}
	switch same, another := strings.EqualFold(of, j.Fingerprint), j.another(); {
	case another != "":
		// Two parts may have one wall, and a record of the one may have been taken up for
		// the other: neither makes it a record of this one.
		l.Verdict, l.Found, l.Basis = Fails, "the record is of "+another, "part, joint and overlay that the record names"
	case of == "" && j.Record.ScheduleSHA256 == "":
		l.Verdict, l.Found = Incomplete, "the record names neither the content nor the SHA-256 of its schedule"
	case of == "" && strings.EqualFold(j.Record.ScheduleSHA256, j.SHA256):
		l.Found, l.Basis = "the same file", "SHA-256 of the schedule the part was laid to"
	case of == "":
		l.Verdict, l.Basis = Incomplete, "SHA-256 of the schedule the part was laid to"
		l.Found = "another file, or its file has changed since, and the record has no fingerprint of its content" + revisions(was, here)
	case !same:
		l.Verdict, l.Found = Fails, "laid to another schedule, or the schedule or a shop book has changed since"+revisions(was, here)
	default:
		l.Found = "the same content" + revisions(was, here)
	}
	j.add(l)
	j.alikePlies()
	if j.Record.Torn != "" {
		j.add(Line{Key: "record.whole", Demand: "every entry complete", Found: j.Record.Torn, Verdict: Incomplete, Basis: byRecord})
	}
	j.trail()
	j.dates()
}

// another names what of a job the record is of where that is not what is compared.
func (j *judge) another() string {
	if o := j.Report.Overlay; o != nil {
		return OfAnother(j.Record, j.Part, &o.Overlay)
	}
	return OfAnother(j.Record, j.Part, nil)
}

// OfAnother names what of a job a record is of where that is something else than a
// part, or than what is laid at a joint or nozzle, nil for none; "" where it is of
// that. Part is "" for a schedule by itself, of which nothing is known here.
func OfAnother(r *record.Record, part string, o *overlay.Overlay) string {
	switch {
	case o != nil:
		if r.Joint == o.Of && (r.Overlay == o.Kind || r.Overlay == overlay.None && r.Joint != "") && (r.Joint != "" || r.Part == o.Part) {
			return ""
		}
	case part == "", r.Part == part && !r.OfOverlay():
		return ""
	}
	return cmp.Or(r.What(), "a schedule alone")
}

func revisionText(n laminate.Optional[int]) string {
	if !n.Given {
		return "not stated"
	}
	return strconv.Itoa(n.Value)
}

// revisions names both where they differ, else the one.
func revisions(was, here laminate.Optional[int]) string {
	switch {
	case was != here:
		return fmt.Sprintf("; the record is of revision %s, this is revision %s", revisionText(was), revisionText(here))
	case here.Given:
		return ", revision " + strconv.Itoa(here.Value)
	}
	return ""
}

// alikePlies holds what each ply was when it was laid against what the schedule
// has in its place now: after a revision in mid-job they may differ.
func (j *judge) alikePlies() {
	var other []int
	for i := range j.Record.Laid {
		t := &j.Record.Laid[i]
		if !t.Struck && t.Fingerprint != "" && t.Ply >= 1 && t.Ply <= len(j.PlyFingerprints) && t.Fingerprint != j.PlyFingerprints[t.Ply-1] {
			other = append(other, t.Ply)
		}
	}
	if len(other) > 0 {
		j.add(Line{Key: "record.plies", Demand: "plies laid as the schedule has them now", Found: "laid when the schedule had something else there: " + conformance.Plies(other),
			Verdict: Fails, Plies: other, Basis: "fingerprint of each ply as it was laid"})
	}
}

const byRecord = "the record itself"

// trail tells whether the record verifies: that its entries follow one another as
// they were written, that somebody named answers for those without a seal, and that
// copies which went separate ways were joined.
func (j *judge) trail() {
	t := &j.Record.Trail
	seals := Line{Key: "record.seals", Demand: "entries unchanged since they were written", Verdict: Incomplete, Basis: "seals over each entry and all before it"}
	if len(t.Breaks) > 0 {
		b := t.Breaks[0]
		seals.Found = fmt.Sprintf("the record does not verify: entry %d (line %d): %s", b.Number, b.Line, b.Why)
		if n := len(t.Breaks); n > 1 {
			seals.Found += fmt.Sprintf("; and %d more", n-1)
		}
		j.add(seals)
	}
	if len(t.Unsealed) > 0 {
		seals.Demand, seals.Found = "entries sealed, or adopted by somebody named", "without a seal: "+conformance.Numbered("entry", "entries", t.Unsealed)
		j.add(seals)
	}
	if len(t.Loose) > 0 {
		seals.Demand, seals.Found = "one record", "copies that went separate ways and were not joined end in "+conformance.Numbered("entry", "entries", t.Loose)
		j.add(seals)
	}
	for i := range j.Record.Adopted {
		a := &j.Record.Adopted[i]
		j.note(fmt.Sprintf("entry %d: the entries without a seal before it adopted%s%s", a.Number, a.As(), record.Because(a.Why)))
	}
	for i := range j.Record.Joined {
		a := &j.Record.Joined[i]
		j.note(fmt.Sprintf("entry %d: copies of the record joined%s%s", a.Number, a.As(), record.Because(a.Why)))
	}
	for i := range j.Record.Cuts {
		c := &j.Record.Cuts[i]
		j.note(fmt.Sprintf("entry %d: a half-written entry of %s was put aside in %s", c.Number, quantity.Counted(c.Bytes, "byte", "bytes"), c.Aside))
	}
}

// later says what was entered after the last decision, which did not weigh it.
func (j *judge) later() {
	var last *record.Decision
	for i := range j.Record.Decisions {
		if d := &j.Record.Decisions[i]; !d.Struck {
			last = d
		}
	}
	if last == nil {
		return
	}
	for _, c := range []struct{ what, was, now, it string }{
		{"specification", last.Specification, j.SpecificationFingerprint, "it, or the acceptance level that it names,"}, {"schedule", last.Schedule, j.Fingerprint, "it"},
	} {
		if c.was != "" && c.now != "" && c.was != c.now {
			j.add(Line{Key: "record.signed", Demand: "the decision is on this " + c.what, Verdict: Incomplete, Basis: byRecord,
				Found: fmt.Sprintf("entry %d was signed on another %s, or %s has changed since", last.Number, c.what, c.it)})
		}
	}
	var after []int
	for _, e := range j.Record.Entries() {
		if n := e.Head().Number; n > last.Number {
			after = append(after, n)
		}
	}
	if len(after) > 0 {
		j.note("entered after the decision in entry " + strconv.Itoa(last.Number) + ", which did not weigh it: " + conformance.Numbered("entry", "entries", after))
	}
}

// mostBack is how far the clock may go back from one entry to the next: people
// and machines in other time zones, and clocks that are set (common practice, no source).
const mostBack = 24 * time.Hour

// dates asks about entries that are dated before the one that was entered before
// them. Copies that were joined each have their own time.
func (j *judge) dates() {
	if len(j.Record.Joined) > 0 {
		return
	}
	var back []int
	var first string
	var before *record.Entry
	for _, any := range j.Record.Entries() {
		e := any.Head()
		if e.Struck || e.At.IsZero() {
			continue
		}
		if before != nil && before.At.Sub(e.At) > mostBack {
			if back = append(back, e.Number); first == "" {
				first = fmt.Sprintf("entry %d is dated %s and the one before it %s", e.Number, e.At.Format(time.DateOnly), before.At.Format(time.DateOnly))
			}
		}
		before = e
	}
	if len(back) > 0 {
		if len(back) > 1 {
			first += "; so it is with " + conformance.Numbered("entry", "entries", back[1:])
		}
		j.add(Line{Key: "record.dates", Demand: "dates in the order in which entries were made", Found: first, Verdict: Incomplete, Basis: byPractice})
	}
}
