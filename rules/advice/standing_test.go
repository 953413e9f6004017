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

// assumed are the lines of notes that say what was assumed for the structure.
func assumed(notes string) (list []string) {
	for line := range strings.Lines(notes) {
		if strings.HasPrefix(line, "Assumed for the structure: ") {
			list = append(list, strings.TrimSpace(line))
		}
	}
	return list
}

// A proposal assumes what nobody stated, and each assumption stands until its fact is
// stated, and no longer.
func TestStanding_leavesOutWhatIsStatedByNow(t *testing.T) {
	s := &laminate.Schedule{}
	s.Title = "receiver"
	s.Notes = "As ordered (pressure).\n"
	s.Part.Form, s.Part.InsideDiameter, s.Part.Length = laminate.Tank, quantity.New(6, quantity.Foot), quantity.New(10, quantity.Foot)
	s.Service = laminate.Service{Fluid: "brine", Temperature: quantity.New(150, quantity.Fahrenheit), Contact: laminate.Immersed, Contains: laminate.TraitSet(laminate.Brine)}
	list, err := advice.Propose(s, catalog.Library(), advice.Options{})
	if err != nil {
		t.Fatal(err)
	}
	n := list[0].Noted()
	if got := advice.Standing(n, n.Notes); got != n.Notes {
		t.Errorf("before anybody stated a fact there went\n%s\nof\n%s", got, n.Notes)
	}
	all := assumed(n.Notes)
	for _, fact := range []struct {
		keys  string
		state func()
	}{
		{"(pressure)", func() { n.Service.Pressure = quantity.New(5, quantity.PSI) }},
		{"(vacuum)", func() { n.Service.Vacuum = quantity.New(0, quantity.PSI) }},
		{"(process, design_basis)", func() { n.Part.Process = laminate.ContactMolded }},
		{"(liquid_height)", func() { n.Part.LiquidHeight = quantity.New(9, quantity.Foot) }},
		{"(specific_gravity)", func() { n.Service.SpecificGravity = laminate.Some(1.2) }},
		{"(modulus_retention)", func() { n.Part.ModulusRetention = laminate.Some(0.9) }},
	} {
		before := assumed(advice.Standing(n, n.Notes))
		fact.state()
		after := assumed(advice.Standing(n, n.Notes))
		gone := slices.DeleteFunc(slices.Clone(before), func(line string) bool { return slices.Contains(after, line) })
		if len(gone) != 1 || !strings.HasSuffix(gone[0], fact.keys+".") {
			t.Errorf("%s: %q went of\n%s", fact.keys, gone, strings.Join(before, "\n"))
		}
	}
	if got := advice.Standing(n, n.Notes); len(assumed(got)) != 0 || !strings.HasPrefix(got, "As ordered (pressure).\nProposed: ") || strings.Count(n.Notes, "\n") != strings.Count(got, "\n")+len(all) {
		t.Errorf("left:\n%s", got)
	}
}

// What the strength table is no basis for stays until another basis is stated, and what
// no condition reaches until one does.
func TestSettled(t *testing.T) {
	s := &laminate.Schedule{}
	s.Part.Process, s.Part.DesignBasis = laminate.Wound, laminate.StrengthTable
	s.Service.Vacuum = quantity.New(2, quantity.PSI)
	s.Conditions = []laminate.Condition{{Name: "operating", Vacuum: quantity.New(1, quantity.PSI)}}
	const basis = "Assumed for the structure: the strain limit, since the strength table is not for wound walls; state another basis (design_basis).\n"
	const come = "Assumed for the structure: the service's highest pressure, vacuum and temperature come together, for no condition reaches the service's vacuum of 2.0 psi: state the one that does ([[condition]]).\n"
	if got := advice.Standing(s, basis+come); got != basis+come {
		t.Errorf("went: %q", got)
	}
	s.Part.DesignBasis, s.Conditions[0].Vacuum = laminate.StrainLimit, s.Service.Vacuum
	if got := advice.Standing(s, basis+come+"By hand (vacuum).\n"); got != "By hand (vacuum).\n" {
		t.Errorf("stayed: %q", got)
	}
}
