// Package course holds what is read rather than done: a lesson for each step
// of the course, with a wall to draw beside it, and the glossary.
package course

import (
	"cmp"
	"embed"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
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
	liner := laminate.Resin{ID: "liner", Family: laminate.VinylEster}
	veil, build := catalog.VeilC15, catalog.SingleBuild
	switch step {
	case 2:
		veil = catalog.VeilPolyester15
	case 3:
		build = catalog.DoubleBuild
	case 5:
		veil = catalog.VeilCarbon11
		liner.Filler, liner.FillerContent = laminate.CarbonPowder, laminate.Some(catalog.CarbonPowderShare)
	}
	ply := func(material, resin string, zone laminate.Zone, count int) laminate.Ply {
		return laminate.Ply{Material: material, Resin: resin, Zone: zone, Count: count}
	}
	s := &laminate.Schedule{Title: title, Resins: []laminate.Resin{liner, {ID: "wall", Family: laminate.VinylEster}}, Plies: []laminate.Ply{
		ply(veil, "liner", laminate.InnerSurface, build.Veils),
		ply(catalog.Mat15, "liner", laminate.InteriorLayer, build.Mats),
		ply(catalog.Mat15, "wall", laminate.StructuralLayer, 1),
		ply(catalog.Woven24, "wall", laminate.StructuralLayer, 1),
		ply(catalog.Mat15, "wall", laminate.StructuralLayer, 1),
		ply(catalog.Topcoat, "wall", laminate.OuterSurface, 1),
	}}
	s.Plies[1].GelAfter = true
	return s
}

// Term is one entry of the glossary.
type Term struct {
	Term, Meaning string
	From          string // the standard whose own term it is, or "trade word"
}

// Glossary lists the trade terms in the order of the alphabet.
func Glossary() []Term {
	b, err := files.ReadFile("text/glossary.txt")
	if err != nil { // the file is part of the program
		return nil
	}
	var terms []Term
	for line := range strings.Lines(string(b)) {
		if cells := strings.Split(strings.TrimSpace(line), " | "); len(cells) == 3 {
			terms = append(terms, Term{Term: cells[0], From: cells[1], Meaning: cells[2]})
		}
	}
	slices.SortFunc(terms, func(a, b Term) int { return cmp.Compare(strings.ToLower(a.Term), strings.ToLower(b.Term)) })
	return terms
}
