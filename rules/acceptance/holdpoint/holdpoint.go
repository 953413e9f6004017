// Package holdpoint judges hold points: passed when what they hold is there, by somebody
// named, before whoever has to see it, and before work went on.
package holdpoint

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/rules/conformance"
)

// Holding are the hold points that a ply may not be laid past as things stand: those
// that lie before it, in the order in which plies are laid, and of which the record
// does not say that they are passed, by somebody named and before the witness required.
func Holding(d *spec.Specification, r *rules.Report, built *record.Record, ply int) (list []spec.Hold) {
	if d == nil || built == nil || r.Overlay != nil { // which has none: see spec.NotOfOverlays
		return nil
	}
	order := Order(r)
	for _, h := range d.Inspection.Holds {
		if !h.BeforePly.Given || !On(order, h.BeforePly.Value) || !On(order, ply) || order.At(ply) < order.At(h.BeforePly.Value) {
			continue
		}
		last := Last(&h, built)
		if unpassed(&h, last) != "" || early(&h, last, order, built) != "" {
			list = append(list, h)
		}
	}
	return list
}

// Order is that in which the plies of a report are laid.
func Order(r *rules.Report) laid.Order { return laid.As(r.Schedule, r.Analysis, r.Laid) }

// On tells whether a ply is one of an order.
func On(o laid.Order, ply int) bool { return ply >= 1 && ply <= len(o.Plies) }

// Last is the entry of a hold point that counts, nil for none.
func Last(d *spec.Hold, r *record.Record) (last *record.Hold) {
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
		return fmt.Sprintf("entry %d: not passed%s%s", h.Number, h.As(), record.Because(h.Remark))
	case strings.TrimSpace(h.Who) == "":
		return fmt.Sprintf("passed in entry %d by nobody named", h.Number)
	}
	if why := Unwitnessed(&h.Entry, h.Witness, d.Witness); why != "" {
		return fmt.Sprintf("passed in entry %d%s %s", h.Number, h.As(), why)
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

// Witnessed names the witness of an entry.
func Witnessed(named string) string {
	if named == "" {
		return ""
	}
	return ", witnessed by " + named
}

// Judge judges a hold point: passed, by whom it needs, and before work went on.
func Judge(d *spec.Hold, of *rules.Report, built *record.Record) conformance.Line {
	l := conformance.Line{Key: "inspection.hold", Demand: d.Text(), Verdict: conformance.Incomplete, Found: "not come to", Basis: conformance.BySpecification}
	order, before := Order(of), d.BeforePly.Value
	placed := d.BeforePly.Given && On(order, before)
	last := Last(d, built)
	first, under := 0, map[int]bool{} // the entry by which work went on past it; what was laid up to it
	var past *record.Laid             // the first after it was passed
	for i := range built.Laid {
		switch t := &built.Laid[i]; {
		case t.Struck || !placed || !On(order, t.Ply):
		case order.At(t.Ply) < order.At(before):
			under[t.Ply] = true
		default:
			if first == 0 || t.Number < first {
				first = t.Number
			}
			if past == nil && last != nil && t.Number > last.Number {
				past = t
			}
		}
	}
	switch why := unpassed(d, last); {
	case last == nil && first > 0:
		l.Verdict, l.Found = conformance.Fails, fmt.Sprintf("laid past it in entry %d", first)
	case last == nil && d.BeforePly.Given && !placed:
		l.Found = fmt.Sprintf("the schedule has no ply %d: when it is due cannot be determined", before)
	case last == nil && placed && len(under) == order.At(before):
		l.Found = "due: the next ply is laid after it is passed"
	case last == nil:
	case !last.Passed.Value:
		l.Verdict, l.Found = conformance.Fails, why
	case first > 0 && first < last.Number:
		l.Verdict, l.Found = conformance.Fails, fmt.Sprintf("passed in entry %d, after it was laid past in entry %d", last.Number, first)
	case why != "":
		l.Found = why
	case early(d, last, order, built) != "":
		l.Found = early(d, last, order, built)
	case pastAtOnce(past, last) != "":
		l.Found = pastAtOnce(past, last)
	default:
		l.Verdict, l.Found = conformance.Meets, fmt.Sprintf("passed in entry %d%s%s", last.Number, last.As(), Witnessed(last.Witness))
	}
	return l
}

// TooSoon is less than any ply takes to lay: two that were checked off closer
// together were not checked off as they were laid (common practice, no source).
const TooSoon = 30 * time.Second

// early says why a point was passed before what it holds was there, "" where it was not:
// the plies up to it laid, and none of them again since.
func early(d *spec.Hold, h *record.Hold, order laid.Order, built *record.Record) string {
	if !d.BeforePly.Given || !On(order, d.BeforePly.Value) {
		return ""
	}
	before := order.At(d.BeforePly.Value)
	under := map[int]bool{}
	for i := range built.Laid {
		t := &built.Laid[i]
		switch {
		case t.Struck || !On(order, t.Ply) || order.At(t.Ply) >= before:
		case t.Number > h.Number:
			return fmt.Sprintf("passed in entry %d, and ply %d, which lies before it, was laid in entry %d", h.Number, t.Ply, t.Number)
		default:
			under[t.Ply] = true
		}
	}
	if len(under) < before {
		return fmt.Sprintf("passed in entry %d, with %d of %s before it checked off", h.Number, len(under), quantity.Counted(before, "ply", "plies"))
	}
	return ""
}

// pastAtOnce says that a ply was checked off past a point within seconds of its passing:
// it was laid before. "" where none was.
func pastAtOnce(past *record.Laid, h *record.Hold) string {
	if past == nil || past.At.IsZero() || h.At.IsZero() || past.At.Sub(h.At) >= TooSoon || past.At.Before(h.At) {
		return ""
	}
	return fmt.Sprintf("passed in entry %d, and ply %d behind it checked off %s later: it was laid before", h.Number, past.Ply, past.At.Sub(h.At).Round(time.Second))
}
