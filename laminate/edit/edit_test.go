package edit_test

import (
	"math"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
)

var (
	noZone     = laminate.NoZone
	inner      = laminate.InnerSurface
	interior   = laminate.InteriorLayer
	structural = laminate.StructuralLayer
	outer      = laminate.OuterSurface
)

func blank() *laminate.Schedule {
	return &laminate.Schedule{Resins: []laminate.Resin{{ID: "liner", Family: laminate.NovolacVinylEster}, {ID: "wall", Family: laminate.VinylEster}}}
}

type maker func(*laminate.Schedule, *laminate.Library) edit.Edit

func lay(after int, id string) maker {
	return func(s *laminate.Schedule, l *laminate.Library) edit.Edit { return edit.AddPly(s, l, after, id) }
}

// apply does the edits one after the other.
func apply(t *testing.T, s *laminate.Schedule, makers ...maker) *laminate.Schedule {
	t.Helper()
	lib := catalog.Library()
	for i, m := range makers {
		e := m(s, lib)
		next, err := e.Do(s)
		if err != nil {
			t.Fatalf("edit %d, %s: %v", i+1, e.Label, err)
		}
		s = next
	}
	return s
}

// say spells the rows: "veil-c-15*2/liner. " with a full stop for a gel stop and
// "=zone" where the zone is stated.
func say(s *laminate.Schedule) string {
	var rows []string
	for _, p := range s.Plies {
		row := p.Material
		if p.Count > 1 {
			row += "*" + string(rune('0'+p.Count))
		}
		row += "/" + p.Resin
		if p.Zone != laminate.NoZone {
			row += "=" + p.Zone.String()
		}
		if p.GelAfter {
			row += "."
		}
		rows = append(rows, row)
	}
	return strings.Join(rows, " ")
}

func want(t *testing.T, s *laminate.Schedule, rows string) {
	t.Helper()
	if got := say(s); got != strings.Join(strings.Fields(rows), " ") {
		t.Errorf("rows\n got %s\nwant %s", got, rows)
	}
}

func wantZones(t *testing.T, s *laminate.Schedule, zones ...laminate.Zone) {
	t.Helper()
	got := laminate.InferZones(s, catalog.Library())
	for i := range zones {
		if i >= len(got) || got[i] != zones[i] {
			t.Errorf("zones %v, want %v", got, zones)
			return
		}
	}
}

// built is one veil, two mats and a gel stop, then mat/woven/mat/woven/mat.
func built(t *testing.T) *laminate.Schedule {
	return apply(t, blank(), lay(-1, "veil-c-15"), lay(0, "mat-1.5"),
		func(s *laminate.Schedule, l *laminate.Library) edit.Edit { return edit.AddCount(s, l, 1, 1) },
		func(s *laminate.Schedule, l *laminate.Library) edit.Edit { return edit.SetGel(s, l, 1, true) },
		lay(1, "mat-1.5"), lay(2, "woven-24"), lay(3, "mat-1.5"), lay(4, "woven-24"), lay(5, "mat-1.5"))
}

func TestAddPly_buildsTheUsualWallWithoutStatingZones(t *testing.T) {
	s := built(t)
	want(t, s, `veil-c-15/liner mat-1.5*2/liner. mat-1.5/wall woven-24/wall mat-1.5/wall woven-24/wall mat-1.5/wall`)
	wantZones(t, s, inner, interior, structural, structural, structural, structural, structural)
	s = apply(t, s, lay(6, "veil-c-10"), lay(7, "topcoat"))
	wantZones(t, s, inner, interior, structural, structural, structural, structural, structural, outer, outer)
	if p := s.Plies[8]; p.Zone != noZone || p.Resin != "wall" {
		t.Errorf("topcoat %+v", p)
	}
}

func TestAddPly_withoutGelStopTheThirdMatIsStructure(t *testing.T) {
	s := apply(t, blank(), lay(-1, "veil-c-15"), lay(0, "mat-1.5"), lay(1, "mat-1.5"), lay(2, "mat-1.5"), lay(3, "woven-24"))
	want(t, s, `veil-c-15/liner mat-1.5/liner mat-1.5/liner mat-1.5/wall woven-24/wall`)
	wantZones(t, s, inner, interior, interior, structural, structural)
}

func TestAddPly_insideTheBarrierIsBarrier(t *testing.T) {
	s := apply(t, built(t), lay(0, "mat-0.75"))
	wantZones(t, s, inner, interior, interior, structural)
	if s.Plies[1].Resin != "liner" {
		t.Errorf("laid in %q", s.Plies[1].Resin)
	}
	// Two after one veil are inferred; the third is stated, so that it stays.
	if s.Plies[2].Zone != interior || !s.Plies[2].GelAfter {
		t.Errorf("the mats of the barrier: %+v", s.Plies[2])
	}
}

