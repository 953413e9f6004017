package joint

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// CoverClassLow holds a cover's class against what presses on it.
var CoverClassLow = &rules.Rule{
	ID: "cover-class-low", Family: family, Title: "What presses on a cover is above its class",
	Why: "The class of a cover is what the shop that makes it proved it for, bolts, gasket and edge with it. " +
		"The stress of the plate alone may hold where the edge or the bolts do not.",
	Severity: []rules.Severity{rules.Break},
	When:     "the pressure of the service at a cover, the liquid over it included, is above its pressure class",
	Basis:    "arithmetic",
	Job: func(p *rules.JobPass) {
		for i := range p.Job.Parts {
			x := &p.Job.Parts[i]
			pa, missing := statics.PressureAt(p, i, 0)
			if x.Form == laminate.Cover && x.PressureClass.Given() && missing == "" && statics.Thinner(x.PressureClass.SI(), pa) {
				a, b := p.Units.Pair(pa, x.PressureClass.SI(), quantity.Stress)
				p.Report(rules.Break, laminate.JobPartRef(i, "pressure_class"), "", "part %s: %s press on it, and its class is %s", x.ID, a, b)
			}
		}
	},
}

// NozzleEndUnstated notes what a nozzle ends in.
var NozzleEndUnstated = &rules.Rule{
	ID: "nozzle-end-unstated", Family: family, Title: "What a nozzle ends in is not stated",
	Why: "A nozzle ends in a flange, whose size, class and face have to suit it and whose barrier is that of the bore, or it ends plain. " +
		"Where no flange is named none of that is looked at, and none of it is in the takeoff.",
	Severity: []rules.Severity{rules.Note},
	When:     "a nozzle names no flange",
	Basis:    "the program's own check",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		if x.Flange == "" {
			p.Report(rules.Note, x.At("flange"), "", "nozzle %s names no flange: size, class and barrier of its end are not looked at", x.ID)
		}
	}),
}

// NozzleKindUnstated notes how a nozzle is taken to be made.
var NozzleKindUnstated = &rules.Rule{
	ID: "nozzle-kind-unstated", Family: family, Title: "How a neck meets its part is not stated",
	Why: "A neck that goes through its part takes an opening as wide as it is outside, one that is set on or flares into its pad no more than its bore, " +
		"and a conical one needs no gussets. Pad and opening follow from it, and so does what is cut in the shop.",
	Severity: []rules.Severity{rules.Note},
	When:     "a nozzle states no kind: it is taken to be penetrating, which takes the wider opening",
	Basis:    "the program's own check",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		if x.Kind == laminate.NoNozzleKind {
			p.Report(rules.Note, x.At("kind"), "", "nozzle %s is taken to be penetrating: how its neck meets part %s is not stated (kind)", x.ID, x.On)
		}
	}),
}

