package laminate

import (
	"math"

	"frp/veilwright/laminate/quantity"
)

// Assembly is a job put together: its ids looked up and its parts stood on each
// other, once for any number of questions. It holds as long as nobody changes the
// job, and is for one goroutine.
type Assembly struct {
	Job *Job
	// Founded says that a flat bottom lies on its foundation, which then bears
	// what stands in the equipment.
	Founded bool

	last     int       // shell course, −1 where there is none
	shell    float64   // m, straight side of all courses, NaN where a length is not stated
	bottoms  []float64 // m, by part, NaN where it is not known, asked where nozzles tell
	ids      [2]map[string]int
	carriers map[string][]int // nozzles by the part that they end in
}

// asked stands for the bottom of a flange or cover until somebody asks for it.
var asked = math.Inf(1)

// Assemble puts a job together.
func (j *Job) Assemble() *Assembly {
	a := &Assembly{Job: j, last: -1, bottoms: make([]float64, len(j.Parts))}
	for i := range j.Parts {
		if j.Parts[i].Form == ShellCourse {
			a.last = i
		}
	}
	below := false
	for i := range j.Parts {
		p := &j.Parts[i]
		a.Founded = a.Founded || p.Form == FlatBottom && p.Supported.Or(true)
		a.bottoms[i] = math.NaN()
		switch rise, known := p.Rise(); {
		case p.Form == Flange || p.Form == Cover:
			a.bottoms[i] = asked
		case p.Form == ShellCourse:
			below, a.bottoms[i] = true, a.shell
			if a.shell += p.Length.SI(); !p.Length.Given() {
				a.shell = math.NaN()
			}
		case p.Form != FlatBottom && p.Form != HeadPart && p.Form != Cone || a.last < 0:
		case below && i > a.last:
			a.bottoms[i] = a.shell
		case !below && p.Form == FlatBottom:
			a.bottoms[i] = 0
		case !below && known:
			a.bottoms[i] = -rise
		}
	}
	return a
}

// Part finds a part by its id, -1 where there is none.
func (a *Assembly) Part(id string) int {
	return a.find(0, id, len(a.Job.Parts), func(i int) string { return a.Job.Parts[i].ID })
}

// Laminate finds a laminate by its id, -1 where there is none.
func (a *Assembly) Laminate(id string) int {
	return a.find(1, id, len(a.Job.Laminates), func(i int) string { return a.Job.Laminates[i].ID })
}

// find goes by the first row of an id.
func (a *Assembly) find(table int, id string, rows int, of func(int) string) int {
	if a.ids[table] == nil {
		a.ids[table] = make(map[string]int, rows)
		for i := rows - 1; i >= 0; i-- {
			a.ids[table][of(i)] = i
		}
	}
	if i, ok := a.ids[table][id]; ok {
		return i
	}
	return -1
}

// Elevation is where the bottom of a part stands above the bottom of the lowest
// shell course, in m: courses stand on each other in the order of the document,
// bottoms and heads before the first of them below it, those after it on the
// last. A flange or a cover stands where the lowest edge of the lowest nozzle
// is that names it. Not ok of what is no part of the shell, or where a length
// on the way is not stated.
func (a *Assembly) Elevation(part int) (m float64, ok bool) {
	if a.bottoms[part] == asked {
		a.bottoms[part] = math.NaN() // so that one that stands on itself is nowhere
		a.bottoms[part] = a.hung(a.Job.Parts[part].ID)
	}
	if m = a.bottoms[part]; math.IsNaN(m) {
		return 0, false
	}
	return m, true
}

// ending lists the nozzles that end in a part: a flange or a cover.
func (a *Assembly) ending(id string) []int {
	if a.carriers == nil {
		a.carriers = map[string][]int{}
		for i := range a.Job.Nozzles {
			for _, end := range []string{a.Job.Nozzles[i].Flange, a.Job.Nozzles[i].Cover} {
				if end != "" {
					a.carriers[end] = append(a.carriers[end], i)
				}
			}
		}
	}
	return a.carriers[id]
}

// hung is the lowest edge of the nozzles that end in a part.
func (a *Assembly) hung(id string) float64 {
	lowest := math.NaN()
	for _, i := range a.ending(id) {
		n := &a.Job.Nozzles[i]
		on := a.Part(n.On)
		if on < 0 {
			continue
		}
		at, ok := a.Elevation(on)
		if !ok || !n.Height.Given() {
			return math.NaN()
		}
		if at += n.Height.SI() - n.Cut().SI()/2; math.IsNaN(lowest) || at < lowest {
			lowest = at
		}
	}
	return lowest
}

// OnTop tells whether a part closes the shell at its top: it stands after the
// last course.
func (a *Assembly) OnTop(part int) bool {
	f := a.Job.Parts[part].Form
	return a.last >= 0 && part > a.last && (f == HeadPart || f == Cone || f == Cover || f == FlatBottom)
}

// Covered gives the depth, in m, of a place height m above the bottom of a part
// under the highest liquid; 0 where it is above that. Not ok where the level or
// the place of the part is not known.
func (a *Assembly) Covered(part int, height float64) (depth float64, ok bool) {
	if own := a.Job.Parts[part].LiquidHeight; own.Given() {
		return math.Max(0, own.SI()-height), true
	}
	bottom, ok := a.Elevation(part)
	if !ok || !a.Job.Vessel.LiquidHeight.Given() {
		return 0, false
	}
	return math.Max(0, a.Job.Vessel.LiquidHeight.SI()-bottom-height), true
}

// level is the liquid height of a part that states none of its own, from the
// level of the whole equipment.
func (a *Assembly) level(part int) quantity.Length {
	if a.Job.Parts[part].LiquidHeight.Given() || !a.Job.Vessel.LiquidHeight.Given() {
		return quantity.Length{}
	}
	depth, ok := a.Covered(part, 0)
	if !ok {
		return quantity.Length{}
	}
	unit := a.Job.Units.Long()
	return quantity.New(depth/quantity.New(1, unit).SI(), unit).Spelled(unit)
}

// Wall is [Job.Wall].
func (a *Assembly) Wall(part int) *Schedule {
	return a.wall(part, a.Laminate(a.Job.Parts[part].Laminate))
}

func (a *Assembly) wall(part, laminate int) *Schedule {
	j := a.Job
	p := &j.Parts[part]
	if p.Schedule != "" {
		if s, ok := j.Schedules[p.Schedule]; ok {
			return s
		}
		return &Schedule{Head: j.Head}
	}
	s := &Schedule{Head: j.Head, Part: p.Part, Service: j.Service, Conditions: j.Conditions, Resins: j.Resins, Materials: j.Materials}
	if level := a.level(part); level.Given() {
		s.Part.LiquidHeight = level
	}
	s.Part.Place = Place{Top: a.OnTop(part), Tested: j.Test != (Test{})}
	if p.Form == ShellCourse && !math.IsNaN(a.shell) {
		s.Part.Place.Shell = quantity.New(a.shell, quantity.Meter)
	}
	p.override(&s.Service)
	if p.Temperature.Given() || p.Pressure.Given() || p.Vacuum.Given() {
		s.Conditions = nil // its own load and temperature are all there is
	}
	if laminate >= 0 {
		s.Plies = j.Laminates[laminate].Plies
	}
	return s
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
