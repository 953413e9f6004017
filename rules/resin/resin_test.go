package resin_test

import (
	"slices"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/ruletest"
)

const (
	liner = 0 // index of the barrier's resin
	wall  = 1 // of the structure's
)

func both(changes ...func(*laminate.Schedule)) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		for _, c := range changes {
			c(s)
		}
	}
}

func family(resin int, f laminate.Family) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Resins[resin].Family = f }
}

func heat(f float64) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Service.Temperature = ruletest.Fahrenheit(f) }
}

func upset(f float64) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Service.Upset = ruletest.Fahrenheit(f) }
}

func deflects(resin int, f float64) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Resins[resin].HeatDeflection = ruletest.Fahrenheit(f) }
}

func carries(traits ...laminate.Trait) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Service.Contains = laminate.TraitSet(traits...) }
}

func flame(demand int) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Service.FlameSpread = laminate.Some(demand) }
}

func tested(resin, index int) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Resins[resin].FlameSpreadTested = laminate.Some(index) }
}

func noHeat(s *laminate.Schedule) { s.Service.Temperature = quantity.Temperature{} }

func duct(s *laminate.Schedule) { s.Part.Form = laminate.Duct }

func amine(s *laminate.Schedule) { s.Resins[liner].Cure = laminate.PeroxideAmine }

func thixotrope(text string) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Resins[liner].Thixotrope = text }
}

// tough is a resin and a wall far below their heat deflection temperatures.
func tough(s *laminate.Schedule) { both(deflects(liner, 400), deflects(wall, 400))(s) }

const novolac = laminate.NovolacVinylEster

// 180 °F: ASTM D3299 and D4097 ask for special consideration above it; 20 °C
// under the heat deflection temperature: from memory.
func heatCases() []ruletest.Case {
	return []ruletest.Case{
		{Name: "180 °F is within", Change: both(heat(180), tough)},
		{Name: "above 180 °F", Change: both(heat(180.5), tough), Want: []string{"warning resin-temperature 0 1"}, Says: []string{"180.5 °F is above 180 °F"}},
		{Name: "above 82.2 °C in SI", Change: both(heat(181), tough), Metric: true, Want: []string{"warning resin-temperature"}, Says: []string{"82.8 °C is above 82.2 °C"}},
		{Name: "an upset counts", Change: both(heat(170), upset(190), tough), Want: []string{"warning resin-temperature"}, Says: []string{"190 °F in an upset"}},
		{Name: "novolac above 180 °F", Change: both(heat(200), tough, family(liner, novolac))},
		{Name: "chlorendic above 180 °F", Change: both(heat(200), tough, family(liner, laminate.Chlorendic))},
		{Name: "brominated above 180 °F", Change: both(heat(200), tough, family(liner, laminate.BrominatedVinylEster)), Want: []string{"warning resin-temperature"}},
		{Name: "isophthalic above 180 °F", Change: both(heat(200), tough, family(liner, laminate.Isophthalic)), Want: []string{"warning resin-temperature"}},
		{Name: "72 °F under the heat deflection temperature is within", Change: both(heat(128), deflects(liner, 200))},
		{Name: "nearer than 72 °F to the heat deflection temperature", Change: both(heat(129), deflects(liner, 200)), Want: []string{"warning resin-temperature 0 1"},
			Says: []string{"129 °F is above 128 °F, the heat deflection temperature of resin liner (vinyl-ester), 200 °F, less 72 °F"}},
		{Name: "36 °F under the heat deflection temperature is a warning still", Change: both(heat(164), deflects(liner, 200), deflects(wall, 300)), Want: []string{"warning resin-temperature 0 1"}},
		{Name: "nearer to the heat deflection temperature", Change: both(heat(165), deflects(liner, 200), deflects(wall, 300)), Want: []string{"break resin-temperature 0 1"},
			Says: []string{"165 °F is above 164 °F"}},
		{Name: "in the structure too", Change: both(heat(165), deflects(wall, 200), deflects(liner, 300)), Want: []string{"break resin-temperature 2 3 4"}},
		{Name: "not in the outer surface", Change: both(heat(165), tough, func(s *laminate.Schedule) {
			s.Resins = append(s.Resins, laminate.Resin{ID: "coat", Family: laminate.VinylEster, HeatDeflection: ruletest.Fahrenheit(150)})
			s.Plies[ruletest.CoatRow].Resin = "coat"
		})},
		{Name: "heat deflection but no temperature", Change: both(noHeat, deflects(liner, 200)),
			Want: []string{"incomplete resin-temperature 0 1", "incomplete service-incomplete"}, Says: []string{"service temperature is not stated"}},
		{Name: "hot and the family not given", Change: both(heat(200), tough, family(liner, laminate.NoFamily)), Want: []string{"incomplete resin-family-missing 0 1", "incomplete resin-temperature 0 1"}},
	}
}

