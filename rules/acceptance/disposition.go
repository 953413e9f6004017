package acceptance

import (
	"cmp"
	"fmt"
	"strings"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
)

// keyNonconformance is the key of a line about something found that is not
// closed.
const keyNonconformance = "record.nonconformance"

func conceded(d *record.Disposition) bool {
	return d.Action == record.UseAsIs && strings.EqualFold(strings.TrimSpace(d.Role), record.Purchaser)
}

// closed tells whether a defect counts no more: repaired and examined again, or
// taken as it is by the purchaser.
func (j *judge) closed(d *record.Defect) bool {
	what := j.disposed[d.Number]
	switch {
	case what == nil && !d.Repaired:
		return false
	case what == nil:
		return j.examined[named(d.Place)] > d.Number
	case what.Action == record.UseAsIs:
		return conceded(what)
	case what.Action == record.Repair, what.Action == record.Retest:
		return j.examined[named(d.Place)] > what.Number
	}
	return false
}

// nonconformances says what became of everything that somebody disposed of, and
// keeps it in sight when it is closed.
func (j *judge) nonconformances() {
	for k := range j.Record.Defects {
		d := &j.Record.Defects[k]
		what := j.disposed[d.Number]
		switch {
		case d.Struck || what == nil && !d.Repaired:
		case j.closed(d):
			j.note(seenAt(d) + ": " + disposedText(what))
		case what == nil || what.Action == record.Repair || what.Action == record.Retest:
			j.add(Line{Key: keyNonconformance, Demand: "a repair is examined again", Verdict: Incomplete, Basis: byPractice,
				Found: seenAt(d) + ": " + disposedText(what) + ", and no later examination by eye at that place"})
		}
	}
	for i := range j.Record.Dispositions {
		d := &j.Record.Dispositions[i]
		if d.Struck {
			continue
		}
		switch {
		case d.Action == record.Scrap:
			j.add(Line{Key: keyDecision, Demand: "not scrapped", Found: fmt.Sprintf("entry %d: %s", d.Number, disposedText(d)), Verdict: Fails, Basis: byRecord})
		case d.Action == record.UseAsIs && !conceded(d):
			j.add(Line{Key: keyNonconformance, Demand: "used as it is by the purchaser's concession alone", Verdict: Incomplete, Basis: byPractice,
				Found: fmt.Sprintf("entry %d: %s, whose role is not %s", d.Number, disposedText(d), record.Purchaser)})
		}
	}
	for i := range j.Record.Dispositions {
		j.superseded(&j.Record.Dispositions[i])
	}
}

// superseded says what a retest puts aside, and asks for what comes instead.
func (j *judge) superseded(d *record.Disposition) {
	old := j.aside[d]
	if len(old) == 0 {
		return
	}
	r := old[0]
	what := fmt.Sprintf("%s at %s", r.Kind, cmp.Or(r.Place, "a place not recorded"))
	j.note(fmt.Sprintf("entry %d: %s: %s of %s superseded", d.Number, disposedText(d), quantity.Counted(len(old), "earlier reading", "earlier readings"), what))
	if j.latest[measured(r)] <= d.Number {
		j.add(Line{Key: keyNonconformance, Demand: "what is retested is measured again", Verdict: Incomplete, Basis: byPractice,
			Found: fmt.Sprintf("%s: %s in entry %d, and no later reading", what, d.Action, d.Number)})
	}
}

func disposedText(d *record.Disposition) string {
	if d == nil {
		return "repaired"
	}
	text := d.Action.String() + record.By(d.Who)
	if d.Role != "" {
		text += " (" + d.Role + ")"
	}
	if d.Procedure != "" {
		text += ", procedure " + d.Procedure
	}
	return text + record.Because(d.Why)
}

// Concedable tells whether the purchaser may take as it is what a line says: what
// fails, and what the specification requires and nobody measured. What the record
// lacks as a record, nobody concedes.
func Concedable(l *Line) bool {
	own := strings.HasPrefix(l.Key, "record.") || strings.HasPrefix(l.Key, "schedule.")
	return l.Key != keyDecision && (l.Verdict == Fails || l.Verdict == Incomplete && !own)
}

// concede marks what the purchaser takes as it is: requirements as a whole, as
// the readings stood when that was said. It is judged last, on all lines.
func (j *judge) concede() {
	for i := range j.result.Lines {
		l := &j.result.Lines[i]
		if !Concedable(l) {
			continue
		}
		for k := range j.Record.Dispositions {
			d := &j.Record.Dispositions[k]
			if d.Struck || d.Requirement != l.Key || !conceded(d) || j.measuredAfter(l.Key, d.Number) {
				continue
			}
			l.Verdict, l.Found = Meets, fmt.Sprintf("%s; conceded in entry %d: %s", l.Found, d.Number, disposedText(d))
			break
		}
	}
}

// measuredAfter tells whether what a line rests on was measured again after an entry.
func (j *judge) measuredAfter(key string, number int) bool {
	kinds := map[string]inspection.Kind{"inspection.barcol": inspection.Barcol, keySpot: inspection.WallThickness, "inspection.acetone": inspection.Acetone,
		"inspection.resistance_to_ground_max": inspection.ResistanceToGround}
	kind := kinds[key]
	switch {
	case strings.HasSuffix(key, ".thickness measured"):
		kind = inspection.WallThickness
	case strings.HasSuffix(key, ".glass_content measured"):
		kind = inspection.IgnitionLoss
	case key == keyDefect:
		for i := range j.Record.Defects {
			if d := &j.Record.Defects[i]; !d.Struck && d.Number > number {
				return true
			}
		}
	}
	for i := range j.Record.Readings {
		if r := &j.Record.Readings[i]; kind != inspection.NoKind && r.Kind == kind && !r.Struck && r.Number > number {
			return true
		}
	}
	return false
}

// concession gives the purchaser's concession of a rule that the
// schedule breaks, or that cannot be determined of it.
func (j *judge) concession(rule string) *record.Disposition {
	for i := range j.Record.Dispositions {
		if d := &j.Record.Dispositions[i]; !d.Struck && d.Requirement == rule && conceded(d) {
			return d
		}
	}
	return nil
}
