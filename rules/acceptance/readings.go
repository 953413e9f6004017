package acceptance

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/rules/conformance"
)

// mostBelow is how far below the lowest thickness an isolated spot usually may
// lie, whatever the share allowed: 1/8 in (from memory). No specification says
// so, so that it is a note.
const mostBelow = 0.003175 // m

// withoutRecord says that inspection demands cannot be determined yet.
func (j *judge) withoutRecord() {
	d := j.Specification.Inspection
	if d.ThicknessReadings.Given || d.SpotMinimum.Given || d.Barcol.Given || d.IgnitionSpecimens.Given || d.Acetone.Or(false) ||
		d.LayupRecord.Or(false) || d.ResistanceToGroundMax.Given() || d.Calibrated.Or(false) || d.AcceptanceLevel != "" ||
		d.Hydrotest.Pressure.Given() || d.PostCure.Temperature.Given() || len(d.Defects)+len(d.Plans)+len(d.Dimensions)+len(d.Holds) > 0 {
		j.note("inspection requirements are not checked: no record was given")
	}
}

// readings judges the measurements against the specification.
func (j *judge) readings() {
	j.plans()
	j.thicknessReadings()
	j.barcol()
	j.ignition()
	j.acetone()
	j.resistance()
	j.visual()
}

// valid gives the readings of a kind that were neither struck nor superseded by a retest.
func (j *judge) valid(kind inspection.Kind) []*record.Reading { return j.stand[kind] }

// inspectionDemands are empty without a specification: nothing is demanded.
func (j *judge) inspectionDemands() spec.Inspection {
	if j.Specification == nil {
		return spec.Inspection{}
	}
	return j.Specification.Inspection
}

// besideComputed notes how the readings stand to the schedule's own figure.
func (j *judge) besideComputed(g inspection.Group, found []float64) {
	s, err := inspection.Summarize(found)
	if err != nil {
		return
	}
	computed := ", computed from the schedule "
	if o := j.Report.Overlay; o != nil && o.Kind.Bonds() {
		computed = " with what lies under it, computed of the overlay alone "
	}
	computed += j.Units.Thickness(conformance.Group(j.Report.Analysis, g).Thickness)
	if s.Count == 1 {
		j.note(fmt.Sprintf("%s: one reading, %s%s", g, j.Units.Thickness(s.Mean), computed))
		return
	}
	j.note(fmt.Sprintf("%s: mean of %d readings %s ± %s (one deviation)%s", g, s.Count, j.Units.Thickness(s.Mean), j.Units.Thickness(s.Deviation), computed))
}

// ignition judges glass content by ignition, group by group.
func (j *judge) ignition() {
	groups := map[inspection.Group][]float64{}
	taken := map[inspection.Group]bool{} // usable or not
	var refused []string
	for _, r := range j.valid(inspection.IgnitionLoss) {
		taken[r.Group] = true
		g, err := j.glass(r)
		if m := r.Before.SI(); err == nil && (m < leastSpecimen || m > mostSpecimen) {
			err = fmt.Errorf("%s is no specimen of about 5 g", r.Before.Text())
		}
		if err != nil {
			refused = append(refused, fmt.Sprintf("specimen at %s: %v", cmp.Or(r.Place, "no place"), err))
			continue
		}
		groups[r.Group] = append(groups[r.Group], g)
	}
	for _, r := range j.valid(inspection.IgnitionLoss) {
		j.counted(r)
	}
	d := j.inspectionDemands()
	if d.IgnitionSpecimens.Given {
		j.specimens(d.IgnitionSpecimens.Value, groups)
	}
	for _, text := range refused {
		j.note(text)
	}
	var barrier, structure spec.Range
	if j.Specification != nil {
		barrier, structure = j.Specification.Barrier.GlassContent, j.Specification.Structure.GlassContent
	}
	j.burned("barrier.glass_content measured", "glass in the barrier by ignition", barrier, inspection.Barrier, groups, d.IgnitionSpecimens.Given || taken[inspection.Barrier])
	j.burned("structure.glass_content measured", "glass in the structure by ignition", structure, inspection.StructuralLayer, groups, d.IgnitionSpecimens.Given || taken[inspection.StructuralLayer])
	for g := inspection.WholeWall; g <= inspection.OuterSurface; g++ {
		s, err := inspection.Summarize(groups[g])
		if err != nil {
			continue
		}
		predicted := "does not predict it"
		if p, ok := conformance.Group(j.Report.Analysis, g).GlassMassFraction(); ok {
			predicted = "computes " + quantity.Percent(p)
		}
		j.note(fmt.Sprintf("%s: glass by ignition %s, mean of %d; the schedule %s", g, quantity.Percent(s.Mean), s.Count, predicted))
	}
}