// Typical heat deflection temperatures of the families in °C, from memory; a
// wall that stands the heat by itself.
func familyCases() []ruletest.Case {
	var list []ruletest.Case
	for _, x := range []struct {
		family   laminate.Family
		deflects float64
	}{
		{laminate.Isophthalic, 95}, {laminate.Terephthalic, 105}, {laminate.BisphenolFumarate, 125}, {laminate.Chlorendic, 135},
		{laminate.VinylEster, 100}, {laminate.BrominatedVinylEster, 105}, {novolac, 145}, {laminate.BrominatedNovolacVinylEster, 140},
	} {
		at := func(c float64) func(*laminate.Schedule) {
			return both(deflects(wall, 400), family(liner, x.family), func(s *laminate.Schedule) { s.Service.Temperature = quantity.New(c, quantity.Celsius) })
		}
		name, typical := x.family.String(), []string{"the typical heat deflection temperature of resin liner (" + x.family.String() + ")"}
		list = append(list,
			ruletest.Case{Name: name + " 40 °C under the typical heat deflection temperature", Change: at(x.deflects - 40)},
			ruletest.Case{Name: name + " nearer than 40 °C", Change: at(x.deflects - 39.5), Want: []string{"warning resin-temperature 0 1"}, Says: typical},
			ruletest.Case{Name: name + " 20 °C under it", Change: at(x.deflects - 20), Want: []string{"warning resin-temperature 0 1"}, Says: typical},
			ruletest.Case{Name: name + " nearer than 20 °C", Change: at(x.deflects - 19.5), Want: []string{"break resin-temperature 0 1"}, Says: typical})
	}
	return append(list,
		ruletest.Case{Name: "the resin's own figure replaces the typical one", Change: both(tough, heat(179))},
		ruletest.Case{Name: "typical in the structure too", Change: both(heat(150), deflects(liner, 400)), Want: []string{"warning resin-temperature 2 3 4"}},
		ruletest.Case{Name: "an upset counts against the typical figure", Change: both(heat(100), upset(180), deflects(wall, 400)), Want: []string{"break resin-temperature 0 1"}, Says: []string{"180 °F in an upset is above 176 °F"}},
		ruletest.Case{Name: "a library without typical figures says nothing", Change: heat(179), Library: func(l *laminate.Library) {
			for i := range l.Families {
				l.Families[i].HeatDeflection = quantity.Temperature{}
			}
		}})
}

func rate(f laminate.Family, grade string) func(*laminate.Library) {
	return func(l *laminate.Library) {
		l.Ratings = []laminate.Rating{{Fluid: "rinse water", Concentration: [2]float64{0, 1}, MaxTemperature: ruletest.Fahrenheit(200), Family: f, Build: "100 mil", Grade: grade}}
	}
}

func acidity(lowest float64) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		s.Service.PH = laminate.PHRange{Lowest: lowest, Highest: 7, Given: true}
	}
}

func strength(share float64) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Service.Concentration = laminate.Some(share) }
}