// NozzlePartsDiffer holds a nozzle against what is bolted or built onto it.
var NozzlePartsDiffer = &rules.Rule{
	ID: "nozzle-parts-differ", Family: family, Title: "A nozzle and what is on it do not fit",
	Why: "Neck, flange and cover are one bore and one class. A flange of another size cannot be laid onto the neck, a cover of another does not bolt up, " +
		"and a nozzle is of no higher class than the least of them.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "the size of a nozzle is not that of its flange or cover, its projection leaves no room for the flange or for the length that is bonded along its neck, " +
		"or its opening is narrower than the neck that goes through it, or than its bore: break; its class is above that of its flange: warning",
	Basis: "arithmetic",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		if neck, known := x.Through(p); known && x.Opening.Given() && statics.Thinner(x.Opening.SI(), neck) {
			m, n := p.Units.Pair(x.Opening.SI(), neck, quantity.Size)
			p.Report(rules.Break, x.At("opening"), "", "nozzle %s: its opening is %s, and its neck is %s outside: it does not go through (kind)", x.ID, m, n)
		} else if x.Opening.Given() && x.Size.Given() && statics.Thinner(x.Opening.SI(), x.Size.SI()) && !vessel.SameNominal(x.Opening.SI(), x.Size.SI()) {
			m, n := p.Units.Pair(x.Opening.SI(), x.Size.SI(), quantity.Size)
			p.Report(rules.Break, x.At("opening"), "", "nozzle %s: its opening is %s, and its bore, by its size, %s: the part closes what is between", x.ID, m, n)
		}
		if free, known := x.Free(p); known && free > 0 && x.NeckBond.Given() && statics.Thinner(free, x.NeckBond.SI()) {
			m, n := p.Units.Pair(x.NeckBond.SI(), free, quantity.Size)
			p.Report(rules.Break, x.At("neck_bond"), "", "nozzle %s: its neck is bonded over %s, and %s of it lie free: its projection, less its flange", x.ID, m, n)
		}
		for _, on := range []struct{ key, id string }{{"flange", x.Flange}, {"cover", x.Cover}} {
			i := p.Part(on.id)
			if on.id == "" || i < 0 {
				continue
			}
			y := &p.Job.Parts[i]
			if a, b := x.Size, y.Size; a.Given() && b.Given() && !vessel.SameNominal(a.SI(), b.SI()) {
				m, n := p.Units.Pair(a.SI(), b.SI(), quantity.Size)
				p.Report(rules.Break, x.At("size"), "", "nozzle %s is of %s, its %s %s of %s", x.ID, m, on.key, on.id, n)
			}
			if on.key == "cover" {
				continue
			}
			if a, b := x.PressureClass, y.PressureClass; a.Given() && b.Given() && statics.Thinner(b.SI(), a.SI()) {
				m, n := p.Units.Pair(a.SI(), b.SI(), quantity.Stress)
				p.Report(rules.Warning, x.At("pressure_class"), "", "nozzle %s is of class %s, its flange %s of %s: together they are of the lower", x.ID, m, on.id, n)
			}
			if a, b := x.Projection, y.Thickness; a.Given() && b.Given() && !statics.Thinner(b.SI(), a.SI()) {
				m, n := p.Units.Pair(a.SI(), b.SI(), quantity.Size)
				p.Report(rules.Break, x.At("projection"), "", "nozzle %s projects %s, and its flange %s alone is %s thick", x.ID, m, on.id, n)
			}
		}
	}),
}

// NeckThin asks whether the wall of a neck bears its class.
var NeckThin = &rules.Rule{
	ID: "neck-thin", Family: family, Title: "The wall of a neck does not bear its class",
	Why: "A neck is a short pipe: its structure carries the pressure of its class, whatever the shell round it bears, and people stand on it. " +
		"Its barrier counts for nothing in that, as in every wall.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "a governing criterion of the neck's laminate, as the wall of a contact-molded pipe of the nozzle's size at its pressure class, warm as in each condition, fails; incomplete where one cannot be determined",
	Basis:    "arithmetic: the criteria of a pipe's wall, which name their sources",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		class, of := overlay.ClassOf(p.Job, x.Nozzle)
		_, r, in := NeckWall(p, x)
		if r == nil {
			return // neck-barrier-thin, neck-class-low and opening-large say so
		}
		if in != "" {
			of += ", under " + in
		}
		c, found := r.Governing()
		switch {
		case !found:
			p.Report(rules.Incomplete, x.At("neck"), "", "nozzle %s: whether its neck bears %s, %s, cannot be determined: %s", x.ID, p.Units.Figure(class.SI(), quantity.Stress), of, orSay(r.Problem, "no criterion governs"))
		case r.Answer() == wall.Fails:
			p.Report(rules.Break, x.At("neck"), "", "nozzle %s: its neck, laminate %s, as a pipe of %s, %s: %s fails: %s", x.ID, x.Neck, of, p.Units.Figure(class.SI(), quantity.Stress), c.Title(), c.Compared(p.Units))
		case r.Answer() == wall.Incomplete:
			p.Report(rules.Incomplete, x.At("neck"), "", "nozzle %s: whether its neck bears %s, %s, cannot be determined: %s: %s", x.ID, p.Units.Figure(class.SI(), quantity.Stress), of, c.Title(), c.Reason)
		}
	}),
}

