package wall_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
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
