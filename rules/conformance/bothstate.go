package conformance

import (
	"fmt"
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
)

// bothState holds what schedule and specification both state of the finished part against
// each other: where they differ one of them is a slip, and the plan prints both.
func (j *judge) bothState(lib *laminate.Library) {
	if j.report.Overlay != nil {
		return
	}
	d, s := &j.demands.Inspection, j.report.Schedule
	add := func(key, demand, found string, v Verdict) {
		j.add(Line{Key: key + " scheduled", Demand: demand, Found: found, Verdict: v})
	}
	if asked, test := d.Hydrotest.Pressure, s.Service.TestPressure; asked.Given() && test.Given() {
		v := Meets
		if quantity.Below(test.SI(), asked.SI()) {
			v = Fails
		} else if quantity.Above(test.SI(), MostOfTest*asked.SI()) {
			v = Incomplete
		}
		a, b := j.units.Pair(asked.SI(), test.SI(), quantity.Stress)
		add("inspection.hydrotest", "a test of at least "+a+", and not far above", "the schedule states a test of "+b, v)
	}
	for i := range d.Dimensions {
		x := &d.Dimensions[i]
		if m := stated(&s.Part, x.What); m > 0 {
			v := Meets
			if x.Value.Lowest.Given() && quantity.Below(m, x.Value.Lowest.SI()) || x.Value.Highest.Given() && quantity.Above(m, x.Value.Highest.SI()) {
				v = Fails
			}
			what := strings.ReplaceAll(x.What.String(), "-", " ")
			add("inspection.dimension", what+" "+Bounds(j.units, &x.Value), "the schedule states "+j.units.Stated(m, quantity.Size), v)
		}
	}
	order := laid.As(s, j.report.Analysis, j.report.Laid)
	for i := range d.Holds {
		if h := &d.Holds[i]; h.BeforePly.Given && (h.BeforePly.Value < 1 || h.BeforePly.Value > len(order.Plies)) {
			add("inspection.hold", h.Text(), fmt.Sprintf("the schedule has %s: work never comes to it", quantity.Counted(len(order.Plies), "ply", "plies")), Fails)
		}
	}
	j.postCureFits(d.PostCure.Temperature, lib, add)
}

// stated is what a part states of a measure, m, 0 of one that it does not.
func stated(p *laminate.Part, m spec.Measure) float64 {
	switch m {
	case spec.InsideDiameter:
		return p.InsideDiameter.SI()
	case spec.Length:
		return p.Length.SI()
	case spec.BoltCircle:
		return ground.Bolted(p).Circle
	case spec.BoltHole:
		if d := ground.Bolted(p); d.Bolt > 0 {
			return d.Hole()
		}
	default:
	}
	return 0
}

// hotPostCure is how far above the heat deflection of its resin a part is usually
// post-cured at most, K: beyond, it softens on its supports, and a figure is in another
// unit (common practice, no source).
const hotPostCure = 50.0

// postCureFits holds the post-cure that is required against where the resins soften.
func (j *judge) postCureFits(asked quantity.Temperature, lib *laminate.Library, add func(key, demand, found string, v Verdict)) {
	if !asked.Given() {
		return
	}
	least, whose := math.Inf(1), ""
	for i := range j.report.Analysis.Rows {
		r := j.report.Analysis.Rows[i].Resin
		if r == nil {
			continue
		}
		soft := r.HeatDeflection
		if !soft.Given() && lib != nil {
			soft = lib.Families[r.Family].HeatDeflection
		}
		if soft.Given() && soft.SI() < least {
			least, whose = soft.SI(), r.ID
		}
	}
	if whose == "" {
		return
	}
	v, than := Meets, ""
	if quantity.Above(asked.SI(), least+hotPostCure) {
		v, than = Incomplete, ", and nobody cures so far above that"
	}
	add("inspection.post_cure", "post-cure at least "+asked.TextFor(j.units, j.units.Heat()), "resin "+whose+" softens at "+j.units.Temperature(least)+than, v)
}

// MostOfTest is how far a test may go beyond what is required of it before somebody has to
// answer for it (common practice, no source).
const MostOfTest = 1.25

// Bounds are those of a measure, as they were written or in the reader's units.
func Bounds(u quantity.System, b *spec.Bounds) string {
	size := func(q quantity.Length) string { return q.TextFor(u, u.Size()) }
	switch {
	case !b.Highest.Given():
		return "at least " + size(b.Lowest)
	case !b.Lowest.Given():
		return "at most " + size(b.Highest)
	}
	return size(b.Lowest) + " to " + size(b.Highest)
}