func TestAddPly_secondVeilIsInnerSurfaceAndMovesNothing(t *testing.T) {
	s := apply(t, built(t), lay(-1, "veil-polyester-15"))
	want(t, s, `veil-polyester-15/liner veil-c-15/liner mat-1.5*2/liner. mat-1.5/wall woven-24/wall mat-1.5/wall woven-24/wall mat-1.5/wall`)
}

func TestAddPly_bandTakesAnAngle(t *testing.T) {
	s := apply(t, built(t), lay(6, "band-helical"), lay(7, "band-hoop"))
	if a, b := s.Plies[7].Angle, s.Plies[8].Angle; a != laminate.Some(55.0) || b != laminate.Some(90.0) {
		t.Errorf("angles %v and %v", a, b)
	}
	if u := apply(t, s, lay(8, "uni-13")).Plies[9].Angle; u != laminate.Some(0.0) {
		t.Errorf("unidirectional at %v", u)
	}
	s = apply(t, s, func(s *laminate.Schedule, l *laminate.Library) edit.Edit {
		return edit.SetPly(s, l, 7, "angle", "angle 63", func(p *laminate.Ply) { p.Angle = laminate.Some(63.0) })
	}, lay(8, "band-helical"))
	if a := s.Plies[9].Angle; a != laminate.Some(63.0) {
		t.Errorf("the next of the same band is wound at %v", a)
	}
}

func TestLabels_areGoodEnglish(t *testing.T) {
	s, l := built(t), catalog.Library()
	for want, e := range map[string]edit.Edit{
		"added ply 9 mat-1.5":                                edit.AddPly(s, l, 6, "mat-1.5"),
		"removed plies 2-3 mat-1.5":                          edit.Remove(s, l, 1),
		"moved ply 5 woven-24 outward":                       edit.Move(s, l, 3, 5),
		"added 1 ply to plies 2-3 mat-1.5":                   edit.AddCount(s, l, 1, 1),
		"took 1 ply from plies 2-3 mat-1.5":                  edit.AddCount(s, l, 1, -1),
		"set plies 2-3 mat-1.5 to 4 plies":                   edit.SetCount(s, l, 1, 4),
		"set a gel stop after ply 4 mat-1.5":                 edit.SetGel(s, l, 2, true),
		"took away the gel stop after plies 2-3 mat-1.5":     edit.SetGel(s, l, 1, false),
		"swapped ply 1 veil-c-15 for veil-polyester-15":      edit.SwapMaterial(s, l, 0, "veil-polyester-15"),
		"swapped veil-c-15 for veil-polyester-15 everywhere": edit.SwapEverywhere(s, l, "veil-c-15", "veil-polyester-15"),
		"made the structure 2 times":                         edit.TimesStructure(s, l, 2),
		"made the barrier 2 times as many plies":             edit.TimesBarrier(s, l, 2),
		"made the last 2 rows 3 times":                       edit.TimesLast(s, l, 6, 2, 3),
		"duplicated ply 4 mat-1.5":                           edit.Duplicate(s, l, 2),
		"ply 4 mat-1.5: glass content 28 %":                  edit.SetPly(s, l, 2, "glass_content", "glass content 28 %", func(p *laminate.Ply) {}),
		"added 3 plies after ply 1 veil-c-15":                edit.InsertPlies(s, l, 0, []laminate.Ply{{Material: "mat-1.5", Count: 3}}),
	} {
		if e.Label != want {
			t.Errorf("label %q, want %q", e.Label, want)
		}
	}
}

func TestTimesBarrier_multipliesCounts(t *testing.T) {
	s := apply(t, built(t), func(s *laminate.Schedule, l *laminate.Library) edit.Edit { return edit.TimesBarrier(s, l, 2) })
	want(t, s, `veil-c-15*2/liner mat-1.5*4/liner. mat-1.5/wall woven-24/wall mat-1.5/wall woven-24/wall mat-1.5/wall`)
	wantZones(t, s, inner, interior, structural)
}