// counted holds the plies that were counted in what is left of a specimen against
// those that the schedule has there. Organic veils burn, coats have none, sprayed
// glass has no plies, and a band leaves one or two.
func (j *judge) counted(r *record.Reading) {
	if !r.Plies.Given {
		return
	}
	where := cmp.Or(r.Place, "a place not recorded")
	least, most := 0, 0
	for i := range j.Report.Analysis.Rows {
		row := &j.Report.Analysis.Rows[i]
		if !r.Group.Holds(row.Zone) {
			continue
		}
		n := row.Last - row.First + 1
		switch {
		case row.Material == nil || rules.FormOf(row) == laminate.SprayedChop || rules.FormOf(row) == laminate.Lamina:
			j.note(fmt.Sprintf("entry %d: %s counted in the specimen at %s, and what %s has there cannot be counted", r.Number, quantity.Counted(r.Plies.Value, "ply", "plies"), where, j.Report.Schedule.Plies[i].Material))
			return
		case rules.FormOf(row) == laminate.ResinCoat || row.Material.Fiber == laminate.Polyester || row.Material.Fiber == laminate.Carbon:
		case rules.FormOf(row) == laminate.RovingBand:
			least, most = least+n, most+2*n
		default:
			least, most = least+n, most+n
		}
	}
	want := quantity.Counted(least, "ply", "plies")
	if most > least {
		want = fmt.Sprintf("%d to %d plies", least, most)
	}
	l := Line{Key: "record.plies_counted", Demand: fmt.Sprintf("%s left of the %s, as the schedule has", want, groupName(r.Group)), Found: fmt.Sprintf("%d counted in the specimen at %s", r.Plies.Value, where), Basis: "the schedule"}
	if r.Plies.Value < least || r.Plies.Value > most {
		// Counting may be wrong as well as laying: somebody cuts another specimen, or
		// says what becomes of the part.
		l.Verdict = Incomplete
	}
	j.add(l)
}

// A specimen weighs about 5 g (ASTM D2584); what is far from it was mistyped, or
// is no such specimen (bounds: common practice, no source).
const (
	leastSpecimen = 0.001 // kg
	mostSpecimen  = 0.020
)

// specimens counts the specimens that could be read, in each part of the wall
// whose glass content is required, or else in each that any were taken of.
func (j *judge) specimens(want int, groups map[inspection.Group][]float64) {
	demanded := map[inspection.Group]bool{
		inspection.Barrier:         j.Specification.Barrier.GlassContent.Given,
		inspection.StructuralLayer: j.Specification.Structure.GlassContent.Given,
	}
	anywhere := !demanded[inspection.Barrier] && !demanded[inspection.StructuralLayer]
	counted := false
	for g := inspection.WholeWall; g <= inspection.OuterSurface; g++ {
		n := len(groups[g])
		if !demanded[g] && !(anywhere && n > 0) {
			continue
		}
		counted = true
		j.enough(want, n, " of the "+groupName(g))
	}
	if !counted {
		j.enough(want, 0, "")
	}
}

func (j *judge) enough(want, n int, of string) {
	l := Line{Key: "inspection.ignition_specimens", Demand: "at least " + quantity.Counted(want, "ignition specimen", "ignition specimens") + of,
		Found: quantity.Counted(n, "specimen", "specimens") + " that could be read", Basis: "the specification; ASTM D2584: three"}
	if n < want {
		l.Verdict = Incomplete
	}
	j.add(l)
}

func groupName(g inspection.Group) string {
	switch g {
	case inspection.WholeWall:
		return "whole laminate"
	case inspection.StructuralLayer:
		return "structure"
	case inspection.Barrier, inspection.InnerSurface, inspection.InteriorLayer, inspection.OuterSurface:
	}
	return strings.ReplaceAll(g.String(), "-", " ")
}

func (j *judge) burned(key, what string, demand spec.Range, g inspection.Group, groups map[inspection.Group][]float64, wanted bool) {
	if !demand.Given || !wanted && len(groups[g]) == 0 {
		return
	}
	mean := 0.0
	s, err := inspection.Summarize(groups[g])
	if err == nil {
		mean = s.Mean
	}
	j.add(conformance.Share(j.Units, key, what, demand, mean, err == nil, "no usable specimen of it"))
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
	list := j.valid(inspection.Acetone)
	if len(list) == 0 {
		l.Verdict, l.Found = Incomplete, "no wipe recorded"
	}
	for _, r := range list {
		if !r.Clean {
			l.Verdict, l.Found = Fails, wiped(r)+" at "+cmp.Or(r.Place, "a place not recorded")
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
	list := j.valid(inspection.ResistanceToGround)
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
