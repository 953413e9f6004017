package job

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
)

// thicknesses are those of a job's laminates as they were analyzed last: one whose
// plies an edit leaves as they were is not analyzed again.
type thicknesses struct {
	library   *laminate.Library
	resins    []laminate.Resin
	materials []laminate.Material
	plies     [][]laminate.Ply // by laminate
	lined     []bool
	m         []float64
}

// of gives the thickness of each laminate of a job, m.
func (t *thicknesses) of(j *laminate.Job, lib *laminate.Library) []float64 {
	now := thicknesses{library: lib, resins: j.Resins, materials: j.Materials, m: make([]float64, len(j.Laminates))}
	holds := t.library == lib && slices.Equal(t.resins, j.Resins) && slices.Equal(t.materials, j.Materials)
	linings := overlay.Linings(j)
	for i := range j.Laminates {
		plies, lined := j.Laminates[i].Plies, linings[j.Laminates[i].ID]
		now.plies, now.lined = append(now.plies, plies), append(now.lined, lined)
		if holds && i < len(t.plies) && t.lined[i] == lined && slices.Equal(t.plies[i], plies) {
			now.m[i] = t.m[i]
			continue
		}
		s := j.Schedule(i)
		s.Part.Place.Lined = lined
		now.m[i] = laminate.Analyze(s, lib).Total.Thickness
	}
	*t = now
	return now.m
}
