package joint

import (
	"cmp"
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// PadThin asks for what replaces the load that an opening takes away.
var PadThin = &rules.Rule{
	ID: "pad-thin", Family: family, Title: "The pad of a nozzle carries too little",
	Why: "An opening cuts through fibers that carried pressure round, and their load goes past it on either side. The pad has to carry it there, within one opening's width; " +
		"what the shell has in excess helps, the barrier does not.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "t S/10 of the pad's structure, less what it loses warm as the part does, each condition by itself, is below [N d − (U − N) r]/r, r = min(dr, 2 d) − d, U − N not below 0: what the wall itself lacks is said of it; N is the load round, or that along the axis of a straight part where more pulls there; or a figure of it is missing",
	Basis:    "area replacement, arithmetic; the strength table is NBS PS 15-69, from memory",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		need, missing := x.Replaced(p)
		a, covers := p.Analysis(x.Pad), ""
		if missing != "" && missing == x.Unfigured(p) {
			covers = "what its opening takes from part " + x.On
		}
		var s statics.Stack
		if a != nil {
			s = statics.StackOf(a)
		}
		switch {
		case missing != "":
		case need.Load == 0:
			return // no load is taken away
		case a != nil && !s.Known:
			missing = "a thickness of laminate " + x.Pad + " is not known"
		case a != nil && s.Hoop == 0 && s.Structure > 0:
			missing, covers = "the strength table knows mat and woven roving of glass, starved of none, and laminate "+x.Pad+" has others", "what its pad bears"
		}
		switch has := s.Hoop * need.Share; {
		case covers != "":
			p.Unfigured(covers, []laminate.Ref{x.At("pad")}, "nozzle %s: its pad cannot be determined: %s", x.ID, missing)
		case missing != "":
			p.Report(rules.Incomplete, x.At("pad"), "", "nozzle %s: its pad cannot be determined: %s", x.ID, missing)
		case math.IsInf(need.Load, 1):
			p.Report(rules.Break, x.At("pad_diameter"), "", "nozzle %s: its pad reaches no further than its opening", x.ID)
		case a == nil:
			p.Report(rules.Break, x.At("pad"), "", "nozzle %s has no pad, and %s %s have to be carried past it", x.ID, p.Units.Figure(need.Load, quantity.LineLoad), way(p, x, need.Under))
		case statics.Thinner(has, need.Load):
			h, n := p.Units.Pair(has, need.Load, quantity.LineLoad)
			p.Report(rules.Break, x.At("pad"), "", "nozzle %s: the structure of its pad may bear %s%s and %s are needed", x.ID, h, statics.Warm(need.Share), n)
		}
	}),
}

// way is that of the load which an opening takes from its wall under a condition.
func way(p *rules.JobPass, x *statics.Opening, u statics.Under) string {
	if _, along, _ := x.Taken(p, u); along {
		return "along the axis"
	}
	return "round"
}

// PadNarrow asks for the pad's diameter.
var PadNarrow = &rules.Rule{
	ID: "pad-narrow", Family: family, Title: "The pad of a nozzle is narrow",
	Why: "The load past an opening comes back into the shell over the pad's ring. Twice the opening is the width over which a pad counts, " +
		"and a small opening wants three inches on every side to be laid at all.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the pad's diameter is below twice the opening, or below the opening and 6 in for one under 6 in",
	Basis:    "ASTM D3299, from memory",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		d, missing := x.Hole(p)
		if missing != "" || !x.PadDiameter.Given() {
			return // pad-thin says so where it matters
		}
		if least := joining.PadDiameter(d); statics.Thinner(x.PadDiameter.SI(), least) {
			h, n := p.Units.Pair(x.PadDiameter.SI(), least, quantity.Size)
			p.Report(rules.Warning, x.At("pad_diameter"), "", "nozzle %s: its pad is %s wide, below %s", x.ID, h, n)
		}
	}),
}

