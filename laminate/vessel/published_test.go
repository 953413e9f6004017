package vessel_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/surface"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/wall/shell"
)

func inch(v float64) float64 { return quantity.New(v, quantity.Inch).SI() }
func psi(v float64) float64  { return quantity.New(v, quantity.PSI).SI() }
func pounds(v float64) float64 {
	return quantity.New(v, quantity.PoundPerInch).SI() * inch(1)
}
func deg(v float64) float64 { return v * math.Pi / 180 }

func TestHeads_agreeWithTheShapeFactorsOfTheCodes(t *testing.T) {
	var f struct {
		published.Head
		M []struct{ Crown, Knuckle, Want float64 }  `json:"m"`
		K []struct{ Diameter, Depth, Want float64 } `json:"k"`
		P float64                                   `json:"pressure_psi"`
		D float64                                   `json:"diameter_in"`
		S float64                                   `json:"strength_psi"`
		F float64                                   `json:"factor"`

		Hemisphere float64 `json:"hemisphere_in"`
		Ellipsoid  float64 `json:"ellipsoid_in"`
		Torisphere float64 `json:"torisphere_in"`
		Cone       float64 `json:"cone_60_in"`
		Point      struct {
			Force    float64 `json:"force_lb"`
			Radius   float64 `json:"radius_in"`
			E        float64 `json:"e_psi"`
			T        float64 `json:"t_in"`
			Nu       float64 `json:"nu"`
			Want     float64 `json:"want_in"`
			Constant float64 `json:"constant"`
		} `json:"point"`
	}
	published.Load(t, "vessel/heads.json", &f)
	for _, c := range f.M {
		published.Near(t, "M", vessel.TorisphereM(c.Crown, c.Knuckle), c.Want, 6e-5*10)
	}
	for _, c := range f.K {
		k, ok := vessel.Ellipsoid(c.Diameter, c.Depth)
		if !ok {
			t.Error("no factor")
		}
		published.Near(t, "K", k, c.Want, 1e-9)
	}
	thick := func(factor float64) float64 { return factor * f.P * f.D / (2 * f.S / f.F) }
	ellipsoid, _ := vessel.Ellipsoid(f.D, f.D/4)
	torisphere, _ := vessel.Torisphere(f.D, f.D, 0.06*f.D)
	cone, usable := vessel.Cone(deg(60))
	if usable {
		t.Error("a cone of 60° needs a knuckle of its own")
	}
	published.Near(t, "hemisphere", thick(vessel.Hemisphere), f.Hemisphere, 1e-9)
	published.Near(t, "2:1", thick(ellipsoid), f.Ellipsoid, 1e-9)
	published.Near(t, "6 %", thick(torisphere), f.Torisphere, 5e-4)
	published.Near(t, "cone", thick(cone), f.Cone, 1e-9)
	p := &f.Point
	got, _ := vessel.PointLoad(pounds(p.Force), inch(p.Radius), psi(p.E), p.Nu, inch(p.T))
	published.Near(t, "point load", got/inch(1), p.Want, 5e-4)
	one, _ := vessel.PointLoad(1, 1, 1, p.Nu, 1)
	published.Near(t, "its constant", one, p.Constant, 5e-5)
}

func TestOutside_agreesWithTheStandards(t *testing.T) {
	var f struct {
		published.Head
		Dome struct {
			T      float64 `json:"t_in"`
			Radius float64 `json:"radius_in"`
			E      float64 `json:"e_psi"`
			Want   float64 `json:"want_psi"`
			Share  float64 `json:"share_of_classical"`
		} `json:"dome"`
		Crown float64 `json:"crown_of_2_to_1"`
		Cone  struct {
			Half   float64 `json:"half_angle_deg"`
			Large  float64 `json:"large_in"`
			Small  float64 `json:"small_in"`
			T      float64 `json:"t_in"`
			E      float64 `json:"e_psi"`
			Length float64 `json:"length_in"`
			Wall   float64 `json:"wall_in"`
			Free   float64 `json:"free_in"`
			Want   float64 `json:"want_psi"`
		} `json:"cone"`
	}
	published.Load(t, "vessel/outside.json", &f)
	d := &f.Dome
	got, _ := vessel.Dome(psi(d.E), inch(d.T), inch(d.Radius))
	published.Near(t, "dome", got/psi(1), d.Want, 5e-5)
	classical, _ := vessel.ClassicalSphere(psi(d.E), 0.3, inch(d.T), inch(d.Radius))
	published.Near(t, "share of the classical sphere", got*vessel.DomeSafety/classical, d.Share, 5e-4)
	crown, _ := vessel.EllipsoidCrown(4, 1)
	published.Near(t, "crown of 2:1", crown, f.Crown, 1e-9)
	c := &f.Cone
	length := (inch(c.Large) - inch(c.Small)) / 2 / math.Tan(deg(c.Half))
	published.Near(t, "cone's length", length/inch(1), c.Length, 6e-3)
	wall, free, _ := vessel.ConeAsCylinder(inch(c.T), deg(c.Half), length, inch(c.Small), inch(c.Large))
	published.Near(t, "cone's wall", wall/inch(1), c.Wall, 6e-5)
	published.Near(t, "cone's free length", free/inch(1), c.Free, 6e-3)
	p, _ := shell.Collapse(psi(c.E), 0.3, wall, inch(c.Large), free)
	published.Near(t, "cone", p/shell.CollapseSafety/psi(1), c.Want, 1e-3)
}

