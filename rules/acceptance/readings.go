package acceptance

import (
	"errors"
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
)

// mostBelow is how far below the lowest thickness an isolated spot usually may
// lie, whatever the share allowed: 1/8 in (from memory). No specification says
// so, so that it is a note.
const mostBelow = 0.003175 // m

// withoutRecord says that inspection demands cannot be determined yet.
func (j *judge) withoutRecord() {
	d := j.Specification.Inspection
	if d.ThicknessReadings.Given || d.SpotMinimum.Given || d.Barcol.Given || d.IgnitionSpecimens.Given || d.Acetone.Or(false) ||
		d.LayupRecord.Or(false) || d.ResistanceToGroundMax.Given() || len(d.Defects) > 0 {
		j.note("inspection requirements are not checked: no record was given")
	}
}

// readings judges the measurements against the specification.
func (j *judge) readings() {
	j.thicknessReadings()
	j.barcol()
	j.ignition()
	j.acetone()
	j.resistance()
}

// valid gives the readings of a kind that were not struck.
func (j *judge) valid(kind record.Kind) []*record.Reading {
	var list []*record.Reading
	for i := range j.Record.Readings {
		if r := &j.Record.Readings[i]; r.Kind == kind && !r.Struck {
			list = append(list, r)
		}
	}
	return list
}

// inspectionDemands are empty without a specification: nothing is demanded.
func (j *judge) inspectionDemands() spec.Inspection {
	if j.Specification == nil {
		return spec.Inspection{}
	}
	return j.Specification.Inspection
}

func (j *judge) thicknessReadings() {
	groups := map[record.Group][]float64{}
	for _, r := range j.valid(record.WallThickness) {
		groups[r.Group] = append(groups[r.Group], r.Thickness.SI())
	}
	d := j.inspectionDemands()
	whole := groups[record.WholeWall]
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
	j.measured("total.thickness measured", "whole laminate", total, whole, d.SpotMinimum)
	// The whole wall's gauge cannot see where the barrier ends: only cutouts tell.
	j.measured("barrier.thickness measured", "barrier at cutouts", barrier, groups[record.Barrier], laminate.Optional[float64]{})
	j.measured("structure.thickness measured", "structure at cutouts", structure, groups[record.StructuralLayer], laminate.Optional[float64]{})
	for g := record.WholeWall; g <= record.OuterSurface; g++ {
		j.besideComputed(g, groups[g])
	}
}

func (j *judge) measured(key, what string, demand spec.Thickness, found []float64, spot laminate.Optional[float64]) {
	if !demand.Given() {
		return
	}
	asked, _ := j.span(demand, demand.Lowest.SI())
	l := Line{Key: key, Demand: what + " " + asked + " on the mean"}
	s, err := inspection.Summarize(found)
	if err != nil {
		l.Verdict, l.Found = Incomplete, "no reading"
		j.add(l)
		return
	}
	asked, mean := j.span(demand, s.Mean)
	l.Demand = what + " " + asked + " on the mean"
	l.Found = fmt.Sprintf("mean %s, lowest %s, highest %s of %d", mean, j.Units.Thickness(s.Lowest), j.Units.Thickness(s.Highest), s.Count)
	if demand.Lowest.Given() && quantity.Below(s.Mean, demand.Lowest.SI()) || demand.Highest.Given() && quantity.Above(s.Mean, demand.Highest.SI()) {
		l.Verdict = Fails
	}
	j.add(l)
	if !spot.Given || !demand.Lowest.Given() {
		return
	}
	low := demand.Lowest.SI()
	limit := low * spot.Value
	lowest, bound := j.Units.Pair(s.Lowest, limit, quantity.Thickness)
	sp := Line{Key: "inspection.spot_minimum", Demand: "no spot below " + bound, Found: "lowest " + lowest}
	if quantity.Below(s.Lowest, limit) {
		sp.Verdict = Fails
	}
	j.add(sp)
	if quantity.Below(s.Lowest, low-mostBelow) {
		j.note(what + ": a spot of " + lowest + " is more than 1/8 in below the required thickness; not required (from memory)")
	}
}

// besideComputed notes how the readings stand to the schedule's own figure.
func (j *judge) besideComputed(g record.Group, found []float64) {
	s, err := inspection.Summarize(found)
	if err != nil {
		return
	}
	computed := ", computed from the schedule " + j.Units.Thickness(j.group(g).Thickness)
	if s.Count == 1 {
		j.note(fmt.Sprintf("%s: one reading, %s%s", g, j.Units.Thickness(s.Mean), computed))
		return
	}
	j.note(fmt.Sprintf("%s: mean of %d readings %s ± %s (one deviation)%s", g, s.Count, j.Units.Thickness(s.Mean), j.Units.Thickness(s.Deviation), computed))
}

