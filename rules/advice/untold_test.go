package advice_test

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
)

func noted(c *advice.Candidate, parts ...string) bool {
	return slices.ContainsFunc(c.Notes, func(n string) bool {
		return !slices.ContainsFunc(parts, func(p string) bool { return !strings.Contains(n, p) })
	})
}

func TestPropose_saysWhatCouldNotBeJudged(t *testing.T) {
	for name, x := range map[string]struct {
		change func(*laminate.Schedule)
		want   []string
	}{
		"fluid": {func(s *laminate.Schedule) { s.Service.Fluid = "" }, []string{"not checked: veil and resin", "does not state its fluid"}},
		"heat":  {func(s *laminate.Schedule) { s.Service.Temperature = quantity.Temperature{} }, []string{"not checked: veil and resin", "temperature"}},
		"pH":    {func(s *laminate.Schedule) { s.Service.PH = laminate.PHRange{} }, []string{"not checked: veil and resin", "pH"}},
		"load":  {func(s *laminate.Schedule) { s.Service.Pressure = quantity.Pressure{} }, []string{"assumed for the structure: no pressure", "(pressure)"}},
		"a pressure that no condition reaches": {func(s *laminate.Schedule) {
			s.Conditions = []laminate.Condition{{Name: "operating", Temperature: s.Service.Hottest(), Pressure: quantity.New(0, quantity.PSI)}}
		}, []string{"assumed for the structure: the service's highest", "pressure of 50.0 psi", "([[condition]])"}},
		"vacuum": {func(s *laminate.Schedule) { s.Service.Vacuum = quantity.Pressure{} }, []string{"assumed for the structure: no vacuum", "(vacuum)"}},
		"warm": {func(s *laminate.Schedule) {
			s.Service.Temperature, s.Part.DesignBasis = quantity.New(135, quantity.Fahrenheit), laminate.StrainLimit
		}, []string{"assumed for the structure: the warm wall keeps", "(modulus_retention)"}},
		"contains": {func(s *laminate.Schedule) { s.Service.Contains = laminate.Traits{} }, []string{"not checked: veil and resin", "does not state what it contains"}},
	} {
		s := header()
		x.change(s)
		for _, c := range propose(t, s, catalog.Library(), advice.Options{}) {
			if !noted(&c, x.want...) {
				t.Errorf("%s: %q is in no note: %q", name, x.want, c.Notes)
			}
			if len(c.Titles) != 1 || strings.Contains(strings.Join(c.Titles, " "), "est") || !strings.HasPrefix(c.Titles[0], "for the facts given") {
				t.Errorf("%s: called %q", name, c.Titles)
			}
		}
	}
}

// Every open finding of a candidate and every criterion that cannot be told
// stands in its notes, whichever it is.
func TestPropose_nothingOpenIsLeftUnsaid(t *testing.T) {
	s := header()
	s.Service = laminate.Service{Pressure: s.Service.Pressure, Contains: laminate.TraitSet(laminate.StrongAcid)}
	open := 0
	for _, c := range propose(t, s, catalog.Library(), advice.Options{}) {
		for _, f := range c.Report.Findings {
			if f.Severity == rules.Incomplete && f.Rule.ID != "structure-incomplete" && c.Unfinished == "" {
				open++
				before, after, _ := strings.Cut(f.Message, "; veil and resin are not checked")
				if !noted(&c, "not checked", before, after) {
					t.Errorf("%q is in no note: %q", f.Message, c.Notes)
				}
			}
		}
		for _, x := range c.Report.Wall.Criteria {
			if x.Answer == wall.Incomplete && c.Unfinished == "" && !noted(&c, "not checked", x.Name, x.Reason) {
				t.Errorf("%s is in no note: %q", x.Name, c.Notes)
			}
		}
	}
	if open == 0 {
		t.Error("nothing was open")
	}
}

func TestPropose_aStructureThatIsNotFiguredIsCalledThat(t *testing.T) {
	s := header()
	s.Service.Temperature, s.Part.DesignBasis = quantity.New(170, quantity.Fahrenheit), laminate.StrainLimit
	s.Part.InsideDiameter = quantity.Length{}
	c := propose(t, s, catalog.Library(), advice.Options{})[0]
	const want = "least structure, not figured; state inside_diameter"
	if len(c.Titles) != 1 || c.Titles[0] != want || c.Notes[0] != want {
		t.Errorf("called %q, first note %q", c.Titles, c.Notes[0])
	}
}

// A hand-laid wall by the table of minimum strengths may strain more than the
// strain limit would allow: that is said, and a wall that does not is preferred.
func TestPropose_saysWhatFailsWithoutDeciding(t *testing.T) {
	for _, c := range propose(t, header(), catalog.Library(), advice.Options{}) {
		for _, x := range c.Report.Wall.Criteria {
			if x.Governs || x.Answer != wall.Fails {
				continue
			}
			if x.Kind == quantity.Strain {
				t.Errorf("%s fails where a thicker wall would do", x.Name)
			}
			if !noted(&c, "shown only: "+x.Title()+" has a utilization of "+quantity.Utilization(x.Ratio), "design basis is strength-table") {
				t.Errorf("%s is in no note: %q", x.Name, c.Notes)
			}
		}
	}
}