// PadBond asks what the pad's bond carries.
var PadBond = &rules.Rule{
	ID: "pad-bond", Family: family, Title: "The bond of a pad is too small",
	Why: "What the pad carries comes into it by shear over one half of its ring. " +
		"With a pad of twice the opening that is little; with a narrow one the pad peels off, and the opening is as good as bare.",
	Severity: []rules.Severity{rules.Break},
	When:     "N d/(π/8 (dr² − d²)) is above the bond's shear, less what the part loses warm, each condition by itself",
	Basis:    "statics, arithmetic; the shear from memory or the job's own, warm no more of it than the part keeps of its strength: common practice, no source",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		d, missing := x.Hole(p)
		by, more := x.Sheared(p)
		need := by.Load
		if missing+more != "" || need == 0 || x.Pad == "" || !x.PadDiameter.Given() || !statics.Thinner(d, x.PadDiameter.SI()) {
			return // pad-thin says so
		}
		may, basis := statics.Shear(p.Job, by.Share)
		if shear := joining.PadShear(need, d, x.PadDiameter.SI()); statics.Thinner(may, shear) {
			h, n := p.Units.Pair(shear, may, quantity.Stress)
			p.Report(rules.Break, x.At("pad_diameter"), basis, "nozzle %s: the bond of its pad is sheared by %s, and it may by %s%s", x.ID, h, n, statics.Softened(by.Share))
		}
	}),
}

// NeckBondShort asks what keeps the neck from being blown out.
var NeckBondShort = &rules.Rule{
	ID: "neck-bond-short", Family: family, Title: "The bond of a neck is too short",
	Why: "Pressure pushes the neck out of the shell, and the bond along neck and shell holds it. Below three inches an overlay cannot be laid and rolled well; " +
		"loads of the piping come on top and are not in this figure.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "p d/(4 h) is above the bond's shear, less what the part loses warm, each condition by itself, h what is stated, but no more than lies free of the neck, its projection less its flange, and of the part to its end; " +
		"a warning where h is below 3 in or the part is shorter than it; incomplete where h, the projection or a figure of it is not stated",
	Basis: "statics, arithmetic; 3 in and the shear from memory, or the job's own, warm no more of it than the part keeps of its strength: common practice, no source",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		d, missing := x.Hole(p)
		by, more := x.Pressed(p)
		key := "neck_bond"
		switch {
		case missing != "":
		case more != "":
			missing = more
		case !x.NeckBond.Given():
			missing = "the length bonded along neck and part is not stated (neck_bond)"
		case !x.Projection.Given():
			missing, key = "how long its neck is, and what of that can be bonded, is not stated (projection)", "projection"
		}
		if missing != "" {
			p.Report(rules.Incomplete, x.At(key), "", "nozzle %s: what holds its neck cannot be determined: %s", x.ID, missing)
			return
		}
		may, basis := statics.Shear(p.Job, by.Share)
		h, what := x.Bonded(p)
		if what != "" {
			what = ", " + what + ","
		}
		room, known := x.Room(p)
		if h == 0 {
			p.Report(rules.Break, x.At("projection"), "", "nozzle %s: nothing of its neck lies free for a bond: it projects no further than its flange is thick", x.ID)
		} else if shear := joining.BlowOut(by.Load, d, h); statics.Thinner(may, shear) {
			a, b := p.Units.Pair(shear, may, quantity.Stress)
			p.Report(rules.Break, x.At(key), basis, "nozzle %s: the bond of its neck, %s long%s is sheared by %s, and it may by %s%s", x.ID, p.Units.Stated(h, quantity.Size), what, a, b, statics.Softened(by.Share))
		} else if least := catalog.LeastNeckBond.SI(); statics.Thinner(h, least) {
			a, b := p.Units.Pair(h, least, quantity.Size)
			p.Report(rules.Warning, x.At(key), memory, "nozzle %s: its neck is bonded over %s%s below %s", x.ID, a, cmp.Or(what, ","), b)
		} else if known && room > 0 && statics.Thinner(room, x.NeckBond.SI()) {
			a, b := p.Units.Pair(x.NeckBond.SI(), room, quantity.Size)
			p.Report(rules.Warning, x.At(key), "arithmetic", "nozzle %s: what is laid outside runs %s out from its opening, and part %s ends %s from there", x.ID, a, x.On, b)
		}
	}),
}

