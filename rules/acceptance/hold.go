package acceptance

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
)

// Holding are the hold points that a ply may not be laid past as things stand: those
// that lie before it, in the order in which plies are laid, and of which the record
// does not say that they are passed, by somebody named and before the witness required.
func Holding(d *spec.Specification, r *rules.Report, built *record.Record, ply int) (list []spec.Hold) {
	if d == nil || built == nil || r.Overlay != nil { // which has none: see spec.NotOfOverlays
		return nil
	}
	order := orderOf(r)
	for _, h := range d.Inspection.Holds {
		if !h.BeforePly.Given || !onOrder(order, h.BeforePly.Value) || !onOrder(order, ply) || order.At(ply) < order.At(h.BeforePly.Value) {
			continue
		}
		if why := unpassed(&h, lastHold(&h, built)); why != "" {
			list = append(list, h)
		}
	}
	return list
}

func orderOf(r *rules.Report) laid.Order { return laid.As(r.Schedule, r.Analysis, r.Laid) }

func onOrder(o laid.Order, ply int) bool { return ply >= 1 && ply <= len(o.Plies) }

// lastHold is the entry of a hold point that counts, nil for none.
func lastHold(d *spec.Hold, r *record.Record) (last *record.Hold) {
	for i := range r.Holds {
		if h := &r.Holds[i]; !h.Struck && strings.EqualFold(strings.TrimSpace(h.Point), strings.TrimSpace(d.Point)) {
			last = h
		}
	}
	return last
}

// unpassed says why an entry does not let work go on past a point, "" where it does.
func unpassed(d *spec.Hold, h *record.Hold) string {
	switch {
	case h == nil:
		return "not passed"
	case !h.Passed.Value:
		return fmt.Sprintf("entry %d: not passed%s%s", h.Number, asWhat(&h.Entry), because(h.Remark))
	case strings.TrimSpace(h.Who) == "":
		return fmt.Sprintf("passed in entry %d by nobody named", h.Number)
	}
	if why := Unwitnessed(&h.Entry, h.Witness, d.Witness); why != "" {
		return fmt.Sprintf("passed in entry %d%s %s", h.Number, asWhat(&h.Entry), why)
	}
	return ""
}

// Unwitnessed says why a witness that is required was not there by what an entry says,
// "" where one was or none is required. Whoever enters something witnesses it for
// nobody else: that is what a second pair of eyes is for.
func Unwitnessed(e *record.Entry, named, required string) string {
	switch {
	case required == "":
	case !strings.Contains(strings.ToLower(named), strings.ToLower(required)):
		return "without that witness"
	case OwnWitness(e, named, required):
		return "with nobody as witness but who entered it"
	}
	return ""
}

// OwnWitness tells that the witness named is who enters, and not in the role that is
// required of the witness.
func OwnWitness(e *record.Entry, named, required string) bool {
	if strings.EqualFold(strings.TrimSpace(e.Role), strings.TrimSpace(required)) {
		return false
	}
	who, as, own := words(e.Who), words(required), false
	for _, w := range words(named) {
		switch {
		case slices.Contains(as, w):
		case slices.Contains(who, w):
			own = true
		default:
			return false
		}
	}
	return own
}

// words are the names in a text, without points, commas and brackets.
func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// witnessed names the witness of an entry.
func witnessed(named string) string {
	if named == "" {
		return ""
	}
	return ", witnessed by " + named
}

// hold judges a hold point: passed, by whom it needs, and before work went on.
func (j *judge) hold(d *spec.Hold) {
	l := Line{Key: "inspection.hold", Demand: d.Text(), Verdict: Incomplete, Found: "not come to"}
	order, before := orderOf(j.Report), d.BeforePly.Value
	placed := d.BeforePly.Given && onOrder(order, before)
	last := lastHold(d, j.Record)
	first, under := 0, map[int]bool{} // the entry by which work went on past it; what was laid up to it
	for i := range j.Record.Laid {
		switch t := &j.Record.Laid[i]; {
		case t.Struck || !placed || !onOrder(order, t.Ply):
		case order.At(t.Ply) < order.At(before):
			under[t.Ply] = true
		case first == 0 || t.Number < first:
			first = t.Number
		}
	}
	switch why := unpassed(d, last); {
	case last == nil && first > 0:
		l.Verdict, l.Found = Fails, fmt.Sprintf("laid past it in entry %d", first)
	case last == nil && d.BeforePly.Given && !placed:
		l.Found = fmt.Sprintf("the schedule has no ply %d: when it is due cannot be determined", before)
	case last == nil && placed && len(under) == order.At(before):
		l.Found = "due: the next ply is laid after it is passed"
	case last == nil:
	case !last.Passed.Value:
		l.Verdict, l.Found = Fails, why
	case first > 0 && first < last.Number:
		l.Verdict, l.Found = Fails, fmt.Sprintf("passed in entry %d, after it was laid past in entry %d", last.Number, first)
	case why != "":
		l.Found = why
	default:
		l.Verdict, l.Found = Meets, fmt.Sprintf("passed in entry %d%s%s", last.Number, asWhat(&last.Entry), witnessed(last.Witness))
	}
	j.add(l)
}
