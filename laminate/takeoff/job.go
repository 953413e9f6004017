package takeoff

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/surface"
	"frp/veilwright/laminate/vessel"
)

// OfJob lists the pieces of a job: its parts, then what is laid over each joint
// and round each nozzle. lib must not be nil.
func OfJob(j *laminate.Job, lib *laminate.Library) []Piece {
	var list []Piece
	for i := range j.Parts {
		p := &j.Parts[i]
		piece := Piece{Name: "part " + p.ID, Count: p.Count.Or(1), Schedule: j.Wall(i)}
		if p.Schedule != "" {
			piece.Ground, piece.Missing = plain(&piece.Schedule.Part)
		} else {
			piece.Ground, piece.Missing = groundOf(&p.Part)
		}
		list = append(list, piece)
		if p.Knuckle != "" {
			list = overlay(list, j, p.Knuckle, Part, "part "+p.ID+", knuckle", p.Count.Or(1), func(*laminate.Schedule) (Ground, error) {
				return Ground{}, errors.New("how far it reaches in over the bottom is not a key of the job")
			})
		}
	}
	for i := range j.Joints {
		x := &j.Joints[i]
		inside, outside, missing := 0.0, 0.0, errors.New("the inside diameter of the parts is not stated")
		for _, id := range x.Between {
			if k := j.Part(id); k >= 0 {
				s := j.Wall(k)
				if d := s.Part.InsideDiameter; d.Given() {
					inside, missing = math.Max(inside, d.SI()), nil
					outside = math.Max(outside, d.SI()+2*laminate.Analyze(s, lib).Total.Thickness)
				}
			}
		}
		if x.Outside == "" {
			list = append(list, Piece{Name: "joint " + x.ID + ", strap", Kind: Joint, Count: 1, Schedule: &laminate.Schedule{}, Missing: errors.New("no laminate is named for it (outside)")})
		}
		list = overlay(list, j, x.Outside, Joint, "joint "+x.ID+", strap", 1, func(s *laminate.Schedule) (Ground, error) {
			switch {
			case missing != nil:
				return Ground{}, missing
			case !x.Width.Given() || !x.FirstWidth.Given():
				return Ground{}, errors.New("the widths of the strap are not stated (width, first_width)")
			}
			widths := joining.PlyWidths(x.FirstWidth.SI(), x.Width.SI(), s.NumberOfPlies())
			if x.Widths == laminate.WideFirst {
				slices.Reverse(widths)
			}
			return Strap(outside, widths), nil
		})
		list = overlay(list, j, x.Inside, Joint, "joint "+x.ID+", seal", 1, func(s *laminate.Schedule) (Ground, error) {
			switch {
			case missing != nil:
				return Ground{}, missing
			case !x.InsideWidth.Given():
				return Ground{}, errors.New("the width of the seal is not stated (inside_width)")
			}
			width := x.InsideWidth.SI()
			return Ground{Area: func(_ int, z float64) (float64, error) { return surface.Cylinder(inside-2*z, width) }}, nil
		})
		if x.Inside != "" {
			list[len(list)-1].Kind = Part // of one joint, whose hours count once
		}
	}
	for i := range j.Nozzles {
		list = nozzle(list, j, &j.Nozzles[i])
	}
	return list
}

// overlay adds a laminate that a joint or nozzle names, if it does.
func overlay(list []Piece, j *laminate.Job, id string, kind Kind, name string, count int, ground func(*laminate.Schedule) (Ground, error)) []Piece {
	at := j.Laminate(id)
	if id == "" || at < 0 {
		return list
	}
	p := Piece{Name: name, Kind: kind, Count: count, Schedule: j.Schedule(at)}
	p.Ground, p.Missing = ground(p.Schedule)
	return append(list, p)
}

// Strap is the ground of an overlay round the outside of a tube, its plies each
// of their own width.
func Strap(diameter float64, widths []float64) Ground {
	return Ground{Area: func(i int, z float64) (float64, error) {
		if i >= len(widths) {
			return 0, fmt.Errorf("no width of ply %d", i+1)
		}
		return surface.Cylinder(diameter+2*z, widths[i])
	}}
}

func nozzle(list []Piece, j *laminate.Job, n *laminate.Nozzle) []Piece {
	first := len(list)
	cut := n.Cut()
	ring := func(given bool, outer float64, key string, grows float64) func(*laminate.Schedule) (Ground, error) {
		return func(*laminate.Schedule) (Ground, error) {
			if !cut.Given() || !given {
				return Ground{}, errors.New("its opening or " + key + " is not stated")
			}
			return Ground{Area: func(_ int, z float64) (float64, error) { return surface.Ring(outer+grows*z, cut.SI()) }}, nil
		}
	}
	// Each ply of a pad runs out beyond the one under it.
	list = overlay(list, j, n.Pad, Nozzle, "nozzle "+n.ID+", pad", 1, ring(n.PadDiameter.Given(), n.PadDiameter.SI(), "pad_diameter", 2*joining.TaperRatio))
	around := func(*laminate.Schedule) (Ground, error) {
		if !cut.Given() || !n.NeckBond.Given() {
			return Ground{}, errors.New("its opening or neck_bond is not stated")
		}
		d, h := cut.SI(), n.NeckBond.SI()
		return Flat(math.Pi*d*h + math.Pi/4*((d+2*h)*(d+2*h)-d*d)), nil // up the neck and out on the part
	}
	list = overlay(list, j, n.InstallationOutside, Nozzle, "nozzle "+n.ID+", laid outside", 1, around)
	list = overlay(list, j, n.InstallationInside, Nozzle, "nozzle "+n.ID+", laid inside", 1, around)
	list = overlay(list, j, n.Neck, Nozzle, "nozzle "+n.ID+", neck", 1, func(*laminate.Schedule) (Ground, error) {
		if !n.Size.Given() || !n.Projection.Given() {
			return Ground{}, errors.New("its size or projection is not stated")
		}
		return Tube(n.Size.SI(), n.Projection.SI()), nil
	})
	if len(list) == first {
		list = append(list, Piece{Name: "nozzle " + n.ID, Kind: Nozzle, Count: 1, Schedule: &laminate.Schedule{}, Missing: errors.New("it names no laminate")})
	}
	for k := first + 1; k < len(list); k++ {
		list[k].Kind = Part // of one nozzle, whose hours count once
	}
	return list
}

