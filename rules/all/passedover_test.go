package all_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

// other states each fact of part and service otherwise, in as many ways as it
// takes to show that something weighs it. A field of Part or Service that has
// no entry here fails the test: whoever adds one says what weighs it.
var other = map[string][]func(*laminate.Schedule){
	"part.Form": {
		func(s *laminate.Schedule) { s.Part.Form = laminate.Tank },
		func(s *laminate.Schedule) { s.Part.Form = laminate.Duct },
	},
	"part.Process":          {func(s *laminate.Schedule) { s.Part.Process = laminate.Wound }, func(s *laminate.Schedule) { s.Part.Process = laminate.NoProcess }},
	"part.InsideDiameter":   {func(s *laminate.Schedule) { s.Part.InsideDiameter = quantity.New(120, quantity.Inch) }},
	"part.Length":           {func(s *laminate.Schedule) { s.Part.Length = quantity.New(1, quantity.Foot) }},
	"part.LiquidHeight":     {func(s *laminate.Schedule) { s.Part.LiquidHeight = quantity.New(300, quantity.Foot) }},
	"part.Area":             {func(s *laminate.Schedule) { s.Part.Area = quantity.New(1e3, quantity.SquareMeter) }},
	"part.Flanged":          {func(s *laminate.Schedule) { s.Part.Flanged = laminate.Some(!s.Part.Flanged.Value) }},
	"part.Ends":             {func(s *laminate.Schedule) { s.Part.Ends = laminate.OpenEnds }, func(s *laminate.Schedule) { s.Part.Ends = laminate.ClosedEnds }},
	"part.DesignBasis":      designBases(),
	"part.Grounding":        {func(s *laminate.Schedule) { s.Part.Grounding = "" }},
	"part.StiffenerSpacing": {func(s *laminate.Schedule) { s.Part.StiffenerSpacing = quantity.New(3, quantity.Inch) }},
	"part.ModulusRetention": {func(s *laminate.Schedule) { s.Part.ModulusRetention = laminate.Some(0.05) }},
	"part.KFactors": {func(s *laminate.Schedule) {
		s.Part.KFactors = laminate.KFactors{Values: [5]float64{2, 2, 2, 2, 2}, Given: true}
	}},

	"service.Fluid":         {func(s *laminate.Schedule) { s.Service.Fluid = "another fluid" }},
	"service.Concentration": {func(s *laminate.Schedule) { s.Service.Concentration = laminate.Some(0.9) }},
	"service.Temperature":   {func(s *laminate.Schedule) { s.Service.Temperature = quantity.New(400, quantity.Fahrenheit) }},
	"service.Upset":         {func(s *laminate.Schedule) { s.Service.Upset = quantity.New(400, quantity.Fahrenheit) }},
	"service.PH":            {func(s *laminate.Schedule) { s.Service.PH = laminate.PHRange{Lowest: -1, Highest: 14, Given: true} }},
	"service.Contact":       {func(s *laminate.Schedule) { s.Service.Contact = laminate.Vapor }},
	"service.Contains":      {func(s *laminate.Schedule) { s.Service.Contains = laminate.TraitSet(laminate.TraitWords.All()...) }},
	"service.Pressure":      {func(s *laminate.Schedule) { s.Service.Pressure = quantity.New(1000, quantity.PSI) }},
	"service.Vacuum":        {func(s *laminate.Schedule) { s.Service.Vacuum = quantity.New(0, quantity.PSI) }, func(s *laminate.Schedule) { s.Service.Vacuum = quantity.New(14.7, quantity.PSI) }},
	"service.TestPressure":  {func(s *laminate.Schedule) { s.Service.TestPressure = quantity.New(1000, quantity.PSI) }, func(s *laminate.Schedule) { s.Service.TestPressure = quantity.Pressure{} }},
	"service.SpecificGravity": {
		func(s *laminate.Schedule) { s.Service.SpecificGravity = laminate.Some(15.0) },
		func(s *laminate.Schedule) { s.Service.SpecificGravity = laminate.Optional[float64]{} },
	},
	"service.FlameSpread": {func(s *laminate.Schedule) { s.Service.FlameSpread = laminate.Some(1) }},
	"service.Conductive":  {func(s *laminate.Schedule) { s.Service.Conductive = laminate.Some(!s.Service.Conductive.Value) }},
	"service.Abrasive":    {func(s *laminate.Schedule) { s.Service.Abrasive = laminate.Some(!s.Service.Abrasive.Value) }},
}

func designBases() (list []func(*laminate.Schedule)) {
	for _, b := range laminate.DesignBases.All() {
		list = append(list, func(s *laminate.Schedule) { s.Part.DesignBasis = b })
	}
	return list
}

// outcome is what a report says of a schedule, names and figures of its facts
// aside: which rules speak how loud, and what each criterion answers.
func outcome(s *laminate.Schedule, lib *laminate.Library) string {
	r := all.Judge(s, lib, rules.Options{})
	var b strings.Builder
	for _, f := range r.Findings {
		fmt.Fprintln(&b, f.Severity, f.Rule.ID, f.Rows)
	}
	if r.Wall != nil {
		for _, c := range r.Wall.Criteria {
			fmt.Fprintln(&b, c.Name, c.Case, c.Answer, c.Governs, c.Demand, c.Capacity)
		}
	}
	return b.String()
}

