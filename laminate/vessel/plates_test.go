package vessel_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/vessel"
)

func TestPlates_agreeWithTheTextbooks(t *testing.T) {
	var f struct {
		published.Head
		Nu    float64 `json:"nu"`
		Round struct {
			SS float64 `json:"simply_stress"`
			SD float64 `json:"simply_deflection"`
			CS float64 `json:"clamped_stress"`
			CD float64 `json:"clamped_deflection"`
			SP float64 `json:"simply_point"`
			CP float64 `json:"clamped_point"`
		} `json:"round"`
		Lid struct {
			D     float64 `json:"diameter_in"`
			Force float64 `json:"force_lb"`
			T     float64 `json:"t_in"`
			E     float64 `json:"e_psi"`
			Want  float64 `json:"deflection_in"`
			Held  float64 `json:"clamped_in"`
		} `json:"lid"`
		Cover struct {
			Circle     float64 `json:"circle_in"`
			P          float64 `json:"pressure_psi"`
			T          float64 `json:"t_in"`
			E          float64 `json:"e_psi"`
			Stress     float64 `json:"stress_psi"`
			Deflection float64 `json:"deflection_in"`
			Allowable  float64 `json:"allowable_psi"`
			Least      float64 `json:"least_in"`
		} `json:"cover"`
		Ratios []float64 `json:"ratios"`
		SD     []float64 `json:"simply_deflection"`
		SS     []float64 `json:"simply_stress"`
		CD     []float64 `json:"clamped_deflection"`
		CS     []float64 `json:"clamped_stress"`

		PointSource string    `json:"point_source"`
		SP          []float64 `json:"simply_point_alpha"`
		CP          []float64 `json:"clamped_point_alpha"`
	}
	published.Load(t, "vessel/plates.json", &f)
	simply, _ := vessel.RoundPlate(vessel.Simply, f.Nu)
	clamped, _ := vessel.RoundPlate(vessel.Clamped, f.Nu)
	published.Near(t, "stress", simply.Stress, f.Round.SS, 1e-9)
	published.Near(t, "deflection", simply.Deflection, f.Round.SD, 5e-5)
	published.Near(t, "clamped stress", clamped.Stress, f.Round.CS, 1e-9)
	published.Near(t, "clamped deflection", clamped.Deflection, f.Round.CD, 5e-5)
	published.Near(t, "force in the middle", simply.Point, f.Round.SP, 5e-5)
	published.Near(t, "clamped, force in the middle", clamped.Point, f.Round.CP, 5e-5)
	published.Near(t, "lid's deflection", simply.PointAt(f.Lid.Force, f.Lid.D/2, f.Lid.E, f.Lid.T), f.Lid.Want, 5e-3)
	published.Near(t, "clamped lid's deflection", clamped.PointAt(f.Lid.Force, f.Lid.D/2, f.Lid.E, f.Lid.T), f.Lid.Held, 5e-3)
	rigidity := 12 * (1 - f.Nu*f.Nu) // alpha is of D, the figures of E t³
	c := &f.Cover
	published.Near(t, "cover's stress", simply.StressAt(c.P, c.Circle/2, c.T), c.Stress, 1)
	published.Near(t, "cover's deflection", simply.DeflectionAt(c.P, c.Circle/2, c.E, c.T), c.Deflection, 5e-4)
	least, _ := simply.Thickness(c.P, c.Circle/2, c.Allowable)
	published.Near(t, "cover's least thickness", least, c.Least, 5e-3)
	for i, r := range f.Ratios {
		p, _ := vessel.RectanglePlate(vessel.Simply, r, 1)
		q, _ := vessel.RectanglePlate(vessel.Clamped, r, 1)
		published.Near(t, "simply supported stress", p.Stress, f.SS[i], 1e-9)
		published.Near(t, "simply supported deflection", p.Deflection, f.SD[i], 1e-9)
		// The figures again, from the plate equation.
		w, m, point := navier(r)
		published.Near(t, "simply supported, force in the middle", p.Point, rigidity*f.SP[i], 5e-4)
		published.Near(t, "Navier's deflection under a force", p.Point, point, 1e-4)
		published.Near(t, "Navier's deflection", p.Deflection, w, 1e-4)
		published.Near(t, "Navier's stress", p.Stress, m, 2e-3)
		if i < len(f.CD) {
			published.Near(t, "clamped stress", q.Stress, f.CS[i], 1e-9)
			published.Near(t, "clamped, force in the middle", q.Point, rigidity*f.CP[i], 1e-4)
			w, m, point := ritz(r)
			published.Near(t, "Ritz's deflection under a force", q.Point, point, 0.05*q.Point)
			published.Near(t, "Ritz's deflection", q.Deflection, w, 1e-4)
			published.Near(t, "Ritz's stress", q.Stress, m, 3e-3)
		}
	}
}

