package stand

import "math"

// rings are those in which a surface is summed.
const rings = 64

// Lifted is the force upward, in N, on what stands over a place of the shell, height m
// above the bottom of the lowest course, by what presses on its surfaces: a narrowing
// cone, a head, a cover or a flat roof are pushed up, a cone that widens upward is pushed
// down (statics). Press is the pressure in Pa at a height in m above the lower end of a
// part, which falls upward. At a place in a cone the cone counts whole: more than is there
// where it narrows.
func (v *Vessel) Lifted(height float64, press func(part int, up float64) (pa float64)) (n float64) {
	const near = 1e-6 // m
	for _, i := range v.lifted {
		p, bottom := &v.parts[i], v.bottoms[i]
		if p.Form == Cover {
			bottom = v.tops[v.last]
		}
		if !(bottom > height-near) || !(press(i, 0) > 0) {
			continue
		}
		inner, outer, sign := 0.0, p.Wide/2, 1.0
		switch {
		case p.Form == Cone && v.Tip(i):
			inner, sign = p.Small/2, -1
		case p.Form == Cone && i != v.Stack[len(v.Stack)-1]:
			inner = p.Small / 2
		case p.Form == Cover:
			outer = v.parts[v.last].Wide / 2
		}
		if math.IsNaN(inner) {
			inner = 0
		}
		for k := range rings {
			r := inner + (outer-inner)*(float64(k)+0.5)/rings
			up := v.Up(i, r)
			if math.IsNaN(up) {
				up = 0
			}
			n += sign * 2 * math.Pi * r * (outer - inner) / rings * math.Max(0, press(i, up))
		}
	}
	return n
}

// Lift is the liquid that lifts a course by what it presses on above that, as its height
// in m over the course's inside circle, where it stands to a level in m above the bottom
// of the lowest course: 0 where it reaches nothing that narrows or closes the shell, and
// of what is no course.
func (v *Vessel) Lift(part int, level float64) (m float64) {
	d := v.parts[part].Wide
	if v.parts[part].Form != Course {
		return 0
	}
	n := v.Lifted(v.tops[part], func(i int, up float64) float64 {
		bottom := v.bottoms[i]
		if v.parts[i].Form == Cover {
			bottom = v.tops[v.last]
		}
		return level - bottom - up
	})
	return math.Max(0, n/(math.Pi/4*d*d))
}
