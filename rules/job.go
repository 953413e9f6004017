package rules

import (
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

// JobReport is what there is to say of a job: of each part what is said of a
// schedule, its places with the number of the part, and of the job as a whole.
type JobReport struct {
	Job      *laminate.Job
	Parts    []*Report // by part
	Findings []Finding // of the job itself, worst first
	Verdict  Severity  // of the worst finding of all
	Answered []Finding // that others answer for, and that are not among Findings

	verdicts []Severity      // by part
	said     [][]int         // by part, which of the findings are about it
	coats    []*overlay.Coat // by part

	rules   []*Rule
	library *laminate.Library // and units: what the reports of its parts hold for
	units   quantity.System
	figures figures
}

// figures are what rules of jobs asked of laminates, for the judgment after it.
type figures struct {
	analyses [2][]*laminate.Analysis // by laminate, and of linings
	walls    map[evaluated]*wall.Result
}

// evaluated is all that an evaluation goes by: the analysis stands for the plies and
// what they are made of.
type evaluated struct {
	analysis *laminate.Analysis
	head     laminate.Head
	part     laminate.Part
	service  laminate.Service
}

// JobPass is all a rule of jobs may see, and its only way to speak.
type JobPass struct {
	*laminate.Assembly
	Library *laminate.Library
	Units   quantity.System
	Parts   []*Report // by part, each with its wall evaluated

	before   *JobReport // what holds of it is taken over; may be nil
	asked    figures
	laid     []overlay.Laid  // nil until somebody asks
	coats    []*overlay.Coat // likewise
	rule     *Rule
	findings *[]Finding
	answered []Finding
}

// Analysis is that of a laminate by itself, nil where there is none of the id.
func (p *JobPass) Analysis(laminateID string) *laminate.Analysis { return p.analysis(laminateID, 0) }

// Lining is that of a laminate as it is laid from the process side, its veil last:
// all of it is barrier where it states no zone.
func (p *JobPass) Lining(laminateID string) *laminate.Analysis { return p.analysis(laminateID, 1) }

func (p *JobPass) analysis(laminateID string, lined int) *laminate.Analysis {
	i := p.Laminate(laminateID)
	if i < 0 || laminateID == "" {
		return nil
	}
	of := &p.asked.analyses[lined]
	if *of == nil {
		*of = make([]*laminate.Analysis, len(p.Job.Laminates))
	}
	if (*of)[i] == nil {
		s := p.Job.Schedule(i)
		s.Part.Place.Lined = lined == 1
		if (*of)[i] = p.before.laminate(i, lined, s, p.Library); (*of)[i] == nil {
			(*of)[i] = laminate.Analyze(s, p.Library)
		}
	}
	return (*of)[i]
}

// laminate gives the analysis of a laminate that is as it was; nil where it is not or
// nobody asked for it.
func (r *JobReport) laminate(i, lined int, s *laminate.Schedule, lib *laminate.Library) *laminate.Analysis {
	if r == nil || i >= len(r.figures.analyses[lined]) || r.library != lib || !same(r.Job.Resins, s.Resins) || !same(r.Job.Materials, s.Materials) || !same(r.Job.Laminates[i].Plies, s.Plies) {
		return nil
	}
	return r.figures.analyses[lined][i]
}

// Evaluate is [wall.Evaluate] of plies that a is the analysis of, once for all that is
// the same, edits between included.
func (p *JobPass) Evaluate(s *laminate.Schedule, a *laminate.Analysis) *wall.Result {
	key := evaluated{a, s.Head, s.Part, s.Service}
	r := p.asked.walls[key]
	if r == nil && p.before != nil && p.before.library == p.Library && p.before.units == p.Units {
		r = p.before.figures.walls[key]
	}
	if r == nil || len(s.Conditions) > 0 {
		r = wall.Evaluate(s, p.Library, a, wall.Options{Units: laminate.Some(p.Units)})
	}
	if p.asked.walls == nil {
		p.asked.walls = map[evaluated]*wall.Result{}
	}
	if len(s.Conditions) == 0 {
		p.asked.walls[key] = r
	}
	return r
}

// Overlays are all that is laid in the job over its parts: [overlay.AllLaid].
func (p *JobPass) Overlays() []overlay.Laid {
	if p.laid == nil {
		p.laid = overlay.AllLaid(p.Assembly)
	}
	return p.laid
}

// LastCoats are those of the parts, by part: [overlay.LastCoats].
func (p *JobPass) LastCoats() []*overlay.Coat {
	if p.coats == nil {
		p.coats = overlay.LastCoats(p.Job, p.Overlays(), func(part int) *laminate.Analysis { return p.Parts[part].Analysis })
	}
	return p.coats
}

// TestGravity is the specific gravity of what a part is filled with in the test.
func (p *JobPass) TestGravity(part int) (gravity float64, missing string) {
	if p.Job.Test.Medium != laminate.TestFluid {
		return 1, ""
	}
	s := p.Parts[part].Schedule.Service.SpecificGravity
	if !s.Given {
		return 0, "the specific gravity is not stated (service.specific_gravity)"
	}
	return s.Value, ""
}

// ReportAt records a finding that is about several rows, at least one, as much.
func (p *JobPass) ReportAt(severity Severity, at []laminate.Ref, basis, format string, args ...any) {
	p.Report(severity, at[0], basis, format, args...)
	(*p.findings)[len(*p.findings)-1].Also = at[1:]
}

// Report records a finding of the running rule; an empty Basis is the rule's.
func (p *JobPass) Report(severity Severity, at laminate.Ref, basis, format string, args ...any) {
	if basis == "" {
		basis = p.rule.Basis
	}
	*p.findings = append(*p.findings, Finding{Rule: p.rule, Severity: severity, At: at, Basis: basis, Message: fmt.Sprintf(format, args...)})
}

// Unfigured reports what no formula here figures, about one row or several: incomplete,
// unless what others proved of each of them covers it, which rules/others settles.
func (p *JobPass) Unfigured(covers string, at []laminate.Ref, format string, args ...any) {
	said := fmt.Sprintf(format, args...)
	if !strings.Contains(said, "(proved_") { // of one whose proof does not reach it says so
		said += "; or state whose calculation or test shows it (proved_by)"
	}
	p.ReportAt(Incomplete, at, "", "%s", said)
	(*p.findings)[len(*p.findings)-1].Covers = covers
}

// Unsettled goes through what was found so far that a proof of others may answer for, and
// what one did.
func (p *JobPass) Unsettled(look func(*Finding)) {
	for _, list := range [...][]Finding{*p.findings, p.answered} {
		for i := range list {
			if list[i].Covers != "" {
				look(&list[i])
			}
		}
	}
}

// Settle goes through what was found so far that a proof of others may answer for, and
// takes away what answered says is: the report keeps it as [JobReport.Answered].
func (p *JobPass) Settle(answered func(*Finding) bool) {
	left := (*p.findings)[:0]
	for i := range *p.findings {
		if f := (*p.findings)[i]; f.Covers != "" && answered(&f) {
			p.answered = append(p.answered, f)
		} else {
			left = append(left, f)
		}
	}
	clear((*p.findings)[len(left):])
	*p.findings = left
}

// JobIncomplete is what stands in the report of a job for what of it no rule
// judges. It is in no list: a list judges schedules.
var JobIncomplete = &Rule{
	ID:     "job-incomplete",
	Family: "structure",
	Title:  "Part of the job cannot be determined",
	Why: "A piece of equipment holds where its weakest part, joint or opening does. What no rule looked at may be that one, " +
		"so that a job is not clear before somebody has judged it by hand.",
	Severity: []Severity{Incomplete},
	When:     "a job has no parts, a part that names no laminate, or one whose schedule was not read; on the bench a laminate that nothing names or that has no ply",
	Basis:    "the program's own check",
}

// figured gives the analysis of a part whose plies, and all that says what they are,
// are as they were; nil where they are not.
func (r *JobReport) figured(part int, s *laminate.Schedule, lib *laminate.Library) *laminate.Analysis {
	if r == nil || part >= len(r.Parts) || r.library != lib {
		return nil
	}
	was := r.Parts[part].Schedule
	if was.Part.Place.Lined != s.Part.Place.Lined || !same(was.Resins, s.Resins) || !same(was.Materials, s.Materials) || !same(was.Plies, s.Plies) {
		return nil
	}
	return r.Parts[part].Analysis
}

// still gives the report of a part that is figured, where the rest of its wall is as
// it was too; nil where it is not or where it was judged otherwise.
func (r *JobReport) still(part int, s *laminate.Schedule, o Options) *Report {
	p := r.Parts[part]
	was := p.Schedule
	if p.try == nil || r.units != o.Units || was.Head != s.Head || was.Part != s.Part || was.Service != s.Service || !same(was.Conditions, s.Conditions) {
		return nil
	}
	return p
}

// same tells whether two lists are equal; those that are shared are at once.
func same[T comparable](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0] || slices.Equal(a, b))
}