func TestFlanges_agreeWithHandbooksAndHandCalculation(t *testing.T) {
	var f struct {
		published.Head
		P    float64 `json:"pressure_psi"`
		Rows []struct {
			Size    float64 `json:"size_in"`
			Outside float64 `json:"outside_in"`
			Circle  float64 `json:"circle_in"`
			Bolts   int     `json:"bolts"`
			Bolt    float64 `json:"bolt_in"`
			Bore    float64 `json:"bore_lb"`
			Least   float64 `json:"least_lb"`
			Most    float64 `json:"most_lb"`
			LeastT  float64 `json:"least_ft_lb"`
			MostT   float64 `json:"most_ft_lb"`
		} `json:"rows"`
		Large struct {
			Size    float64 `json:"size_in"`
			Outside float64 `json:"outside_in"`
			Circle  float64 `json:"circle_in"`
			Bolts   int     `json:"bolts"`
			Bolt    float64 `json:"bolt_in"`
		} `json:"large"`
	}
	published.Load(t, "vessel/flanges.json", &f)
	footPound := quantity.New(1, quantity.FootPound).SI()
	for _, r := range f.Rows {
		d, ok := vessel.Class150(inch(r.Size))
		if !ok || d.Bolts != r.Bolts {
			t.Fatalf("%v in: %+v", r.Size, d)
		}
		published.Near(t, "outside", d.Outside/inch(1), r.Outside, 1e-9)
		published.Near(t, "circle", d.Circle/inch(1), r.Circle, 1e-9)
		published.Near(t, "bolt", d.Bolt/inch(1), r.Bolt, 1e-9)
		bored, circle, _ := vessel.BoltForces(psi(f.P), inch(r.Size), d)
		published.Near(t, "end force", bored*float64(d.Bolts)/pounds(1), r.Bore, 0.5)
		published.Near(t, "least force", bored/pounds(1), r.Least, 0.5)
		published.Near(t, "most force", circle/pounds(1), r.Most, 0.5)
		published.Near(t, "least torque", vessel.Torque(bored, d.Bolt, vessel.DryBolt)/footPound, r.LeastT, 0.051)
		published.Near(t, "most torque", vessel.Torque(circle, d.Bolt, vessel.DryBolt)/footPound, r.MostT, 0.051)
	}
	d, ok := vessel.Class125(inch(f.Large.Size))
	if !ok || d.Bolts != f.Large.Bolts || math.Abs(d.Circle-inch(f.Large.Circle)) > 1e-9 || math.Abs(d.Bolt-inch(f.Large.Bolt)) > 1e-9 || math.Abs(d.Outside-inch(f.Large.Outside)) > 1e-9 {
		t.Errorf("%+v", d)
	}
	// 8 in are DN 200, 3 in DN 80, and no other.
	for mm, size := range map[float64]float64{200: 8, 80: 3, 600: 24, 25: 1, 40: 1.5} {
		a, ok := vessel.Class150(mm / 1000)
		if b, _ := vessel.Class150(inch(size)); !ok || a != b {
			t.Errorf("DN %g: %+v, %v", mm, a, ok)
		}
	}
	for _, mm := range []float64{75, 90, 190, 700} {
		if d, ok := vessel.Class150(mm / 1000); ok {
			t.Errorf("%g mm: %+v", mm, d)
		}
	}
	if _, ok := vessel.Class150(inch(7)); ok {
		t.Error("there is no 7 in flange")
	}
}

