package joint

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// BondUnsourced asks what the figures of the bond rest on.
var BondUnsourced = &rules.Rule{
	ID: "bond-unsourced", Family: family, Title: "What the figures of the bond rest on is not known",
	Why: "Every strap, pad and neck is figured with the shear that one square of a bond may carry. A strength belongs to the factor that it was measured for, and both to a test or a standard that somebody can look up. " +
		"A factor of one leaves no margin at all, and no bond onto a cured face is stronger than the laminate between its own plies.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When: "the bond states shear_strength or factor without the other, or either without a source; its shear strength is above 3,000 psi, its factor below 4: incomplete; " +
		"its factor is below 10: warning",
	Basis: memory + ": 2,000 psi over 10; short beams of mat tear at 3,000 psi and up, and overlaps onto a cured face before that; 4 is the least K of ADR 6.9.2.3.5",
	Job: func(p *rules.JobPass) {
		strength, factor := p.Job.Bond.ShearStrength, p.Job.Bond.Factor
		at := func(key string) laminate.Ref { return laminate.Ref{Kind: laminate.RefBond, Key: key} }
		stated := strength.Given() || factor.Given
		switch {
		case stated && !factor.Given:
			p.Report(rules.Incomplete, at("factor"), "", "the bond states a shear strength and no factor that it is divided by: 10 is taken, from memory, and whether that belongs to it is not known (factor)")
		case stated && !strength.Given():
			p.Report(rules.Incomplete, at("shear_strength"), "", "the bond states a factor and no shear strength that it divides: %s is taken, from memory, and whether the factor belongs to it is not known (shear_strength)", p.Units.Figure(catalog.BondShear.SI(), quantity.Stress))
		}
		if stated && p.Job.Bond.Source == "" {
			p.Report(rules.Incomplete, at("source"), "", "where the figures of the bond come from is not stated: which tests, by whom, or which standard (source)")
		}
		if most := catalog.MostBondShear.SI(); strength.Given() && statics.Thinner(most, strength.SI()) {
			m, n := p.Units.Pair(strength.SI(), most, quantity.Stress)
			p.Report(rules.Incomplete, at("shear_strength"), "", "the shear strength of the bond is stated as %s: above %s no bond onto a cured face is known to hold, and what is figured with it is not proved (shear_strength)", m, n)
		}
		switch f := factor.Value; {
		case !factor.Given:
		case quantity.Below(f, catalog.LeastBondFactor):
			p.Report(rules.Incomplete, at("factor"), "", "the shear strength of the bond is divided by %s: below %s no standard known here goes (factor)", p.Units.Figure(f, quantity.Times), p.Units.Figure(catalog.LeastBondFactor, quantity.Times))
		case quantity.Below(f, catalog.BondFactor):
			p.Report(rules.Warning, at("factor"), "", "the shear strength of the bond is divided by %s, below %s", p.Units.Figure(f, quantity.Times), p.Units.Figure(catalog.BondFactor, quantity.Times))
		}
	},
}

// OverlayResinDiffers holds the resin of what is laid outside against the wall.
var OverlayResinDiffers = &rules.Rule{
	ID: "overlay-resin-differs", Family: family, Title: "An overlay is of another resin than its wall",
	Why: "What is laid onto a wall bonds by its resin alone. Another family shrinks, softens and ages otherwise, and onto some, as a polyester onto a cured vinyl ester, it bonds less: " +
		"the strap or pad is figured as one with the wall, and is not.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a resin family of a strap, a pad, an overlay outside or the knuckle of a bottom, its outer surface apart, is not one of the structure that it is laid on; what the fluid wets is held against the barrier (seal-differs-from-barrier, nozzle-barrier-differs) and against the fluid",
	Basis:    rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		for _, o := range p.Overlays() {
			a := p.Analysis(o.Laminate)
			if a == nil || !o.Kind.Bonds() || o.Kind.Inside() {
				continue
			}
			for _, part := range o.On {
				if resin := foreign(a, p.Parts[part].Analysis); resin != "" {
					p.Report(rules.Warning, laminate.Ref{Kind: o.At.Kind, Index: o.At.Index, Key: o.Kind.Key()}, "", "%s, laminate %s, is of %s, which the structure of part %s is not", o.Name(), o.Laminate, resin, p.Job.Parts[part].ID)
					break
				}
			}
		}
	},
}

