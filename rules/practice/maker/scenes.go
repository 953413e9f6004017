package maker

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
)

// scene is a kind of service whose facts agree: ends of pH, heat in °F.
type scene struct {
	contents        []string
	carries         []laminate.Trait
	lowest, highest [2]float64 // where the lowest and the highest pH may lie
	heat            [2]float64
	mostPercent     int
	steps           []int
	conductive      bool
	abrasive        bool
}

// The first one asks for nothing in particular. Ranges are what such fluids
// usually have (common practice, no source).
var scenes = []scene{
	{contents: []string{"rinse water", "rain water", "cooling water"}, lowest: [2]float64{5.5, 6.5}, highest: [2]float64{7, 8.5},
		heat: [2]float64{60, 130}, mostPercent: 2, steps: []int{1, 3, 4}},
	{contents: []string{"citric acid rinse", "vinegar", "fruit acid"}, lowest: [2]float64{3, 4}, highest: [2]float64{4.5, 6},
		heat: [2]float64{70, 150}, mostPercent: 8, steps: []int{1, 3, 4}},
	{contents: []string{"settled brine", "sea water"}, carries: []laminate.Trait{laminate.Brine}, lowest: [2]float64{6, 7}, highest: [2]float64{7.5, 9},
		heat: [2]float64{60, 160}, mostPercent: 25, steps: []int{1, 3, 4}},
	{contents: []string{"fluoride rinse", "frosting bath rinse"}, carries: []laminate.Trait{laminate.Fluorides}, lowest: [2]float64{3, 4.5}, highest: [2]float64{5, 7},
		heat: [2]float64{70, 140}, mostPercent: 5, steps: []int{1, 2, 4}},
	{contents: []string{"sodium hydroxide", "potassium hydroxide"}, carries: []laminate.Trait{laminate.StrongBase}, lowest: [2]float64{12.5, 13}, highest: [2]float64{13.5, 14.5},
		heat: [2]float64{70, 150}, mostPercent: 40, steps: []int{2, 3}},
	{contents: []string{"sulfuric acid", "hydrochloric acid"}, carries: []laminate.Trait{laminate.StrongAcid}, lowest: [2]float64{-1, 0}, highest: [2]float64{0.5, 2},
		heat: [2]float64{80, 200}, mostPercent: 30, steps: []int{2, 3}},
	{contents: []string{"spent pulping liquor"}, carries: []laminate.Trait{laminate.PulpingLiquor}, lowest: [2]float64{9.5, 11}, highest: [2]float64{11.5, 13.5},
		heat: [2]float64{110, 175}, mostPercent: 20, steps: []int{2, 3}},
	{contents: []string{"plating rinse"}, carries: []laminate.Trait{laminate.PlatingSolution}, lowest: [2]float64{3, 4}, highest: [2]float64{5, 9},
		heat: [2]float64{80, 150}, mostPercent: 10, steps: []int{2, 3}},
	{contents: []string{"lithium brine"}, carries: []laminate.Trait{laminate.Lithium, laminate.Brine}, lowest: [2]float64{7, 8}, highest: [2]float64{9, 11},
		heat: [2]float64{60, 140}, mostPercent: 30, steps: []int{2}},
	{contents: []string{"hypochlorite solution", "bleach"}, carries: []laminate.Trait{laminate.Hypochlorite}, lowest: [2]float64{9, 10.5}, highest: [2]float64{11, 12},
		heat: [2]float64{60, 120}, mostPercent: 15, steps: []int{5}},
	{contents: []string{"chlorine dioxide water"}, carries: []laminate.Trait{laminate.ChlorineDioxide}, lowest: [2]float64{3, 4}, highest: [2]float64{4.5, 6},
		heat: [2]float64{80, 160}, mostPercent: 2, steps: []int{5}},
	{contents: []string{"rinsing spirit", "thinner water"}, carries: []laminate.Trait{laminate.Solvent}, lowest: [2]float64{5, 6}, highest: [2]float64{7, 8},
		heat: [2]float64{60, 100}, mostPercent: 90, steps: []int{5}, conductive: true},
	{contents: []string{"sand slurry", "ash slurry"}, carries: []laminate.Trait{laminate.Solids}, lowest: [2]float64{5, 6}, highest: [2]float64{7, 9},
		heat: [2]float64{60, 130}, mostPercent: 30, steps: []int{5}, abrasive: true},
}

func scenesOf(step int) []scene {
	var list []scene
	for _, s := range scenes {
		if slices.Contains(s.steps, step) {
			list = append(list, s)
		}
	}
	return list
}

var places = []string{"A tannery at the edge of a marsh", "A lamp works", "A hospital laundry on a hill", "A pickle factory", "A small mill for filter paper",
	"A reclaiming yard behind the harbor", "A plant that washes beach sand", "A workshop for brass fittings", "A fish hatchery", "A school laboratory"}

