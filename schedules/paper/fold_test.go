package paper_test

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/schedules/paper"
)

func TestFold_losesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(rapid.IntRange(0, 2), 0, 60).Draw(t, "list")
		var out []int
		for _, r := range paper.Fold(len(list), func(i, k int) bool { return list[i] == list[k] }) {
			if r.First != len(out) || r.Times > 1 && r.Times < 3 {
				t.Fatalf("%+v after %d", r, len(out))
			}
			for range r.Times {
				out = append(out, list[r.First:r.First+r.Period]...)
			}
		}
		if len(out) != len(list) {
			t.Fatalf("%v became %v", list, out)
		}
		for i := range list {
			if out[i] != list[i] {
				t.Fatalf("%v became %v", list, out)
			}
		}
	})
}
