package conformance

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
)

func isVeil(_ int, r *laminate.RowFigures) bool {
	return r.Zone == laminate.InnerSurface && rules.FormOf(r) == laminate.Veil
}

func isBarrierMat(_ int, r *laminate.RowFigures) bool {
	return r.Zone == laminate.InteriorLayer && rules.FormOf(r).Chopped()
}

// barrier judges what is demanded of the corrosion barrier.
func (j *judge) barrier() {
	d := &j.demands.Barrier
	veils := j.numbers(isVeil)
	if len(d.VeilFiber) > 0 {
		l := Line{Key: "barrier.veil_fiber", Demand: "veil of " + anyOf(d.VeilFiber), Plies: veils}
		l.Found, l.Verdict = j.veilFibers(d.VeilFiber)
		j.add(l)
	}
	if d.VeilPlies.Given {
		l := Line{Key: "barrier.veil_plies", Demand: "at least " + quantity.Counted(d.VeilPlies.Value, "veil ply", "veil plies"),
			Found: quantity.Counted(len(veils), "veil ply", "veil plies"), Plies: veils}
		if d.VeilExact {
			l.Demand = "exactly " + quantity.Counted(d.VeilPlies.Value, "veil ply", "veil plies")
		}
		if len(veils) < d.VeilPlies.Value || d.VeilExact && len(veils) != d.VeilPlies.Value {
			l.Verdict = Fails
		}
		j.add(l)
	}
	mats := j.numbers(isBarrierMat)
	if d.MatPlies.Given {
		l := Line{Key: "barrier.mat_plies", Demand: "at least " + quantity.Counted(d.MatPlies.Value, "chopped ply", "chopped plies") + " in the interior layer",
			Found: quantity.Counted(len(mats), "chopped ply", "chopped plies"), Plies: mats}
		if len(mats) < d.MatPlies.Value {
			l.Verdict = Fails
		}
		j.add(l)
	}
	if d.MatArealMass.Given() {
		j.matMass(d)
	}
	j.thickness("barrier.thickness", "barrier", d.Thickness, inspection.Barrier)
	g, ok := j.report.Analysis.Barrier.GlassMassFraction()
	j.share("barrier.glass_content", "glass in the barrier", d.GlassContent, g, ok, "the barrier's mass is not known")
	inBarrier := func(z laminate.Zone) bool { return z.InBarrier() }
	if len(d.Resin) > 0 {
		j.families("barrier.resin", "barrier resin", d.Resin, inBarrier)
	}
	if d.Filler != laminate.NoFiller {
		j.filler(d)
	} else if d.FillerContent.Given {
		j.fillerContent(d)
	}
	if d.Conductive.Given {
		j.conductive(d.Conductive.Value)
	}
}

func (j *judge) veilFibers(allowed []laminate.Fiber) (string, Verdict) {
	var found []string
	v := Meets
	for i := range j.report.Analysis.Rows {
		r := &j.report.Analysis.Rows[i]
		if !isVeil(i, r) {
			continue
		}
		if !slices.Contains(allowed, r.Material.Fiber) {
			v = Fails
		}
		if word := r.Material.Fiber.String(); !slices.Contains(found, word) {
			found = append(found, word)
		}
	}
	if len(found) == 0 {
		return "no veil in the inner surface", Fails
	}
	return strings.Join(found, " and "), v
}

func (j *judge) matMass(d *spec.Barrier) {
	l := Line{Key: "barrier.mat_areal_mass", Demand: "each barrier mat at least " + j.units.FabricMass(d.MatArealMass.SI())}
	lightest := math.Inf(1)
	for i := range j.report.Analysis.Rows {
		r := &j.report.Analysis.Rows[i]
		if !isBarrierMat(i, r) {
			continue
		}
		if r.FiberMass <= 0 {
			l.Verdict = max(l.Verdict, Incomplete)
			continue
		}
		lightest = min(lightest, r.FiberMass)
		if quantity.Below(r.FiberMass, d.MatArealMass.SI()*(1-spec.MatAllowance)) {
			l.Verdict = Fails
			for n := r.First; n <= r.Last; n++ {
				l.Plies = append(l.Plies, n)
			}
		}
	}
	switch {
	case l.Verdict == Incomplete:
		l.Found = "a mat's mass is not known"
	case math.IsInf(lightest, 1):
		l.Found, l.Verdict = "no mat in the interior layer", Fails
	default:
		found, asked := j.units.Pair(lightest, d.MatArealMass.SI(), quantity.FabricMass)
		l.Demand, l.Found, l.Basis = "each barrier mat at least "+asked, "lightest "+found, "the specification; 2 % allowance (common practice, no source)"
	}
	j.add(l)
}

