package acceptance

import (
	"fmt"
	"strings"

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
	case d.Witness != "" && !strings.Contains(strings.ToLower(h.Witness), strings.ToLower(d.Witness)):
		return fmt.Sprintf("passed in entry %d without that witness", h.Number)
	}
	return ""
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
		l.Verdict, l.Found = Meets, fmt.Sprintf("passed in entry %d%s", last.Number, asWhat(&last.Entry))
	}
	j.add(l)
}
