package takeoff

import (
	"errors"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
)

// OfJob lists the pieces of a job: its parts, then what is laid over each joint
// and round each nozzle. lib must not be nil.
func OfJob(j *laminate.Job, lib *laminate.Library) []Piece {
	var list []Piece
	for i := range j.Parts {
		p := &j.Parts[i]
		piece := Piece{Name: "part " + p.ID, Count: p.Count.Or(1), Schedule: j.Wall(i)}
		part := &p.Part
		if p.Schedule != "" {
			part = &piece.Schedule.Part
		}
		piece.Ground, piece.Missing = ground.OfPart(part)
		list = append(list, piece)
		if p.Knuckle != "" {
			list = overlay(list, j, p.Knuckle, Part, "part "+p.ID+", knuckle", p.Count.Or(1), func(int) (ground.Ground, error) { return ground.OfKnuckle(&p.Part) })
			if last := &list[len(list)-1]; last.Missing == nil {
				last.Taken = last.Name + ": it is taken to reach in over the bottom as far as up the wall, which no key states"
			}
		}
	}
	for i := range j.Joints {
		x := &j.Joints[i]
		if x.Outside == "" {
			list = append(list, Piece{Name: "joint " + x.ID + ", strap", Kind: Joint, Count: 1, Schedule: &laminate.Schedule{}, Missing: errors.New("no laminate is named for it (outside)")})
		}
		list = overlay(list, j, x.Outside, Joint, "joint "+x.ID+", strap", 1, func(plies int) (ground.Ground, error) { return ground.OfStrap(j, x, plies, lib) })
		list = overlay(list, j, x.Inside, Joint, "joint "+x.ID+", seal", 1, func(int) (ground.Ground, error) { return ground.OfSeal(j, x, lib) })
		if x.Inside != "" {
			list[len(list)-1].Kind = Part // of one joint, whose hours count once
		}
	}
	for i := range j.Nozzles {
		list = nozzle(list, j, &j.Nozzles[i])
	}
	return list
}

// overlay adds a laminate that a joint or nozzle names, if it does; on is what
// that many plies are laid on.
func overlay(list []Piece, j *laminate.Job, id string, kind Kind, name string, count int, on func(plies int) (ground.Ground, error)) []Piece {
	at := j.Laminate(id)
	if id == "" || at < 0 {
		return list
	}
	p := Piece{Name: name, Kind: kind, Count: count, Schedule: j.Schedule(at)}
	p.Ground, p.Missing = on(p.Schedule.NumberOfPlies())
	return append(list, p)
}

func nozzle(list []Piece, j *laminate.Job, n *laminate.Nozzle) []Piece {
	first := len(list)
	name := "nozzle " + n.ID
	of := func(on func(*laminate.Nozzle) (ground.Ground, error)) func(int) (ground.Ground, error) {
		return func(int) (ground.Ground, error) { return on(n) }
	}
	list = overlay(list, j, n.Pad, Nozzle, name+", pad", 1, of(ground.OfPad))
	list = overlay(list, j, n.InstallationOutside, Nozzle, name+", laid outside", 1, of(ground.OfNeckBond))
	list = overlay(list, j, n.InstallationInside, Nozzle, name+", laid inside", 1, of(ground.OfNeckBond))
	list = overlay(list, j, n.Neck, Nozzle, name+", neck", 1, of(ground.OfNeck))
	if len(list) == first {
		list = append(list, Piece{Name: name, Kind: Nozzle, Count: 1, Schedule: &laminate.Schedule{}, Missing: errors.New("it names no laminate")})
	}
	for k := first + 1; k < len(list); k++ {
		list[k].Kind = Part // of one nozzle, whose hours count once
	}
	return list
}