func (j *judge) barcol() {
	d := j.inspectionDemands()
	if !d.Barcol.Given {
		return
	}
	limit := inspection.BarcolShare * d.Barcol.Value
	l := Line{Key: "inspection.barcol", Demand: fmt.Sprintf("Barcol average at least %.1f (90 %% of %.0f)", limit, d.Barcol.Value),
		Basis: "the specification; 90 % of the stated figure, two highest and two lowest dropped (from memory); gauge ± 2 (EN 59:2016)"}
	var list []float64
	for _, r := range j.valid(record.Barcol) {
		list = append(list, r.Value)
	}
	if want := d.BarcolReadings.Or(inspection.BarcolReadings); len(list) < want {
		l.Verdict, l.Found = Incomplete, fmt.Sprintf("%d of %d readings", len(list), want)
		j.add(l)
		return
	}
	average, err := inspection.BarcolAverage(list)
	if err != nil {
		l.Verdict, l.Found = Incomplete, err.Error()
		j.add(l)
		return
	}
	l.Found = fmt.Sprintf("average %.1f of %d, two highest and two lowest dropped; gauge ± 2", average, len(list))
	if quantity.Below(average, limit) {
		l.Verdict = Fails
	}
	j.add(l)
}

// ignition judges glass content by ignition, group by group.
func (j *judge) ignition() {
	groups := map[record.Group][]float64{}
	var refused []string
	specimens := 0
	for _, r := range j.valid(record.IgnitionLoss) {
		specimens++
		g, err := j.glass(r)
		if err != nil {
			refused = append(refused, fmt.Sprintf("specimen at %s: %v", nonEmpty(r.Place, "no place"), err))
			continue
		}
		groups[r.Group] = append(groups[r.Group], g)
	}
	d := j.inspectionDemands()
	if d.IgnitionSpecimens.Given {
		l := Line{Key: "inspection.ignition_specimens", Demand: "at least " + quantity.Counted(d.IgnitionSpecimens.Value, "ignition specimen", "ignition specimens"),
			Found: quantity.Counted(specimens, "specimen", "specimens"), Basis: "the specification; ASTM D2584: three"}
		if specimens < d.IgnitionSpecimens.Value {
			l.Verdict = Incomplete
		}
		j.add(l)
	}
	for _, text := range refused {
		j.note(text)
	}
	var barrier, structure spec.Range
	if j.Specification != nil {
		barrier, structure = j.Specification.Barrier.GlassContent, j.Specification.Structure.GlassContent
	}
	j.burned("barrier.glass_content measured", "glass in the barrier by ignition", barrier, record.Barrier, groups, d.IgnitionSpecimens.Given)
	j.burned("structure.glass_content measured", "glass in the structure by ignition", structure, record.StructuralLayer, groups, d.IgnitionSpecimens.Given)
	for g := record.WholeWall; g <= record.OuterSurface; g++ {
		s, err := inspection.Summarize(groups[g])
		if err != nil {
			continue
		}
		predicted := "does not predict it"
		if p, ok := j.group(g).GlassMassFraction(); ok {
			predicted = "computes " + quantity.Percent(p)
		}
		j.note(fmt.Sprintf("%s: glass by ignition %s, mean of %d; the schedule %s", g, quantity.Percent(s.Mean), s.Count, predicted))
	}
}

func (j *judge) burned(key, what string, demand spec.Range, g record.Group, groups map[record.Group][]float64, wanted bool) {
	if !demand.Given || !wanted && len(groups[g]) == 0 {
		return
	}
	mean := 0.0
	s, err := inspection.Summarize(groups[g])
	if err == nil {
		mean = s.Mean
	}
	j.share(key, what, demand, mean, err == nil, "no usable specimen of it")
}

var errCarbon = errors.New("carbon burns only in part: the glass content cannot be determined by ignition")

// glass reads one specimen: corrected for the filler and organic veil that the
// schedule puts into its group.
func (j *judge) glass(r *record.Reading) (float64, error) {
	loss, err := inspection.Loss(r.Before.SI(), r.After.SI())
	if err != nil {
		return 0, err
	}
	var b inspection.Burned
	var organic, mass float64
	mixes := map[float64]bool{}
	for i := range j.Report.Analysis.Rows {
		row := &j.Report.Analysis.Rows[i]
		if !r.Group.Holds(row.Zone) {
			continue
		}
		n := float64(row.Last - row.First + 1)
		mass += n * row.Mass
		if row.Material != nil {
			switch row.Material.Fiber {
			case laminate.Carbon:
				return 0, errCarbon
			case laminate.Polyester:
				organic += n * row.FiberMass
			case laminate.NoFiber, laminate.EGlass, laminate.ECRGlass, laminate.CGlass:
			}
		}
		share := 0.0
		if row.Resin != nil && row.Resin.Filler != laminate.NoFiller {
			if row.Resin.Filler == laminate.CarbonPowder {
				return 0, errCarbon
			}
			share = row.Resin.FillerContent.Value
			if !row.Resin.FillerContent.Given {
				return 0, errors.New("the share of filler is not stated: the glass content cannot be determined by ignition")
			}
		}
		mixes[share] = true
		b.Filler = share
	}
	if len(mixes) > 1 {
		return 0, errors.New("filled and unfilled resin in one specimen: the glass content cannot be determined by ignition")
	}
	if mass > 0 {
		b.Organic = organic / mass
	}
	return inspection.GlassFromResidue(1-loss, b)
}

