package rules

import (
	"slices"
	"sync/atomic"
	"testing"

	"pgregory.net/rapid"
)

func TestEach_doesEveryPieceOnce(t *testing.T) {
	for _, n := range []int{0, 1, fewest, 2*fewest - 1, 2 * fewest, 500} {
		done := make([]atomic.Int32, n)
		each(n, func(i int) { done[i].Add(1) })
		for i := range done {
			if c := done[i].Load(); c != 1 {
				t.Fatalf("of %d number %d is done %d times", n, i, c)
			}
		}
	}
}

// The terminal stands in order again after a mistake only where it is the caller that
// panics.
func TestEach_panicsWithWhatOneOfThemDid(t *testing.T) {
	for _, n := range []int{1, 500} {
		func() {
			defer func() {
				if what := recover(); what != "a mistake" {
					t.Errorf("of %d: %v", n, what)
				}
			}()
			each(n, func(i int) {
				if i == n-1 {
					panic("a mistake")
				}
			})
		}()
	}
}

func TestInOrder_isAStableSort(t *testing.T) {
	list := []*Rule{{ID: "a"}, {ID: "b"}, {ID: "c"}}
	rapid.Check(t, func(t *rapid.T) {
		var findings []Finding
		for i := range rapid.IntRange(0, 40).Draw(t, "n") {
			f := Finding{Rule: rapid.SampledFrom(list).Draw(t, "rule"), Severity: Severity(rapid.IntRange(1, 4).Draw(t, "severity")), Rows: []int{i}}
			f.At.Index = rapid.IntRange(0, 3).Draw(t, "index")
			findings = append(findings, f)
		}
		want := slices.Clone(findings)
		slices.SortStableFunc(want, byWeight)
		got := inOrder(findings)
		for i := range want {
			if got[i].Rows[0] != want[i].Rows[0] {
				t.Fatalf("%d: %+v, not %+v", i, got[i], want[i])
			}
		}
	})
}
