package bench

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// TestUnitsOf_coverMost holds what is found to a search that leaves nothing out.
func TestUnitsOf_coverMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "a", "b", "c"}), 0, 4)
		var plies []laminate.Ply
		for range rapid.IntRange(1, 3).Draw(t, "runs") {
			one := names.Draw(t, "unit")
			for range rapid.IntRange(1, 12).Draw(t, "times") {
				for _, m := range one {
					plies = append(plies, laminate.Ply{Material: m, Count: 1})
				}
			}
		}
		var want []unit
		for i := 0; i < len(plies); {
			best := unit{first: i, period: 1, times: 1}
			for p := 1; p <= longest; p++ {
				times := 1
				for i+(times+1)*p <= len(plies) && slices.Equal(plies[i:i+p], plies[i+times*p:i+(times+1)*p]) {
					times++
				}
				if times >= leastRepeats && times*p > best.times*best.period {
					best = unit{first: i, period: p, times: times}
				}
			}
			if best.times >= leastRepeats {
				want = append(want, best)
			}
			i += best.times * best.period
		}
		got := unitsOf(&rules.Report{Schedule: &laminate.Schedule{Plies: plies}, Analysis: &laminate.Analysis{Rows: make([]laminate.RowFigures, len(plies))}})
		if !slices.Equal(got, want) {
			t.Errorf("%v\ngot  %v\nwant %v", plies, got, want)
		}
	})
}
