package advice_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/all"
)

type serviceCase struct {
	Name     string `json:"name"`
	Basis    string `json:"basis"`
	Conflict string `json:"conflict"`
	Part     struct {
		Form    string `json:"form"`
		Flanged *bool  `json:"flanged"`
	} `json:"part"`
	Service struct {
		Fluid         string    `json:"fluid"`
		Concentration float64   `json:"concentration"`
		Temperature   string    `json:"temperature"`
		Upset         string    `json:"upset"`
		PH            []float64 `json:"ph"`
		Contains      *[]string `json:"contains"`
		FlameSpread   *int      `json:"flame_spread"`
		Conductive    bool      `json:"conductive"`
		Abrasive      bool      `json:"abrasive"`
	} `json:"service"`
	Want map[string]string `json:"want"`
}

func (c *serviceCase) schedule(t *testing.T) *laminate.Schedule {
	t.Helper()
	s := &laminate.Schedule{}
	if c.Part.Form != "" {
		s.Part.Form, _ = laminate.PartForms.Parse(c.Part.Form)
	}
	if c.Part.Flanged != nil {
		s.Part.Flanged = laminate.Some(*c.Part.Flanged)
	}
	v := &s.Service
	v.Fluid = c.Service.Fluid
	if c.Service.Concentration > 0 {
		v.Concentration = laminate.Some(c.Service.Concentration)
	}
	for _, x := range []struct {
		into *quantity.Temperature
		text string
	}{{&v.Temperature, c.Service.Temperature}, {&v.Upset, c.Service.Upset}} {
		if x.text == "" {
			continue
		}
		if err := quantity.Read(x.into, x.text); err != nil {
			t.Fatal(err)
		}
	}
	if ph := c.Service.PH; len(ph) == 2 {
		v.PH = laminate.PHRange{Lowest: ph[0], Highest: ph[1], Given: true}
	}
	if c.Service.Contains != nil {
		var traits []laminate.Trait
		for _, w := range *c.Service.Contains {
			x, ok := laminate.TraitWords.Parse(w)
			if !ok {
				t.Fatalf("trait %q", w)
			}
			traits = append(traits, x)
		}
		v.Contains = laminate.TraitSet(traits...)
	}
	if c.Service.FlameSpread != nil {
		v.FlameSpread = laminate.Some(*c.Service.FlameSpread)
	}
	v.Conductive, v.Abrasive = laminate.Some(c.Service.Conductive), laminate.Some(c.Service.Abrasive)
	return s
}

func services(t *testing.T) []serviceCase {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "advice", "services.json"))
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Source string        `json:"source"`
		Cases  []serviceCase `json:"cases"`
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(&file); err != nil || file.Source == "" || len(file.Cases) == 0 {
		t.Fatalf("cases cannot be read or name no source: %v", err)
	}
	return file.Cases
}

func options(a *advice.Advice) []advice.Option { return slices.Concat(a.Veils, a.Resins, a.Builds) }

func TestAdvise_agreesWithPracticeAndPublishedSources(t *testing.T) {
	for _, c := range services(t) {
		t.Run(c.Name, func(t *testing.T) {
			if c.Basis == "" || len(c.Want) == 0 {
				t.Fatal("the case names no basis or wants nothing")
			}
			a := advice.Advise(c.schedule(t), catalog.Library(), quantity.US)
			got := map[string]advice.Option{}
			for _, o := range options(a) {
				got[o.ID] = o
			}
			for id, want := range c.Want {
				if o, ok := got[id]; !ok || o.Suits.String() != want {
					t.Errorf("%s: %v, want %s; %v", id, o.Suits, want, o.Reasons)
				}
			}
			told := slices.ContainsFunc(a.Conflicts, func(r advice.Reason) bool { return strings.Contains(r.Text, c.Conflict) })
			if c.Conflict != "" && !told {
				t.Errorf("no conflict speaks of %q: %v", c.Conflict, a.Conflicts)
			}
		})
	}
}

func TestAdvise_noSpecialDemandIsNoConflict(t *testing.T) {
	c := services(t)[0]
	if a := advice.Advise(c.schedule(t), catalog.Library(), quantity.US); len(a.Conflicts) > 0 {
		t.Errorf("%s: %v", c.Name, a.Conflicts)
	}
}

