package schedules

import (
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/internal/tables"
)

// The tables of a job.
const (
	jobRoot = iota
	jobService
	jobCondition
	jobResin
	jobMaterial
	jobLaminate
	jobPly
	jobPart
	jobNozzle
	jobJoint
)

var jobTables = []tables.Table{
	tables.One("", declared(Job, headFields(func(h *laminate.Head) *laminate.Head { return h })...), func(j *laminate.Job) *laminate.Head { return &j.Head }),
	tables.One("service", serviceFields, func(j *laminate.Job) *laminate.Service { return &j.Service }),
	tables.Many("condition", laminate.MostConditions, conditionFields, func(j *laminate.Job) *[]laminate.Condition { return &j.Conditions }),
	tables.Many("resin", laminate.MostRows, resinFields, func(j *laminate.Job) *[]laminate.Resin { return &j.Resins }),
	tables.Many("material", laminate.MostRows, materialFields, func(j *laminate.Job) *[]laminate.Material { return &j.Materials }),
	tables.Holding("laminate", laminate.MostParts, []tables.Field{
		tables.TextField("id", func(l *laminate.Laminate) *string { return &l.ID }),
	}, func(j *laminate.Job) *[]laminate.Laminate { return &j.Laminates }),
	tables.Nested("laminate.ply", laminate.MostRows, plyFields, func(j *laminate.Job) []*[]laminate.Ply {
		lists := make([]*[]laminate.Ply, len(j.Laminates))
		for i := range lists {
			lists[i] = &j.Laminates[i].Plies
		}
		return lists
	}),
	tables.Many("part", laminate.MostParts, jobPartFields, func(j *laminate.Job) *[]laminate.JobPart { return &j.Parts }),
	tables.Many("nozzle", laminate.MostParts, nozzleFields, func(j *laminate.Job) *[]laminate.Nozzle { return &j.Nozzles }),
	tables.Many("joint", laminate.MostParts, jointFields, func(j *laminate.Job) *[]laminate.Joint { return &j.Joints }),
}

var jobPartFields = slices.Concat(
	[]tables.Field{tables.TextField("id", func(p *laminate.JobPart) *string { return &p.ID })},
	tables.Lift([]tables.Field{formField(laminate.JobForms)}, builtPart),
	[]tables.Field{
		tables.TextField("laminate", func(p *laminate.JobPart) *string { return &p.Laminate }),
		tables.TextField("schedule", func(p *laminate.JobPart) *string { return &p.Schedule }),
	},
	tables.Lift(builtFields, builtPart),
	tables.Lift(shapeFields, func(p *laminate.JobPart) *laminate.Shape { return &p.Shape }),
	[]tables.Field{
		tables.SizeField("temperature", func(p *laminate.JobPart) *quantity.Temperature { return &p.Temperature }),
		tables.SizeField("pressure", func(p *laminate.JobPart) *quantity.Pressure { return &p.Pressure }),
		tables.SizeField("vacuum", func(p *laminate.JobPart) *quantity.Pressure { return &p.Vacuum }),
		tables.NumberField("specific_gravity", "a number", func(p *laminate.JobPart) *laminate.Optional[float64] { return &p.SpecificGravity }),
	})

func builtPart(p *laminate.JobPart) *laminate.Part { return &p.Part }

var shapeFields = []tables.Field{
	tables.WordField("shape", func(s *laminate.Shape) *laminate.HeadShape { return &s.Head }, laminate.HeadShapes),
	tables.SizeField("crown_radius", func(s *laminate.Shape) *quantity.Length { return &s.CrownRadius }),
	tables.SizeField("knuckle_radius", func(s *laminate.Shape) *quantity.Length { return &s.KnuckleRadius }),
	tables.SizeField("depth", func(s *laminate.Shape) *quantity.Length { return &s.Depth }),
	tables.NumberField("half_angle", "degrees at the apex of a cone", func(s *laminate.Shape) *laminate.Optional[float64] { return &s.HalfAngle }),
	tables.SizeField("bend_radius", func(s *laminate.Shape) *quantity.Length { return &s.BendRadius }),
	tables.NumberField("turn", "degrees that an elbow turns", func(s *laminate.Shape) *laminate.Optional[float64] { return &s.Turn }),
	tables.WholeField("miters", func(s *laminate.Shape) *laminate.Optional[int] { return &s.Miters }),
	tables.SizeField("size", func(s *laminate.Shape) *quantity.Length { return &s.Size }),
	tables.TextField("drilling", func(s *laminate.Shape) *string { return &s.Drilling }),
	tables.SizeField("thickness", func(s *laminate.Shape) *quantity.Length { return &s.Thickness }),
	tables.SizeField("pressure_class", func(s *laminate.Shape) *quantity.Pressure { return &s.PressureClass }),
	tables.WholeField("count", func(s *laminate.Shape) *laminate.Optional[int] { return &s.Count }),
	tables.WordField("laid", func(s *laminate.Shape) *laminate.LaidOrder { return &s.Laid }, laminate.LaidOrders),
}