// Common practice, no source: what only a rating can tell.
func ratedCases() []ruletest.Case {
	solvent := carries(laminate.Solvent)
	oleum := both(carries(laminate.StrongAcid), strength(0.93), family(liner, novolac))
	nitric := both(carries(laminate.StrongAcid, laminate.Oxidizer), strength(0.4), family(liner, novolac))
	bleach := both(carries(laminate.Hypochlorite), amine)
	return []ruletest.Case{
		{Name: "solvent on isophthalic", Change: both(solvent, family(liner, laminate.Isophthalic)), Want: []string{"break resin-in-solvent 0 1"}},
		{Name: "solvent on terephthalic", Change: both(solvent, family(liner, laminate.Terephthalic)), Want: []string{"break resin-in-solvent"}},
		{Name: "solvent on vinyl ester", Change: solvent, Want: []string{"warning resin-in-solvent 0 1"}, Says: []string{"resin manufacturer's data"}},
		{Name: "solvent on novolac", Change: both(solvent, family(liner, novolac)), Want: []string{"warning resin-in-solvent"}},
		{Name: "solvent on chlorendic", Change: both(solvent, family(liner, laminate.Chlorendic)), Want: []string{"warning resin-in-solvent"}},
		{Name: "solvent, family not given", Change: both(solvent, family(liner, laminate.NoFamily)), Want: []string{"incomplete resin-family-missing 0 1", "incomplete resin-in-solvent 0 1"}},
		{Name: "solvent behind the barrier does not count", Change: both(solvent, family(wall, laminate.Isophthalic)), Want: []string{"warning resin-in-solvent 0 1"}},

		{Name: "concentrated strong acid", Change: oleum, Want: []string{"incomplete rating-missing 0 1"}, Says: []string{"strong-acid at 93 %, above 75 %", "no shop book has a rating of novolac-vinyl-ester"}},
		{Name: "concentrated strong acid on isophthalic", Change: both(oleum, family(liner, laminate.Isophthalic)), Want: []string{"incomplete rating-missing 0 1", "note resin-for-acid"}},
		{Name: "strong acid at 75 %", Change: both(oleum, strength(0.75))},
		{Name: "concentrated strong acid, rated", Change: oleum, Library: rate(novolac, "A")},
		{Name: "concentrated strong acid, another family rated", Change: oleum, Library: rate(laminate.Chlorendic, "A"), Want: []string{"incomplete rating-missing 0 1"}},
		{Name: "concentrated strong acid, rated as not to be used", Change: oleum, Library: rate(novolac, "not recommended"), Want: []string{"break rating-against 0 1"}, Says: []string{"novolac-vinyl-ester is rated \"not recommended\" for rinse water here"}},
		{Name: "a family that is refused where nothing else speaks against it", Library: rate(laminate.VinylEster, "not recommended"), Want: []string{"break rating-against 0 1"}},
		{Name: "pH -2", Change: both(acidity(-2), family(liner, novolac))},
		{Name: "pH -2.1", Change: both(acidity(-2.1), family(liner, novolac)), Want: []string{"incomplete rating-missing 0 1"}, Says: []string{"below pH -2, where no rule knows a resin"}},
		{Name: "pH 16.1", Change: func(s *laminate.Schedule) { s.Service.PH.Highest = 16.1 }, Want: []string{"incomplete rating-missing 0 1"}},
		{Name: "-40 °F", Change: heat(-40), Want: []string{"warning service-freezes"}},
		{Name: "-41 °F", Change: heat(-41), Want: []string{"incomplete resin-temperature", "warning service-freezes"}, Says: []string{"-41 °F is below -40 °F"}},
		{Name: "a family that is rated", Library: rate(laminate.VinylEster, "A")},
		{Name: "hotter than any rating", Change: both(heat(205), family(liner, novolac)), Library: rate(novolac, "A"), Want: []string{"incomplete rating-against 0 1", "break resin-temperature 2 3 4"},
			Says: []string{"novolac-vinyl-ester is rated for rinse water from 0 % to 100 % up to 200 °F", "no row holds the service's 2 % and 205 °F"}},
		{Name: "as hot as the rating", Change: both(heat(200), both(family(liner, novolac), family(wall, novolac))), Library: rate(novolac, "A")},
		{Name: "stronger than any rating", Change: strength(0.6), Library: func(l *laminate.Library) {
			rate(laminate.VinylEster, "A")(l)
			l.Ratings[0].Concentration[1] = 0.5
		}, Want: []string{"incomplete rating-against 0 1"}, Says: []string{"from 0 % to 50 %", "no row holds the service's 60 % and 110 °F"}},
		{Name: "concentrated strong acid, family not given", Change: both(oleum, family(liner, laminate.NoFamily)),
			Want: []string{"incomplete rating-missing 0 1", "incomplete resin-family-missing 0 1", "incomplete resin-for-acid 0 1"}},
		{Name: "oxidizing acid", Change: nitric, Want: []string{"incomplete rating-missing 0 1"}, Says: []string{"strong-acid with oxidizer"}},
		{Name: "oxidizing acid, rated", Change: nitric, Library: rate(novolac, "A")},
		{Name: "an oxidizer alone", Change: carries(laminate.Oxidizer)},
		{Name: "hypochlorite at 120 °F", Change: both(bleach, heat(120))},
		{Name: "hypochlorite above 120 °F", Change: both(bleach, heat(121)), Want: []string{"incomplete rating-missing 0 1"}, Says: []string{"hypochlorite at 121 °F, above 120 °F"}},
		{Name: "hypochlorite above 120 °F in an upset", Change: both(bleach, upset(130)), Want: []string{"incomplete rating-missing 0 1"}, Says: []string{"130 °F in an upset"}},
		{Name: "hypochlorite above 120 °F, rated", Change: both(bleach, heat(121)), Library: rate(laminate.VinylEster, "A")},

		{Name: "water at its freezing point", Change: heat(32), Want: []string{"warning service-freezes"}, Says: []string{"the service is at 32 °F, and water freezes at 32 °F"}},
		{Name: "cold water", Change: heat(33)},
		{Name: "a brine of no stated pH below it", Change: both(carries(laminate.Brine), heat(10), func(s *laminate.Schedule) { s.Service.PH = laminate.PHRange{} }), Want: []string{"warning service-freezes", "incomplete service-incomplete"}},
		{Name: "what has no water below it", Change: both(heat(10), func(s *laminate.Schedule) { s.Service.PH = laminate.PHRange{} }), Want: []string{"incomplete service-incomplete"}},
		{Name: "brine on isophthalic at 120 °F", Change: both(carries(laminate.Brine), heat(120), family(liner, laminate.Isophthalic))},
		{Name: "brine on isophthalic above 120 °F", Change: both(carries(laminate.Brine), heat(121), family(liner, laminate.Isophthalic)), Want: []string{"note resin-for-brine 0 1"}},
		{Name: "brine on vinyl ester above 120 °F", Change: both(carries(laminate.Brine), heat(121))},
	}
}

