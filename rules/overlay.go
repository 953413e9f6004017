package rules

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
)

// Overlaid is what the schedule of a report is where it is no wall: laid at a joint
// or nozzle, or in a corner.
type Overlaid struct {
	overlay.Overlay
	Job   *laminate.Job
	Under []*laminate.Analysis // of the walls onto whose cured faces it is laid
}

// statedFor are the keys of a joint, nozzle or part that are about some of what is
// laid there; findings at the others are about all of it.
var statedFor = map[string][]overlay.Kind{
	"outside": {overlay.Strap}, "width": {overlay.Strap}, "first_width": {overlay.Strap}, "widths": {overlay.Strap},
	"inside": {overlay.Seal}, "inside_width": {overlay.Seal},
	"pad": {overlay.Pad}, "pad_diameter": {overlay.Pad},
	"installation_outside": {overlay.LaidOutside}, "installation_inside": {overlay.LaidInside},
	"neck": {overlay.Neck}, "neck_bond": {overlay.LaidOutside, overlay.LaidInside},
}

// titled is the title of something of a job, which may have none itself.
func titled(job, name string) string {
	if job == "" {
		return name
	}
	return job + ": " + name
}

// PartReport is the report of one part as it is laid up, inspected and accepted: of
// its wall, and of what the whole job says of the part.
func (r *JobReport) PartReport(part int) *Report {
	of := *r.Parts[part]
	s := *of.Schedule
	s.Title = titled(s.Title, r.Job.Parts[part].ID)
	of.Schedule, of.Laid = &s, r.Job.Parts[part].Laid
	of.Findings = slices.Clone(of.Findings)
	for _, f := range r.Findings {
		if f.At.Kind == laminate.RefJobPart && f.At.Index == part {
			of.Findings = append(of.Findings, f)
		}
	}
	slices.SortStableFunc(of.Findings, byWeight)
	of.Verdict = r.PartVerdict(part)
	return &of
}

// Overlay is the report of what is laid at a joint or nozzle, or in a corner: its
// findings are those that the rules of jobs have of it.
func (r *JobReport) Overlay(o overlay.Overlay) *Report {
	s := o.Schedule(r.Job)
	s.Head = r.Job.Head
	s.Title = titled(s.Title, o.Name())
	of := &Report{Schedule: s, Analysis: laminate.Analyze(s, r.library), Overlay: &Overlaid{Overlay: o, Job: r.Job}}
	for _, i := range o.Faces(r.Job) {
		of.Overlay.Under = append(of.Overlay.Under, r.Parts[i].Analysis)
	}
	for _, f := range r.Findings {
		if f.At.Kind != o.At.Kind || f.At.Index != o.At.Index {
			continue
		}
		kinds, some := statedFor[f.At.Key]
		if o.Kind == overlay.Knuckle && f.At.Key != o.Kind.Key() || o.Kind != overlay.Knuckle && some && !slices.Contains(kinds, o.Kind) {
			continue
		}
		of.Findings = append(of.Findings, f)
	}
	of.Verdict = worst(of.Findings)
	return of
}
