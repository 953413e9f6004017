package stand

import (
	"math"
	"slices"
)

// hung is where a part is that a joint or a nozzle ties to the shell.
type hung struct {
	bottom, end float64 // m: its lowest place, and its end away from the shell; NaN where not known
	way         way     // in which it leads away from the shell
	why         string  // it is not known
}

// way is how a part of a line leads on from where it is tied.
type way uint8

const (
	anyhow way = iota // not known
	downward
	level
	upward
)

// hangs tells whether a part of such a form is where others hold it.
func (f Form) hangs() bool { return f == Flange || f == Cover || f == Pipe || f == Elbow }

const untied = "no nozzle names it and no joint ties it to the shell"

func lost(why string) hung { return hung{bottom: math.NaN(), end: math.NaN(), why: why} }

// held is where a part is by what holds it.
func (v *Vessel) held(part int) *hung {
	if v.hung == nil {
		v.hang()
	}
	return &v.hung[part]
}

// hang goes from the shell outward, over joints and nozzles, and places each part
// once. What nozzles end in is where the lowest of them is, or nowhere where one of
// them cannot be told.
func (v *Vessel) hang() {
	parts := v.parts
	v.hung = make([]hung, len(parts))
	left := make([]int, len(parts)) // nozzles that end in it and are not looked at yet
	at := make([]hung, len(parts))
	var lids []int
	for i := range parts {
		if v.hung[i] = lost(untied); v.lid(i) && !math.IsNaN(v.tops[v.last]) {
			v.hung[i] = hung{bottom: v.tops[v.last], end: v.tops[v.last], way: upward}
			lids = append(lids, i)
		}
	}
	nozzles := make(map[int][]int, len(v.nozzles)) // by the part that they are on
	for i := range v.nozzles {
		n := &v.nozzles[i]
		if n.On < 0 {
			continue
		}
		nozzles[n.On] = append(nozzles[n.On], i)
		for _, end := range n.Ends {
			if end >= 0 && (parts[end].Form == Flange || parts[end].Form == Cover) {
				left[end]++
			}
		}
	}
	named := slices.Clone(left)
	placed := make([]bool, len(parts))
	line := append(slices.Clone(v.Stack), lids...)
	for _, i := range line {
		placed[i] = true
	}
	for len(line) > 0 {
		from := line[0]
		line = line[1:]
		for _, to := range v.Tied(from) {
			if !placed[to] && parts[to].Form.hangs() && named[to] == 0 {
				placed[to], v.hung[to] = true, v.tied(from, to)
				v.plugged = v.plugged || from == v.Stack[0] && v.parts[from].Form == Course && v.hung[to].way != upward
				line = append(line, to)
			}
		}
		for _, n := range nozzles[from] {
			x := &v.nozzles[n]
			for _, to := range x.Ends {
				if to < 0 || placed[to] || left[to] == 0 {
					continue
				}
				switch end := v.atNozzle(from, x); {
				case left[to] == named[to], math.IsNaN(end.bottom) && !math.IsNaN(at[to].bottom), end.bottom < at[to].bottom:
					at[to] = end
				}
				if left[to]--; left[to] == 0 {
					placed[to], v.hung[to] = true, at[to]
					line = append(line, to)
				}
			}
		}
	}
	for i := range parts {
		if v.Hangs(i) {
			v.hanging = append(v.hanging, i)
		}
	}
}

// lid tells of a cover that nothing has to tie to the shell: as wide as the course that
// is the highest of it, it lies on that.
func (v *Vessel) lid(part int) bool {
	p := &v.parts[part]
	return p.Form == Cover && v.OnTop(part) && v.Stack[len(v.Stack)-1] == v.last && p.Wide >= (1-1e-3)*v.parts[v.last].Wide
}

// tied is where a part is that a joint ties to another: it leads on from a free end of
// what stands in the shell, or from the end of what hangs there already.
func (v *Vessel) tied(from, to int) hung {
	x := lost("which end of part " + v.parts[from].ID + " it is joined to is not known")
	id := v.parts[from].ID
	switch w := v.freeEnd(from, to); {
	case v.parts[from].Form.hangs():
		x = *v.held(from)
		if !math.IsNaN(x.bottom) && (x.way == anyhow || math.IsNaN(x.end)) {
			x = lost("how part " + id + " leads on from the shell is not known")
		}
	case w == downward:
		x = hung{end: v.bottoms[from], way: downward}
	case w == upward:
		x = hung{end: v.tops[from], way: upward}
	}
	if x.why == "" && math.IsNaN(x.end) {
		x = lost("how high part " + id + " stands is not known")
	}
	if x.why != "" {
		return x
	}
	return v.parts[to].led(x.end, x.way)
}

