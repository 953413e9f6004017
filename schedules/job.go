package schedules

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/internal/tables"
)

// JobKeys lists the tables and keys of a job in canonical order.
func JobKeys() []TableKeys { return keysOf(jobTables()) }

// Beside reads a schedule that lies beside a job, by its name with forward
// slashes; the error says why it cannot be used.
type Beside func(name string) (*laminate.Schedule, error)

// DecodeJob reads a job, as [Decode] reads a schedule: beside problems the job
// is what could be read. The schedules that parts name are read by beside; with
// none they are left out, and their parts cannot be judged.
func DecodeJob(b []byte, lib *laminate.Library, beside Beside) (*Source, *laminate.Job, []Problem) {
	j := new(laminate.Job)
	src, problems := read(b, Job, jobTables(), j)
	if src.doc == nil {
		return src, nil, problems
	}
	src.partial = len(problems) > 0
	problems = src.beside(problems, j, beside)
	for _, f := range laminate.ValidateJob(j, lib) {
		problems = src.fault(problems, jobSpot(j, f.Ref), f.Message)
	}
	plies := 0
	for i := range j.Laminates {
		countable(j.Laminates[i].Plies)
		plies += j.Schedule(i).NumberOfPlies()
	}
	if plies > laminate.MostPlies {
		return src, nil, tables.Sorted(problems)
	}
	src.doc.Was = j.Clone()
	for i := range j.Laminates {
		j.Laminates[i].Plies = laminate.SplitRow(j.Schedule(i), lib)
	}
	return src, j, tables.Sorted(problems)
}

// beside puts into the job the schedules that its parts name and that may be
// read: nozzles are held against them.
func (s *Source) beside(problems []Problem, j *laminate.Job, read Beside) []Problem {
	for i := range j.Parts {
		p := &j.Parts[i]
		if _, there := j.Schedules[p.Schedule]; there || p.Schedule == "" || p.Laminate != "" || !laminate.BesideJob(p.Schedule) || read == nil {
			continue
		}
		wall, err := read(p.Schedule)
		if err != nil {
			problems = s.fault(problems, tables.Spot{Table: jobPart, Row: i, Key: "schedule"}, tables.Quoted(p.Schedule)+" cannot be used: "+tables.Printable(err.Error()))
			continue
		}
		if j.Schedules == nil {
			j.Schedules = map[string]*laminate.Schedule{}
		}
		j.Schedules[p.Schedule] = wall
	}
	return problems
}

// RenderJob gives the text of a job that came from this source by editing, as
// [Source.Render] does of a schedule. The schedules beside it are documents of
// their own.
func (s *Source) RenderJob(now *laminate.Job) []byte {
	n := *now
	n.Laminates = slices.Clone(now.Laminates)
	for i := range n.Laminates {
		n.Laminates[i].Plies = laminate.JoinRow(n.Laminates[i].Plies)
	}
	return s.render(jobTables(), &n)
}

// JobLine gives the line of a place in a job, or in the wall of one of its
// parts; 0 where the document has none.
func (s *Source) JobLine(j *laminate.Job, at laminate.Ref) int {
	if s == nil || s.doc == nil {
		return 0
	}
	return s.doc.LineAt(s.doc.Offset(jobSpot(j, at)))
}

// JobRow is the row of a job that a place names, with the keys of its table.
func JobRow(j *laminate.Job, at laminate.Ref) ([]tables.Field, any) {
	spot := jobSpot(j, at)
	return jobTables()[spot.Table].Fields, jobTables()[spot.Table].Rows(j)[spot.Row].Value
}

// SameJob tells whether two jobs say the same, spelling included.
func SameJob(a, b *laminate.Job) bool { return tables.Same(jobTables(), a, b) }

// jobSpot finds the table that a place of a job stands in.
func jobSpot(j *laminate.Job, at laminate.Ref) tables.Spot {
	spot := func(table, row int) tables.Spot { return tables.Spot{Table: table, Row: row, Key: at.Key} }
	switch at.Kind {
	case laminate.RefLaminate:
		return spot(jobLaminate, at.Index)
	case laminate.RefLaminatePly:
		return spot(jobPly, at.Index)
	case laminate.RefJobPart:
		return spot(jobPart, at.Index)
	case laminate.RefJoint:
		return spot(jobJoint, at.Index)
	case laminate.RefNozzle:
		return spot(jobNozzle, at.Index)
	case laminate.RefVessel:
		return spot(jobVessel, 0)
	case laminate.RefTest:
		return spot(jobTest, 0)
	case laminate.RefBond:
		return spot(jobBond, 0)
	default: // the wall of a part, or what all parts share
	}
	var p *laminate.JobPart
	if at.Part >= 0 && at.Part < len(j.Parts) {
		p = &j.Parts[at.Part]
		if p.Schedule != "" {
			return tables.Spot{Table: jobPart, Row: at.Part, Key: "schedule"}
		}
	}
	switch at.Kind {
	case laminate.RefSchedule:
		return spot(jobRoot, 0)
	case laminate.RefService:
		if p != nil && p.Overrides(at.Key) {
			return spot(jobPart, at.Part)
		}
		return spot(jobService, 0)
	case laminate.RefCondition:
		return spot(jobCondition, at.Index)
	case laminate.RefResin:
		return spot(jobResin, at.Index)
	case laminate.RefMaterial:
		return spot(jobMaterial, at.Index)
	case laminate.RefPly:
		for i := range j.Laminates { // a ply says which row it was read from: two, of a row that was split
			if l := &j.Laminates[i]; p != nil && l.ID == p.Laminate && at.Index >= 0 && at.Index < len(l.Plies) {
				return spot(jobPly, int(l.Plies[at.Index].Origin)-1)
			}
		}
		return tables.Spot{Table: jobPart, Row: at.Part, Key: "laminate"}
	default: // its part
		return spot(jobPart, at.Part)
	}
}