// JudgeJob runs the rules of the list over the wall of each part, and those of
// jobs over the whole.
func JudgeJob(list []*Rule, j *laminate.Job, lib *laminate.Library, o Options) *JobReport {
	if lib == nil {
		lib = &laminate.Library{}
	}
	r := &JobReport{Job: j, Parts: make([]*Report, len(j.Parts)), rules: list, library: lib, units: o.Units}
	if o.Before != nil {
		r.Findings = make([]Finding, 0, len(o.Before.Findings)+len(o.Before.Findings)/16)
	}
	assembly := j.Assemble()
	fail := func(at laminate.Ref, format string, args ...any) Finding {
		return Finding{Rule: JobIncomplete, Severity: Incomplete, At: at, Basis: JobIncomplete.Basis, Message: fmt.Sprintf(format, args...)}
	}
	walls, figured := make([]*laminate.Schedule, len(j.Parts)), make([]*laminate.Analysis, len(j.Parts))
	var anew []int // parts whose report is not taken over
	for i := range j.Parts {
		p := &j.Parts[i]
		s := assembly.Wall(i)
		walls[i], figured[i] = s, o.Before.figured(i, s, lib)
		_, read := j.Schedules[p.Schedule]
		switch at := (laminate.Ref{Kind: laminate.RefJobPart, Index: i}); {
		case p.Schedule != "" && !read:
			at.Key = "schedule"
			r.Findings = append(r.Findings, fail(at, "part %s cannot be determined: its schedule was not read", p.ID))
		case p.Schedule == "" && assembly.Laminate(p.Laminate) < 0:
			read = false
			r.Findings = append(r.Findings, fail(at, "part %s has no wall yet: it names no laminate (laminate), nor a schedule beside the job (schedule)", p.ID))
		default:
			read = true
		}
		if !read {
			r.Parts[i] = &Report{Schedule: s, Analysis: laminate.Analyze(s, lib), Verdict: Incomplete}
		} else if figured[i] != nil {
			r.Parts[i] = o.Before.still(i, s, o)
		}
		if !read || r.Parts[i] == nil {
			anew = append(anew, i)
		}
	}
	each(len(anew), func(k int) {
		i := anew[k]
		if r.Parts[i] == nil {
			r.Parts[i] = judge(list, walls[i], figured[i], lib, o)
		}
		p := r.Parts[i]
		for f := range p.Findings {
			p.Findings[f].At.Part = i
		}
		if p.Wall == nil {
			p.Wall = wall.Evaluate(p.Schedule, lib, p.Analysis, wall.Options{Units: laminate.Some(o.Units)})
		}
		// Of these each is judged here, or said not to be, but for what is beside them.
		if k := slices.Index(p.Wall.NotChecked, wall.PartsOfJobs); k >= 0 {
			p.Wall.NotChecked[k] = wall.BesideJoins
		}
	})
	pass := &JobPass{Assembly: assembly, Library: lib, Units: o.Units, Parts: r.Parts, before: o.Before, findings: &r.Findings}
	for _, rule := range list {
		if rule.Job != nil {
			pass.rule = rule
			guarded(rule, pass.findings, func() { rule.Job(pass) })
		}
	}
	pass.judgeOverlays(list)
	if len(j.Parts) == 0 {
		r.Findings = append(r.Findings, fail(laminate.Ref{}, "the job has no part: nothing is judged"))
	}
	r.figures, r.coats, r.Answered = pass.asked, pass.LastCoats(), pass.answered
	r.Findings = inOrder(r.Findings)
	r.Verdict = Worst(r.Findings)
	r.verdicts, r.said = make([]Severity, len(r.Parts)), make([][]int, len(r.Parts))
	for i, p := range r.Parts {
		r.verdicts[i] = p.Verdict
		r.Verdict = max(r.Verdict, p.Verdict)
	}
	for i := range r.Findings {
		f := &r.Findings[i]
		count := func(at laminate.Ref) {
			if at.Kind != laminate.RefJobPart {
				return
			}
			if f.Severity > Note {
				r.verdicts[at.Index] = max(r.verdicts[at.Index], f.Severity)
			}
			if of := r.said[at.Index]; len(of) == 0 || of[len(of)-1] != i {
				r.said[at.Index] = append(of, i)
			}
		}
		count(f.At)
		for _, at := range f.Also {
			count(at)
		}
	}
	return r
}

