package wall

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stiffness"
	"frp/veilwright/laminate/wall/worked"
)

// How many layers of a wall are written out one by one, and in how many the
// sums over all of them.
const (
	mostLayers = 60
	mostSummed = 24
)

// materials are the figures that the plies are worked out from, and where each
// comes from.
func (w *working) materials() {
	var fibers []laminate.Material
	var resins []*laminate.Resin
	for _, g := range w.groups() {
		f := g.of.figures
		fiber, matrix, known := w.e.laws.Constituents(f)
		if !known {
			continue
		}
		alike := func(m laminate.Material) bool {
			return m.Fiber == f.Material.Fiber && m.FiberModulus == f.Material.FiberModulus && m.FiberPoisson == f.Material.FiberPoisson && m.FiberDensity == f.Material.FiberDensity
		}
		if !slices.ContainsFunc(fibers, alike) {
			fibers = append(fibers, *f.Material)
			name := f.Material.Fiber.String() + " fiber"
			if len(fibers) > 1 && f.Material.FiberModulus.Given() {
				name += " of " + f.Material.ID
			}
			typical := ""
			if int(f.Material.Fiber) < len(w.e.lib.Fibers) {
				typical = w.e.lib.Fibers[f.Material.Fiber].Source
			}
			w.constituent(name, "f", fiber, f.Material.FiberModulus.Given(), f.Material.FiberPoisson.Given, typical)
			if rho, ok := w.e.lib.FiberDensity(f.Material); ok {
				w.Add(name+": density", "ρf", stated(f.Material.FiberDensity.Given()), "", w.Bulk(rho), w.BulkUnit(), whence(f.Material.FiberDensity.Given(), typical))
			}
		}
		if !slices.Contains(resins, f.Resin) {
			resins = append(resins, f.Resin)
			name := "resin " + f.Resin.ID + " (" + f.Resin.Family.String() + ")"
			typical := w.e.lib.Families[f.Resin.Family].Source
			w.constituent(name, "m", matrix, f.Resin.Modulus.Given(), f.Resin.Poisson.Given, typical)
			if rho, ok := w.e.lib.ResinDensity(f.Resin); ok {
				w.Add(name+": density, cured and unfilled", "ρr", stated(f.Resin.Density.Given()), "", w.Bulk(rho), w.BulkUnit(), whence(f.Resin.Density.Given(), typical))
			}
		}
	}
}

func (w *working) constituent(name, sub string, c stiffness.Constituent, modulus, poisson bool, typical string) {
	w.Add(name+": modulus", "E"+sub, stated(modulus), "", w.Stress(c.E), w.StressUnit(), whence(modulus, typical))
	w.Add(name+": Poisson's ratio", "ν"+sub, stated(poisson), "", c.Nu, "", whence(poisson, typical))
}

func stated(given bool) string {
	if given {
		return "as the document states"
	}
	return "typical"
}

// whence is the source of a typical figure; a stated one's stands in the document.
func whence(given bool, typical string) string {
	if given {
		return ""
	}
	return typical
}

// thickness takes one ply from its fabric to how thick it is laid.
func (w *working) thickness(say func(what, symbol, formula, numbers string, v float64, unit string), c *counted) {
	f, lib := c.figures, w.e.lib
	m := f.Material
	switch m.Form {
	case laminate.ResinCoat, laminate.Lamina:
		say("thickness", "tp", "as its material states", "", w.Length(f.Thickness), w.LengthUnit())
		return
	default: // of fiber in resin
	}
	density, _ := lib.FiberDensity(m)
	resin, _ := lib.ResinDensity(f.Resin)
	formula := "areal mass of its material"
	if m.Form == laminate.RovingBand && !m.ArealMass.Given() {
		formula = "tows·tow mass/band width"
		if c.cover {
			formula = "2 layers·" + formula
		}
	} else if c.cover {
		formula = "2 layers·" + formula
	}
	say("fiber of a ply", "m", formula, "", w.OnArea(f.FiberMass), w.OnAreaUnit())
	share, of := c.ply.GlassContent.Value, "as its row states"
	if !c.ply.GlassContent.Given {
		share, _ = m.GlassContentIn(f.Zone)
		of = "in unfilled resin, as its material states"
		if !m.GlassContent.Given && !(f.Zone.InBarrier() && m.BarrierGlassContent.Given) {
			of = "in unfilled resin, usual of chopped glass"
		}
	} else if binder, ok := lib.BinderDensity(f.Resin); ok {
		resin = binder // a share as laid is of the mix
	}
	say("fiber by mass", "w", of, "", share, "")
	solid := 1 - c.ply.VoidContent.Value
	scale := worked.Pick(w.US, "", "1000·")
	pattern := scale + "(#/# + #·(1 - #)/(#·#))/#"
	say("thickness", "tp", scale+"(m/ρf + m·(1 − w)/(w·ρ))/(1 − voids)",
		worked.Put(pattern, w.OnArea(f.FiberMass), w.Bulk(density), w.OnArea(f.FiberMass), share, share, w.Bulk(resin), solid), w.Length(f.Thickness), w.LengthUnit())
}

