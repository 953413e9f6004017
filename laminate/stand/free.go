package stand

import (
	"math"
	"slices"
	"strings"
)

// Run is a length of line or shell between what holds it round under outside pressure.
// A joint holds nothing round: a strap is no thicker than the wall that it joins, and a
// cone between two widths holds nothing until somebody shows it (ASME VIII UG-28 and
// UG-33, from memory). What does are flanges, covers and heads, a wider part that it
// ends in, and rings.
type Run struct {
	Length  float64 // m, to the ends of the line where Open says that nothing is known there; 0 where a size is not stated
	Between string  // what holds it at its ends, in words; "" of a shell that closes itself
	Open    string  // why it is not known how far apart it is held; "" where it is
	// Ringed are the parts to whom joints tie one with rings of its own, which nothing but
	// a ring at that end of it holds there.
	Ringed string
}

// Free is the run that a course, a cone, a pipe, a duct or an elbow is of; of one with
// rings of its own what they leave open. Courses, and the cones that close or are
// between them, are of one shell, and of the line that goes on from it as wide.
func (v *Vessel) Free(part int) Run {
	if v.runs == nil {
		v.runs = make([]*Run, len(v.parts))
		for i := range v.parts { // from the first of each on, whoever asks
			if v.runs[i] == nil {
				v.run(i)
			}
		}
	}
	return *v.runs[part]
}

// runs tells whether a part of such a form is of a run.
func (f Form) runs() bool { return f == Course || f == Cone || f == Pipe || f == Elbow }

// ofShell tells whether a part is of the run of the shell: not a cone that joints tie
// into a line alone.
func (v *Vessel) ofShell(part int) bool {
	if !v.InShell(part) || v.parts[part].Form == Course {
		return v.InShell(part)
	}
	lined := false
	for _, to := range v.Tied(part) {
		f := v.parts[to].Form
		if v.InShell(to) && (f != Cone || v.ofStack(to)) {
			return true
		}
		lined = lined || f == Pipe || f == Elbow
	}
	return !lined
}

// ofStack tells of a cone whether it stands beside a course.
func (v *Vessel) ofStack(cone int) bool {
	return slices.ContainsFunc(v.Tied(cone), func(to int) bool { return v.parts[to].Form == Course })
}

// ringed tells of a part whether it has rings that hold it: nearer to each other than it
// is long.
func (p *Part) ringed() bool { return p.Rings > 0 && p.Rings < p.long() }

// long is how long a part is at its longest: an elbow on the outside of its bend.
func (p *Part) long() float64 {
	if p.Form == Elbow {
		return (p.Bend + p.Wide/2) * p.Turn * math.Pi / 180
	}
	return p.Height
}

// walk goes over a run, and notes what is of it.
type walk struct {
	v      *Vessel
	of     *Run     // of all that it has gone over
	shell  bool     // the shell is of it
	length float64  // m, NaN where sizes says so
	ends   []string // what holds it
	open   string   // the first thing that is not known
	sizes  string   // whose size is not
}

func (w *walk) fail(why string) {
	if w.open == "" {
		w.open = why
	}
}

// run finds the run of a part, and of all that are of it too.
func (v *Vessel) run(part int) {
	p := &v.parts[part]
	if !p.Form.runs() {
		v.runs[part] = &Run{}
		return
	}
	if p.ringed() && !v.ofShell(part) {
		v.runs[part] = &Run{Length: p.Rings, Ringed: v.strapped(part)}
		return
	}
	r := &Run{}
	w := &walk{v: v, of: r}
	if v.ofShell(part) {
		w.throughShell(-1)
	} else {
		w.take(part)
		w.on(part, -1)
	}
	r.Length, r.Open = w.length, w.open
	switch {
	case w.sizes != "":
		r.Length, r.Open = 0, w.sizes
	case len(w.ends) > 0 && w.open == "":
		r.Between = strings.Join(w.ends, " and ")
	}
}

// take counts a part in.
func (w *walk) take(part int) {
	p := &w.v.parts[part]
	if w.v.runs[part] == nil { // one that more than two are tied to keeps its own
		w.v.runs[part] = w.of
	}
	long := p.long()
	if w.length += long; !math.IsNaN(long) || w.sizes != "" {
		return
	}
	keys := "length"
	switch p.Form {
	case Elbow:
		keys = "bend_radius, inside_diameter, turn"
	case Cone:
		keys = "inside_diameter, small_diameter, half_angle"
	default: // of one length
	}
	w.sizes = "how long part " + p.ID + ", which is not held round where it is joined, is not stated (" + keys + ")"
}

