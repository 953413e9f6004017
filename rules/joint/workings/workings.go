// Package workings works out step by step what straps, pads and necks of a job have
// to bear, and what lifts its shell, as the rules of joints judge them, for a reviewer
// with a pocket calculator.
package workings

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/wall/worked"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/joint/statics"
	by "frp/veilwright/rules/others"
)

// The names of the checks.
const (
	BondLength     = "bond-length"
	StrapLoad      = "strap-hoop-load"
	StrapAlong     = "strap-axial-load" // where it asks for more than the load round
	StrapThickness = "strap-thickness"
	PadLoad        = "pad-load"
	PadBond        = "pad-bond-shear"
	NeckBond       = "neck-bond-shear"
	PadVacuum      = "pad-structure-under-vacuum" // of a nozzle under vacuum
	NeckWall       = "neck-wall"                  // where its laminate, class and size are stated
)

// Check is one demand on what is laid at a joint or nozzle, its Case the joint or
// nozzle, and how its figures come about.
type Check struct {
	wall.Criterion
	At    laminate.Ref // the joint or nozzle
	Steps []worked.Step
}

// Of works out every joint and nozzle of a judged job, whose parts are there. What the
// rules cannot determine is incomplete, with their word for what is missing.
func Of(r *rules.JobReport, lib *laminate.Library, u quantity.System) (list []Check) {
	w := &work{r: r, p: &rules.JobPass{Assembly: r.Job.Assemble(), Library: lib, Units: u, Parts: r.Parts}}
	for i := range r.Job.Joints {
		w.at, w.of = laminate.Ref{Kind: laminate.RefJoint, Index: i}, "joint "+r.Job.Joints[i].ID
		w.joint(&r.Job.Joints[i])
		w.proved()
	}
	for i := range r.Job.Nozzles {
		w.at, w.of = laminate.Ref{Kind: laminate.RefNozzle, Index: i}, "nozzle "+r.Job.Nozzles[i].ID
		w.nozzle(&r.Job.Nozzles[i])
		w.proved()
	}
	return w.list
}

// work is a job under way, at one joint or nozzle.
type work struct {
	r    *rules.JobReport
	p    *rules.JobPass
	at   laminate.Ref
	of   string
	list []Check
}

// check begins a check that a rule judges: incomplete where the rule says so. For the
// others steps writes down the figures, the demand and what can be borne last.
func (w *work) check(name string, kind quantity.Kind, rule *rules.Rule, demand, capacity float64, steps func(*worked.List)) {
	if w.answered(name, rule) {
		return
	}
	c := Check{At: w.at, Criterion: wall.Criterion{Name: name, Case: w.of, Kind: kind, Governs: true, Basis: rule.Basis}}
	if said := w.said(rule, rules.Incomplete); said != "" {
		w.open(name, rule, said)
		return
	}
	l := worked.List{US: w.p.Units == quantity.US}
	steps(&l)
	c.Demand, c.Capacity, c.Answer, c.Reason = demand, capacity, wall.Holds, w.said(rule, rules.Break)
	if quantity.Below(capacity, demand) {
		c.Answer = wall.Fails
	}
	if c.Ratio = math.Inf(1); capacity > 0 || demand <= 0 {
		c.Ratio = demand / math.Max(capacity, math.SmallestNonzeroFloat64)
		asked, in := l.Of(demand, kind)
		has, _ := l.Of(capacity, kind)
		l.Steps = append(l.Steps, worked.Step{What: c.Title(), Symbol: "utilization", Formula: "required / allowable", Numbers: worked.Put("#/#", asked, has), In: in, Value: c.Ratio, Source: rule.Basis, Limit: "1", Answer: c.Answer.String()})
	}
	c.Steps = l.Steps
	w.list = append(w.list, c)
}

// answered skips a check that others answer for, where they do for what the rule found.
func (w *work) answered(name string, rule *rules.Rule) bool {
	for i := range w.r.Answered {
		f := &w.r.Answered[i]
		if _, about := f.In(w.at); about && f.Rule == rule {
			w.skip(name, "not figured here: it rests on others (proved_by)")
			return true
		}
	}
	return false
}

