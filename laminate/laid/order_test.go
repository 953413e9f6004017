package laid_test

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/laid"
)

func someWall(t *rapid.T) *laminate.Schedule {
	s := &laminate.Schedule{Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}}}
	for range rapid.IntRange(0, 9).Draw(t, "rows") {
		s.Plies = append(s.Plies, laminate.Ply{
			Material: rapid.SampledFrom([]string{catalog.VeilC15, catalog.Mat15, catalog.Woven24, catalog.Topcoat}).Draw(t, "material"), Resin: "r",
			Count: rapid.IntRange(1, 4).Draw(t, "count"), GelAfter: rapid.Bool().Draw(t, "gel"),
		})
	}
	return s
}

func TestReversed_twiceIsTheIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := someWall(t)
		o := laid.Written(s, laminate.Analyze(s, catalog.Library()))
		if twice := o.Reversed().Reversed(); !reflect.DeepEqual(twice, o) {
			t.Fatalf("%v, twice reversed %v", o, twice)
		}
		for _, o := range []laid.Order{o, o.Reversed()} {
			for k, ply := range o.Plies {
				if o.At(ply) != k {
					t.Fatalf("ply %d of %v stands at %d", ply, o.Plies, o.At(ply))
				}
			}
		}
	})
}

// A gel stop lies between the same two plies whichever is laid first.
func TestReversed_leavesGelStopsAtTheirFaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := someWall(t)
		a := laminate.Analyze(s, catalog.Library())
		faces := func(o laid.Order) map[[2]int]bool {
			set := map[[2]int]bool{}
			for k := 1; k < len(o.Plies); k++ {
				if o.Stops[k] {
					set[[2]int{min(o.Plies[k-1], o.Plies[k]), max(o.Plies[k-1], o.Plies[k])}] = true
				}
			}
			return set
		}
		in, out := laid.As(s, a, laminate.InsideOut), laid.As(s, a, laminate.OutsideIn)
		if !reflect.DeepEqual(faces(in), faces(out)) {
			t.Fatalf("%v and %v", in, out)
		}
		if n := len(in.Plies); len(in.Stops) != n+1 || n > 0 && (in.Plies[0] != 1 || out.Plies[0] != n) || !slices.IsSorted(in.Plies) {
			t.Fatalf("%v and %v", in, out)
		}
	})
}
