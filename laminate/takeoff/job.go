package takeoff

import (
	"errors"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
)

// OfJob lists the pieces of a job: its parts, then what is laid over each joint
// and round each nozzle. lib must not be nil.
func OfJob(j *laminate.Job, lib *laminate.Library) []Piece {
	var list []Piece
	a := j.Assemble()
	for i := range j.Parts {
		p := &j.Parts[i]
		piece := Piece{Name: "part " + p.ID, At: laminate.Ref{Kind: laminate.RefJobPart, Index: i}, Count: p.Count.Or(1), Schedule: a.Wall(i)}
		part := &p.Part
		if p.Schedule != "" {
			part = &piece.Schedule.Part
		}
		piece.Ground, piece.Missing = ground.OfPart(part)
		list = append(list, piece)
		if open := (seams{part, laminate.Analyze(piece.Schedule, lib).Total.Thickness}); open.in(quantity.US) != "" {
			list = append(list, Piece{Name: piece.Name + ", seams", At: piece.At, Count: piece.Count * part.Miters.Value, Schedule: &laminate.Schedule{}, Missing: open})
		}
		for _, k := range laidAt(j, laminate.Ref{Kind: laminate.RefJobPart, Index: i}, Part, lib) {
			if k.Count = p.Count.Or(1); k.Missing == nil {
				k.Taken = k.Name + ": it is taken to lie outside, where a laminate without a barrier can, and to reach in under the bottom as far as up the wall; no key states either"
			}
			list = append(list, k)
		}
	}
	for i := range j.Joints {
		x, at := &j.Joints[i], laminate.Ref{Kind: laminate.RefJoint, Index: i}
		if x.Outside == "" {
			list = append(list, Piece{Name: "joint " + x.ID + ", strap", At: at, Kind: Joint, Count: 1, Schedule: &laminate.Schedule{}, Missing: errors.New("no laminate is named for it (outside)")})
		}
		pieces := laidAt(j, at, Joint, lib)
		if x.Outside == "" && len(pieces) > 0 {
			pieces[0].Kind = Part // the hours of the joint are those of its strap
		}
		list = append(list, pieces...)
	}
	for i := range j.Nozzles {
		at := laminate.Ref{Kind: laminate.RefNozzle, Index: i}
		pieces := laidAt(j, at, Nozzle, lib)
		if len(pieces) == 0 {
			pieces = []Piece{{Name: "nozzle " + j.Nozzles[i].ID, At: at, Kind: Nozzle, Count: 1, Schedule: &laminate.Schedule{}, Missing: errors.New("it names no laminate")}}
		}
		pieces[0].Gussets = j.Nozzles[i].Gussets.Value
		list = append(list, pieces...)
	}
	return list
}

// laidAt are the laminates that a joint, a nozzle or a part names beside its wall.
// The hours of one count once, with the first of them.
func laidAt(j *laminate.Job, at laminate.Ref, kind Kind, lib *laminate.Library) (list []Piece) {
	for _, o := range overlay.At(j, at) {
		if o.Laminate == "" || j.Laminate(o.Laminate) < 0 {
			continue
		}
		p := Piece{Name: o.Name(), At: o.At, Kind: kind, Count: 1, Schedule: o.Schedule(j)}
		p.Ground, p.Missing = o.Ground(j, lib)
		list = append(list, p)
		kind = Part
	}
	return list
}

// seams are those of a mitered elbow: what closes them no key states.
type seams struct {
	of    *laminate.Part
	thick float64
}

func (s seams) Error() string { return s.in(quantity.US) }

// in says how many there are and how long; "" where there is none.
func (s seams) in(u quantity.System) string {
	said := ground.SeamsSaid(s.of, s.thick, u)
	if said == "" {
		return ""
	}
	return said + ": what closes them, an overlay outside and a seal inside, no key states"
}