var doings = []string{"drains %s", "pumps %s", "sends %s to its settling pit", "returns %s to the day tank", "carries %s under the floor"}

var structures = [][]string{
	{catalog.Mat15, catalog.Woven24, catalog.Mat15},
	{catalog.Mat15, catalog.Woven24, catalog.Mat15, catalog.Woven24, catalog.Mat15},
	{catalog.Mat15, catalog.Mat15, catalog.Mat15},
}

// kindsOf are the kinds of exercises that a step makes.
var kindsOf = [exercise.Steps][]exercise.Kind{
	{exercise.Choose, exercise.Build, exercise.Order},
	{exercise.Choose, exercise.Build, exercise.Fix},
	{exercise.Predict, exercise.Ignition, exercise.Fix},
	{exercise.Order, exercise.Fix},
	{exercise.Build, exercise.Fix, exercise.Predict, exercise.Ignition},
}

// damages are what goes wrong in each step; the schedule is the maker's own.
var damages = [exercise.Steps][]func(*maker, *laminate.Schedule){
	{noVeil, glassVeil},
	{glassVeil, polyesterVeil, plainEster, noVeil},
	{matMissing, twoVeilsTooMany, noVeil},
	{noGel, coatBetween, clothInBarrier, clothLast, manyMats},
	{matMissing, noFiller, glassVeil, tooHeavy, carbonVeil},
}

func setVeil(s *laminate.Schedule, id string) {
	if len(s.Plies) > 0 && s.Plies[0].Zone == laminate.InnerSurface {
		s.Plies[0].Material = id
	}
}

func glassVeil(_ *maker, s *laminate.Schedule)     { setVeil(s, catalog.VeilC15) }
func polyesterVeil(_ *maker, s *laminate.Schedule) { setVeil(s, catalog.VeilPolyester15) }
func carbonVeil(_ *maker, s *laminate.Schedule)    { setVeil(s, catalog.VeilCarbon11) }

func noVeil(_ *maker, s *laminate.Schedule) {
	if len(s.Plies) > 1 && s.Plies[0].Zone == laminate.InnerSurface {
		s.Plies = s.Plies[1:]
	}
}

func plainEster(m *maker, s *laminate.Schedule) {
	for i := range s.Resins {
		if s.Resins[i].ID != "structure" {
			s.Resins[i].Family = pick(m.rand, []laminate.Family{laminate.Isophthalic, laminate.Terephthalic})
		}
	}
}

func matMissing(_ *maker, s *laminate.Schedule) {
	for i := range s.Plies {
		if s.Plies[i].Zone == laminate.InteriorLayer {
			s.Plies[i].Count = max(1, s.Plies[i].Count-1)
		}
	}
}

func tooHeavy(_ *maker, s *laminate.Schedule) {
	for i := range s.Plies {
		if s.Plies[i].Zone == laminate.InteriorLayer {
			s.Plies[i].Count = 6
		}
	}
}

func twoVeilsTooMany(_ *maker, s *laminate.Schedule) {
	if len(s.Plies) > 1 && s.Plies[0].Zone == laminate.InnerSurface {
		s.Plies[0].Count += 2
		matMissing(nil, s)
	}
}

func noFiller(_ *maker, s *laminate.Schedule) {
	for i := range s.Resins {
		s.Resins[i].Filler, s.Resins[i].FillerContent = laminate.NoFiller, laminate.Optional[float64]{}
	}
}

func noGel(_ *maker, s *laminate.Schedule) {
	for i := range s.Plies {
		s.Plies[i].GelAfter = false
	}
}

func coatBetween(_ *maker, s *laminate.Schedule) {
	n := len(s.Plies)
	if n > 3 && s.Plies[n-1].Zone == laminate.OuterSurface && s.Plies[n-2].Zone == laminate.StructuralLayer {
		s.Plies[n-1], s.Plies[n-2] = s.Plies[n-2], s.Plies[n-1]
	}
}

func clothInBarrier(_ *maker, s *laminate.Schedule) {
	for i := range s.Plies {
		if p := s.Plies[i]; p.Zone == laminate.InteriorLayer {
			p.Material, p.Count, p.GelAfter = catalog.Woven24, 1, false
			s.Plies = slices.Insert(s.Plies, i, p)
			return
		}
	}
}

func clothLast(_ *maker, s *laminate.Schedule) {
	for i := len(s.Plies) - 1; i >= 0; i-- {
		if s.Plies[i].Zone == laminate.StructuralLayer {
			s.Plies[i].Material = catalog.Woven24
			return
		}
	}
}

func manyMats(_ *maker, s *laminate.Schedule) {
	for i := len(s.Plies) - 1; i >= 0; i-- {
		if p := &s.Plies[i]; p.Zone == laminate.StructuralLayer && p.Material == catalog.Mat15 {
			p.Count = 6
			return
		}
	}
}