// foreign is a resin family of an overlay that the structure of a wall has not, "" where
// there is none, or the wall has no structure to be held against.
func foreign(a, wall *laminate.Analysis) string {
	theirs := map[laminate.Family]bool{}
	for i := range wall.Rows {
		if r := wall.Rows[i].Resin; r != nil && wall.Rows[i].Zone == laminate.StructuralLayer {
			theirs[r.Family] = true
		}
	}
	for i := range a.Rows {
		if r := a.Rows[i].Resin; r != nil && a.Rows[i].Zone != laminate.OuterSurface && len(theirs) > 0 && !theirs[r.Family] {
			return r.Family.String()
		}
	}
	return ""
}

// StrapOrderUnstated notes in which order a strap is laid.
var StrapOrderUnstated = &rules.Rule{
	ID: "strap-order-unstated", Family: family, Title: "Which ply of a strap is the widest is not stated",
	Why: "Laid narrow first each ply ends on the bare wall and bonds there; laid wide first the widest does, and the ends of the others stack on it. " +
		"Both are met, and where nothing is stated a shop lays as it always does.",
	Severity: []rules.Severity{rules.Note},
	When:     "a joint with a strap of several plies, its first narrower than the whole, states no order of widths: it is taken narrow first",
	Basis:    "NBS PS 15-69, from memory, lays narrow first",
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		a := p.Analysis(x.Outside)
		if a != nil && len(a.Rows) > 0 && a.Rows[len(a.Rows)-1].Last > 1 && x.Widths == laminate.NoWidthOrder && x.FirstWidth.Given() && x.Width.Given() && statics.Thinner(x.FirstWidth.SI(), x.Width.SI()) {
			p.Report(rules.Note, x.At("widths"), "", "joint %s: its strap is taken to be laid narrow first: the order of its widths is not stated (widths)", x.ID)
		}
	}),
}

// PlateCorner says what of a corner between plates is not figured.
var PlateCorner = &rules.Rule{
	ID: "plate-corner", Family: family, Title: "What a corner between plates carries is not figured",
	Why: "A flat plate that is clamped at its edge is bent there as nowhere else, and what joins two of them in a corner carries that moment from the one into the other: it opens the corner from inside. " +
		"One that is simply supported turns at its edge, and few corners let it. " +
		"A strap is figured for the pull of a tube, which a corner has not; what holds there takes an analysis or a test of its own.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "a joint is between a panel and another part: incomplete, but for one of which others proved all that it bears (proved_by); a panel states an inside diameter, which a plate has not: break",
	Basis:    "statics, arithmetic: the moment at the clamped edge of a plate, and the load at any; nothing here figures a corner",
	Job: func(p *rules.JobPass) {
		for i := range p.Job.Parts {
			if part := p.Stated(i); p.Job.Parts[i].Form == laminate.Panel && part.InsideDiameter.Given() {
				p.Report(rules.Break, laminate.JobPartRef(i, "inside_diameter"), "the program's own check", "panel %s states an inside diameter of %s, and a plate has none: leave it out; a tube is a pipe, a duct or a course (form)", p.Job.Parts[i].ID, p.Units.Stated(part.InsideDiameter.SI(), quantity.Size))
			}
		}
		statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
			if part := x.Plate(p); part >= 0 {
				hands := "and its edge, stated as simply supported, hands its load on into the joint, and a moment too unless that lets it turn"
				if edge := p.Stated(part).Edge; edge == laminate.Clamped {
					hands = "and its edge, stated as clamped, hands its load and its moment on into the joint"
				} else if edge != laminate.SimplySupported {
					hands = "and its edge, of which is not stated how it is held (edge), hands its load on into the joint"
				}
				p.Unfigured("the load and the moment that its plates hand on", []laminate.Ref{x.At("between")}, "joint %s: what it carries is not figured: panel %s is a plate, %s", x.ID, p.Job.Parts[part].ID, hands)
			}
		})(p)
	},
}

