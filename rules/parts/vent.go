package parts

import (
	"math"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// VesselUnvented asks where a closed vessel breathes.
var VesselUnvented = &rules.Rule{
	ID:     "vessel-unvented",
	Family: family,
	Title:  "A closed vessel has no opening to breathe by",
	Why: "Liquid that runs into a closed vessel presses the gas over it together, and lifts the lid; what runs out pulls a vacuum, and a tank of laminate folds under a fraction of a psi. " +
		"It is the commonest way that such tanks are destroyed, and no wall is figured for it. The vent stays open, above the highest level, and so does the overflow. " +
		"A vessel whose service states gas pressure or vacuum is closed on purpose: it has relief devices in the place of the vent, and no key states those.",
	Severity: []rules.Severity{rules.Warning, rules.Note},
	When: "liquid stands in a shell that a head, cone, lid or flat roof closes, and no part of it has a pressure or vacuum above 0.5 psi: nozzles are stated, and of none is the bore, wholly or partly, above the highest level and open, one that a cover closes counting as shut: warning. " +
		"The job states no nozzle at all: note. The largest that is open above the level is smaller than the largest below it: note. " +
		"Which nozzle is the vent, and that no valve closes it, no key says; silent where a height or the level is not stated, which other rules ask for, and where a pipe leads up from the top",
	Basis: "gas laws; " + rules.CommonPractice + ": a vent is no smaller than the largest connection that fills or empties; 29 CFR 1910.106, from memory: a tank of 0.5 psi at most is atmospheric",
	Job: func(p *rules.JobPass) {
		list := divided(p, p.Stack) // those of a file too
		for k, space := range list {
			if lid := closing(p, space, k+1 == len(list)); lid >= 0 && holds(p, space) && !gasTight(p, space) {
				breathes(p, space, lid)
			}
		}
	},
}

// closing is what closes a space of the shell at its top, −1 where nothing does or a
// pipe leads up from there.
func closing(p *rules.JobPass, space []int, highest bool) (lid int) {
	if !highest {
		return p.Stack[slices.Index(p.Stack, slices.Max(space))+1]
	}
	lid = -1
	for i := range p.Job.Parts {
		if p.Line(i) && p.Rises(i) {
			return -1
		}
		if p.OnTop(i) {
			lid = i
		}
	}
	return lid
}

// holds tells whether liquid stands in a space, or may.
func holds(p *rules.JobPass, space []int) bool {
	return !p.Dry() && slices.ContainsFunc(space, func(i int) bool {
		depth, known := p.Covered(i, 0)
		return !known || depth > 0
	})
}

// gasTight tells whether a space is closed on purpose, by the gas that its service states.
func gasTight(p *rules.JobPass, space []int) bool {
	most := catalog.AtmosphericPressure.SI()
	return slices.ContainsFunc(space, func(i int) bool {
		s := &p.Parts[i].Schedule.Service
		return quantity.Above(math.Max(s.Pressure.SI(), s.Vacuum.SI()), most)
	})
}

// breathes looks for the nozzles that a space breathes by.
func breathes(p *rules.JobPass, space []int, lid int) {
	at, id := laminate.JobPartRef(lid, ""), p.Job.Parts[lid].ID
	if len(p.Job.Nozzles) == 0 {
		p.Report(rules.Note, at, "", "%s closes the vessel, and the job states no nozzle: by what it fills, empties and breathes is not known", id)
		return
	}
	var shut []string
	vent, below := -1, -1 // the largest of each that is open
	for i := range p.Job.Nozzles {
		x := &p.Job.Nozzles[i]
		root := carrier(p, p.Part(x.On), map[int]bool{})
		if root >= 0 && root != lid && !slices.Contains(space, root) {
			continue
		}
		open, known := opensAbove(p, x)
		most := &below
		switch {
		case root < 0, !known:
			return
		case open && x.Cover != "":
			shut = append(shut, x.ID)
			continue
		case x.Cover != "":
			continue
		case open:
			most = &vent
		}
		if *most < 0 || bore(x) > bore(&p.Job.Nozzles[*most]) {
			*most = i
		}
	}
	if vent < 0 {
		why := ""
		if len(shut) > 0 {
			why = "; " + strings.Join(shut, ", ") + " above it " + quantity.Plural(len(shut), "is", "are") + " closed by a cover"
		}
		p.Report(rules.Warning, at, "", "%s closes the vessel, and no nozzle is open above the liquid%s: filling presses on what closes it, and draining pulls a vacuum that nothing is figured for", id, why)
		return
	}
	if below < 0 {
		return
	}
	v, x := &p.Job.Nozzles[vent], &p.Job.Nozzles[below]
	if has, wants := bore(v), bore(x); has > 0 && quantity.Below(has, wants) {
		m, n := p.Units.Pair(has, wants, quantity.Size)
		p.Report(rules.Note, laminate.Ref{Kind: laminate.RefNozzle, Index: vent, Key: "size"}, "", "nozzle %s, of %s, is the largest that is open above the liquid, and nozzle %s below has %s: by a vent that is smaller than what fills or empties the vessel it may not breathe as fast", v.ID, m, x.ID, n)
	}
}

// carrier is the part of the shell, or the lid on it, that a part is, or is tied to by
// nozzles and joints; −1 where nothing ties it.
func carrier(p *rules.JobPass, part int, seen map[int]bool) int {
	switch {
	case part < 0 || seen[part]:
		return -1
	case p.InShell(part) || p.OnTop(part):
		return part
	}
	seen[part] = true
	root, id := -1, p.Job.Parts[part].ID
	for i := range p.Job.Nozzles {
		if x := &p.Job.Nozzles[i]; root < 0 && (x.Flange == id || x.Cover == id) {
			root = carrier(p, p.Part(x.On), seen)
		}
	}
	joints(p, func(_, one, other int) {
		if root < 0 && (one == part || other == part) {
			root = carrier(p, one+other-part, seen)
		}
	})
	return root
}

// opensAbove tells whether the bore of a nozzle is at least partly above the highest
// liquid: that of one on what closes the shell, unless the level is known to be over it.
// What is tied to the shell is as high as its lowest place says, and may rise from there.
func opensAbove(p *rules.JobPass, x *laminate.Nozzle) (open, known bool) {
	on := p.Part(x.On)
	up, high := x.Height.SI(), x.Height.Given()
	switch form := p.Job.Parts[on].Form; {
	case !p.InShell(on):
		up, high = 0, p.Hangs(on)
	case form == laminate.FlatBottom:
		up, high = 0, true
	case form == laminate.HeadPart || form == laminate.Cone:
		if at := p.Up(on, x.Offset.SI()); !high && x.Offset.Given() && !math.IsNaN(at) {
			up, high = at, true
		}
	}
	const touch = 1e-6 // m: a bore that only touches the level is under it
	depth, known := p.Covered(on, up+bore(x)/2-touch)
	if p.OnTop(on) && (!known || !high) {
		return true, true
	}
	return depth == 0, known && (high || depth == 0)
}

// bore is the size of a nozzle, else what is cut for it, m; 0 where neither is stated.
func bore(x *laminate.Nozzle) float64 {
	if x.Size.Given() {
		return x.Size.SI()
	}
	return x.Cut().SI()
}
