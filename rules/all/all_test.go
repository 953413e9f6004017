package all_test

import (
	"testing"

	"frp/veilwright/laminate/catalogue"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

func TestCatalogueIsSound(t *testing.T) {
	for _, err := range rules.Validate(all.Rules()) {
		t.Error(err)
	}
}

func TestSoundScheduleIsClear(t *testing.T) {
	r := all.Judge(ruletest.Sound(), catalogue.Library(), rules.Options{Remedies: true})
	for _, f := range r.Findings {
		if f.Rule.ID != "confirm-resin" {
			t.Errorf("%v %s: %s", f.Severity, f.Rule.ID, f.Message)
		}
	}
	if r.Verdict != rules.Clear {
		t.Errorf("verdict %v", r.Verdict)
	}
}
