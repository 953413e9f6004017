package acceptance

import (
	"cmp"
	"fmt"
	"strings"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/acceptance/holdpoint"
	"frp/veilwright/rules/conformance"
)

// spot is a place on a side, with the readings that were taken there.
type spot struct {
	place string
	side  spec.Side
	list  []*record.Reading
}

func (s *spot) String() string {
	return cmp.Or(s.place, "a place not recorded") + onSide(s.side)
}

// values are the readings' figures: m of a thickness, Barcol points.
func (s *spot) values() []float64 { return measures(s.list) }

func measures(list []*record.Reading) []float64 {
	values := make([]float64, len(list))
	for i, r := range list {
		if values[i] = r.Value; r.Kind == inspection.WallThickness {
			values[i] = r.Thickness.SI()
		}
	}
	return values
}

// spots sorts readings by where they were taken, in the order of the first at each.
func spots(list []*record.Reading) []spot {
	var all []spot
	at := map[string]int{}
	for _, r := range list {
		place := strings.TrimSpace(r.Place)
		key := place + "\x00" + r.Side.String()
		i, ok := at[key]
		if !ok {
			i = len(all)
			at[key] = i
			all = append(all, spot{place: place, side: r.Side})
		}
		all[i].list = append(all[i].list, r)
	}
	return all
}

// of gives the readings of a kind and part of the wall that were not struck.
func (j *judge) of(kind inspection.Kind, g inspection.Group) []*record.Reading {
	var list []*record.Reading
	for _, r := range j.valid(kind) {
		if r.Group == g {
			list = append(list, r)
		}
	}
	return list
}

// plan is how readings are to be taken on a side; the zero plan where the
// specification has none.
func (j *judge) plan(kind inspection.Kind, g inspection.Group, side spec.Side) spec.Plan {
	plans := j.inspectionDemands().Plans
	for i := range plans {
		if p := &plans[i]; p.Of == kind && p.Group == g && (p.Side == spec.EitherSide || p.Side == side) {
			return *p
		}
	}
	return spec.Plan{}
}

// plans judges whether the readings were taken that the plan asks for: a line
// a place.
func (j *judge) plans() {
	plans := j.inspectionDemands().Plans
	for i := range plans {
		p := &plans[i]
		names := p.Names()
		if len(names) == 0 {
			j.planned(p, "", j.of(p.Of, p.Group))
			continue
		}
		for _, name := range names {
			var here []*record.Reading
			for _, r := range j.of(p.Of, p.Group) {
				if strings.EqualFold(strings.TrimSpace(r.Place), name) {
					here = append(here, r)
				}
			}
			j.planned(p, name, here)
		}
	}
}

// planned judges one place of a plan; name is "" where the plan has none.
func (j *judge) planned(p *spec.Plan, name string, here []*record.Reading) {
	want := p.Number.Or(1)
	good, side, method, unseen := 0, 0, 0, 0
	for _, r := range here {
		switch {
		case p.Side != spec.EitherSide && r.Side != p.Side:
			side++
		case p.Method != "" && !strings.EqualFold(strings.TrimSpace(r.Method), p.Method):
			method++
		case holdpoint.Unwitnessed(&r.Entry, r.Witness, p.Witness) != "":
			unseen++
		default:
			good++
		}
	}
	what := p.Of.String()
	if p.Group != inspection.WholeWall {
		what += " of the " + p.Group.String()
	}
	if name != "" {
		what += " at " + name
	}
	what += onSide(p.Side)
	what += ": " + quantity.Counted(want, "reading", "readings")
	if p.Method != "" {
		what += ", method " + p.Method
	}
	if p.Witness != "" {
		what += ", witnessed by " + p.Witness
	}
	l := Line{Key: "plan." + p.Of.String(), Demand: what, Found: fmt.Sprintf("%d of %d", good, want), Verdict: Incomplete}
	if good >= want {
		l.Verdict, l.Found = Meets, quantity.Counted(good, "reading", "readings")
	}
	for _, c := range []struct {
		n    int
		text string
	}{{side, "of another side"}, {method, "by another method"}, {unseen, "without that witness"}} {
		if c.n > 0 {
			l.Found += fmt.Sprintf("; %d %s", c.n, c.text)
		}
	}
	j.add(l)
}

// placed asks for the places of readings that are judged place by place.
func (j *judge) placed(list []*record.Reading, what string) {
	n := 0
	for _, r := range list {
		if strings.TrimSpace(r.Place) == "" {
			n++
		}
	}
	if n > 0 {
		j.add(Line{Key: "record.places", Demand: "a place with every reading: " + what, Verdict: Incomplete, Basis: byPractice,
			Found: quantity.Counted(n, "reading", "readings") + " without one"})
	}
}

