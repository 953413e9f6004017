package workings

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/worked"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/joint/statics"
	"math"
	"slices"
)

func (w *work) nozzle(x *laminate.Nozzle) {
	on := w.p.Part(x.On)
	if on < 0 {
		return
	}
	need, _ := statics.Nozzle(w.p, w.at.Index)
	d, pad := need.Cut, x.PadDiameter.SI()
	if x.Pad == "" {
		pad = joining.PadDiameter(d)
	}
	pressure := func(l *worked.List, pa float64, condition string) {
		w.pressure(l, "pressure at the lower edge of the opening", on, pa, condition)
		if need.Through == 0 {
			l.Add("opening", "d", "as the document states", "", l.Length(d), l.LengthUnit(), "")
			return
		}
		wall := (need.Through - x.Size.SI()) / 2
		l.Add("wall of the neck that goes through", "tn", "whole, by its laminate", "", l.Length(wall), l.LengthUnit(), "")
		l.Add("opening", "d", "size + 2·tn", worked.Put("# + 2·#", l.Length(x.Size.SI()), l.Length(wall)), l.Length(d), l.LengthUnit(), "geometry")
	}
	w.pad(x, on, &need, pad, pressure)
	w.vacuum(x, on, &need, pad)
	may, basis := statics.Shear(w.r.Job, need.BondShare)
	h, whose := need.Bonded, "as the document states"
	if need.Limit != "" {
		whose = need.Limit
	}
	shear := math.Inf(1)
	if h > 0 {
		shear = joining.BlowOut(need.Pressure, d, h)
	}
	w.check(NeckBond, quantity.Stress, joint.NeckBondShort, shear, may, func(l *worked.List) {
		pressure(l, need.Pressure, need.BondUnder)
		l.Add("length bonded along neck and part, each", "h", whose, "", l.Length(h), l.LengthUnit(), "")
		if h == 0 {
			l.Say("shear of its bond, pressed out", "nothing of its neck lies free for a bond", "")
			return
		}
		l.Add("shear of its bond, pressed out", "τn", "p·d/(4·h)", worked.Put("#·#/(4·#)", l.Stress(need.Pressure), l.Length(d), l.Length(h)), l.Stress(shear), l.StressUnit(), "statics: π/4·d²·p on π·d·h; loads of the piping are not in it")
		w.shear(l, need.BondShare)
	})
	w.list[len(w.list)-1].Basis = basis
	w.neck(x, on)
}

// vacuum is what a pad has to bring back of the wall where that is pressed from outside.
func (w *work) vacuum(x *laminate.Nozzle, on int, need *statics.NozzleNeed, pad float64) {
	if need.Vacuum <= 0 {
		return
	}
	has := 0.0
	if a := w.p.Analysis(x.Pad); a != nil {
		has = statics.StackOf(a).Structure
	}
	d, part := need.Cut, x.On
	w.check(PadVacuum, quantity.Thickness, joint.OpeningUnderVacuum, need.Structure, has, func(l *worked.List) {
		ring := math.Min(pad, 2*d) - d
		wall := statics.StackOf(w.p.Parts[on].Analysis).Structure
		l.Add("vacuum, the most of service and test", "pv", "as the document states", "", l.Stress(need.Vacuum), l.StressUnit(), "")
		l.Add("structure of part "+part, "t", "Σ tp of its structural plies", "", l.Length(wall), l.LengthUnit(), "")
		l.Add("opening", "d", worked.Pick(need.Through > 0, "size and the wall of the neck that goes through", "as the document states"), "", l.Length(d), l.LengthUnit(), "")
		l.Add("diameter of the pad", "dr", "of its first ply", "", l.Length(pad), l.LengthUnit(), "")
		l.Add("ring of the pad that counts", "r", "min(dr, 2·d) − d", worked.Put("min(#, 2·#) - #", l.Length(pad), l.Length(d), l.Length(d)), l.Length(ring), l.LengthUnit(), "ASTM D3299, from memory")
		l.Add("structure of the pad that brings back half of what is cut out", "tw", "t·d/(2·r)", worked.Put("#·#/(2·#)", l.Length(wall), l.Length(d), l.Length(ring)), l.Length(need.Structure), l.LengthUnit(), joint.OpeningUnderVacuum.Basis)
		l.Add("structure of the pad, laminate "+x.Pad, "tp", "Σ tp of its structural plies", "", l.Length(has), l.LengthUnit(), "")
	})
}

// neck is its wall, as that of a pipe of its class: what of it decides, and all that governs
// worked out, from sizes and loads on.
func (w *work) neck(x *laminate.Nozzle, on int) {
	s, r, under := joint.NeckWall(w.p, &statics.Opening{Nozzle: x, Index: w.at.Index, Part: on})
	if r == nil {
		return
	}
	class, whose := overlay.ClassOf(w.r.Job, x)
	as := "as a pipe of " + whose + ", " + w.p.Units.Figure(class.SI(), quantity.Stress)
	if under != "" {
		as += ", under " + under
	}
	c, found := r.Governing()
	if !found {
		w.open(NeckWall, joint.NeckThin, w.said(joint.NeckThin, rules.Incomplete))
		return
	}
	check := Check{At: w.at, Criterion: c}
	check.Name, check.Case, check.Reason = NeckWall, w.of, c.Title()+", "+as
	if c.Reason != "" {
		check.Reason += ": " + c.Reason
	}
	o := wall.Options{Units: laminate.Some(w.p.Units)}
	for _, section := range wall.Calculate(s, w.p.Library, w.p.Analysis(x.Neck), o).Sections {
		switch section.Title {
		case "Geometry", "Loads":
			check.Steps = append(check.Steps, section.Steps...)
		case "Criteria":
			check.Steps = append(check.Steps, governing(section.Steps, r)...)
		}
	}
	w.list = append(w.list, check)
}