// proved adds the figures of the proof of a joint or nozzle that something rests on.
func (w *work) proved() {
	t, ok := by.Of(w.r, w.p.Library, w.p.Units, w.at)
	if !ok {
		return
	}
	for _, p := range t.Checks { // they reach: that is why it rests on them
		c := Check{At: w.at, Criterion: wall.Criterion{Name: p.Name, Case: w.of, Kind: p.Kind, Governs: true, Demand: p.Demand, Capacity: p.Capacity, Answer: wall.Holds, Basis: t.Proof.Basis()}}
		if c.Measured() {
			c.Ratio = p.Demand / p.Capacity
			l := worked.List{US: w.p.Units == quantity.US}
			form.WorkProved(&l, p.Name, &form.Weighing{Demand: p.Demand, Capacity: p.Capacity, Basis: c.Basis})
			l.Steps = append(l.Steps, worked.Step{What: c.Title(), Symbol: "utilization", Formula: "required / allowable", Numbers: worked.Put("#/#", l.Stress(p.Demand), l.Stress(p.Capacity)), Value: c.Ratio, Source: c.Basis, Limit: "1", Answer: c.Answer.String()})
			c.Steps = l.Steps
		} else {
			c.Reason = c.Compared(w.p.Units)
		}
		w.list = append(w.list, c)
	}
}

// open leaves a check undetermined, with a rule's word for why.
func (w *work) open(name string, rule *rules.Rule, why string) {
	w.list = append(w.list, Check{At: w.at, Criterion: wall.Criterion{Name: name, Case: w.of, Governs: true, Basis: rule.Basis, Answer: wall.Incomplete, Reason: why}})
}

// skip says why a check is not asked for.
func (w *work) skip(name string, why string) {
	w.list = append(w.list, Check{At: w.at, Criterion: wall.Criterion{Name: name, Case: w.of, Answer: wall.NotApplicable, Reason: why}})
}

// said is what a rule says of the joint or nozzle in a severity, "" where it says
// nothing.
func (w *work) said(rule *rules.Rule, severity rules.Severity) string {
	for i := range w.r.Findings {
		f := &w.r.Findings[i]
		if _, about := f.In(w.at); about && f.Rule == rule && f.Severity == severity {
			return strings.TrimPrefix(f.Message, w.of+": ")
		}
	}
	return ""
}

// pressure writes down the pressure at a place of a part: that of the gas, and of the
// liquid over it.
func (w *work) pressure(l *worked.List, what string, part int, pa float64, condition string) {
	v := &w.p.Parts[part].Schedule.Service
	gas, of, whose := statics.Gas(w.p, part, condition), "the service", "as the document states"
	switch x := &w.r.Job.Parts[part]; {
	case condition != "":
		of = "condition " + condition
	case x.Pressure.Given() && x.Schedule == "":
		of, whose = "part "+x.ID, "as the part states"
	}
	l.Add("pressure of "+of, "pg", whose, "", l.Stress(gas), l.StressUnit(), "")
	if inch := wall.HeadPressure(v.SpecificGravity.Value, 1); pa > gas && inch > 0 {
		head := (pa - gas) / inch
		water := l.Stress(wall.HeadPressure(1, 1)) / l.Length(1)
		l.Add("liquid over it", "h", "from its level down to there", "", l.Length(head), l.LengthUnit(), "")
		l.Add(what, "p", "pg + γ·ρw·g·h, ρw·g of water per "+l.LengthUnit(), worked.Put("# + #·#·#", l.Stress(gas), v.SpecificGravity.Value, water, l.Length(head)), l.Stress(pa), l.StressUnit(), "hydrostatics")
		return
	}
	l.Add(what, "p", "pg", worked.Number(l.Stress(gas)), l.Stress(pa), l.StressUnit(), "no liquid over it")
}

// shear writes down what one square of a bond may carry of the share that it keeps warm.
func (w *work) shear(l *worked.List, share float64) {
	b := &w.r.Job.Bond
	strength := b.ShearStrength
	if !strength.Given() {
		strength = catalog.BondShear
	}
	factor := b.Factor.Or(catalog.BondFactor)
	pa, basis := statics.Shear(w.r.Job, share)
	formula, numbers, n := "shear strength of the bond / its factor", "#/#", []float64{l.Stress(strength.SI()), factor}
	if share != 1 {
		formula, numbers, n = "retention·"+formula, "#·"+numbers, append([]float64{share}, n...)
	}
	l.Add("shear that a bond may carry", "τ", formula, worked.Put(numbers, n...), l.Stress(pa), l.StressUnit(), basis)
}