// freeEnd is the end of what stands in the shell to which a part is tied that is not of
// it: of a course or cone the one that is not joined to its neighbor, or beside which the
// part stands in the document, of a head its rim for a flange as wide; else the lower end
// of the lowest and the upper of the highest.
func (v *Vessel) freeEnd(from, to int) way {
	k, last := v.inStack(from), len(v.Stack)-1
	if k < 0 || last < 1 {
		return anyhow
	}
	before, after := -1, len(v.parts)
	if k > 0 {
		before = v.Stack[k-1]
	}
	if k < last {
		after = v.Stack[k+1]
	}
	below, above := k > 0 && v.joined(before, from), k < last && v.joined(from, after)
	long := v.parts[from].Form == Course || v.parts[from].Form == Cone
	rim := v.parts[from].Form == Head && v.parts[to].Form == Flange && alike(v.parts[to].Wide, v.parts[from].Wide)
	switch {
	case rim && k == 0 && !above, long && k > 0 && k < last && below && !above, long && k < last && !above && from < to && to < after:
		return upward
	case rim && k == last && !below, long && k > 0 && k < last && above && !below, long && k > 0 && !below && before < to && to < from, k == 0:
		return downward
	case k == last:
		return upward
	}
	return anyhow
}

// joined tells whether a joint is between two parts.
func (v *Vessel) joined(a, b int) bool {
	if len(v.Tied(a)) > len(v.Tied(b)) {
		a, b = b, a
	}
	return slices.Contains(v.Tied(a), b)
}

// led is where a part is that begins at a height and leads on in a way.
func (p *Part) led(at float64, w way) hung {
	x, id := hung{bottom: at, end: at, way: w}, p.ID
	switch {
	case p.Form == Flange || p.Form == Cover || w == level && p.Form != Elbow:
	case p.Form != Elbow && w == downward && math.IsNaN(p.Height):
		return lost("how far part " + id + " reaches down is not stated (length)")
	case p.Form != Elbow && w == downward:
		x.bottom -= p.Height
		x.end = x.bottom
	case p.Form != Elbow && math.IsNaN(p.Height):
		x.end = math.NaN()
	case p.Form != Elbow:
		x.end += p.Height
	case w == level:
		return lost("whether elbow " + id + " turns down is not known")
	case math.IsNaN(p.Bend + p.Wide + p.Turn):
		return lost("how far elbow " + id + " reaches is not stated (bend_radius, inside_diameter, turn)")
	default:
		turn := p.Turn
		x.way = anyhow
		if turn == 90 {
			x.way = level
		}
		if w == upward {
			x.end += p.Bend - p.Wide/2 // its lower face behind a quarter turn
			break
		}
		x.bottom -= (p.Bend + p.Wide/2) * math.Sin(math.Min(turn, 90)*math.Pi/180)
		x.end = x.bottom
	}
	return x
}

// atNozzle is where the end of a nozzle on a part is at its lowest.
func (v *Vessel) atNozzle(on int, n *Nozzle) hung {
	bottom, ok := v.Elevation(on)
	f, reach := v.parts[on].Form, n.Reach
	x := hung{bottom: bottom, way: level}
	if under := f.closes() && on < v.first; under {
		x.way, reach = downward, math.Max(reach, known(n.Projection))
	} else if v.OnTop(on) {
		x.way = upward
	}
	switch along := v.held(on).way; {
	case !ok:
		return lost("how high part " + v.parts[on].ID + ", which nozzle " + n.ID + " is on, stands is not known")
	case f.hangs() && f != Flange && f != Cover && along != upward && along != downward, f == Elbow:
		return lost("part " + v.parts[on].ID + ", which nozzle " + n.ID + " is on, does not stand upright")
	case !math.IsNaN(n.Height):
		x.bottom += n.Height - reach
	case !math.IsNaN(v.Up(on, n.Offset)) && (x.way != downward || !math.IsNaN(n.Projection)):
		x.bottom += v.Up(on, n.Offset) - reach
	case f == Cover || f == Flange || x.way == upward: // it ends no lower than there
	case x.way == downward && !math.IsNaN(n.Projection):
		x.bottom -= reach
	case x.way == downward:
		return lost("how far nozzle " + n.ID + " reaches down is not stated (projection)")
	default:
		return lost("how high nozzle " + n.ID + " is on its part is not stated (height)")
	}
	x.end = x.bottom
	return x
}

// known is a figure, 0 where it is not stated.
func known(m float64) float64 {
	if math.IsNaN(m) {
		return 0
	}
	return m
}
