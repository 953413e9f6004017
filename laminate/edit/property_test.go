package edit_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
)

var ids = []string{"veil-c-15", "veil-polyester-15", "mat-1.5", "mat-0.75", "woven-24", "uni-13", "band-hoop", "band-helical", "topcoat"}

func anySchedule() *rapid.Generator[*laminate.Schedule] {
	return rapid.Custom(func(t *rapid.T) *laminate.Schedule {
		s := blank()
		for range rapid.IntRange(0, 10).Draw(t, "rows") {
			p := laminate.Ply{
				Material: rapid.SampledFrom(ids).Draw(t, "material"), Resin: rapid.SampledFrom([]string{"liner", "wall"}).Draw(t, "resin"),
				Zone:  rapid.SampledFrom([]laminate.Zone{noZone, noZone, inner, interior, structural, outer}).Draw(t, "zone"),
				Count: rapid.IntRange(1, 4).Draw(t, "count"), GelAfter: rapid.Bool().Draw(t, "gel"),
			}
			if _, band := catalog.UsualAngle(p.Material); band {
				p.Angle = laminate.Some(rapid.Float64Range(0, 90).Draw(t, "angle"))
			}
			s.Plies = append(s.Plies, p)
		}
		s.Plies = laminate.SplitRow(s, catalog.Library()) // as a document's are
		return s
	})
}

func anyEdit(t *rapid.T, s *laminate.Schedule, l *laminate.Library) edit.Edit {
	n := len(s.Plies)
	row := rapid.IntRange(-1, n).Draw(t, "row")
	id := rapid.SampledFrom(append([]string{"nobody's"}, ids...)).Draw(t, "id")
	k := rapid.IntRange(-1, 5).Draw(t, "k")
	switch rapid.IntRange(0, 14).Draw(t, "kind") {
	case 0:
		return edit.SetCount(s, l, row, k)
	case 1:
		return edit.AddCount(s, l, row, k)
	case 2:
		return edit.Remove(s, l, row)
	case 3:
		return edit.Move(s, l, row, k)
	case 4:
		return edit.SwapMaterial(s, l, row, id)
	case 5:
		return edit.SwapEverywhere(s, l, rapid.SampledFrom(ids).Draw(t, "old"), id)
	case 6:
		return edit.TimesRow(s, l, row, k)
	case 7:
		return edit.TimesLast(s, l, row, rapid.IntRange(0, 3).Draw(t, "rows"), k)
	case 8:
		return edit.TimesBarrier(s, l, k)
	case 9:
		return edit.TimesStructure(s, l, k)
	case 10:
		return edit.SetGel(s, l, row, k > 2)
	case 11:
		return edit.Duplicate(s, l, row)
	case 12:
		return edit.SetPly(s, l, row, "zone", "zone", func(p *laminate.Ply) { p.Zone = laminate.Zone(max(k, 0) % 5) })
	case 13:
		return edit.InsertPlies(s, l, row, []laminate.Ply{{Material: id, Count: 2}, {Material: "mat-1.5", Count: 1}})
	}
	return edit.AddPly(s, l, row, id)
}

var exact = []cmp.Option{cmpopts.EquateComparable(laminate.Ply{}, laminate.Resin{}, laminate.Material{}, laminate.Part{}, laminate.Service{}), cmpopts.EquateEmpty()}

func TestEdits_arePureAndLeaveASoundSchedule(t *testing.T) {
	l := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule().Draw(t, "schedule")
		for range 6 {
			before := s.Clone()
			e := anyEdit(t, s, l)
			next, err := e.Do(s)
			if d := cmp.Diff(before, s, exact...); d != "" {
				t.Fatalf("%s changed its argument: %s", e.Label, d)
			}
			if err != nil {
				if next != nil || err.Error() == "" {
					t.Fatalf("%s: refused with %v and %v", e.Label, next, err)
				}
				continue
			}
			again, _ := e.Do(s)
			if d := cmp.Diff(next, again, exact...); d != "" {
				t.Fatalf("%s is not repeatable: %s", e.Label, d)
			}
			for i, p := range next.Plies {
				m, ok := l.Material(next, p.Material)
				if !ok || p.Count < 1 || m.Form == laminate.RovingBand && !p.Angle.Given || !m.Form.Directed() && p.Angle.Given {
					t.Fatalf("%s left row %d as %+v", e.Label, i, p)
				}
			}
			if e.At.Kind == laminate.RefPly && len(next.Plies) > 0 && (e.At.Index < 0 || e.At.Index >= len(next.Plies)) {
				t.Fatalf("%s points at row %d of %d", e.Label, e.At.Index, len(next.Plies))
			}
			s = next
		}
	})
}

func TestRemove_leavesTheZonesOfTheOthers(t *testing.T) {
	l := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule().Filter(func(s *laminate.Schedule) bool { return len(s.Plies) > 0 }).Draw(t, "schedule")
		row := rapid.IntRange(0, len(s.Plies)-1).Draw(t, "row")
		before := laminate.InferZones(s, l)
		next, err := edit.Remove(s, l, row).Do(s)
		if err != nil {
			t.Fatal(err)
		}
		for i, z := range laminate.InferZones(next, l) {
			old := i
			if i >= row {
				old++
			}
			if z != before[old] {
				t.Fatalf("without row %d, row %d is %v, was %v", row, old, z, before[old])
			}
		}
	})
}

func TestMove_withinAZoneNeverChangesMassOrThickness(t *testing.T) {
	l := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule().Filter(func(s *laminate.Schedule) bool { return len(s.Plies) > 1 }).Draw(t, "schedule")
		row, to := rapid.IntRange(0, len(s.Plies)-1).Draw(t, "row"), rapid.IntRange(0, len(s.Plies)-1).Draw(t, "to")
		before := laminate.Analyze(s, l)
		next, err := edit.Move(s, l, row, to).Do(s)
		if err != nil {
			t.Fatal(err)
		}
		after := laminate.Analyze(next, l)
		sameZone := after.Rows[to].Zone == before.Rows[row].Zone
		if sameZone && (math.Abs(after.Total.Mass-before.Total.Mass) > 1e-12 || math.Abs(after.Total.Thickness-before.Total.Thickness) > 1e-12) {
			t.Fatalf("mass %v, was %v", after.Total.Mass, before.Total.Mass)
		}
	})
}

func TestTimesBarrier_givesThatManyTimesTheBarrier(t *testing.T) {
	l := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule().Draw(t, "schedule")
		before := laminate.Analyze(s, l)
		n := rapid.IntRange(2, 5).Draw(t, "n")
		next, err := edit.TimesBarrier(s, l, n).Do(s)
		if err != nil {
			if before.Barrier.Plies > 0 {
				t.Fatal(err)
			}
			return
		}
		after := laminate.Analyze(next, l)
		if after.Barrier.Plies != n*before.Barrier.Plies || after.Total.Plies-after.Barrier.Plies != before.Total.Plies-before.Barrier.Plies ||
			math.Abs(after.Barrier.Thickness-float64(n)*before.Barrier.Thickness) > 1e-12 {
			t.Fatalf("barrier %+v, was %+v", after.Barrier, before.Barrier)
		}
	})
}
