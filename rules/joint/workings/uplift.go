package workings

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/worked"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/joint/statics"
)

// Uplift is the name of what [Uplifts] works out.
const Uplift = "uplift"

const atTest = "at the test" // an [statics.Uplift.When]

// Uplifts works out what lifts the shell on each flat bottom of a judged job, in the
// hardest state of the service and at the test, against what its hold-down was figured
// for; incomplete where that is not stated, or something of the lift is not known. The
// Case says of which bottom it is, and when.
func Uplifts(r *rules.JobReport, lib *laminate.Library, u quantity.System) (list []Check) {
	w := &work{r: r, p: &rules.JobPass{Assembly: r.Job.Assemble(), Library: lib, Units: u, Parts: r.Parts}}
	for i := range r.Job.Parts {
		w.at = laminate.JobPartRef(i, "")
		service, test := statics.Uplifts(w.p, i)
		for _, up := range []statics.Uplift{service, test} {
			if up.When != "" {
				w.uplift(i, &up)
			} else if up.Missing != "" {
				w.of = "bottom " + r.Job.Parts[i].ID
				w.open(Uplift, joint.UpliftUnheld, "what lifts the shell cannot be determined: "+up.Missing)
			}
		}
	}
	return w.list
}

func (w *work) uplift(bottom int, up *statics.Uplift) {
	x := &w.r.Job.Parts[bottom]
	d := x.InsideDiameter.SI()
	circle := math.Pi / 4 * d * d
	l := worked.List{US: w.p.Units == quantity.US}
	square := func(m2 float64) float64 { return l.Length(l.Length(m2)) }
	l.Add("inside diameter of bottom "+x.ID, "D", "as the document states", "", l.Length(d), l.LengthUnit(), "")
	l.Add("its circle", "A", "π/4·D²", worked.Put("3.14159265/4·#^2", l.Length(d)), square(circle), l.LengthUnit()+"²", "geometry")
	l.Add("gas "+up.When+", under what closes the shell", "pg", w.gas(bottom, up), "", l.Stress(up.Gas), l.StressUnit(), "")
	l.Add("lift by the gas", "Fg", "pg·A", worked.Put("#·#", l.Stress(up.Gas), square(circle)), l.Force(up.Gas*circle), l.ForceUnit(), "statics")
	formula, numbers, forces := "Fg", "#", []float64{l.Force(up.Gas * circle)}
	if list := up.Raises(w.p); len(list) > 0 {
		formula, numbers = "Fg + max(0, Σ Fl)", "# + max(0, "+strings.Repeat("# + ", len(list)-1)+"#)"
		for i := range list {
			w.raised(&l, &list[i], up.When)
			forces = append(forces, l.Force(list[i].Force))
		}
	}
	l.Add("lift in all", "F", formula, worked.Put(numbers, forces...), l.Force(up.Force), l.ForceUnit(), "statics; the weight of the shell is not taken off")
	l.Add("lift over the circle of the bottom", "pu", "F/A", worked.Put("#/#", l.Force(up.Force), square(circle)), l.Stress(up.Pressure), l.StressUnit(), "")
	c := Check{At: w.at, Criterion: wall.Criterion{Name: Uplift, Case: "bottom " + x.ID + ", " + up.When, Kind: quantity.Stress, Governs: true, Basis: joint.UpliftUnheld.Basis, Demand: up.Pressure}}
	if held := x.HoldDown; held.Given() {
		c.Capacity, c.Answer = held.SI(), wall.Holds
		if statics.Thinner(held.SI(), up.Pressure) {
			c.Answer = wall.Fails
		}
		l.Add("what its hold-down was figured for, by others", "ph", "as the document states (hold_down)", "", l.Stress(held.SI()), l.StressUnit(), "")
		if c.Ratio = math.Inf(1); held.SI() > 0 {
			c.Ratio = up.Pressure / held.SI()
			l.Steps = append(l.Steps, worked.Step{What: Uplift, Symbol: "utilization", Formula: "pu/ph", Numbers: worked.Put("#/#", l.Stress(up.Pressure), l.Stress(held.SI())), In: l.StressUnit(), Value: c.Ratio, Source: c.Basis, Limit: "1", Answer: c.Answer.String()})
		}
	} else {
		c.Answer, c.Reason = wall.Incomplete, "what holds the shell down, its own weight with it, is not stated (hold_down)"
	}
	c.Steps = l.Steps
	w.list = append(w.list, c)
}

// gas says whose pressure lifts.
func (w *work) gas(bottom int, up *statics.Uplift) string {
	switch x := &w.r.Job.Parts[bottom]; {
	case up.Gas == 0:
		return "none, or nothing closes the shell above"
	case up.When == atTest:
		return "of the test, at the top of its fill"
	case strings.HasPrefix(up.When, "under "):
		return "of the condition"
	case x.Pressure.Given() && x.Schedule == "":
		return "as the part states"
	}
	return "as the document states"
}

// raised writes down what liquid does to one part: to a flat one its pressure over the
// circle, to a head over its rim that less the weight of the liquid that stands in it, to
// a cone what is summed over its surface.
func (w *work) raised(l *worked.List, x *statics.Raised, when string) {
	part := &w.r.Job.Parts[x.Part]
	id := "part " + part.ID
	gravity := w.p.Parts[x.Part].Schedule.Service.SpecificGravity.Value
	if when == atTest {
		gravity, _ = w.p.TestGravity(x.Part)
	}
	h, water := l.Length(x.Foot/wall.HeadPressure(gravity, 1)), l.Stress(wall.HeadPressure(1, 1))/l.Length(1)
	l.Add("liquid over the lower end of "+id, "h", "from its level down to there", "", h, l.LengthUnit(), "")
	l.Add("pressure of the liquid there", "p0", "γ·ρw·g·h, ρw·g of water per "+l.LengthUnit(), worked.Put("#·#·#", gravity, water, h), l.Stress(x.Foot), l.StressUnit(), "hydrostatics")
	over := x.Force / x.Foot // m² that it would press on, flat
	switch stated := w.p.Stated(x.Part); part.Form {
	case laminate.HeadPart:
		d := stated.InsideDiameter.SI()
		rim := math.Pi / 4 * d * d
		l.Add("weight of the liquid in "+id+" above its rim", "W", "as far as it fills it, by its shape", "", l.Force(x.Foot*rim-x.Force), l.ForceUnit(), "geometry, summed in rings")
		l.Add("lift by the liquid under "+id, "Fl", "p0·π/4·D² − W, D inside", worked.Put("#·3.14159265/4·#^2 - #", l.Stress(x.Foot), l.Length(d), l.Force(x.Foot*rim-x.Force)), l.Force(x.Force), l.ForceUnit(), "statics")
	case laminate.Cover, laminate.FlatBottom:
		l.Add("lift by the liquid under "+id, "Fl", "p0·π/4·D², D of the shell inside", worked.Put("#·3.14159265/4·#^2", l.Stress(x.Foot), l.Length(math.Sqrt(4/math.Pi*over))), l.Force(x.Force), l.ForceUnit(), "statics")
	default:
		l.Add("lift by the liquid under "+id, "Fl", "Σ p·dA upward over its surface, p falling by γ·ρw·g·y", "", l.Force(x.Force), l.ForceUnit(), "statics, summed in rings")
	}
}
