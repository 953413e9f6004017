package edit_test

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
)

func anyPly(t *rapid.T) laminate.Ply {
	p := laminate.Ply{
		Material: rapid.SampledFrom(ids).Draw(t, "material"), Resin: "wall", Count: rapid.IntRange(1, 9).Draw(t, "count"),
		Zone: rapid.SampledFrom([]laminate.Zone{noZone, inner, interior, structural, outer}).Draw(t, "zone"), GelAfter: rapid.Bool().Draw(t, "gel"),
	}
	if deg, band := catalog.UsualAngle(p.Material); band || p.Material == catalog.Uni13 {
		p.Angle = laminate.Some(deg)
	}
	return p
}

func TestDraft_insertThenRemoveIsTheIdentity(t *testing.T) {
	l := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule().Draw(t, "schedule")
		before := s.Clone()
		d := edit.Begin(s, l)
		at := rapid.IntRange(0, len(s.Plies)).Draw(t, "at")
		n := rapid.IntRange(1, 4).Draw(t, "rows")
		for range n {
			d.Insert(at, anyPly(t))
		}
		d.Remove(at, at+n)
		next, err := d.Finish()
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(before, next, exact...); diff != "" {
			t.Fatalf("something is left: %s", diff)
		}
		if diff := cmp.Diff(before, s, exact...); diff != "" {
			t.Fatalf("the schedule itself was changed: %s", diff)
		}
	})
}

// Whatever is done to some rows, the others stay in their zones, and the
// schedule read by itself says so.
func TestDraft_leavesTheZonesOfUntouchedRows(t *testing.T) {
	l := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule().Draw(t, "schedule")
		d := edit.Begin(s, l)
		was := laminate.InferZones(s, l)
		origin := make([]int, len(s.Plies)) // of each row of the draft, -1 where it is new
		for i := range origin {
			origin[i] = i
		}
		for range rapid.IntRange(1, 6).Draw(t, "changes") {
			at := rapid.IntRange(0, len(d.Plies)).Draw(t, "at")
			switch {
			case at == len(d.Plies) || rapid.Bool().Draw(t, "insert"):
				d.Insert(at, anyPly(t))
				origin = append(origin[:at], append([]int{-1}, origin[at:]...)...)
			case rapid.Bool().Draw(t, "remove"):
				d.Remove(at, at+1)
				origin = append(origin[:at], origin[at+1:]...)
			default:
				d.Plies[at].Count++
				d.Plies[at].GelAfter = !d.Plies[at].GelAfter
			}
		}
		// Ply by ply: a new row without a zone may be read as two.
		var rows []int
		for i := range d.Plies {
			rows = append(rows, slices.Repeat([]int{i}, d.Plies[i].Count)...)
		}
		zones := make([]laminate.Zone, len(d.Plies))
		for i := range zones {
			zones[i] = d.Zone(i)
		}
		next := d.Schedule()
		n := 0
		for i, z := range laminate.InferZones(next, l) {
			for range next.Plies[i].Count {
				row := rows[n]
				n++
				if origin[row] >= 0 && z != was[origin[row]] {
					t.Fatalf("ply %d was %v in row %d and is %v", n, was[origin[row]], origin[row], z)
				}
				if origin[row] < 0 && zones[row] != noZone && z != zones[row] {
					t.Fatalf("ply %d, %s, is to be %v and is %v", n, next.Plies[i].Material, zones[row], z)
				}
			}
		}
		if n != len(rows) {
			t.Fatalf("%d plies of %d are left", n, len(rows))
		}
	})
}

func anyRecipe(t *rapid.T) *edit.Recipe {
	mix := func(id string) laminate.Resin {
		return laminate.Resin{ID: id, Family: rapid.SampledFrom(laminate.Families.All()).Draw(t, id)}
	}
	r := &edit.Recipe{
		Veil: rapid.SampledFrom([]string{catalog.VeilC15, catalog.VeilPolyester15, catalog.VeilCarbon11}).Draw(t, "veil"), Veils: rapid.IntRange(0, 3).Draw(t, "veils"),
		Mat: rapid.SampledFrom([]string{catalog.Mat15, catalog.Mat075, catalog.Chop15}).Draw(t, "mat"), Mats: rapid.IntRange(0, 9).Draw(t, "mats"),
		Barrier: mix("barrier"), Wall: mix("structure"),
		Coat: rapid.SampledFrom([]string{"", catalog.Topcoat}).Draw(t, "coat"), Outside: rapid.SampledFrom([]string{"", catalog.VeilC15}).Draw(t, "outside"),
	}
	if rapid.Bool().Draw(t, "other mix on the veil") {
		r.Surface = mix("surface")
	}
	for range rapid.IntRange(0, 4).Draw(t, "rows") {
		p := anyPly(t)
		r.Structure = append(r.Structure, laminate.Ply{Material: p.Material, Count: p.Count, Angle: p.Angle})
	}
	return r
}

