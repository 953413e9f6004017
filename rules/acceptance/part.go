package acceptance

import (
	"fmt"
	"strings"
	"time"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/acceptance/holdpoint"
	"frp/veilwright/rules/conformance"
)

// finished judges what is required of the finished part beside its laminate.
func (j *judge) finished() {
	j.serial()
	d := j.inspectionDemands()
	for i := range d.Dimensions {
		x := &d.Dimensions[i]
		names := spec.Places(x.Places)
		if len(names) == 0 {
			names = []string{""}
		}
		for _, name := range names {
			j.dimension(x, name)
		}
	}
	j.hydrotest(&d.Hydrotest)
	j.postCure(&d.PostCure)
	for i := range d.Holds {
		j.add(holdpoint.Judge(&d.Holds[i], j.Report, j.Record))
	}
	j.instruments()
}

// serial asks which part the record is of: one without a number, or with that of
// another part, is nobody's.
func (j *judge) serial() {
	l := Line{Key: "record.serial", Demand: "a serial number of its own", Verdict: Incomplete, Basis: byPractice}
	switch list := j.Record.Serials(); {
	case len(list) == 0:
		l.Found = "the record has no serial number"
		j.add(l)
	case len(list) > 1:
		l.Found = "the record has more than one: " + strings.Join(list, ", ")
		j.add(l)
	case len(j.SameSerial) > 0:
		l.Found = "serial " + list[0] + " is also that of " + strings.Join(j.SameSerial, ", ")
		j.add(l)
	}
}

func (j *judge) dimension(d *spec.Dimension, place string) {
	what := strings.ReplaceAll(d.What.String(), "-", " ")
	l := Line{Key: "inspection.dimension", Demand: what + " " + conformance.Bounds(j.Units, &d.Value)}
	if place != "" {
		l.Demand += " at " + place
	}
	var found []string
	for i := range j.Record.Dimensions {
		x := &j.Record.Dimensions[i]
		if x.Struck || x.What != d.What || place != "" && !strings.EqualFold(strings.TrimSpace(x.Place), place) || j.supersededDimension(x) {
			continue
		}
		text := j.size(x.Value)
		if place == "" && x.Place != "" {
			text += " at " + x.Place
		}
		found = append(found, text)
		if d.Value.Lowest.Given() && x.Value.Cmp(d.Value.Lowest) < 0 || d.Value.Highest.Given() && x.Value.Cmp(d.Value.Highest) > 0 {
			l.Verdict = Fails
		}
	}
	l.Found = strings.Join(found, ", ")
	if len(found) == 0 {
		l.Verdict, l.Found = Incomplete, "not measured"
	}
	j.add(l)
}

// supersededDimension tells whether a measure was put aside by a retest or repair
// and measured again, or conceded.
func (j *judge) supersededDimension(x *record.Dimension) bool {
	d := j.disposed[x.Number]
	if d == nil {
		return false
	}
	if conceded(d) {
		return true
	}
	return d.Action != record.Scrap && j.sized[sized{x.What, named(x.Place)}] > d.Number
}

// hydrotest judges the last test under water; one that leaked stays in sight
// until it was disposed of and tested again.
func (j *judge) hydrotest(d *spec.Hydrotest) {
	var last *record.Hydrotest
	for i := range j.Record.Hydrotests {
		h := &j.Record.Hydrotests[i]
		if h.Struck {
			continue
		}
		last = h
		if h.Leaks.Value == 0 {
			continue
		}
		what := j.disposed[h.Number]
		l := Line{Key: keyNonconformance, Demand: "a leak is disposed of, and the part tested again", Verdict: Incomplete, Basis: byPractice,
			Found: fmt.Sprintf("entry %d: %s at %s", h.Number, quantity.Counted(h.Leaks.Value, "leak", "leaks"), j.load(h.Pressure))}
		switch {
		case what == nil:
			j.add(l)
		case !conceded(what) && j.held <= what.Number:
			l.Found += ": " + disposedText(what) + ", and no later test without a leak"
			j.add(l)
		default:
			j.note(l.Found + ": " + disposedText(what))
		}
	}
	if !d.Pressure.Given() {
		if last != nil {
			j.note("hydrotest: " + j.hydrotestText(last) + "; not required")
		}
		return
	}
	l := Line{Key: "inspection.hydrotest", Demand: "hydrotest with water, at least " + j.load(d.Pressure)}
	if d.Held != "" {
		l.Demand += " held " + d.Held
	}
	if d.Witness != "" {
		l.Demand += ", witnessed by " + d.Witness
	}
	l.Demand += ", no leak"
	if last == nil {
		l.Verdict, l.Found = Incomplete, "not tested"
		j.add(l)
		return
	}
	l.Found = j.hydrotestText(last)
	asked, _ := record.Span(d.Held)
	held, _ := record.Span(last.Held)
	switch what := j.disposed[last.Number]; {
	case last.Leaks.Value > 0 && (what == nil || !conceded(what)):
		l.Verdict = Fails
	case last.Pressure.Cmp(d.Pressure) < 0, held < asked:
		l.Verdict = Incomplete
		l.Found += ": not the test that is required"
	case quantity.Above(last.Pressure.SI(), conformance.MostOfTest*d.Pressure.SI()):
		l.Verdict = Incomplete
		l.Found += ": far above the test that is required, and nobody figured what it did"
	case holdpoint.Unwitnessed(&last.Entry, last.Witness, d.Witness) != "":
		l.Verdict = Incomplete
		l.Found += ": " + holdpoint.Unwitnessed(&last.Entry, last.Witness, d.Witness)
	case last.Instrument == "":
		l.Verdict = Incomplete
		l.Found += ": the gauge is not named"
	}
	j.add(l)
}

