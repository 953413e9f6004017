package joint

import (
	"maps"
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// SealMissing asks for the barrier across a joint.
var SealMissing = &rules.Rule{
	ID: "seal-missing", Family: family, Title: "The barrier does not run through a joint",
	Why: "Between two parts the cut edges of their structure face the fluid. Wherever a hand reaches, a seal of at least the parts' barrier covers them from the inside, its veil last. " +
		"In narrow pipe a line of paste is all there is, without a veil, and it is where the fluid gets in: its ends are cut square and the edges of the barrier butted in paste of its resin.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When:     "a joint of parts that are not bolted to each other names no laminate inside: break from 20 in inside diameter, below that a warning, incomplete where strong acid, hypochlorite or chlorine dioxide is inside; incomplete of plates, and without a diameter",
	Basis:    memory + ": NBS PS 15-69 seals inside from 20 in",
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		if x.Inside != "" || x.Bolted(p) { // a gasket seals what is bolted
			return
		}
		one, other := x.Parts[0], x.Parts[1]
		switch {
		case x.Plate(p) >= 0:
			p.Report(rules.Incomplete, x.At("inside"), "", "joint %s has no seal inside (inside): the cut edges of its plates face the fluid", x.ID)
		case !p.Parts[one].Schedule.Part.InsideDiameter.Given() && !p.Parts[other].Schedule.Part.InsideDiameter.Given():
			p.Report(rules.Incomplete, x.At("inside"), "", "joint %s: whether a hand reaches it is not known: no inside diameter is stated", x.ID)
		case statics.Reachable(p, one), statics.Reachable(p, other): // from the wider side
			p.Report(rules.Break, x.At("inside"), "", "joint %s has no seal inside (inside): the cut edges of the structure face the fluid", x.ID)
		case attacksPaste(&p.Parts[one].Schedule.Service), attacksPaste(&p.Parts[other].Schedule.Service):
			p.Report(rules.Incomplete, x.At("inside"), "", "joint %s: its process side is a line of paste without a veil, in a severe service", x.ID)
		case x.OutOfReach(p):
			p.Report(rules.Warning, x.At("inside"), "", "joint %s: its process side is a line of paste without a veil, and no hand reaches in to lay one", x.ID)
		default:
			p.Report(rules.Warning, x.At("inside"), "", "joint %s: its process side is a line of paste without a veil, unless a hand reaches it from an end (inside)", x.ID)
		}
	}),
}

// attacksPaste tells of a service that a line of paste without a veil does not stand.
func attacksPaste(s *laminate.Service) bool {
	return catalog.StrongAcid(s) || s.Contains.Has(laminate.Hypochlorite, laminate.ChlorineDioxide)
}

// SealOutOfReach asks who can lay a seal.
var SealOutOfReach = &rules.Rule{
	ID: "seal-out-of-reach", Family: family, Title: "A seal is where no hand reaches",
	Why: "A seal is laid wet onto a ground face and rolled until no air is under it. Deep in a narrow pipe nobody grinds, lays or rolls, and nobody looks: " +
		"what is stated there is not laid, or hangs in the bore. There the strap outside holds alone, and the barrier ends in paste.",
	Severity: []rules.Severity{rules.Warning},
	When: "a joint names a laminate inside, its parts are below 20 in inside diameter, and neither is a flange or so short that it is reached over it from its end before more is joined to it: " +
		"24 in of a bore from 6 in on, 6 in of one below",
	Basis: rules.CommonPractice,
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		if x.Inside == "" || !x.OutOfReach(p) {
			return
		}
		bore := math.Inf(1)
		for _, part := range x.Parts {
			if d := p.Parts[part].Schedule.Part.InsideDiameter; d.Given() {
				bore = math.Min(bore, d.SI())
			}
		}
		p.Report(rules.Warning, x.At("inside"), "", "joint %s: its seal lies in a bore of %s, deeper than a hand reaches from the end of either part: nobody lays it there; leave it out (inside), and its process side is a line of paste", x.ID, p.Units.Stated(bore, quantity.Size))
	}),
}

// SealThin holds a seal against the barrier that it continues.
var SealThin = &rules.Rule{
	ID: "seal-thinner-than-barrier", Family: family, Title: "A seal is thinner than the barrier",
	Why: "A barrier is as good as its thinnest place. A seal of fewer mats than the barrier beside it is used up first, and behind it lie cut edges of glass that lead the fluid along. " +
		"What a seal adds to the strength counts for nothing.",
	Severity: []rules.Severity{rules.Break},
	When:     "veil and mats of the laminate inside are thinner than the barrier of a part that it joins",
	Basis:    rules.CommonPractice,
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		a := p.Lining(x.Inside)
		if a == nil || !a.Total.ThicknessKnown {
			return
		}
		most := 0.0
		for _, part := range x.Parts {
			if b, known := statics.Barrier(p, part); known {
				most = math.Max(most, b)
			}
		}
		if statics.Thinner(statics.Sealing(a), most) {
			h, n := p.Units.Pair(statics.Sealing(a), most, quantity.Thickness)
			p.Report(rules.Break, x.At("inside"), "", "joint %s: its seal is %s, the barrier %s", x.ID, h, n)
		}
	}),
}