// layers are the faces of each layer, one by one where they are not many.
func (w *working) layers() {
	if len(w.e.layers) > mostLayers {
		w.Add("the wall has "+strconv.Itoa(len(w.e.layers))+" layers, which are not written out", "", "", "", math.NaN(), "", "")
		return
	}
	z := -w.e.r.Thickness / 2
	w.Add("inside of the plies that count", "z0", "−t/2", worked.Put("#/2", -w.Length(w.e.r.Thickness)), w.Length(z), w.LengthUnit(), "")
	for i := range w.e.layers {
		y := &w.e.layers[i]
		name := ""
		for k := range w.e.rows {
			if c := &w.e.rows[k]; c.layer <= i {
				name = c.figures.Material.ID
			}
		}
		if y.Angle != 0 {
			name += " at " + strconv.FormatFloat(y.Angle, 'g', 4, 64) + "°"
		}
		n := strconv.Itoa(i + 1)
		w.Add("outside of layer "+n+", "+name, "z"+n, "z"+strconv.Itoa(i)+" + its thickness", worked.Put("# + #", w.Length(z), w.Length(y.Thickness)), w.Length(z+y.Thickness), w.LengthUnit(), "")
		z += y.Thickness
	}
}

// skew tells whether the wall twists when it is pulled: its stack is not balanced.
func (w *working) skew() bool {
	a := w.e.r.A
	return math.Abs(a[0][2])+math.Abs(a[1][2]) > 1e-9*(a[0][0]+a[1][1])
}

// plies takes each kind of ply from its constituents to its stiffness.
func (w *working) plies() {
	for _, g := range w.groups() {
		c := g.of
		f, name := c.figures, c.figures.Material.ID
		say := func(what, symbol, formula, numbers string, v float64, unit string) {
			w.Add(name+": "+what, symbol, formula, numbers, v, unit, "")
		}
		w.thickness(say, c)
		fiber, matrix, known := w.e.laws.Constituents(f)
		if !known {
			say("modulus along", "E1", c.basis, "", w.Stress(c.law.E1), w.StressUnit())
			say("modulus across", "E2", c.basis, "", w.Stress(c.law.E2), w.StressUnit())
			say("shear modulus", "G12", c.basis, "", w.Stress(c.law.G12), w.StressUnit())
			say("Poisson's ratio", "ν12", c.basis, "", c.law.Nu12, "")
		} else {
			share, crimp := w.e.laws.Weave(f.Material)
			w.Constituents(say, f, c.law, fiber, matrix, w.e.kept, share, crimp)
		}
		q := worked.Reduced(c.law)
		nu21 := c.law.Nu12 * c.law.E2 / c.law.E1
		say("other Poisson's ratio", "ν21", "ν12·E2/E1", worked.Put("#·#/#", c.law.Nu12, w.Stress(c.law.E2), w.Stress(c.law.E1)), nu21, "")
		say("reduced stiffness along", "Q11", "E1/(1 − ν12·ν21)", worked.Put("#/(1 - #·#)", w.Stress(c.law.E1), c.law.Nu12, nu21), w.Stress(q[0]), w.StressUnit())
		say("reduced stiffness across", "Q22", "E2/(1 − ν12·ν21)", worked.Put("#/(1 - #·#)", w.Stress(c.law.E2), c.law.Nu12, nu21), w.Stress(q[2]), w.StressUnit())
		say("coupling", "Q12", "ν12·E2/(1 − ν12·ν21)", worked.Put("#·#/(1 - #·#)", c.law.Nu12, w.Stress(c.law.E2), c.law.Nu12, nu21), w.Stress(q[1]), w.StressUnit())
		if c.angle != 0 {
			x := worked.Turned(q, c.law.G12, c.angle)
			cs, sn := math.Cos(c.angle*math.Pi/180), math.Sin(c.angle*math.Pi/180)
			q11, q12, q22, g12 := w.Stress(q[0]), w.Stress(q[1]), w.Stress(q[2]), w.Stress(c.law.G12)
			at := " at " + strconv.FormatFloat(c.angle, 'g', 4, 64) + "°"
			say("stiffness along the axis"+at, "Qxx", "Q11·c^4 + 2·(Q12 + 2·G12)·s^2·c^2 + Q22·s^4",
				worked.Put("#·#^4 + 2·(# + 2·#)·#^2·#^2 + #·#^4", q11, cs, q12, g12, sn, cs, q22, sn), w.Stress(x[0]), w.StressUnit())
			say("stiffness round the wall"+at, "Qyy", "Q11·s^4 + 2·(Q12 + 2·G12)·s^2·c^2 + Q22·c^4",
				worked.Put("#·#^4 + 2·(# + 2·#)·#^2·#^2 + #·#^4", q11, sn, q12, g12, sn, cs, q22, cs), w.Stress(x[2]), w.StressUnit())
			say("coupling"+at, "Qxy", "(Q11 + Q22 − 4·G12)·s^2·c^2 + Q12·(s^4 + c^4)",
				worked.Put("(# + # - 4·#)·#^2·#^2 + #·(#^4 + #^4)", q11, q22, g12, sn, cs, q12, sn, cs), w.Stress(x[1]), w.StressUnit())
			all := worked.Bar(c.law, c.angle)
			say("stiffness in shear"+at, "Qss", "(Q11 + Q22 − 2·Q12 − 2·G12)·s^2·c^2 + G12·(s^4 + c^4)",
				worked.Put("(# + # - 2·# - 2·#)·#^2·#^2 + #·(#^4 + #^4)", q11, q22, q12, g12, sn, cs, g12, sn, cs), w.Stress(all[5]), w.StressUnit())
			say("twist of the axis"+at+", the other way at the opposite angle", "Qxs", "(Q11 − Q12 − 2·G12)·s·c^3 + (Q12 − Q22 + 2·G12)·s^3·c",
				worked.Put("(# - # - 2·#)·#·#^3 + (# - # + 2·#)·#^3·#", q11, q12, g12, sn, cs, q12, q22, g12, sn, cs), w.Stress(all[2]), w.StressUnit())
			say("twist of the round"+at+", the other way at the opposite angle", "Qys", "(Q11 − Q12 − 2·G12)·s^3·c + (Q12 − Q22 + 2·G12)·s·c^3",
				worked.Put("(# - # - 2·#)·#^3·# + (# - # + 2·#)·#·#^3", q11, q12, g12, sn, cs, q12, q22, g12, sn, cs), w.Stress(all[4]), w.StressUnit())
		}
	}
}