// thick is the thickness of so many plies, laid one by one in a wall of their own.
func thick(l *laminate.Library, p laminate.Ply, resin laminate.Resin, z laminate.Zone) float64 {
	if p.Material == "" {
		return 0
	}
	n := p.Count
	p.Count, p.Resin, p.Zone = 1, resin.ID, z
	s := &laminate.Schedule{Resins: []laminate.Resin{resin}, Plies: []laminate.Ply{p}}
	return float64(n) * laminate.Analyze(s, l).Total.Thickness
}

func TestRecipe_buildsWhatItsPartsComeTo(t *testing.T) {
	l := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecipe(t)
		s := r.Build(blank(), l)
		if faults := laminate.Validate(s, l); len(faults) > 0 {
			t.Fatalf("not a sound schedule: %v", faults)
		}
		surface := r.Barrier
		if r.Surface.ID != "" {
			surface = r.Surface
		}
		want := map[laminate.Zone]float64{
			inner:    thick(l, laminate.Ply{Material: r.Veil, Count: r.Veils}, surface, inner),
			interior: thick(l, laminate.Ply{Material: r.Mat, Count: r.Mats}, r.Barrier, interior),
			outer:    thick(l, laminate.Ply{Material: r.Outside, Count: 1}, r.Wall, outer) + thick(l, laminate.Ply{Material: r.Coat, Count: 1}, r.Wall, outer),
		}
		for _, p := range r.Structure {
			want[structural] += thick(l, p, r.Wall, structural)
		}
		a := laminate.Analyze(s, l)
		for z, m := range want {
			if got := a.Zones[z].Thickness; math.Abs(got-m) > 1e-12 {
				t.Fatalf("%v is %v m, its plies are %v", z, got, m)
			}
		}
		var g edit.InOneGo
		for i, row := range a.Rows {
			if !row.ZoneGiven {
				t.Fatalf("row %d does not state its zone", i)
			}
			p := s.Plies[i]
			if room := g.Room(row.Material.Form, row.Thickness, p.Count); room < p.Count {
				t.Fatalf("row %d has %d plies where %d may be laid in one go", i, p.Count, room)
			}
			if g.Add(row.Material.Form, row.Thickness, p.Count); p.GelAfter {
				g = edit.InOneGo{}
			}
			if i > 0 && i < len(a.Rows) && a.Rows[i-1].Zone.InBarrier() && !row.Zone.InBarrier() && !s.Plies[i-1].GelAfter {
				t.Fatalf("no gel stop after the barrier, before row %d", i)
			}
		}
	})
}

func TestRecipe_lineLeavesWhatStandsOutsideOfTheBarrier(t *testing.T) {
	l := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := anySchedule().Draw(t, "schedule")
		r := anyRecipe(t)
		next := r.Line(s, l)
		was, is := laminate.Analyze(s, l), laminate.Analyze(next, l)
		if is.Barrier.Plies != r.Veils+r.Mats {
			t.Fatalf("%d plies of barrier, %d veils and %d mats were asked for", is.Barrier.Plies, r.Veils, r.Mats)
		}
		for z := range is.Zones {
			if z := laminate.Zone(z); !z.InBarrier() && math.Abs(was.Zones[z].Thickness-is.Zones[z].Thickness) > 1e-12 {
				t.Fatalf("%v was %v m and is %v", z, was.Zones[z].Thickness, is.Zones[z].Thickness)
			}
		}
	})
}

func TestFill_keepsAFillerThatServesAndItsShare(t *testing.T) {
	for name, c := range map[string]struct{ has, want laminate.Resin }{
		"none":                 {laminate.Resin{}, laminate.Resin{Filler: laminate.SiliconCarbide, FillerContent: laminate.Some(catalog.HardFillerShare)}},
		"another kind":         {laminate.Resin{Filler: laminate.CarbonPowder, FillerContent: laminate.Some(0.04)}, laminate.Resin{Filler: laminate.SiliconCarbide, FillerContent: laminate.Some(catalog.HardFillerShare)}},
		"as hard":              {laminate.Resin{Filler: laminate.AluminumOxide, FillerContent: laminate.Some(0.3)}, laminate.Resin{Filler: laminate.AluminumOxide, FillerContent: laminate.Some(0.3)}},
		"as hard, share unset": {laminate.Resin{Filler: laminate.AluminumOxide}, laminate.Resin{Filler: laminate.AluminumOxide, FillerContent: laminate.Some(catalog.HardFillerShare)}},
	} {
		r := c.has
		if edit.Fill(&r, laminate.SiliconCarbide); r != c.want {
			t.Errorf("%s: %+v, want %+v", name, r, c.want)
		}
	}
}

func TestFreeID_isNoResinsYet(t *testing.T) {
	s := &laminate.Schedule{Resins: []laminate.Resin{{ID: "wall"}, {ID: "wall-2"}}}
	if got := edit.FreeID(s, "wall"); got != "wall-3" {
		t.Errorf("%q", got)
	}
	if got := edit.FreeID(s, "barrier"); got != "barrier" {
		t.Errorf("%q", got)
	}
}