// carries writes down what the structure of a strap or pad may bear in a direction, warm.
func (w *work) carries(l *worked.List, of, id, way string, share float64) {
	a := w.p.Analysis(id)
	if a == nil {
		l.Say(of+": load that it may bear", "nothing: no laminate is named", "")
		return
	}
	hoop, t, known := statics.Carries(a)
	if !known {
		l.Say(of+": load that it may bear", "nothing: laminate "+id+" has no structure", "")
		return
	}
	l.Add(of+", laminate "+id+": thickness of its structure", "ts", "Σ tp of its structural plies", "", l.Length(t), l.LengthUnit(), "")
	l.Add(of+": least tensile strength of the table at that thickness", "S", "by thickness and kind of plies", "", l.Stress(10*hoop/t), l.StressUnit(), "NBS PS 15-69; ASTM C582 type I for mat; from memory")
	formula, numbers, n := "ts·S/10", "#·#/10", []float64{l.Length(t), l.Stress(10 * hoop / t)}
	if share != 1 {
		formula, numbers, n = "ts·S/10·retention", "#·#/10·#", append(n, share)
	}
	l.Add(of+": load that it may bear "+way, "Us", formula, worked.Put(numbers, n...), l.Line(hoop*share), l.LineUnit(), "a tenth of the table's strength")
}

// thrust writes down what of the pressure and the liquid pulls along the axis of a joint,
// as a pressure on the circle of its bond line, which is wider than that of the walls.
func (w *work) thrust(l *worked.List, n *statics.StrapNeed) {
	const circle = ", on the circle of the bond line"
	gas := "what of p pulls: over a bottom on its foundation the gas alone, where something closes the shell above; 0 where nothing closes the ends"
	if n.Pressed == n.Inside {
		gas = "p"
	}
	if n.Liquid == 0 {
		l.Add("pressure that pulls along the axis", "pt", gas, worked.Number(l.Stress(n.Pressed)), l.Stress(n.Thrust), l.StressUnit(), "")
		return
	}
	l.Add("pressure that pulls at heads and hanging bottoms", "pc", gas, worked.Number(l.Stress(n.Pressed)), l.Stress(n.Pressed), l.StressUnit(), "")
	l.Add("liquid that hangs below, or lifts what is above", "W", "its weight; of what lifts, what it presses upward", "", l.Force(n.Liquid), l.ForceUnit(), "geometry, hydrostatics")
	l.Add("pressure that pulls along the axis"+circle, "pt", "pc + W/(π/4·D²)", worked.Put("# + #/(3.14159265/4·#^2)", l.Stress(n.Pressed), l.Force(n.Liquid), l.Length(n.Diameter)), l.Stress(n.Thrust), l.StressUnit(), "statics")
}

