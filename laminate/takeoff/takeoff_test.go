package takeoff_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/laminate/winding"
)

// pipe is the pipe of the hand check.
func pipe(t *testing.T) (*laminate.Schedule, pipeFile) {
	var f pipeFile
	published.Load(t, "takeoff/pipe.json", &f)
	s := &laminate.Schedule{
		Part: laminate.Part{Form: laminate.Pipe, InsideDiameter: quantity.New(f.Diameter, quantity.Inch), Length: quantity.New(f.Length, quantity.Foot)},
		Resins: []laminate.Resin{{
			ID: "r", Family: laminate.VinylEster, Cure: laminate.PeroxideCobalt, Density: quantity.New(f.Density, quantity.KilogramPerCubicMeter), StyreneContent: laminate.Some(0.40),
		}},
	}
	for i, p := range f.Plies {
		id := fmt.Sprintf("m%d", i)
		form := laminate.ChoppedMat
		if p.Content > 0.5 {
			form = laminate.WovenRoving
		}
		s.Materials = append(s.Materials, laminate.Material{
			ID: id, Form: form, Fiber: laminate.EGlass, ArealMass: quantity.New(p.Areal, quantity.GramPerSquareMeter),
			FiberDensity: quantity.New(p.FiberDensity, quantity.KilogramPerCubicMeter),
		})
		s.Plies = append(s.Plies, laminate.Ply{Material: id, Resin: "r", Zone: laminate.StructuralLayer, Count: 1, GlassContent: laminate.Some(p.Content)})
	}
	return s, f
}

type pipeFile struct {
	published.Head
	Diameter float64 `json:"inside_diameter_in"`
	Length   float64 `json:"length_ft"`
	Density  float64 `json:"resin_density"`
	Plies    []struct {
		Areal        float64 `json:"areal_g_m2"`
		Content      float64 `json:"content"`
		FiberDensity float64 `json:"density"`
		Area         float64 `json:"area_m2"`
	} `json:"plies"`
	Ply2 struct {
		Fiber float64 `json:"fiber_kg"`
		Mix   float64 `json:"mix_kg"`
	} `json:"ply_2"`
	Wall  float64 `json:"wall_mm"`
	Fiber float64 `json:"fiber_kg"`
	Mix   float64 `json:"mix_kg"`
	Part  float64 `json:"part_kg"`
	Share float64 `json:"fiber_share"`
}

func count(s *laminate.Schedule, own stock.Stock) *takeoff.Takeoff {
	return takeoff.Count([]takeoff.Piece{takeoff.Of(s)}, catalog.Library(), own, takeoff.Options{})
}

func TestPipe_agreesWithTheHandCheckPlyByPly(t *testing.T) {
	s, f := pipe(t)
	got := count(s, stock.Stock{})
	if got.Incomplete() {
		t.Fatalf("%+v", got.Pieces)
	}
	published.Near(t, "wall", laminate.Analyze(s, catalog.Library()).Total.Thickness*1000, f.Wall, 0.005)
	p := &got.Pieces[0]
	for i, want := range f.Plies {
		published.Near(t, fmt.Sprintf("area of ply %d", i+1), p.Plies[i].Area, want.Area, 0.0006)
	}
	published.Near(t, "fiber of ply 2", p.Plies[1].Fiber, f.Ply2.Fiber, 0.0006)
	published.Near(t, "mix of ply 2", p.Plies[1].Mix, f.Ply2.Mix, 0.001)
	published.Near(t, "fiber", p.Fiber, f.Fiber, 0.006)
	published.Near(t, "mix", p.Mix, f.Mix, 0.006)
	published.Near(t, "part", got.Mass(), f.Part, 0.011)
	published.Near(t, "fiber share", p.Fiber/p.Mass(), f.Share, 0.0001)
	published.Near(t, "resin to order, 8 % more", got.Resins[0].Ordered, f.Mix*1.08, 0.01)
}

