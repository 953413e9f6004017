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

// A wall of more than five hundred plies, of courses as thick as it takes.
func BenchmarkProposeThick(b *testing.B) {
	s, lib := header(), catalog.Library()
	s.Service.Pressure, s.Part.InsideDiameter = quantity.New(245, quantity.PSI), quantity.New(240, quantity.Inch)
	plies := 0
	for b.Loop() {
		list, err := advice.Propose(s, lib, advice.Options{})
		if err != nil {
			b.Fatal(err)
		}
		plies = 0
		for i := range list {
			plies = max(plies, list[i].Schedule.NumberOfPlies())
		}
	}
	b.ReportMetric(float64(plies), "plies")
}

func BenchmarkPropose(b *testing.B) {
	s, lib := header(), catalog.Library()
	for b.Loop() {
		if _, err := advice.Propose(s, lib, advice.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
