package wall_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
)

// roofProof reaches what a steep cone of these tests bears: 30 psi and 36 in of liquid of
// 1.3, 0.0361 psi an inch of water, 31.7 psi, under 0.2 psi of vacuum at 100 °F.
func roofProof() others.Proof {
	return others.Proof{By: "calculation 45, revision 2", Pressure: quantity.New(40, psi), Vacuum: quantity.New(0.3, psi),
		Temperature: quantity.New(120, quantity.Fahrenheit), Structure: inches(0.3)}
}

// What others proved of a form that no formula is for answers where it reaches all that
// the part bears, and nothing else does: comparisons alone, no figure of a wall.
func TestProved_answersWhereItReaches(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*laminate.Schedule)
		answer wall.Answer
		says   string // why its form stays open
	}{
		"it reaches":  {func(*laminate.Schedule) {}, wall.Holds, ""},
		"to the last": {func(s *laminate.Schedule) { s.Part.Proof.Temperature = s.Service.Temperature }, wall.Holds, ""},
		"no vacuum asks for none": {func(s *laminate.Schedule) {
			s.Service.Vacuum, s.Part.Proof.Vacuum = quantity.New(0, psi), quantity.Pressure{}
		}, wall.Holds, ""},
		"nobody is named": {func(s *laminate.Schedule) { s.Part.Proof.By = "pending" }, wall.Incomplete, "30°"},
		"none":            {func(s *laminate.Schedule) { s.Part.Proof = others.Proof{} }, wall.Incomplete, "30°"},
		"gas alone proved": {func(s *laminate.Schedule) {
			s.Part.Proof.Pressure = s.Service.Pressure
		}, wall.Fails, "proved_pressure"},
		"less vacuum":                   {func(s *laminate.Schedule) { s.Part.Proof.Vacuum = quantity.New(0.1, psi) }, wall.Fails, "proved_vacuum"},
		"colder":                        {func(s *laminate.Schedule) { s.Part.Proof.Temperature = quantity.New(90, quantity.Fahrenheit) }, wall.Fails, "proved_temperature"},
		"an upset":                      {func(s *laminate.Schedule) { s.Service.Upset = quantity.New(130, quantity.Fahrenheit) }, wall.Fails, "proved_temperature"},
		"thicker":                       {func(s *laminate.Schedule) { s.Part.Proof.Structure = inches(3) }, wall.Fails, "proved_structure"},
		"ksi for psi":                   {func(s *laminate.Schedule) { s.Part.Proof.Pressure = quantity.New(20_000, psi) }, wall.Incomplete, "hardly meant"},
		"mil for inches":                {func(s *laminate.Schedule) { s.Part.Proof.Structure = inches(0.00025) }, wall.Incomplete, "hardly meant"},
		"degC for degF":                 {func(s *laminate.Schedule) { s.Part.Proof.Temperature = quantity.New(700, quantity.Celsius) }, wall.Incomplete, "hardly meant"},
		"no pressure proved":            {func(s *laminate.Schedule) { s.Part.Proof.Pressure = quantity.Pressure{} }, wall.Incomplete, "(proved_pressure)"},
		"no vacuum proved":              {func(s *laminate.Schedule) { s.Part.Proof.Vacuum = quantity.Pressure{} }, wall.Incomplete, "(proved_vacuum)"},
		"no heat proved":                {func(s *laminate.Schedule) { s.Part.Proof.Temperature = quantity.Temperature{} }, wall.Incomplete, "(proved_temperature)"},
		"no structure proved":           {func(s *laminate.Schedule) { s.Part.Proof.Structure = quantity.Length{} }, wall.Incomplete, "(proved_structure)"},
		"no pressure stated":            {func(s *laminate.Schedule) { s.Service.Pressure = quantity.Pressure{} }, wall.Incomplete, "(pressure;"},
		"no pressure stated, no liquid": {func(s *laminate.Schedule) { s.Service.Pressure, s.Part.LiquidHeight = quantity.Pressure{}, inches(0) }, wall.Incomplete, "(pressure;"},
		"no vacuum stated":              {func(s *laminate.Schedule) { s.Service.Vacuum = quantity.Pressure{} }, wall.Incomplete, "(vacuum;"},
		"no temperature":                {func(s *laminate.Schedule) { s.Service.Temperature = quantity.Temperature{} }, wall.Incomplete, "(temperature)"},
		"no gravity":                    {func(s *laminate.Schedule) { s.Service.SpecificGravity = laminate.Optional[float64]{} }, wall.Incomplete, "(specific_gravity)"},
		"nobody knows how deep":         {func(s *laminate.Schedule) { s.Part.LiquidHeight, s.Part.Place.Unplaced = quantity.Length{}, true }, wall.Incomplete, "liquid_height"},
	} {
		s := part(laminate.Cone, func(s *laminate.Schedule) {
			s.Service.Pressure, s.Service.Vacuum, s.Service.SpecificGravity = quantity.New(30, psi), quantity.New(0.2, psi), laminate.Some(1.3)
			s.Service.Temperature = quantity.New(100, quantity.Fahrenheit)
			s.Part.HalfAngle, s.Part.LiquidHeight, s.Part.Place.Top, s.Part.Proof = laminate.Some(45.0), inches(36), true, roofProof()
			c.change(s)
		})
		r := walltest.Evaluate(s, wall.Options{})
		if r.Answer() != c.answer || (r.FormOpen == "") != (c.says == "") {
			t.Errorf("%s: %s, form open %q", name, r.Answer(), r.FormOpen)
		}
		why := r.FormOpen
		for i := range r.Criteria {
			why += r.Criteria[i].Reason
		}
		if !strings.Contains(why, c.says) {
			t.Errorf("%s: nothing says %q: %s", name, c.says, why)
		}
		for _, k := range r.Criteria {
			if k.Name == wall.HoopStrength && c.answer == wall.Holds {
				t.Errorf("%s: a formula that is for no such form is among what holds: %+v", name, k)
			}
		}
		if named := s.Part.Proof.Named(); (r.Rests != "") != named || (named && r.FormOpen == "") != strings.Contains(strings.Join(r.Notes, ""), "a person who steps on it") {
			t.Errorf("%s: rests %q, notes %q", name, r.Rests, r.Notes)
		}
		// Every condition by itself: one that is beyond the proof keeps the form open.
		if name == "it reaches" {
			s.Conditions = []laminate.Condition{
				{Name: "operating", Temperature: s.Service.Temperature},
				{Name: "steam-out", Temperature: quantity.New(121, quantity.Fahrenheit), Pressure: quantity.New(1, psi)},
			}
			s.Service.Upset = s.Conditions[1].Temperature
			if r := walltest.Evaluate(s, wall.Options{}); r.Answer() != wall.Fails || r.FormOpen == "" {
				t.Errorf("steam-out: %s, form open %q", r.Answer(), r.FormOpen)
			}
			s.Part.Proof.Temperature = s.Conditions[1].Temperature
			if r := walltest.Evaluate(s, wall.Options{}); r.Answer() != wall.Holds || r.FormOpen != "" {
				t.Errorf("steam-out, proved: %s, form open %q", r.Answer(), r.FormOpen)
			}
		}
	}
}

// Where formulas are for a form a proof changes nothing of its wall.
func TestProved_changesNothingThatIsFigured(t *testing.T) {
	for _, angle := range []float64{20, 30} {
		s := part(laminate.Cone, func(s *laminate.Schedule) { s.Part.HalfAngle = laminate.Some(angle) })
		before := walltest.Evaluate(s, wall.Options{})
		s.Part.Proof = roofProof()
		after := walltest.Evaluate(s, wall.Options{})
		if len(before.Criteria) != len(after.Criteria) || after.Rests != "" {
			t.Fatalf("%v°: %d criteria, %d with a proof", angle, len(before.Criteria), len(after.Criteria))
		}
		for i := range before.Criteria {
			if before.Criteria[i] != after.Criteria[i] {
				t.Errorf("%v°: %+v became %+v", angle, before.Criteria[i], after.Criteria[i])
			}
		}
	}
}