// GussetMissing asks for what keeps small necks from being bent off.
var GussetMissing = &rules.Rule{
	ID: "gusset-missing", Family: family, Title: "A small nozzle has no gussets",
	Why: "A small neck is knocked by ladders, hoses and feet, and has little section of its own to bear it. Plate gussets set evenly round it, or a conical neck, take what comes. " +
		"Larger nozzles with loads want more than gussets.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When:     "a nozzle of 4 in or smaller that is not conical has fewer than 3 gussets; incomplete where it states neither that it is conical nor how many it has",
	Basis:    "ASTM D3299, from memory",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		if !x.Size.Given() || x.Size.SI() > catalog.GussetedSize.SI()*(1+1e-9) || x.Kind == laminate.Conical || x.Gussets.Value >= catalog.LeastGussets {
			return
		}
		if !x.Gussets.Given {
			p.Report(rules.Incomplete, x.At("gussets"), "", "nozzle %s, %s: neither that it is conical nor how many gussets stand round it is stated (kind, gussets)", x.ID, x.Size.Text())
			return
		}
		p.Report(rules.Warning, x.At("gussets"), "", "nozzle %s, %s, is not said to be conical and has %s; %d stand evenly round", x.ID, x.Size.Text(), quantity.Counted(x.Gussets.Value, "gusset", "gussets"), catalog.LeastGussets)
	}),
}

// EdgeUnsealed asks for the cut edge.
var EdgeUnsealed = &rules.Rule{
	ID: "edge-unsealed", Family: family, Title: "The cut edge of an opening is not sealed",
	Why: "The saw opens the ends of every strand of the structure. Fluid that gets there runs along them behind the barrier, and the first sign is a blister far from the nozzle. " +
		"The edge is sealed with resin before anything is fitted.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "sealed_edge is false; incomplete where it is not stated",
	Basis:    rules.CommonPractice,
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		switch {
		case !x.SealedEdge.Given:
			p.Report(rules.Incomplete, x.At("sealed_edge"), "", "nozzle %s: whether the cut edge is sealed is not stated (sealed_edge)", x.ID)
		case !x.SealedEdge.Value:
			p.Report(rules.Break, x.At("sealed_edge"), "", "nozzle %s: the cut edge is not sealed", x.ID)
		}
	}),
}

// InsideOverlayThin asks for the barrier over the cut edge.
var InsideOverlayThin = &rules.Rule{
	ID: "inside-overlay-thin", Family: family, Title: "The barrier does not run through at a nozzle",
	Why: "The overlay inside covers the cut edge of shell and neck, where the structure of both is bare. " +
		"It has to be at least the barrier that it continues, veil last. In narrow pipe a line of paste is all there is, as at its joints.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "veil and mats of installation_inside are thinner than the barrier of the part: break; none is named: incomplete from 20 in inside diameter and without one, " +
		"below that a warning, incomplete where strong acid, hypochlorite or chlorine dioxide is inside",
	Basis: rules.CommonPractice + "; from memory: NBS PS 15-69 seals inside from 20 in",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		has, known := statics.Barrier(p, x.Part)
		a := p.Lining(x.InstallationInside)
		switch {
		case a == nil && p.Parts[x.Part].Schedule.Part.InsideDiameter.Given() && !statics.Reachable(p, x.Part):
			severity := rules.Warning
			if attacksPaste(&p.Parts[x.Part].Schedule.Service) {
				severity = rules.Incomplete
			}
			p.Report(severity, x.At("installation_inside"), "", "nozzle %s: part %s is too narrow to lay up inside: its cut edge is closed by a line of paste without a veil, unless a hand reaches it from an end (installation_inside)", x.ID, x.On)
		case a == nil:
			p.Report(rules.Incomplete, x.At("installation_inside"), "", "nozzle %s: no laminate inside is named that covers the cut edge (installation_inside)", x.ID)
		case known && statics.Thinner(statics.Sealing(a), has):
			h, n := p.Units.Pair(statics.Sealing(a), has, quantity.Thickness)
			p.Report(rules.Break, x.At("installation_inside"), "", "nozzle %s: what is laid inside is %s, the barrier %s", x.ID, h, n)
		}
	}),
}