func (j *judge) acetone() {
	if !j.inspectionDemands().Acetone.Or(false) {
		return
	}
	l := Line{Key: "inspection.acetone", Demand: "acetone wipe: neither softened nor tacky", Found: "clean"}
	list := j.valid(record.Acetone)
	if len(list) == 0 {
		l.Verdict, l.Found = Incomplete, "no wipe recorded"
	}
	for _, r := range list {
		if !r.Clean {
			l.Verdict, l.Found = Fails, "softened or tacky at "+nonEmpty(r.Place, "a place not recorded")
		}
	}
	j.add(l)
}

func (j *judge) resistance() {
	limit := j.inspectionDemands().ResistanceToGroundMax
	if !limit.Given() {
		return
	}
	l := Line{Key: "inspection.resistance_to_ground_max", Demand: "resistance to ground at most " + limit.Text()}
	list := j.valid(record.ResistanceToGround)
	if len(list) == 0 {
		l.Verdict, l.Found = Incomplete, "not measured"
	}
	var worst quantity.Resistance
	for _, r := range list {
		if !worst.Given() || r.Resistance.SI() > worst.SI() {
			worst = r.Resistance
		}
	}
	if worst.Given() {
		l.Found = "highest " + worst.Text()
		if worst.Cmp(limit) > 0 {
			l.Verdict = Fails
		}
	}
	j.add(l)
}

// squareFoot is the area defects are counted in unless the limit names another, m².
const squareFoot = 0.09290304

// defects judges what was seen against the limits agreed.
func (j *judge) defects() {
	limits := j.inspectionDemands().Defects
	for i := range limits {
		limit := &limits[i]
		l := Line{Key: keyDefect, Demand: j.defectDemand(limit), Found: "none over the limit"}
		for k := range j.Record.Defects {
			d := &j.Record.Defects[k]
			if d.Struck || d.Repaired || d.Kind != limit.Kind || limit.Side != spec.EitherSide && d.Side != spec.EitherSide && d.Side != limit.Side {
				continue
			}
			v, found := j.defect(limit, d)
			if v > l.Verdict {
				l.Verdict, l.Found = v, found
			}
		}
		j.add(l)
	}
	for k := range j.Record.Defects {
		d := &j.Record.Defects[k]
		if d.Struck {
			continue
		}
		limited := false
		for i := range limits {
			limited = limited || limits[i].Kind == d.Kind
		}
		switch {
		case d.Repaired:
			j.note(fmt.Sprintf("%s at %s: repaired", d.Kind, nonEmpty(d.Place, "a place not recorded")))
		case !limited:
			j.note(fmt.Sprintf("%s at %s: the specification sets no limit", d.Kind, nonEmpty(d.Place, "a place not recorded")))
		}
	}
}

func (j *judge) defectDemand(l *spec.DefectLimit) string {
	text := l.Kind.String()
	if l.Side != spec.EitherSide {
		text += " on the " + l.Side.String() + " side"
	}
	if l.SizeMax.Given() {
		text += ", at most " + j.size(l.SizeMax)
	}
	if l.DepthMax.Given() {
		text += ", at most " + j.size(l.DepthMax) + " deep"
	}
	if l.PerAreaMax.Given {
		area := j.Units.Figure(squareFoot, quantity.Surface)
		if l.Area.Given() {
			area = l.Area.TextFor(j.Units, j.Units.Surface())
		}
		text += fmt.Sprintf(", at most %d on %s", l.PerAreaMax.Value, area)
	}
	return text
}

// size prints a small measure as it was written, or in the reader's units.
func (j *judge) size(q quantity.Length) string { return q.TextFor(j.Units, j.Units.Size()) }

func (j *judge) defect(limit *spec.DefectLimit, d *record.Defect) (Verdict, string) {
	where := nonEmpty(d.Place, "a place not recorded")
	switch {
	case limit.SizeMax.Given() && d.Size.Given() && d.Size.Cmp(limit.SizeMax) > 0:
		return Fails, j.size(d.Size) + " at " + where
	case limit.DepthMax.Given() && d.Depth.Given() && d.Depth.Cmp(limit.DepthMax) > 0:
		return Fails, j.size(d.Depth) + " deep at " + where
	case limit.PerAreaMax.Given:
		allowed := squareFoot
		if limit.Area.Given() {
			allowed = limit.Area.SI()
		}
		seen := allowed
		if d.Area.Given() {
			seen = d.Area.SI()
		}
		if quantity.Above(float64(d.Count)/seen, float64(limit.PerAreaMax.Value)/allowed) {
			return Fails, fmt.Sprintf("%d at %s", d.Count, where)
		}
	}
	if limit.SizeMax.Given() && !d.Size.Given() {
		return Incomplete, "size not recorded at " + where
	}
	if limit.DepthMax.Given() && !d.Depth.Given() {
		return Incomplete, "depth not recorded at " + where
	}
	return Meets, ""
}