// A takeoff is a sum over plies: twice the rows of a flat part are twice of
// everything that is laid, and every piece counts for itself.
func TestCount_isLinearInPliesAndPieces(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		materials := []string{catalog.Mat15, catalog.Woven24, catalog.VeilC15, catalog.Topcoat, catalog.Chop15}
		s := &laminate.Schedule{
			Part:   laminate.Part{Form: laminate.Panel, Area: quantity.New(rapid.Float64Range(0.1, 50).Draw(t, "area"), quantity.SquareMeter)},
			Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		}
		for range rapid.IntRange(1, 8).Draw(t, "rows") {
			s.Plies = append(s.Plies, laminate.Ply{Material: rapid.SampledFrom(materials).Draw(t, "material"), Resin: "r", Zone: laminate.StructuralLayer, Count: rapid.IntRange(1, 4).Draw(t, "count")})
		}
		one := count(s, stock.Stock{})
		twice := s.Clone()
		twice.Plies = append(twice.Plies, s.Plies...)
		two := count(twice, stock.Stock{})
		both := takeoff.Count([]takeoff.Piece{takeoff.Of(s), takeoff.Of(s)}, lib, stock.Stock{}, takeoff.Options{})
		pair := takeoff.Of(s)
		pair.Count = 2
		alike := takeoff.Count([]takeoff.Piece{pair}, lib, stock.Stock{}, takeoff.Options{})
		for name, x := range map[string]*takeoff.Takeoff{"twice the plies": two, "two pieces": both, "a count of two": alike} {
			published.Near(t, name+": mass", x.Mass(), 2*one.Mass(), 1e-9*one.Mass())
			published.Near(t, name+": resin", x.Resins[0].Ordered, 2*one.Resins[0].Ordered, 1e-9*one.Resins[0].Ordered)
			for i := range one.Goods {
				published.Near(t, name+": "+one.Goods[i].Material.ID, x.Goods[i].Ordered, 2*one.Goods[i].Ordered, 1e-9*one.Goods[i].Ordered)
			}
		}
	})
}

// What is laid is what the schedule's own figures say of one area.
func TestCount_ofAPanelIsItsMassOnTheArea(t *testing.T) {
	s, _ := pipe(t)
	s.Part = laminate.Part{Form: laminate.Panel, Area: quantity.New(3, quantity.SquareMeter)}
	a := laminate.Analyze(s, catalog.Library())
	published.Near(t, "mass", count(s, stock.Stock{}).Mass(), 3*a.Total.Mass, 1e-9)
}

type floorFile struct {
	published.Head
	Strips struct {
		Diameter     float64 `json:"diameter"`
		Length       float64 `json:"length"`
		Roll         float64 `json:"roll"`
		Lap          float64 `json:"lap"`
		Hoopwise     int     `json:"hoopwise"`
		HoopwiseIn2  float64 `json:"hoopwise_in2"`
		Lengthwise   int     `json:"lengthwise"`
		LengthwiseIn float64 `json:"lengthwise_in2"`
		Net          float64 `json:"net_in2"`
	} `json:"strips_in"`
	Roll struct {
		Mass   float64 `json:"mass_lb"`
		Areal  float64 `json:"oz_ft2"`
		Width  float64 `json:"width_in"`
		Length float64 `json:"length_ft"`
	} `json:"roll"`
	Tow struct {
		Angle    float64 `json:"angle_deg"`
		Diameter float64 `json:"diameter_m"`
		Length   float64 `json:"length_m"`
		Tows     int     `json:"tows"`
		Tex      float64 `json:"tex"`
		Band     float64 `json:"band_m"`
		Exact    float64 `json:"circuits_exact"`
		Circuits int     `json:"circuits"`
		Km       float64 `json:"cover_km"`
		Kg       float64 `json:"cover_kg"`
		Bare     float64 `json:"without_overlap_kg"`
	} `json:"tow"`
	Pots struct {
		Mix   float64 `json:"mix_kg"`
		Waste float64 `json:"waste"`
		Pot   float64 `json:"pot_kg"`
		Pots  int     `json:"pots"`
		Share float64 `json:"share"`
		Heavy float64 `json:"peroxide_g_cm3"`
		Milli float64 `json:"in_a_pot_ml"`
	} `json:"pots"`
	Gel struct {
		LowC    float64 `json:"low_c"`
		LowMin  float64 `json:"low_minutes"`
		HighC   float64 `json:"high_c"`
		HighMin float64 `json:"high_minutes"`
		AtC     float64 `json:"at_c"`
		Minutes float64 `json:"minutes"`
	} `json:"gel"`
}