// Common practice, no source.
func chemistryCases() []ruletest.Case {
	acid := carries(laminate.StrongAcid)
	bleach := carries(laminate.Hypochlorite)
	return []ruletest.Case{
		{Name: "strong acid at 120 °F", Change: both(acid, heat(120)), Want: []string{"note resin-for-acid 0 1"}, Says: []string{"novolac vinyl ester is usual"}},
		{Name: "strong acid above 120 °F", Change: both(acid, heat(121)), Want: []string{"warning resin-for-acid 0 1"}, Says: []string{"121 °F", "above 120 °F"}},
		{Name: "strong acid with an oxidizer", Change: carries(laminate.StrongAcid, laminate.Oxidizer), Want: []string{"warning resin-for-acid", "incomplete rating-missing 0 1"}},
		{Name: "strong acid with fluorides is hydrofluoric acid", Change: both(carries(laminate.StrongAcid, laminate.Fluorides), family(liner, laminate.Isophthalic)),
			Want: []string{"warning resin-for-acid 0 1"}, Says: []string{"all the more with fluorides"}},
		{Name: "strong acid on novolac", Change: both(acid, tough, heat(150), family(liner, novolac))},
		{Name: "strong acid, temperature not given", Change: both(acid, noHeat), Want: []string{"incomplete resin-for-acid", "incomplete service-incomplete"}},
		{Name: "strong acid, family not given", Change: both(acid, family(liner, laminate.NoFamily)), Want: []string{"incomplete resin-family-missing 0 1", "incomplete resin-for-acid 0 1"}},
		{Name: "pH 2 is no strong acid by itself", Change: both(carries(), acidity(2))},
		{Name: "pH below 2 is strong acid, whatever the service lists", Change: both(carries(), acidity(1.9)), Want: []string{"note resin-for-acid 0 1"}, Says: []string{"below pH 2"}},
		{Name: "pH below 2, hot", Change: both(both(carries(), acidity(0)), heat(121)), Want: []string{"warning resin-for-acid 0 1"}, Says: []string{"above 120 °F"}},
		{Name: "pH below 2 with fluorides alone", Change: both(carries(laminate.Fluorides), acidity(0)), Want: []string{"warning resin-for-acid 0 1"}, Says: []string{"all the more with fluorides"}},
		{Name: "pH below 2 with oxidizer alone", Change: both(both(carries(laminate.Oxidizer), acidity(0)), family(liner, novolac)), Want: []string{"incomplete rating-missing 0 1"}},
		{Name: "pH below 2, contents not stated", Change: both(func(s *laminate.Schedule) { s.Service.Contains = laminate.Traits{} }, acidity(0)),
			Want: []string{"incomplete resin-for-acid 0 1", "incomplete service-incomplete"}},
		{Name: "strong acid behind the barrier does not count", Change: both(acid, family(liner, novolac), family(wall, laminate.Isophthalic))},

		{Name: "strong base on isophthalic", Change: both(carries(laminate.StrongBase), family(liner, laminate.Isophthalic)), Want: []string{"break resin-in-alkali 0 1"},
			Says: []string{"contains strong-base", "liner (isophthalic-polyester)"}},
		{Name: "strong base on terephthalic", Change: both(carries(laminate.StrongBase), family(liner, laminate.Terephthalic)), Want: []string{"break resin-in-alkali"}},
		{Name: "strong base on chlorendic", Change: both(carries(laminate.StrongBase), family(liner, laminate.Chlorendic)), Want: []string{"break resin-in-alkali"}},
		{Name: "pH above 12 is alkali, whatever the service lists", Change: both(carries(laminate.Brine), both(func(s *laminate.Schedule) {
			s.Service.PH = laminate.PHRange{Lowest: 13, Highest: 14, Given: true}
		}, family(liner, laminate.Isophthalic))), Want: []string{"break resin-in-alkali 0 1"}, Says: []string{"above pH 12"}},
		{Name: "strong base on bisphenol-fumarate", Change: both(carries(laminate.StrongBase), family(liner, laminate.BisphenolFumarate))},
		{Name: "strong base on vinyl ester", Change: carries(laminate.StrongBase)},
		{Name: "strong base, family not given", Change: both(carries(laminate.StrongBase), family(liner, laminate.NoFamily)), Want: []string{"incomplete resin-family-missing 0 1", "incomplete resin-in-alkali 0 1"}},
		{Name: "strong base, resin not named", Change: both(carries(laminate.StrongBase), func(s *laminate.Schedule) { s.Plies[0].Resin = "" }), Want: []string{"incomplete resin-in-alkali 0"}},
		{Name: "alkaline and nobody says what is carried", Change: both(family(liner, laminate.Isophthalic), func(s *laminate.Schedule) {
			s.Service.Contains = laminate.Traits{}
			s.Service.PH.Highest = 12.5
		}), Want: []string{"incomplete resin-in-alkali 0 1", "incomplete service-incomplete"}},
		{Name: "pH 12 is not strongly alkaline", Change: both(family(liner, laminate.Isophthalic), func(s *laminate.Schedule) {
			s.Service.Contains = laminate.Traits{}
			s.Service.PH.Highest = 12
		}), Want: []string{"incomplete service-incomplete"}},

		{Name: "hypochlorite, cure not stated", Change: bleach, Want: []string{"warning hypochlorite-cure 0 1"}, Says: []string{"cure is not stated"},
			Fixes: "cure resin liner with peroxide-amine"},
		{Name: "hypochlorite, cobalt", Change: both(bleach, func(s *laminate.Schedule) { s.Resins[liner].Cure = laminate.PeroxideCobalt }),
			Want: []string{"warning hypochlorite-cure"}, Says: []string{"its cure is peroxide-cobalt"}, Fixes: "peroxide-amine"},
		{Name: "hypochlorite, amine", Change: both(bleach, amine)},
		{Name: "hypochlorite, amine and silica", Change: both(bleach, amine, thixotrope("Fumed Silica 1 %")), Want: []string{"warning hypochlorite-cure"}, Says: []string{"silica"}},
		{Name: "hypochlorite, amine, said to have no silica", Change: both(bleach, amine, thixotrope("no fumed silica"))},
		{Name: "the structure may be cured with cobalt", Change: both(bleach, amine, func(s *laminate.Schedule) { s.Resins[wall].Cure = laminate.PeroxideCobalt })},
		{Name: "hypochlorite on chlorendic", Change: both(bleach, amine, family(liner, laminate.Chlorendic)), Want: []string{"break resin-in-alkali"}},

		{Name: "two families in the barrier", Change: func(s *laminate.Schedule) {
			s.Resins[wall].Family = novolac
			s.Plies[ruletest.MatRow].Resin = ruletest.Wall
		}, Want: []string{"warning barrier-resins-differ 1"}, Says: []string{"plies 2–3 are in wall (novolac-vinyl-ester)"}, Fixes: "use one resin for the whole barrier: liner"},
		{Name: "the resin that meets the fluid leads, whichever stands first", Change: func(s *laminate.Schedule) {
			s.Resins[wall].Family = novolac
			s.Plies[ruletest.VeilRow].Resin = ruletest.Wall
		}, Want: []string{"warning barrier-resins-differ 1"}, Fixes: "whole barrier: wall"},
		{Name: "two resins of one family in the barrier", Change: func(s *laminate.Schedule) { s.Plies[ruletest.MatRow].Resin = ruletest.Wall }},
	}
}

