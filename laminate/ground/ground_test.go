package ground_test

import (
	"math"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
)

func m(v float64) quantity.Length { return quantity.New(v, quantity.Meter) }

// shapes are parts of every form, with the area of the face at z = 0 and z = 10 mm
// from the closed formulas of solids of revolution (any handbook of mathematics:
// sphere, frustum, torus by Pappus, rectangle, circle), worked out here in place.
var shapes = []struct {
	name string
	part laminate.Part
	area func(z float64) float64
	keys []string // without any of which there is no area
}{
	{"pipe", laminate.Part{Form: laminate.Pipe, InsideDiameter: m(2), Length: m(3)}, func(z float64) float64 { return math.Pi * (2 + 2*z) * 3 }, []string{"inside_diameter", "length"}},
	{"duct", laminate.Part{Form: laminate.Duct, InsideDiameter: m(2), Length: m(3)}, func(z float64) float64 { return math.Pi * (2 + 2*z) * 3 }, []string{"inside_diameter", "length"}},
	{"tank", laminate.Part{Form: laminate.Tank, InsideDiameter: m(2), Length: m(3)}, func(z float64) float64 { return math.Pi * (2 + 2*z) * 3 }, []string{"inside_diameter", "length"}},
	{"course", laminate.Part{Form: laminate.ShellCourse, InsideDiameter: m(2), Length: m(3)}, func(z float64) float64 { return math.Pi * (2 + 2*z) * 3 }, []string{"inside_diameter", "length"}},
	{"panel", laminate.Part{Form: laminate.Panel, Shape: laminate.Shape{Width: m(2)}, Length: m(3)}, func(float64) float64 { return 6 }, []string{"width", "length"}},
	{"panel by area", laminate.Part{Form: laminate.Panel, Area: quantity.New(4, quantity.SquareMeter)}, func(float64) float64 { return 4 }, []string{"area"}},
	{"cover", laminate.Part{Form: laminate.Cover, InsideDiameter: m(2)}, func(float64) float64 { return math.Pi }, []string{"inside_diameter"}},
	{"bottom", laminate.Part{Form: laminate.FlatBottom, InsideDiameter: m(2)}, func(float64) float64 { return math.Pi }, []string{"inside_diameter"}},
	// The flat disc and a quarter of the outside of a torus: Pappus.
	{"bottom with a knuckle", laminate.Part{Form: laminate.FlatBottom, InsideDiameter: m(2), Shape: laminate.Shape{KnuckleRadius: m(0.2)}}, func(z float64) float64 {
		flat, r := 0.8, 0.2+z
		return math.Pi*flat*flat + 2*math.Pi*(flat+2*r/math.Pi)*math.Pi/2*r
	}, []string{"inside_diameter"}},
	{"hemisphere", laminate.Part{Form: laminate.HeadPart, InsideDiameter: m(2), Shape: laminate.Shape{Head: laminate.Hemispherical}}, func(z float64) float64 { return 2 * math.Pi * (1 + z) * (1 + z) }, []string{"inside_diameter", "shape"}},
	// Half an oblate spheroid: π a² + π c²/e artanh e.
	{"ellipsoidal head", laminate.Part{Form: laminate.HeadPart, InsideDiameter: m(2), Shape: laminate.Shape{Head: laminate.Ellipsoidal, Depth: m(0.5)}}, func(z float64) float64 {
		a, c := 1+z, 0.5+z
		e := math.Sqrt(1 - c*c/(a*a))
		return math.Pi*a*a + math.Pi*c*c/e*math.Atanh(e)
	}, []string{"inside_diameter", "depth", "shape"}},
	// A cap and a zone of a torus, 2π r (R₀ φ + r sin φ) from its circle at R₀.
	{"torispherical head", laminate.Part{Form: laminate.HeadPart, InsideDiameter: m(2), Shape: laminate.Shape{Head: laminate.Torispherical, CrownRadius: m(2), KnuckleRadius: m(0.12)}}, func(z float64) float64 {
		crown, knuckle, center := 2+z, 0.12+z, 1-0.12
		from := math.Asin(center / (crown - knuckle))
		cap := 2 * math.Pi * crown * crown * (1 - math.Cos(from))
		return cap + 2*math.Pi*knuckle*(center*(math.Pi/2-from)+knuckle*math.Cos(from))
	}, []string{"inside_diameter", "crown_radius", "knuckle_radius", "shape"}},
	// π (R + r) s, s the slant.
	{"cone", laminate.Part{Form: laminate.Cone, InsideDiameter: m(2), Shape: laminate.Shape{HalfAngle: laminate.Some(30.0), SmallDiameter: m(1)}}, func(z float64) float64 {
		return math.Pi * (1 + 0.5 + 2*z*math.Cos(math.Pi/6)) * 1
	}, []string{"inside_diameter", "half_angle", "small_diameter"}},
	// A quarter of a torus: Pappus.
	{"elbow", laminate.Part{Form: laminate.Elbow, InsideDiameter: m(0.4), Shape: laminate.Shape{BendRadius: m(0.6), Turn: laminate.Some(90.0), Miters: laminate.Some(0)}}, func(z float64) float64 {
		return 2 * math.Pi * (0.2 + z) * math.Pi / 2 * 0.6
	}, []string{"inside_diameter", "bend_radius", "turn", "miters"}},
	// Each miter cuts tubes on whose axes the lengths are mean: circumference × axis.
	{"mitered elbow", laminate.Part{Form: laminate.Elbow, InsideDiameter: m(0.4), Shape: laminate.Shape{BendRadius: m(0.6), Turn: laminate.Some(90.0), Miters: laminate.Some(2)}}, func(z float64) float64 {
		return math.Pi * (0.4 + 2*z) * 2 * 2 * 0.6 * math.Tan(math.Pi/8)
	}, []string{"inside_diameter", "bend_radius", "turn", "miters"}},
}

