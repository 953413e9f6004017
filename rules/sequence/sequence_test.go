package sequence_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/ruletest"
)

func change(list ...func(*laminate.Schedule)) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		for _, c := range list {
			c(s)
		}
	}
}

func ply(material string, count int) laminate.Ply {
	p := laminate.Ply{Material: material, Resin: ruletest.Wall, Zone: laminate.StructuralLayer, Count: count}
	switch material {
	case catalog.BandHoop:
		p.Angle = laminate.Some(90.0)
	case catalog.BandHelical:
		p.Angle = laminate.Some(55.0)
	case catalog.Uni13:
		p.Angle = laminate.Some(0.0)
	}
	return p
}

func insert(at int, list ...laminate.Ply) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		s.Plies = append(s.Plies[:at:at], append(list, s.Plies[at:]...)...)
	}
}

func remove(at int) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Plies = append(s.Plies[:at:at], s.Plies[at+1:]...) }
}

func material(row int, id string) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Plies[row].Material = id }
}

func count(row, n int) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Plies[row].Count = n }
}

func gel(row int, on bool) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Plies[row].GelAfter = on }
}

func zone(row int, z laminate.Zone) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) { s.Plies[row].Zone = z }
}

// lone adds a mat ply of exact thickness outside the others, after a gel stop.
func lone(thickness float64, n int) func(*laminate.Schedule) {
	return func(s *laminate.Schedule) {
		id := ruletest.Mat(s, "own-mat", quantity.New(thickness, quantity.Mil))
		s.Plies[ruletest.OverRow].GelAfter = true
		insert(ruletest.CoatRow, ply(id, n), laminate.Ply{Material: catalog.VeilC15, Resin: ruletest.Wall, Zone: laminate.OuterSurface, Count: 1})(s)
		s.Plies[ruletest.CoatRow].GelAfter = true
	}
}