func (j *judge) hydrotestText(h *record.Hydrotest) string {
	return j.load(h.Pressure) + " held " + h.Held + ", " + quantity.Counted(h.Leaks.Value, "leak", "leaks") + holdpoint.Witnessed(h.Witness)
}

func (j *judge) load(q quantity.Pressure) string { return q.TextFor(j.Units, j.Units.Load()) }

func (j *judge) heat(q quantity.Temperature) string { return q.TextFor(j.Units, j.Units.Heat()) }

func (j *judge) postCure(d *spec.PostCure) {
	best := ""
	asked, _ := record.Span(d.Held)
	met := false
	for i := range j.Record.PostCures {
		p := &j.Record.PostCures[i]
		if p.Struck {
			continue
		}
		held, _ := record.Span(p.Held)
		best = j.heat(p.Temperature) + " held " + p.Held
		if met = d.Temperature.Given() && p.Temperature.Cmp(d.Temperature) >= 0 && held >= asked; met {
			break
		}
	}
	if !d.Temperature.Given() {
		if best != "" {
			j.note("post-cure: " + best + "; not required")
		}
		return
	}
	l := Line{Key: "inspection.post_cure", Demand: "post-cure at least " + j.heat(d.Temperature), Found: best}
	if d.Held != "" {
		l.Demand += " held " + d.Held
	}
	switch {
	case best == "":
		l.Verdict, l.Found = Incomplete, "not logged"
	case !met:
		l.Verdict = Incomplete
	}
	j.add(l)
}

// instruments holds each use of an instrument against its calibration.
func (j *judge) instruments() {
	required := j.inspectionDemands().Calibrated.Or(false)
	var bad []string
	used := map[string]bool{}
	uses := 0
	use := func(name string, e *record.Entry) {
		if name = strings.TrimSpace(name); !e.Struck {
			uses++
		}
		if e.Struck || name == "" && !required {
			return
		}
		why := j.uncalibrated(name, e.At)
		if name == "" {
			name = "an instrument that is not named"
		}
		if why != "" && !used[name+why] {
			used[name+why] = true
			bad = append(bad, fmt.Sprintf("%s (entry %d): %s", name, e.Number, why))
		}
	}
	for i := range j.Record.Readings {
		switch r := &j.Record.Readings[i]; r.Kind {
		case inspection.Visual, inspection.Acetone, inspection.NoKind:
		case inspection.WallThickness, inspection.Barcol, inspection.IgnitionLoss, inspection.ResistanceToGround:
			use(r.Instrument, &r.Entry)
		}
	}
	for i := range j.Record.Dimensions {
		use(j.Record.Dimensions[i].Instrument, &j.Record.Dimensions[i].Entry)
	}
	for i := range j.Record.Hydrotests {
		use(j.Record.Hydrotests[i].Instrument, &j.Record.Hydrotests[i].Entry)
	}
	for i := range j.Record.PostCures {
		use(j.Record.PostCures[i].Instrument, &j.Record.PostCures[i].Entry)
	}
	switch {
	case required:
		l := Line{Key: "inspection.calibrated", Demand: "every instrument calibrated, within its date", Found: "each of them"}
		switch {
		case len(bad) > 0:
			l.Verdict, l.Found = Incomplete, strings.Join(bad, "; ")
		case uses == 0: // none is calibrated by being in no record
			l.Verdict, l.Found = Incomplete, "nothing measured with an instrument is recorded"
		}
		j.add(l)
	case len(bad) > 0:
		j.note("calibration: " + strings.Join(bad, "; ") + "; not required")
	}
}

// uncalibrated says why an instrument was not within its calibration at a time.
func (j *judge) uncalibrated(name string, at time.Time) string {
	known := false
	for i := range j.Record.Instruments {
		x := &j.Record.Instruments[i]
		if x.Struck || !strings.EqualFold(strings.TrimSpace(x.Instrument), name) {
			continue
		}
		known = true
		switch {
		case at.IsZero() || x.Due.IsZero(): // a date is missing
		case !at.Before(x.Calibrated) && !at.After(x.Due):
			return ""
		}
	}
	if known {
		return "out of its calibration, or its dates are not known"
	}
	return "no calibration recorded"
}