func TestTimesStructure_repeatsTheSequenceUnderTheSurface(t *testing.T) {
	s := apply(t, built(t), lay(6, "topcoat"))
	e := edit.TimesStructure(s, catalog.Library(), 2)
	s = apply(t, s, func(*laminate.Schedule, *laminate.Library) edit.Edit { return e })
	want(t, s, `veil-c-15/liner mat-1.5*2/liner. mat-1.5/wall woven-24/wall mat-1.5/wall woven-24/wall mat-1.5/wall
		mat-1.5/wall woven-24/wall mat-1.5/wall woven-24/wall mat-1.5/wall topcoat/wall`)
	if e.At != laminate.PlyRef(11, "") {
		t.Errorf("it points at %+v", e.At)
	}
}

func TestTimesLast_repeatsTheRowsUpToThisOne(t *testing.T) {
	s := apply(t, built(t), func(s *laminate.Schedule, l *laminate.Library) edit.Edit { return edit.TimesLast(s, l, 4, 2, 3) })
	want(t, s, `veil-c-15/liner mat-1.5*2/liner. mat-1.5/wall woven-24/wall mat-1.5/wall woven-24/wall mat-1.5/wall woven-24/wall mat-1.5/wall woven-24/wall mat-1.5/wall`)
}

func TestAddCount_keepsTheZoneThatInferenceWouldEnd(t *testing.T) {
	s := apply(t, built(t), func(s *laminate.Schedule, l *laminate.Library) edit.Edit { return edit.AddCount(s, l, 1, 1) })
	wantZones(t, s, inner, interior, structural)
	if s.Plies[1].Zone != interior || s.Plies[2].Zone != noZone {
		t.Errorf("zones stated: %s", say(s))
	}
}

func TestRemove_movesNoOtherPlyToAnotherZone(t *testing.T) {
	s := apply(t, built(t), func(s *laminate.Schedule, l *laminate.Library) edit.Edit { return edit.Remove(s, l, 0) })
	wantZones(t, s, interior, structural, structural, structural, structural, structural)
}

func TestSetGel_newStopEndsTheBarrierAndItsRemovalMovesNothing(t *testing.T) {
	gel := func(row int, on bool) maker {
		return func(s *laminate.Schedule, l *laminate.Library) edit.Edit { return edit.SetGel(s, l, row, on) }
	}
	s := apply(t, blank(), lay(-1, "veil-c-15"), lay(0, "mat-1.5"), lay(1, "mat-1.5"), lay(2, "woven-24"))
	wantZones(t, s, inner, interior, interior, structural)
	s = apply(t, s, gel(1, true))
	wantZones(t, s, inner, interior, structural, structural)
	s = apply(t, s, gel(1, false))
	wantZones(t, s, inner, interior, structural, structural)
}

func TestMove_takesTheZoneOfItsNewNeighbors(t *testing.T) {
	move := func(row, to int) maker {
		return func(s *laminate.Schedule, l *laminate.Library) edit.Edit { return edit.Move(s, l, row, to) }
	}
	s := apply(t, built(t), move(4, 6))
	want(t, s, `veil-c-15/liner mat-1.5*2/liner. mat-1.5/wall woven-24/wall woven-24/wall mat-1.5/wall mat-1.5/wall`)
	s = apply(t, built(t), move(1, 4))
	wantZones(t, s, inner, structural, structural, structural, structural)
	s = apply(t, built(t), move(3, 0))
	wantZones(t, s, inner, inner, interior, structural)
}

func TestSwap_changesMaterialAndNothingElse(t *testing.T) {
	s := apply(t, built(t), func(s *laminate.Schedule, l *laminate.Library) edit.Edit {
		return edit.SwapMaterial(s, l, 0, "veil-polyester-15")
	}, func(s *laminate.Schedule, l *laminate.Library) edit.Edit {
		return edit.SwapEverywhere(s, l, "woven-24", "woven-18")
	})
	want(t, s, `veil-polyester-15/liner mat-1.5*2/liner. mat-1.5/wall woven-18/wall mat-1.5/wall woven-18/wall mat-1.5/wall`)
	s = apply(t, s, func(s *laminate.Schedule, l *laminate.Library) edit.Edit {
		return edit.SwapMaterial(s, l, 3, "band-hoop")
	})
	if s.Plies[3].Angle != laminate.Some(90.0) {
		t.Errorf("a band at %v", s.Plies[3].Angle)
	}
	s = apply(t, s, func(s *laminate.Schedule, l *laminate.Library) edit.Edit {
		return edit.SwapMaterial(s, l, 3, "mat-1.0")
	})
	if s.Plies[3].Angle.Given {
		t.Error("a mat kept the angle of a band")
	}
}

