// Package stand says where the parts of a vessel are: what of them makes the shell
// stands on each other, and what joints and nozzles tie to the shell hangs on it. It says
// too how far apart shells and lines are held round. It is geometry of numbers in m, NaN
// where one is not stated; package laminate fills it in and asks.
package stand

import (
	"math"
	"slices"
)

// Form is what a part is as far as where it stands goes.
type Form uint8

// The forms.
const (
	Other Form = iota
	Course
	Flat
	Head
	Cone
	Pipe // or duct
	Elbow
	Flange
	Cover
	Panel // of a duct or a housing: nothing says where
)

// Part is a part in the order of the document.
type Part struct {
	ID       string
	Form     Form
	Height   float64 // length of a course or pipe, rise of a head or cone
	Wide     float64 // inside diameter; of a cover its size, the bolts round it or its short side
	Small    float64 // of a cone's small end
	Bend     float64 // radius of an elbow
	Dish     float64 // m³ that a head holds whose depth does not say so; 0 of an ellipsoid
	Turn     float64 // degrees
	Grounded bool    // a flat bottom that lies on its foundation
	Liquid   float64 // height over its bottom that it states
	Filed    bool    // it stands in a file of its own
	Settled  bool    // it states what liquid or pressure there is in it
	Rings    float64 // how far apart they are, as it states
	Flanged  bool    // it states that it ends in flanges
	// At is how far a head or cone is from its wide end at a distance from its axis, NaN
	// where that is not known.
	At func(offset float64) float64
}

// Nozzle is one on a part, and what ends in it; −1 for no part.
type Nozzle struct {
	ID                string
	On                int
	Ends              [2]int
	Height, Offset    float64 // above the bottom of the part, and from its axis
	Reach, Projection float64 // Reach is half its opening
}

// Vessel is the parts as they stand.
type Vessel struct {
	// Founded says that a flat bottom lies on its foundation, which then bears
	// what stands in the equipment.
	Founded bool
	// Stack is what stands in the shell, from the bottom up.
	Stack []int
	// Shell is the free length of the shell: from the lowest end of its courses to
	// the highest, a third of the depth of each head (ASME VIII UG-28, from memory),
	// and a cone that closes it whole, whose end nobody has shown to be stiff enough.
	Shell float64
	// Shaped says that a part is of a shell, a cone by itself too.
	Shaped bool

	parts       []Part
	joints      [][2]int
	nozzles     []Nozzle
	stated      float64 // level that the equipment states
	level       float64 // to which liquid stands in it; NaN where there may be some and nobody says how high
	line        bool    // pipes or elbows, and nothing of a shell
	first, last int     // shell course, −1 where there is none
	wide        float64 // of the widest course
	bottoms     []float64
	tops        []float64
	elsewhere   []bool    // by part: a nozzle ends in it, or a joint ties it to what is not of the shell
	lifted      []int     // parts that what presses from inside may lift
	ties, knots [][]int   // by part, nil until somebody asks: to which parts, and by which joints
	plugged     bool      // a joint ties something to the lower end of the shell, known with hung
	hung        []hung    // by part, likewise
	hanging     []int     // parts below the shell, known with hung
	closing     []int     // by part, likewise
	closed      *[2]bool  // below and above, likewise
	loaded      []float64 // by part, likewise: N/m that joints state
	runs        []*Run    // by part, likewise
}

// New stands parts on each other. Level is how high liquid stands at most above the
// bottom of the lowest course, and vapor says that none does where nobody states one.
func New(parts []Part, joints [][2]int, nozzles []Nozzle, level float64, vapor bool) *Vessel {
	v := &Vessel{parts: parts, joints: joints, nozzles: nozzles, stated: level, first: -1, last: -1, Shell: math.NaN(),
		bottoms: make([]float64, len(parts)), tops: make([]float64, len(parts))}
	shell := false
	for i := range parts {
		p := &parts[i]
		v.line = v.line || p.Form == Pipe || p.Form == Elbow
		v.Shaped = v.Shaped || p.Form == Course || p.Form.closes()
		shell = shell || p.Form == Course || p.Form == Head || p.Form == Flat
		v.Founded = v.Founded || p.Form == Flat && p.Grounded
		v.bottoms[i], v.tops[i] = math.NaN(), math.NaN()
		if p.Form != Course {
			continue
		}
		if v.last, v.wide = i, math.Max(v.wide, p.Wide); v.first < 0 {
			v.first = i
		}
	}
	v.line = v.line && !shell
	if v.last >= 0 {
		v.stand()
	}
	v.place()
	v.level = v.fill(vapor)
	return v
}