// veils lists the veil materials of rows.
func veils(a *laminate.Analysis) map[laminate.Fiber]bool {
	set := map[laminate.Fiber]bool{}
	for i := range a.Rows {
		if m := a.Rows[i].Material; m != nil && m.Form == laminate.Veil && a.Rows[i].Zone != laminate.OuterSurface {
			set[m.Fiber] = true
		}
	}
	return set
}

// SealVeilNotLast asks for the order of a seal.
var SealVeilNotLast = &rules.Rule{
	ID: "seal-veil-not-last", Family: family, Title: "The veil of a seal is not its last ply",
	Why: "A seal is laid from the inside, so that the last ply meets the fluid: mats first, the veil last, then a waxed coat, since air keeps the last face from curing. " +
		"A veil laid first lies buried, and bare glass meets the fluid.",
	Severity: []rules.Severity{rules.Break},
	When:     "the last ply of a laminate laid inside, a waxed coat apart, is no veil; such laminates are written in the order in which they are laid",
	Basis:    rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		wrong := func(id string) bool {
			a := p.Lining(id)
			if a == nil || len(a.Rows) == 0 {
				return false
			}
			last := len(a.Rows) - 1
			if m := a.Rows[last].Material; last > 0 && m != nil && m.Form == laminate.ResinCoat {
				last--
			}
			m := a.Rows[last].Material
			return m != nil && m.Form != laminate.Veil
		}
		statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
			if wrong(x.Inside) {
				p.Report(rules.Break, x.At("inside"), "", "joint %s: the last ply of its seal, laminate %s, is no veil", x.ID, x.Inside)
			}
		})(p)
		statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
			if wrong(x.InstallationInside) {
				p.Report(rules.Break, x.At("installation_inside"), "", "nozzle %s: the last ply laid inside, laminate %s, is no veil", x.ID, x.InstallationInside)
			}
		})(p)
	},
}

// SealUncoated notes that nothing keeps the air from the last ply of a seal.
var SealUncoated = &rules.Rule{
	ID: "seal-uncoated", Family: family, Title: "A seal has no waxed coat over its veil",
	Why: "Air keeps the face of a resin from curing through. A wall cures against its mold; the last ply of a seal lies open, and it is the face that meets the fluid. " +
		"A thin waxed coat over the veil seals it from the air; without one the face stays tacky, the acetone wipe shows it, and the fluid begins there. " +
		"A film laid over it does the same.",
	Severity: []rules.Severity{rules.Note},
	When:     "the last ply of a laminate laid inside is no waxed coat; said once for each laminate",
	Basis:    rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		type named struct {
			first string
			at    []laminate.Ref
		}
		var order []string
		list := map[string]*named{}
		for _, o := range p.Overlays() {
			a := p.Lining(o.Laminate)
			if !o.Kind.Inside() || a == nil || len(a.Rows) == 0 {
				continue
			}
			if m := a.Rows[len(a.Rows)-1].Material; m == nil || m.Form == laminate.ResinCoat && m.Waxed {
				continue
			}
			n := list[o.Laminate]
			if n == nil {
				n = &named{first: o.Name()}
				list[o.Laminate] = n
				order = append(order, o.Laminate)
			}
			n.at = append(n.at, laminate.Ref{Kind: o.At.Kind, Index: o.At.Index, Key: o.Kind.Key()})
		}
		for _, id := range order {
			n := list[id]
			others := ""
			if more := len(n.at) - 1; more > 0 {
				others = " and " + quantity.Counted(more, "other", "others")
			}
			p.ReportAt(rules.Note, n.at, "", "laminate %s of %s%s ends without a waxed coat: say how the air is kept from its face until it has cured", id, n.first, others)
		}
	},
}

// SealDiffers holds resin and veil of a seal against the barrier.
var SealDiffers = &rules.Rule{
	ID: "seal-differs-from-barrier", Family: family, Title: "A seal is of another resin or veil than the barrier",
	Why: "Resin and veil were chosen for the fluid. A seal of another resin or with another veil is a barrier that nobody chose, " +
		"however sound it is by itself, and its colors on the drawing do not tell.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a resin family of the laminate inside is not one of the barriers that it joins, or its veils are not of the fiber of theirs",
	Basis:    rules.CommonPractice,
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		a := p.Lining(x.Inside)
		if a == nil {
			return
		}
		for _, part := range x.Parts {
			switch resin, veil := unlike(a, p.Parts[part].Analysis, true); {
			case resin != "":
				p.Report(rules.Warning, x.At("inside"), "", "joint %s: its seal is of %s, which the barrier of part %s is not", x.ID, resin, p.Job.Parts[part].ID)
				return
			case veil != "":
				p.Report(rules.Warning, x.At("inside"), "", "joint %s: the veil of its seal is of %s, that of part %s is not", x.ID, veil, p.Job.Parts[part].ID)
				return
			}
		}
	}),
}

