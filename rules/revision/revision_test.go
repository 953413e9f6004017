package revision

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules"
)

// rowsOf is a schedule of rows that differ by their count alone, or not at all
// where counts are equal. The zone is stated, so that a place decides nothing.
func rowsOf(counts []int) *laminate.Schedule {
	s := header()
	s.Plies = nil
	for n, count := range counts {
		s.Plies = append(s.Plies, laminate.Ply{Origin: laminate.Origin(n + 1), Material: "mat-1.5", Resin: "wall", Zone: laminate.StructuralLayer, Count: count})
	}
	return s
}

func tally(d *Difference) map[Change]int {
	n := map[Change]int{}
	for _, r := range d.Rows {
		n[r.Change]++
	}
	return n
}

func TestCompare_movingRowsReportsAtMostAsManyMovesAndNothingElse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var counts []int
		for n := range rapid.IntRange(1, 12).Draw(t, "rows") {
			counts = append(counts, n+1)
		}
		older := rowsOf(counts)
		moves := rapid.IntRange(0, 4).Draw(t, "moves")
		for range moves {
			from := rapid.IntRange(0, len(counts)-1).Draw(t, "from")
			row := counts[from]
			counts = slices.Delete(counts, from, from+1)
			counts = slices.Insert(counts, rapid.IntRange(0, len(counts)).Draw(t, "to"), row)
		}
		got := tally(Compare(report(older), report(rowsOf(counts))))
		if got[Moved] > moves || got[Changed]+got[Added]+got[Removed] > 0 || got[Same]+got[Moved] != len(counts) {
			t.Fatalf("%d moves to %v: %v", moves, counts, got)
		}
	})
}

func TestCompare_tellsEachRowOnceAndNoMoveAsRemovedAndAdded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		counts := rapid.SliceOfN(rapid.IntRange(1, 4), 0, 12)
		a, b := rowsOf(counts.Draw(t, "older")), rowsOf(counts.Draw(t, "newer"))
		var old, new []int
		removed, added, last := map[int]bool{}, map[int]bool{}, -1
		for _, r := range Compare(report(a), report(b)).Rows {
			if r.Old >= 0 {
				old = append(old, r.Old)
			}
			if r.New >= 0 {
				new = append(new, r.New)
			}
			switch r.Change {
			case Removed:
				removed[a.Plies[r.Old].Count] = true
			case Added:
				added[b.Plies[r.New].Count] = true
			case Moved:
				if a.Plies[r.Old].Count != b.Plies[r.New].Count || len(r.What) > 0 {
					t.Fatalf("moved and changed: %+v", r)
				}
			default:
				if r.Old <= last {
					t.Fatalf("row %d is out of order and not moved", r.Old+1)
				}
				last = r.Old
			}
		}
		if !slices.IsSorted(new) || len(new) != len(b.Plies) {
			t.Fatalf("new rows %v of %d", new, len(b.Plies))
		}
		if slices.Sort(old); len(slices.Compact(old)) != len(a.Plies) {
			t.Fatalf("old rows %v of %d", old, len(a.Plies))
		}
		for count := range removed {
			if added[count] {
				t.Fatalf("count %d is removed and added", count)
			}
		}
	})
}

func TestCompare_twoRowsThatChangePlacesAreOneMove(t *testing.T) {
	older, newer := header(), header()
	newer.Plies[2], newer.Plies[3] = newer.Plies[3], newer.Plies[2]
	newer.Plies[4].Count = 2
	var got []string
	for _, r := range Compare(report(older), report(newer)).Rows {
		got = append(got, r.Change.String())
	}
	if want := []string{"same", "same", "same", "moved", "changed"}; !slices.Equal(got, want) {
		t.Errorf("rows %v, want %v", got, want)
	}
}

func TestCommon_isALongestOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kinds := rapid.SliceOfN(rapid.IntRange(0, 3), 0, 9)
		a, b := kinds.Draw(t, "a"), kinds.Draw(t, "b")
		var longest func(i, k int) int // by trying everything
		longest = func(i, k int) int {
			switch {
			case i == len(a) || k == len(b):
				return 0
			case a[i] == b[k]:
				return 1 + longest(i+1, k+1)
			}
			return max(longest(i+1, k), longest(i, k+1))
		}
		var pairs [][2]int
		common(a, b, 0, 0, func(i, k int) { pairs = append(pairs, [2]int{i, k}) })
		slices.SortFunc(pairs, func(x, y [2]int) int { return x[0] - y[0] })
		for n, p := range pairs {
			if a[p[0]] != b[p[1]] || n > 0 && (p[0] <= pairs[n-1][0] || p[1] <= pairs[n-1][1]) {
				t.Fatalf("%v of %v and %v", pairs, a, b)
			}
		}
		if len(pairs) != longest(0, 0) {
			t.Fatalf("%d pairs of %v and %v, want %d", len(pairs), a, b, longest(0, 0))
		}
	})
}

func header() *laminate.Schedule {
	return &laminate.Schedule{
		Resins: []laminate.Resin{{ID: "liner", Family: laminate.NovolacVinylEster}, {ID: "wall", Family: laminate.VinylEster}},
		Plies: []laminate.Ply{
			{Material: "veil-c-15", Resin: "liner", Count: 1},
			{Material: "mat-1.5", Resin: "liner", Count: 2, GelAfter: true},
			{Material: "mat-1.5", Resin: "wall", Count: 1},
			{Material: "band-helical", Resin: "wall", Count: 4, Angle: laminate.Some(55.0)},
			{Material: "topcoat", Resin: "wall", Count: 1},
		},
	}
}

func report(s *laminate.Schedule) *rules.Report {
	lib := catalog.Library()
	return &rules.Report{Schedule: s, Analysis: laminate.Analyze(s, lib)}
}

func TestCompare_alignsRows(t *testing.T) {
	older, newer := header(), header()
	newer.Plies = slices.Insert(newer.Plies, 3, laminate.Ply{Material: "woven-24", Resin: "wall", Count: 1})
	newer.Plies[1].Count = 3
	newer.Plies[0].Material = "veil-polyester-15"
	newer.Plies = newer.Plies[:5] // the topcoat goes
	d := Compare(report(older), report(newer))
	var got []string
	for _, r := range d.Rows {
		got = append(got, r.Change.String())
	}
	want := []string{"changed", "changed", "same", "added", "same", "removed"}
	// Count 3 does not fit the inferred interior layer whole, which moves the
	// zone too; what the row says is enough here.
	if !slices.Equal(got, want) {
		t.Errorf("rows %v, want %v", got, want)
	}
	if d.Rows[0].What[0] != "material veil-c-15 → veil-polyester-15" {
		t.Errorf("row 1 says %q", d.Rows[0].What)
	}
	if Compare(report(older), report(header())).Rows[1].Change != Same {
		t.Error("a schedule differs from itself")
	}
}
