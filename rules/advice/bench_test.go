package advice_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
)

func BenchmarkAdvise(b *testing.B) {
	s, lib := header(), catalog.Library()
	s.Service.Conductive, s.Service.Abrasive = laminate.Some(true), laminate.Some(true)
	for b.Loop() {
		advice.Advise(s, lib, quantity.US)
	}
}

func BenchmarkPropose(b *testing.B) {
	s, lib := header(), catalog.Library()
	for b.Loop() {
		if _, err := advice.Propose(s, lib, advice.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
