// Package joint owns the rules about what is laid onto cured parts of a job:
// straps and seals of joints, pads and necks of nozzles.
package joint

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/rules"
)

const family = "joints"

const memory = "from memory"

// Rules lists the family.
func Rules() []*rules.Rule {
	return []*rules.Rule{
		JointShearShort, JointHoopThin, JointTaperSteep, SealMissing, SealOutOfReach, SealThin, SealVeilNotLast, SealUncoated, SealDiffers, WaxUnderBond, BondPlyNotMat, JointUnqualified, BondTooWarm, StrapNarrow, SealNarrow, BarrierDiffers,
		PadThin, PadNarrow, PadBond, NeckBondShort, GussetMissing, EdgeUnsealed, OpeningLarge, OpeningInKnuckle, OpeningUnderVacuum, OpeningsClose, InsideOverlayThin, OutsideOverlayThin, NeckBarrierThin, NozzleBarrierDiffers, NeckClassLow, NeckThin, NozzlePartsDiffer, OpeningOffPart, PartUnplaced, EndsContradicted, CoverClassLow, NozzleEndUnstated, NozzleLoadsUnknown,
		OverlayOverstrainedAtTest,
	}
}

// over is a rule that looks at each joint whose two parts are there.
func over(look func(p *rules.JobPass, x *joined)) func(*rules.JobPass) {
	return func(p *rules.JobPass) {
		for i := range p.Job.Joints {
			j := &p.Job.Joints[i]
			a, b := p.Part(j.Between[0]), p.Part(j.Between[1])
			if a >= 0 && b >= 0 {
				look(p, &joined{Joint: j, index: i, parts: [2]int{a, b}})
			}
		}
	}
}

// joined is a joint with the parts that it joins.
type joined struct {
	*laminate.Joint
	index int
	parts [2]int
}

func (x *joined) at(key string) laminate.Ref {
	return laminate.Ref{Kind: laminate.RefJoint, Index: x.index, Key: key}
}

// each is a rule that looks at each nozzle whose part is there.
func each(look func(p *rules.JobPass, x *opening)) func(*rules.JobPass) {
	return func(p *rules.JobPass) {
		for i := range p.Job.Nozzles {
			n := &p.Job.Nozzles[i]
			if on := p.Part(n.On); on >= 0 {
				look(p, &opening{Nozzle: n, index: i, on: on})
			}
		}
	}
}

// opening is a nozzle with the part that it is on.
type opening struct {
	*laminate.Nozzle
	index, on int
}

func (x *opening) at(key string) laminate.Ref {
	return laminate.Ref{Kind: laminate.RefNozzle, Index: x.index, Key: key}
}

// bond is what one square of a bond may carry, Pa, and whose figure it is.
func bond(j *laminate.Job) (shear float64, basis string) {
	strength, factor := j.Bond.ShearStrength, j.Bond.Factor
	own := strength.Given() && factor.Given
	if !strength.Given() {
		strength = catalog.BondShear
	}
	basis = "from memory: a bond of 2,000 psi over 10, typical values that the job's [bond] replaces"
	if own {
		basis = "the bond that the job states, common practice, no source for the form"
		if j.Bond.Source != "" {
			basis += ": " + j.Bond.Source
		}
	}
	return strength.SI() / factor.Or(catalog.BondFactor), basis
}

// stack is a laminate as far as its strength counts.
type stack struct {
	structure, total, barrier float64 // m
	hoop                      float64 // N/m that the structure may bear by the strength table; 0 where it does not say
	known                     bool    // every thickness is
}

func stackOf(a *laminate.Analysis) stack {
	s := stack{structure: a.Zones[laminate.StructuralLayer].Thickness, total: a.Total.Thickness, barrier: a.Barrier.Thickness, known: a.Total.ThicknessKnown}
	allMat, table := true, true
	for i := range a.Rows {
		if m := a.Rows[i].Material; m != nil && a.Rows[i].Zone == laminate.StructuralLayer {
			allMat = allMat && m.Form.Chopped()
			table = table && (m.Form.Chopped() || m.Form == laminate.WovenRoving || m.Form == laminate.Veil || m.Form == laminate.ResinCoat)
		}
	}
	if table {
		s.hoop = s.structure * shell.TableStrength(s.structure, allMat) / shell.TableSafety
	}
	return s
}

// warm goes on behind a strength: where it is not that of a cold laminate it says so.
func warm(share float64) string {
	if share == 1 {
		return ","
	}
	return ", " + quantity.Share(share) + " of what it bears cold,"
}

// barrierOf is the thickness of a part's barrier, m; not known where a thickness
// is not.
func barrierOf(p *rules.JobPass, part int) (m float64, known bool) {
	a := p.Parts[part].Analysis
	return a.Barrier.Thickness, a.Barrier.ThicknessKnown
}

// thinner tells whether a is below b by more than rounding.
func thinner(a, b float64) bool { return quantity.Below(a, b) }

// outsides are the diameters of the outer faces of a joint's parts where it joins them,
// m, or of which of them that is not known, and what says it.
func (x *joined) outsides(p *rules.JobPass) (m [2]float64, missing string) {
	var parts [2]*laminate.Part
	var thick [2]float64
	for k, part := range x.parts {
		parts[k], thick[k] = p.Stated(part), thickness(p, part)
	}
	inside, m := ground.Joined(parts, thick)
	for k, part := range x.parts {
		id, other := p.Job.Parts[part].ID, p.Job.Parts[x.parts[1-k]].ID
		switch {
		case !math.IsNaN(m[k]):
		case math.IsNaN(inside[k]) && len(ground.Bores(parts[k])) > 0:
			return m, "which end of part " + id + " is joined is not known: how wide part " + other + " is is not stated (inside_diameter, of a flange or cover its size)"
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

// loads are those at a joint.
type loads struct {
	inside, thrust float64 // Pa: on the wall, and as far as it pulls along the axis
	diameter       float64 // m, of the bond line
}
