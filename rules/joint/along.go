package joint

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// JointAxialThin asks for the structure of the strap along the axis.
var JointAxialThin = &rules.Rule{
	ID: "joint-axial-thin", Family: family, Title: "The strap of a joint is too thin for the pull along it",
	Why: "Over the gap the strap is all the wall there is: what hangs below, what lifts the roof and what the piping pulls go through it, however long it is bonded. " +
		"A long bond on a thin strap does not slip; the strap tears across.",
	Severity: []rules.Severity{rules.Break},
	When: "t S/10 of the strap's structure, less what it loses warm as the walls do, each condition by itself, is below p D/4 of what pulls along at the joint and the stated axial load, and that is more than the load round; " +
		"a figure of it that is missing is said of the load round (joint-hoop-thin) and of the bond (joint-shear-short)",
	Basis: "statics; the ten-to-one strength table, NBS PS 15-69, from memory",
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		a := p.Analysis(x.Outside)
		d, missing := x.StrapPull(p)
		if x.Plate(p) >= 0 || x.Bolted(p) || a == nil || missing != "" {
			return // plate-corner, cover-strapped, joint-hoop-thin and joint-shear-short say so
		}
		if round, missing := x.StrapLoad(p); missing != "" || d.Load/d.Share <= round.Load/round.Share {
			return // joint-hoop-thin judges it for more
		}
		s := statics.StackOf(a)
		if has := s.Hoop * d.Share; s.Known && (s.Hoop > 0 || s.Structure == 0) && statics.Thinner(has, d.Load) {
			h, n := p.Units.Pair(has, d.Load, quantity.LineLoad)
			p.Report(rules.Break, x.At("outside"), "", "joint %s: the structure of its strap may bear %s along the axis%s and %s pull on it", x.ID, h, statics.Warm(d.Share), n)
		}
	}),
}

// JointWallWeak asks the same of the walls beside a joint that do not know of it.
var JointWallWeak = &rules.Rule{
	ID: "joint-wall-weak", Family: family, Title: "A part beside a joint does not bear the pull on it",
	Why: "What a joint states to pull along the axis goes on through the parts on both sides of it. Walls that stand in the job are figured with it. " +
		"A wall in a file of its own knows nothing of the joint, a flange is proved for pressure by its class and for nothing else, and a plate is bent where its edge is pulled.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "more pulls along at a joint than the thrust of closed ends, and the wall of a part in a file of its own fails its governing criterion along the axis under that alone; " +
		"an axial load is stated, and t S/10 of the structure of a flange, less what it loses warm, is below what pulls: break. Such a criterion cannot be determined, the table does not know the plies of the flange, or the part is a flat bottom or a cover: incomplete",
	Basis: "statics; the criteria of the wall, which name their sources; of a flange the ten-to-one strength table, NBS PS 15-69, from memory",
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		d, missing := x.StrapPull(p)
		if x.Plate(p) >= 0 || x.Bolted(p) || missing != "" || d.Load <= 0 {
			return // plate-corner, cover-strapped and joint-shear-short say so
		}
		for _, part := range x.Parts {
			at := &p.Job.Parts[part]
			switch ways := form.Answers(at.Form); {
			case ways == form.ByMembrane && at.Schedule != "" && x.Beyond(p, d):
				x := filedWall{x, part}
				x.judge(p, d)
			case ways == form.ByMembrane || x.AxialLoad.SI() <= 0:
			case ways == form.ByBolts:
				s := statics.StackOf(p.Parts[part].Analysis)
				if has := s.Hoop * d.Share; !s.Known || s.Hoop == 0 {
					p.Unfigured("what pulls there", []laminate.Ref{x.At("axial_load")}, "joint %s: whether flange %s bears what pulls on it along the axis cannot be determined: the strength table knows mat and woven roving of glass of a known thickness, and its laminate has others or none", x.ID, at.ID)
				} else if statics.Thinner(has, d.Load) {
					h, n := p.Units.Pair(has, d.Load, quantity.LineLoad)
					p.Report(rules.Break, x.At("axial_load"), "", "joint %s: the structure of flange %s may bear %s along the axis%s and %s pull on it", x.ID, at.ID, h, statics.Warm(d.Share), n)
				}
			default:
				p.Unfigured("what pulls there", []laminate.Ref{x.At("axial_load")}, "joint %s: part %s is a plate, which a pull at its edge bends: what it bears of %s is not figured (axial_load)", x.ID, at.ID, p.Units.Figure(x.AxialLoad.SI(), quantity.LineLoad))
			}
		}
	}),
}

// filedWall is a part of a joint whose wall stands in a file of its own.
type filedWall struct {
	*statics.Joined
	part int
}

// judge holds the wall against what pulls alone.
func (x filedWall) judge(p *rules.JobPass, d statics.Demand) {
	part := p.Parts[x.part]
	s := *d.Under.Schedule(p, x.part)
	none := quantity.New(0, quantity.Pascal)
	s.Service.Pressure, s.Service.Vacuum, s.Service.TestPressure, s.Conditions = none, none, quantity.Pressure{}, nil
	s.Part.LiquidHeight, s.Part.Place = quantity.New(0, quantity.Meter), laminate.Place{Axial: d.Load}
	for _, c := range p.Evaluate(&s, part.Analysis).Criteria {
		switch c.Name {
		case wall.AxialStrength, wall.AxialStrain, wall.UnitLoad:
		default:
			continue
		}
		switch {
		case !c.Governs:
		case c.Answer == wall.Fails:
			p.Report(rules.Break, x.At("axial_load"), c.Basis, "joint %s: the wall of part %s, under what pulls there along the axis alone: %s fails: %s", x.ID, p.Job.Parts[x.part].ID, c.Title(), c.Compared(p.Units))
		case c.Answer == wall.Incomplete:
			p.Report(rules.Incomplete, x.At("axial_load"), "", "joint %s: whether the wall of part %s bears what pulls there along the axis cannot be determined: %s: %s", x.ID, p.Job.Parts[x.part].ID, c.Title(), c.Reason)
		}
	}
}