func TestStrips_agreeWithCountingThemBothWays(t *testing.T) {
	var f floorFile
	published.Load(t, "takeoff/shop-floor.json", &f)
	round := math.Pi * f.Strips.Diameter
	n := takeoff.StripCount(f.Strips.Length, f.Strips.Roll, f.Strips.Lap, false)
	if n != f.Strips.Hoopwise {
		t.Errorf("%d strips hoopwise", n)
	}
	published.Near(t, "glass hoopwise", float64(n)*f.Strips.Roll*(round+f.Strips.Lap), f.Strips.HoopwiseIn2, 1)
	if n = takeoff.StripCount(round, f.Strips.Roll, f.Strips.Lap, true); n != f.Strips.Lengthwise {
		t.Errorf("%d strips lengthwise", n)
	}
	published.Near(t, "glass lengthwise", float64(n)*f.Strips.Roll*f.Strips.Length, f.Strips.LengthwiseIn, 1)
	if takeoff.StripCount(10, 1, 1, false) != 0 || takeoff.StripCount(9, 5, 1, false) != 2 {
		t.Error("a lap as wide as the roll covers nothing; 5 and 4 more cover 9")
	}
	published.Near(t, "a roll's length", f.Roll.Mass*16/f.Roll.Areal/(f.Roll.Width/12), f.Roll.Length, 0.01)
}

func tape(id string, width, length float64) stock.Roll {
	return stock.Roll{Material: id, Width: quantity.New(width, quantity.Inch), Length: quantity.New(length, quantity.Foot)}
}

// The pipe of the strip check, one thin mat: the better of two directions and
// of the rolls is taken, and the rolls are counted.
func TestOrder_takesTheDirectionAndTheRollThatTakeLeast(t *testing.T) {
	var own stock.Stock
	s := &laminate.Schedule{
		Part:   laminate.Part{Form: laminate.Pipe, InsideDiameter: quantity.New(24, quantity.Inch), Length: quantity.New(240, quantity.Inch)},
		Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Plies:  []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 2}},
	}
	own.Takeoff.Lap = quantity.New(1, quantity.Inch)
	own.Rolls = []stock.Roll{tape(catalog.Mat15, 50, 40), tape(catalog.Mat15, 38, 192)}
	g := count(s, own).Goods[0]
	if g.Roll.Width.In(quantity.Inch) != 50 || len(g.Strips) != 1 || g.Strips[0].Direction != takeoff.Hoopwise || g.Strips[0].Number != 10 {
		t.Fatalf("%+v of a roll of %v", g.Strips, g.Roll)
	}
	// 6.4 ft a strip: six of a roll of 40 ft, ten of two.
	if g.Rolls != 2 {
		t.Errorf("%d rolls", g.Rolls)
	}
	if w := g.Waste(); w < 0.05 || w > 0.06 {
		t.Errorf("waste %.4f, by hand about 5.5 %%", w)
	}
	var f floorFile
	published.Load(t, "takeoff/shop-floor.json", &f)
	published.Near(t, "waste", g.Waste(), f.Strips.HoopwiseIn2/f.Strips.Net-1, 0.002)
	own.Rolls = own.Rolls[:1]
	own.Rolls[0].Length = quantity.New(5, quantity.Foot)
	got := count(s, own)
	if got.Goods[0].Rolls != 0 || !remarked(got, "roll-size-missing", "longer than a roll") {
		t.Errorf("a strip longer than a roll: %d rolls, %+v", got.Goods[0].Rolls, got.Remarks)
	}
	own.Takeoff.StripsJoin = laminate.Some(true)
	// Ten strips of 6.4 ft are 64.5 ft.
	if got = count(s, own); got.Goods[0].Rolls != 13 {
		t.Errorf("joined: %d rolls", got.Goods[0].Rolls)
	}
}