// governing are the steps of the criteria that govern: those of each end with its answer.
func governing(steps []worked.Step, r *wall.Result) (list []worked.Step) {
	from := 0
	for i := range steps {
		if steps[i].Answer == "" {
			continue
		}
		if k := slices.IndexFunc(r.Criteria, func(c wall.Criterion) bool { return c.Title() == steps[i].What }); k >= 0 && r.Criteria[k].Governs {
			list = append(list, steps[from:i+1]...)
		}
		from = i + 1
	}
	return list
}

// pad is what replaces the load that an opening takes away, and its bond.
func (w *work) pad(x *laminate.Nozzle, on int, need *statics.NozzleNeed, pad float64, pressure func(*worked.List, float64, string)) {
	d := need.Cut
	if w.answered(PadLoad, joint.PadThin) {
		w.answered(PadBond, joint.PadThin)
		return
	}
	open := w.said(joint.PadThin, rules.Incomplete)
	if need.Hoop == 0 && open == "" {
		why := "no load is taken away: nothing presses there"
		if need.Vacuum > 0 {
			why += " from inside; what the vacuum asks of the pad stands by itself"
		}
		w.skip(PadLoad, why)
		w.skip(PadBond, why)
		return
	}
	round := func(l *worked.List, hoop, pa float64, along bool, condition string) {
		pressure(l, pa, condition)
		if along {
			l.Add("load along the axis that the wall there has to carry, more than that round", "N", "the most of the wall's own loads along its axis (its part: Nx)", "", l.Line(hoop), l.LineUnit(), "statics")
			return
		}
		part := &w.p.Parts[on].Schedule.Part
		if part.Form == laminate.HeadPart {
			radius := 2 * hoop / pa
			l.Add("radius of the crown", "R", "of the sphere that it is", "", l.Length(radius), l.LengthUnit(), "")
			l.Add("load round that the wall there has to carry", "N", "p·R/2", worked.Put("#·#/2", l.Stress(pa), l.Length(radius)), l.Line(hoop), l.LineUnit(), "statics")
			return
		}
		inside, where := part.InsideDiameter.SI(), "D inside"
		if part.Form == laminate.Cone && x.Offset.Given() {
			inside, where = math.Min(inside, 2*x.Offset.SI()), "D inside, where it is"
		}
		k := hoop / joining.HoopLoad(pa, inside)
		l.Add("load round that the wall there has to carry", "N", "k·p·D/2, "+where+", k the factor of the form, 1 of a straight shell", worked.Put("#·#·#/2", k, l.Stress(pa), l.Length(inside)), l.Line(hoop), l.LineUnit(), "statics")
	}
	share := need.Share
	var has float64
	if a := w.p.Analysis(x.Pad); a != nil {
		has, _, _ = statics.Carries(a)
	}
	w.check(PadLoad, quantity.LineLoad, joint.PadThin, need.Pad*share, has*share, func(l *worked.List) {
		round(l, need.Taken, need.TakenBy, need.Along, need.Under)
		ring := math.Min(pad, 2*d) - d
		if ring <= 0 {
			l.Say("ring of the pad that counts", "none: the pad reaches no further than its opening", "")
			return
		}
		l.Add("load that the wall may bear there", "U", "of its structure by the strength table, else round by its governing hoop criterion; N where there is none", "", l.Line(need.Carries), l.LineUnit(), "")
		l.Add("diameter of the pad", "dr", "of its first ply; what runs out beyond does not count", "", l.Length(pad), l.LengthUnit(), "")
		l.Add("ring of the pad that counts", "r", "min(dr, 2·d) − d", worked.Put("min(#, 2·#) - #", l.Length(pad), l.Length(d), l.Length(d)), l.Length(ring), l.LengthUnit(), "ASTM D3299, from memory")
		l.Add("load that the pad has to carry", "Np", "(N·d − max(0, U − N)·r)/r, not below 0",
			worked.Put("max(0, (#·# - max(0, # - #)·#)/#)", l.Line(need.Taken), l.Length(d), l.Line(need.Carries), l.Line(need.Taken), l.Length(ring), l.Length(ring)), l.Line(need.Pad*share), l.LineUnit(), "area replacement, statics; ASME VIII in principle, from memory")
		w.carries(l, "pad", x.Pad, worked.Pick(need.Along, "along", "round"), share)
	})
	switch {
	case x.Pad == "":
		w.skip(PadBond, "it has no pad")
	case need.Hoop > 0 && x.PadDiameter.Given() && pad <= d:
		w.skip(PadBond, "its pad reaches no further than its opening") // pad-thin breaks
	case need.Hoop == 0 || !x.PadDiameter.Given():
		w.open(PadBond, joint.PadBond, open)
	default:
		may, _ := statics.Shear(w.r.Job, need.HoopShare)
		shear := joining.PadShear(need.Hoop, d, pad)
		w.check(PadBond, quantity.Stress, joint.PadBond, shear, may, func(l *worked.List) {
			round(l, need.Hoop, need.HoopBy, need.HoopAlong, need.HoopUnder)
			l.Add("shear of its bond", "τp", "N·d/(π/8·(dr² − d²))", worked.Put("#·#/(3.14159/8·(#^2 - #^2))", l.Line(need.Hoop), l.Length(d), l.Length(pad), l.Length(d)), l.Stress(shear), l.StressUnit(), "statics: the load that is taken away, over one half of the ring")
			w.shear(l, need.HoopShare)
		})
	}
}