// on goes on from a part of a line over its joints, but for the one that was come by.
func (w *walk) on(part, by int) {
	p, next := &w.v.parts[part], slices.Clone(w.v.Tied(part))
	if len(next) > 2 {
		w.fail("more than two joints tie part " + p.ID + ", and which are at its ends is not known")
		return
	}
	ends := 2
	if by >= 0 {
		ends = 1
		next = slices.Delete(next, slices.Index(next, by), slices.Index(next, by)+1)
	}
	for _, to := range next {
		w.beyond(part, to)
	}
	if free := ends - len(next); free > 0 {
		switch {
		case p.Flanged && free == 2:
			w.ends = append(w.ends, "the flanges that part "+p.ID+" states (flanged)")
		case p.Flanged:
			w.ends = append(w.ends, "the flange that part "+p.ID+" states (flanged)")
		default:
			w.fail("what holds part " + p.ID + " round at its free end is not known: no joint ties a flange to it (flanged and stiffener_spacing say it too)")
		}
	}
}

// beyond goes over a joint from a part of the run to another.
func (w *walk) beyond(from, to int) {
	v := w.v
	p, q := &v.parts[from], &v.parts[to]
	switch {
	case q.Form == Flange:
		w.ends = append(w.ends, "flange "+q.ID)
	case q.Form == Cover || q.Form == Flat || q.Form == Head && !meets(p, q):
		w.ends = append(w.ends, "part "+q.ID)
	case q.Form == Head: // that closes it, a third of its depth
		w.ends = append(w.ends, "head "+q.ID)
		if w.length += q.Height / 3; math.IsNaN(q.Height) && w.sizes == "" {
			w.sizes = "how deep head " + q.ID + " is, is not stated"
		}
	case v.ofShell(to) && !meets(p, q) && p.Wide < q.Wide:
		w.ends = append(w.ends, "part "+q.ID+" of the shell")
	case v.ofShell(to) && meets(p, q) && !w.shell && (to == v.Stack[0] || to == v.Stack[len(v.Stack)-1]):
		w.throughShell(from)
	case q.Form != Pipe && q.Form != Elbow && q.Form != Cone || v.ofShell(to):
		w.fail("whether part " + q.ID + ", which a joint ties to part " + p.ID + ", holds that round is not known")
	case v.runs[to] == w.of:
		w.fail("joints tie the line to itself, and nothing is known to hold it round")
	case q.ringed():
		w.length += q.Rings
		w.ends = append(w.ends, "the first ring of part "+q.ID)
	default:
		w.take(to)
		w.on(to, from)
	}
}

// meets tells whether two parts have an end of one width, or may.
func meets(p, q *Part) bool {
	for _, a := range p.ends() {
		for _, b := range q.ends() {
			if !(math.Abs(a-b) > 1e-3*math.Max(a, b)) {
				return true
			}
		}
	}
	return false
}

func (p *Part) ends() []float64 {
	if p.Form == Cone {
		return []float64{p.Wide, p.Small}
	}
	return []float64{p.Wide}
}

// throughShell counts the shell in, and goes on where a line as wide is tied to its
// ends, but for the part of the line that was come by.
func (w *walk) throughShell(by int) {
	v := w.v
	w.shell = true
	for i := range v.parts {
		if v.parts[i].Form.runs() && v.ofShell(i) {
			v.runs[i] = w.of
		}
	}
	if w.length += v.Shell; math.IsNaN(v.Shell) {
		w.sizes = "the sizes of all that stands in the shell are not stated"
	}
	ends := []int{v.Stack[0]}
	if last := v.Stack[len(v.Stack)-1]; last != ends[0] {
		ends = append(ends, last)
	}
	lines := 0
	for _, end := range ends {
		if !v.parts[end].Form.runs() {
			continue
		}
		for _, to := range v.Tied(end) {
			if f := v.parts[to].Form; f != Pipe && f != Elbow && f != Cone || v.ofShell(to) || !meets(&v.parts[end], &v.parts[to]) {
				continue
			}
			if lines++; to != by && v.runs[to] != w.of {
				w.beyond(end, to)
			}
		}
	}
	switch {
	case lines > 2:
		w.fail("more than two lines go on from the shell, and from which ends is not known")
	case lines == 1:
		w.ends = append(w.ends, "the other end of the shell")
	}
}

// strapped are the parts that joints tie to one with rings, and that hold nothing round.
func (v *Vessel) strapped(part int) string {
	var to []string
	for _, k := range v.Tied(part) {
		q := &v.parts[k]
		if (q.Form == Pipe || q.Form == Elbow || q.Form == Cone || q.Form == Course) && meets(&v.parts[part], q) {
			to = append(to, q.ID)
		}
	}
	return strings.Join(to, " and ")
}
