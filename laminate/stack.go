package laminate

import (
	"math"

	"frp/veilwright/laminate/quantity"
)

// Elevation is where the bottom of a part stands above the bottom of the lowest
// shell course, in m: courses stand on each other in the order of the document,
// bottoms and heads before the first of them below it, those after it on the
// last. A flange or a cover stands where the lowest edge of the lowest nozzle
// is that names it. Not ok of what is no part of the shell, or where a length
// on the way is not stated.
func (j *Job) Elevation(part int) (m float64, ok bool) { return j.elevation(part, 0) }

func (j *Job) elevation(part, depth int) (m float64, ok bool) {
	p := &j.Parts[part]
	switch p.Form {
	case Flange, Cover:
		if depth > len(j.Nozzles) {
			return 0, false
		}
		lowest, found := 0.0, false
		for i := range j.Nozzles {
			n := &j.Nozzles[i]
			on := j.Part(n.On)
			if n.Flange != p.ID && n.Cover != p.ID || on < 0 {
				continue
			}
			at, ok := j.elevation(on, depth+1)
			if !ok || !n.Height.Given() {
				return 0, false
			}
			at += n.Height.SI() - n.Cut().SI()/2
			if !found || at < lowest {
				lowest, found = at, true
			}
		}
		return lowest, found
	case ShellCourse, FlatBottom, HeadPart, Cone:
	default:
		return 0, false
	}
	first, last := j.courses()
	switch {
	case first < 0:
		return 0, false
	case part < first && p.Form == FlatBottom:
		return 0, true
	case part < first:
		rise, ok := p.Rise()
		return -rise, ok
	case part < last && p.Form != ShellCourse:
		return 0, false
	}
	for i := first; i < part; i++ {
		if q := &j.Parts[i]; q.Form == ShellCourse {
			if !q.Length.Given() {
				return 0, false
			}
			m += q.Length.SI()
		}
	}
	return m, true
}

// courses finds the first and the last shell course, -1 where there is none.
func (j *Job) courses() (first, last int) {
	first, last = -1, -1
	for i := range j.Parts {
		if j.Parts[i].Form != ShellCourse {
			continue
		}
		if last = i; first < 0 {
			first = i
		}
	}
	return first, last
}

// OnTop tells whether a part closes the shell at its top: it stands after the
// last course.
func (j *Job) OnTop(part int) bool {
	_, last := j.courses()
	return last >= 0 && part > last && (j.Parts[part].Form == HeadPart || j.Parts[part].Form == Cone || j.Parts[part].Form == Cover || j.Parts[part].Form == FlatBottom)
}

// Covered gives the depth, in m, of a place height m above the bottom of a part
// under the highest liquid; 0 where it is above that. Not ok where the level or
// the place of the part is not known.
func (j *Job) Covered(part int, height float64) (depth float64, ok bool) {
	if own := j.Parts[part].LiquidHeight; own.Given() {
		return math.Max(0, own.SI()-height), true
	}
	bottom, ok := j.Elevation(part)
	if !ok || !j.Vessel.LiquidHeight.Given() {
		return 0, false
	}
	return math.Max(0, j.Vessel.LiquidHeight.SI()-bottom-height), true
}

// level is the liquid height of a part that states none of its own, from the
// level of the whole equipment.
func (j *Job) level(part int) quantity.Length {
	if j.Parts[part].LiquidHeight.Given() || !j.Vessel.LiquidHeight.Given() {
		return quantity.Length{}
	}
	depth, ok := j.Covered(part, 0)
	if !ok {
		return quantity.Length{}
	}
	unit := quantity.Foot
	if j.Units == quantity.Metric {
		unit = quantity.Meter
	}
	return quantity.New(depth/quantity.New(1, unit).SI(), unit).Spelled(unit)
}

// place says where in the shell a part stands.
func (j *Job) place(part int) Place {
	p := Place{Top: j.OnTop(part)}
	if j.Parts[part].Form != ShellCourse {
		return p
	}
	whole := 0.0
	for i := range j.Parts {
		if q := &j.Parts[i]; q.Form == ShellCourse {
			if !q.Length.Given() {
				return p
			}
			whole += q.Length.SI()
		}
	}
	p.Shell = quantity.New(whole, quantity.Meter)
	return p
}

// Cut is the diameter that a nozzle's opening is cut to: the one stated, else
// its nominal size.
func (n *Nozzle) Cut() quantity.Length {
	if n.Opening.Given() {
		return n.Opening
	}
	return n.Size
}

// Rise is how far a head or cone reaches beyond its rim, in m, inside; not ok
// where its shape is not wholly stated. A torispherical head rises
// L − √((L−r)² − (D/2−r)²) (geometry).
func (p *Part) Rise() (m float64, ok bool) {
	d := p.InsideDiameter.SI()
	switch {
	case !p.InsideDiameter.Given():
		return 0, false
	case p.Form == Cone:
		small := p.SmallDiameter
		return (d - small.SI()) / 2 / math.Tan(p.HalfAngle.Value*math.Pi/180), small.Given() && p.HalfAngle.Given
	case p.Form != HeadPart:
		return 0, true
	}
	switch p.Head {
	case Hemispherical:
		return d / 2, true
	case Ellipsoidal:
		return p.Depth.SI(), p.Depth.Given()
	case Torispherical:
		l, r := p.CrownRadius.SI(), p.KnuckleRadius.SI()
		under := (l-r)*(l-r) - (d/2-r)*(d/2-r)
		return l - math.Sqrt(math.Max(0, under)), p.CrownRadius.Given() && p.KnuckleRadius.Given()
	case NoHeadShape:
	}
	return 0, false
}