func TestOfPart_everyFormHasTheAreaOfItsSolid(t *testing.T) {
	for _, c := range shapes {
		g, err := ground.OfPart(&c.part)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for _, z := range []float64{0, 0.01} {
			got, err := g.Area(0, z)
			if want := c.area(z); err != nil || math.Abs(got/want-1) > 1e-9 {
				t.Errorf("%s at %g m: %.9f m², want %.9f; %v", c.name, z, got, want, err)
			}
		}
		if g.How(0.01, true, quantity.Metric) == "" {
			t.Errorf("%s: it is not said what the area is made of", c.name)
		}
	}
}

// Every key without which there is no area is named, and nothing is guessed.
func TestOfPart_namesTheKeyThatIsMissing(t *testing.T) {
	for _, c := range shapes {
		for _, key := range c.keys {
			p := c.part
			switch key {
			case "inside_diameter":
				p.InsideDiameter = quantity.Length{}
			case "length":
				p.Length = quantity.Length{}
			case "area":
				p.Area = quantity.Area{}
			case "width":
				p.Width = quantity.Length{}
			case "depth":
				p.Depth = quantity.Length{}
			case "crown_radius":
				p.CrownRadius = quantity.Length{}
			case "knuckle_radius":
				p.KnuckleRadius = quantity.Length{}
			case "small_diameter":
				p.SmallDiameter = quantity.Length{}
			case "bend_radius":
				p.BendRadius = quantity.Length{}
			case "half_angle":
				p.HalfAngle = laminate.Optional[float64]{}
			case "turn":
				p.Turn = laminate.Optional[float64]{}
			case "miters":
				p.Miters = laminate.Optional[int]{}
			case "shape":
				p.Head = laminate.NoHeadShape
			default:
				t.Fatal(key)
			}
			if _, err := ground.OfPart(&p); err == nil || !strings.Contains(err.Error(), key) {
				t.Errorf("%s without %s: %v", c.name, key, err)
			}
		}
	}
	for form, key := range map[laminate.PartForm]string{laminate.NoPartForm: "form", laminate.Flange: "drilling"} {
		if _, err := ground.OfPart(&laminate.Part{Form: form}); err == nil || !strings.Contains(err.Error(), key) {
			t.Errorf("%v: %v", form, err)
		}
	}
}

// A class 150 flange of 6 in is 11 in wide outside (ASME B16.5, from memory):
// its face is a ring.
func TestOfPart_aFlangeIsARing(t *testing.T) {
	g, err := ground.OfPart(&laminate.Part{Form: laminate.Flange, Shape: laminate.Shape{Drilling: laminate.Class150, Size: quantity.New(6, quantity.Inch)}})
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := g.Area(0, 0); math.Abs(got/(math.Pi/4*(121-36)*0.0254*0.0254)-1) > 1e-9 {
		t.Errorf("%g m²", got)
	}
}

