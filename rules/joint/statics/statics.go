// Package statics works out what is asked of what is laid onto cured parts of a job:
// what presses and pulls at joints, what openings take from walls, how far straps, pads
// and necks have to reach, in service, under each condition and in the test. The rules
// hold laminates against it; proposals and papers read it.
package statics

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/rules"
	"math"
)

// EachJoint is a rule that looks at each joint whose two parts are there.
func EachJoint(look func(p *rules.JobPass, x *Joined)) func(*rules.JobPass) {
	return func(p *rules.JobPass) {
		for i := range p.Job.Joints {
			j := &p.Job.Joints[i]
			a, b := p.Part(j.Between[0]), p.Part(j.Between[1])
			if a >= 0 && b >= 0 {
				look(p, &Joined{Joint: j, Index: i, Parts: [2]int{a, b}})
			}
		}
	}
}

// Joined is a joint with the parts that it joins.
type Joined struct {
	*laminate.Joint
	Index int
	Parts [2]int
}

func (x *Joined) At(key string) laminate.Ref {
	return laminate.Ref{Kind: laminate.RefJoint, Index: x.Index, Key: key}
}

// EachNozzle is a rule that looks at each nozzle whose part is there.
func EachNozzle(look func(p *rules.JobPass, x *Opening)) func(*rules.JobPass) {
	return func(p *rules.JobPass) {
		for i := range p.Job.Nozzles {
			n := &p.Job.Nozzles[i]
			if on := p.Part(n.On); on >= 0 {
				look(p, &Opening{Nozzle: n, Index: i, Part: on})
			}
		}
	}
}

// Opening is a nozzle with the part that it is on.
type Opening struct {
	*laminate.Nozzle
	Index, Part int
}

func (x *Opening) At(key string) laminate.Ref {
	return laminate.Ref{Kind: laminate.RefNozzle, Index: x.Index, Key: key}
}

// Shear is what one square of a bond may carry, Pa, of the share of its strength that what
// it bonds keeps, and whose figures it is made of: the resin of a bond softens with that
// of the walls, and no sooner than they lose as much. What a bond keeps by itself nobody
// states; more it is not.
func Shear(j *laminate.Job, share float64) (shear float64, basis string) {
	strength, factor := j.Bond.ShearStrength, j.Bond.Factor
	source := ", without a source"
	if j.Bond.Source != "" {
		source = ": " + j.Bond.Source
	}
	switch {
	case strength.Given() && factor.Given:
		basis = "the bond that the job states, common practice, no source for the form" + source
	case strength.Given():
		basis = "the shear strength that the job states, over 10, from memory" + source
	case factor.Given:
		basis = "from memory: a bond of 2,000 psi, over the factor that the job states" + source
	default:
		basis = "from memory: a bond of 2,000 psi over 10, typical values that the job's [bond] replaces"
	}
	if !strength.Given() {
		strength = catalog.BondShear
	}
	if share < 1 {
		basis += "; warm no more than the walls keep of their strength, " + quantity.Share(share) + " (common practice, no source)"
	}
	return strength.SI() * share / factor.Or(catalog.BondFactor), basis
}

// Stack is a laminate as far as its strength counts.
type Stack struct {
	Structure, total, barrier float64 // m
	Hoop                      float64 // N/m that the structure may bear by the strength table; 0 where it does not say
	Known                     bool    // every thickness is
}

func StackOf(a *laminate.Analysis) Stack {
	s := Stack{Structure: a.Zones[laminate.StructuralLayer].Thickness, total: a.Total.Thickness, barrier: a.Barrier.Thickness, Known: a.Total.ThicknessKnown}
	allMat, table := true, true
	for i := range a.Rows {
		if m := a.Rows[i].Material; m != nil && a.Rows[i].Zone == laminate.StructuralLayer {
			allMat = allMat && m.Form != laminate.WovenRoving
			table = table && form.Untabled(&a.Rows[i]) == ""
		}
	}
	if table {
		s.Hoop = s.Structure * shell.TableStrength(s.Structure, allMat) / shell.TableSafety
	}
	return s
}

// Warm goes on behind a strength: where it is not that of a cold laminate it says so.
func Warm(share float64) string {
	if share == 1 {
		return ","
	}
	return ", " + quantity.Share(share) + " of what it bears cold,"
}

// Softened ends what is said of a bond: where it is not cold it says what it keeps.
func Softened(share float64) string {
	if share == 1 {
		return ""
	}
	return "; warm it is taken to keep " + quantity.Share(share) + " of its shear"
}

