package rules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall"
)

// Report is the one thing that commands, editor, folder lists and pages read.
type Report struct {
	Schedule *laminate.Schedule
	Analysis *laminate.Analysis
	Wall     *wall.Result // nil where no rule asked for it
	Findings []Finding    // worst first, then by place, then by rule
	Verdict  Verdict

	try func(*Remedy) bool
}

// Remedy gives the remedy of finding i, nil where it has none that makes the
// schedule better. The first time it is asked for it is tried out, one
// judgement, and then stands in the finding: pages that show one finding at a
// time need not try them all. Not to be called from several goroutines at once.
func (r *Report) Remedy(i int) *Remedy {
	f := &r.Findings[i]
	if offer := f.offer; offer != nil {
		f.offer = nil
		if r.try(offer) {
			f.Remedy = offer
		}
	}
	return f.Remedy
}

// Counts tells how many findings there are of each severity.
func (r *Report) Counts() (breaks, opens, cautions, notes int) {
	for i := range r.Findings {
		switch r.Findings[i].Severity {
		case Break:
			breaks++
		case Open:
			opens++
		case Caution:
			cautions++
		case Note:
			notes++
		default: // nothing of the others
		}
	}
	return breaks, opens, cautions, notes
}

// worst is the verdict of sorted findings.
func worst(sorted []Finding) Verdict {
	if len(sorted) == 0 {
		return Clear
	}
	switch sorted[0].Severity {
	case Break:
		return VerdictBreak
	case Open:
		return VerdictOpen
	case Caution:
		return VerdictCaution
	default: // nothing of the others
	}
	return Clear
}