func (w *work) joint(x *laminate.Joint) {
	var parts []int
	for _, id := range x.Between {
		if k := w.p.Part(id); k >= 0 {
			parts = append(parts, k)
		}
	}
	if len(parts) < 2 {
		return // its document is at fault, and says so
	}
	if w.answered(BondLength, joint.PlateCorner) {
		for _, name := range [...]string{StrapLoad, StrapThickness} {
			w.answered(name, joint.PlateCorner)
		}
		return
	}
	if said := w.said(joint.PlateCorner, rules.Incomplete); said != "" {
		for _, name := range [...]string{BondLength, StrapLoad, StrapThickness} {
			w.open(name, joint.PlateCorner, said)
		}
		return
	}
	if statics.Bolted(w.p, w.at.Index) {
		for _, name := range [...]string{BondLength, StrapLoad, StrapThickness} {
			w.skip(name, "its parts are bolted to each other, and nothing is laid over them")
		}
		return
	}
	need, _ := statics.Strap(w.p, w.at.Index)
	bonds := need.Bonds
	pressed := parts[0] // the one in which it is highest
	if w.p.Parts[parts[1]].Schedule.Service.Pressure.SI() > w.p.Parts[pressed].Schedule.Service.Pressure.SI() {
		pressed = parts[1]
	}
	along := joining.AxialLoad(need.Thrust, need.Diameter) + x.AxialLoad.SI()
	pulls := func(l *worked.List) {
		w.pressure(l, "pressure inside at the joint", pressed, need.Inside, need.AlongUnder)
		l.Add("diameter of the bond line", "D", "outside of the thicker wall", "", l.Length(need.Diameter), l.LengthUnit(), "")
		w.thrust(l, &need)
		l.Add("load along the axis beside it", "Nx", "as the document states", "", l.Line(x.AxialLoad.SI()), l.LineUnit(), "")
		l.Add("load along the axis", "N", "pt·D/4 + Nx", worked.Put("#·#/4 + #", l.Stress(need.Thrust), l.Length(need.Diameter), l.Line(x.AxialLoad.SI())), l.Line(along), l.LineUnit(), "statics")
	}
	w.check(BondLength, quantity.Size, joint.JointShearShort, need.Bond, bonds, func(l *worked.List) {
		pulls(l)
		w.shear(l, need.AlongShare)
		shear, _ := statics.Shear(w.r.Job, need.AlongShare)
		l.Add("bond needed on each side", "L", "N/τ, not below 0", worked.Put("max(0, #)/#", l.Line(along), l.Stress(shear)), l.Length(need.Bond), l.LengthUnit(), joint.JointShearShort.Basis)
		if need.Short >= 0 {
			id := w.r.Job.Parts[need.Short].ID
			if need.Shared > 0 {
				long := w.p.Stated(need.Short).Length.SI()
				l.Add("what all straps on part "+id+" ask for", "ΣLb", "Σ (width − gap)/2 of the straps on it", "", l.Length(need.Shared), l.LengthUnit(), "more than it is long")
				l.Add("bond on part "+id, "Lb", "length of part "+id+"·((width − gap)/2)/ΣLb", worked.Put("#·((# - #)/2)/#", l.Length(long), l.Length(x.Width.SI()), l.Length(x.Gap.SI()), l.Length(need.Shared)), l.Length(bonds), l.LengthUnit(), "its share of that part")
				return
			}
			l.Add("bond on part "+id, "Lb", "min((width − gap)/2, length of part "+id+")", worked.Put("min((# - #)/2, #)", l.Length(x.Width.SI()), l.Length(x.Gap.SI()), l.Length(bonds)), l.Length(bonds), l.LengthUnit(), "the width of the widest ply that counts")
			return
		}
		l.Add("bond on each side", "Lb", "(width − gap)/2", worked.Put("(# - #)/2", l.Length(x.Width.SI()), l.Length(x.Gap.SI())), l.Length(bonds), l.LengthUnit(), "the width of the widest ply that counts")
	})
	share := need.Share
	var hoop, structure float64
	if a := w.p.Analysis(x.Outside); a != nil {
		hoop, structure, _ = statics.Carries(a)
	}
	if need.Hoop == 0 && w.said(joint.JointHoopThin, rules.Incomplete) == "" {
		why := "nothing presses on it"
		if need.Inside > 0 {
			why = "a corner is held round by the bottom and its reinforcement"
		}
		w.skip(StrapLoad, why)
	} else {
		w.check(StrapLoad, quantity.LineLoad, joint.JointHoopThin, need.Hoop*share, hoop*share, func(l *worked.List) {
			w.pressure(l, "pressure inside at the joint", pressed, need.Round, need.Under)
			l.Add("load round that the strap has to carry over the gap", "N", "p·D/2", worked.Put("#·#/2", l.Stress(need.Round), l.Length(need.Diameter)), l.Line(need.Hoop*share), l.LineUnit(), "statics")
			w.carries(l, "strap", x.Outside, "round", share)
		})
	}
	beside := len(w.list) - 1
	// Where the pull asks for more than the load round, which has half of it in it.
	if pull := need.Along * need.AlongShare; need.Along > need.Hoop && w.said(joint.JointHoopThin, rules.Incomplete) == "" {
		w.check(StrapAlong, quantity.LineLoad, joint.JointAxialThin, pull, hoop*need.AlongShare, func(l *worked.List) {
			pulls(l)
			w.carries(l, "strap", x.Outside, "along", need.AlongShare)
		})
	}
	w.check(StrapThickness, quantity.Thickness, joint.JointHoopThin, need.Structure, structure, func(l *worked.List) {
		l.Add("structure of the thinner wall", "tw", "the lesser of both", "", l.Length(need.Structure), l.LengthUnit(), "common practice, no source")
		l.Add("structure of the strap, laminate "+x.Outside, "ts", "Σ tp of its structural plies", "", l.Length(structure), l.LengthUnit(), "")
	})
	if w.list[beside].Answer == wall.Fails {
		w.list[len(w.list)-1].Reason = "" // what the rule says is about the load
	}
}
