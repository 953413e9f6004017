package job

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
)

// chain is what joints tie of a job without a shell, in the order in which they do, from
// an end on: parts, the joints between them, and the nozzles on each. It is not to scale.
// Nil where no joint ties anything, or where there is no room.
func chain(j *laminate.Job, w, h int) []string {
	a := j.Assemble()
	ties := make([][]int, len(j.Parts)) // joints of each part
	for i := range j.Joints {
		x, y := a.Part(j.Joints[i].Between[0]), a.Part(j.Joints[i].Between[1])
		if x >= 0 && y >= 0 && x != y {
			ties[x], ties[y] = append(ties[x], i), append(ties[y], i)
		}
	}
	order := make([]int, 0, len(j.Parts)) // ends first
	for i := range j.Parts {
		if len(ties[i]) == 1 {
			order = append(order, i)
		}
	}
	for i := range j.Parts {
		if len(ties[i]) > 1 { // of a ring
			order = append(order, i)
		}
	}
	on := make(map[string][]string, len(j.Nozzles))
	for i := range j.Nozzles {
		on[j.Nozzles[i].On] = append(on[j.Nozzles[i].On], j.Nozzles[i].ID)
	}
	room := h - 1 // a line is over it
	var list []string
	seen, left := make([]bool, len(j.Parts)), len(order)
	var walk func(part int)
	walk = func(part int) {
		seen[part] = true
		if len(list) > room {
			return // what is left is counted
		}
		left--
		p := &j.Parts[part]
		list = append(list, draw.Left(" ─ "+draw.Clean(p.ID)+"  "+p.Form.String(), w))
		for _, id := range on[p.ID] {
			list = append(list, draw.Left("   ├─ "+draw.Clean(id), w))
		}
		for _, i := range ties[part] {
			for _, id := range j.Joints[i].Between {
				if to := a.Part(id); !seen[to] {
					list = append(list, draw.Left("   ╪ "+draw.Clean(j.Joints[i].ID), w))
					walk(to)
				}
			}
		}
	}
	for _, i := range order {
		if !seen[i] {
			walk(i)
		}
	}
	switch {
	case list == nil || room < 4:
		return nil
	case len(list) > room:
		for _, s := range list[room-1:] { // cut off again
			if strings.HasPrefix(s, " ─ ") {
				left++
			}
		}
		list = append(list[:room-1], draw.Left(" … "+quantity.Counted(left, "part", "parts")+" more", w))
	}
	return append([]string{draw.Left(" in the order of its joints", w)}, list...)
}
