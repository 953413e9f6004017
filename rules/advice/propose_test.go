package advice_test

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/all"
)

func header() *laminate.Schedule {
	return &laminate.Schedule{
		Head: laminate.Head{Title: "Rinse header"},
		Part: laminate.Part{
			Form: laminate.Pipe, Process: laminate.ContactMolded, InsideDiameter: quantity.New(24, quantity.Inch), Ends: laminate.ClosedEnds,
			Length: quantity.New(20, quantity.Foot),
		},
		Service: laminate.Service{
			Fluid: "rinse", Temperature: quantity.New(110, quantity.Fahrenheit), PH: laminate.PHRange{Lowest: 4, Highest: 8, Given: true},
			Contains: laminate.TraitSet(), Pressure: quantity.New(50, quantity.PSI), Vacuum: quantity.New(0, quantity.PSI),
		},
	}
}

func propose(t *testing.T, s *laminate.Schedule, lib *laminate.Library, o advice.Options) []advice.Candidate {
	t.Helper()
	list, err := advice.Propose(s, lib, o)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func laid(s *laminate.Schedule, zone laminate.Zone) []laminate.Ply {
	return slices.DeleteFunc(slices.Clone(s.Plies), func(p laminate.Ply) bool { return p.Zone != zone })
}

func TestPropose_aWholeWallThatHolds(t *testing.T) {
	for _, process := range laminate.Processes.All() {
		s := header()
		s.Part.Process = process
		list := propose(t, s, catalog.Library(), advice.Options{})
		if !slices.Contains(list[0].Titles, "best") {
			t.Errorf("the first is %v", list[0].Titles)
		}
		for _, c := range list {
			if c.Report.Verdict != rules.Clear {
				t.Errorf("%v: verdict %s: %+v", process, c.Report.Verdict, c.Report.Findings[0])
			}
			if got := wall.Evaluate(c.Schedule, catalog.Library(), c.Report.Analysis, wall.Options{}).Answer(); got != wall.Holds {
				t.Errorf("%v: the wall %v", process, got)
			}
			veils, last := laid(c.Schedule, laminate.InnerSurface), c.Schedule.Plies[len(c.Schedule.Plies)-1]
			if len(veils) != 1 || veils[0].Material != catalog.VeilC15 {
				t.Errorf("%v: inner surface %v", process, veils)
			}
			if last.Material != catalog.Topcoat || last.Zone != laminate.OuterSurface {
				t.Errorf("%v: outermost %+v", process, last)
			}
			if interior := laid(c.Schedule, laminate.InteriorLayer); !interior[len(interior)-1].GelAfter {
				t.Errorf("%v: no gel stop on the barrier", process)
			}
			if faults := laminate.Validate(c.Schedule, catalog.Library()); len(faults) > 0 {
				t.Errorf("%v: %v", process, faults)
			}
			if c.Schedule.Title != s.Title || !reflect.DeepEqual(c.Schedule.Part, s.Part) || !reflect.DeepEqual(c.Schedule.Service, s.Service) {
				t.Errorf("%v: title, part or service changed", process)
			}
			// Zones may be left out of the text: reading them back infers the same.
			bare := c.Schedule.Clone()
			for i := range bare.Plies {
				bare.Plies[i].Zone = laminate.NoZone
			}
			for i, z := range laminate.InferZones(bare, catalog.Library()) {
				if z != c.Schedule.Plies[i].Zone {
					t.Errorf("%v: row %d is %v, inferred %v", process, i, c.Schedule.Plies[i].Zone, z)
				}
			}
		}
		if len(s.Plies) > 0 || len(s.Resins) > 0 {
			t.Error("the schedule that was asked about has changed")
		}
	}
}

func TestPropose_dominatedCandidatesAreGoneAndEachSaysWhatItGivesUp(t *testing.T) {
	s := header()
	s.Service.Contains = laminate.TraitSet(laminate.Hypochlorite)
	list := propose(t, s, catalog.Library(), advice.Options{})
	if len(list) < 2 {
		t.Fatalf("%d candidates: nothing to weigh", len(list))
	}
	titles := map[string]bool{}
	for i, a := range list {
		if len(a.Titles) == 0 && len(a.GivesUp) == 0 {
			t.Errorf("candidate %d says nothing of itself", i)
		}
		for _, x := range a.Titles {
			if titles[x] {
				t.Errorf("two are the %s", x)
			}
			titles[x] = true
		}
		for j, b := range list {
			x, y := a.Figures, b.Figures
			if i != j && x.Standard == y.Standard && x.Thickness <= y.Thickness && x.Mass <= y.Mass && x.Plies <= y.Plies && x.GelStops <= y.GelStops {
				t.Errorf("candidate %d is at least as good as %d in everything: %+v, %+v", i, j, x, y)
			}
		}
	}
	if !titles["best"] || titles["without rings"] {
		t.Errorf("titles %v", titles)
	}
	if titles["cheapest"] {
		t.Error("one is called the cheapest and nobody gave a price")
	}
}

func TestPropose_pricesOfTheBookDecideTheCheapest(t *testing.T) {
	lib := catalog.Library()
	price := func(text string) quantity.Price {
		p, err := quantity.ParsePrice(text)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	for i := range lib.Materials {
		if lib.Materials[i].Form != laminate.ResinCoat {
			lib.Materials[i].Price = price("3.00 per kg")
		}
	}
	lib.Resins = []laminate.Resin{
		{ID: "dear", Family: laminate.NovolacVinylEster, Price: price("9.00 per kg")},
		{ID: "cheap", Family: laminate.VinylEster, Price: price("4.00 per kg")},
	}
	list := propose(t, header(), lib, advice.Options{})
	least := 0
	for i, c := range list {
		if !c.Figures.CostKnown || c.Figures.Cost <= 0 {
			t.Fatalf("candidate %d has no cost", i)
		}
		if c.Figures.Cost < list[least].Figures.Cost {
			least = i
		}
	}
	if !slices.Contains(list[least].Titles, "cheapest") {
		t.Errorf("the cheapest is called %v", list[least].Titles)
	}
	for _, p := range list[least].Schedule.Plies {
		if p.Resin != "cheap" {
			t.Errorf("the cheapest takes resin %q", p.Resin)
		}
	}
	// By hand: fiber at 3.00 and resin at 4.00 a kilogram.
	total := list[least].Report.Analysis.Total
	if want := 3*total.FiberMass + 4*(total.Mass-total.FiberMass); !near(list[least].Figures.Cost, want) {
		t.Errorf("cost %v, want %v", list[least].Figures.Cost, want)
	}
	lib.Resins[1].Price = quantity.Price{}
	for _, c := range propose(t, header(), lib, advice.Options{}) {
		if usesOnly(c.Schedule, "cheap") && c.Figures.CostKnown {
			t.Error("a cost is told without the resin's price")
		}
	}
}

func near(a, b float64) bool { return a-b < 1e-9*b && b-a < 1e-9*b }

func usesOnly(s *laminate.Schedule, id string) bool {
	return !slices.ContainsFunc(s.Plies, func(p laminate.Ply) bool { return p.Resin != id })
}

func TestPropose_laysTheLeastStructureWhereItCannotBeFigured(t *testing.T) {
	for name, change := range map[string]func(*laminate.Schedule){
		"inside_diameter": func(s *laminate.Schedule) { s.Part.InsideDiameter = quantity.Length{} },
		"liquid_height":   func(s *laminate.Schedule) { s.Part.Form, s.Part.Length = laminate.Tank, quantity.Length{} },
	} {
		s := header()
		change(s)
		list := propose(t, s, catalog.Library(), advice.Options{})
		c := list[0]
		if len(list) != 1 || !strings.Contains(c.Unfinished, name) || len(laid(c.Schedule, laminate.StructuralLayer)) == 0 || c.Report.Verdict != rules.Incomplete || len(laid(c.Schedule, laminate.InteriorLayer)) == 0 {
			t.Errorf("%s: %d candidates, %q, %v", name, len(list), c.Unfinished, c.Schedule.Plies)
		}
		if !slices.ContainsFunc(c.Notes, func(n string) bool { return strings.Contains(n, name) }) {
			t.Errorf("%s is in no note: %v", name, c.Notes)
		}
	}
}

func TestPropose_specialBarriers(t *testing.T) {
	s := header()
	s.Part.Grounding = "lug at each flange"
	s.Service.Conductive, s.Service.Abrasive = laminate.Some(true), laminate.Some(true)
	for _, c := range propose(t, s, catalog.Library(), advice.Options{}) {
		if c.Report.Verdict == rules.Break || c.Report.Verdict == rules.Incomplete {
			t.Errorf("verdict %s: %+v", c.Report.Verdict, c.Report.Findings[0])
		}
		if len(c.Notes) == 0 {
			t.Error("the share of carbon powder is taken and not told")
		}
	}
	s = header()
	s.Service.Contains = laminate.TraitSet(laminate.Hypochlorite)
	for _, c := range propose(t, s, catalog.Library(), advice.Options{VeilOutside: true}) {
		if c.Report.Verdict != rules.Clear {
			t.Errorf("hypochlorite: verdict %s: %+v", c.Report.Verdict, c.Report.Findings[0])
		}
		if n := len(laid(c.Schedule, laminate.OuterSurface)); n != 2 {
			t.Errorf("a veil outside was asked for; the outer surface has %d rows", n)
		}
	}
}

func TestPropose_takesTheSchedulesOwnResin(t *testing.T) {
	s := header()
	s.Resins = []laminate.Resin{{ID: "liner", Family: laminate.NovolacVinylEster, Product: "shop blend"}}
	for _, c := range propose(t, s, catalog.Library(), advice.Options{}) {
		if !usesOnly(c.Schedule, "liner") || len(c.Schedule.Resins) != 1 {
			t.Errorf("resins %v", c.Schedule.Resins)
		}
	}
}

func TestPropose_refusals(t *testing.T) {
	s := header()
	s.Plies = []laminate.Ply{{Material: catalog.Mat15, Count: 2}}
	if _, err := advice.Propose(s, catalog.Library(), advice.Options{}); err == nil || !strings.Contains(err.Error(), "2 plies already") {
		t.Errorf("a schedule with plies: %v", err)
	}
	if list := propose(t, s, catalog.Library(), advice.Options{Replace: true}); len(laid(list[0].Schedule, laminate.InnerSurface)) == 0 {
		t.Error("asked to replace the plies, it did not")
	}
	if _, err := advice.Propose(header(), nil, advice.Options{}); err == nil {
		t.Error("something was built of no materials")
	}
	s = header()
	s.Service.PH = laminate.PHRange{Lowest: 1, Highest: 13, Given: true}
	s.Service.Contains = laminate.TraitSet(laminate.Hypochlorite)
	lib := catalog.Library()
	lib.Materials = slices.DeleteFunc(lib.Materials, func(m laminate.Material) bool { return m.Form == laminate.Veil && m.Fiber == laminate.Polyester })
	lib.Index()
	_, err := advice.Propose(s, lib, advice.Options{})
	var nothing *advice.NothingSuitsError
	if !errors.As(err, &nothing) || !strings.Contains(err.Error(), "no veil is suitable") {
		t.Errorf("no veil is left: %v", err)
	}
}

func TestPropose_keepsToWhatWasChosen(t *testing.T) {
	o := advice.Options{Veil: catalog.VeilPolyester15, Resin: "bisphenol-fumarate-polyester", Build: catalog.DoubleBuild.ID}
	for _, c := range propose(t, header(), catalog.Library(), o) {
		veils := laid(c.Schedule, laminate.InnerSurface)
		if len(veils) != 1 || veils[0].Material != o.Veil || veils[0].Count != 2 {
			t.Errorf("inner surface %v", veils)
		}
		for _, r := range c.Schedule.Resins {
			if r.Family != laminate.BisphenolFumarate {
				t.Errorf("resin %v", r)
			}
		}
	}
	s := header()
	s.Service.Contains = laminate.TraitSet(laminate.Fluorides)
	var nothing *advice.NothingSuitsError
	if _, err := advice.Propose(s, catalog.Library(), advice.Options{Veil: catalog.VeilC15}); !errors.As(err, &nothing) {
		t.Errorf("a glass veil for fluorides: %v", err)
	}
	if _, err := advice.Propose(s, catalog.Library(), advice.Options{Build: "300-mil"}); err == nil || !strings.Contains(err.Error(), "there are 100-mil, 200-mil") {
		t.Errorf("a build nobody knows: %v", err)
	}
}

func TestPropose_saysWhatSpeaksAgainstTheOnlyResin(t *testing.T) {
	s := header()
	s.Resins = []laminate.Resin{{ID: "soft", Family: laminate.VinylEster, HeatDeflection: quantity.New(50, quantity.Celsius)}}
	_, err := advice.Propose(s, catalog.Library(), advice.Options{})
	var nothing *advice.NothingSuitsError
	if !errors.As(err, &nothing) || !strings.Contains(err.Error(), "heat deflection temperature of resin soft") {
		t.Errorf("a resin that is too soft: %v", err)
	}
	s = header()
	s.Service.Pressure = quantity.New(20_000, quantity.PSI)
	if _, err := advice.Propose(s, catalog.Library(), advice.Options{}); !errors.As(err, &nothing) || !strings.Contains(err.Error(), "not enough") {
		t.Errorf("a pressure that no wall of this kind holds: %v", err)
	}
}

func TestPropose_isFreeOfBreaksWhateverTheService(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anyService(t)
		s.Part.InsideDiameter = quantity.New(rapid.Float64Range(2, 120).Draw(t, "diameter"), quantity.Inch)
		s.Part.Ends = rapid.SampledFrom(laminate.EndsWords.All()).Draw(t, "ends")
		s.Service.Pressure = quantity.New(rapid.Float64Range(1, 60).Draw(t, "pressure"), quantity.PSI)
		s.Part.ModulusRetention = laminate.Some(0.8)
		s.Part.LiquidHeight, s.Service.SpecificGravity = quantity.New(10, quantity.Foot), laminate.Some(1.1)
		list, err := advice.Propose(s, lib, advice.Options{})
		if err != nil {
			return
		}
		again, _ := advice.Propose(s, lib, advice.Options{})
		if len(again) != len(list) {
			t.Fatal("the same service gets other candidates")
		}
		for i, c := range list {
			if !reflect.DeepEqual(c.Schedule, again[i].Schedule) {
				t.Fatal("the same service gets another schedule")
			}
			if breaks, _, _, _ := c.Report.Counts(); breaks > 0 && c.Unfinished == "" {
				t.Fatalf("%+v", c.Report.Findings[0])
			}
		}
	})
}

