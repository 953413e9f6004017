package stand

// Closing is what closes the line of pipes that a part is of: a flange, a cover or a
// head that joints tie to it, over other parts of the line or at once, or that it is
// itself; where none does an elbow, on whose bend what flows presses as on an end;
// −1 where nothing does, and of what is of no line.
func (v *Vessel) Closing(part int) int {
	if v.closing == nil {
		v.close()
	}
	return v.closing[part]
}

// close goes from each end of a line over the joints of the line, and then from the
// elbows of lines that have none.
func (v *Vessel) close() {
	v.closing = make([]int, len(v.parts))
	for i := range v.parts {
		v.closing[i] = -1
	}
	v.reach(func(i int) bool {
		f := v.parts[i].Form
		return f == Flange || f == Cover || f == Head && !v.InShell(i)
	})
	v.reach(func(i int) bool { return v.parts[i].Form == Elbow })
}

// reach goes from parts that nothing closes so far to all of their lines.
func (v *Vessel) reach(closes func(part int) bool) {
	var from []int
	for i := range v.parts {
		if v.closing[i] < 0 && closes(i) {
			v.closing[i] = i
			from = append(from, i)
		}
	}
	for k := 0; k < len(from); k++ {
		for _, to := range v.Tied(from[k]) {
			if v.Line(to) && v.closing[to] < 0 {
				v.closing[to] = v.closing[from[k]]
				from = append(from, to)
			}
		}
	}
}

// Loaded is the greatest of what joints state to pull along the axis of a part, of gives
// that of a joint; 0 where none does. What it is asked with first holds.
func (v *Vessel) Loaded(part int, of func(joint int) float64) float64 {
	if v.loaded == nil {
		v.loaded = make([]float64, len(v.parts))
		for i, j := range v.joints {
			for _, k := range j {
				if k >= 0 {
					v.loaded[k] = max(v.loaded[k], of(i))
				}
			}
		}
	}
	return v.loaded[part]
}

// Tied are the parts that joints tie to a part, one for each joint.
func (v *Vessel) Tied(part int) []int {
	if v.ties == nil {
		v.ties, v.knots = make([][]int, len(v.parts)), make([][]int, len(v.parts))
		for i, j := range v.joints {
			if x, y := j[0], j[1]; x >= 0 && y >= 0 && x != y {
				v.ties[x], v.ties[y] = append(v.ties[x], y), append(v.ties[y], x)
				v.knots[x], v.knots[y] = append(v.knots[x], i), append(v.knots[y], i)
			}
		}
	}
	return v.ties[part]
}

// Joints are the joints that tie a part to others, by index, beside [Vessel.Tied].
func (v *Vessel) Joints(part int) []int {
	v.Tied(part)
	return v.knots[part]
}