// barcol judges hardness at each place and side by itself: a part is no harder
// at one nozzle because it is hard at another.
func (j *judge) barcol() {
	d := j.inspectionDemands()
	if !d.Barcol.Given {
		return
	}
	limit := inspection.BarcolShare * d.Barcol.Value
	list := j.valid(inspection.Barcol)
	j.placed(list, "Barcol")
	all := spots(list)
	if len(all) == 0 {
		all = []spot{{}}
	}
	for i := range all {
		s := &all[i]
		p := j.plan(inspection.Barcol, inspection.WholeWall, s.side)
		l := Line{Key: "inspection.barcol", Demand: fmt.Sprintf("Barcol average at least %.1f (90 %% of %.0f) at each place", limit, d.Barcol.Value),
			Basis: "the specification; 90 % of the stated figure, two highest and two lowest dropped (from memory); gauge ± 2 (EN 59:2016)"}
		if p.Judge == spec.Each {
			l.Demand = fmt.Sprintf("Barcol at least %.1f (90 %% of %.0f) in each reading", limit, d.Barcol.Value)
			l.Basis = "the specification; 90 % of the stated figure (from memory); gauge ± 2 (EN 59:2016)"
		}
		j.hard(&l, s, limit, p.Judge, p.Number.Or(d.BarcolReadings.Or(inspection.BarcolReadings)))
		j.add(l)
	}
}

// hard fills in what was found at one place.
func (j *judge) hard(l *Line, s *spot, limit float64, judge spec.Judge, want int) {
	values := s.values()
	if len(values) < want {
		l.Verdict, l.Found = Incomplete, fmt.Sprintf("%d of %d readings", len(values), want)
		if len(values) > 0 {
			l.Found += " at " + s.String()
		}
		return
	}
	sum, err := inspection.Summarize(values)
	average := sum.Lowest
	if judge != spec.Each && err == nil {
		average, err = inspection.BarcolAverage(values)
	}
	if err != nil {
		l.Verdict, l.Found = Incomplete, err.Error()
		return
	}
	l.Found = fmt.Sprintf("average %.1f of %d at %s, lowest %.0f, two highest and two lowest dropped; gauge ± 2", average, len(values), s, sum.Lowest)
	if judge == spec.Each {
		l.Found = fmt.Sprintf("lowest %.0f of %d at %s; gauge ± 2", sum.Lowest, len(values), s)
	}
	if quantity.Below(average, limit) {
		l.Verdict = Fails
	}
}

// thicknessReadings judges the gauge and the cutouts.
func (j *judge) thicknessReadings() {
	d := j.inspectionDemands()
	whole := j.of(inspection.WallThickness, inspection.WholeWall)
	if d.ThicknessReadings.Given {
		l := Line{Key: "inspection.thickness_readings", Demand: "at least " + quantity.Counted(d.ThicknessReadings.Value, "reading", "readings") + " of the whole laminate",
			Found: quantity.Counted(len(whole), "reading", "readings")}
		if len(whole) < d.ThicknessReadings.Value {
			l.Verdict = Incomplete
		}
		j.add(l)
	}
	var total, barrier, structure spec.Thickness
	if j.Specification != nil {
		total, barrier, structure = j.Specification.Total, j.Specification.Barrier.Thickness, j.Specification.Structure.Thickness
	}
	j.measured("total.thickness measured", "whole laminate", total, inspection.WholeWall)
	// The whole wall's gauge cannot see where the barrier ends: only cutouts tell.
	j.measured("barrier.thickness measured", "barrier at cutouts", barrier, inspection.Barrier)
	j.measured("structure.thickness measured", "structure at cutouts", structure, inspection.StructuralLayer)
	if d.SpotMinimum.Given && !total.Lowest.Given() {
		j.add(Line{Key: keySpot, Demand: "no spot below " + quantity.Share(d.SpotMinimum.Value) + " of the lowest thickness", Verdict: Incomplete,
			Found: "the specification states no lowest thickness of the whole laminate"})
	}
	for g := inspection.WholeWall; g <= inspection.OuterSurface; g++ {
		j.besideComputed(g, measures(j.of(inspection.WallThickness, g)))
		j.agrees(g)
	}
	j.addUp()
}

const keySpot = "inspection.spot_minimum"