// families judges the resin families of the zones that in selects.
func (j *judge) families(key, what string, allowed []laminate.Family, in func(laminate.Zone) bool) {
	l := Line{Key: key, Demand: what + " " + anyOf(allowed)}
	var found []string
	any := false
	for i := range j.report.Analysis.Rows {
		r := &j.report.Analysis.Rows[i]
		if !in(r.Zone) {
			continue
		}
		any = true
		word := "not named"
		switch {
		case r.Resin == nil || r.Resin.Family == laminate.NoFamily:
			l.Verdict = max(l.Verdict, Incomplete)
		default:
			word = r.Resin.Family.String()
			if !slices.Contains(allowed, r.Resin.Family) {
				l.Verdict = Fails
				for n := r.First; n <= r.Last; n++ {
					l.Plies = append(l.Plies, n)
				}
			}
		}
		if !slices.Contains(found, word) {
			found = append(found, word)
		}
	}
	if !any {
		l.Found, l.Verdict = noPly, Fails
	} else {
		l.Found = strings.Join(found, " and ")
	}
	j.add(l)
}

func (j *judge) filler(d *spec.Barrier) {
	l := Line{Key: "barrier.filler", Demand: d.Filler.String() + " in the resin of the interior layer", Found: "filled with it"}
	any := false
	for i := range j.report.Analysis.Rows {
		r := &j.report.Analysis.Rows[i]
		if r.Zone != laminate.InteriorLayer {
			continue
		}
		any = true
		switch {
		case r.Resin == nil:
			l.Verdict, l.Found = max(l.Verdict, Incomplete), "a ply without resin"
		case r.Resin.Filler != d.Filler:
			l.Verdict = Fails
			l.Found = "a ply with " + cmp.Or(r.Resin.Filler.String(), "unfilled resin")
			for n := r.First; n <= r.Last; n++ {
				l.Plies = append(l.Plies, n)
			}
		}
	}
	if !any {
		l.Verdict, l.Found = Fails, "no interior layer"
	}
	j.add(l)
	if d.FillerContent.Given {
		j.fillerContent(d)
	}
}

func (j *judge) fillerContent(d *spec.Barrier) {
	l := Line{Key: "barrier.filler_content", Demand: "filler " + quantity.US.Span(d.FillerContent.Lowest, d.FillerContent.Highest, quantity.Fraction) + " of the mix"}
	seen := false
	for i := range j.report.Analysis.Rows {
		r := &j.report.Analysis.Rows[i]
		if r.Zone != laminate.InteriorLayer || r.Resin == nil || r.Resin.Filler == laminate.NoFiller {
			continue
		}
		seen = true
		if !r.Resin.FillerContent.Given {
			l.Verdict, l.Found = max(l.Verdict, Incomplete), "the share is not stated"
			continue
		}
		f := r.Resin.FillerContent.Value
		l.Found = quantity.Percent(f)
		if quantity.Below(f, d.FillerContent.Lowest) || quantity.Above(f, d.FillerContent.Highest) {
			l.Verdict = Fails
			for n := r.First; n <= r.Last; n++ {
				l.Plies = append(l.Plies, n)
			}
		}
	}
	if !seen {
		l.Found, l.Verdict = "no filled resin in the interior layer", Fails
	}
	j.add(l)
}

func (j *judge) conductive(wanted bool) {
	rows := j.numbers(func(_ int, r *laminate.RowFigures) bool {
		veil, filled := rules.Conducts(r)
		return veil || filled
	})
	l := Line{Key: "barrier.conductive", Demand: "conductive barrier", Found: "carbon in the barrier", Plies: rows}
	if len(rows) == 0 {
		l.Found = "neither carbon veil nor carbon powder in the barrier"
	}
	if !wanted {
		l.Demand = "no carbon in the barrier"
	}
	switch {
	case wanted != (len(rows) > 0):
		l.Verdict = Fails
	case !wanted && j.report.Analysis.Barrier.Plies == 0:
		l.Verdict, l.Found = Fails, noPly
	case !wanted:
		if l.Plies = j.numbers(func(_ int, r *laminate.RowFigures) bool { return r.Zone.InBarrier() && r.Material == nil }); len(l.Plies) > 0 {
			l.Verdict, l.Found = Incomplete, "what "+Plies(l.Plies)+" is made of is not known"
		}
	}
	j.add(l)
}

