// Package wall answers whether the structure of a pipe, duct or tank is enough
// for its pressure, head and vacuum: line loads, strains and criteria, and the
// inverse, what would be needed. The corrosion barrier is not counted unless
// asked for.
package wall

import (
	"frp/veilwright/laminate/stiffness"
)

// Options say how to evaluate.
type Options struct {
	CountBarrier bool
	Depth        float64 // m below the liquid surface of a tank; 0 = at the bottom
}

// Result is the evaluation of one schedule. Figures in SI.
type Result struct {
	// Problem says in one sentence why there is no laminate to evaluate
	// ("no structural ply"); criteria are then all open or not applicable.
	Problem    string
	Thickness  float64 // m of the plies that count
	A, B, D    [3][3]float64
	Membrane   stiffness.Moduli
	Cases      []Case
	Plies      []PlyStrain // rows that count, from the process side outward
	Criteria   []Criterion // governing first
	Notes      []string    // assumptions and what was left out
	NotChecked []string    // wind, seismic, …
}

// Case is one load case: line loads in N/m and mid-plane strains.
type Case struct {
	Name                                 string // pressure, head, vacuum, …
	NAxial, NHoop                        float64
	StrainAxial, StrainHoop, StrainShear float64
	FirstPly                             string // which ply fails first and at how many times this load, or why not told
}

// PlyStrain is one counted ply row under the governing case.
type PlyStrain struct {
	Row, First, Last           int
	Bottom, Top                float64 // m, from the process-side face of the whole wall
	Basis                      string  // how its moduli were had: "micromechanics", "test values", …
	E1, E2, G12, Nu12          float64
	Strain1, Strain2, Strain12 float64 // ply axes, mid of the row
	Stress1, Stress2, Stress12 float64
}

// Tell is whether a criterion holds.
type Tell uint8

// The answers.
const (
	NotApplicable Tell = iota // does not apply; Reason says why
	CannotTell                // a fact is missing; Reason says which
	Holds
	Fails
)

// Criterion is one demand on the wall.
type Criterion struct {
	Name     string // hoop-strain, axial-strain, resin-strain, …
	Case     string
	Demand   float64
	Capacity float64
	Unit     string  // "strain", "m", "Pa", "N/m"
	Ratio    float64 // demand / capacity; 0 where there is none
	Tell     Tell
	Decides  bool
	Reason   string
	Basis    string
}
