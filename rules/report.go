package rules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/wall"
)

// Report is the one thing that commands, editor, folder lists and pages read.
type Report struct {
	Schedule   *laminate.Schedule
	Analysis   *laminate.Analysis
	Wall       *wall.Result       // nil where no rule asked for it
	Findings   []Finding          // worst first, then by place, then by rule
	PassedOver []Statement        // what is stated and nothing weighs
	Verdict    Severity           // of the worst finding, Clear where that is a note or none
	Overlay    *Overlaid          // nil of a wall
	Laid       laminate.LaidOrder // of a part of a job; as written where it is not said
	Coat       *overlay.Coat      // of a part or overlay of a job, what of it is laid last; nil of others

	try func(*Fix) bool
}

// Fix gives the fix of finding i, nil where it has none that makes the
// schedule better. The first time it is asked for it is tried out, one
// judgment, and then stands in the finding: pages that show one finding at a
// time need not try them all. Not to be called from several goroutines at once.
func (r *Report) Fix(i int) *Fix {
	f := &r.Findings[i]
	if offer := f.offer; offer != nil {
		f.offer = nil
		if r.try(offer) {
			f.Fix = offer
		}
	}
	return f.Fix
}

// Offered gives the fix that the rule of finding i proposes while nobody has asked
// yet whether it makes the schedule better.
func (r *Report) Offered(i int) *Fix { return r.Findings[i].offer }

// NotChecked lists what no figure of the wall speaks about, nil where it was not
// evaluated.
func (r *Report) NotChecked() []string {
	if r.Wall == nil {
		return nil
	}
	return r.Wall.NotChecked
}

// Counts tells how many findings there are of each severity.
func (r *Report) Counts() (breaks, incompletes, warnings, notes int) {
	for i := range r.Findings {
		switch r.Findings[i].Severity {
		case Break:
			breaks++
		case Incomplete:
			incompletes++
		case Warning:
			warnings++
		case Note:
			notes++
		default: // nothing of the others
		}
	}
	return breaks, incompletes, warnings, notes
}

// Worst is the verdict of sorted findings.
func Worst(sorted []Finding) Severity {
	if len(sorted) == 0 || sorted[0].Severity < Warning {
		return Clear
	}
	return sorted[0].Severity
}