// structure judges what is demanded of the structural layer.
func (j *judge) structure() {
	d := &j.demands.Structure
	inStructure := func(z laminate.Zone) bool { return z == laminate.StructuralLayer }
	if d.Process != laminate.NoProcess {
		l := Line{Key: "structure.process", Demand: "structure process: " + d.Process.String(),
			Found: cmp.Or(j.report.Schedule.Part.Process.String(), "not stated in the schedule")}
		switch j.report.Schedule.Part.Process {
		case laminate.NoProcess:
			l.Verdict = Incomplete
		case d.Process:
		default:
			l.Verdict = Fails
		}
		j.add(l)
	}
	if len(d.Resin) > 0 {
		j.families("structure.resin", "structure resin", d.Resin, inStructure)
	}
	zone := j.report.Analysis.Zones[laminate.StructuralLayer]
	j.thickness("structure.thickness", "structure", d.Thickness, inspection.StructuralLayer)
	g, ok := zone.GlassMassFraction()
	j.share("structure.glass_content", "glass in the structure", d.GlassContent, g, ok, "the structure's mass is not known")
	if len(d.Forms) > 0 {
		l := Line{Key: "structure.forms", Demand: "structure of " + anyOf(d.Forms) + " only", Found: "no other"}
		l.Plies = j.numbers(func(_ int, r *laminate.RowFigures) bool {
			return inStructure(r.Zone) && !slices.Contains(d.Forms, rules.FormOf(r))
		})
		switch {
		case zone.Plies == 0:
			l.Verdict, l.Found = Fails, noPly
		case len(l.Plies) > 0:
			l.Verdict, l.Found = Fails, quantity.Counted(len(l.Plies), "ply", "plies")+" of another form"
		}
		j.add(l)
	}
	if d.Angle.Given {
		j.angles(d.Angle)
	}
}

func (j *judge) angles(want spec.Range) {
	l := Line{Key: "structure.angle", Demand: "wound and unidirectional plies at " + quantity.US.Span(want.Lowest, want.Highest, quantity.Angle) + " from the axis"}
	lowest, highest := math.Inf(1), math.Inf(-1)
	for i := range j.report.Analysis.Rows {
		r := &j.report.Analysis.Rows[i]
		f := rules.FormOf(r)
		if r.Zone != laminate.StructuralLayer || f != laminate.RovingBand && f != laminate.Unidirectional {
			continue
		}
		angle := j.report.Schedule.Plies[i].Angle
		if !angle.Given {
			l.Verdict = max(l.Verdict, Incomplete)
			continue
		}
		a := math.Abs(angle.Value)
		lowest, highest = min(lowest, a), max(highest, a)
		if quantity.Below(a, want.Lowest) || quantity.Above(a, want.Highest) {
			l.Verdict = Fails
			for n := r.First; n <= r.Last; n++ {
				l.Plies = append(l.Plies, n)
			}
		}
	}
	switch {
	case lowest <= highest && lowest == highest:
		l.Found = quantity.US.Figure(lowest, quantity.Angle)
	case lowest < highest:
		l.Found = quantity.Number(lowest, 1) + "° to " + quantity.US.Figure(highest, quantity.Angle)
	case l.Verdict == Incomplete:
		l.Found = "no angle stated"
	default:
		l.Verdict, l.Found = Fails, "no wound or unidirectional ply"
	}
	j.add(l)
}

// wholeWall judges the outer surface, the total and the sequence.
func (j *judge) wholeWall() {
	d := j.demands
	if d.OuterSurface.Given && d.OuterSurface.Value {
		n := j.report.Analysis.Zones[laminate.OuterSurface].Plies
		l := Line{Key: "outer_surface.required", Demand: "an outer surface", Found: quantity.Counted(n, "ply or coat", "plies or coats")}
		if n == 0 {
			l.Verdict, l.Found = Fails, "none"
		}
		j.add(l)
	}
	j.thickness("total.thickness", "whole laminate", d.Total, inspection.WholeWall)
	if len(d.Sequence) > 0 {
		j.sequence(d.Sequence)
	}
}

// sequence walks the plies from the process side along the demanded steps.
func (j *judge) sequence(steps []spec.Step) {
	l := Line{Key: "sequence", Demand: "order from the process side: " + describe(steps), Found: "in that order"}
	forms := make([]laminate.Form, 0, j.report.Analysis.Total.Plies)
	for i := range j.report.Analysis.Rows {
		r := &j.report.Analysis.Rows[i]
		for range r.Last - r.First + 1 {
			forms = append(forms, rules.FormOf(r))
		}
	}
	at := 0
	for _, step := range steps {
		if step.Any {
			j.add(l)
			return
		}
		for range step.Plies {
			if at >= len(forms) {
				l.Verdict, l.Found = Fails, "the laminate ends after "+quantity.Counted(at, "ply", "plies")+"; "+step.Form.String()+" is required next"
				j.add(l)
				return
			}
			if forms[at] != step.Form {
				l.Verdict, l.Plies = Fails, []int{at + 1}
				l.Found = "ply " + strconv.Itoa(at+1) + " is " + cmp.Or(forms[at].String(), "unknown") + ", not " + step.Form.String()
				j.add(l)
				return
			}
			at++
		}
	}
	if at < len(forms) {
		l.Verdict, l.Plies = Fails, []int{at + 1}
		l.Found = quantity.Counted(len(forms)-at, "ply", "plies") + " more than the sequence has"
	}
	j.add(l)
}

func describe(steps []spec.Step) string {
	words := make([]string, len(steps))
	for i, s := range steps {
		if s.Any {
			words[i] = "anything"
			continue
		}
		words[i] = strconv.Itoa(s.Plies) + " " + s.Form.String()
	}
	return strings.Join(words, ", ")
}