// engineering, section 1.5: elbows of 24 in round 36 in by 90°: two seams are 78.5 in
// each, three 76.7 in.
func TestSeams_areEllipses(t *testing.T) {
	for n, want := range map[int]float64{2: 78.5, 3: 76.7} {
		p := laminate.Part{Form: laminate.Elbow, InsideDiameter: quantity.New(24, quantity.Inch),
			Shape: laminate.Shape{BendRadius: quantity.New(36, quantity.Inch), Turn: laminate.Some(90.0), Miters: laminate.Some(n)}}
		if seams, long := ground.Seams(&p, 0); seams != n || math.Abs(long/0.0254-want) > 0.05 {
			t.Errorf("%d seams of %.2f in, want %d of %g in", seams, long/0.0254, n, want)
		}
		p.Turn = laminate.Optional[float64]{}
		if said := ground.SeamsSaid(&p, 0, quantity.US); !strings.Contains(said, "not known") {
			t.Errorf("without its turn: %s", said)
		}
	}
}

// By hand: a ring of 340 mm outside round a bore of 200 mm, π/4·(0.34² − 0.2²), as the
// metric flange of that size is (EN 1092, PN 10, from memory); its table of drillings in
// inches has no such size. What is stated goes before the table.
func TestOfPart_aFlangeStatesItsOutside(t *testing.T) {
	ring := laminate.Part{Form: laminate.Flange, Shape: laminate.Shape{Size: m(0.2), Outside: m(0.34), BoltCircle: m(0.295), BoltSize: m(0.02), Bolts: laminate.Some(8)}}
	bored := ring
	bored.Size, bored.InsideDiameter = quantity.Length{}, m(0.2)
	own := ring
	own.Size, own.Drilling = m(0.1524), laminate.Class150
	for name, c := range map[string]struct {
		of   laminate.Part
		want float64
	}{"by its size": {ring, 0.0593761}, "by its bore": {bored, 0.0593761}, "over the table": {own, math.Pi / 4 * (0.34*0.34 - 0.1524*0.1524)}} {
		g, err := ground.OfPart(&c.of)
		if err != nil {
			t.Fatal(name, err)
		}
		if got, _ := g.Area(0, 0); math.Abs(got/c.want-1) > 1e-6 {
			t.Errorf("%s: %.7f m²", name, got)
		}
	}
	if d := ground.Bolted(&own); d.Outside != 0.34 || d.Circle != 0.295 || d.Bolts != 8 || d.Bolt != 0.02 {
		t.Errorf("bolts: %+v", d)
	}
	ring.Form, ring.Size = laminate.Cover, quantity.Length{}
	if g, err := ground.OfPart(&ring); err != nil || g.Disc != 0.34 {
		t.Errorf("a cover: %g m, %v", g.Disc, err)
	}
}

