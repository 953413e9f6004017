package joint

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// JointShearShort asks for the length of bond.
var JointShearShort = &rules.Rule{
	ID: "joint-shear-short", Family: family, Title: "The bond of a joint is too short",
	Why: "A strap holds two parts together by shear in the first ply alone. Too short a bond tears off as a whole and without warning, since nothing yields before it goes. " +
		"Beyond what is needed more length helps little: the peaks at the ends stay.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "half of the strap's width less the gap, and on no part more than its length, or of a part that several straps lie on and are too wide for its share of that, is below N F/τ, N = p D/4 and the stated axial load, τ less what the walls lose warm, each condition by itself; or a figure of it is missing",
	Basis:    memory + ": the form of ASTM D3299, BS 4994 and ADR, the shear a typical value or the job's own; warm no more of it than the walls keep of their strength: common practice, no source",
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		if x.Plate(p) >= 0 || x.Bolted(p) {
			return // plate-corner and cover-strapped say so
		}
		d, missing := x.StrapPull(p)
		switch {
		case missing != "":
		case x.Outside == "":
			missing = "no laminate is named for its outside (outside)"
		case !x.Width.Given():
			missing = "the width of the strap is not stated (width)"
		case !x.Gap.Given():
			missing = "the gap between the parts is not stated (gap; 0 where the ends touch)"
		case !x.AxialLoad.Given():
			missing = "no load beside that of the pressure is stated (axial_load; 0 where there is none)"
		}
		if missing != "" {
			p.Report(rules.Incomplete, x.At(""), "", "joint %s: the length of bond cannot be determined: %s", x.ID, missing)
			return
		}
		_, basis := statics.Shear(p.Job, d.Share)
		need := x.Bond(p, d)
		has, short := x.Bonds(p)
		on := "on each side"
		if short >= 0 {
			on = "on part " + p.Job.Parts[short].ID + ", which is no longer"
			if x.Shared(p, short) > 0 {
				on = "on part " + p.Job.Parts[short].ID + ", whose " + p.Units.Stated(p.Stated(short).Length.SI(), quantity.Size) + " the straps on it share"
			}
		}
		if statics.Thinner(has, need) {
			h, n := p.Units.Pair(has, need, quantity.Size)
			p.Report(rules.Break, x.At("width"), basis, "joint %s: the strap bonds %s %s, and %s are needed%s", x.ID, h, on, n, statics.Softened(d.Share))
		}
	}),
}

// JointHoopThin asks for the structure of the strap.
var JointHoopThin = &rules.Rule{
	ID: "joint-hoop-thin", Family: family, Title: "The strap of a joint is too thin",
	Why: "Over the gap the strap alone carries the pressure round, and along the axis all that the walls carry. " +
		"A strap thinner than the walls is where the equipment bursts, and a wound wall does not lend it its fibers.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "t S/10 of the strap's structure, less what it loses warm as the walls do, each condition by itself, is below p D/2 at the joint, that to a flat bottom apart, or its structure is thinner than that of the thinner wall; or a figure of it is missing",
	Basis:    "p D/2 against the ten-to-one strength table, NBS PS 15-69, from memory; the thinner wall: common practice, no source",
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		if x.Plate(p) >= 0 || x.Bolted(p) {
			return // plate-corner and cover-strapped say so
		}
		a := p.Analysis(x.Outside)
		d, missing := x.StrapLoad(p)
		var s statics.Stack
		untabled := false
		switch {
		case a == nil:
			missing = "no laminate is named for its outside (outside)"
		case missing != "":
		default:
			if s = statics.StackOf(a); !s.Known {
				missing = "a thickness of laminate " + x.Outside + " is not known"
			} else if s.Hoop == 0 && s.Structure > 0 {
				missing, untabled = "the strength table knows mat and woven roving of glass, starved of none, and laminate "+x.Outside+" has others", true
			}
		}
		switch {
		case untabled:
			p.Unfigured("what its strap bears", []laminate.Ref{x.At("outside")}, "joint %s: the strap cannot be determined: %s", x.ID, missing)
			return
		case missing != "":
			p.Report(rules.Incomplete, x.At("outside"), "", "joint %s: the strap cannot be determined: %s", x.ID, missing)
			return
		}
		if has := s.Hoop * d.Share; statics.Thinner(has, d.Load) {
			h, n := p.Units.Pair(has, d.Load, quantity.LineLoad)
			p.Report(rules.Break, x.At("outside"), "", "joint %s: the structure of its strap may bear %s round%s and %s press on it", x.ID, h, statics.Warm(d.Share), n)
			return
		}
		if thin := x.Thinner(p); statics.Thinner(s.Structure, thin) {
			h, n := p.Units.Pair(s.Structure, thin, quantity.Thickness)
			p.Report(rules.Break, x.At("outside"), "common practice, no source", "joint %s: the structure of its strap is %s, that of the thinner wall %s", x.ID, h, n)
		}
	}),
}