// NeckWall is the neck of a nozzle as the wall of a pipe of its class, and what of it is
// judged under the condition that it stands worst in, "" the service; nil where its
// laminate, its class or its size is not stated.
func NeckWall(p *rules.JobPass, x *statics.Opening) (s *laminate.Schedule, r *wall.Result, under string) {
	class, _ := overlay.ClassOf(p.Job, x.Nozzle)
	a := p.Analysis(x.Neck)
	if a == nil || !class.Given() || !x.Size.Given() {
		return nil, nil, ""
	}
	for _, u := range statics.States(p, x.Part) {
		one := overlay.NeckWall(p.Job, x.Nozzle, class, u.Schedule(p, x.Part))
		one.Plies = p.Job.Laminates[p.Laminate(x.Neck)].Plies
		if got := p.Evaluate(one, a); r == nil || worse(got, r) {
			s, r, under = one, got, string(u)
		}
	}
	return s, r, under
}

// worse tells whether a wall stands worse than another.
func worse(a, b *wall.Result) bool {
	rank := func(r *wall.Result) int {
		switch _, found := r.Governing(); {
		case r.Answer() == wall.Fails:
			return 2
		case !found, r.Answer() == wall.Incomplete:
			return 1
		}
		return 0
	}
	return rank(a) > rank(b)
}

// OutsideOverlayThin asks for what holds the neck outside.
var OutsideOverlayThin = &rules.Rule{
	ID: "outside-overlay-thin", Family: family, Title: "What is laid outside over neck and part is thin",
	Why: "The overlay outside runs up the neck and out onto the part, and is all that ties the one to the other from there: it bears what blows the neck out and what bends it. " +
		"Its structure is at least that of the neck, or the nozzle breaks off where it is joined.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "the structure of installation_outside is thinner than that of the neck; incomplete where it is not named, has no ply, or a thickness is not known",
	Basis:    rules.CommonPractice,
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		a, neck := p.Analysis(x.InstallationOutside), p.Analysis(x.Neck)
		switch {
		case a == nil || len(a.Rows) == 0:
			p.Report(rules.Incomplete, x.At("installation_outside"), "", "nozzle %s: no laminate is laid outside over neck and part, and what ties them cannot be determined (installation_outside)", x.ID)
		case neck == nil || !neck.Total.ThicknessKnown: // neck-barrier-thin and neck-thin say so
		case !a.Total.ThicknessKnown:
			p.Report(rules.Incomplete, x.At("installation_outside"), "", "nozzle %s: whether what is laid outside is as thick as the neck cannot be determined: a thickness is not known", x.ID)
		default:
			if has, needs := a.Zones[laminate.StructuralLayer].Thickness, neck.Zones[laminate.StructuralLayer].Thickness; statics.Thinner(has, needs) {
				m, n := p.Units.Pair(has, needs, quantity.Thickness)
				p.Report(rules.Break, x.At("installation_outside"), "", "nozzle %s: the structure of what is laid outside is %s, that of its neck %s", x.ID, m, n)
			}
		}
	}),
}

func orSay(text, or string) string {
	if text == "" {
		return or
	}
	return text
}

