package acceptance

import (
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/word"
	"frp/veilwright/rules"
)

// Answer is what a whole comparison comes to.
type Answer uint8

// The answers. Without a record the question is whether the schedule meets the
// specification, with one whether the part is accepted; Undetermined answers
// either.
const (
	Undetermined Answer = iota
	Conforms
	DoesNotConform
	Accept
	Reject
	NotInspected
)

var answers = word.Of[Answer]("incomplete", "conforms", "does not conform", "accept", "reject", "not inspected")

func (a Answer) String() string { return answers.Name(a) }

// Answers are both questions answered.
type Answers struct {
	Schedule Answer // Conforms, DoesNotConform or Undetermined
	Part     Answer // Accept, Reject, Undetermined or NotInspected, which it is without a record
	Answer   Answer // of the question that was asked: Part with a record, else Schedule
}

// Keys of lines that reject a part though nobody measured it.
const (
	keyDecision = "record.decision"
	keyDefect   = "inspection.defect"
)

// answer decides what the lines come to; the first ofSchedule of them are about
// the schedule alone.
func (j *judge) answer(ofSchedule int) {
	lines, r := j.result.Lines, j.result
	switch {
	case ofSchedule == 0 && j.Record == nil:
		// Nothing was looked at: nothing conforms.
		j.note("nothing is required of the schedule: there is nothing that it could conform to")
	case ofSchedule > 0:
		v := Meets
		for i := range lines[:ofSchedule] {
			if was, other := j.scheduled[i]; other {
				v = max(v, was)
			} else {
				v = max(v, lines[i].Verdict)
			}
		}
		r.Schedule = [...]Answer{Meets: Conforms, Incomplete: Undetermined, Fails: DoesNotConform}[v]
	}
	r.Part = j.part()
	r.Answer = r.Part
	if j.Record == nil {
		r.Answer = r.Schedule
	}
}

// part answers whether the part is accepted.
func (j *judge) part() Answer {
	lines := j.result.Lines
	required := slices.ContainsFunc(lines, func(l Line) bool {
		return !strings.HasPrefix(l.Key, "record.") && l.Key != keyBreaks && l.Key != keyUndetermined
	})
	switch {
	case !j.inspected() && !slices.ContainsFunc(lines, func(l Line) bool {
		return l.Verdict == Fails && (l.Key == keyDecision || l.Key == keyDefect)
	}):
		return NotInspected
	case worst(lines) == Fails:
		return Reject
	case j.Specification == nil:
		j.note("no specification was chosen: the part cannot be accepted")
		return Undetermined
	case !required:
		j.note("nothing is required: there is nothing that the part could be accepted by")
		return Undetermined
	case worst(lines) == Incomplete:
		return Undetermined
	}
	return Accept
}

// inspected tells whether the record holds a tick or a reading that stands.
func (j *judge) inspected() bool {
	return j.Record != nil &&
		(slices.ContainsFunc(j.Record.Laid, func(t record.Laid) bool { return !t.Struck }) ||
			slices.ContainsFunc(j.Record.Readings, func(r record.Reading) bool { return !r.Struck }))
}

func worst(lines []Line) Verdict {
	v := Meets
	for i := range lines {
		v = max(v, lines[i].Verdict)
	}
	return v
}

// Keys of the lines about the schedule itself.
const (
	keyBreaks       = "schedule.breaks"
	keyUndetermined = "schedule.incomplete"
)

// unsettled says that a schedule that breaks a rule, or of which a rule cannot be
// determined, keeps its part from being accepted, but for what the purchaser has
// conceded: nobody accepts a part of which it is not known whether it holds.
func (j *judge) unsettled() {
	for _, c := range []struct {
		severity                              rules.Severity
		key, demand, conceded, one, more, way string
	}{
		{rules.Break, keyBreaks, "the schedule breaks no rule", "the schedule breaks ", "break", "breaks", ";"},
		{rules.Incomplete, keyUndetermined, "every rule determined of the schedule", "cannot be determined of the schedule: ", "rule lacks a fact", "rules lack a fact",
			"; the fact is stated and the schedule taken up as a revision, or"},
	} {
		var ids, taken []string
		n := 0
		for i := range j.Report.Findings {
			f := &j.Report.Findings[i]
			if !f.Unsettled() || f.Severity != c.severity {
				continue
			}
			if d := j.concession(f.Rule.ID); d != nil {
				if text := fmt.Sprintf("%s%s, conceded in entry %d: %s", c.conceded, f.Rule.ID, d.Number, disposedText(d)); !slices.Contains(taken, text) {
					taken = append(taken, text)
				}
				continue
			}
			if n++; !slices.Contains(ids, f.Rule.ID) {
				ids = append(ids, f.Rule.ID)
			}
		}
		for _, text := range taken {
			j.note(text)
		}
		if n > 0 {
			j.add(Line{Key: c.key, Demand: c.demand, Verdict: Incomplete, Basis: "the rules of this program",
				Found: quantity.Counted(n, c.one, c.more) + ": " + strings.Join(ids, ", ") + c.way + " a part laid to it is not accepted without the purchaser's concession"})
		}
	}
}