// NeckBarrierThin follows the barrier through the bore and over the face.
var NeckBarrierThin = &rules.Rule{
	ID: "neck-barrier-thin", Family: family, Title: "The barrier does not run through neck and flange",
	Why: "The fluid meets the bore, the face of the flange and the cover on it as it meets the shell. The barrier is turned out over the face, under the gasket; " +
		"a face of bare structure lets the fluid in where nobody sees it.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "the barrier of the neck's laminate, or of the part named as its flange or cover, is thinner than that of the part; incomplete where the neck names no laminate, or flange or cover has no plies",
	Basis:    rules.CommonPractice,
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		has, known := statics.Barrier(p, x.Part)
		if !known {
			return
		}
		short := func(key, what string, m float64) {
			if statics.Thinner(m, has) {
				h, n := p.Units.Pair(m, has, quantity.Thickness)
				p.Report(rules.Break, x.At(key), "", "nozzle %s: the barrier of its %s is %s, that of part %s %s", x.ID, what, h, x.On, n)
			}
		}
		if a := p.Analysis(x.Neck); a != nil {
			short("neck", "neck", a.Barrier.Thickness)
		} else {
			p.Report(rules.Incomplete, x.At("neck"), "", "nozzle %s names no laminate of its neck (neck): its barrier cannot be determined", x.ID)
		}
		for _, end := range [...][2]string{{"flange", x.Flange}, {"cover", x.Cover}} {
			f := p.Part(end[1])
			if end[1] == "" || f < 0 {
				continue
			}
			if len(p.Parts[f].Analysis.Rows) == 0 {
				p.Report(rules.Incomplete, x.At(end[0]), "", "nozzle %s: its %s %s has no wall yet: its barrier cannot be determined", x.ID, end[0], end[1])
			} else if m, known := statics.Barrier(p, f); known {
				short(end[0], end[0]+" "+end[1], m)
			}
		}
	}),
}

// NeckClassLow asks for the neck's pressure class.
var NeckClassLow = &rules.Rule{
	ID: "neck-class-low", Family: family, Title: "The pressure class of a nozzle is low",
	Why: "Neck and flange are bought or built by class. One below the pressure that it meets fails there; " +
		"below 25 psi a neck is too thin to be bolted up and stood on, whatever the tank holds.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When:     "the class is below the pressure at the nozzle; a warning below 25 psi; incomplete where either is not stated",
	Basis:    "ASTM D3299, from memory",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		pa, missing := x.Pressure(p)
		switch class := x.PressureClass; {
		case !class.Given():
			p.Report(rules.Incomplete, x.At("pressure_class"), "", "nozzle %s: its pressure class is not stated (pressure_class)", x.ID)
		case missing != "":
			p.Report(rules.Incomplete, x.At("pressure_class"), "", "nozzle %s: its class cannot be held against the pressure: %s", x.ID, missing)
		case statics.Thinner(class.SI(), pa):
			h, n := p.Units.Pair(class.SI(), pa, quantity.Stress)
			p.Report(rules.Break, x.At("pressure_class"), "", "nozzle %s is of class %s, and %s press on it", x.ID, h, n)
		case statics.Thinner(class.SI(), catalog.LeastNeckClass.SI()):
			h, n := p.Units.Pair(class.SI(), catalog.LeastNeckClass.SI(), quantity.Stress)
			p.Report(rules.Warning, x.At("pressure_class"), "", "nozzle %s is of class %s, below %s", x.ID, h, n)
		}
	}),
}

// NozzleLoadsUnknown asks what pulls at a nozzle.
var NozzleLoadsUnknown = &rules.Rule{
	ID: "nozzle-loads-unknown", Family: family, Title: "Loads of the piping are not checked",
	Why: "Pipes expand, sag and shake, and their moments break more nozzles than pressure does. " +
		"Nothing here figures them: either nothing pulls, and somebody says so, or the nozzle needs an analysis.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "piping_load is not stated, or true and no proof of others is stated that reaches all else that the nozzle bears (proved_by)",
	Basis:    "the program's own check",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		switch {
		case !x.PipingLoad.Given:
			p.Report(rules.Incomplete, x.At("piping_load"), "", "nozzle %s: whether what is connected pulls or bends is not stated (piping_load)", x.ID)
		case x.PipingLoad.Value:
			p.Unfigured("what is connected, which pulls or bends", []laminate.Ref{x.At("piping_load")}, "nozzle %s: what is connected pulls or bends, and nothing here figures it", x.ID)
		}
	}),
}
