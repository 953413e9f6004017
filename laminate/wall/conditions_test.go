package wall_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/laminate/wall/walltest"
)

// A vacuum that comes cold is judged cold, a pressure that comes hot is judged
// hot; without conditions the hottest temperature meets both.
func TestConditions_areEachJudgedWithTheirOwnModuli(t *testing.T) {
	s := walltest.WoundPipe(6)
	s.Part.StiffenerSpacing = quantity.New(5, ft)
	s.Service.Temperature, s.Service.Upset = quantity.New(100, degF), quantity.New(200, degF)
	s.Service.Pressure, s.Service.Vacuum = quantity.New(50, psi), quantity.New(2, psi)
	s.Part.ModulusRetention = laminate.Some(0.5)
	together := walltest.Evaluate(s, wall.Options{})
	if notes := strings.Join(together.Notes, " "); !strings.Contains(notes, "No conditions are given") {
		t.Errorf("nobody says that the upset is taken with the highest load: %s", notes)
	}
	s.Conditions = []laminate.Condition{
		{Name: "operating", Temperature: quantity.New(100, degF), Pressure: quantity.New(0, psi), ModulusRetention: laminate.Some(1.0)},
		{Name: "upset", Temperature: quantity.New(200, degF), Vacuum: quantity.New(0, psi)},
	}
	r := walltest.Evaluate(s, wall.Options{})
	vacuum, hoop := walltest.Criterion(t, r, wall.ExternalPressure), walltest.Criterion(t, r, wall.HoopStrain)
	published.Near(t, "the vacuum is cold: twice the capacity", vacuum.Capacity, 2*walltest.Criterion(t, together, wall.ExternalPressure).Capacity, 1e-9*vacuum.Capacity)
	published.Near(t, "the pressure is hot", hoop.Ratio, walltest.Criterion(t, together, wall.HoopStrain).Ratio, 1e-12)
	if vacuum.Condition != "operating" || hoop.Condition != "upset" || hoop.Case != "pressure (upset)" {
		t.Errorf("%+v, %+v", vacuum, hoop)
	}
	// One that says nothing of its moduli above the line leaves what rests on
	// them open.
	s.Part.ModulusRetention = laminate.Optional[float64]{}
	if k := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.HoopStrain); k.Answer != wall.Incomplete || k.Condition != "upset" {
		t.Errorf("%+v", k)
	}
	// A load that neither condition nor service states is not known.
	s.Service.Vacuum = quantity.Pressure{}
	if k := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.ExternalPressure); k.Answer != wall.Incomplete || !strings.Contains(k.Reason, "vacuum") {
		t.Errorf("%+v", k)
	}
}

// A load that the service states and every condition stays below was judged by
// nobody: 150 psi stood in the document, a wall for 20 psi held.
func TestConditions_leaveOpenWhatNoneOfThemReaches(t *testing.T) {
	names := []string{wall.HoopStrain, wall.ExternalPressure, wall.MinimumThickness}
	for name, c := range map[string]struct {
		add    laminate.Condition
		open   []string // of names
		reason string
	}{
		// Each of the highest comes, though never all together.
		"all are reached": {add: laminate.Condition{Name: "all else", Temperature: quantity.New(100, degF)}},
		"but for the pressure": {laminate.Condition{Name: "pumped", Temperature: quantity.New(100, degF), Pressure: quantity.New(49, psi)},
			[]string{wall.HoopStrain}, "no condition reaches the service's pressure of 50.0 psi: state the one that does ([[condition]])"},
		"but for the vacuum": {laminate.Condition{Name: "emptied", Temperature: quantity.New(100, degF), Vacuum: quantity.New(0, psi)},
			[]string{wall.HoopStrain, wall.ExternalPressure}, "vacuum of 2.0 psi"},
	} {
		s := walltest.WoundPipe(20)
		s.Part.StiffenerSpacing, s.Part.ModulusRetention = quantity.New(1, ft), laminate.Some(0.9)
		s.Service.Temperature, s.Service.Upset = quantity.New(100, degF), quantity.New(200, degF)
		s.Service.Pressure, s.Service.Vacuum = quantity.New(50, psi), quantity.New(2, psi)
		s.Conditions = []laminate.Condition{c.add, {Name: "hot", Temperature: quantity.New(200, degF), Pressure: quantity.New(20, psi), Vacuum: quantity.New(0, psi)}}
		open := func(r *wall.Result) {
			for _, n := range names {
				k, want := walltest.Criterion(t, r, n), wall.Holds
				for _, o := range c.open {
					if o == n {
						want = wall.Incomplete
					}
				}
				if k.Answer != want || want == wall.Incomplete && (!strings.Contains(k.Reason, c.reason) || k.Condition != "service") {
					t.Errorf("%s: %+v", name, k)
				}
			}
		}
		open(walltest.Evaluate(s, wall.Options{}))
		if got := service.Beyond(s, quantity.US).Why; (got == "") != (c.open == nil) || !strings.Contains(got, c.reason) {
			t.Errorf("%s: %s", name, got)
		}
		// What breaks under a condition breaks, whatever else is open.
		if s.Conditions[1].Pressure = quantity.New(48, psi); c.add.Name == "pumped" {
			s.Part.InsideDiameter = quantity.New(40, ft)
			if k := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.HoopStrain); k.Answer != wall.Fails {
				t.Errorf("%s: %+v", name, k)
			}
		}
	}
	// A temperature that none reaches leaves open what the moduli decide.
	s := walltest.WoundPipe(20)
	s.Service.Upset, s.Service.Vacuum = quantity.New(200, degF), quantity.New(0, psi)
	s.Conditions = []laminate.Condition{{Name: "operating", Temperature: quantity.New(100, degF)}}
	r := walltest.Evaluate(s, wall.Options{})
	if k := walltest.Criterion(t, r, wall.HoopStrain); k.Answer != wall.Incomplete || !strings.Contains(k.Reason, "the service's temperature of 200 °F") {
		t.Errorf("%+v", k)
	}
	// A person on a head asks for no pressure.
	s = part(laminate.HeadPart, func(s *laminate.Schedule) {
		s.Part.Head, s.Part.Place.Top, s.Service.Pressure, s.Service.Upset = laminate.Hemispherical, true, quantity.New(0, psi), quantity.New(200, degF)
		s.Conditions = []laminate.Condition{{Name: "operating", Temperature: quantity.New(100, degF)}}
	})
	if k := walltest.Criterion(t, walltest.Evaluate(s, wall.Options{}), wall.StepLoad); k.Answer != wall.Incomplete || !strings.Contains(k.Reason, "200 °F") {
		t.Errorf("%+v", k)
	}
}
