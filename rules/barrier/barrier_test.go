package barrier_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/ruletest"
)

const (
	veilRow = ruletest.VeilRow
	matRow  = ruletest.MatRow
)

// build makes the barrier of one veil and mats of exact thickness.
func build(veil, each float64, mats int) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		s.Plies[veilRow].Material = ruletest.Veil(s, "own-veil", laminate.CGlass, ruletest.Mil(veil))
		s.Plies[matRow].Material = ruletest.Mat(s, "own-mat", ruletest.Mil(each))
		s.Plies[matRow].Count = mats
	}
}

func change(list ...func(*laminate.Schedule)) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		for _, c := range list {
			c(s)
		}
	}
}

func carries(traits ...laminate.Trait) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Service.Contains = laminate.TraitSet(traits...) }
}

func flanged(yes bool) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Part.Flanged = laminate.Some(yes) }
}

func unsaid(s *laminate.Schedule) { s.Part.Flanged = laminate.Optional[bool]{} }

// share books a glass content on the plies of the barrier.
func share(row int, g float64) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Plies[row].GlassContent = laminate.Some(g) }
}

// unknown makes a row one whose thickness and mass nobody can figure: its
// resin is not named.
func unknown(row int) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Plies[row].Resin = "" }
}

// light makes each of the two mats hold so much glass.
func light(gram float64) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		s.Materials = append(s.Materials, laminate.Material{
			ID: "light-mat", Form: laminate.ChoppedMat, Fiber: laminate.ECRGlass, ArealMass: quantity.New(gram, quantity.GramPerSquareMeter),
			FiberDensity: quantity.New(2620, quantity.KilogramPerCubicMeter), GlassContent: laminate.Some(0.27),
		})
		s.Plies[matRow].Material = "light-mat"
	}
}

func insert(at int, ply laminate.Ply) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		s.Plies = append(s.Plies[:at:at], append([]laminate.Ply{ply}, s.Plies[at:]...)...)
	}
}

func rating(build, grade string, f laminate.Family, low, high, heat float64) laminate.Rating {
	return laminate.Rating{Fluid: "Rinse water", Concentration: [2]float64{low, high}, MaxTemperature: ruletest.Fahrenheit(heat), Family: f, Build: build, Grade: grade, Book: "shop-book.toml"}
}

func book(list ...laminate.Rating) func(*laminate.Library) {
	return func(l *laminate.Library) { l.Ratings = list }
}

