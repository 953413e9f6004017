// Package fields lists the keys of joints, of nozzles and of what others proved, which
// several tables of documents have.
package fields

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/internal/tables"
)

// Proof are the keys of a proof, of a row that of finds it in.
func Proof[T any](of func(*T) *others.Proof) []tables.Field {
	return tables.Lift([]tables.Field{
		tables.TextField("proved_by", func(p *others.Proof) *string { return &p.By }),
		tables.SizeField("proved_pressure", func(p *others.Proof) *quantity.Pressure { return &p.Pressure }),
		tables.SizeField("proved_vacuum", func(p *others.Proof) *quantity.Pressure { return &p.Vacuum }),
		tables.SizeField("proved_temperature", func(p *others.Proof) *quantity.Temperature { return &p.Temperature }),
		tables.SizeField("proved_structure", func(p *others.Proof) *quantity.Length { return &p.Structure }),
	}, of)
}

// Joint are the keys of a joint that name nothing else of a job.
func Joint() []tables.Field {
	return []tables.Field{
		tables.SizeField("width", func(j *laminate.Joint) *quantity.Length { return &j.Width }),
		tables.SizeField("first_width", func(j *laminate.Joint) *quantity.Length { return &j.FirstWidth }),
		tables.SizeField("inside_width", func(j *laminate.Joint) *quantity.Length { return &j.InsideWidth }),
		tables.WordField("widths", func(j *laminate.Joint) *laminate.WidthOrder { return &j.Widths }, laminate.WidthOrders),
		tables.SizeField("gap", func(j *laminate.Joint) *quantity.Length { return &j.Gap }),
		tables.SizeField("axial_load", func(j *laminate.Joint) *quantity.LineForce { return &j.AxialLoad }),
		tables.TextField("qualification", func(j *laminate.Joint) *string { return &j.Qualification }),
	}
}

// Nozzle are the keys of a nozzle.
func Nozzle() []tables.Field {
	return []tables.Field{
		tables.TextField("id", func(n *laminate.Nozzle) *string { return &n.ID }),
		tables.TextField("on", func(n *laminate.Nozzle) *string { return &n.On }),
		tables.SizeField("height", func(n *laminate.Nozzle) *quantity.Length { return &n.Height }),
		tables.SizeField("offset", func(n *laminate.Nozzle) *quantity.Length { return &n.Offset }),
		tables.NumberField("bearing", "degrees round the axis", func(n *laminate.Nozzle) *laminate.Optional[float64] { return &n.Bearing }),
		tables.SizeField("size", func(n *laminate.Nozzle) *quantity.Length { return &n.Size }),
		tables.SizeField("opening", func(n *laminate.Nozzle) *quantity.Length { return &n.Opening }),
		tables.WordField("kind", func(n *laminate.Nozzle) *laminate.NozzleKind { return &n.Kind }, laminate.NozzleKinds),
		tables.TextField("flange", func(n *laminate.Nozzle) *string { return &n.Flange }),
		tables.TextField("cover", func(n *laminate.Nozzle) *string { return &n.Cover }),
		tables.SizeField("projection", func(n *laminate.Nozzle) *quantity.Length { return &n.Projection }),
		tables.SizeField("pressure_class", func(n *laminate.Nozzle) *quantity.Pressure { return &n.PressureClass }),
		tables.TextField("pad", func(n *laminate.Nozzle) *string { return &n.Pad }),
		tables.SizeField("pad_diameter", func(n *laminate.Nozzle) *quantity.Length { return &n.PadDiameter }),
		tables.TextField("installation_outside", func(n *laminate.Nozzle) *string { return &n.InstallationOutside }),
		tables.TextField("installation_inside", func(n *laminate.Nozzle) *string { return &n.InstallationInside }),
		tables.TextField("neck", func(n *laminate.Nozzle) *string { return &n.Neck }),
		tables.SizeField("neck_bond", func(n *laminate.Nozzle) *quantity.Length { return &n.NeckBond }),
		tables.WholeField("gussets", func(n *laminate.Nozzle) *laminate.Optional[int] { return &n.Gussets }),
		tables.AnswerField("sealed_edge", func(n *laminate.Nozzle) *laminate.Optional[bool] { return &n.SealedEdge }),
		tables.AnswerField("piping_load", func(n *laminate.Nozzle) *laminate.Optional[bool] { return &n.PipingLoad }),
	}
}
