package job

import (
	"slices"

	"frp/veilwright/laminate"
)

// thicknesses are those of a job's laminates as they were analyzed last: one whose
// plies an edit leaves as they were is not analyzed again.
type thicknesses struct {
	library   *laminate.Library
	resins    []laminate.Resin
	materials []laminate.Material
	plies     [][]laminate.Ply // by laminate
	m         []float64
}

// of gives the thickness of each laminate of a job, m.
func (t *thicknesses) of(j *laminate.Job, lib *laminate.Library) []float64 {
	now := thicknesses{library: lib, resins: j.Resins, materials: j.Materials, m: make([]float64, len(j.Laminates))}
	holds := t.library == lib && slices.Equal(t.resins, j.Resins) && slices.Equal(t.materials, j.Materials)
	for i := range j.Laminates {
		plies := j.Laminates[i].Plies
		now.plies = append(now.plies, plies)
		if holds && i < len(t.plies) && slices.Equal(t.plies[i], plies) {
			now.m[i] = t.m[i]
			continue
		}
		now.m[i] = laminate.Analyze(j.Schedule(i), lib).Total.Thickness
	}
	*t = now
	return now.m
}