// PartVerdict is that of one part: of its wall, and of what the whole job says of
// the part.
func (r *JobReport) PartVerdict(part int) Severity { return r.verdicts[part] }

// LastCoat is what of the wall of a part is laid last; nil where nothing waits.
func (r *JobReport) LastCoat(part int) *overlay.Coat { return r.coats[part] }

// Weighty are the findings of the job itself that are worse than a warning.
func (r *JobReport) Weighty() (list []Finding) {
	for _, f := range r.Findings {
		if f.Severity > Warning {
			list = append(list, f)
		}
	}
	return list
}

// NotChecked lists what no figure of the job speaks about.
func (r *JobReport) NotChecked() []string {
	list := wall.NotChecked()
	for _, p := range r.Parts {
		if p.Wall != nil {
			list = slices.Clone(p.Wall.NotChecked)
		}
	}
	if slices.ContainsFunc(r.Job.Parts, func(x laminate.JobPart) bool { return x.Form == laminate.ShellCourse }) {
		list = append(list, "a vessel that lies: courses stand on each other")
	}
	if r.Job.Test == (laminate.Test{}) {
		list = append(list, "a test, since the job states none")
	}
	return list
}

// Lines makes line, which finds places of the job, find those of the wall of a
// part.
func (r *JobReport) Lines(part int, line func(laminate.Ref) int) func(laminate.Ref) int {
	return func(at laminate.Ref) int {
		at.Part = part
		return line(at)
	}
}