// A course of 10 ft and 5 ft long, and a roll of 50 in lapped by 1 in: round it two
// strips of 31.5 ft take 262 ft² of a ply, eight along it of 5 ft 167 ft². A mat goes
// the way that takes less; woven roving goes round all the same: eight laps along the
// shell would lie across the load round it, in every ply at the same places.
func TestOrder_laysWovenRovingRound(t *testing.T) {
	s := &laminate.Schedule{
		Part:   laminate.Part{Form: laminate.ShellCourse, InsideDiameter: quantity.New(10, quantity.Foot), Length: quantity.New(5, quantity.Foot)},
		Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Plies:  []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 1}, {Material: catalog.Woven24, Resin: "r", Count: 1}},
	}
	var own stock.Stock
	own.Takeoff.Lap = quantity.New(1, quantity.Inch)
	own.Rolls = []stock.Roll{tape(catalog.Mat15, 50, 192), tape(catalog.Woven24, 50, 150)}
	got := count(s, own)
	for k, want := range []takeoff.Strips{{Direction: takeoff.Lengthwise, Number: 8}, {Direction: takeoff.Hoopwise, Number: 2}} {
		if g := got.Goods[k].Strips; len(g) != 1 || g[0].Direction != want.Direction || g[0].Number != want.Number {
			t.Errorf("%s: %+v", got.Goods[k].Material.ID, g)
		}
	}
	s.Plies[1].Angle = laminate.Some(0.0) // who wants its warp along the axis says so
	if g := count(s, own).Goods[1].Strips; g[0].Direction != takeoff.Lengthwise {
		t.Errorf("at 0°: %+v", g)
	}
}

// Rolls are of all that is ordered. By hand: a course of 10 ft and 5 ft long, eight
// plies of 1.5 oz mat: 8 strips of 5 ft along a ply, 64 in all, 38 of a roll of 192 ft
// (190 ft): two rolls, of which 384 − 320 = 64 ft are left. The head of engineering's
// example is 93.06 ft² a ply, ten of them with 10 % for darts 1,024 ft², which are 246 ft
// of a roll 50 in wide: one more roll of 192 ft where the strips' rolls leave 64.
func TestRolls_areOfAllThatIsOrdered(t *testing.T) {
	resins := []laminate.Resin{{ID: "r", Family: laminate.VinylEster}}
	course := &laminate.Schedule{Resins: resins, Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 8}},
		Part: laminate.Part{Form: laminate.ShellCourse, InsideDiameter: quantity.New(10, quantity.Foot), Length: quantity.New(5, quantity.Foot)}}
	head := &laminate.Schedule{Resins: resins, Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 10}}, Part: laminate.Part{Form: laminate.HeadPart, InsideDiameter: quantity.New(10, quantity.Foot),
		Shape: laminate.Shape{Head: laminate.Torispherical, CrownRadius: quantity.New(10, quantity.Foot), KnuckleRadius: quantity.New(7.2, quantity.Inch)}}}
	var own stock.Stock
	own.Takeoff.Lap = quantity.New(1, quantity.Inch)
	own.Rolls = []stock.Roll{tape(catalog.Mat15, 50, 192)}
	const roll = 75 * 0.45359237 // engineering: a roll of 192 ft, 1.5 oz and 50 in
	for name, c := range map[string]struct {
		of   []*laminate.Schedule
		want int
	}{"strips alone": {[]*laminate.Schedule{course}, 2}, "a head alone": {[]*laminate.Schedule{head}, 2}, "both": {[]*laminate.Schedule{course, head}, 3}} {
		var pieces []takeoff.Piece
		for _, s := range c.of {
			pieces = append(pieces, takeoff.Of(s))
		}
		g := takeoff.Count(pieces, catalog.Library(), own, takeoff.Options{}).Goods[0]
		if g.Rolls != c.want || float64(g.Rolls)*roll < g.Ordered {
			t.Errorf("%s: %d rolls of 75 lb for %.1f lb", name, g.Rolls, g.Ordered/0.45359237)
		}
		if said := strings.Contains(strings.Join(g.How, ";"), "cut to fit"); said != (name != "strips alone") {
			t.Errorf("%s: %v", name, g.How)
		}
	}
}