// By hand: a strap of three plies 2, 5 and 8 in wide on the thicker of two tubes;
// a seal as wide everywhere, which gets smaller ply by ply; a pad that runs out
// six times its own thickness.
func TestOverlays_lieAsWideAsTheyAreStated(t *testing.T) {
	inch := func(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }
	lib := catalog.Library()
	j := &laminate.Job{
		Resins:    []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Laminates: []laminate.Laminate{{ID: "l", Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 2}}}},
		Parts: []laminate.JobPart{
			{ID: "a", Laminate: "l", Part: laminate.Part{Form: laminate.Pipe, InsideDiameter: inch(24)}},
			{ID: "b", Laminate: "l", Part: laminate.Part{Form: laminate.Pipe}},
		},
	}
	x := &laminate.Joint{ID: "j", Between: [2]string{"a", "b"}, FirstWidth: inch(2), Width: inch(8), InsideWidth: inch(4)}
	thick := laminate.Analyze(j.Wall(0), lib).Total.Thickness
	mats := func(n int) *laminate.Analysis { // with a coat over them
		return laminate.Analyze(&laminate.Schedule{Resins: j.Resins, Plies: []laminate.Ply{
			{Material: catalog.Mat15, Resin: "r", Count: n, Zone: laminate.StructuralLayer}, {Material: catalog.Topcoat, Resin: "r", Count: 1, Zone: laminate.OuterSurface},
		}}, lib)
	}
	three := mats(3)
	g, err := ground.OfStrap(j, x, three, lib)
	if err != nil {
		t.Fatal(err)
	}
	for i, w := range []float64{2, 5, 8, 8} { // the coat goes over the last mat, which has the stated width
		got, err := g.Area(i, 0.001)
		if want := math.Pi * (24*0.0254 + 2*thick + 0.002) * w * 0.0254; err != nil || math.Abs(got/want-1) > 1e-9 || math.Abs(g.Across(i, 0)-w*0.0254) > 1e-12 {
			t.Errorf("strap, ply %d: %g m², want %g; %v", i+1, got, want, err)
		}
	}
	if x.Widths = laminate.WideFirst; true {
		g, _ = ground.OfStrap(j, x, three, lib)
		for i, w := range []float64{8, 5, 2, 8} {
			if math.Abs(g.Across(i, 0)-w*0.0254) > 1e-12 {
				t.Errorf("wide first, ply %d is %g m wide, want %g in", i+1, g.Across(i, 0), w)
			}
		}
	}
	if g, err = ground.OfSeal(j, x, lib); err != nil {
		t.Fatal(err)
	}
	if got, _ := g.Area(1, 0.001); math.Abs(got/(math.Pi*(24*0.0254-0.002)*4*0.0254)-1) > 1e-9 {
		t.Errorf("seal: %g m²", got)
	}
	n := &laminate.Nozzle{ID: "n", Size: inch(6), PadDiameter: inch(12), NeckBond: inch(3), Projection: inch(8)}
	if g, err = ground.OfPad(n, three, nil); err != nil {
		t.Fatal(err)
	}
	// By hand: the first mat as stated, each after it 6 thicknesses further out on
	// either side, the coat over the last.
	mat := three.Rows[0].Thickness
	for i, outer := range []float64{12 * 0.0254, 12*0.0254 + 12*mat, 12*0.0254 + 24*mat, 12*0.0254 + 24*mat} {
		if got, _ := g.Area(i, 0.001); math.Abs(got/(math.Pi/4*(outer*outer-36*0.0254*0.0254))-1) > 1e-9 || math.Abs(g.Across(i, 0.001)-outer) > 1e-12 {
			t.Errorf("pad, ply %d: %g m², %g m wide, want %g", i+1, got, g.Across(i, 0), outer)
		}
	}
	if got := ground.PadLaid(n, three); math.Abs(got-(12*0.0254+24*mat)) > 1e-12 {
		t.Errorf("pad is laid to %g m", got)
	}
	// By hand, a neck of 6 in whose wall is as thick as the three mats and the coat: pad
	// and overlay begin at its outside, the inside one in its bore; each further ply lies on
	// the ones before. Of a neck that nobody states it is the bore; one set on the part takes
	// no more of the pad's ring than its opening.
	wall := three.Total.Thickness / 0.0254
	ring := func(outer, inner float64) float64 { return math.Pi / 4 * (outer*outer - inner*inner) }
	set := *n
	set.Kind = laminate.SetOn
	for name, c := range map[string]struct {
		of           func() (ground.Ground, error)
		z, in2, wide float64
	}{
		"no neck":              {func() (ground.Ground, error) { return ground.OfNeckBond(n, nil, false) }, 0, math.Pi*6*3 + ring(12, 6), 6},
		"outside":              {func() (ground.Ground, error) { return ground.OfNeckBond(n, three, false) }, 0, math.Pi*(6+2*wall)*3 + ring(12+2*wall, 6+2*wall), 6},
		"outside, a ply on it": {func() (ground.Ground, error) { return ground.OfNeckBond(n, three, false) }, 0.1, math.Pi*(6.2+2*wall)*3 + ring(12.2+2*wall, 6.2+2*wall), 6},
		"inside":               {func() (ground.Ground, error) { return ground.OfNeckBond(n, three, true) }, 0, math.Pi*6*3 + ring(12+2*wall, 6), 6 + wall},
		"inside, a ply on it":  {func() (ground.Ground, error) { return ground.OfNeckBond(n, three, true) }, 0.1, math.Pi*5.8*3 + ring(12+2*wall, 5.8), 6.1 + wall},
		"pad":                  {func() (ground.Ground, error) { return ground.OfPad(n, three, three) }, 0, ring(12, 6+2*wall), 12},
		"pad of one set on":    {func() (ground.Ground, error) { return ground.OfPad(&set, three, three) }, 0, ring(12, 6), 12},
		"set on, outside":      {func() (ground.Ground, error) { return ground.OfNeckBond(&set, three, false) }, 0, math.Pi*(6+2*wall)*3 + ring(12+2*wall, 6+2*wall), 6},
		"set on, inside":       {func() (ground.Ground, error) { return ground.OfNeckBond(&set, three, true) }, 0, math.Pi*6*3 + ring(12, 6), 6},
	} {
		g, err := c.of()
		if err != nil {
			t.Fatal(name, err)
		}
		if got, err := g.Area(0, c.z*0.0254); err != nil || math.Abs(got/0.0254/0.0254/c.in2-1) > 1e-9 || math.Abs(g.Across(0, c.z*0.0254)/0.0254-c.wide) > 1e-9 {
			t.Errorf("%s: %g in² and %g in wide, want %g and %g (%v)", name, got/0.0254/0.0254, g.Across(0, c.z*0.0254)/0.0254, c.in2, c.wide, err)
		}
	}
	if g, err = ground.OfNeck(n); err != nil {
		t.Fatal(err)
	}
	if got, _ := g.Area(0, 0); math.Abs(got/(math.Pi*6*8*0.0254*0.0254)-1) > 1e-9 {
		t.Errorf("neck: %g m²", got)
	}

	// The widths of a strap on parts without a diameter are known all the same.
	j.Parts[0].InsideDiameter = quantity.Length{}
	if g, err = ground.OfStrap(j, x, three, lib); err == nil || !strings.Contains(err.Error(), "inside_diameter") || g.Across == nil {
		t.Errorf("strap on parts without a diameter: %v", err)
	}
	for key, of := range map[string]func() error{
		"first_width":  func() error { _, err := ground.OfStrap(j, &laminate.Joint{Width: inch(8)}, three, lib); return err },
		"inside_width": func() error { _, err := ground.OfSeal(j, &laminate.Joint{}, lib); return err },
		"pad_diameter": func() error { _, err := ground.OfPad(&laminate.Nozzle{Size: inch(6)}, three, nil); return err },
		"neck_bond":    func() error { _, err := ground.OfNeckBond(&laminate.Nozzle{Size: inch(6)}, nil, false); return err },
		"projection":   func() error { _, err := ground.OfNeck(&laminate.Nozzle{Size: inch(6)}); return err },
	} {
		if err := of(); err == nil || !strings.Contains(err.Error(), key) {
			t.Errorf("without %s: %v", key, err)
		}
	}
}