// No family bears toluene at 1000 °F, and none can be told for 93 % sulfuric
// acid without a rating: typical heat deflection temperatures from memory, the
// rest common practice, no source.
func TestPropose_buildsNothingThatNoFamilyBears(t *testing.T) {
	s := header()
	s.Service.Fluid, s.Service.Concentration, s.Service.Contains = "toluene vapor", laminate.Some(1.0), laminate.TraitSet(laminate.Solvent)
	s.Service.Temperature = quantity.New(1000, quantity.Fahrenheit)
	var nothing *advice.NothingSuitsError
	if _, err := advice.Propose(s, catalog.Library(), advice.Options{}); !errors.As(err, &nothing) {
		t.Errorf("toluene at 1000 °F: %v", err)
	}

	s = header()
	s.Service.Fluid, s.Service.Concentration, s.Service.Contains = "sulfuric acid", laminate.Some(0.93), laminate.TraitSet(laminate.StrongAcid)
	s.Service.PH = laminate.PHRange{Lowest: -1, Highest: 0, Given: true}
	for _, c := range propose(t, s, catalog.Library(), advice.Options{}) {
		if c.Report.Verdict != rules.Incomplete || !noted(&c, "not checked", "no shop book has a rating of") {
			t.Errorf("93 %% sulfuric acid: %v, %q", c.Report.Verdict, c.Notes)
		}
	}
}

