package winding_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/winding"
)

var band = winding.Band{Tows: 8, TowMass: 2200e-6, Width: 0.06}

func TestWind_agreesWithArithmetic(t *testing.T) {
	var f struct {
		published.Head
		Rel   float64 `json:"relative_tolerance"`
		Cases []struct {
			Name     string  `json:"name"`
			Tows     int     `json:"tows"`
			Tex      float64 `json:"tex"`
			Width    float64 `json:"width_mm"`
			Diameter float64 `json:"diameter_mm"`
			Angle    float64 `json:"angle_deg"`
			Lead     float64 `json:"lead_mm"`
			Exact    float64 `json:"circuits_exact"`
			Circuits int     `json:"circuits"`
			Overlap  float64 `json:"overlap_mm"`
			One      float64 `json:"one_layer_g_m2"`
			Laid     float64 `json:"laid_layer_g_m2"`
			Layers   int     `json:"layers"`
		} `json:"cases"`
	}
	published.Load(t, "winding/band-by-hand.json", &f)
	for _, c := range f.Cases {
		t.Run(c.Name, func(t *testing.T) {
			b := winding.Band{Tows: c.Tows, TowMass: c.Tex * 1e-6, Width: c.Width / 1e3}
			p, err := winding.Wind(b, c.Diameter/1e3, c.Angle)
			if err != nil {
				t.Fatal(err)
			}
			published.Near(t, "lead", p.Lead*1e3, c.Lead, f.Rel*c.Lead)
			published.Near(t, "circuits before rounding", p.CircuitsExact, c.Exact, f.Rel*c.Exact)
			published.Near(t, "overlap", p.Overlap*1e3, c.Overlap, f.Rel*c.Overlap)
			published.Near(t, "layer", p.LayerMass*1e3, c.One, f.Rel*c.One)
			published.Near(t, "layer as laid", p.LaidMass*1e3, c.Laid, f.Rel*c.Laid)
			published.Near(t, "cover", p.CoverMass*1e3, c.One*float64(c.Layers), f.Rel*c.One*2)
			published.Near(t, "cover as laid", p.LaidCover*1e3, c.Laid*float64(c.Layers), f.Rel*c.Laid*2)
			if p.Circuits != c.Circuits || p.Layers != c.Layers {
				t.Errorf("%d circuits, %d layers, want %d and %d", p.Circuits, p.Layers, c.Circuits, c.Layers)
			}
			if w, err := b.ArealMass(); err != nil || w != p.LayerMass {
				t.Errorf("areal mass %g, %v; the pattern says %g", w, err, p.LayerMass)
			}
		})
	}
}

func TestNetting_agreesWithPublishedAngles(t *testing.T) {
	var f struct {
		published.Head
		Tol   float64 `json:"angle_tolerance_deg"`
		Cases []struct {
			Ratio float64 `json:"hoop_to_axial"`
			Angle float64 `json:"angle_deg"`
		} `json:"cases"`
	}
	published.Load(t, "winding/grove-1999.json", &f)
	for _, c := range f.Cases {
		angle, err := winding.NettingAngle(c.Ratio)
		if err != nil {
			t.Fatal(err)
		}
		published.Near(t, "angle", angle, c.Angle, f.Tol)
		ratio, err := winding.NettingRatio(angle)
		if err != nil {
			t.Fatal(err)
		}
		published.Near(t, "ratio", ratio, c.Ratio, 1e-12)
	}
}

func TestLay_agreesWithPublishedThickness(t *testing.T) {
	var f struct {
		published.Head
		Cases []struct {
			Name      string  `json:"name"`
			W         float64 `json:"areal_mass_g_m2"`
			Fiber     float64 `json:"fiber_density"`
			Content   float64 `json:"fiber_content"`
			Binder    float64 `json:"binder_density"`
			Thickness float64 `json:"thickness_mm"`
			Tol       float64 `json:"tolerance_mm"`
			Vf        float64 `json:"fiber_volume_fraction"`
			Mass      float64 `json:"ply_mass_g_m2"`
		} `json:"cases"`
	}
	published.Load(t, "winding/ply-thickness.json", &f)
	for _, c := range f.Cases {
		t.Run(c.Name, func(t *testing.T) {
			b := winding.Binder{FiberDensity: c.Fiber, Density: c.Binder, FiberContent: c.Content}
			got, err := b.Lay(c.W / 1e3)
			if err != nil {
				t.Fatal(err)
			}
			published.Near(t, "thickness in mm", got.Thickness*1e3, c.Thickness, c.Tol)
			published.Near(t, "fiber content", c.W/1e3/got.PlyMass, c.Content, 1e-12)
			if c.Mass != 0 {
				published.Near(t, "ply mass", got.PlyMass*1e3, c.Mass, 1e-3)
				published.Near(t, "fiber volume fraction", got.FiberVolume, c.Vf, 1e-6)
			}
			b.Voids = 0.02
			void, err := b.Lay(c.W / 1e3)
			if err != nil {
				t.Fatal(err)
			}
			published.Near(t, "thickness with 2 % voids", void.Thickness, got.Thickness/0.98, 1e-12)
		})
	}
}

