package advice_test

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
)

// rated has invented ratings of nobody's resins.
func rated(t *testing.T) *laminate.Library {
	t.Helper()
	lib := catalog.Library()
	for _, r := range []laminate.Rating{
		{Fluid: "Vitriol", Concentration: [2]float64{0.1, 0.3}, MaxTemperature: quantity.New(150, quantity.Fahrenheit), Family: laminate.NovolacVinylEster, Build: "100 mil", Grade: "B", Date: "2024-03"},
		{Fluid: "vitriol", Concentration: [2]float64{0.1, 0.3}, MaxTemperature: quantity.New(150, quantity.Fahrenheit), Family: laminate.NovolacVinylEster, Build: "200 mil", Grade: "A", Date: "2024-03"},
		{Fluid: "vitriol", Concentration: [2]float64{0.2, 0.2}, MaxTemperature: quantity.New(120, quantity.Fahrenheit), Family: laminate.VinylEster, Build: "100-mil", Grade: "A", Date: "2023-11"},
		{Fluid: "vitriol", Concentration: [2]float64{0.2, 0.2}, MaxTemperature: quantity.New(120, quantity.Fahrenheit), Family: laminate.VinylEster, Build: "200 mil", Grade: "A", Date: "2023-11"},
		{Fluid: "vitriol", Concentration: [2]float64{0.2, 0.2}, MaxTemperature: quantity.New(120, quantity.Fahrenheit), Family: laminate.Isophthalic, Build: "200 mil", Grade: "not recommended", Date: "2023-11"},
	} {
		r.Source, r.Book, r.Line = "own coupons", "coupons.csv", len(lib.Ratings)+2
		lib.Ratings = append(lib.Ratings, r)
	}
	return lib
}

func vitriol(concentration, fahrenheit float64) *laminate.Schedule {
	return &laminate.Schedule{Service: laminate.Service{
		Fluid: "VITRIOL", Concentration: laminate.Some(concentration), Temperature: quantity.New(fahrenheit, quantity.Fahrenheit),
		PH: laminate.PHRange{Lowest: 1, Highest: 3, Given: true}, Contains: laminate.TraitSet(),
	}}
}

func reason(list []advice.Reason, text string) *advice.Reason {
	i := slices.IndexFunc(list, func(r advice.Reason) bool { return strings.Contains(r.Text, text) })
	if i < 0 {
		return nil
	}
	return &list[i]
}

func TestMatchingRatings_rangesAreInclusiveAndNothingIsInterpolated(t *testing.T) {
	lib := rated(t)
	for _, c := range []struct {
		concentration, at float64
		want              int
	}{
		{0.2, 120, 5}, {0.2, 121, 2}, {0.2, 150, 2}, {0.2, 151, 0}, {0.1, 100, 2}, {0.3, 100, 2}, {0.31, 100, 0}, {0.099, 100, 0},
	} {
		if got := catalog.Ratings(lib, &vitriol(c.concentration, c.at).Service); len(got) != c.want {
			t.Errorf("%v at %v °F: %d rows, want %d", c.concentration, c.at, len(got), c.want)
		}
	}
	other := vitriol(0.2, 100)
	other.Service.Fluid = "vitriol, spent"
	if got := catalog.Ratings(lib, &other.Service); got != nil {
		t.Errorf("another fluid match: %v", got)
	}
}

func TestAdvise_takesTheLeanestBuildWithTheBestGrade(t *testing.T) {
	a := advice.Advise(vitriol(0.2, 110), rated(t), quantity.US)
	single := a.Build(catalog.SingleBuild.ID)
	if r := reason(single.Reasons, "in vinyl-ester the 100 mil build is the thinnest with the best grade, \"A\""); r == nil || r.Basis != "coupons.csv:4, own coupons, 2023-11" {
		t.Errorf("vinyl ester: %v", single.Reasons)
	}
	if r := reason(single.Reasons, "in novolac-vinyl-ester the best grade, \"A\", is for the 200 mil build only; the 100 mil build has \"B\""); r == nil || r.Basis != "coupons.csv:3, own coupons, 2024-03" {
		t.Errorf("novolac: %v", single.Reasons)
	}
	if single.Suits != advice.Conditional || a.Build(catalog.DoubleBuild.ID).Suits != advice.Usual {
		t.Errorf("100 mil %v, 200 mil %v", single.Suits, a.Build(catalog.DoubleBuild.ID).Suits)
	}
	if o := a.Resin(laminate.Isophthalic); o.Suits != advice.Unsuitable || reason(o.Reasons, "not recommended") == nil {
		t.Errorf("a family that every row refuses: %v %v", o.Suits, o.Reasons)
	}
	if len(a.Ratings) != 5 {
		t.Errorf("%d rows are named", len(a.Ratings))
	}
}

// A shop's own build is answered for beside the usual ones, by what its plies
// are and by the ratings that name it, and can be proposed.
func TestAdvise_ownBuilds(t *testing.T) {
	lib := catalog.Merge(catalog.Library(), catalog.Book{Path: "shop-book.toml",
		Builds: []laminate.BarrierBuild{{ID: "tri-mat", Veils: 1, Mats: 3}, {ID: "one-mat", Veils: 1, Mats: 1}},
		Ratings: []laminate.Rating{{Fluid: "rinse water", Concentration: [2]float64{0, 1}, MaxTemperature: quantity.New(150, quantity.Fahrenheit),
			Family: laminate.VinylEster, Build: "Tri-mat", Grade: "A", Source: "own coupons", Date: "2024"}}})
	s := header()
	s.Service.Fluid = "rinse water"
	a := advice.Advise(s, lib, quantity.US)
	own, thin := a.Build("tri-mat"), a.Build("one-mat")
	if own == nil || own.Suits != advice.Suitable || reason(own.Reasons, "1 veil and 3 mats") == nil || reason(own.Reasons, "this build is rated \"A\"") == nil {
		t.Errorf("its own build: %+v", own)
	}
	if thin == nil || thin.Suits <= advice.Suitable {
		t.Errorf("one mat is too little (API 12P 5.4.3): %+v", thin)
	}
	if b := a.Build(catalog.SingleBuild.ID); b.Suits != advice.Usual {
		t.Errorf("the usual build is %v", b.Suits)
	}
	list := propose(t, s, lib, advice.Options{Build: "tri-mat"})
	if interior := laid(list[0].Schedule, laminate.InteriorLayer); len(interior) != 1 || interior[0].Count != 3 {
		t.Errorf("proposed %+v", list[0].Schedule.Plies)
	}
}