func TestAdvise_usualVeilIsToldWithItsTraits(t *testing.T) {
	s := &laminate.Schedule{Service: laminate.Service{Fluid: "liquor", Contains: laminate.TraitSet(laminate.PulpingLiquor, laminate.StrongBase)}}
	a := advice.Advise(s, catalog.Library(), quantity.US)
	for id, want := range map[string]string{
		catalog.VeilPolyester15: "polyester is the usual veil for pulping-liquor and strong-base",
		catalog.VeilCarbon11:    "carbon serves for strong-base too",
	} {
		if !slices.ContainsFunc(a.Veil(id).Reasons, func(r advice.Reason) bool { return r.Text == want }) {
			t.Errorf("%s: no reason says %q: %v", id, want, a.Veil(id).Reasons)
		}
	}
}

func TestAdvise_workmanshipNeverLowersAnAnswer(t *testing.T) {
	s := &laminate.Schedule{Service: laminate.Service{
		Fluid: "water", Contains: laminate.TraitSet(),
		PH: laminate.PHRange{Lowest: 7, Highest: 7, Given: true}, Temperature: quantity.New(20, quantity.Celsius),
	}}
	o := advice.Advise(s, catalog.Library(), quantity.US).Veil(catalog.VeilPolyester15)
	said := slices.ContainsFunc(o.Reasons, func(r advice.Reason) bool {
		return strings.Contains(r.Text, "trapped air") && strings.Contains(r.Text, "dry spots")
	})
	if o.Suits != advice.Suitable || !said {
		t.Errorf("polyester veil: %v, workmanship told %v", o.Suits, said)
	}
}

// Barriers of 250 and 251 mil by hand: two veils and four mats of densities
// 2500 and 1250 kg/m³ at half fiber, so that a kilogram of fiber on a square
// meter is 1/2500 + 1/1250 m = 1.2 mm. Two veils at 15 mil, so the mats are 55
// and 55.25 mil. Common practice, no source, for the bound.
func TestAdvise_heavyBarrierBegins(t *testing.T) {
	for _, c := range []struct {
		mat     float64 // mil
		flanged laminate.Optional[bool]
		want    advice.Suits
	}{
		{55, laminate.Some(true), advice.Suitable}, {55.25, laminate.Some(true), advice.Unsuitable},
		{55, laminate.Some(false), advice.Suitable}, {55.25, laminate.Some(false), advice.Conditional}, {55.25, laminate.Optional[bool]{}, advice.Conditional},
	} {
		perMil := 25.4e-6 / 1.2e-3
		lib := catalog.Library()
		lib.Materials = []laminate.Material{
			{ID: "v", Form: laminate.Veil, Fiber: laminate.CGlass, FiberDensity: quantity.New(2500, quantity.KilogramPerCubicMeter),
				ArealMass: quantity.New(15*25.4e-6/(1/2500.+9/1250.), quantity.KilogramPerSquareMeter), GlassContent: laminate.Some(0.10)},
			{ID: "m", Form: laminate.ChoppedMat, Fiber: laminate.ECRGlass, FiberDensity: quantity.New(2500, quantity.KilogramPerCubicMeter),
				ArealMass: quantity.New(c.mat*perMil, quantity.KilogramPerSquareMeter), GlassContent: laminate.Some(0.5)},
		}
		for i := range lib.Families {
			lib.Families[i].Density = quantity.New(1250, quantity.KilogramPerCubicMeter)
		}
		lib.Index()
		s := &laminate.Schedule{Part: laminate.Part{Flanged: c.flanged}, Service: laminate.Service{Fluid: "bleach", Contains: laminate.TraitSet()}}
		o := advice.Advise(s, lib, quantity.US).Build(catalog.DoubleBuild.ID)
		worse := slices.ContainsFunc(o.Reasons, func(r advice.Reason) bool { return strings.Contains(r.Text, "over 250") })
		if worse != (c.want != advice.Suitable) || worse && o.Suits != c.want {
			t.Errorf("mats of %v mil, flanged %v: %v, told %v; want %v: %v", c.mat, c.flanged, o.Suits, worse, c.want, o.Reasons)
		}
	}
}