var nozzleFields = []tables.Field{
	tables.TextField("id", func(n *laminate.Nozzle) *string { return &n.ID }),
	tables.TextField("on", func(n *laminate.Nozzle) *string { return &n.On }),
	tables.SizeField("height", func(n *laminate.Nozzle) *quantity.Length { return &n.Height }),
	tables.SizeField("size", func(n *laminate.Nozzle) *quantity.Length { return &n.Size }),
	tables.WordField("kind", func(n *laminate.Nozzle) *laminate.NozzleKind { return &n.Kind }, laminate.NozzleKinds),
	tables.TextField("pad", func(n *laminate.Nozzle) *string { return &n.Pad }),
	tables.TextField("installation_outside", func(n *laminate.Nozzle) *string { return &n.InstallationOutside }),
	tables.TextField("installation_inside", func(n *laminate.Nozzle) *string { return &n.InstallationInside }),
	tables.TextField("neck", func(n *laminate.Nozzle) *string { return &n.Neck }),
	tables.WholeField("gussets", func(n *laminate.Nozzle) *laminate.Optional[int] { return &n.Gussets }),
}

var jointFields = []tables.Field{
	tables.TextField("id", func(j *laminate.Joint) *string { return &j.ID }),
	tables.Of("between", "a list of the ids of 2 parts", func(j *laminate.Joint) *[2]string { return &j.Between },
		func(value any) (between [2]string, wrong string) {
			list, wrong := tables.WordsOf(value)
			switch {
			case wrong != "":
				return between, wrong
			case len(list) != 2:
				return between, fmt.Sprintf("a list of the ids of 2 parts is expected, not of %d", len(list))
			}
			return [2]string(list), ""
		},
		func(between [2]string) (string, bool) {
			return tables.TOMLWords(between[:]), between != [2]string{}
		}),
	tables.TextField("outside", func(j *laminate.Joint) *string { return &j.Outside }),
	tables.TextField("inside", func(j *laminate.Joint) *string { return &j.Inside }),
	tables.SizeField("width", func(j *laminate.Joint) *quantity.Length { return &j.Width }),
	tables.SizeField("first_width", func(j *laminate.Joint) *quantity.Length { return &j.FirstWidth }),
	tables.WordField("widths", func(j *laminate.Joint) *laminate.WidthOrder { return &j.Widths }, laminate.WidthOrders),
}

// JobKeys lists the tables and keys of a job in canonical order.
func JobKeys() []TableKeys { return keysOf(jobTables) }

// Beside reads a schedule that lies beside a job, by its name with forward
// slashes; the error says why it cannot be used.
type Beside func(name string) (*laminate.Schedule, error)

// DecodeJob reads a job, as [Decode] reads a schedule: beside problems the job
// is what could be read. The schedules that parts name are read by beside; with
// none they are left out, and their parts cannot be judged.
func DecodeJob(b []byte, lib *laminate.Library, beside Beside) (*Source, *laminate.Job, []Problem) {
	j := new(laminate.Job)
	src, problems := read(b, Job, jobTables, j)
	if src.doc == nil {
		return src, nil, problems
	}
	src.partial = len(problems) > 0
	refused := map[int]bool{} // parts whose schedule is not to be looked for
	for _, f := range laminate.ValidateJob(j, lib) {
		problems = src.fault(problems, jobSpot(j, f.Ref), f.Message)
		refused[f.Ref.Index] = refused[f.Ref.Index] || f.Ref.Kind == laminate.RefJobPart && f.Ref.Key == "schedule"
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
		if slices.ContainsFunc(j.Parts, func(p laminate.JobPart) bool { return p.Laminate == j.Laminates[i].ID }) {
			j.Laminates[i].Plies = laminate.SplitRow(j.Schedule(i), lib)
		}
	}
	for i := range j.Parts {
		name := j.Parts[i].Schedule
		if _, read := j.Schedules[name]; read || name == "" || refused[i] || beside == nil {
			continue
		}
		s, err := beside(name)
		if err != nil {
			problems = src.fault(problems, tables.Spot{Table: jobPart, Row: i, Key: "schedule"}, tables.Quoted(name)+" cannot be used: "+tables.Printable(err.Error()))
			continue
		}
		if j.Schedules == nil {
			j.Schedules = map[string]*laminate.Schedule{}
		}
		j.Schedules[name] = s
	}
	return src, j, tables.Sorted(problems)
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
	return s.render(jobTables, &n)
}

// JobLine gives the line of a place in a job, or in the wall of one of its
// parts; 0 where the document has none.
func (s *Source) JobLine(j *laminate.Job, at laminate.Ref) int {
	if s == nil || s.doc == nil {
		return 0
	}
	return s.doc.LineAt(s.doc.Offset(jobSpot(j, at)))
}

// SameJob tells whether two jobs say the same, spelling included.
func SameJob(a, b *laminate.Job) bool { return tables.Same(jobTables, a, b) }

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
		row := at.Index
		for i := range j.Laminates {
			plies := j.Laminates[i].Plies
			if p != nil && j.Laminates[i].ID == p.Laminate {
				return spot(jobPly, row-at.Index+laminate.RowRead(plies, at.Index))
			}
			row += len(laminate.JoinRow(plies))
		}
		return tables.Spot{Table: jobPart, Row: at.Part, Key: "laminate"}
	default: // its part
		return spot(jobPart, at.Part)
	}
}
