package rules

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/wall"
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

// PartReport is the report of one part as it is laid up, inspected and accepted:
// that of the part, under its own name.
func (r *JobReport) PartReport(part int) *Report {
	of := r.Part(part)
	s := *of.Schedule
	s.Title = titled(s.Title, r.Job.Parts[part].ID)
	of.Schedule = &s
	return of
}

// Part is the report of one part as it is worked at: of its wall, and of what the
// whole job says of the part.
func (r *JobReport) Part(part int) *Report {
	of := *r.Parts[part]
	of.Laid = r.Job.Parts[part].Laid
	of.Coat = r.LastCoat(part)
	of.Findings = slices.Clone(of.Findings)
	for _, i := range r.said[part] {
		of.Findings = append(of.Findings, r.Findings[i])
	}
	slices.SortStableFunc(of.Findings, byWeight)
	of.Verdict = r.PartVerdict(part)
	return &of
}

// OfService is what walls say that is wrong with the service that parts share, each once,
// worst first: it stands in the reports of those parts, and is about none of them alone.
func (r *JobReport) OfService() (list []Finding) {
	for i, part := range r.Parts {
		x := &r.Job.Parts[i]
		for _, f := range part.Findings {
			if x.Schedule != "" || f.Severity <= Note || f.At.Kind != laminate.RefService || x.Overrides(f.At.Key) {
				continue
			}
			if !slices.ContainsFunc(list, func(o Finding) bool { return o.Rule == f.Rule && o.Message == f.Message }) {
				list = append(list, f)
			}
		}
	}
	slices.SortStableFunc(list, byWeight)
	return list
}

// Structure is the evaluation of a part's wall, and beside its own notes what a
// rule of jobs says of the part; nil where nothing was evaluated.
func (r *JobReport) Structure(part int, said *Rule) *wall.Result {
	if r.Parts[part].Wall == nil {
		return nil
	}
	of := *r.Parts[part].Wall
	of.Notes = slices.Clone(of.Notes)
	for _, i := range r.said[part] {
		if f := &r.Findings[i]; f.Rule == said {
			of.Notes = append(of.Notes, f.Message)
		}
	}
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
	of.Coat = o.LastCoat(r.Job, of.Analysis)
	of.Findings = r.saidOf(&o)
	of.Verdict = Worst(of.Findings)
	return of
}

// saidOf are the findings of the job that are about an overlay.
func (r *JobReport) saidOf(o *overlay.Overlay) (list []Finding) {
	for _, f := range r.Findings {
		at, ok := f.In(o.At)
		if !ok {
			continue
		}
		kinds, some := statedFor[at.Key]
		if o.Kind == overlay.Knuckle && at.Key != o.Kind.Key() || o.Kind != overlay.Knuckle && some && !slices.Contains(kinds, o.Kind) {
			continue
		}
		list = append(list, f)
	}
	return list
}

// Laminate is the report of a laminate of a job that is worked at as the overlay o,
// or by itself where nothing names it for one: what is found of whatever it is laid
// as, and of the parts whose wall it is too. A fix of it may break what else it is
// laid as: it is one where it changes what a ply is made of, and the whole job is better.
func (r *JobReport) Laminate(o overlay.Overlay) *Report {
	s := o.Wall(r.Job)
	of := &Report{Schedule: s, Analysis: laminate.Analyze(s, r.library), Overlay: &Overlaid{Overlay: o, Job: r.Job}}
	of.try = func(m *Fix) bool { return r.betters(o, m) }
	named := false
	type place struct {
		at   laminate.Ref
		rule *Rule
		says string
	}
	said := map[place]bool{}
	add := func(f Finding) {
		if f.plain != nil {
			f = *f.plain // of the plies that stand here, and of whatever they are laid as
		} else {
			f.Fix, f.offer = nil, nil
		}
		if p := (place{f.At, f.Rule, f.Message}); !said[p] {
			said[p] = true
			of.Findings = append(of.Findings, f)
		}
	}
	for _, x := range overlay.All(r.Job) {
		if x.Laminate == o.Laminate {
			named = true
			for _, f := range r.saidOf(&x) {
				add(f)
			}
		}
	}
	for i := range r.Job.Parts {
		if p := &r.Job.Parts[i]; p.Schedule == "" && p.Laminate == o.Laminate {
			named = true
			for _, f := range r.Parts[i].Findings {
				if f.Severity >= Warning {
					f.Message = "part " + p.ID + ", whose wall it is: " + f.Message
					add(f)
				}
			}
		}
	}
	lacks := func(why string) {
		at := laminate.Ref{Kind: laminate.RefLaminate, Index: r.Job.Laminate(o.Laminate)}
		add(Finding{Rule: JobIncomplete, Severity: Incomplete, At: at, Basis: JobIncomplete.Basis, Message: why})
	}
	switch {
	case !named:
		lacks("nothing names laminate " + o.Laminate + ": what it has to bear is not known until a part, a joint or a nozzle does")
	case len(s.Plies) == 0:
		lacks("laminate " + o.Laminate + " has no ply: nothing of it can be determined")
	}
	slices.SortStableFunc(of.Findings, byWeight)
	of.Verdict = Worst(of.Findings)
	return of
}
