// Package course holds what is read rather than done: a lesson for each step
// of the course, with a wall to draw beside it.
package course

import (
	"embed"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/safety"
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
	return Lesson{Step: step, Title: title, Text: strings.TrimSpace(text) + "\n\n" + wrapped("Safety: "+safety.Text(cautions[step-1]...)), Picture: picture(step, title)}
}

// cautions are what each lesson says for safety.
var cautions = [exercise.Steps][]string{
	{"styrene", "leftovers"},
	{"peroxide-promoter", "peroxide-eyes", "dry-peroxide"},
	{"cutting-dust", "acetone", "furnace-fumes", "tank-entry"},
	{"leftovers", "spray-mist", "styrene"},
	{"filler-dust", "carbon-dust", "antimony", "pressure-test"},
	{"peroxide-promoter", "peroxide-eyes", "styrene", "leftovers", "cutting-dust", "static", "acetone", "tank-entry", "vapor-low", "bond-face", "pressure-test"},
}

// wrapped breaks a paragraph into lines of at most 72 columns.
func wrapped(s string) string {
	var b strings.Builder
	column := 0
	for _, word := range strings.Fields(s) {
		n := utf8.RuneCountInString(word)
		switch {
		case column == 0:
		case column+1+n > 72:
			b.WriteByte('\n')
			column = 0
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += n
	}
	return b.String()
}

// picture is the wall that a lesson is about.
func picture(step int, title string) *laminate.Schedule {
	barrier := laminate.Resin{ID: "barrier", Family: laminate.VinylEster}
	veil, build := catalog.VeilC15, catalog.SingleBuild
	switch step {
	case 2:
		veil = catalog.VeilPolyester15
	case 3:
		build = catalog.DoubleBuild
	case 5:
		veil = catalog.VeilCarbon11
		barrier.Filler, barrier.FillerContent = laminate.CarbonPowder, laminate.Some(catalog.CarbonPowderShare)
	}
	r := edit.Recipe{
		Veil: veil, Veils: build.Veils, Mat: catalog.Mat15, Mats: build.Mats, Barrier: barrier,
		Wall:      laminate.Resin{ID: "structure", Family: laminate.VinylEster},
		Structure: []laminate.Ply{{Material: catalog.Mat15, Count: 1}, {Material: catalog.Woven24, Count: 1}, {Material: catalog.Mat15, Count: 1}},
		Coat:      catalog.Topcoat,
	}
	wall := r.Build(&laminate.Schedule{Head: laminate.Head{Title: title}}, catalog.Library())
	if step == 6 {
		joint(wall)
	}
	return wall
}

// joint lays a seal on a wall and a strap round it: what a cut through the wall
// beside a joint shows, from the fluid outward.
func joint(s *laminate.Schedule) {
	coat := len(s.Plies) - 1
	ply := func(material, resin string, zone laminate.Zone, count int) laminate.Ply {
		return laminate.Ply{Material: material, Resin: resin, Zone: zone, Count: count}
	}
	seal := []laminate.Ply{ply(catalog.Topcoat, "barrier", laminate.InnerSurface, 1), ply(catalog.VeilC15, "barrier", laminate.InnerSurface, 1), ply(catalog.Mat15, "barrier", laminate.InteriorLayer, catalog.SingleBuild.Mats)}
	strap := []laminate.Ply{ply(catalog.Mat15, "structure", laminate.StructuralLayer, 1), ply(catalog.Woven24, "structure", laminate.StructuralLayer, 1), ply(catalog.Mat15, "structure", laminate.StructuralLayer, 1)}
	s.Plies = slices.Concat(seal, s.Plies[:coat], strap, s.Plies[coat:])
}