// curved is the ground of a part that does not unroll.
func curved(area func(z float64) (float64, error)) Ground {
	return Ground{Curved: true, Area: func(_ int, z float64) (float64, error) { return area(z) }}
}

// groundOf is the ground of a part of a job, by its form.
func groundOf(p *laminate.Part) (Ground, error) {
	d := p.InsideDiameter.SI()
	need := func(given bool, key string) error {
		if given {
			return nil
		}
		return errors.New(key + " is not stated")
	}
	switch p.Form {
	case laminate.NoPartForm, laminate.Pipe, laminate.Duct, laminate.Tank, laminate.ShellCourse:
		return plain(p)
	case laminate.Panel, laminate.Cover:
		return flat(p)
	case laminate.Flange:
		drilled, ok := drilling(p)
		if !ok {
			return Ground{}, errors.New("its outside diameter is not known (size, drilling)")
		}
		area, err := surface.Ring(drilled.Outside, p.Size.SI())
		return Flat(area), err
	default:
	}
	if err := need(p.InsideDiameter.Given(), "inside_diameter"); err != nil {
		return Ground{}, err
	}
	turn := p.Turn.Value * math.Pi / 180
	switch p.Form {
	case laminate.FlatBottom:
		r := p.KnuckleRadius.SI()
		if !p.KnuckleRadius.Given() {
			return Disc(d), nil
		}
		return curved(func(z float64) (float64, error) { return surface.KnuckledBottom(d/2+z, r+z) }), nil
	case laminate.Cone:
		alpha := p.HalfAngle.Value * math.Pi / 180
		small := p.SmallDiameter.SI() / 2
		return curved(func(z float64) (float64, error) {
			h, err := surface.Frustum(d/2+z*math.Cos(alpha), small+z*math.Cos(alpha), alpha)
			return h.Area, err
		}), errors.Join(need(p.HalfAngle.Given, "half_angle"), need(p.SmallDiameter.Given(), "small_diameter"))
	case laminate.Elbow:
		err := errors.Join(need(p.BendRadius.Given(), "bend_radius"), need(p.Turn.Given, "turn"), need(p.Miters.Given, "miters (0 for a smooth one)"))
		if n := p.Miters.Value; n > 0 {
			return curved(func(z float64) (float64, error) {
				m, err := surface.Mitered(d+2*z, p.BendRadius.SI(), turn, n)
				return m.Area, err
			}), err
		}
		return curved(func(z float64) (float64, error) { return surface.Elbow(d/2+z, p.BendRadius.SI(), turn) }), err
	default: // a head
	}
	depth, crown, knuckle := p.Depth.SI(), p.CrownRadius.SI(), p.KnuckleRadius.SI()
	of := func(h surface.Head, err error) (float64, error) { return h.Area, err }
	switch p.Head {
	case laminate.Hemispherical:
		return curved(func(z float64) (float64, error) { return of(surface.Hemisphere(d/2 + z)) }), nil
	case laminate.Ellipsoidal:
		return curved(func(z float64) (float64, error) { return of(surface.Ellipsoid(d/2+z, depth+z)) }), need(p.Depth.Given(), "depth")
	case laminate.Torispherical:
		return curved(func(z float64) (float64, error) { return of(surface.Torisphere(d+2*z, crown+z, knuckle+z)) }),
			errors.Join(need(p.CrownRadius.Given(), "crown_radius"), need(p.KnuckleRadius.Given(), "knuckle_radius"))
	case laminate.NoHeadShape:
	}
	return Ground{}, errors.New("shape is not stated")
}

// flat is the ground of a panel or cover.
func flat(p *laminate.Part) (Ground, error) {
	drilled, ok := drilling(p)
	switch {
	case p.Area.Given():
		return Flat(p.Area.SI()), nil
	case p.Width.Given() && p.Length.Given():
		return Flat(p.Width.SI() * p.Length.SI()), nil
	case ok:
		return Disc(drilled.Outside), nil
	case p.InsideDiameter.Given():
		return Disc(p.InsideDiameter.SI()), nil
	}
	return Ground{}, errors.New("neither area, width and length, drilling and size nor inside_diameter is stated")
}

func drilling(p *laminate.Part) (vessel.Drilling, bool) {
	switch p.Drilling.String() {
	case "class-150":
		return vessel.Class150(p.Size.SI())
	case "class-125":
		return vessel.Class125(p.Size.SI())
	}
	return vessel.Drilling{}, false
}
