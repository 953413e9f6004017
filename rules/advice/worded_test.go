package advice_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
)

func TestAdvise_reasonsKeepToTheQuestion(t *testing.T) {
	s := header()
	s.Service.Contains = laminate.TraitSet(laminate.StrongAcid)
	s.Service.PH = laminate.PHRange{Lowest: 3, Highest: 4, Given: true}
	a := advice.Advise(s, catalog.Library(), quantity.US)
	first := a.Veil(catalog.VeilPolyester15)
	if first.Suits != advice.Suitable || !strings.HasPrefix(first.Reasons[1].Text, "serves; the usual veil here is c-glass for strong") {
		t.Errorf("%v: %q", first.Suits, first.Reasons[1].Text)
	}
	for _, o := range a.Veils {
		for _, r := range o.Reasons {
			if strings.Contains(r.Text, "Another veil is usual") || strings.Contains(r.Text, catalog.Mat15) || strings.Contains(r.Text, "too thin for an inner surface in") {
				t.Errorf("%s: %q", o.ID, r.Text)
			}
			if o.Suits == advice.Unsuitable && strings.Contains(r.Text, "serves") {
				t.Errorf("%s must not be built and is said to serve: %q", o.ID, r.Text)
			}
		}
	}
}

// Strong acid at mild heat: novolac is what practice takes, a vinyl ester
// serves. Common practice, no source.
func TestAdvise_aReasonNeverArguesAgainstItsAnswer(t *testing.T) {
	s := header()
	s.Service.Contains = laminate.TraitSet(laminate.StrongAcid)
	s.Service.PH = laminate.PHRange{Lowest: 0, Highest: 1, Given: true}
	s.Service.Temperature = quantity.New(110, quantity.Fahrenheit)
	a := advice.Advise(s, catalog.Library(), quantity.US)
	plain, novolac := a.Resin(laminate.VinylEster), a.Resin(laminate.NovolacVinylEster)
	if plain.Suits != advice.Suitable || plain.Reasons[0].Text != "nothing in this service speaks against it" ||
		plain.Reasons[1].Text != "serves; novolac vinyl ester is usual; at 110 °F, not above 120 °F, this resin serves too" {
		t.Errorf("vinyl ester: %v %q", plain.Suits, plain.Reasons)
	}
	if novolac.Suits != advice.Usual || novolac.Reasons[0].Text != "the usual resin for strong acids" {
		t.Errorf("novolac: %v %q", novolac.Suits, novolac.Reasons)
	}

	s.Service.Temperature = quantity.New(178, quantity.Fahrenheit)
	for _, o := range advice.Advise(s, catalog.Library(), quantity.US).Resins {
		for _, r := range o.Reasons {
			if o.Suits > advice.Suitable && (strings.Contains(r.Text, "serves") || strings.HasPrefix(r.Text, "the usual")) {
				t.Errorf("%s is %v, and %q speaks for it", o.ID, o.Suits, r.Text)
			}
		}
	}
}

// A tank for caustic: polyester is what practice takes, carbon serves too, and
// a thin veil of the usual fiber is none. Common practice, no source.
func TestAdvise_oneVeilIsUsual(t *testing.T) {
	s := header()
	s.Service.Contains = laminate.TraitSet(laminate.StrongBase)
	s.Service.PH = laminate.PHRange{Lowest: 11, Highest: 12, Given: true}
	a := advice.Advise(s, catalog.Library(), quantity.US)
	for id, want := range map[string]advice.Suits{
		catalog.VeilPolyester15: advice.Usual, catalog.VeilCarbon11: advice.Conditional, catalog.VeilC15: advice.Suitable, catalog.VeilC10: advice.Suitable,
	} {
		if got := a.Veil(id); got.Suits != want {
			t.Errorf("%s: %v, want %v: %v", id, got.Suits, want, got.Reasons)
		}
	}
	s.Service.Contains = laminate.TraitSet()
	a = advice.Advise(s, catalog.Library(), quantity.US)
	if a.Veil(catalog.VeilC15).Suits != advice.Usual || a.Veil(catalog.VeilC10).Suits != advice.Suitable {
		t.Errorf("c-15 %v, c-10 %v", a.Veil(catalog.VeilC15).Suits, a.Veil(catalog.VeilC10).Suits)
	}
}

// A carbon veil conducts though nobody asked for it: it waits for a ground.
func TestAdvise_aVeilThatConductsWantsAGround(t *testing.T) {
	for grounding, want := range map[string]advice.Suits{"": advice.Conditional, "none": advice.Conditional, "lug at each flange": advice.Suitable} {
		s := header()
		s.Part.Grounding = grounding
		if o := advice.Advise(s, catalog.Library(), quantity.US).Veil(catalog.VeilCarbon11); o.Suits != want {
			t.Errorf("grounding %q: %v, want %v: %v", grounding, o.Suits, want, o.Reasons)
		}
	}
}
