package forms

import (
	"strings"

	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

// InspectionReport is the paper that is filed with a part: a schedule held
// against a specification with the record of the part.
func InspectionReport(h *recorder.Held) *paper.Form {
	s := h.Schedule.Schedule
	of := paper.Of{File: h.Schedule.Name, Fingerprint: recorder.Fingerprints(h.Judged, h.Schedule.Library).Schedule,
		Head: s.Head, Library: h.Schedule.Library, Units: h.Options.Units}
	frame := of.Frame("Inspection report")
	frame.State = "PART: " + strings.ToUpper(h.Result.Part.String())
	frame.Part = "serial " + paper.Named(h.Record.Record.SerialNumber())
	if what := h.Record.Record.What(); what != "" {
		frame.Part = what + ", " + frame.Part
	}
	sum := func(o *shop.Opened) string { return store.SumOf(o.Text).String() }
	return &paper.Form{Frame: frame, Sheet: paper.InspectionReport(&paper.Inspected{
		Compared: paper.Compared{Schedule: h.Schedule.Name, Specification: h.Specification.Name, Record: h.Record.Name},
		Sums:     paper.Compared{Schedule: sum(h.Schedule), Specification: sum(h.Specification), Record: sum(h.Record)},
		Demands:  h.Specification.Specification, Built: h.Record.Record, Books: h.Schedule.Library.Books, Result: h.Result, Judged: h.Judged, Units: h.Options.Units,
	})}
}