// ASTM E84 classes: A is 0–25 (NFPA 101, IBC 803).
func flameCases() []ruletest.Case {
	brominated := family(wall, laminate.BrominatedVinylEster)
	return []ruletest.Case{
		{Name: "no demand"},
		{Name: "25 demanded of a vinyl ester", Change: flame(25), Want: []string{"break flame-spread 2 3 4 5"}, Says: []string{"neither brominated nor chlorendic"}},
		{Name: "25 demanded of an untested brominated resin", Change: both(flame(25), brominated), Want: []string{"warning flame-spread"}, Says: []string{"antimony trioxide"}},
		{Name: "25 demanded of an untested chlorendic resin", Change: both(flame(25), family(wall, laminate.Chlorendic)), Want: []string{"warning flame-spread"}},
		{Name: "tested at 25", Change: both(flame(25), brominated, tested(wall, 25))},
		{Name: "tested at 26", Change: both(flame(25), brominated, tested(wall, 26)), Want: []string{"break flame-spread"}, Says: []string{"tested at 26"}},
		{Name: "20 of a vinyl ester, and nobody says who tested it", Change: both(flame(25), tested(wall, 20)), Want: []string{"incomplete flame-spread 2 3 4 5"}, Says: []string{"tested at 20", "25 is the highest"}},
		{Name: "20 of a vinyl ester by a report", Change: both(flame(25), tested(wall, 20), sourced), Want: []string{"warning flame-spread 2 3 4 5"}},
		{Name: "30 of a vinyl ester where 75 are allowed", Change: both(flame(75), tested(wall, 30))},
		{Name: "26 demanded of an untested vinyl ester", Change: flame(26), Want: []string{"incomplete flame-spread"}, Says: []string{"has no tested index"}},
		{Name: "75 demanded, tested at 75", Change: both(flame(75), tested(wall, 75))},
		{Name: "75 demanded, tested at 76", Change: both(flame(75), tested(wall, 76)), Want: []string{"break flame-spread"}},
		{Name: "the barrier of a pipe does not count", Change: both(flame(25), brominated, tested(wall, 20))},
		{Name: "the barrier of a duct counts", Change: both(flame(25), brominated, tested(wall, 20), duct), Want: []string{"break flame-spread 0 1"}},
		{Name: "a form not given leaves the barrier open", Change: both(flame(25), brominated, tested(wall, 20), func(s *laminate.Schedule) { s.Part.Form = laminate.NoPartForm }),
			Want: []string{"incomplete flame-spread 0 1"}, Says: []string{"form is not stated"}},
		{Name: "an elbow may be of a duct", Change: both(flame(25), brominated, tested(wall, 20), func(s *laminate.Schedule) { s.Part.Form = laminate.Elbow }),
			Want: []string{"incomplete flame-spread 0 1"}, Says: []string{"elbow does not say"}},
		{Name: "family not given but tested", Change: both(flame(25), family(wall, laminate.NoFamily), tested(wall, 20)), Want: []string{"incomplete resin-family-missing 2 3 4 5"}},
		{Name: "family not given and tested too high", Change: both(flame(25), family(wall, laminate.NoFamily), tested(wall, 30)), Want: []string{"incomplete resin-family-missing 2 3 4 5", "break flame-spread 2 3 4 5"}},
		{Name: "resin not named", Change: both(flame(25), family(wall, laminate.BrominatedVinylEster), tested(wall, 20), func(s *laminate.Schedule) { s.Plies[ruletest.OverRow].Resin = "" }), Want: []string{"incomplete flame-spread 4"}},
		{Name: "family not given", Change: both(flame(25), family(wall, laminate.NoFamily)), Want: []string{"incomplete resin-family-missing 2 3 4 5", "incomplete flame-spread 2 3 4 5"}},
	}
}