// navier sums the series of a simply supported plate, a by 1, of unit load and
// modulus, ν 0.3: deflection and bending stress in the middle times t², and
// deflection under a unit force there.
func navier(a float64) (deflection, stress, point float64) {
	const nu = 0.3
	d := 1 / (12 * (1 - nu*nu))
	for m := 1.0; m < 80; m += 2 {
		for n := 1.0; n < 80; n += 2 {
			k := m*m/(a*a) + n*n
			w := 16 / (math.Pi * math.Pi * m * n) / (math.Pow(math.Pi, 4) * d * k * k) * math.Sin(m*math.Pi/2) * math.Sin(n*math.Pi/2)
			deflection += w
			stress += 6 * d * math.Pi * math.Pi * w * (n*n + nu*m*m/(a*a))
		}
	}
	for m := 1.0; m < 400; m += 2 {
		for n := 1.0; n < 400; n += 2 {
			k := m*m/(a*a) + n*n
			point += 4 / (a * d * math.Pow(math.Pi, 4) * k * k)
		}
	}
	return deflection, stress, point
}

// ritz takes a clamped plate, a by 1, as a sum of products of (x² − ¼)² x^2i:
// deflection of the middle and bending stress at the middle of a long edge, and
// deflection under a unit force in the middle.
func ritz(a float64) (deflection, stress, point float64) {
	const nu, terms, points = 0.3, 5, 2000
	d := 1 / (12 * (1 - nu*nu))
	value := func(i int, x float64, derivative int) float64 {
		// (x⁴ − x²/2 + 1/16) x^2i
		sum := 0.0
		for k, c := range map[int]float64{4: 1, 2: -0.5, 0: 1.0 / 16} {
			p := k + 2*i
			for range derivative {
				c *= float64(p)
				p--
			}
			if c != 0 {
				sum += c * math.Pow(x, float64(p))
			}
		}
		return sum
	}
	var table [terms][3][points + 1]float64
	for i := range terms {
		for k := range 3 {
			for n := range points + 1 {
				table[i][k][n] = value(i, float64(n)/points-0.5, k)
			}
		}
	}
	integral := func(f, g *[points + 1]float64) (sum float64) { // Simpson
		for n := range points + 1 {
			w := 2.0
			switch {
			case n == 0 || n == points:
				w = 1
			case n%2 == 1:
				w = 4
			}
			v := f[n]
			if g != nil {
				v *= g[n]
			}
			sum += w * v
		}
		return sum / 3 / points
	}
	k, load, force := mat.NewDense(terms*terms, terms*terms, nil), mat.NewVecDense(terms*terms, nil), mat.NewVecDense(terms*terms, nil)
	of := func(i, j, n int) float64 { return integral(&table[i][n], &table[j][n]) }
	for i := range terms {
		for j := range terms {
			load.SetVec(i*terms+j, integral(&table[i][0], nil)*integral(&table[j][0], nil)*a)
			force.SetVec(i*terms+j, value(i, 0, 0)*value(j, 0, 0))
			for p := range terms {
				for q := range terms {
					k.Set(i*terms+j, p*terms+q, d*a*(of(i, p, 2)*of(j, q, 0)/math.Pow(a, 4)+of(i, p, 0)*of(j, q, 2)+2*of(i, p, 1)*of(j, q, 1)/(a*a)))
				}
			}
		}
	}
	var c, under mat.VecDense
	_ = c.SolveVec(k, load) // near to singular, as powers are: good enough for four places
	_ = under.SolveVec(k, force)
	for i := range terms {
		for j := range terms {
			v := c.AtVec(i*terms + j)
			deflection += v * value(i, 0, 0) * value(j, 0, 0)
			point += under.AtVec(i*terms+j) * value(i, 0, 0) * value(j, 0, 0)
			stress += 6 * d * v * value(i, 0, 0) * value(j, 0.5, 2)
		}
	}
	return deflection, math.Abs(stress), point
}

func TestFormulas_neverGiveWhatIsNoNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := 0
		v := func() float64 {
			n++
			return rapid.OneOf(rapid.Float64(), rapid.Float64Range(-10, 10), rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, 1e-300})).Draw(t, "v")
		}
		check := func(ok bool, list ...float64) {
			for _, x := range list {
				if ok && (math.IsNaN(x) || math.IsInf(x, 0)) {
					t.Fatalf("%v", list)
				}
			}
		}
		one := func(x float64, ok bool) { check(ok, x) }
		one(vessel.Ellipsoid(v(), v()))
		one(vessel.Torisphere(v(), v(), v()))
		one(vessel.Cone(v()))
		in, out, ok := vessel.Elbow(v(), v())
		check(ok, in, out)
		half, length, ok := vessel.Miter(v(), v(), rapid.IntRange(-1, 5).Draw(t, "joints"))
		check(ok, half, length)
		one(vessel.PointLoad(v(), v(), v(), v(), v()))
		one(vessel.Dome(v(), v(), v()))
		one(vessel.ClassicalSphere(v(), v(), v(), v()))
		one(vessel.EllipsoidCrown(v(), v()))
		w, free, ok := vessel.ConeAsCylinder(v(), v(), v(), v(), v())
		check(ok, w, free)
		p, ok := vessel.RectanglePlate(vessel.Clamped, v(), v())
		check(ok, p.Stress, p.Deflection)
		one(p.Thickness(v(), v(), v()))
		p, ok = vessel.RoundPlate(vessel.Simply, v())
		check(ok, p.Stress, p.Deflection)
		one(vessel.PerHead(v(), v(), v()))
		one(vessel.ServesTo(v(), v()))
		one(vessel.Boundary(v(), v(), v()))
	})
}