// Common practice, no source, throughout.
func TestSequenceRules(t *testing.T) {
	const (
		veil  = ruletest.VeilRow
		mats  = ruletest.MatRow
		bond  = ruletest.BondRow
		woven = ruletest.WovenRow
		over  = ruletest.OverRow
		coat  = ruletest.CoatRow
	)
	cases := []ruletest.Case{
		{Name: "in order"},
		{Name: "a barrier ply behind the structure", Change: zone(over, laminate.InteriorLayer), Want: []string{"break zones-out-of-order 4"},
			Says: []string{"ply 6 (interior-layer) lies outside the structural-layer"}},
		{Name: "structure outside the outer surface", Change: zone(woven, laminate.OuterSurface), Want: []string{"break zones-out-of-order 4"}},

		{Name: "woven on woven in one row", Change: count(woven, 2), Want: []string{"break woven-on-woven 3"}, Says: []string{"plies 5–6 are woven roving on woven roving"},
			Fixes: "add mat-1.5 between the woven plies"},
		{Name: "woven on woven in two rows", Change: insert(woven, ply(catalog.Woven18, 1)), Want: []string{"break woven-on-woven 4"}, Says: []string{"ply 6 is woven"}, Fixes: "add mat-1.5 between"},
		{Name: "three of them in two rows", Change: insert(woven, ply(catalog.Woven18, 2)), Want: []string{"break woven-on-woven 3 4"}, Fixes: "add mat-1.5 between", After: []string{"warning gel-stop-late"}},
		{Name: "a veil between is no mat", Change: insert(woven, ply(catalog.Woven24, 1), ply(catalog.VeilC15, 1)), Want: []string{"break woven-on-woven 5"}, Fixes: "add mat-1.5 between"},
		{Name: "a mat between", Change: insert(woven, ply(catalog.Woven24, 1), ply(catalog.Mat15, 1))},
		{Name: "winding between", Change: insert(woven, ply(catalog.Woven24, 1), ply(catalog.BandHoop, 1))},

		{Name: "woven last under the coat", Change: remove(over), Want: []string{"warning woven-outermost 3"}, Says: []string{"ply 5 (woven-24) is woven roving and the last reinforcement"}, Fixes: "add mat-1.5 over ply 5"},
		{Name: "winding last", Change: material(over, catalog.BandHoop)},

		{Name: "woven straight on the gelled barrier", Change: remove(bond), Want: []string{"warning no-bond-mat 2"}, Says: []string{"ply 4 (woven-roving)"}, Fixes: "add mat-1.5 under ply 4"},
		{Name: "winding straight on the gelled barrier", Change: change(remove(bond), insert(bond, ply(catalog.BandHelical, 2))), Want: []string{"warning no-bond-mat 2"}, Fixes: "add mat-1.5 under plies 4–5"},
		{Name: "a coat on the gelled barrier is no mat", Change: change(remove(bond), func(s *laminate.Schedule) {
			s.Materials = []laminate.Material{{ID: "rich-coat", Form: laminate.ResinCoat, Thickness: ruletest.Mil(5)}}
			insert(bond, ply("rich-coat", 1))(s)
		}), Want: []string{"warning no-bond-mat 3"}, Fixes: "add mat-1.5 under ply 5"},
		{Name: "woven on a gelled mat of the structure", Change: gel(bond, true), Want: []string{"warning no-bond-mat 3"}, Says: []string{"ply 5 (woven-roving) is laid directly on a gelled face"}, Fixes: "have a mat on the gelled face under ply 5"},
		{Name: "on the last of two", Change: change(count(bond, 2), gel(bond, true)), Want: []string{"warning no-bond-mat 3"}, Fixes: "have a mat on the gelled face under ply 6"},
		{Name: "winding on a gelled winding", Change: change(insert(woven, ply(catalog.BandHelical, 2)), gel(woven, true), insert(woven+1, ply(catalog.BandHelical, 1)), remove(woven+2)), Want: []string{"warning no-bond-mat 4"}, Fixes: "add mat-1.5 under ply 7"},
		{Name: "woven on a wet barrier", Change: change(remove(bond), gel(mats, false)), Want: []string{"warning gel-stop-missing 1"}, Fixes: "add a gel stop after plies 2–3 and mat-1.5 on the gelled face"},
		{Name: "without a barrier", Change: change(remove(veil), remove(0), remove(0))},

		{Name: "no outer surface", Change: remove(coat), Want: []string{"warning no-outer-surface 4"}, Says: []string{"the last ply is mat-1.5"}, Fixes: "add topcoat in resin wall as the last ply"},
		{Name: "no ply", Change: func(s *laminate.Schedule) { s.Plies = nil }},

		{Name: "wax between plies", Change: insert(woven, ply(catalog.Topcoat, 1)), Want: []string{"break wax-between-plies 3"}, Says: []string{"ply 5 is a waxed coat (topcoat)"}, Fixes: "remove the waxed coat between plies"},
		{Name: "two waxed coats last", Change: count(coat, 2), Want: []string{"break wax-between-plies 5"}, Fixes: "remove the waxed coat between plies"},
		{Name: "wax under the outer veil", Change: insert(coat+1, laminate.Ply{Material: catalog.VeilC15, Resin: ruletest.Wall, Zone: laminate.OuterSurface, Count: 1}),
			Want: []string{"break wax-between-plies 5"}, Fixes: "move the waxed coat to the outside"},
		{Name: "a coat without wax between plies", Change: func(s *laminate.Schedule) {
			s.Materials = []laminate.Material{{ID: "rich-coat", Form: laminate.ResinCoat, Thickness: ruletest.Mil(5)}}
			insert(woven, ply("rich-coat", 1))(s)
		}},

		{Name: "no gel stop before structure", Change: gel(mats, false), Want: []string{"warning gel-stop-missing 1"}, Says: []string{"after plies 2–3"}, Fixes: "add a gel stop after plies 2–3"},
		{Name: "no structure after the barrier", Change: func(s *laminate.Schedule) {
			s.Plies = s.Plies[:2]
			s.Plies[1].GelAfter = false
		}, Want: []string{"warning no-outer-surface 1"}, Fixes: "topcoat"},

		{Name: "four mats in one go", Change: count(over, 3)},
		{Name: "five mats in one go", Change: count(over, 4), Want: []string{"warning gel-stop-late 4"}, Says: []string{"at most 4 mats or 250.0 mil", "5 mats"}, Fixes: "add gel stops"},
		{Name: "nine mats in one row", Change: count(over, 9), Want: []string{"warning gel-stop-late 4"}, Fixes: "add gel stops"},
		{Name: "two runs too long", Change: change(count(mats, 5), count(over, 4)), Want: []string{"warning gel-stop-late 1 4"}, Says: []string{"again at plies 9–12"}, Fixes: "add gel stops"},
		{Name: "a quarter inch in one go", Change: lone(125, 2)},
		{Name: "over a quarter inch in one go", Change: lone(125.1, 2), Want: []string{"warning gel-stop-late 5"}, Says: []string{"250.2 mil"}, Fixes: "add gel stops"},
		{Name: "one ply of over a quarter inch cannot be fixed by a stop", Change: lone(251, 1), Want: []string{"warning gel-stop-late 5"}},
		{Name: "winding ends the count", Change: insert(over, ply(catalog.BandHoop, 1), ply(catalog.Mat15, 9))},
		{Name: "until the next gel stop", Change: change(insert(over, ply(catalog.BandHoop, 1), ply(catalog.Mat15, 5)), gel(over, true)), Want: []string{"warning gel-stop-late 5"}, Fixes: "add gel stops"},

		{Name: "zones inferred", Change: func(s *laminate.Schedule) {
			for i := range s.Plies {
				s.Plies[i].Zone = laminate.NoZone
			}
		}, Want: []string{"note zones-inferred 0 1 2 3 4 5"}, Says: []string{"plies 1–7 are given a zone by their place"}},
		{Name: "one zone inferred", Change: zone(coat, laminate.NoZone), Want: []string{"note zones-inferred 5"}, Says: []string{"ply 7 is given a zone by its place"}},
		{Name: "a fix in an inferred barrier keeps every zone", Change: func(s *laminate.Schedule) {
			for i := range s.Plies {
				s.Plies[i].Zone = laminate.NoZone
			}
			s.Plies[mats].GelAfter = false
			s.Plies[bond].Resin = ruletest.Wall
		}, Want: []string{"warning gel-stop-missing 1", "note zones-inferred"}, Fixes: "add a gel stop", After: []string{"note zones-inferred"}},
	}
	ruletest.Run(t, "sequence", cases)
	ruletest.Covers(t, "sequence", cases)
}
