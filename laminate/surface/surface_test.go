package surface_test

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/surface"
)

func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.8g, want %.8g", what, got, want)
	}
}

func TestAreas_agreeWithTheCheckValues(t *testing.T) {
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "surface", "areas.json"))
	if err != nil {
		t.Fatal(err)
	}
	var f struct {
		Source string  `json:"source"`
		Rel    float64 `json:"relative_tolerance"`
		Heads  []struct {
			Name      string  `json:"name"`
			Diameter  float64 `json:"diameter"`
			Deep      float64 `json:"deep"`
			Crown     float64 `json:"crown"`
			Knuckle   float64 `json:"knuckle"`
			HalfAngle float64 `json:"half_angle_deg"`
			Area      float64 `json:"area"`
			Depth     float64 `json:"depth"`
			Volume    float64 `json:"volume"`
		} `json:"heads"`
		Bottom struct{ Radius, Knuckle, Area, Disc float64 } `json:"knuckled_bottom_in"`
		Ring   struct{ Outside, Inside, Area float64 }       `json:"flange_ring_in"`
		Elbow  struct {
			Diameter float64 `json:"diameter"`
			Bend     float64 `json:"bend"`
			Turn     float64 `json:"turn_deg"`
			Area     float64 `json:"area"`
		} `json:"elbow_in"`
		Miters []struct {
			Joints    int     `json:"joints"`
			HalfAngle float64 `json:"half_angle_deg"`
			Centre    float64 `json:"centre"`
			Area      float64 `json:"area"`
			Seam      float64 `json:"seam"`
		} `json:"miters_in"`
	}
	if err := json.Unmarshal(b, &f); err != nil || f.Source == "" {
		t.Fatal(err)
	}
	for _, c := range f.Heads {
		var h surface.Head
		switch {
		case c.Crown > 0:
			h, err = surface.Torisphere(c.Diameter, c.Crown, c.Knuckle)
		case c.Deep > 0:
			h, err = surface.Ellipsoid(c.Diameter/2, c.Deep)
		case c.HalfAngle > 0:
			h, err = surface.Frustum(c.Diameter/2, 0, c.HalfAngle*math.Pi/180)
		default:
			h, err = surface.Hemisphere(c.Diameter / 2)
		}
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.Name+": area", h.Area, c.Area, f.Rel)
		near(t, c.Name+": depth", h.Depth, c.Depth, 5e-5)
		near(t, c.Name+": volume", h.Volume, c.Volume, 5e-5)
	}
	area, _ := surface.KnuckledBottom(f.Bottom.Radius, f.Bottom.Knuckle)
	near(t, "knuckled bottom", area, f.Bottom.Area, 1e-5)
	area, _ = surface.KnuckledBottom(f.Bottom.Radius, 0)
	near(t, "disc", area, f.Bottom.Disc, 1e-5)
	area, _ = surface.Ring(f.Ring.Outside, f.Ring.Inside)
	near(t, "flange ring", area, f.Ring.Area, 1e-3)
	turn := f.Elbow.Turn * math.Pi / 180
	area, _ = surface.Elbow(f.Elbow.Diameter/2, f.Elbow.Bend, turn)
	near(t, "elbow", area, f.Elbow.Area, 1e-4)
	for _, c := range f.Miters {
		m, err := surface.Mitered(f.Elbow.Diameter, f.Elbow.Bend, turn, c.Joints)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "half-angle", m.HalfAngle*180/math.Pi, c.HalfAngle, 1e-9)
		near(t, "centre line", m.Centre, c.Centre, 1e-4)
		near(t, "mitered area", m.Area, c.Area, 2e-4)
		near(t, "seam", m.Seam, c.Seam, 1e-3)
	}
}

// A surface of revolution is integrated along its meridian.
func integrated(rim, depth float64, radius func(z float64) float64) (area, volume float64) {
	const n = 400_000
	// Even steps of the angle crowd the points where the meridian runs flat.
	at := func(i int) float64 { return depth * math.Sin(float64(i)/n*math.Pi/2) }
	x, z := rim, 0.0
	for i := 1; i <= n; i++ {
		z1 := at(i)
		x1 := radius(z1)
		area += math.Pi * (x + x1) * math.Hypot(x1-x, z1-z)
		volume += math.Pi / 3 * (x*x + x*x1 + x1*x1) * (z1 - z)
		x, z = x1, z1
	}
	return area, volume
}

func TestTorisphere_isTheIntegralOfItsMeridian(t *testing.T) {
	for _, c := range []struct{ l, r float64 }{{1, 0.06}, {1, 0.1}, {0.8, 0.154}, {0.6, 0.3}} {
		h, err := surface.Torisphere(1, c.l, c.r)
		if err != nil {
			t.Fatal(err)
		}
		inner := 0.5 - c.r
		phi := math.Asin(inner / (c.l - c.r))
		area, volume := integrated(0.5, h.Depth, func(z float64) float64 {
			if z < c.r*math.Cos(phi) {
				return inner + math.Sqrt(math.Max(0, c.r*c.r-z*z))
			}
			up := z + c.l - h.Depth
			return math.Sqrt(math.Max(0, c.l*c.l-up*up))
		})
		near(t, "area", h.Area, area, 1e-6)
		near(t, "volume", h.Volume, volume, 1e-6)
	}
}