func TestElbows_agreeWithLorenzAndGeometry(t *testing.T) {
	var f struct {
		published.Head
		Factors []struct{ Bend, Inside, Outside float64 } `json:"factors"`
		Miters  []struct {
			Joints int     `json:"joints"`
			Half   float64 `json:"half_deg"`
			Length float64 `json:"length_in"`
		} `json:"miters"`
		D    float64 `json:"diameter_in"`
		Bend float64 `json:"bend_in"`
		Turn float64 `json:"turn_deg"`
	}
	published.Load(t, "vessel/elbows.json", &f)
	for _, c := range f.Factors {
		in, out, ok := vessel.Elbow(c.Bend, 1)
		if !ok {
			t.Error("no factors")
		}
		published.Near(t, "inside", in, c.Inside, 1e-9)
		published.Near(t, "outside", out, c.Outside, 5e-4)
	}
	for _, c := range f.Miters {
		half, length, _ := vessel.Miter(deg(f.Turn), inch(f.Bend), c.Joints)
		published.Near(t, "half-angle", half, deg(c.Half), 1e-12)
		published.Near(t, "center line", length/inch(1), c.Length, 6e-3)
	}
}

func TestCourses_agreeWithTheStandardsWall(t *testing.T) {
	var f struct {
		published.Head
		Weight  float64 `json:"weight_lb_in3"`
		Gravity float64 `json:"gravity"`
		D       float64 `json:"diameter_in"`
		Liquid  float64 `json:"liquid_in"`
		E       float64 `json:"e_psi"`
		Strain  float64 `json:"strain"`
		Per     float64 `json:"per_head"`
		Walls   []struct {
			Height float64 `json:"height_in"`
			Want   float64 `json:"want_in"`
		} `json:"walls"`
		Least      float64   `json:"least_wall_in"`
		Above      float64   `json:"least_above_in"`
		Base       float64   `json:"base_in"`
		Unit       float64   `json:"unit_in"`
		Boundaries []float64 `json:"boundaries_in"`
		Served     float64   `json:"served_in"`
		Taper      float64   `json:"taper_in"`
		UnitMass   float64   `json:"unit_kg_m2"`
		Areas      []float64 `json:"areas_m2"`
		Mass       float64   `json:"mass_kg"`
		Whole      float64   `json:"whole_height_kg"`
	}
	published.Load(t, "vessel/courses.json", &f)
	k, ok := vessel.PerHead(f.Weight*f.Gravity, f.D, f.E*f.Strain)
	if !ok {
		t.Fatal("no requirement")
	}
	published.Near(t, "k", k, f.Per, 1e-9)
	for _, w := range f.Walls {
		published.Near(t, "wall", k*(f.Liquid-w.Height), w.Want, 5e-4)
	}
	above, _ := vessel.Boundary(f.Least, k, f.Liquid)
	published.Near(t, "where the least wall serves", above, f.Above, 0.05)
	// What courses are worth: a mat and a woven roving over each boundary and its taper,
	// against three of them over the whole height.
	unit := laminate.Analyze(&laminate.Schedule{Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: "r", Count: 1}, {Material: catalog.Woven24, Resin: "r", Count: 1}}}, catalog.Library()).Total
	published.Near(t, "mass of a unit", unit.Mass, f.UnitMass, 5e-4)
	mass := 0.0
	for n, want := range f.Boundaries {
		got, _ := vessel.Boundary(f.Base+float64(n)*f.Unit, k, f.Liquid)
		published.Near(t, "boundary", got, want, 6e-3)
		area, _ := surface.Cylinder(inch(f.D), inch(got+f.Taper))
		published.Near(t, "area of a course", area, f.Areas[n], 5e-3)
		mass += area * unit.Mass
	}
	published.Near(t, "mass of the courses", mass, f.Mass, 0.1)
	whole, _ := surface.Cylinder(inch(f.D), inch(f.Liquid))
	published.Near(t, "mass over the whole height", 3*whole*unit.Mass, f.Whole, 0.1)
	head, _ := vessel.ServesTo(f.Base+3*f.Unit, k)
	published.Near(t, "head served", head, f.Served, 0.05)
}