func serviceCases() []ruletest.Case {
	return []ruletest.Case{
		{Name: "fluid missing", Change: func(s *laminate.Schedule) { s.Service.Fluid = "" }, Want: []string{"incomplete service-incomplete", "note confirm-resin"}, Says: []string{"its fluid"}},
		{Name: "temperature missing", Change: noHeat, Want: []string{"incomplete service-incomplete"}, Says: []string{"its temperature"}},
		{Name: "an upset alone is no operating temperature", Change: both(noHeat, upset(120)), Want: []string{"incomplete service-incomplete"}},
		{Name: "pH missing", Change: func(s *laminate.Schedule) { s.Service.PH = laminate.PHRange{} }, Want: []string{"incomplete service-incomplete"}, Says: []string{"its pH"}},
		{Name: "everything missing", Change: func(s *laminate.Schedule) { s.Service = laminate.Service{} }, Want: []string{"incomplete service-incomplete"},
			Says: []string{"its fluid, temperature and pH", "nor what it contains"}},
		{Name: "carried not stated", Change: func(s *laminate.Schedule) { s.Service.Contains = laminate.Traits{} }, Want: []string{"incomplete service-incomplete"}, Says: []string{"does not state what it contains"}},
		{Name: "the structure's resin has no family", Change: family(wall, laminate.NoFamily), Want: []string{"incomplete resin-family-missing 2 3 4 5"}, Says: []string{"has no family"}},
		{Name: "a resin that no ply uses may lack its family", Change: func(s *laminate.Schedule) { s.Resins = append(s.Resins, laminate.Resin{ID: "spare"}) }},
		{Name: "the resin is to be confirmed always", Want: []string{"note confirm-resin"},
			Says: []string{"confirm vinyl-ester for rinse water at 2 % and 110 °F by the resin manufacturer's data or ASTM C581 coupons"}},
		{Name: "even where nothing is known", Change: func(s *laminate.Schedule) { *s = laminate.Schedule{} }, Want: []string{"incomplete service-incomplete", "note confirm-resin"},
			Says: []string{"confirm the barrier resin for the fluid at its concentration (not given)"}},
	}
}