// measured judges the thickness of a part of the wall: the mean of all readings
// and of each place, or each reading, as the plan says; a spot minimum stated
// lets single places fall below the lowest as far as it says, and no further.
func (j *judge) measured(key, what string, demand spec.Thickness, g inspection.Group) {
	if !demand.Given() {
		return
	}
	list := j.of(inspection.WallThickness, g)
	p := j.plan(inspection.WallThickness, g, spec.EitherSide)
	asked, _ := conformance.Span(j.Units, demand, demand.Lowest.SI())
	l := Line{Key: key, Demand: what + " " + asked + " on the mean"}
	s, err := inspection.Summarize(measures(list))
	if err != nil {
		l.Verdict, l.Found = Incomplete, "no reading"
		j.add(l)
		return
	}
	j.placed(list, what)
	spotMinimum := p.SpotMinimum
	if g == inspection.WholeWall && !spotMinimum.Given {
		spotMinimum = j.inspectionDemands().SpotMinimum
	}
	asked, mean := conformance.Span(j.Units, demand, s.Mean)
	l.Demand = what + " " + asked + " on the mean"
	l.Found = fmt.Sprintf("mean %s, lowest %s, highest %s of %d", mean, j.Units.Thickness(s.Lowest), j.Units.Thickness(s.Highest), s.Count)
	out := func(v float64, low bool) bool {
		return low && demand.Lowest.Given() && quantity.Below(v, demand.Lowest.SI()) || demand.Highest.Given() && quantity.Above(v, demand.Highest.SI())
	}
	if out(s.Mean, true) {
		l.Verdict = Fails
	}
	all := spots(list)
	for i := range all {
		values := all[i].values()
		if p.Judge != spec.Each {
			at, _ := inspection.Summarize(values)
			values = []float64{at.Mean}
		}
		for _, v := range values {
			if out(v, !spotMinimum.Given) && l.Verdict != Fails {
				l.Verdict = Fails
				l.Found = j.Units.Thickness(v) + " at " + all[i].String() + "; " + l.Found
			}
		}
	}
	switch {
	case p.Judge == spec.Each:
		l.Demand = what + " " + asked + " in each reading"
	case !spotMinimum.Given:
		l.Demand += " of each place"
	}
	j.add(l)
	if spotMinimum.Given && demand.Lowest.Given() {
		j.lowest(what, demand.Lowest.SI(), s.Lowest, spotMinimum.Value)
	}
}

// lowest judges the thinnest spot.
func (j *judge) lowest(what string, low, found, share float64) {
	lowest, bound := j.Units.Pair(found, low*share, quantity.Thickness)
	sp := Line{Key: keySpot, Demand: "no spot below " + bound, Found: "lowest " + lowest}
	if what != "whole laminate" {
		sp.Demand = what + ": " + sp.Demand
	}
	if quantity.Below(found, low*share) {
		sp.Verdict = Fails
	}
	j.add(sp)
	if quantity.Below(found, low-mostBelow) {
		j.note(what + ": a spot of " + lowest + " is more than 1/8 in below the required thickness; not required (from memory)")
	}
}

// partsOver is how far barrier and structure measured apart may come out above
// the whole wall, or with the outer surface as computed below it, before one of
// them was measured as something else (common practice, no source).
const partsOver = 0.10

// farOff is how far the mean of readings may lie from what the schedule computes
// before they were read in another unit, or of another part of the wall (common
// practice, no source).
const farOff = 1.5 // times

// agrees asks about readings that are far from what the schedule computes.
func (j *judge) agrees(g inspection.Group) {
	s, err := inspection.Summarize(measures(j.of(inspection.WallThickness, g)))
	computed := conformance.Group(j.Report.Analysis, g).Thickness
	if o := j.Report.Overlay; o != nil && o.Kind.Bonds() {
		return // a gauge reads what lies under it too
	}
	if err != nil || computed <= 0 || s.Mean <= computed*farOff && s.Mean >= computed/farOff {
		return
	}
	j.add(Line{Key: "record.agreement", Demand: "readings of the " + groupName(g) + " near what the schedule computes", Verdict: Incomplete,
		Basis: byPractice + ": 1.5 times apart at most", Found: "mean " + j.Units.Thickness(s.Mean) + ", computed " + j.Units.Thickness(computed)})
}

// addUp holds the parts of the wall against the whole of it.
func (j *judge) addUp() {
	mean := func(g inspection.Group) (float64, bool) {
		s, err := inspection.Summarize(measures(j.of(inspection.WallThickness, g)))
		return s.Mean, err == nil
	}
	whole, a := mean(inspection.WholeWall)
	barrier, b := mean(inspection.Barrier)
	structure, c := mean(inspection.StructuralLayer)
	sum := barrier + structure + conformance.Group(j.Report.Analysis, inspection.OuterSurface).Thickness
	if a && b && c && (quantity.Above(barrier+structure, whole*(1+partsOver)) || quantity.Below(sum, whole*(1-partsOver))) {
		j.add(Line{Key: "record.agreement", Demand: "barrier and structure together as thick as the whole laminate", Verdict: Incomplete, Basis: byPractice + ": 10 % apart at most",
			Found: fmt.Sprintf("barrier %s and structure %s against a whole of %s", j.Units.Thickness(barrier), j.Units.Thickness(structure), j.Units.Thickness(whole))})
	}
}