// A proposal for a service that has a barrier ends in a schedule that no rule
// breaks, hot or cold, pressed or sucked, whatever is not stated: that is
// assumed, and left incomplete.
func TestPropose_neverEndsBroken(t *testing.T) {
	lib := catalog.Library()
	proposed := 0
	rapid.Check(t, func(t *rapid.T) {
		s := header()
		maybe := func(name string) bool { return rapid.Float64Range(0, 1).Draw(t, name+" stated") < 0.8 }
		s.Part.Form = rapid.SampledFrom([]laminate.PartForm{laminate.Pipe, laminate.Duct, laminate.Tank}).Draw(t, "form")
		s.Part.Process = rapid.SampledFrom([]laminate.Process{laminate.NoProcess, laminate.ContactMolded, laminate.Wound}).Draw(t, "process")
		s.Part.DesignBasis = rapid.SampledFrom([]laminate.DesignBasis{laminate.NoBasis, laminate.StrengthTable, laminate.StrainLimit}).Draw(t, "basis")
		s.Part.Ends = rapid.SampledFrom([]laminate.Ends{laminate.NoEnds, laminate.ClosedEnds, laminate.OpenEnds}).Draw(t, "ends")
		s.Part.Flanged = laminate.Some(rapid.Bool().Draw(t, "flanged"))
		s.Part.Grounding = "lug at each flange"
		s.Part.InsideDiameter, s.Part.Length = quantity.Length{}, quantity.Length{}
		if maybe("diameter") {
			s.Part.InsideDiameter = quantity.New(rapid.Float64Range(2, 144).Draw(t, "inches"), quantity.Inch)
		}
		if maybe("length") {
			s.Part.Length = quantity.New(rapid.Float64Range(2, 40).Draw(t, "feet"), quantity.Foot)
		}
		if s.Part.Form == laminate.Tank && maybe("height") {
			s.Part.LiquidHeight = quantity.New(rapid.Float64Range(1, 20).Draw(t, "height"), quantity.Foot)
		}
		v := &s.Service
		v.Temperature, v.Pressure, v.Vacuum, v.PH, v.SpecificGravity = quantity.Temperature{}, quantity.Pressure{}, quantity.Pressure{}, laminate.PHRange{}, laminate.Optional[float64]{}
		if maybe("temperature") {
			v.Temperature = quantity.New(rapid.Float64Range(40, 260).Draw(t, "degrees"), quantity.Fahrenheit)
		}
		if maybe("pressure") {
			v.Pressure = quantity.New(rapid.SampledFrom([]float64{0, 0, 5, 15, 50, 100}).Draw(t, "psi"), quantity.PSI)
		}
		if maybe("vacuum") {
			v.Vacuum = quantity.New(rapid.SampledFrom([]float64{0, 0, 0.3, 2, 7, 14.7}).Draw(t, "vacuum psi"), quantity.PSI)
		}
		if maybe("pH") {
			low := rapid.Float64Range(-1, 14).Draw(t, "lowest pH")
			v.PH = laminate.PHRange{Lowest: low, Highest: rapid.Float64Range(low, 14).Draw(t, "highest pH"), Given: true}
		}
		if maybe("gravity") {
			v.SpecificGravity = laminate.Some(rapid.Float64Range(0.8, 1.8).Draw(t, "gravity"))
		}
		v.Contains = laminate.Traits{}
		if maybe("contents") {
			v.Contains = laminate.TraitSet(rapid.SliceOfNDistinct(rapid.SampledFrom(laminate.TraitWords.All()), 0, 2, rapid.ID).Draw(t, "contains")...)
		}
		v.Conductive, v.Abrasive = laminate.Some(rapid.Bool().Draw(t, "conductive")), laminate.Some(rapid.Bool().Draw(t, "abrasive"))
		list, err := advice.Propose(s, lib, advice.Options{})
		if err != nil {
			var nothing *advice.NothingSuitsError
			if !errors.As(err, &nothing) {
				t.Fatal(err)
			}
			if strings.Contains(err.Error(), "no structure") {
				t.Logf("%v", err)
				if !tooMuch(s) {
					t.Fatalf("%+v\n%v", s.Service, err)
				}
			}
			return
		}
		proposed++
		for _, c := range list {
			if c.Report.Verdict == rules.Break {
				t.Fatalf("%+v %+v\n%q: %+v", s.Part, s.Service, c.Notes, c.Report.Findings[0].Message)
			}
			if again := all.Judge(c.Schedule, lib, rules.Options{}).Verdict; again != c.Report.Verdict {
				t.Fatalf("check says %v, the proposal %v", again, c.Report.Verdict)
			}
		}
	})
	if proposed == 0 {
		t.Error("nothing was proposed")
	}
}