// The corner by Pappus, outside on its wall: a quarter circle turned about the axis, the
// wall above and the ring of bottom inside it.
func TestOfKnuckle_isTheCornerUpTheWallAndIn(t *testing.T) {
	p := &laminate.Part{Form: laminate.FlatBottom, InsideDiameter: m(3)}
	p.KnuckleRadius, p.KnuckleHeight = m(0.04), m(0.3)
	g, err := ground.OfKnuckle(p, 0.01)
	if err != nil {
		t.Fatal(err)
	}
	const r, center, up, h, corner = 1.5 + 0.012, 1.5 - 0.04, 0.3 - 0.04, 0.3, 0.04 + 0.012
	want := 2*math.Pi*r*up + math.Pi/2*corner*2*math.Pi*(center+2*corner/math.Pi) + math.Pi*(center*center-(1.5-h)*(1.5-h))
	if got, err := g.Area(0, 0.002); err != nil || math.Abs(got-want) > 1e-9 {
		t.Errorf("%v m², by Pappus %v (%v)", got, want, err)
	}
	p.KnuckleHeight = m(0.03)
	if _, err := ground.OfKnuckle(p, 0); err == nil {
		t.Error("a reinforcement that ends in its own knuckle is taken")
	}
	for name, bare := range map[string]laminate.Part{"inside_diameter": {}, "knuckle_radius": {InsideDiameter: m(3)}} {
		if _, err := ground.OfKnuckle(&bare, 0); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What a wall stands on between straps is a ring at each strapped end too (ASME VIII UG-28,
// from memory: a strap is no line of support).
func TestRingsSaid_countsOneAtEachStrap(t *testing.T) {
	p := &laminate.Part{Form: laminate.Duct, Length: quantity.New(15, quantity.Foot), StiffenerSpacing: quantity.New(22.5, quantity.Inch)}
	for ringed, want := range map[string]string{"": "7 of them between its ends, and what holds its ends round;", "E1 and E2": "7 of them between its ends, and one at each end that is joined to E1 and E2, for a strap holds nothing round;"} {
		if p.Place.Free.Ringed = ringed; !strings.Contains(ground.RingsSaid(p, quantity.US), want) {
			t.Errorf("%q: %s", ringed, ground.RingsSaid(p, quantity.US))
		}
	}
}