// API 12P 5.4.2 and 5.4.3: inner surface 0.010–0.020 in under 20 % fiber,
// 3 oz/ft² in two plies, 0.080 in together, 27 ± 5 % glass. The 5 % allowance,
// nominal builds, 250 mil and double barriers: common practice, no source.
func TestBarrierRules(t *testing.T) {
	cases := []ruletest.Case{
		{Name: "one veil and two mats"},

		{Name: "inner surface of 9.5 mil", Change: build(9.5, 50, 2)},
		{Name: "inner surface under 9.5 mil", Change: build(9.49, 50, 2), Want: []string{"break inner-surface-thickness 0"},
			Says: []string{"9.49 mil, under 9.50 mil (10.0 mil less 5 %)"}, Fixes: "1 more ply of own-veil to the inner surface"},
		{Name: "in millimeters", Change: build(9, 50, 2), Metric: true, Want: []string{"break inner-surface-thickness"}, Says: []string{"0.23 mm, under 0.24 mm"}, Fixes: "1 more ply"},
		{Name: "veil ply of 20 mil", Change: build(20, 50, 2)},
		{Name: "veil ply over 20 mil", Change: build(20.5, 50, 2), Want: []string{"warning inner-surface-thickness 0"}, Says: []string{"20.5 mil on 1 veil ply, over 20.0 mil"}},
		{Name: "two veils of 40 mil together", Change: change(build(20, 50, 2), func(s *laminate.Schedule) { s.Plies[0].Count = 2 })},
		{Name: "a glass content booked too low is dropped", Change: share(veilRow, 0.05), Want: []string{"warning inner-surface-thickness 0"}, Fixes: "remove the glass content stated on ply 1"},
		{Name: "veil without a resin", Change: unknown(veilRow), Want: []string{"incomplete inner-surface-thickness 0", "incomplete inner-surface-rich 0", "incomplete barrier-thin 0", "incomplete barrier-glass-content"},
			Says: []string{"the thickness of the inner surface cannot be determined"}},

		{Name: "19.9 % fiber in the inner surface", Change: change(build(25, 50, 2), share(veilRow, 0.199))},
		{Name: "20 % fiber in the inner surface", Change: change(build(25, 50, 2), share(veilRow, 0.20)), Want: []string{"break inner-surface-rich 0"},
			Says: []string{"20 % fiber by mass; it must be under 20 %"}, Fixes: "remove the glass content stated on ply 1", After: []string{"warning inner-surface-thickness"}},

		{Name: "900 g/m² of chopped glass", Change: light(450)},
		{Name: "899 g/m² of chopped glass", Change: light(449.5), Want: []string{"break interior-layer-light 1"}, Says: []string{"2 chopped plies"}, Fixes: "1 more ply of light-mat"},
		{Name: "one heavy mat", Change: change(build(14, 100, 1)), Want: []string{"break interior-layer-light 1"}, Says: []string{"1 chopped ply "}, Fixes: "1 more ply of own-mat"},
		{Name: "sprayed passes are plies", Change: func(s *laminate.Schedule) { s.Plies[matRow].Material = catalog.Chop15 }},
		{Name: "no interior layer", Change: func(s *laminate.Schedule) {
			s.Plies = append(s.Plies[:1:1], s.Plies[2:]...)
			s.Plies[0].GelAfter = true
		}, Want: []string{"break interior-layer-light", "break barrier-thin 0"}, Says: []string{"0 chopped plies"}, Fixes: "2 more plies of mat-1.5"},
		{Name: "mats too many to be inferred as interior layer", Change: func(s *laminate.Schedule) {
			for i := range s.Plies {
				s.Plies[i].Zone = laminate.NoZone
			}
			s.Plies[matRow].Count = 3
		}, Want: []string{"break interior-layer-light", "break barrier-thin"}, Fixes: "make plies 2–4 interior layer"},
		{Name: "mats of unknown mass", Change: unknown(matRow), Want: []string{"incomplete interior-layer-light 1", "incomplete barrier-thin 1", "incomplete barrier-glass-content 0 1"}},

		{Name: "80 mil holds as a barrier, not as a nominal build", Change: change(build(14, 33, 2), heavyGlass), Want: []string{"warning barrier-thin 0 1", "warning barrier-glass-content"}, Says: []string{"80.0 mil, under 95.0 mil (100.0 mil nominal less 5 %)"}, Fixes: "1 more ply of own-mat", After: []string{"warning barrier-glass-content"}},
		{Name: "under 80 mil", Change: change(build(14, 32.99, 2), heavyGlass), Want: []string{"break barrier-thin 0 1", "warning barrier-glass-content"}, Says: []string{"79.98 mil, under 80.00 mil"}, Fixes: "1 more ply of own-mat", After: []string{"warning barrier-glass-content"}},
		{Name: "95 mil", Change: change(build(15, 40, 2), heavyGlass)},
		{Name: "under 95 mil", Change: change(build(14.9, 40, 2), heavyGlass), Want: []string{"warning barrier-thin"}, Says: []string{"94.9 mil, under 95.0 mil"}, Fixes: "1 more ply"},
		{Name: "190 mil in hypochlorite", Change: change(carries(laminate.Hypochlorite), build(15, 40, 4), heavyGlass, twoVeils)},
		{Name: "under 190 mil in hypochlorite", Change: change(carries(laminate.Hypochlorite), build(15, 39.9, 4), heavyGlass, twoVeils), Want: []string{"warning barrier-thin"},
			Says: []string{"189.6 mil, under 190.0 mil (200.0 mil nominal less 5 % for hypochlorite)"}, Fixes: ""},

		{Name: "the book asks for 200 mil", Library: book(rating("200 mil", "good", laminate.VinylEster, 0, 0.05, 110)), Want: []string{"warning barrier-thin"},
			Says: []string{"required by the ratings of shop-book.toml"}, Fixes: "2 more plies"},
		{Name: "a better grade for 200 mil", Library: book(rating("100 mil", "fair", laminate.VinylEster, 0, 0.05, 110), rating("200 mil", "good", laminate.VinylEster, 0, 0.05, 110)),
			Want: []string{"warning barrier-thin"}, Fixes: "2 more plies"},
		{Name: "the same grade for both builds", Library: book(rating("100 mil", "good", laminate.VinylEster, 0, 0.05, 110), rating("200 mil", "good", laminate.VinylEster, 0, 0.05, 110))},
		{Name: "a rating of another family", Library: book(rating("200 mil", "good", laminate.NovolacVinylEster, 0, 0.05, 110))},
		{Name: "a rating of another concentration", Library: book(rating("200 mil", "good", laminate.VinylEster, 0.03, 0.05, 110))},
		{Name: "a rating for a cooler service", Library: book(rating("200 mil", "good", laminate.VinylEster, 0, 0.05, 109))},
		{Name: "a rating of another fluid", Library: book(rating("200 mil", "good", laminate.VinylEster, 0, 0.05, 110)), Change: func(s *laminate.Schedule) { s.Service.Fluid = "well water" }},
		{Name: "a concentration not given rules no rating out", Library: book(rating("200 mil", "good", laminate.VinylEster, 0.03, 0.05, 110)),
			Change: func(s *laminate.Schedule) { s.Service.Concentration = laminate.Optional[float64]{} }, Want: []string{"warning barrier-thin"}, Fixes: "2 more plies"},

		{Name: "22 % fiber", Change: sharesTo(0.22)},
		{Name: "under 22 % fiber", Change: sharesTo(0.219), Want: []string{"warning barrier-glass-content 0 1"}, Says: []string{"21.9 % fiber by mass, under 22 %"}, Fixes: "remove the glass content stated on plies 1–3"},
		{Name: "32 % fiber", Change: change(twoMore, sharesTo(0.32))},
		{Name: "over 32 % fiber", Change: change(twoMore, sharesTo(0.321)), Want: []string{"warning barrier-glass-content"}, Says: []string{"32.1 % fiber by mass, over 32 %"}, Fixes: "remove"},
		{Name: "a filled barrier is not judged by fiber", Change: change(sharesTo(0.20), func(s *laminate.Schedule) {
			s.Resins[0].Filler, s.Resins[0].FillerContent = laminate.SiliconCarbide, laminate.Some(0.35)
		})},

		{Name: "woven roving last in the barrier", Change: insert(2, laminate.Ply{Material: catalog.Woven24, Resin: ruletest.Liner, Zone: laminate.InteriorLayer, Count: 1, GelAfter: true}),
			Want: []string{"break continuous-fiber-in-barrier 2", "warning barrier-glass-content"}, Says: []string{"ply 4 (woven-roving) is in the corrosion barrier"}, Fixes: "move ply 4 to the structural layer"},
		{Name: "woven roving between the mats", Change: insert(1, laminate.Ply{Material: catalog.Woven24, Resin: ruletest.Liner, Zone: laminate.InteriorLayer, Count: 1}),
			Want: []string{"break continuous-fiber-in-barrier 1", "warning barrier-glass-content"}, Fixes: "use mat-1.5 for ply 2, same count"},
		{Name: "winding in the barrier", Change: insert(1, laminate.Ply{Material: catalog.BandHoop, Resin: ruletest.Liner, Zone: laminate.InteriorLayer, Count: 1, Angle: laminate.Some(90.0)}),
			Want: []string{"break continuous-fiber-in-barrier 1"}, Fixes: "use mat-1.5 for ply 2"},
		{Name: "unidirectional fabric in the barrier", Change: insert(1, laminate.Ply{Material: catalog.Uni13, Resin: ruletest.Liner, Zone: laminate.InteriorLayer, Count: 1, Angle: laminate.Some(0.0)}),
			Want: []string{"break continuous-fiber-in-barrier 1"}, Fixes: "use mat-1.5 for ply 2"},

		{Name: "250 mil on a flanged part", Change: change(flanged(true), build(10, 60, 4))},
		{Name: "251 mil on a flanged part", Change: change(flanged(true), build(11, 60, 4)), Want: []string{"break heavy-barrier-at-flange 0 1"},
			Says: []string{"251.0 mil, over 250.0 mil and the part is flanged", "dual laminate"}},
		{Name: "251 mil on a part without flange", Change: build(11, 60, 4), Want: []string{"warning heavy-barrier 0 1"}, Says: []string{"dual laminate"}},
		{Name: "250 mil on a part without flange", Change: build(10, 60, 4)},
		{Name: "251 mil and nobody says whether it is flanged", Change: change(unsaid, build(11, 60, 4)), Want: []string{"warning heavy-barrier"}, Says: []string{"not stated whether the part is flanged"}},

		{Name: "a single barrier in hypochlorite", Change: carries(laminate.Hypochlorite), Want: []string{"warning double-barrier-usual 0 1", "warning barrier-thin 0 1"},
			Says: []string{"1 veil and 2 mats; two veils and four mats are usual"}, Fixes: "2 more plies", After: []string{"warning double-barrier-usual"}},
		{Name: "three mats in chlorine dioxide", Change: change(carries(laminate.ChlorineDioxide), build(15, 54, 3), twoVeils), Want: []string{"warning double-barrier-usual"},
			Fixes: "two veils and four mats"},
		{Name: "no fix trades one warning for another", Change: change(carries(laminate.ChlorineDioxide), build(15, 60, 3), twoVeils), Want: []string{"warning double-barrier-usual"}},
		{Name: "a double barrier in hypochlorite", Change: change(carries(laminate.Hypochlorite), twoVeils, twoMore)},
		{Name: "one veil and four mats in chlorine dioxide", Change: change(carries(laminate.ChlorineDioxide), twoMore), Want: []string{"warning double-barrier-usual"}, Fixes: "two veils and four mats"},
	}
	ruletest.Run(t, "barrier", cases)
	ruletest.Covers(t, "barrier", cases)
}

