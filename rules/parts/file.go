package parts

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// ScheduleSaysOtherwise holds a part whose wall stands in a file against what the
// job says of it.
var ScheduleSaysOtherwise = &rules.Rule{
	ID:     "schedule-says-otherwise",
	Family: family,
	Title:  "A part's own schedule says something else than the job",
	Why: "Where a part names a file of its own, the part, service and loads in that file are what its wall is judged for, and what the job says of them is passed over. " +
		"A wall that was figured as a pipe for another fluid then stands in the tank as a course, and nothing else of the report shows it. State in the file what the wall will see, or on the part what differs from the rest of the job.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "a part names a schedule, and the job states of the part its form, process, inside diameter, length, or of the service the fluid, temperature, pressure, vacuum or specific gravity, or the liquid's level leaves a height over it, " +
		"and the schedule states another: break; it states none of what stands on the part itself, or no liquid height where the job's liquid stands over the part: incomplete",
	Basis: "the program's own check",
	Job: func(p *rules.JobPass) {
		for i := range p.Job.Parts {
			if s, read := p.Job.Schedules[p.Job.Parts[i].Schedule]; read && p.Job.Parts[i].Schedule != "" {
				(&filed{p, i, &p.Job.Parts[i], s}).compare()
			}
		}
	},
}

// filed is a part with a schedule of its own.
type filed struct {
	p    *rules.JobPass
	i    int
	part *laminate.JobPart
	s    *laminate.Schedule
}

// differ reports what the job says and the schedule says otherwise, "" where it
// says nothing; own tells whether it stands on the part itself.
func (f *filed) differ(key, what, job, schedule string, own bool) {
	place := laminate.JobPartRef(f.i, "schedule")
	if own {
		place.Key = key
	}
	switch {
	case schedule != "":
		f.p.Report(rules.Break, place, "", "%s of %s is %s in the job and %s in its schedule %s: the schedule's counts (%s)", what, f.part.ID, job, schedule, f.part.Schedule, key)
	case own:
		f.p.Report(rules.Incomplete, place, "", "%s of %s is %s in the job, and its schedule %s, which counts, states none (%s)", what, f.part.ID, job, f.part.Schedule, key)
	}
}

func (f *filed) word(key, what, job, schedule string, own bool) {
	if job != "" && !strings.EqualFold(job, schedule) {
		f.differ(key, what, job, schedule, own)
	}
}

// figure compares what both state of a kind.
func figure[D quantity.Dimension](f *filed, key, what string, job, schedule quantity.Quantity[D], k quantity.Kind, own bool) {
	switch {
	case !job.Given():
	case !schedule.Given():
		f.differ(key, what, f.p.Units.Stated(job.SI(), k), "", own)
	case quantity.Compare(job.SI(), schedule.SI()) != 0:
		a, b := f.p.Units.Pair(job.SI(), schedule.SI(), k)
		f.differ(key, what, a, b, own)
	}
}

// either is what stands on the part, else what the whole job states.
func either[D quantity.Dimension](own, shared quantity.Quantity[D]) (q quantity.Quantity[D], ofPart bool) {
	if own.Given() {
		return own, true
	}
	return shared, false
}

func (f *filed) compare() {
	job, part, own := &f.p.Job.Service, &f.s.Part, &f.s.Service
	f.word("form", "the form", f.part.Form.String(), part.Form.String(), true)
	f.word("process", "the process", f.part.Process.String(), part.Process.String(), true)
	figure(f, "inside_diameter", "the inside diameter", f.part.InsideDiameter, part.InsideDiameter, quantity.Size, true)
	figure(f, "length", "the length", f.part.Length, part.Length, quantity.Distance, true)
	f.word("fluid", "the fluid", job.Fluid, own.Fluid, false)
	t, of := either(f.part.Temperature, job.Temperature)
	figure(f, "temperature", "the temperature", t, own.Temperature, quantity.Point, of)
	pressure, of := either(f.part.Pressure, job.Pressure)
	figure(f, "pressure", "the pressure", pressure, own.Pressure, quantity.Stress, of)
	vacuum, of := either(f.part.Vacuum, job.Vacuum)
	figure(f, "vacuum", "the vacuum", vacuum, own.Vacuum, quantity.Stress, of)
	gravity, of := f.part.SpecificGravity, true
	if !gravity.Given {
		gravity, of = job.SpecificGravity, false
	}
	if gravity.Given && own.SpecificGravity.Given && quantity.Compare(gravity.Value, own.SpecificGravity.Value) != 0 {
		a, b := f.p.Units.Pair(gravity.Value, own.SpecificGravity.Value, quantity.Times)
		f.differ("specific_gravity", "the specific gravity", a, b, of)
	} else if gravity.Given && !own.SpecificGravity.Given {
		f.differ("specific_gravity", "the specific gravity", f.p.Units.Stated(gravity.Value, quantity.Times), "", of)
	}
	f.liquid()
}

// liquid compares the height of the liquid over the part.
func (f *filed) liquid() {
	depth, known := f.p.Covered(f.i, 0)
	has := f.s.Part.LiquidHeight
	place := laminate.JobPartRef(f.i, "schedule")
	switch {
	case !known:
	case !has.Given() && depth > 0:
		f.p.Report(rules.Incomplete, place, "", "the job's liquid stands %s over the bottom of %s, and its schedule %s, which counts, states no liquid height: no head is judged (liquid_height)",
			f.p.Units.Stated(depth, quantity.Distance), f.part.ID, f.part.Schedule)
	case has.Given() && abs(has.SI()-depth) > 1e-3*max(depth, has.SI()):
		a, b := f.p.Units.Pair(depth, has.SI(), quantity.Distance)
		f.p.Report(rules.Break, place, "", "the liquid stands %s over the bottom of %s in the job and %s in its schedule %s: the schedule's counts (liquid_height)", a, f.part.ID, b, f.part.Schedule)
	}
}
