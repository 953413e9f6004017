package maker

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
)

// line is a fluid and the plant that moves it.
type line struct {
	fluid, story string
	percent      [2]int     // concentration by mass; 0 = water, none is stated
	heat         [2]float64 // °F, where it is not that of the scene
}

// scene is a kind of service whose facts agree: ends of pH, heat in °F.
type scene struct {
	lines           []line
	contains        []laminate.Trait
	lowest, highest [2]float64 // where the lowest and the highest pH may lie
	heat            [2]float64
	inches          []float64 // inside diameters of such lines
	steps           []int
	conductive      bool
	abrasive        bool
}

// Inside diameters of drains and headers, and of lines that feed a chemical.
var (
	drains = []float64{4, 6, 8, 10, 12, 16}
	feeds  = []float64{3, 4, 6, 8}
	mains  = []float64{8, 10, 12, 16, 24}
)

// The first one asks for nothing in particular. Ranges are what such fluids
// usually have (common practice, no source).
var scenes = []scene{
	{lines: []line{
		{"rinse water", "A bottling plant drains rinse water from its filling line", [2]int{}, [2]float64{}},
		{"rain water", "A warehouse leads rain water from its roof to a cistern", [2]int{}, [2]float64{45, 75}},
		{"cooling water", "A foundry returns cooling water to its tower", [2]int{}, [2]float64{}},
	}, lowest: [2]float64{5.5, 6.5}, highest: [2]float64{7, 8.5}, heat: [2]float64{60, 130}, inches: mains, steps: []int{1, 3, 4, 6}},
	{lines: []line{
		{"citric acid rinse", "A dairy collects the citric acid rinse of its coolers", [2]int{1, 3}, [2]float64{}},
		{"fruit wash water", "A cannery drains the acidic wash water of its fruit line", [2]int{1, 2}, [2]float64{}},
		{"dilute acetic acid", "A textile mill drains dilute acetic acid from its dye house", [2]int{1, 2}, [2]float64{}},
	}, lowest: [2]float64{3, 4}, highest: [2]float64{4.5, 6}, heat: [2]float64{70, 140}, inches: drains, steps: []int{1, 3, 4, 6}},
	{lines: []line{
		{"settled brine", "A salt works pumps settled brine to its pans", [2]int{15, 26}, [2]float64{}},
		{"sea water", "A fish hatchery pumps sea water to its basins", [2]int{3, 4}, [2]float64{45, 70}},
	}, contains: []laminate.Trait{laminate.Brine}, lowest: [2]float64{6, 7}, highest: [2]float64{7.5, 9}, heat: [2]float64{60, 100}, inches: mains, steps: []int{1, 3, 4, 6}},
	{lines: []line{
		{"fluoride rinse", "A lamp works drains the rinse of its frosting tables", [2]int{1, 3}, [2]float64{}},
		{"etching rinse", "A glass shop collects the rinse of its etching line", [2]int{1, 3}, [2]float64{}},
	}, contains: []laminate.Trait{laminate.Fluorides}, lowest: [2]float64{3, 4.5}, highest: [2]float64{5, 7}, heat: [2]float64{70, 140}, inches: drains, steps: []int{1, 2, 4, 6}},
	{lines: []line{
		{"sodium hydroxide", "A soap plant feeds sodium hydroxide from its day tank", [2]int{10, 40}, [2]float64{}},
		{"potassium hydroxide", "A battery plant feeds potassium hydroxide to its filling line", [2]int{20, 40}, [2]float64{}},
	}, contains: []laminate.Trait{laminate.StrongBase}, lowest: [2]float64{12.5, 13}, highest: [2]float64{13.5, 14.5}, heat: [2]float64{70, 140}, inches: feeds, steps: []int{2, 3}},
	{lines: []line{
		{"sulfuric acid", "A wire mill feeds sulfuric acid to its pickling tank", [2]int{10, 30}, [2]float64{}},
		{"hydrochloric acid", "A galvanizing plant drains its pickling line to neutralization, hydrochloric acid", [2]int{5, 18}, [2]float64{}},
	}, contains: []laminate.Trait{laminate.StrongAcid}, lowest: [2]float64{-1, 0}, highest: [2]float64{0.5, 2}, heat: [2]float64{80, 200}, inches: feeds, steps: []int{2, 3}},
	{lines: []line{{"spent pulping liquor", "A pulp mill pumps spent liquor from the digester to the evaporator", [2]int{10, 20}, [2]float64{}}},
		contains: []laminate.Trait{laminate.PulpingLiquor}, lowest: [2]float64{9.5, 11}, highest: [2]float64{11.5, 13.5}, heat: [2]float64{110, 140}, inches: mains, steps: []int{2, 3}},
	{lines: []line{{"plating rinse", "A plating shop collects the rinse of its nickel line", [2]int{1, 5}, [2]float64{}}},
		contains: []laminate.Trait{laminate.PlatingSolution}, lowest: [2]float64{3, 4}, highest: [2]float64{5, 9}, heat: [2]float64{80, 140}, inches: drains, steps: []int{2, 3}},
	{lines: []line{{"lithium brine", "A salt lake plant pumps lithium brine from pond to pond", [2]int{10, 30}, [2]float64{60, 100}}},
		contains: []laminate.Trait{laminate.Lithium, laminate.Brine}, lowest: [2]float64{7, 8}, highest: [2]float64{9, 11}, heat: [2]float64{60, 140}, inches: mains, steps: []int{2}},
	{lines: []line{
		{"sodium hypochlorite", "A water works feeds sodium hypochlorite to its basins", [2]int{3, 15}, [2]float64{}},
		{"bleach", "A textile mill feeds bleach to its bleaching line, hypochlorite", [2]int{3, 12}, [2]float64{}},
	}, contains: []laminate.Trait{laminate.Hypochlorite}, lowest: [2]float64{9, 10.5}, highest: [2]float64{11, 12}, heat: [2]float64{60, 100}, inches: feeds, steps: []int{5}},
	{lines: []line{{"chlorine dioxide water", "A pulp mill pumps chlorine dioxide water to its bleaching tower", [2]int{1, 1}, [2]float64{}}},
		contains: []laminate.Trait{laminate.ChlorineDioxide}, lowest: [2]float64{3, 4}, highest: [2]float64{4.5, 6}, heat: [2]float64{80, 140}, inches: mains, steps: []int{5}},
	{lines: []line{
		{"floor wash", "A varnish plant drains floor wash from an area classified as hazardous", [2]int{}, [2]float64{}},
		{"roller wash", "A printing plant drains roller wash through an area classified as hazardous", [2]int{}, [2]float64{}},
	}, lowest: [2]float64{5, 6}, highest: [2]float64{7, 8}, heat: [2]float64{60, 100}, inches: drains, steps: []int{5}, conductive: true},
	{lines: []line{
		{"sand slurry", "A sand plant pumps sand slurry from its wash", [2]int{10, 30}, [2]float64{}},
		{"fly ash slurry", "A power plant pumps fly ash slurry to its thickener", [2]int{10, 30}, [2]float64{}},
	}, contains: []laminate.Trait{laminate.Solids}, lowest: [2]float64{5, 6}, highest: [2]float64{7, 9}, heat: [2]float64{60, 130}, inches: mains, steps: []int{5}, abrasive: true},
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
	{exercise.Order, exercise.Predict, exercise.Fix},
}

// damages are what goes wrong in each step; the schedule is the maker's own.
var damages = [exercise.Steps][]func(*maker, *laminate.Schedule){
	{noVeil, glassVeil},
	{glassVeil, polyesterVeil, plainEster, noVeil},
	{matMissing, twoVeilsTooMany, noVeil},
	{noGel, coatBetween, wovenInBarrier, wovenLast, manyMats},
	{matMissing, noFiller, glassVeil, tooHeavy, carbonVeil},
	nil, // those of joints have their own
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

func wovenInBarrier(_ *maker, s *laminate.Schedule) {
	for i := range s.Plies {
		if p := s.Plies[i]; p.Zone == laminate.InteriorLayer {
			p.Material, p.Count, p.GelAfter = catalog.Woven24, 1, false
			s.Plies = slices.Insert(s.Plies, i, p)
			return
		}
	}
}

func wovenLast(_ *maker, s *laminate.Schedule) {
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