// NozzleBarrierDiffers is SealDiffers at an opening: inside, in the bore and over the
// face.
var NozzleBarrierDiffers = &rules.Rule{
	ID: "nozzle-barrier-differs", Family: family, Title: "A nozzle is of another resin or veil than its part",
	Why: "Resin and veil were chosen for the fluid, and it stands in the bore and on the face of the flange as it does at the wall. " +
		"A neck, a flange or a cover kept in stock is often of another resin: it fails first, and nothing on the outside shows it.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a resin family in the barrier of installation_inside, of the neck, the flange or the cover is not one of the part's barrier, or their veils are not of the fiber of its veils",
	Basis:    rules.CommonPractice,
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		of := p.Parts[x.Part].Analysis
		hold := func(key, what string, a *laminate.Analysis, whole bool) {
			switch resin, veil := unlike(a, of, whole); {
			case resin != "":
				p.Report(rules.Warning, x.At(key), "", "nozzle %s: %s is of %s, which the barrier of part %s is not", x.ID, what, resin, x.On)
			case veil != "":
				p.Report(rules.Warning, x.At(key), "", "nozzle %s: the veil of %s is of %s, that of part %s is not", x.ID, what, veil, x.On)
			}
		}
		hold("installation_inside", "what is laid inside", p.Lining(x.InstallationInside), true)
		hold("neck", "its neck", p.Analysis(x.Neck), false)
		for _, end := range [...][2]string{{"flange", x.Flange}, {"cover", x.Cover}} {
			if f := p.Part(end[1]); end[1] != "" && f >= 0 {
				hold(end[0], "its "+end[0]+" "+end[1], p.Parts[f].Analysis, false)
			}
		}
	}),
}

// unlike is a resin family and the fiber of a veil that the barrier of a laminate has
// and another barrier has not, "" where there is none. Nothing is said of a barrier
// that has no resin, or no veil, to be held against. Of what is laid inside the whole
// counts, its coat too.
func unlike(a, of *laminate.Analysis, whole bool) (resin, veil string) {
	if a == nil {
		return "", ""
	}
	theirs, fibers := families(of), veils(of)
	for i := range a.Rows {
		r := &a.Rows[i]
		if (whole || r.Zone.InBarrier()) && r.Resin != nil && resin == "" && len(theirs) > 0 && !theirs[r.Resin.Family] {
			resin = r.Resin.Family.String()
		}
	}
	for _, fiber := range slices.Sorted(maps.Keys(veils(a))) {
		if len(fibers) > 0 && !fibers[fiber] {
			return resin, fiber.String()
		}
	}
	return resin, ""
}

// BarrierDiffers holds the barriers of joined parts against one another.
var BarrierDiffers = &rules.Rule{
	ID: "barrier-differs-between-parts", Family: family, Title: "Joined parts have barriers that differ",
	Why: "One fluid meets one barrier. Parts may differ in process and structure, but a bottom with fewer mats, another veil or another resin than the shell fails first, " +
		"and the change of color at the joint is the only sign of it.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the barriers of two joined parts differ in thickness, in the fiber of their veils or in the family of their resins",
	Basis:    rules.CommonPractice,
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		a, b := p.Parts[x.Parts[0]].Analysis, p.Parts[x.Parts[1]].Analysis
		say := func(what string) {
			p.Report(rules.Warning, x.At("between"), "", "joint %s: the barriers of parts %s and %s differ %s", x.ID, x.Between[0], x.Between[1], what)
		}
		switch {
		case len(a.Rows) == 0 || len(b.Rows) == 0:
		case !maps.Equal(veils(a), veils(b)):
			say("in their veils")
		case !maps.Equal(families(a), families(b)):
			say("in their resins")
		case a.Barrier.ThicknessKnown && b.Barrier.ThicknessKnown && quantity.Compare(a.Barrier.Thickness, b.Barrier.Thickness) != 0:
			one, other := p.Units.Pair(a.Barrier.Thickness, b.Barrier.Thickness, quantity.Thickness)
			say("in thickness: " + one + " and " + other)
		}
	}),
}

// families are those of the resins of a barrier.
func families(a *laminate.Analysis) map[laminate.Family]bool {
	set := map[laminate.Family]bool{}
	for i := range a.Rows {
		if r := a.Rows[i].Resin; r != nil && a.Rows[i].Zone.InBarrier() {
			set[r.Family] = true
		}
	}
	return set
}
