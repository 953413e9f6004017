package recorder

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

// Held is a schedule held against a specification, with a record or without, as
// the three were read.
type Held struct {
	Schedule, Specification *shop.Opened
	Record                  *shop.Opened // nil for none
	Judged                  *rules.Report
	Result                  *acceptance.Result
	Options                 rules.Options
}

// Hold compares documents that can be used; the schedule is what of a job the
// record is of, as [shop.Opened.Of] gives it. Other records in the folder of the
// record's file are looked through for its serial.
func Hold(schedule, specification, record *shop.Opened, o rules.Options) *Held {
	h := &Held{Schedule: schedule, Specification: specification, Record: record, Judged: schedule.Judge(o), Options: o}
	prints := Fingerprints(h.Judged, schedule.Library)
	in := acceptance.Input{Report: h.Judged, Library: schedule.Library, SHA256: store.SumOf(schedule.Text).String(),
		Specification: specification.Specification, Levels: schedule.Levels, Units: o.Units, Part: schedule.Part}
	if record != nil {
		in.Record = record.Record
		in.SameSerial = SameSerial(record.Name, record.Record)
	}
	h.Result = Compare(in, &prints)
	if schedule.Part != "" {
		h.Result.Notes = append([]string{"of the job its part " + schedule.Part + " is compared"}, h.Result.Notes...)
	}
	return h
}

// Fingerprints are those of a judged schedule, or of what a job has laid at a joint
// or nozzle.
func Fingerprints(r *rules.Report, lib *laminate.Library) schedules.Fingerprints {
	if o := r.Overlay; o != nil {
		return schedules.OverlayFingerprint(&o.Overlay, o.Job, r.Schedule, r.Analysis, lib)
	}
	return schedules.Fingerprint(r.Schedule, r.Analysis, lib)
}

// Compare compares by content: with the fingerprints of the schedule, and that of
// the specification where there is one. Command, page and papers come to their
// verdict by it.
func Compare(in acceptance.Input, prints *schedules.Fingerprints) *acceptance.Result {
	in.Fingerprint, in.PlyFingerprints = prints.Schedule, prints.Plies
	if in.Specification != nil {
		in.SpecificationFingerprint = schedules.SpecificationFingerprint(in.Specification, in.Levels)
	}
	return acceptance.Compare(in)
}