func TestHeads_ofASphereAreTheHemisphere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(0.01, 50).Draw(t, "radius")
		want, _ := surface.Hemisphere(r)
		for _, make := range []func() (surface.Head, error){
			func() (surface.Head, error) { return surface.Ellipsoid(r, r) },
			func() (surface.Head, error) { return surface.Torisphere(2*r, r, r*(1-1e-9)) },
		} {
			got, err := make()
			if err != nil {
				t.Fatal(err)
			}
			near(t, "area", got.Area, want.Area, 1e-6)
			near(t, "depth", got.Depth, want.Depth, 1e-6)
			near(t, "volume", got.Volume, want.Volume, 1e-6)
		}
	})
}

func TestSurfaces_thatAreNoneAreErrorsAndNeverNaN(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.OneOf(rapid.Float64Range(-1, 3), rapid.Float64(), rapid.Just(0.0), rapid.Just(math.NaN()), rapid.Just(math.Inf(1)))
		a, b, c := x.Draw(t, "a"), x.Draw(t, "b"), x.Draw(t, "c")
		check := func(v float64, err error) {
			if err != nil && !errors.Is(err, surface.ErrShape) {
				t.Fatalf("%v is not ErrShape", err)
			}
			if math.IsNaN(v) || math.IsInf(v, 0) || err == nil && v <= 0 {
				t.Fatalf("%v (%v) of %v %v %v", v, err, a, b, c)
			}
		}
		head := func(h surface.Head, err error) { check(h.Area, err); check(h.Volume+h.Depth, err) }
		check(surface.Cylinder(a, b))
		check(surface.Ring(a, b))
		head(surface.Hemisphere(a))
		head(surface.Ellipsoid(a, b))
		head(surface.Torisphere(a, b, c))
		head(surface.Frustum(a, b, c))
		check(surface.KnuckledBottom(a, b))
		check(surface.Elbow(a, b, c))
		m, err := surface.Mitered(a, b, c, rapid.IntRange(-1, 4).Draw(t, "joints"))
		check(m.Area, err)
	})
}

// What a profile encloses, 2π ∫ x z dx, is the volume of the closed form, and its
// top the depth: integrated here (Simpson's rule), so that neither is checked by
// itself.
func TestProfiles_encloseTheVolume(t *testing.T) {
	must := func(h surface.Head, err error) surface.Head {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return h
	}
	for _, c := range []struct {
		name   string
		head   surface.Head
		radius float64
		corner float64 // where the profile has a bend
		at     func(x float64) float64
	}{
		{"2:1 ellipsoid", must(surface.Ellipsoid(1.5, 0.75)), 1.5, 0.75, func(x float64) float64 { return surface.EllipsoidAt(1.5, 0.75, x) }},
		{"flat ellipsoid", must(surface.Ellipsoid(2, 0.4)), 2, 1, func(x float64) float64 { return surface.EllipsoidAt(2, 0.4, x) }},
		{"torisphere of 6 %", must(surface.Torisphere(3, 3, 0.18)), 1.5, surface.CrownRim(3, 3, 0.18), func(x float64) float64 { return surface.TorisphereAt(3, 3, 0.18, x) }},
		{"torisphere of 10 %", must(surface.Torisphere(3, 2.4, 0.3)), 1.5, surface.CrownRim(3, 2.4, 0.3), func(x float64) float64 { return surface.TorisphereAt(3, 2.4, 0.3, x) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			volume := 0.0
			// x = edge − w s², so that the upright end at the rim does no harm
			for _, of := range [][2]float64{{0, c.corner}, {c.corner, c.radius}} {
				const n = 4000
				wide := of[1] - of[0]
				for k := 0; k <= n; k++ {
					s := float64(k) / n
					x := of[1] - wide*s*s
					weight := []float64{2, 4}[k%2]
					if k == 0 || k == n {
						weight = 1
					}
					volume += weight / (3 * n) * 2 * math.Pi * x * c.at(math.Min(x, c.radius)) * 2 * wide * s
				}
			}
			if math.Abs(volume-c.head.Volume) > 1e-7*c.head.Volume {
				t.Errorf("encloses %.9g m³, the closed form %.9g", volume, c.head.Volume)
			}
			if got := c.at(0); math.Abs(got-c.head.Depth) > 1e-12 {
				t.Errorf("%.12g m high in the middle, the depth is %.12g", got, c.head.Depth)
			}
			if got := c.at(c.radius); math.Abs(got) > 1e-7 {
				t.Errorf("%.12g m high at the rim", got)
			}
			if low, high := c.at(c.corner*(1+1e-9)), c.at(c.corner*(1-1e-9)); math.Abs(low-high) > 1e-6 {
				t.Errorf("a step from %g to %g m where crown and knuckle meet", high, low)
			}
		})
	}
}