// JointTaperSteep asks how the strap runs out.
var JointTaperSteep = &rules.Rule{
	ID: "joint-taper-steep", Family: family, Title: "A strap ends too steeply",
	Why: "Where a strap ends in a step, bending peels the last ply off the wall. Plies that grow by six times their own thickness run out gently. " +
		"A strap of sixteen thicknesses with a narrow first ply is steeper than that under half an inch.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When:     "(W − w1)/2 is less than 6 times the thickness of the strap; or a width is missing",
	Basis:    "ADR 6.9.2.10: tapers of overlays at 6 to 1",
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		a := p.Analysis(x.Outside)
		if a == nil || a.Total.Thickness == 0 {
			return // joint-hoop-thin says so
		}
		if !x.Width.Given() || !x.FirstWidth.Given() {
			p.Report(rules.Incomplete, x.At("width"), "", "joint %s: how its strap runs out cannot be determined: width and first_width are asked for", x.ID)
			return
		}
		ratio := joining.Taper(x.Width.SI(), x.FirstWidth.SI(), a.Total.Thickness)
		if statics.Thinner(ratio, joining.TaperRatio) {
			least := joining.StrapWidth(a.Total.Thickness, 0, x.Gap.SI(), x.FirstWidth.SI())
			h, n := p.Units.Pair(ratio, joining.TaperRatio, quantity.Times)
			p.Report(rules.Warning, x.At("width"), "", "joint %s: the strap runs out at %s to 1, below %s to 1; a width of %s does", x.ID, h, n, p.Units.AtLeast(least, quantity.Size))
		}
	}),
}

// BondPlyNotMat asks for the first ply onto a cured face.
var BondPlyNotMat = &rules.Rule{
	ID: "bond-ply-not-mat", Family: family, Title: "The first ply onto a cured face is no mat",
	Why: "Woven roving and bands touch a ground face at their crowns alone and leave resin pockets between; mat fills the scratches and wets out. " +
		"A bond that begins with anything else is weak from the first day.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the first ply of a strap, a seal, a pad, an installation laminate or the knuckle of a bottom is not chopped",
	Basis:    rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		for _, o := range p.Overlays() {
			a := p.Analysis(o.Laminate)
			if !o.Kind.Bonds() || len(o.On) == 0 || a == nil || len(a.Rows) == 0 || a.Rows[0].Material == nil || a.Rows[0].Material.Form.Chopped() {
				continue
			}
			p.Report(rules.Warning, laminate.Ref{Kind: o.At.Kind, Index: o.At.Index, Key: o.Kind.Key()}, "", "%s, laminate %s, begins with %s on a cured face; a mat bonds", o.Name(), o.Laminate, a.Rows[0].Material.ID)
		}
	},
}

