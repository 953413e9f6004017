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
	if first.Suits != advice.Suitable || !strings.HasPrefix(first.Reasons[0].Text, "serves; the usual veil here is c-glass for strong") {
		t.Errorf("%v: %q", first.Suits, first.Reasons[0].Text)
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