// tooMuch tells of loads that no wall thinner than its radius holds, or that no
// ring is tried for.
func tooMuch(s *laminate.Schedule) bool {
	return s.Service.Vacuum.SI() > 0 || s.Service.Pressure.In(quantity.PSI) >= 50
}

func TestPropose_buildsUpByTheUnitThatIsAskedFor(t *testing.T) {
	forms := map[repeat.Unit]laminate.Form{repeat.MatAndWoven: laminate.WovenRoving, repeat.WoundCover: laminate.RovingBand, repeat.HoopAndChop: laminate.RovingBand}
	for _, unit := range repeat.Units.All() {
		for _, process := range []laminate.Process{laminate.ContactMolded, laminate.Wound} {
			s := header()
			s.Part.Process = process
			list := propose(t, s, catalog.Library(), advice.Options{Unit: unit})
			for _, c := range list {
				has := slices.ContainsFunc(c.Schedule.Plies, func(p laminate.Ply) bool {
					m, _ := catalog.Library().Material(c.Schedule, p.Material)
					return m != nil && m.Form == forms[unit]
				})
				if want := unit != repeat.Mat; has != want {
					t.Errorf("%v in a %v part: %+v", unit, process, c.Schedule.Plies)
				}
			}
			if !list[0].Figures.Standard {
				t.Errorf("%v: the first is built of what no shop keeps: %+v", unit, list[0].Schedule.Plies)
			}
		}
	}
}