// place finds what a nozzle or a joint has away from the shell, and what may be lifted
// in it.
func (v *Vessel) place() {
	v.elsewhere = make([]bool, len(v.parts))
	for i := range v.nozzles {
		for _, end := range v.nozzles[i].Ends {
			if end >= 0 {
				v.elsewhere[end] = true
			}
		}
	}
	for _, j := range v.joints {
		for k, part := range j {
			if other := j[1-k]; part >= 0 && other >= 0 && !v.InShell(other) {
				v.elsewhere[part] = true
			}
		}
	}
	for i := range v.parts {
		if v.OnTop(i) || v.parts[i].Form == Cone && v.InShell(i) {
			v.lifted = append(v.lifted, i)
		}
	}
}

// fill is the level of the liquid: the one stated, else the highest that a part of
// the shell states over itself. Of a shell that states none there is none only where
// vapor alone is in it or each part says so.
func (v *Vessel) fill(vapor bool) float64 {
	if !math.IsNaN(v.stated) {
		return v.stated
	}
	highest, silent := math.Inf(-1), false
	for i := range v.parts {
		p := &v.parts[i]
		if p.Form != Course && !p.Form.closes() || v.Line(i) {
			continue
		}
		silent = silent || math.IsNaN(p.Liquid)
		if p.Liquid > 0 {
			highest = max(highest, v.bottoms[i]+p.Liquid) // NaN of one whose place is not known
		}
	}
	if math.IsInf(highest, -1) && silent && !vapor {
		return math.NaN()
	}
	return highest
}

// Dry tells whether no liquid stands in the equipment, as far as anybody says.
func (v *Vessel) Dry() bool { return v.stated <= 0 || math.IsInf(v.level, -1) }

// Level is how high, in m above the bottom of the lowest course, liquid stands at
// most: what the equipment states, else the highest of what parts of its shell state
// over themselves, infinitely low without any; not ok where there may be some, and nobody
// says how high.
func (v *Vessel) Level() (m float64, ok bool) { return v.level, !math.IsNaN(v.level) }

// Covered gives the depth, in m, of a place height m above the bottom of a part
// under the highest liquid; 0 where it is above that. Not ok where the level or
// the place of the part is not known: a part of the shell goes by what it states
// itself or by the level of the whole equipment alone.
func (v *Vessel) Covered(part int, height float64) (depth float64, ok bool) {
	p, level := &v.parts[part], v.stated
	if !math.IsNaN(p.Liquid) && !p.Filed {
		return math.Max(0, p.Liquid-height), true
	}
	if math.IsNaN(level) && v.last >= 0 && !v.Dry() && p.Form.hangs() {
		level = v.level
	}
	bottom, _ := v.Elevation(part)
	if depth = math.Max(0, level-bottom-height); math.IsNaN(depth) {
		return 0, false
	}
	return depth, true
}

// stand puts what makes the shell on each other: courses and the cones between
// them upward, what comes before the first course below it, the nearest first,
// what comes after the last on it. A head or bottom between courses divides the
// vessel, and where the liquid stands over it is not known.
func (v *Vessel) stand() {
	up, down, ends := 0.0, 0.0, 0.0
	for i := v.first - 1; i >= 0; i-- {
		if p := &v.parts[i]; p.Form.closes() {
			v.Stack = append(v.Stack, i)
			v.tops[i] = down
			down -= p.Height
			v.bottoms[i] = down
			ends += p.yields()
		}
	}
	slices.Reverse(v.Stack)
	for i := v.first; i < len(v.parts); i++ {
		p := &v.parts[i]
		if p.Form != Course && !p.Form.closes() {
			continue
		}
		v.Stack = append(v.Stack, i)
		if i < v.last && (p.Form == Head || p.Form == Flat) {
			continue
		}
		v.bottoms[i] = up
		up += p.Height
		v.tops[i] = up
		if i == v.last {
			v.Shell = up
		}
		if i > v.last {
			ends += p.yields()
		}
	}
	v.Shell += ends
}