// hot draws a temperature up to 1,000 °F, most of them where resins are used.
func hot(t *rapid.T, name string) float64 {
	return rapid.OneOf(rapid.Float64Range(30, 300), rapid.Float64Range(-100, 1000)).Draw(t, name)
}

// anyService draws a service with its facts given, and the part's that matter.
func anyService(t *rapid.T) *laminate.Schedule {
	s := &laminate.Schedule{}
	s.Part.Form = rapid.SampledFrom(laminate.PartForms.All()).Draw(t, "form")
	s.Part.Process = rapid.SampledFrom(laminate.Processes.All()).Draw(t, "process")
	s.Part.Grounding = rapid.SampledFrom([]string{"", "none", "lug at each flange"}).Draw(t, "grounding")
	if rapid.Bool().Draw(t, "says flanged") {
		s.Part.Flanged = laminate.Some(rapid.Bool().Draw(t, "flanged"))
	}
	v := &s.Service
	v.Fluid = rapid.SampledFrom([]string{"rinse", "brine", "mother liquor"}).Draw(t, "fluid")
	v.Temperature = quantity.New(hot(t, "temperature"), quantity.Fahrenheit)
	if rapid.Bool().Draw(t, "upset") {
		v.Upset = quantity.New(hot(t, "upset at"), quantity.Fahrenheit)
	}
	low := rapid.Float64Range(-4, 18).Draw(t, "lowest")
	v.PH = laminate.PHRange{Lowest: low, Highest: rapid.Float64Range(low, 18).Draw(t, "highest"), Given: true}
	if rapid.Bool().Draw(t, "says how strong") {
		v.Concentration = laminate.Some(rapid.Float64Range(0, 1).Draw(t, "concentration"))
	}
	v.Contains = laminate.TraitSet(rapid.SliceOfN(rapid.SampledFrom(laminate.TraitWords.All()), 0, 3).Draw(t, "contains")...)
	if rapid.IntRange(0, 3).Draw(t, "fire") == 0 {
		v.FlameSpread = laminate.Some(rapid.IntRange(0, 200).Draw(t, "index"))
	}
	v.Conductive = laminate.Some(rapid.IntRange(0, 3).Draw(t, "conductive") == 0)
	v.Abrasive = laminate.Some(rapid.IntRange(0, 3).Draw(t, "abrasive") == 0)
	return s
}

// byHand lays what an advice names, without the package's own hands.
func byHand(s *laminate.Schedule, veil string, family laminate.Family, id string) *laminate.Schedule {
	n := s.Clone()
	veils, mats := 1, 2
	if strings.HasPrefix(id, catalog.DoubleBuild.ID) {
		veils, mats = 2, 4
	}
	if veil == catalog.VeilC10 && veils == 1 {
		veils = 2 // as the advice says of a thin veil
	}
	inner := laminate.Resin{ID: "inner", Family: family, Cure: laminate.PeroxideAmine}
	mix := laminate.Resin{ID: "mix", Family: family, Cure: laminate.PeroxideAmine}
	if strings.Contains(id, advice.FilledSuffix) {
		mix.Filler, mix.FillerContent = laminate.AluminumOxide, laminate.Some(0.32)
	}
	if strings.Contains(id, advice.ConductiveSuffix) {
		inner.Filler, inner.FillerContent = laminate.CarbonPowder, laminate.Some(0.05)
	}
	n.Resins = []laminate.Resin{inner, mix, {ID: "wall", Family: family}}
	n.Plies = []laminate.Ply{
		{Material: veil, Resin: "inner", Zone: laminate.InnerSurface, Count: veils},
		{Material: catalog.Mat15, Resin: "mix", Zone: laminate.InteriorLayer, Count: mats, GelAfter: true},
		{Material: catalog.Mat15, Resin: "wall", Zone: laminate.StructuralLayer, Count: 3},
		{Material: catalog.Topcoat, Resin: "wall", Zone: laminate.OuterSurface, Count: 1},
	}
	return n
}