// A cover meant to close exactly closes exactly, in spite of rounding.
func TestWind_exactClosureGainsNoCircuit(t *testing.T) {
	for n := 1; n <= 200; n++ {
		for _, angle := range []float64{10, 30, 54.7, 60, 75} {
			b := band
			b.Width = math.Pi * 0.5 * math.Cos(angle*math.Pi/180) / float64(n)
			p, err := winding.Wind(b, 0.5, angle)
			if err != nil {
				t.Fatal(err)
			}
			if p.Circuits != n || p.Overlap > 1e-12 {
				t.Fatalf("%d bands at %g°: %d circuits, overlap %g", n, angle, p.Circuits, p.Overlap)
			}
		}
	}
}

func TestWind_properties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := winding.Band{
			Tows:    rapid.IntRange(1, 200).Draw(t, "tows"),
			TowMass: rapid.Float64Range(100e-6, 10e-3).Draw(t, "tow"),
			Width:   rapid.Float64Range(1e-3, 0.3).Draw(t, "width"),
		}
		d := rapid.Float64Range(0.1, 5).Draw(t, "diameter")
		angle := rapid.Float64Range(0, 90).Draw(t, "angle")
		p, err := winding.Wind(b, d, angle)
		if err != nil {
			t.Fatal(err)
		}
		if p.Circuits < 1 || p.Overlap < 0 || p.OverlapShare > 1 {
			t.Fatalf("%+v", p)
		}
		// As many bands as said reach once round the circumference, and one
		// fewer would not.
		across := math.Pi * d * math.Cos(p.Angle*math.Pi/180)
		if covered := float64(p.Circuits) * (b.Width - p.Overlap); math.Abs(covered-across) > 1e-8*(across+b.Width) {
			t.Fatalf("bands reach %g of %g: %+v", covered, across, p)
		}
		if p.Circuits > 1 && float64(p.Circuits-1)*b.Width >= across*(1-1e-9) {
			t.Fatalf("a circuit too many: %+v", p)
		}
		// What is laid weighs as much as the band that was pulled off.
		pulled := p.BandLength * float64(b.Tows) * b.TowMass / (math.Pi * d)
		if math.Abs(pulled-p.LaidCover) > 1e-9*p.LaidCover {
			t.Fatalf("pulled %g, laid %g", pulled, p.LaidCover)
		}
		for _, v := range []float64{p.Angle, p.Lead, p.CircuitsExact, p.Overlap, p.OverlapShare, p.ClosingWidth, p.LayerMass, p.LaidMass, p.CoverMass, p.LaidCover, p.BandLength} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("not a number: %+v", p)
			}
		}
	})
}

func TestWind_ends(t *testing.T) {
	along, err := winding.Wind(band, 0.6, 0)
	if err != nil {
		t.Fatal(err)
	}
	if !along.Endless || along.Lead != 0 || along.Layers != 1 || along.Circuits != 32 {
		t.Errorf("along the axis: %+v", along)
	}
	round, err := winding.Wind(band, 0.6, 90)
	if err != nil {
		t.Fatal(err)
	}
	if !round.Stepped || round.Circuits != 1 || round.Overlap != 0 || round.Layers != 1 || round.LaidMass != round.LayerMass {
		t.Errorf("round: %+v", round)
	}
	// A step of one width across the band is width over sin α along the axis.
	published.Near(t, "lead", round.Lead, band.Width/math.Sin(round.Angle*math.Pi/180), 1e-12)
	if !(round.Angle > 88 && round.Angle < 90) {
		t.Errorf("angle laid %g", round.Angle)
	}
	nearly, err := winding.Wind(band, 0.6, math.Nextafter(90, 0))
	if err != nil {
		t.Fatal(err)
	}
	if nearly.Stepped || nearly.OverlapShare < 0.999 || math.IsInf(nearly.LaidMass, 0) {
		t.Errorf("all but round: %+v", nearly)
	}
}

func TestCoverLayers(t *testing.T) {
	for _, c := range []struct {
		angle float64
		want  int
	}{{0, 1}, {0.1, 2}, {54.7, 2}, {84.99, 2}, {85, 1}, {90, 1}} {
		got, err := winding.CoverLayers(c.angle)
		if err != nil || got != c.want {
			t.Errorf("at %g°: %d, %v, want %d", c.angle, got, err, c.want)
		}
	}
}