// CoverStrapped asks what ties a cover, and what two flanges.
var CoverStrapped = &rules.Rule{
	ID: "cover-strapped", Family: family, Title: "What is bolted is strapped, or a cover does not fit",
	Why: "A cover that is bolted to a flange comes off to be cleaned behind, and flanges are bolted so that the equipment comes apart there; a strap over them is laid by nobody, or shuts them for good. " +
		"A cover that is laid onto a shell is as wide as that, or the strap lies on nothing.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "a joint names a laminate between two flanges, a cover and a flange, or a cover whose inside diameter, else its size, is not the inside diameter of the other part: break; neither is stated: incomplete. " +
		"A joint is of a cover that a nozzle names, or of two flanges, where it does not say how one of them hangs from a shell: break",
	Basis: "the program's own check",
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		one, other := &p.Job.Parts[x.Parts[0]], &p.Job.Parts[x.Parts[1]]
		if one.Form == laminate.Flange && other.Form == laminate.Flange {
			switch laid := x.Outside != "" || x.Inside != ""; {
			case !hangs(p, x):
				p.Report(rules.Break, x.At("between"), "", "joint %s: flanges %s and %s are bolted to each other, and nothing is laid over them: leave the joint out", x.ID, one.ID, other.ID)
			case laid:
				p.Report(rules.Break, x.At("between"), "", "joint %s: flanges %s and %s are bolted to each other: nothing is laid over them (outside, inside)", x.ID, one.ID, other.ID)
			}
			return
		}
		k := 0
		if one.Form != laminate.Cover {
			k = 1
		}
		coverFits(p, x, x.Parts[k], x.Parts[1-k])
	}),
}

// hangs tells of a joint of two flanges that says where one of them hangs from a shell: no
// other ties it to that.
func hangs(p *rules.JobPass, x *statics.Joined) bool {
	tied := func(part int) bool { return slices.ContainsFunc(p.Tied(part), p.InShell) }
	return len(p.Stack) > 0 && !(tied(x.Parts[0]) && tied(x.Parts[1]))
}

// coverFits looks at a cover that a joint ties to another part.
func coverFits(p *rules.JobPass, x *statics.Joined, cover, other int) {
	if p.Job.Parts[cover].Form != laminate.Cover || x.Plate(p) >= 0 {
		return
	}
	nozzle := x.Closes(p, cover)
	if nozzle == "" && x.Outside == "" && x.Inside == "" {
		return
	}
	id, beside := p.Job.Parts[cover].ID, p.Job.Parts[other].ID
	wide := p.Stated(cover).InsideDiameter
	if !wide.Given() {
		wide = p.Stated(cover).Size
	}
	bores := ground.Bores(p.Stated(other))
	switch {
	case nozzle != "":
		p.Report(rules.Break, x.At("between"), "", "joint %s: cover %s is bolted onto nozzle %s: nothing is laid over its joint with part %s", x.ID, id, nozzle, beside)
	case p.Job.Parts[other].Form == laminate.Flange:
		p.Report(rules.Break, x.At("between"), "", "joint %s: cover %s is bolted to flange %s: nothing is laid over them", x.ID, id, beside)
	case !wide.Given() || len(bores) == 0:
		p.Report(rules.Incomplete, x.At("between"), "", "joint %s: whether cover %s fits part %s is not known: the width of one is not stated (inside_diameter, of a cover its size)", x.ID, id, beside)
	default:
		for _, bore := range bores {
			if vessel.SameNominal(wide.SI(), bore) || !statics.Thinner(wide.SI(), bore*(1-1e-3)) && !statics.Thinner(bore, wide.SI()*(1-1e-3)) {
				return
			}
		}
		m, n := p.Units.Pair(wide.SI(), bores[0], quantity.Size)
		p.Report(rules.Break, x.At("between"), "", "joint %s: cover %s is %s wide, part %s %s inside: they do not meet", x.ID, id, m, beside, n)
	}
}