// What no choice of veil, resin or build can fix.
func notTheChoice(r *rules.Rule) bool {
	return r.Family == "structure" || r.ID == "service-incomplete"
}

func TestAdvise_whatItCallsYesRaisesNothingInACheck(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, lib := anyService(t), catalog.Library()
		for range rapid.IntRange(0, 4).Draw(t, "ratings") {
			lib.Ratings = append(lib.Ratings, laminate.Rating{
				Fluid: s.Service.Fluid, Concentration: [2]float64{0, 1}, MaxTemperature: quantity.New(rapid.Float64Range(100, 300).Draw(t, "rated to"), quantity.Fahrenheit),
				Family: rapid.SampledFrom(laminate.Families.All()).Draw(t, "rated family"), Build: rapid.SampledFrom([]string{"100 mil", "200 mil"}).Draw(t, "rated build"),
				Grade: rapid.SampledFrom([]string{"A", "B", "not recommended"}).Draw(t, "grade"), Source: "invented", Date: "2024", Book: "book.toml",
			})
		}
		a := advice.Advise(s, lib, quantity.US)
		for _, o := range options(a) {
			if len(o.Reasons) == 0 {
				t.Fatalf("%s has no reason", o.ID)
			}
			first := o.Reasons[0].Text
			if (o.Suits == advice.Suitable) != (first == "nothing in this service speaks against it") || o.Suits == advice.Usual && !strings.Contains(first, "the usual ") {
				t.Fatalf("%s is %v because %q", o.ID, o.Suits, first)
			}
			for _, r := range o.Reasons {
				if o.Suits > advice.Suitable && o.Suits != advice.Unknown && strings.HasPrefix(r.Text, "the usual ") || o.Suits <= advice.Suitable && strings.Contains(r.Text, "attack it") {
					t.Fatalf("%s is %v and a reason argues against that: %q", o.ID, o.Suits, r.Text)
				}
				if r.Text == "" || r.Basis == "" {
					t.Fatalf("%s: a reason without text or basis: %+v", o.ID, r)
				}
			}
		}
		for _, v := range a.Veils {
			for _, w := range a.Resins {
				for _, b := range a.Builds {
					if max(v.Suits, w.Suits, b.Suits) > advice.Suitable {
						continue
					}
					f, _ := laminate.Families.Parse(w.ID)
					laid := byHand(s, v.ID, f, b.ID)
					for _, x := range rules.Judge(all.Rules(), laid, lib, rules.Options{}).Findings {
						if x.Rule.ID == "conductive-path" && s.Service.Conductive.Or(false) {
							continue // asked for, it has to be grounded whatever is chosen
						}
						if !notTheChoice(x.Rule) && x.Severity >= rules.Warning {
							t.Fatalf("%s, %s, %s are called usual or suitable; %s %s: %s", v.ID, w.ID, b.ID, x.Severity, x.Rule.ID, x.Message)
						}
					}
				}
			}
		}
		if again := advice.Advise(s, lib, quantity.US); !reflect.DeepEqual(a, again) {
			t.Fatal("the same service gets another advice")
		}
	})
}

func TestAdvise_ofNothingAtAllSaysSo(t *testing.T) {
	a := advice.Advise(&laminate.Schedule{}, nil, quantity.Metric)
	for _, o := range options(a) {
		if o.Suits == advice.Suitable {
			t.Errorf("%s is called suitable with neither service nor materials", o.ID)
		}
	}
	for _, o := range a.Builds {
		if o.Suits != advice.Unknown {
			t.Errorf("build %s: %v without materials", o.ID, o.Suits)
		}
	}
	if len(a.Notes) == 0 {
		t.Error("nothing says that the service is not stated")
	}
}

func TestAdvise_messagesNameNoPlyOfAProbe(t *testing.T) {
	for _, c := range services(t) {
		a := advice.Advise(c.schedule(t), catalog.Library(), quantity.Metric)
		for _, o := range options(a) {
			for _, r := range o.Reasons {
				if strings.Contains(r.Text, "probe") || strings.Contains(r.Text, "ply 1") || strings.Contains(r.Text, "plies 1") {
					t.Errorf("%s: %s: %s", c.Name, o.ID, r.Text)
				}
			}
		}
	}
}
