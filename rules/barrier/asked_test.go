package barrier

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// 100 mil nominal, 200 mil for hypochlorite, less 5 % (common practice, no source).
func TestAsked_followsTheService(t *testing.T) {
	s := &laminate.Schedule{}
	lib := &laminate.Library{}
	if got := quantity.New(95, quantity.Mil).SI(); quantity.Compare(Asked(s, lib), got) != 0 {
		t.Errorf("plain service asks %v m, want %v", Asked(s, lib), got)
	}
	s.Service.Contains = laminate.TraitSet(laminate.Hypochlorite)
	if got := quantity.New(190, quantity.Mil).SI(); quantity.Compare(Asked(s, lib), got) != 0 {
		t.Errorf("hypochlorite asks %v m, want %v", Asked(s, lib), got)
	}
}