func TestTables_changeWhatTheyAreAbout(t *testing.T) {
	s := apply(t, built(t),
		func(*laminate.Schedule, *laminate.Library) edit.Edit {
			return edit.SetPart("length", "length 20 ft", func(p *laminate.Part) { p.Length = quantity.New(20, quantity.Foot) })
		},
		func(*laminate.Schedule, *laminate.Library) edit.Edit {
			return edit.SetService("ph", "pH 2 to 4", func(v *laminate.Service) { v.PH = laminate.PHRange{Lowest: 2, Highest: 4, Given: true} })
		},
		func(*laminate.Schedule, *laminate.Library) edit.Edit {
			return edit.SetHeader("title", "title", func(s *laminate.Schedule) { s.Title = "Duct"; s.Plies = nil })
		},
		func(s *laminate.Schedule, _ *laminate.Library) edit.Edit {
			return edit.SetResin(s, 1, "id", "id shell", func(r *laminate.Resin) { r.ID = "shell" })
		},
		func(s *laminate.Schedule, _ *laminate.Library) edit.Edit {
			return edit.AddResin(s, laminate.Resin{ID: "top", Family: laminate.Isophthalic})
		})
	if s.Part.Length.In(quantity.Foot) != 20 || s.Service.PH.Highest != 4 || s.Title != "Duct" || len(s.Plies) != 7 {
		t.Errorf("%+v", s)
	}
	if s.Plies[2].Resin != "shell" || len(s.Resins) != 3 {
		t.Errorf("resins %+v, ply %+v", s.Resins, s.Plies[2])
	}
	s = apply(t, s, func(s *laminate.Schedule, _ *laminate.Library) edit.Edit { return edit.RemoveResin(s, 2) })
	if len(s.Resins) != 2 {
		t.Errorf("resins %+v", s.Resins)
	}
}

func TestEdits_refuseWithAReason(t *testing.T) {
	s, l := built(t), catalog.Library()
	ply := func(f func(*laminate.Ply)) edit.Edit { return edit.SetPly(s, l, 3, "", "", f) }
	for name, c := range map[string]struct {
		edit edit.Edit
		says string
	}{
		"no such row":          {edit.Remove(s, l, 7), "no row 8"},
		"row before the first": {edit.AddCount(s, l, -1, 1), "no row 0"},
		"last ply of a row":    {edit.AddCount(s, l, 0, -1), "at least one ply"},
		"too many":             {edit.SetCount(s, l, 0, 1001), "at most 1000"},
		"too many by times":    {edit.TimesRow(s, l, 1, 600), "at most 1000"},
		"times one":            {edit.TimesBarrier(s, l, 1), "two times"},
		"more rows than there": {edit.TimesLast(s, l, 1, 3, 2), "2 rows"},
		"unknown material":     {edit.AddPly(s, l, 0, "cloth"), `no material "cloth"`},
		"swap to unknown":      {edit.SwapMaterial(s, l, 0, "cloth"), `no material "cloth"`},
		"swap of absent":       {edit.SwapEverywhere(s, l, "cloth", "mat-1.5"), `no ply is of "cloth"`},
		"lay beyond":           {edit.AddPly(s, l, 7, "mat-1.5"), "no row 8"},
		"move beyond":          {edit.Move(s, l, 0, 7), "cannot go there"},
		"undefined resin":      {ply(func(p *laminate.Ply) { p.Resin = "x" }), `no [[resin]] has the id "x"`},
		"share over one":       {ply(func(p *laminate.Ply) { p.GlassContent = laminate.Some(1.5) }), "from 0.01 to 0.95"},
		"share not a number":   {ply(func(p *laminate.Ply) { p.GlassContent = laminate.Some(math.NaN()) }), "no number"},
		"97 percent of glass":  {ply(func(p *laminate.Ply) { p.GlassContent = laminate.Some(0.97) }), "from 0.01 to 0.95"},
		"half a percent":       {ply(func(p *laminate.Ply) { p.GlassContent = laminate.Some(0.005) }), "from 0.01 to 0.95"},
		"angle too wide":       {ply(func(p *laminate.Ply) { p.Angle = laminate.Some(91.0) }), "-90 to 90"},
		"all void":             {ply(func(p *laminate.Ply) { p.VoidContent = laminate.Some(1.0) }), "void"},
		"angle of a mat":       {edit.SetPly(s, l, 2, "", "", func(p *laminate.Ply) { p.Angle = laminate.Some(0.0) }), "no direction"},
		"resin in use":         {edit.RemoveResin(s, 0), "ply 1 veil-c-15 is laid in it"},
		"resin twice":          {edit.AddResin(s, laminate.Resin{ID: "wall", Family: laminate.VinylEster}), "already"},
		"negative length": {edit.SetPart("length", "", func(p *laminate.Part) { p.Length = quantity.New(-1, quantity.Foot) }),
			"below zero"},
		"vacuum below zero": {edit.SetService("vacuum", "", func(v *laminate.Service) { v.Vacuum = quantity.New(-1, quantity.PSI) }),
			"below zero"},
		"pH upside down": {edit.SetService("ph", "", func(v *laminate.Service) { v.PH = laminate.PHRange{Lowest: 4, Highest: 2, Given: true} }),
			"descends"},
		"escape in the title": {edit.SetHeader("title", "", func(s *laminate.Schedule) { s.Title = "\x1b[2J" }), "control"},
	} {
		t.Run(name, func(t *testing.T) {
			before := say(s)
			next, err := c.edit.Do(s)
			if err == nil || next != nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%v, want %q", err, c.says)
			}
			if say(s) != before {
				t.Error("a refused edit changed the schedule")
			}
		})
	}
}