// StrapNarrow asks how far a strap reaches past the gap.
var StrapNarrow = &rules.Rule{
	ID: "strap-narrow", Family: family, Title: "A strap hardly reaches past the gap",
	Why: "A strap is laid sixteen thicknesses of the wall wide, half of it on each part, so that its bond carries what the wall carries. " +
		"What lies over the gap bonds to nothing, and a first ply that is no wider than the gap falls into it.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "the first ply or the whole strap is no wider than the gap: break; half of the width less the gap is below eight thicknesses of the thinner wall, or the first ply is below 2 in: warning; " +
		"the gap is above 1/2 in, or the first ply lies on less than 3/4 in of each part: warning (all bounds are enough)",
	Basis: "NBS PS 15-69, from memory; the gap: arithmetic; how wide a gap is usual: " + rules.CommonPractice,
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		if !x.Gap.Given() || !x.Width.Given() || x.Outside == "" {
			return // joint-shear-short says so
		}
		first := x.Width
		if x.FirstWidth.Given() {
			first = x.FirstWidth
		}
		if narrow := math.Min(first.SI(), x.Width.SI()); !statics.Thinner(x.Gap.SI(), narrow) {
			m, n := p.Units.Pair(narrow, x.Gap.SI(), quantity.Size)
			p.Report(rules.Break, x.At("gap"), "", "joint %s: a ply of its strap is %s wide, the gap %s: it bonds to neither part", x.ID, m, n)
			return
		}
		wideGap(p, x, first)
		if has, least := (x.Width.SI()-x.Gap.SI())/2, x.Reach(p); statics.Thinner(has, least) {
			m, n := p.Units.Pair(has, least, quantity.Size)
			p.Report(rules.Warning, x.At("width"), "", "joint %s: its strap lies on %s of each part, below %s, eight thicknesses of the thinner wall", x.ID, m, n)
		}
		if least := catalog.FirstStrapWidth.SI(); x.FirstWidth.Given() && statics.Thinner(x.FirstWidth.SI(), least) {
			m, n := p.Units.Pair(x.FirstWidth.SI(), least, quantity.Size)
			p.Report(rules.Warning, x.At("first_width"), "", "joint %s: the first ply of its strap is %s wide, below %s", x.ID, m, n)
		}
	}),
}

// Bounds of a gap between parts that are fitted up to be joined. Common practice, no
// source.
var (
	mostGap      = quantity.New(0.5, quantity.Inch)  // that is filled with paste
	leastOnParts = quantity.New(0.75, quantity.Inch) // that the first ply lies on each
)

// wideGap reports a gap that parts are not fitted up with, or that takes the ground from
// under the first ply of a strap.
func wideGap(p *rules.JobPass, x *statics.Joined, first quantity.Length) {
	lies := (first.SI() - x.Gap.SI()) / 2
	switch {
	case statics.Thinner(mostGap.SI(), x.Gap.SI()):
		m, n := p.Units.Pair(x.Gap.SI(), mostGap.SI(), quantity.Size)
		p.Report(rules.Warning, x.At("gap"), "", "joint %s: its parts are %s apart, and more than %s is not usual: a point that slipped? The first ply of its strap lies on %s of each (gap)", x.ID, m, n, p.Units.Figure(lies, quantity.Size))
	case statics.Thinner(lies, leastOnParts.SI()) && !statics.Thinner(first.SI(), catalog.FirstStrapWidth.SI()): // else that is said
		m, n := p.Units.Pair(lies, leastOnParts.SI(), quantity.Size)
		p.Report(rules.Warning, x.At("gap"), "", "joint %s: the first ply of its strap lies on %s of each part, below %s (first_width, gap)", x.ID, m, n)
	}
}

// SealNarrow asks how far a seal reaches.
var SealNarrow = &rules.Rule{
	ID: "seal-narrow", Family: family, Title: "A seal inside is narrow",
	Why:      "A seal keeps the fluid from two cut edges, and its own edges are where the fluid begins to creep under it. It is laid three inches wide at least, each ply covering the one before.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When:     "the seal is no wider than the gap: break; below 3 in: warning; its width is not stated: incomplete",
	Basis:    memory + ": NBS PS 15-69",
	Job: statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		switch has := x.InsideWidth; {
		case x.Inside == "":
		case !has.Given():
			p.Report(rules.Incomplete, x.At("inside_width"), "", "joint %s: the width of its seal is not stated (inside_width)", x.ID)
		case x.Gap.Given() && !statics.Thinner(x.Gap.SI(), has.SI()):
			m, n := p.Units.Pair(has.SI(), x.Gap.SI(), quantity.Size)
			p.Report(rules.Break, x.At("inside_width"), "", "joint %s: its seal is %s wide, the gap %s", x.ID, m, n)
		case statics.Thinner(has.SI(), catalog.LeastSeal.SI()):
			m, n := p.Units.Pair(has.SI(), catalog.LeastSeal.SI(), quantity.Size)
			p.Report(rules.Warning, x.At("inside_width"), "", "joint %s: its seal is %s wide, below %s", x.ID, m, n)
		}
	}),
}