func TestLead_infiniteIsSaid(t *testing.T) {
	for _, a := range []float64{0, 1e-300, 1e-14} {
		if _, err := winding.Lead(0.6, a); !errors.Is(err, winding.ErrEndless) {
			t.Errorf("at %g°: %v", a, err)
		}
	}
	if _, err := winding.NettingRatio(90); !errors.Is(err, winding.ErrHoopOnly) {
		t.Errorf("ratio at 90°: %v", err)
	}
	got, err := winding.Lead(0.6, 45)
	if err != nil {
		t.Fatal(err)
	}
	published.Near(t, "lead at 45°", got, math.Pi*0.6, 1e-12)
	if got, err = winding.Lead(0.6, 90); err != nil || got != 0 {
		t.Errorf("lead at 90°: %g, %v", got, err)
	}
}

func TestWhatIf_rows(t *testing.T) {
	angles := []float64{0, 45, 54.7356, 65, 90}
	rows, err := winding.WhatIf(band, 0.6, angles, nil)
	if err != nil {
		t.Fatal(err)
	}
	want := []float64{0, 1, 2, 4.5989, 0} // tan², from a table; the last is infinite
	for i, r := range rows {
		published.Near(t, "ratio", r.Ratio, want[i], 1e-4)
		if r.Asked != angles[i] || r.HoopOnly != (angles[i] == 90) {
			t.Errorf("row %d: %+v", i, r)
		}
	}
	if rows[1].Circuits <= rows[3].Circuits {
		t.Errorf("a steeper band needs fewer circuits: %d at 45°, %d at 65°", rows[1].Circuits, rows[3].Circuits)
	}
	again := testing.AllocsPerRun(10, func() { rows, err = winding.WhatIf(band, 0.6, angles, rows) })
	if err != nil || again != 0 {
		t.Errorf("into the same rows: %v allocations, %v", again, err)
	}
	if _, err := winding.WhatIf(band, 0.6, []float64{45, 91}, nil); !errors.Is(err, winding.ErrDomain) {
		t.Errorf("91°: %v", err)
	}
}

func TestBadInput_isRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	refused := func(what string, err error, say string) {
		t.Helper()
		if !errors.Is(err, winding.ErrDomain) || !strings.Contains(err.Error(), say) {
			t.Errorf("%s: error %v, want one about the domain saying %q", what, err, say)
		}
	}
	for _, a := range []float64{-1, 90.001, 180, nan, inf, -inf} {
		_, err := winding.Wind(band, 0.6, a)
		refused("angle", err, "winding angle")
		_, err = winding.Lead(0.6, a)
		refused("lead", err, "winding angle")
		_, err = winding.NettingRatio(a)
		refused("ratio", err, "winding angle")
		_, err = winding.CoverLayers(a)
		refused("layers", err, "winding angle")
	}
	for _, v := range []float64{0, -1, nan, inf, 1e300} {
		_, err := winding.Wind(band, v, 45)
		refused("diameter", err, "diameter")
		_, err = winding.Lead(v, 45)
		refused("diameter", err, "diameter")
		b := band
		b.Width = v
		_, err = winding.Wind(b, 0.6, 45)
		refused("width", err, "band width")
		b = band
		b.TowMass = v
		_, err = b.ArealMass()
		refused("tow", err, "mass of a tow")
		good := winding.Binder{FiberDensity: 2620, Density: 1150, FiberContent: 0.7}
		_, err = good.Lay(v)
		refused("areal mass", err, "areal mass")
		bad := good
		bad.FiberDensity = v
		_, err = bad.Lay(1)
		refused("fiber density", err, "fiber density")
		bad = good
		bad.Density = v
		_, err = bad.Lay(1)
		refused("binder density", err, "density of the resin mix")
		bad = good
		bad.FiberContent = v
		_, err = bad.Lay(1)
		refused("fiber content", err, "fiber content")
		if v != 0 {
			bad = good
			bad.Voids = v
			_, err = bad.Lay(1)
			refused("voids", err, "voids")
		}
	}
	for _, v := range []float64{-1, nan, inf} {
		_, err := winding.NettingAngle(v)
		refused("ratio", err, "hoop to axial ratio")
	}
	for _, n := range []int{0, -3, 2_000_000} {
		b := band
		b.Tows = n
		_, err := winding.Wind(b, 0.6, 45)
		refused("tows", err, "number of tows")
	}
	wide := band
	wide.Width = 2
	if _, err := winding.Wind(wide, 0.6, 45); !errors.Is(err, winding.ErrTooWide) {
		t.Errorf("band wider than the mandrel: %v", err)
	}
}