// Against outside pressure rings are weighed against glass, and what they trade
// is said.
func TestPropose_weighsRingsAgainstGlass(t *testing.T) {
	s := header()
	s.Part.Flanged = laminate.Some(true)
	s.Part.InsideDiameter, s.Service.Pressure, s.Service.Vacuum = quantity.New(48, quantity.Inch), quantity.New(0, quantity.PSI), quantity.New(2, quantity.PSI)
	list := propose(t, s, catalog.Library(), advice.Options{})
	var without, with *advice.Candidate
	for i := range list {
		switch c := &list[i]; {
		case c.Figures.Rings == 0 && without == nil:
			without = c
		case c.Figures.Rings > 0 && with == nil:
			with = c
		}
	}
	if without == nil || with == nil {
		t.Fatalf("%d candidates, not both with and without rings", len(list))
	}
	if !(with.Figures.Mass < without.Figures.Mass) || !with.Schedule.Part.StiffenerSpacing.Given() || with.Report.Verdict == rules.Break {
		t.Errorf("rings save nothing: %+v against %+v", with.Figures, without.Figures)
	}
	if !noted(with, "rings in the place of glass", "second moment of area") || !slices.ContainsFunc(with.GivesUp, func(s string) bool { return strings.HasPrefix(s, "rings every ") }) {
		t.Errorf("notes %q, trade-offs %q", with.Notes, with.GivesUp)
	}
	if without.Schedule.Part.StiffenerSpacing.Given() || list[0].Figures.Rings > 0 {
		t.Error("rings are taken without being asked")
	}
}