// WaxUnderBond asks what a strap is laid on.
var WaxUnderBond = &rules.Rule{
	ID: "wax-under-bond", Family: family, Title: "Wax lies under a bond",
	Why: "Wax floats to the face of a coat so that air does not keep it soft, and nothing bonds to it. " +
		"Where a strap or a pad goes the coat is left off until it is laid, or ground off to dull, rough laminate. " +
		"Lay-up sheet, route sheet and the lay-up page have the coat of a part last, when its joints and nozzles are laid; a record of a bond has to say that the face was abraded.",
	Severity: []rules.Severity{rules.Break, rules.Warning, rules.Note},
	When: "the outermost ply of a part that is joined, or that a pad goes on, of a strap that a knuckle is laid over, or of what at a nozzle bears others or gussets, is a waxed coat: a note, as the papers of the job have it laid last; " +
		"a warning where its wall is a document of its own, whose papers do not, where it is laid from the outside in, and of a pad that is laid over; " +
		"a break where a part is laid from the outside in, so that its own plies come onto it; said once for overlays of a kind, at all of them",
	Basis: rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		bonds := make([][]string, len(p.Job.Parts))
		places := make([][]laminate.Ref, len(p.Job.Parts))
		for _, o := range p.Overlays() {
			for _, i := range o.On {
				if o.Kind == overlay.Knuckle {
					bonds[i], places[i] = append(bonds[i], "the "+o.Kind.Said()), append(places[i], laminate.JobPartRef(o.At.Index, o.Kind.Key()))
				}
			}
		}
		coatsOver(p)
		statics.EachJoint(func(_ *rules.JobPass, x *statics.Joined) {
			for _, part := range x.Parts {
				if x.Outside != "" {
					bonds[part], places[part] = append(bonds[part], x.ID), append(places[part], x.At("outside"))
				}
			}
		})(p)
		statics.EachNozzle(func(_ *rules.JobPass, x *statics.Opening) {
			if a := p.Analysis(x.Pad); a != nil && x.InstallationOutside != "" && waxed(a) {
				p.Report(rules.Warning, x.At("pad"), "", "nozzle %s: its pad, laminate %s, ends in a waxed coat, and laminate %s is laid over it: grind it off, or lay the coat last", x.ID, x.Pad, x.InstallationOutside)
			}
			if x.Pad != "" || x.InstallationOutside != "" {
				key := "pad"
				if x.Pad == "" {
					key = "installation_outside"
				}
				bonds[x.Part], places[x.Part] = append(bonds[x.Part], x.ID), append(places[x.Part], x.At(key))
			}
		})(p)
		coats := p.LastCoats()
		for i := range bonds {
			rows := p.Parts[i].Analysis.Rows
			if p.Job.Parts[i].Laid == laminate.OutsideIn {
				for k := len(rows) - 1; k > 0; k-- {
					if m := rows[k].Material; m != nil && m.Waxed {
						p.Report(rules.Break, laminate.JobPartRef(i, "laid"), "", "part %s is laid from the outside in: its waxed coat (ply %d, %s) has to bear the plies that are laid onto it", p.Job.Parts[i].ID, rows[k].First, m.ID)
					}
				}
			}
			if len(bonds[i]) == 0 || !waxed(p.Parts[i].Analysis) {
				continue
			}
			part, before := &p.Job.Parts[i], strings.Join(bonds[i], ", ")
			at := append([]laminate.Ref{laminate.JobPartRef(i, "laminate")}, places[i]...)
			switch {
			case part.Schedule != "":
				p.ReportAt(rules.Warning, at, "", "part %s ends in a waxed coat, and the papers of %s do not know what is bonded onto it: lay it after %s, or grind it off where they bond", part.ID, part.Schedule, before)
			case coats[i] == nil:
				p.ReportAt(rules.Warning, at, "", "part %s ends in a waxed coat: grind it off where %s bond", part.ID, before)
			default:
				p.ReportAt(rules.Note, at, "", "part %s ends in a waxed coat: lay-up and route sheets have it laid after %s; laid before, it is ground off where they bond", part.ID, before)
			}
		}
	},
}