// closes tells whether a part of such a form stands in a shell without being a course.
func (f Form) closes() bool { return f == Flat || f == Head || f == Cone }

// yields is what a part that closes the shell adds to its free length.
func (p *Part) yields() float64 {
	switch p.Form {
	case Head:
		return p.Height / 3
	case Cone:
		return p.Height
	default:
		return 0
	}
}

// Elevation is where the lowest place of a part is above the bottom of the lowest
// shell course, in m: courses, and cones between them, stand on each other in the
// order of the document; what comes before the first course hangs below it, what
// comes after the last stands on it. A flange, cover, pipe, duct or elbow is where
// its nozzles or joints hold it. Not ok of what nothing ties to the shell, or where
// a size on the way is not stated.
func (v *Vessel) Elevation(part int) (m float64, ok bool) {
	m = v.bottoms[part]
	if v.parts[part].Form.hangs() {
		m = v.held(part).bottom
	}
	return m, !math.IsNaN(m)
}

// InShell tells whether a part stands in the shell.
func (v *Vessel) InShell(part int) bool {
	f := v.parts[part].Form
	return v.last >= 0 && (f == Course || f.closes())
}

// Top is where a part of the shell ends, likewise; NaN where it is not known.
func (v *Vessel) Top(part int) float64 { return v.tops[part] }

// OnTop tells whether a part closes the shell at its top: it stands after the
// last course, and is no cover of an opening, which a nozzle or a joint has on
// something else or which is less wide than the shell.
func (v *Vessel) OnTop(part int) bool {
	p := &v.parts[part]
	if v.last < 0 || part < v.last || p.Form != Cover {
		return v.last >= 0 && part > v.last && p.Form.closes()
	}
	return !v.elsewhere[part] && !(p.Wide < (1-1e-3)*v.parts[v.last].Wide)
}

// Closed tells whether something closes the shell below and above.
func (v *Vessel) Closed() (below, above bool) {
	if v.closed == nil {
		for i := range v.parts {
			switch f := v.parts[i].Form; {
			case f.closes() || f == Cover:
				_, stands := v.Elevation(i)
				above = above || v.OnTop(i)
				below = below || !v.OnTop(i) && stands && f != Cover
			case f == Flange: // bolted to something
				above = above || v.Rises(i)
			}
		}
		v.closed = &[2]bool{below, above}
	}
	return v.closed[0], v.closed[1]
}

// inStack is where a part is in the stack, −1 of what is not: the stack goes by the order
// of the document.
func (v *Vessel) inStack(part int) int {
	if k, there := slices.BinarySearch(v.Stack, part); there {
		return k
	}
	return -1
}

// Tip tells of a cone in the shell whether its small end is the lower one: what
// stands on it is as wide as its large end, or what it stands on as its small one.
func (v *Vessel) Tip(part int) bool {
	p, k := &v.parts[part], v.inStack(part)
	if k < 0 || p.Form != Cone {
		return false
	}
	meets := func(other int, end float64) bool {
		if other < 0 || other >= len(v.Stack) {
			return false
		}
		q := &v.parts[v.Stack[other]]
		return alike(q.Wide, end) || q.Form == Cone && alike(q.Small, end)
	}
	if meets(k+1, p.Wide) != meets(k+1, p.Small) {
		return meets(k+1, p.Wide) && (k == 0 || meets(k-1, p.Small) || !meets(k-1, p.Wide))
	}
	return meets(k-1, p.Small) && !meets(k-1, p.Wide)
}

// Up is how high above its lower end a head or cone of the shell is at a distance from
// its axis; NaN where that is not known, or of what is neither.
func (v *Vessel) Up(part int, offset float64) float64 {
	p := &v.parts[part]
	if p.At == nil || p.Form != Head && p.Form != Cone {
		return math.NaN()
	}
	if p.Form == Cone && !v.Tip(part) || p.Form == Head && v.OnTop(part) {
		return p.At(offset)
	}
	return p.Height - p.At(offset)
}

func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-3*b }

// Hangs tells whether a part is below the lowest course and held from above: a
// bottom that is on no foundation, and what leads downward from it.
func (v *Vessel) Hangs(part int) bool {
	p := &v.parts[part]
	if p.Form.hangs() {
		return v.held(part).way == downward
	}
	return p.Form.closes() && part < v.first && !p.Grounded
}