func remarked(t *takeoff.Takeoff, id, text string) bool {
	for _, r := range t.Remarks {
		if r.ID == id && strings.Contains(r.Text, text) {
			return true
		}
	}
	return false
}

func TestTow_agreesWithTheHelixCutOpen(t *testing.T) {
	var f floorFile
	published.Load(t, "takeoff/shop-floor.json", &f)
	w, err := winding.Wind(winding.Band{Tows: f.Tow.Tows, TowMass: f.Tow.Tex * 1e-6, Width: f.Tow.Band}, f.Tow.Diameter, f.Tow.Angle)
	if err != nil {
		t.Fatal(err)
	}
	published.Near(t, "circuits", w.CircuitsExact, f.Tow.Exact, 0.001)
	km := takeoff.Tow(w, f.Tow.Tows, f.Tow.Length, 0) / 1000
	published.Near(t, "tow", km, f.Tow.Km, 0.001)
	published.Near(t, "mass", km*f.Tow.Tex/1000, f.Tow.Kg, 0.01)
	published.Near(t, "without overlap", km*f.Tow.Tex/1000*w.CircuitsExact/float64(w.Circuits), f.Tow.Bare, 0.01)
}

// Both roads to the fiber of a cover, by its tow and by its areal mass on the
// surface wound on, are one.
func TestTow_isTheArealMassAsLaidOnTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := winding.Band{Tows: rapid.IntRange(1, 80).Draw(t, "tows"), TowMass: rapid.Float64Range(3e-4, 5e-3).Draw(t, "tow"), Width: rapid.Float64Range(0.005, 0.3).Draw(t, "band")}
		d := rapid.Float64Range(0.1, 4).Draw(t, "diameter")
		l := rapid.Float64Range(0.2, 20).Draw(t, "length")
		w, err := winding.Wind(b, d, rapid.OneOf(rapid.Float64Range(0, 90), rapid.Just(0.0), rapid.Just(90.0)).Draw(t, "angle"))
		if err != nil || w.Angle > 89.99 {
			return // no band lies so, or it goes round without end
		}
		byTow := takeoff.Tow(w, b.Tows, l, 0) * b.TowMass
		byArea := w.LaidCover * math.Pi * d * l
		published.Near(t, "mass", byTow, byArea, 1e-9*byArea)
	})
}

func TestBatches_agreeWithTheHandCheck(t *testing.T) {
	var f floorFile
	published.Load(t, "takeoff/shop-floor.json", &f)
	if n := takeoff.Batches(f.Pots.Mix, f.Pots.Waste, f.Pots.Pot); n != f.Pots.Pots {
		t.Errorf("%d pots", n)
	}
	published.Near(t, "peroxide of a pot", f.Pots.Pot*1000*f.Pots.Share/f.Pots.Heavy, f.Pots.Milli, 0.5)
	if takeoff.Batches(8, 0, 4) != 2 {
		t.Error("two whole pots are two")
	}
}

func TestEmission_meetsThePublishedLimits(t *testing.T) {
	var f struct {
		published.Head
		Cases []struct {
			Name     string  `json:"name"`
			Way      string  `json:"way"`
			Content  float64 `json:"content"`
			Equation float64 `json:"equation_lb_ton"`
			Limit    float64 `json:"published_limit_lb_ton"`
		} `json:"cases"`
	}
	published.Load(t, "takeoff/styrene.json", &f)
	ways := map[string]takeoff.Way{"hand": takeoff.ByHand, "non-atomized": takeoff.ByNonAtomizedSpray, "winding": takeoff.ByWinding}
	for _, c := range f.Cases {
		got := takeoff.Emission(ways[c.Way], c.Content) * 2000
		published.Near(t, c.Name, got, c.Equation, 0.06)
		published.Near(t, c.Name+", as published", got, c.Limit, 0.7)
	}
}
