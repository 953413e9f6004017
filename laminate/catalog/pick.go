package catalog

import "frp/veilwright/laminate"

// Materials lists the materials that fit and state what their form needs, each
// id once: the schedule's own, which hide those of the library with their ids,
// then the library's.
func Materials(lib *laminate.Library, s *laminate.Schedule, fits func(*laminate.Material) bool) []*laminate.Material {
	var list []*laminate.Material
	seen := map[string]bool{}
	for _, from := range [][]laminate.Material{s.Materials, lib.Materials} {
		for i := range from {
			m := &from[i]
			if !seen[m.ID] && len(m.Lacks()) == 0 && fits(m) {
				list = append(list, m)
			}
			seen[m.ID] = true
		}
	}
	return list
}

// Pick gives the id of a material that fits: the usual one where it does, else
// the first of Materials.
func Pick(lib *laminate.Library, s *laminate.Schedule, usual string, fits func(*laminate.Material) bool) (id string, ok bool) {
	if m, ok := lib.Material(s, usual); ok && fits(m) {
		return usual, true
	}
	if list := Materials(lib, s, fits); len(list) > 0 {
		return list[0].ID, true
	}
	return "", false
}