// A wall begun from nothing has a resin for the barrier and one for the
// structure, and nobody has said yet what they are.
func TestAddPly_fromNothingLeavesTheResinFamiliesUnstated(t *testing.T) {
	s, l := &laminate.Schedule{}, catalog.Library()
	for i, id := range []string{"veil-c-15", "mat-1.5", "mat-1.5", "woven-24", "topcoat"} {
		next, err := edit.AddPly(s, l, i-1, id).Do(s)
		if err != nil {
			t.Fatal(err)
		}
		s = next
	}
	var resins, plies []string
	for _, r := range s.Resins {
		resins = append(resins, r.ID)
		if r.Family != laminate.NoFamily {
			t.Errorf("resin %s was taken to be %s", r.ID, r.Family)
		}
	}
	for i := range s.Plies {
		plies = append(plies, s.Plies[i].Resin)
	}
	if got := strings.Join(resins, " "); got != "barrier structure" {
		t.Errorf("resins are %s", got)
	}
	if got := strings.Join(plies, " "); got != "barrier barrier barrier structure structure" {
		t.Errorf("plies are laid in %s", got)
	}
	if a := laminate.Analyze(s, l); !(a.Total.Thickness > 0) {
		t.Error("the wall shows no thickness")
	}
}

func TestEdits_thatChangeNothingGiveTheScheduleBack(t *testing.T) {
	s, l := built(t), catalog.Library()
	for _, e := range []edit.Edit{
		edit.SetCount(s, l, 1, 2), edit.AddCount(s, l, 1, 0), edit.SetGel(s, l, 1, true), edit.Move(s, l, 2, 2), edit.SwapMaterial(s, l, 0, "veil-c-15"),
		edit.SetPly(s, l, 0, "", "", func(*laminate.Ply) {}), edit.SetPart("", "", func(*laminate.Part) {}), edit.InsertPlies(s, l, 0, nil),
		edit.SetService("", "", func(*laminate.Service) {}), edit.SetHeader("", "", func(*laminate.Schedule) {}), edit.SetResin(s, 0, "", "", func(*laminate.Resin) {}),
	} {
		if next, err := e.Do(s); err != nil || next != s {
			t.Errorf("%s: another schedule, %v", e.Label, err)
		}
	}
}

// A schedule of a file can have faults. Whoever mends one must not be held up
// by another, and may make no new one.
func TestEdits_ofAScheduleWithFaultsMendOneAndMakeNone(t *testing.T) {
	l := catalog.Library()
	s := built(t).Clone()
	s.Plies[0].Material = "veil-nope"
	s.Plies[3].GlassContent = laminate.Some(0.97)
	mended, err := edit.SetPly(s, l, 3, "glass_content", "", func(p *laminate.Ply) { p.GlassContent = laminate.Some(0.5) }).Do(s)
	if err != nil {
		t.Fatal(err)
	}
	if mended, err = edit.SwapMaterial(mended, l, 0, catalog.VeilC15).Do(mended); err != nil || len(laminate.Validate(mended, l)) > 0 {
		t.Errorf("%v, left %v", err, laminate.Validate(mended, l))
	}
	if _, err := edit.Remove(s, l, 1).Do(s); err != nil {
		t.Errorf("another row cannot be taken out: %v", err)
	}
	for name, e := range map[string]edit.Edit{
		"worse": edit.SetPly(s, l, 3, "glass_content", "", func(p *laminate.Ply) { p.GlassContent = laminate.Some(0.98) }),
		"twice": edit.Duplicate(s, l, 0),
	} {
		if _, err := e.Do(s); err == nil {
			t.Errorf("%s: made", name)
		}
	}
}
