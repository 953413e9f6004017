package rules

import (
	"testing"

	"frp/veilwright/laminate"
)

// What is laid somewhere may be laid elsewhere too: a fix of it leaves the build alone.
func TestMadeOfOther_isOnlyWhatPliesAreMadeOf(t *testing.T) {
	base := func() *laminate.Schedule {
		return &laminate.Schedule{Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
			Plies: []laminate.Ply{{Material: "mat-1.5", Resin: "r", Count: 2}, {Material: "veil-c-15", Resin: "r", Count: 1}}}
	}
	for name, c := range map[string]struct {
		change func(*laminate.Schedule)
		want   bool
	}{
		"another material": {func(s *laminate.Schedule) { s.Plies[1].Material = "veil-polyester-15" }, true},
		"another resin": {func(s *laminate.Schedule) {
			s.Resins = append(s.Resins, laminate.Resin{ID: "q", Family: laminate.NovolacVinylEster})
			s.Plies[1].Resin = "q"
		}, true},
		"the resin itself":  {func(s *laminate.Schedule) { s.Resins[0].Family = laminate.NovolacVinylEster }, false},
		"a ply more":        {func(s *laminate.Schedule) { s.Plies = append(s.Plies, s.Plies[0]) }, false},
		"a row of more":     {func(s *laminate.Schedule) { s.Plies[0].Count = 3 }, false},
		"a gel stop":        {func(s *laminate.Schedule) { s.Plies[0].GelAfter = true }, false},
		"another zone":      {func(s *laminate.Schedule) { s.Plies[0].Zone = laminate.InteriorLayer }, false},
		"another order":     {func(s *laminate.Schedule) { s.Plies[0], s.Plies[1] = s.Plies[1], s.Plies[0] }, false},
		"what it has to do": {func(s *laminate.Schedule) { s.Service.Fluid = "water" }, false},
	} {
		is := base()
		c.change(is)
		if got := madeOfOther(base(), is); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
