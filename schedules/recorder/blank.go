package recorder

import (
	"errors"
	"fmt"
	"path/filepath"

	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

// Blank is a record without entries of a schedule, or of the part of a job, or what
// is laid at a joint or nozzle; kind is the word of it, "" where nothing is said.
func Blank(d *shop.Opened, part, joint, kind string) ([]byte, error) {
	which, ok := overlay.Kinds.Parse(kind)
	switch {
	case !ok && kind != "":
		return nil, fmt.Errorf("--overlay: %q is none of %s", kind, overlay.Kinds.List())
	case d.Usable() && d.Job == nil && part+joint+kind != "":
		return nil, errors.New(d.Name + " is one wall: --part, --joint and --overlay go with a job")
	}
	if d = d.Of(&record.Record{Part: part, Joint: joint, Overlay: which}); !d.Usable() {
		return nil, fmt.Errorf("%s: %s", d.Name, d.Why())
	}
	r := d.Judge(rules.Options{})
	of := record.Record{ScheduleRevision: d.Schedule.Revision, ScheduleSHA256: store.SumOf(d.Text).String(),
		ScheduleFingerprint: Fingerprints(r, d.Library).Schedule, Part: d.Part}
	if d.Name != "-" { // standard input has no name
		of.Schedule = filepath.Base(d.Name)
	}
	if o := r.Overlay; o != nil {
		of.Part, of.Joint, of.Overlay = o.Part, o.Of, o.Kind
	}
	return schedules.BlankRecord(&of), nil
}
