// Package course holds what is read rather than done: a lesson for each step
// of the course, with a wall to draw beside it.
package course

import (
	"embed"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
)

//go:embed text/*.txt
var files embed.FS

// Lesson is the text of one step of the course, and a wall to draw beside it.
type Lesson struct {
	Step    int
	Title   string
	Text    string // paragraphs, at most 76 columns
	Picture *laminate.Schedule
}

// At gives the lesson of a step, 1 to exercise.Steps; another number
// counts as the nearest.
func At(step int) Lesson {
	step = max(1, min(step, exercise.Steps))
	b, err := files.ReadFile("text/step" + strconv.Itoa(step) + ".txt")
	if err != nil { // the files are part of the program
		return Lesson{Step: step, Picture: &laminate.Schedule{}}
	}
	title, text, _ := strings.Cut(string(b), "\n")
	return Lesson{Step: step, Title: title, Text: strings.TrimSpace(text), Picture: picture(step, title)}
}

// picture is the wall that a lesson is about.
func picture(step int, title string) *laminate.Schedule {
	barrier := laminate.Resin{ID: "barrier", Family: laminate.VinylEster}
	veil, veils, mats := "veil-c-15", 1, 2
	switch step {
	case 2:
		veil = "veil-polyester-15"
	case 3:
		veils, mats = 2, 4
	case 5:
		veil = "veil-carbon-11"
		barrier.Filler, barrier.FillerContent = laminate.CarbonPowder, laminate.Some(0.05) // from memory
	}
	ply := func(material, resin string, zone laminate.Zone, count int) laminate.Ply {
		return laminate.Ply{Material: material, Resin: resin, Zone: zone, Count: count}
	}
	s := &laminate.Schedule{Title: title, Resins: []laminate.Resin{barrier, {ID: "structure", Family: laminate.VinylEster}}, Plies: []laminate.Ply{
		ply(veil, "barrier", laminate.InnerSurface, veils),
		ply("mat-1.5", "barrier", laminate.InteriorLayer, mats),
		ply("mat-1.5", "structure", laminate.StructuralLayer, 1),
		ply("woven-24", "structure", laminate.StructuralLayer, 1),
		ply("mat-1.5", "structure", laminate.StructuralLayer, 1),
		ply("topcoat", "structure", laminate.OuterSurface, 1),
	}}
	s.Plies[1].GelAfter = true
	return s
}