func twoVeils(s *laminate.Schedule) { s.Plies[veilRow].Count = 2 }

func twoMore(s *laminate.Schedule) { s.Plies[matRow].Count = 4 }

// heavyGlass makes thin mats hold 450 g/m² each at the thickness they have, by
// laying them with less resin.
func heavyGlass(s *laminate.Schedule) {
	for i := range s.Materials {
		m := &s.Materials[i]
		if m.Form != laminate.ChoppedMat {
			continue
		}
		const glass, fiber, resin, was = 0.450, 2620.0, 1150.0, 0.27
		thickness := m.ArealMass.SI() * (1/fiber + (1-was)/(was*resin))
		binder := (thickness - glass/fiber) * resin
		m.ArealMass = quantity.New(glass, quantity.KilogramPerSquareMeter)
		m.GlassContent = laminate.Some(glass / (glass + binder))
	}
}

// sharesTo books one glass content on every ply of the barrier but keeps the
// inner surface under 20 %, so that the barrier as a whole has exactly g.
func sharesTo(g float64) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		veil, _ := catalog.Library().Material(nil, catalog.VeilC15)
		mat, _ := catalog.Library().Material(nil, catalog.Mat15)
		const inVeil = 0.10
		s.Plies[veilRow].GlassContent = laminate.Some(inVeil)
		fiber := veil.ArealMass.SI() + float64(s.Plies[matRow].Count)*mat.ArealMass.SI()
		mats := fiber/g - veil.ArealMass.SI()/inVeil
		s.Plies[matRow].GlassContent = laminate.Some(float64(s.Plies[matRow].Count) * mat.ArealMass.SI() / mats)
	}
}
