package schedules

import (
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/keyed"
)

// Check tells what makes a schedule unusable together with a library:
// materials nobody knows, with the nearest known one, and what a ply has to
// state for its material (the angle of a band, a resin, a glass content where
// the material has none). Empty where all is well. The source gives the lines;
// without one, as for a schedule made in the program, the problems have none.
func Check(src *Source, s *laminate.Schedule, lib *laminate.Library) []Problem {
	var problems []Problem
	fail := func(row int, key, format string, args ...any) {
		problems = src.fault(problems, scheduleTables, spotOf(laminate.PlyRef(row, key)), fmt.Sprintf(format, args...))
	}
	for i := range s.Plies {
		p := &s.Plies[i]
		m, ok := lib.Material(s, p.Material)
		if !ok {
			fail(i, "material", "no material has the id %s%s", keyed.Quoted(p.Material), hint(p.Material, s, lib))
			continue
		}
		for _, key := range p.Lacks(m) {
			fail(i, key, "it is missing; a ply of %s (%s) needs it", keyed.Quoted(m.ID), m.Form)
		}
		if m.Form == laminate.RovingBand && p.Angle.Given && p.Angle.Value < 0 {
			fail(i, "angle", "%v is not from 0 to 90, the angle of a roving band", p.Angle.Value)
		}
	}
	return keyed.Sorted(problems)
}

func hint(id string, s *laminate.Schedule, lib *laminate.Library) string {
	var ids []string
	for i := range s.Materials {
		ids = append(ids, s.Materials[i].ID)
	}
	for i := range lib.Materials {
		ids = append(ids, lib.Materials[i].ID)
	}
	if n, ok := word.Nearest(id, ids); ok {
		return fmt.Sprintf("; %s is the nearest", keyed.Quoted(n))
	}
	return ""
}