func sourced(s *laminate.Schedule) {
	for i := range s.Resins {
		s.Resins[i].Source = "invented"
	}
}

// figureCases are slips of unit and point in what a resin states of itself. The typical heat
// deflection temperatures are 100 °C of vinyl ester and 145 °C of novolac; bounds are common
// practice, no source.
func figureCases() []ruletest.Case {
	novolac := both(family(liner, laminate.NovolacVinylEster), family(wall, laminate.NovolacVinylEster))
	celsius := func(resin int, c float64) func(*laminate.Schedule) {
		return func(s *laminate.Schedule) {
			s.Resins[resin].HeatDeflection = quantity.New(c, quantity.Celsius).Spelled(quantity.Celsius)
		}
	}
	resin := func(change func(*laminate.Resin)) func(*laminate.Schedule) {
		return func(s *laminate.Schedule) { change(&s.Resins[wall]) }
	}
	modulus := func(v float64, u func(float64) quantity.Pressure) func(*laminate.Schedule) {
		return resin(func(r *laminate.Resin) { r.Modulus = u(v) })
	}
	gigapascal := func(v float64) quantity.Pressure {
		return quantity.New(v, quantity.Gigapascal).Spelled(quantity.Gigapascal)
	}
	msi := func(v float64) quantity.Pressure { return quantity.New(v, quantity.Msi).Spelled(quantity.Msi) }
	density := func(v float64) func(*laminate.Schedule) {
		return resin(func(r *laminate.Resin) {
			r.Density = quantity.New(v, quantity.KilogramPerCubicMeter).Spelled(quantity.KilogramPerCubicMeter)
		})
	}
	return []ruletest.Case{
		{Name: "30 °C above the family is within", Change: celsius(wall, 130)},
		{Name: "31 °C above the family", Change: celsius(wall, 131), Want: []string{"incomplete heat-deflection-unusual 2 3 4"}, Metric: true, Says: []string{"131 °C, is 31 °C above the 100 °C"}},
		{Name: "290 °C typed for 290 °F", Change: both(novolac, celsius(liner, 290)), Want: []string{"incomplete heat-deflection-unusual 0 1"}, Says: []string{"554 °F", "293 °F", "looks like 290 °F", "state whose figure"}},
		{Name: "with a source", Change: both(novolac, celsius(liner, 290), sourced), Want: []string{"warning heat-deflection-unusual 0 1"}, Says: []string{"copied right"}},
		{Name: "with a product", Change: both(novolac, celsius(wall, 290), resin(func(r *laminate.Resin) { r.Product = "invented" })), Want: []string{"warning heat-deflection-unusual 2 3 4"}},
		{Name: "145 °F typed for 145 °C", Change: both(novolac, deflects(liner, 145), heat(70)), Want: []string{"warning heat-deflection-unusual 0 1"}, Says: []string{"below the 293 °F"}},
		{Name: "no family, nothing to hold it against", Change: both(family(wall, laminate.NoFamily), celsius(wall, 290)), Want: []string{"incomplete resin-family-missing 2 3 4 5"}},
		{Name: "6 GPa is within", Change: modulus(6, gigapascal)},
		{Name: "a modulus ten times", Change: modulus(32, gigapascal), Want: []string{"incomplete resin-figures-unusual 2 3 4 5"}, Metric: true, Says: []string{"a modulus of 32", "2.00 GPa to 6.00 GPa", "looks like 3.2 GPa"}},
		{Name: "a modulus in the other unit", Change: both(modulus(3.2, msi), sourced), Want: []string{"warning resin-figures-unusual 2 3 4 5"}, Says: []string{"looks like 3.2 GPa"}},
		{Name: "a modulus too low", Change: modulus(0.32, gigapascal), Want: []string{"warning resin-figures-unusual 2 3 4 5"}, Says: []string{"looks like 0.32 Msi or 3.2 GPa"}},
		{Name: "a density of a tenth, by which a wall is ten times as thick", Change: density(115), Want: []string{"incomplete resin-figures-unusual 2 3 4 5"}, Says: []string{"looks like 1150 kg/m³"}},
		{Name: "1.6 g/cm³ is within", Change: density(1600)},
		{Name: "a density above it", Change: density(1700), Want: []string{"warning resin-figures-unusual 2 3 4 5"}},
		{Name: "three times the strain of the family is within", Change: resin(func(r *laminate.Resin) { r.FailureStrain = laminate.Some(0.15) })},
		{Name: "a failure strain ten times", Change: both(family(liner, laminate.Isophthalic), func(s *laminate.Schedule) { s.Resins[liner].FailureStrain = laminate.Some(0.18) }),
			Want: []string{"incomplete resin-figures-unusual 0 1"}, Says: []string{"18 %", "2 % that is typical", "looks like 1.8 %"}},
	}
}

func TestResinRules(t *testing.T) {
	cases := slices.Concat(heatCases(), familyCases(), ratedCases(), chemistryCases(), flameCases(), serviceCases())
	// Some cases make a resin tough by a temperature that no resin of its family has.
	ruletest.Run(t, "resin", cases, "confirm-resin", "heat-deflection-unusual")
	figures := figureCases()
	ruletest.Run(t, "resin", figures, "confirm-resin")
	ruletest.Covers(t, "resin", slices.Concat(cases, figures))
}