// What is assumed and the same stated ask for one wall, plies, rings and all: who confirms
// what the proposal took for granted finds it as sound as it was said to be.
func TestPropose_anAssumptionIsAnsweredAsTheSameStated(t *testing.T) {
	warm := func(f float64) func(*laminate.Schedule) {
		return func(s *laminate.Schedule) { s.Service.Temperature = quantity.New(f, quantity.Fahrenheit) }
	}
	vertical := func(s *laminate.Schedule) {
		warm(160)(s)
		s.Part.Form, s.Part.DesignBasis, s.Part.InsideDiameter, s.Part.Length = laminate.Tank, laminate.StrengthTable, quantity.New(72, quantity.Inch), quantity.New(10, quantity.Foot)
		s.Part.LiquidHeight, s.Service.Pressure, s.Service.Vacuum = quantity.New(4, quantity.Foot), quantity.New(0, quantity.PSI), quantity.New(0.3, quantity.PSI)
	}
	for name, change := range map[string]func(*laminate.Schedule){
		"a warm pipe": warm(150),
		"a hot pipe":  warm(180),
		"a warm tank": vertical,
		"a warm duct": func(s *laminate.Schedule) {
			warm(160)(s)
			s.Part.Form, s.Part.InsideDiameter, s.Part.Length = laminate.Duct, quantity.New(36, quantity.Inch), quantity.New(10, quantity.Foot)
			s.Service.Pressure, s.Service.Vacuum = quantity.New(0, quantity.PSI), quantity.New(0.4, quantity.PSI)
		},
	} {
		s := header()
		change(s)
		s.Part.ModulusRetention = laminate.Optional[float64]{}
		assumed := propose(t, s, catalog.Library(), advice.Options{})[0]
		kept, warm := service.Typical(&s.Service, &assumed.Schedule.Resins[len(assumed.Schedule.Resins)-1], catalog.Library())
		if !warm || !noted(&assumed, "keeps "+quantity.Share(kept)) {
			t.Fatalf("%s: %v, %q", name, kept, assumed.Notes)
		}
		s.Part.ModulusRetention = laminate.Some(kept)
		stated := propose(t, s, catalog.Library(), advice.Options{})[0]
		if !slices.Equal(assumed.Schedule.Plies, stated.Schedule.Plies) || assumed.Schedule.Part.StiffenerSpacing != stated.Schedule.Part.StiffenerSpacing {
			t.Errorf("%s: %d plies, %.1f mil, where %v is stated %d, %.1f mil", name, assumed.Figures.Plies, assumed.Figures.Thickness/0.0254*1000, kept, stated.Figures.Plies, stated.Figures.Thickness/0.0254*1000)
		}
	}
}