// Rises tells whether a part leads upward from the top of the shell, tied to it.
func (v *Vessel) Rises(part int) bool {
	return v.parts[part].Form.hangs() && v.held(part).way == upward
}

// Borne tells whether a course has a bottom hanging from it, or what a joint ties to the
// lower end of the shell in its place: nothing there lies on a foundation. Where such a
// vessel is held nobody states, and any of its courses may be below that.
func (v *Vessel) Borne(part int) bool {
	if v.parts[part].Form != Course || v.Founded {
		return false
	}
	if v.hung == nil {
		v.hang()
	}
	return v.plugged || v.Hangs(v.Stack[0])
}

// Pull is the liquid that pulls along the axis of a course, as its height in m over the
// course's inside circle. Of one which a bottom hangs from it is what presses on the
// circle at the bottom of the lowest course, as wide as the widest, and what hangs below
// that: where courses are alike that is statics at any place of them, for the pressure
// falls upward as the liquid below a place grows; else it is more. Of others it is
// [Vessel.Lift]. Not ok where it is not known.
func (v *Vessel) Pull(part int) (m float64, ok bool) {
	if v.Dry() {
		return 0, true
	}
	return v.Pulled(part, v.level)
}

// Pulled is [Vessel.Pull] where liquid stands to another level, in m above the bottom
// of the lowest course, as that of a test does.
func (v *Vessel) Pulled(part int, level float64) (m float64, ok bool) {
	if !v.Borne(part) {
		return v.Lift(part, level), true
	}
	hangs, whose := v.Below(0)
	d := v.parts[part].Wide
	m = (math.Max(0, level)*v.wide*v.wide + hangs/(math.Pi/4)) / (d * d)
	return m, whose < 0 && !math.IsNaN(m)
}

// Below is what hangs below a place of the shell holds, in m³, m above the bottom of
// the lowest course; whose is a part of which that is not known, −1 for none.
func (v *Vessel) Below(height float64) (m3 float64, whose int) {
	if v.hung == nil {
		v.hang()
	}
	for _, i := range v.hanging {
		at, known := v.Elevation(i)
		if known && at >= height {
			continue
		}
		if m3 += v.parts[i].holds(); !known || math.IsNaN(m3) {
			return 0, i
		}
	}
	return m3, -1
}

// holds is what a part holds, m³, NaN where its sizes do not say.
func (p *Part) holds() float64 {
	circle := math.Pi / 4 * p.Wide * p.Wide
	switch p.Form {
	case Flat, Flange, Cover, Panel:
		return 0
	case Course, Pipe:
		return circle * p.Height
	case Elbow:
		return circle * p.Bend * p.Turn * math.Pi / 180
	case Cone:
		return math.Pi / 12 * p.Height * (p.Wide*p.Wide + p.Wide*p.Small + p.Small*p.Small)
	case Head:
		if p.Dish == 0 {
			return 2.0 / 3 * circle * p.Height // of an ellipsoid
		}
		return p.Dish
	case Other:
	}
	return math.NaN()
}

// Line tells whether a part is of a line of pipes or ducts: such a form, or a cone
// between them in a job that has no shell, bottom or head.
func (v *Vessel) Line(part int) bool {
	f := v.parts[part].Form
	return f == Pipe || f == Elbow || f == Cone && v.line
}

// Unplaced tells whether the equipment has a liquid of which nobody knows how deep
// it stands over a part: a flange, a cover, a panel or a part of a line that states neither
// liquid height nor pressure of its own, and is held by nothing that says where, or
// hangs on a shell of which nobody says how high it is filled.
func (v *Vessel) Unplaced(part int) bool {
	p := &v.parts[part]
	if v.Dry() || p.Settled || !v.Line(part) && p.Form != Flange && p.Form != Cover && p.Form != Panel {
		return false
	}
	_, known := v.Elevation(part)
	return !known || math.IsNaN(v.level)
}

// Unknown says why it is not known how deep a part hangs, "" of one that is placed.
func (v *Vessel) Unknown(part int) string {
	switch f := v.parts[part].Form; {
	case f == Panel:
		return "nothing says where a panel is"
	case !f.hangs():
		return untied
	}
	if why := v.held(part).why; why != "" || !math.IsNaN(v.level) {
		return why
	}
	return "the level of the liquid in the shell is not stated (vessel.liquid_height)"
}