var places = [6]struct {
	name string
	i, j int
}{{"xx", 0, 0}, {"xy", 0, 1}, {"xs", 0, 2}, {"yy", 1, 1}, {"ys", 1, 2}, {"ss", 2, 2}}

// stiffness adds the layers up.
func (w *working) stiffness() {
	r := w.e.r
	for at, p := range places {
		if strings.HasSuffix(p.name, "s") && p.name != "ss" && !w.skew() {
			continue // what a cover has at one angle it takes back at the other
		}
		var parts []string
		for _, g := range w.groups() {
			q := worked.Bar(g.of.law, g.of.angle)[at]
			if g.of.cover && (p.name == "xs" || p.name == "ys") {
				continue
			}
			parts = append(parts, worked.Put("#·#·#", w.Stress(q), float64(g.n), w.Length(g.t)))
		}
		w.Add("stretching stiffness", "A"+p.name, "Σ Q"+p.name+"·n·tp", strings.Join(parts, " + "), w.Line(r.A[p.i][p.j]), w.LineUnit(), "classical lamination theory; x along the axis, y round the wall, s in shear")
	}
	for at, p := range places {
		b, d := "", ""
		if len(w.e.layers) <= mostSummed {
			var bs, ds []string
			z := -r.Thickness / 2
			for i := range w.e.layers {
				y := &w.e.layers[i]
				q, in, out := w.Stress(worked.Bar(y.Ply, y.Angle)[at]), w.Length(z), w.Length(z+y.Thickness)
				z += y.Thickness
				if q != 0 {
					bs = append(bs, worked.Put("#·(#^2 - #^2)/2", q, out, in))
					ds = append(ds, worked.Put("#·(#^3 - #^3)/3", q, out, in))
				}
			}
			b, d = strings.Join(bs, " + "), strings.Join(ds, " + ")
		}
		w.Add("coupling stiffness about the middle of the plies that count", "B"+p.name, "Σ Q"+p.name+"·(z2² − z1²)/2", b, w.Line(r.B[p.i][p.j])*w.Length(1), worked.Pick(w.US, "lb", "N"), "")
		w.Add("bending stiffness about the same", "D"+p.name, "Σ Q"+p.name+"·(z2³ − z1³)/3", d, w.Line(r.D[p.i][p.j])*w.Length(1)*w.Length(1), worked.Pick(w.US, "lb·in", "N·mm"), "")
	}
}