// coatsOver says of the overlays that end in a waxed coat what it waits for, once of those
// of a kind.
func coatsOver(p *rules.JobPass) {
	type waiting struct {
		first, after string
		at           []laminate.Ref
	}
	var order []overlay.Kind
	list := map[overlay.Kind]*waiting{}
	for _, o := range overlay.All(p.Job) {
		a := p.Analysis(o.Laminate)
		if a == nil {
			continue
		}
		c := o.LastCoat(p.Job, a)
		if c == nil {
			continue
		}
		w := list[o.Kind]
		if w == nil {
			w = &waiting{first: o.Name(), after: c.Before()}
			list[o.Kind], order = w, append(order, o.Kind)
		}
		if w.after != c.Before() {
			w.after = "what is laid onto each of them"
		}
		w.at = append(w.at, laminate.Ref{Kind: o.At.Kind, Index: o.At.Index, Key: o.Kind.Key()})
	}
	for _, kind := range order {
		w, ends, bonds := list[kind], ", ends", "that bonds"
		if more := len(w.at) - 1; more > 0 {
			ends, bonds = ", and "+quantity.Counted(more, "other", "others")+" end", "those bond"
		}
		p.ReportAt(rules.Note, w.at, "", "%s%s in a waxed coat: lay-up and route sheets have it laid after %s; laid before, it is ground off where %s", w.first, ends, w.after, bonds)
	}
}

// waxed tells whether a laminate ends in a waxed coat.
func waxed(a *laminate.Analysis) bool {
	if len(a.Rows) == 0 {
		return false
	}
	m := a.Rows[len(a.Rows)-1].Material
	return m != nil && m.Waxed
}

// JointUnqualified asks who bonds, and how.
var JointUnqualified = &rules.Rule{
	ID: "joint-unqualified", Family: family, Title: "How a joint is bonded is not qualified",
	Why: "A bond cannot be looked into once it is laid: what it holds depends on preparation, cover time, mix and cure, and on who does it. " +
		"A procedure and its bonders are proved on a test assembly under pressure before they bond what counts.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "a joint of parts that are not bolted to each other states no qualification, or that there is none",
	Basis:    rules.CommonPractice,
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		if _, there := word.Answered(x.Qualification); !there && !x.Bolted(p) {
			p.Report(rules.Incomplete, x.At("qualification"), "", "joint %s: the bonding procedure and who is qualified by it are not stated (qualification)", x.ID)
		}
	}),
}

// BondTooWarm asks how near the bond comes to where its resin softens.
var BondTooWarm = &rules.Rule{
	ID: "bond-too-warm", Family: family, Title: "A bond comes near the softening of its resin",
	Why: "The shear of a bond is that of the resin alone, and it falls sooner than the strength of a laminate with its fibers. " +
		"Within 36 °F (20 °C) of the heat deflection temperature no figure here holds.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "a joined part is as warm as the heat deflection temperature of a resin of the strap less 20 °C, or warmer",
	Basis:    rules.CommonPractice,
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		a := p.Analysis(x.Outside)
		if a == nil {
			return
		}
		for _, part := range x.Parts {
			hot := p.Parts[part].Schedule.Service.Hottest()
			for i := range a.Rows {
				r := a.Rows[i].Resin
				if r == nil || !hot.Given() {
					continue
				}
				soft := r.HeatDeflection
				if !soft.Given() {
					soft = p.Library.Families[r.Family].HeatDeflection
				}
				if soft.Given() && !quantity.Below(hot.SI(), soft.SI()-20) {
					p.Unfigured("its bond, as warm as it gets", []laminate.Ref{x.At("outside")}, "joint %s: at %s resin %s, which softens at %s, has no bond that can be figured", x.ID, p.Units.Temperature(hot.SI()), r.ID, p.Units.Temperature(soft.SI()))
					return
				}
			}
		}
	}),
}
