package shop_test

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/rules/ruletest"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/shop/shoptest"
)

// trials tries every fix offered to a document, or to the walls of a job.
func trials(t interface{ Fatalf(string, ...any) }, text []byte) (tried int) {
	o := shop.New(shop.Options{NoBook: true}).Open("a.toml", text, "")
	if !o.Usable() {
		return 0
	}
	var walls []*laminate.Schedule
	switch o.Kind {
	case schedules.Schedule:
		walls = append(walls, o.Schedule)
	case schedules.Job:
		for i := range o.Job.Parts {
			walls = append(walls, o.Job.Wall(i))
		}
	default: // nothing to judge
	}
	for _, s := range walls {
		n, err := ruletest.Trials(s, o.Library, rules.Options{Units: s.Units})
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		tried += n
	}
	return tried
}

func TestTrials_keepWhatWholeJudgmentsWouldKeepOfDocuments(t *testing.T) {
	corpus := shoptest.Corpus(t, "../..")
	tried := 0
	for _, text := range corpus {
		tried += trials(t, text)
	}
	if tried == 0 {
		t.Fatal("no example has a fix to try")
	}
	rapid.Check(t, func(t *rapid.T) { trials(t, shoptest.Accident(corpus).Draw(t, "document")) })
}