// Barrier is the thickness of a part's barrier, m; not known where a thickness
// is not.
func Barrier(p *rules.JobPass, part int) (m float64, known bool) {
	a := p.Parts[part].Analysis
	return a.Barrier.Thickness, a.Barrier.ThicknessKnown
}

// Thinner tells whether a is below b by more than rounding.
func Thinner(a, b float64) bool { return quantity.Below(a, b) }

// outsides are the diameters of the outer faces of a joint's parts where it joins them,
// m, or of which of them that is not known, and what says it.
func (x *Joined) outsides(p *rules.JobPass) (m [2]float64, missing string) {
	var parts [2]*laminate.Part
	var thick [2]float64
	for k, part := range x.Parts {
		parts[k], thick[k] = p.Stated(part), thickness(p, part)
	}
	inside, m := ground.Joined(parts, thick)
	for k, part := range x.Parts {
		id, other := p.Job.Parts[part].ID, p.Job.Parts[x.Parts[1-k]].ID
		switch {
		case parts[k].Form == laminate.Panel:
			return m, "part " + id + " is a plate, and what its edge carries is not figured"
		case !math.IsNaN(m[k]):
		case math.IsNaN(inside[k]) && len(ground.Bores(parts[k])) > 0:
			return m, "which end of part " + id + " is joined is not known: the width of part " + other + " is not stated (inside_diameter, of a flange or cover its size)"
		default:
			return m, "the outside diameter of part " + id + " is not known (inside_diameter, and the thickness of its laminate)"
		}
	}
	return m, ""
}

// thickness is that of a part's whole wall, m, NaN where it is not known.
func thickness(p *rules.JobPass, part int) float64 {
	a := p.Parts[part].Analysis
	if !a.Total.ThicknessKnown || len(a.Rows) == 0 {
		return math.NaN()
	}
	return a.Total.Thickness
}

// Plate is a part of the joint that is a flat plate, −1 where none is.
func (x *Joined) Plate(p *rules.JobPass) int {
	for _, part := range x.Parts {
		if p.Job.Parts[part].Form == laminate.Panel {
			return part
		}
	}
	return -1
}

// Bolted tells whether the parts of the joint are bolted to each other, so that nothing
// is laid over them: a flange and another or a cover, or a cover that a nozzle names.
func (x *Joined) Bolted(p *rules.JobPass) bool {
	flanges, covers := 0, 0
	for _, part := range x.Parts {
		switch p.Job.Parts[part].Form {
		case laminate.Flange:
			flanges++
		case laminate.Cover:
			covers++
			if x.Closes(p, part) != "" {
				return true
			}
		default:
		}
	}
	return flanges > 0 && flanges+covers == 2
}

// Closes is the nozzle that a cover is bolted onto, "" where none names it.
func (x *Joined) Closes(p *rules.JobPass, cover int) (nozzle string) {
	for _, i := range p.Ending(p.Job.Parts[cover].ID) {
		if n := &p.Job.Nozzles[i]; n.Cover == p.Job.Parts[cover].ID {
			nozzle = n.ID
		}
	}
	return nozzle
}

// Pressed is the pressure inside at the joint, that of the part in which it is higher,
// Pa, or what is missing for it.
func (x *Joined) Pressed(p *rules.JobPass, by Pressing) (pa float64, missing string) {
	heights, _, _ := x.places(p)
	for k, part := range x.Parts {
		here, missing := by.At(p, part, heights[k])
		if missing != "" {
			return 0, missing
		}
		pa = math.Max(pa, here)
	}
	return pa, ""
}

// places is how high the joint is above the lower end of each part, and above that of
// the lowest course where both stand, m; 0, the worst, of others.
func (x *Joined) places(p *rules.JobPass) (heights [2]float64, top float64, standing bool) {
	bottoms := [2]float64{}
	top, standing = math.Inf(-1), true
	for k, part := range x.Parts {
		at, ok := p.Elevation(part)
		bottoms[k] = at
		standing = standing && ok
		top = math.Max(top, at)
	}
	for k := range heights {
		if standing {
			heights[k] = top - bottoms[k]
		}
	}
	return heights, top, standing
}

// Loads are those at a joint.
type Loads struct {
	inside, thrust float64 // Pa: on the wall, and as far as it pulls along the axis
	diameter       float64 // m, of the bond line

	pressed, liquid float64 // what the thrust is of: Pa that press, and N of liquid that hang or lift
}
