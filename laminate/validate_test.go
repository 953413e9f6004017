package laminate

import (
	"math"
	"strings"
	"testing"

	"frp/veilwright/laminate/quantity"
)

func sound() *Schedule {
	return &Schedule{Head: Head{Title: "x"}, Resins: []Resin{{ID: "r", Family: VinylEster}},
		Plies: []Ply{{Material: "m", Resin: "r", Count: 1}}}
}

var warm = quantity.New(150, quantity.Fahrenheit)

func conditions(list ...Condition) func(*Schedule) {
	return func(s *Schedule) { s.Conditions = list }
}

func TestValidate(t *testing.T) {
	if f := Validate(sound(), nil); len(f) > 0 {
		t.Fatal(f)
	}
	coat := func(change func(*Material)) func(*Schedule) {
		return func(s *Schedule) {
			m := Material{ID: "c", Form: ResinCoat, Thickness: quantity.New(10, quantity.Mil)}
			change(&m)
			s.Materials = []Material{m}
		}
	}
	for _, c := range []struct {
		name string
		edit func(*Schedule)
		ref  Ref
		says string
	}{
		{"title", func(s *Schedule) { s.Title = "a\x1bb" }, Ref{Key: "title"}, "U+001B"},
		{"broken text", func(s *Schedule) { s.Job = "\xff" }, Ref{Key: "job"}, "U+FFFD"},
		{"carriage return in notes", func(s *Schedule) { s.Notes = "a\rb" }, Ref{Key: "notes"}, "U+000D"},
		{"long text", func(s *Schedule) { s.Author = strings.Repeat("x", 20_000) }, Ref{Key: "author"}, "longer"},
		{"revision", func(s *Schedule) { s.Revision = Some(-1) }, Ref{Key: "revision"}, "from 0"},
		{"diameter", func(s *Schedule) { s.Part.InsideDiameter = quantity.New(-1, quantity.Meter) }, PartRef("inside_diameter"), "below zero"},
		{"NaN", func(s *Schedule) { s.Part.Length = quantity.New(math.NaN(), quantity.Meter) }, PartRef("length"), "no number"},
		{"stiffness", func(s *Schedule) { s.Part.ModulusRetention = Some(0.0) }, PartRef("modulus_retention"), "from 0.01 to 1"},
		{"k factor", func(s *Schedule) { s.Part.KFactors = KFactors{Values: [5]float64{1, 1, 0.5, 1, 1}, Given: true} }, PartRef("k_factors"), "from 1 to 20"},
		{"an upset below the temperature", func(s *Schedule) {
			s.Service.Temperature, s.Service.Upset = warm, quantity.New(17, quantity.Fahrenheit)
		}, ServiceRef("upset"), "is below the temperature of"},
		{"heat", func(s *Schedule) { s.Service.Upset = quantity.New(2000, quantity.Celsius) }, ServiceRef("upset"), "beyond reason"},
		{"pressure", func(s *Schedule) { s.Service.Pressure = quantity.New(-1, quantity.PSI) }, ServiceRef("pressure"), "below zero"},
		{"ph", func(s *Schedule) { s.Service.PH = PHRange{math.Inf(-1), 7, true} }, ServiceRef("ph"), "no number"},
		{"a condition without a name", conditions(Condition{Temperature: warm}), Ref{Kind: RefCondition, Key: "name"}, "missing"},
		{"a condition without a temperature", conditions(Condition{Name: "upset"}), Ref{Kind: RefCondition, Key: "temperature"}, "missing"},
		{"two of a name", conditions(Condition{Name: "upset", Temperature: warm}, Condition{Name: "upset", Temperature: warm}), Ref{Kind: RefCondition, Index: 1, Key: "name"}, "condition 1"},
		{"hotter than the service", func(s *Schedule) {
			s.Service.Temperature = quantity.New(100, quantity.Fahrenheit)
			s.Conditions = []Condition{{Name: "upset", Temperature: warm}}
		}, Ref{Kind: RefCondition, Key: "temperature"}, "above the service's"},
		{"a load above the service's", func(s *Schedule) {
			s.Service.Vacuum = quantity.New(1, quantity.PSI)
			s.Conditions = []Condition{{Name: "upset", Temperature: warm, Vacuum: quantity.New(2, quantity.PSI)}}
		}, Ref{Kind: RefCondition, Key: "vacuum"}, "above the service's"},
		{"a pressure of nothing", func(s *Schedule) { s.Service.Pressure = quantity.New(1e-300, quantity.PSI) }, ServiceRef("pressure"), "too little to be meant"},
		{"a concentration of nothing", func(s *Schedule) { s.Service.Concentration = Some(1e-320) }, ServiceRef("concentration"), "too little to be meant"},
		{"concentration", func(s *Schedule) { s.Service.Concentration = Some(1.5) }, ServiceRef("concentration"), "from 0 to 1"},
		{"gravity", func(s *Schedule) { s.Service.SpecificGravity = Some(0.0) }, ServiceRef("specific_gravity"), "from 0.5 to 25"},
		{"flame", func(s *Schedule) { s.Service.FlameSpread = Some(-5) }, ServiceRef("flame_spread"), "from 0"},
		{"resin id", func(s *Schedule) { s.Resins = append(s.Resins, Resin{Family: Chlorendic}) }, ResinRef(1, "id"), "missing"},
		{"id with a blank", func(s *Schedule) { s.Resins = append(s.Resins, Resin{ID: "q ", Family: Chlorendic}) }, ResinRef(1, "id"), "blank"},
		{"all filler", func(s *Schedule) { s.Resins[0].FillerContent = Some(1.0) }, ResinRef(0, "filler_content"), "beyond reason: from 0 to 0.9"},
		{"poisson", func(s *Schedule) { s.Resins[0].Poisson = Some(0.6) }, ResinRef(0, "poisson"), "to 0.5"},
		{"no failure strain", func(s *Schedule) { s.Resins[0].FailureStrain = Some(1e-300) }, ResinRef(0, "failure_strain"), "1e-300 is beyond reason: from 0.001 to 0.2"},
		{"no glass", func(s *Schedule) { s.Plies[0].GlassContent = Some(1e-300) }, PlyRef(0, "glass_content"), "from 0.01 to 0.95"},
		{"no poisson", func(s *Schedule) { s.Resins[0].Poisson = Some(1e-300) }, ResinRef(0, "poisson"), "from 0.05 to 0.5"},
		{"zero width", func(s *Schedule) { s.Title = "a\u200bb" }, Ref{Key: "title"}, "the invisible character U+200B"},
		{"mark in an id", func(s *Schedule) { s.Plies[0].Material = "m\ufeff" }, PlyRef(0, "material"), "the invisible character U+FEFF"},
		{"letter and mark", func(s *Schedule) { s.Resins = append(s.Resins, Resin{ID: "re\u0301sine", Family: Chlorendic}) }, ResinRef(1, "id"), `stand in another form of Unicode; write it "r\u00e9sine"`},
		{"space of another kind", func(s *Schedule) { s.Resins = append(s.Resins, Resin{ID: "q\u00a01", Family: Chlorendic}) }, ResinRef(1, "id"), `write it "q 1"`},
		{"resin of another form", func(s *Schedule) { s.Plies[0].Resin = "re\u0301sine" }, PlyRef(0, "resin"), `; write it "r\u00e9sine"`},
		{"material of another form", func(s *Schedule) { s.Plies[0].Material = "veil\ufe0f" }, PlyRef(0, "material"), `write it "veil"`},
		{"thick coat", coat(func(m *Material) { m.Thickness = quantity.New(1, quantity.Meter) }), Ref{Kind: RefMaterial, Index: 0, Key: "thickness"}, "at most 0.5 m"},
		{"mass in the wrong unit", coat(func(m *Material) { m.ArealMass = quantity.New(450, quantity.KilogramPerSquareMeter) }), Ref{Kind: RefMaterial, Index: 0, Key: "areal_mass"}, "at most 50 kg/m2"},
		{"share of one", coat(func(m *Material) { m.GlassContent = Some(1.0) }), Ref{Kind: RefMaterial, Index: 0, Key: "glass_content"}, "from 0.01 to 0.95"},
		{"impossible lamina", coat(func(m *Material) {
			m.Form, m.E1, m.E2, m.G12, m.Nu12 = Lamina, quantity.New(1, quantity.Gigapascal), quantity.New(10, quantity.Gigapascal), quantity.New(1, quantity.Gigapascal), Some(0.4)
		}), Ref{Kind: RefMaterial, Index: 0, Key: "nu12"}, "e1/e2"},
		{"count", func(s *Schedule) { s.Plies[0].Count = 1001 }, PlyRef(0, "count"), "at most 1000"},
		{"voids", func(s *Schedule) { s.Plies[0].VoidContent = Some(0.9) }, PlyRef(0, "void_content"), "from 0 to 0.5"},
		{"angle", func(s *Schedule) { s.Plies[0].Angle = Some(91.0) }, PlyRef(0, "angle"), "from -90 to 90"},
		{"resin", func(s *Schedule) { s.Plies[0].Resin = "q" }, PlyRef(0, "resin"), `"q"`},
	} {
		s := sound()
		c.edit(s)
		f := Validate(s, nil)
		if len(f) != 1 || f[0].Ref != c.ref || !strings.Contains(f[0].Message, c.says) {
			t.Errorf("%s: %+v, want %+v with %q", c.name, f, c.ref, c.says)
		}
	}
}

func TestLacks_byForm(t *testing.T) {
	for form, want := range map[Form]string{NoForm: "form", Veil: "fiber areal_mass", ChoppedMat: "fiber areal_mass", WovenRoving: "fiber areal_mass",
		RovingBand: "fiber tow tows band_width", ResinCoat: "thickness", Lamina: "thickness e1 e2 g12 nu12"} {
		if got := strings.Join((&Material{Form: form}).Lacks(), " "); got != want {
			t.Errorf("%v lacks %q, want %q", form, got, want)
		}
	}
	for form, want := range map[Form]string{Veil: "resin glass_content", ChoppedMat: "resin", RovingBand: "resin angle glass_content",
		Unidirectional: "resin angle glass_content", WovenRoving: "resin glass_content", ResinCoat: "resin", Lamina: ""} {
		if got := strings.Join((&Ply{}).Lacks(&Material{Form: form}), " "); got != want {
			t.Errorf("a ply of %v lacks %q, want %q", form, got, want)
		}
	}
}