// In a line whose ends nobody states, what is assumed is that those are held, not each part
// where it is strapped: of an elbow, which has no rings to try, the wall is that of the
// whole length stated.
func TestPropose_assumesTheEndsOfTheLineHeld(t *testing.T) {
	s := header()
	s.Part.Form, s.Part.Length, s.Part.Miters, s.Part.BendRadius, s.Part.Turn = laminate.Elbow, quantity.Length{}, laminate.Some(0), quantity.New(72, quantity.Inch), laminate.Some(90.0)
	s.Part.InsideDiameter, s.Service.Pressure, s.Service.Vacuum = quantity.New(48, quantity.Inch), quantity.New(0, quantity.PSI), quantity.New(2, quantity.PSI)
	stated := *s
	stated.Part.StiffenerSpacing = quantity.New(12, quantity.Foot)
	s.Part.Place.Free.Length, s.Part.Place.Free.Open = quantity.New(12, quantity.Foot).SI(), "the end of the line is open"
	line, one := propose(t, s, catalog.Library(), advice.Options{})[0], propose(t, &stated, catalog.Library(), advice.Options{})[0]
	if !slices.Equal(line.Schedule.Plies, one.Schedule.Plies) || !noted(&line, "the line that joints make of the part is held round at its ends, 12 ft apart") {
		t.Errorf("%d plies, %q, where 12 ft are stated %d", line.Figures.Plies, line.Notes, one.Figures.Plies)
	}
	if line.Report.Verdict != rules.Incomplete || !strings.Contains(line.Report.Findings[0].Message, "the end of the line is open") {
		t.Errorf("%+v", line.Report.Findings)
	}
}
