package schedules

import (
	"fmt"
	"slices"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/internal/fields"
	"frp/veilwright/schedules/internal/spell"
	"frp/veilwright/schedules/internal/tables"
)

// The tables of a job.
const (
	jobRoot = iota
	jobService
	jobVessel
	jobTest
	jobBond
	jobCondition
	jobResin
	jobMaterial
	jobLaminate
	jobPly
	jobPart
	jobNozzle
	jobJoint
)

var jobTables = sync.OnceValue(func() []tables.Table {
	return []tables.Table{
		tables.One("", declared(Job, headFields(func(h *laminate.Head) *laminate.Head { return h })...), func(j *laminate.Job) *laminate.Head { return &j.Head }),
		tables.One("service", serviceFields, func(j *laminate.Job) *laminate.Service { return &j.Service }),
		tables.One("vessel", []tables.Field{
			tables.SizeField("liquid_height", func(v *laminate.Vessel) *quantity.Length { return &v.LiquidHeight }),
			tables.TextField("rim", func(v *laminate.Vessel) *string { return &v.Rim }),
		}, func(j *laminate.Job) *laminate.Vessel { return &j.Vessel }),
		tables.One("test", []tables.Field{
			tables.WordField("medium", func(t *laminate.Test) *laminate.TestMedium { return &t.Medium }, laminate.TestMedia),
			tables.SizeField("liquid_height", func(t *laminate.Test) *quantity.Length { return &t.LiquidHeight }),
			tables.SizeField("pressure", func(t *laminate.Test) *quantity.Pressure { return &t.Pressure }),
			tables.SizeField("vacuum", func(t *laminate.Test) *quantity.Pressure { return &t.Vacuum }),
			tables.SizeField("temperature", func(t *laminate.Test) *quantity.Temperature { return &t.Temperature }),
			tables.SizeField("held", func(t *laminate.Test) *quantity.Duration { return &t.Held }),
		}, func(j *laminate.Job) *laminate.Test { return &j.Test }),
		tables.One("bond", []tables.Field{
			tables.SizeField("shear_strength", func(b *laminate.Bond) *quantity.Pressure { return &b.ShearStrength }),
			tables.NumberField("factor", "a number of 1 or more", func(b *laminate.Bond) *laminate.Optional[float64] { return &b.Factor }),
			tables.TextField("source", func(b *laminate.Bond) *string { return &b.Source }),
		}, func(j *laminate.Job) *laminate.Bond { return &j.Bond }),
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
		tables.Many("part", laminate.MostParts, slices.Concat(
			[]tables.Field{tables.TextField("id", func(p *laminate.JobPart) *string { return &p.ID })},
			tables.Lift([]tables.Field{formField(laminate.JobForms)}, builtPart),
			[]tables.Field{
				tables.TextField("laminate", func(p *laminate.JobPart) *string { return &p.Laminate }),
				tables.TextField("schedule", func(p *laminate.JobPart) *string { return &p.Schedule }),
				tables.TextField("knuckle", func(p *laminate.JobPart) *string { return &p.Knuckle }),
			},
			tables.Lift(builtFields, builtPart),
			tables.Lift([]tables.Field{
				tables.WordField("shape", func(s *laminate.Shape) *laminate.HeadShape { return &s.Head }, laminate.HeadShapes),
				tables.SizeField("crown_radius", func(s *laminate.Shape) *quantity.Length { return &s.CrownRadius }),
				tables.SizeField("knuckle_radius", func(s *laminate.Shape) *quantity.Length { return &s.KnuckleRadius }),
				tables.SizeField("depth", func(s *laminate.Shape) *quantity.Length { return &s.Depth }),
				tables.NumberField("half_angle", "degrees at the apex of a cone", func(s *laminate.Shape) *laminate.Optional[float64] { return &s.HalfAngle }),
				tables.SizeField("small_diameter", func(s *laminate.Shape) *quantity.Length { return &s.SmallDiameter }),
				tables.SizeField("bend_radius", func(s *laminate.Shape) *quantity.Length { return &s.BendRadius }),
				tables.NumberField("turn", "degrees that an elbow turns", func(s *laminate.Shape) *laminate.Optional[float64] { return &s.Turn }),
				tables.WholeField("miters", func(s *laminate.Shape) *laminate.Optional[int] { return &s.Miters }),
				tables.AnswerField("supported", func(s *laminate.Shape) *laminate.Optional[bool] { return &s.Supported }),
				tables.SizeField("hold_down", func(s *laminate.Shape) *quantity.Pressure { return &s.HoldDown }),
				tables.SizeField("knuckle_height", func(s *laminate.Shape) *quantity.Length { return &s.KnuckleHeight }),
				tables.SizeField("taper", func(s *laminate.Shape) *quantity.Length { return &s.Taper }),
				tables.SizeField("width", func(s *laminate.Shape) *quantity.Length { return &s.Width }),
				tables.WordField("edge", func(s *laminate.Shape) *laminate.EdgeSupport { return &s.Edge }, laminate.EdgeSupports),
				tables.SizeField("bolt_circle", func(s *laminate.Shape) *quantity.Length { return &s.BoltCircle }),
				tables.ShareField("deflection_limit", func(s *laminate.Shape) *laminate.Optional[float64] { return &s.DeflectionLimit }),
				tables.SizeField("size", func(s *laminate.Shape) *quantity.Length { return &s.Size }),
				tables.WordField("drilling", func(s *laminate.Shape) *laminate.Drilling { return &s.Drilling }, laminate.Drillings),
				tables.WholeField("bolts", func(s *laminate.Shape) *laminate.Optional[int] { return &s.Bolts }),
				tables.SizeField("bolt_size", func(s *laminate.Shape) *quantity.Length { return &s.BoltSize }),
				tables.SizeField("outside_diameter", func(s *laminate.Shape) *quantity.Length { return &s.Outside }),
				tables.SizeField("thickness", func(s *laminate.Shape) *quantity.Length { return &s.Thickness }),
				tables.SizeField("pressure_class", func(s *laminate.Shape) *quantity.Pressure { return &s.PressureClass }),
				tables.SizeField("torque", func(s *laminate.Shape) *quantity.Moment { return &s.Torque }),
				tables.WordField("mate_face", func(s *laminate.Shape) *laminate.FlangeFace { return &s.MateFace }, laminate.FlangeFaces),
				tables.AnswerField("washers", func(s *laminate.Shape) *laminate.Optional[bool] { return &s.Washers }),
				tables.WholeField("count", func(s *laminate.Shape) *laminate.Optional[int] { return &s.Count }),
				tables.WordField("laid", func(s *laminate.Shape) *laminate.LaidOrder { return &s.Laid }, laminate.LaidOrders),
			}, func(p *laminate.JobPart) *laminate.Shape { return &p.Shape }),
			fields.Proof(func(p *laminate.JobPart) *others.Proof { return &p.Proof }),
			[]tables.Field{
				tables.SizeField("temperature", func(p *laminate.JobPart) *quantity.Temperature { return &p.Temperature }),
				tables.SizeField("pressure", func(p *laminate.JobPart) *quantity.Pressure { return &p.Pressure }),
				tables.SizeField("vacuum", func(p *laminate.JobPart) *quantity.Pressure { return &p.Vacuum }),
				tables.NumberField("specific_gravity", "a number", func(p *laminate.JobPart) *laminate.Optional[float64] { return &p.SpecificGravity }),
			}), func(j *laminate.Job) *[]laminate.JobPart { return &j.Parts }),
		tables.Many("nozzle", laminate.MostParts, slices.Concat(fields.Nozzle(), fields.Proof(func(n *laminate.Nozzle) *others.Proof { return &n.Proof })), func(j *laminate.Job) *[]laminate.Nozzle { return &j.Nozzles }),
		tables.Many("joint", laminate.MostParts, slices.Concat([]tables.Field{
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
					return spell.Words(between[:]), between != [2]string{}
				}),
			tables.TextField("outside", func(j *laminate.Joint) *string { return &j.Outside }),
			tables.TextField("inside", func(j *laminate.Joint) *string { return &j.Inside }),
		}, fields.Joint(), fields.Proof(func(j *laminate.Joint) *others.Proof { return &j.Proof })), func(j *laminate.Job) *[]laminate.Joint { return &j.Joints }),
	}
})

func builtPart(p *laminate.JobPart) *laminate.Part { return &p.Part }