// Whatever a document states of part and service is weighed by something or
// listed as passed over, over walls of many kinds.
func TestJudge_nothingStatedIsPassedOverInSilence(t *testing.T) {
	keys := map[string]string{} // field to key
	for where, of := range map[string]reflect.Type{"part.": reflect.TypeFor[laminate.Part](), "service.": reflect.TypeFor[laminate.Service]()} {
		for i := range of.NumField() {
			name := of.Field(i).Name
			if name == "Shape" {
				continue // of parts of jobs alone
			}
			if other[where+name] == nil {
				t.Errorf("%s%s: nobody says what weighs it", where, name)
			}
			key := ""
			for j, r := range name {
				if j > 0 && r >= 'A' && r <= 'Z' && name != "PH" {
					key += "_"
				}
				key += strings.ToLower(string(r))
			}
			keys[where+name] = key
		}
	}
	rated := catalog.Library()
	rated.Ratings = append(rated.Ratings, laminate.Rating{
		Fluid: "rinse water", Concentration: [2]float64{0, 0.5}, MaxTemperature: quantity.New(160, quantity.Fahrenheit),
		Family: laminate.VinylEster, Build: "100 mil", Grade: "not recommended", Source: "invented", Date: "2024", Book: "book.toml",
	})
	rated.Index()
	everything := func(s *laminate.Schedule) {
		s.Part.LiquidHeight, s.Part.Area = quantity.New(5, quantity.Foot), quantity.New(3, quantity.SquareMeter)
		s.Part.Grounding, s.Part.StiffenerSpacing = "lug at each flange", quantity.New(4, quantity.Foot)
		s.Part.ModulusRetention, s.Part.DesignBasis = laminate.Some(0.9), laminate.StrengthTable
		s.Part.KFactors = laminate.KFactors{Values: [5]float64{1.5, 1.2, 1.2, 1.1, 1.5}, Given: true}
		s.Service.Upset, s.Service.SpecificGravity = quantity.New(115, quantity.Fahrenheit), laminate.Some(1.2)
		s.Service.Vacuum, s.Service.TestPressure = quantity.New(1, quantity.PSI), quantity.New(40, quantity.PSI)
		s.Service.FlameSpread = laminate.Some(200)
	}
	var walls []*laminate.Schedule
	wall := func(changes ...func(*laminate.Schedule)) {
		s := ruletest.Sound()
		for _, c := range changes {
			c(s)
		}
		walls = append(walls, s)
	}
	wall()
	wall(everything)
	wall(everything, func(s *laminate.Schedule) { s.Service.Vacuum = quantity.New(0, quantity.PSI) })
	wall(everything, func(s *laminate.Schedule) { s.Part.StiffenerSpacing = quantity.Length{} })
	wall(everything, func(s *laminate.Schedule) {
		s.Part.StiffenerSpacing, s.Part.Flanged = quantity.Length{}, laminate.Some(true)
	})
	wall(everything, func(s *laminate.Schedule) { s.Part.Form, s.Part.StiffenerSpacing = laminate.Tank, quantity.Length{} })
	wall(everything, func(s *laminate.Schedule) {
		s.Service.Pressure, s.Service.Vacuum = quantity.New(0, quantity.PSI), quantity.New(0, quantity.PSI)
	})
	wall(everything, func(s *laminate.Schedule) {
		s.Service.Pressure, s.Service.Vacuum, s.Part.LiquidHeight = quantity.New(0, quantity.PSI), quantity.New(0, quantity.PSI), quantity.Length{}
	})
	wall(everything, func(s *laminate.Schedule) { s.Plies[ruletest.VeilRow].Material = catalog.VeilCarbon11 })
	wall(everything, func(s *laminate.Schedule) { s.Service.Contains = laminate.TraitSet(laminate.StrongAcid) })
	wall(everything, func(s *laminate.Schedule) { s.Part.DesignBasis, s.Part.Ends = laminate.StrainLimit, laminate.OpenEnds })
	wall(everything, func(s *laminate.Schedule) { s.Part.DesignBasis, s.Part.Form = laminate.UnitLoad, laminate.Duct })

	weighed := map[string]bool{}
	for n, s := range walls {
		for _, lib := range []*laminate.Library{catalog.Library(), rated} {
			listed := map[string]bool{}
			for _, x := range all.Judge(s, lib, rules.Options{}).PassedOver {
				listed[map[laminate.RefKind]string{laminate.RefPart: "part.", laminate.RefService: "service."}[x.At.Kind]+x.At.Key] = true
			}
			was := outcome(s, lib)
			for field, changes := range other {
				where, name, _ := strings.Cut(field, ".")
				told := listed[where+"."+keys[field]]
				changed := slices.ContainsFunc(changes, func(change func(*laminate.Schedule)) bool {
					c := s.Clone()
					change(c)
					return outcome(c, lib) != was
				})
				weighed[field] = weighed[field] || changed
				stated := !reflect.ValueOf(map[string]any{"part": s.Part, "service": s.Service}[where]).FieldByName(name).IsZero()
				// Weighed by a rule that asks for it in some walls only.
				if stated && !told && !changed && field != "part.Flanged" {
					t.Errorf("wall %d, ratings %d: %s is stated, weighed by nothing, and not listed", n, len(lib.Ratings), field)
				}
			}
		}
	}
	never := []string{"part.Area", "service.Contact"}
	for field := range other {
		if weighed[field] == slices.Contains(never, field) {
			t.Errorf("%s: weighed anywhere %v", field, weighed[field])
		}
	}
}
