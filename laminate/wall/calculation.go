package wall

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stiffness"
	"frp/veilwright/laminate/wall/shell"
)

// Calculation is how the figures of a wall come about, step by step, for a
// reviewer with a pocket calculator: each step is the formula in symbols, the
// same with the numbers put in, and what comes of it. Units are consistent:
// in, psi and lb/in, or mm, MPa and N/mm.
type Calculation struct {
	Sections []Section
}

// Section is one part of a calculation, "" Condition where there are none.
type Section struct {
	Title, Condition string
	Steps            []Step
}

// Step is one line of a calculation. Numbers is an expression of numbers, + − ·
// / ^, parentheses, sqrt and abs that gives Value; "" where a matrix is turned
// round, which no pocket calculator does.
type Step struct {
	What, Symbol, Formula, Numbers string
	Value                          float64
	Unit                           string
	Source                         string
	// Of a criterion: the limit, and whether it holds.
	Limit  string
	Answer Answer
}

// Calculate works out the figures that decide a wall, as Evaluate does.
func Calculate(s *laminate.Schedule, lib *laminate.Library, a *laminate.Analysis, o Options) Calculation {
	var c Calculation
	if s == nil || a == nil || len(a.Rows) != len(s.Plies) {
		return c
	}
	if len(s.Conditions) == 0 {
		c.under(s, lib, a, o, "")
		return c
	}
	for i := range s.Conditions {
		c.under(s.Under(&s.Conditions[i]), lib, a, o, s.Conditions[i].Name)
	}
	return c
}

func (c *Calculation) under(s *laminate.Schedule, lib *laminate.Library, a *laminate.Analysis, o Options, condition string) {
	e := &evaluation{s: s, lib: lib, a: a, o: o, r: &Result{NotChecked: notChecked()}}
	e.run()
	w := &working{e: e, us: e.units == quantity.US}
	add := func(title string, steps func()) {
		w.steps = nil
		steps()
		if len(w.steps) > 0 {
			c.Sections = append(c.Sections, Section{title, condition, w.steps})
		}
	}
	add("Geometry", w.geometry)
	if e.lam != nil {
		add("Plies that count", w.plies)
		add("Stiffness", w.stiffness)
	}
	add("Loads", w.loads)
	add("Criteria", w.criteria)
}

// working is a calculation under way.
type working struct {
	e     *evaluation
	us    bool
	steps []Step
}

func (w *working) step(what, symbol, formula, numbers string, value float64, unit, source string) {
	w.steps = append(w.steps, Step{What: what, Symbol: symbol, Formula: formula, Numbers: numbers, Value: value, Unit: unit, Source: source})
}

// Figures in the consistent units of the calculation.
func (w *working) length(m float64) float64  { return pick(w.us, m/0.0254, m*1000) }
func (w *working) stress(pa float64) float64 { return pick(w.us, pa/psi, pa/1e6) }
func (w *working) line(n float64) float64    { return pick(w.us, n/(psi*0.0254), n/1000) }

func (w *working) lengthUnit() string { return pick(w.us, "in", "mm") }
func (w *working) stressUnit() string { return pick(w.us, "psi", "MPa") }
func (w *working) lineUnit() string   { return pick(w.us, "lb/in", "N/mm") }

const psi = 6894.757293168

func pick[T any](us bool, a, b T) T {
	if us {
		return a
	}
	return b
}

// Number prints a figure of a calculation: six digits that count, no exponent.
func Number(v float64) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	order := int(math.Floor(math.Log10(math.Abs(v))))
	return strconv.FormatFloat(v, 'f', max(0, 5-order), 64)
}

// put puts numbers into a pattern of # signs.
func put(pattern string, v ...float64) string {
	for _, x := range v {
		text := Number(x)
		if x < 0 {
			text = "(" + text + ")"
		}
		pattern = strings.Replace(pattern, "#", text, 1)
	}
	return pattern
}

func (w *working) geometry() {
	e := w.e
	if e.wholeOpen == "" {
		w.step("thickness of the whole laminate", "T", "Σ t of all plies", "", w.length(e.r.Whole), w.lengthUnit(), "")
	}
	if e.r.Thickness > 0 {
		w.step("thickness that counts", "t", "Σ t of the plies that count", w.sum(), w.length(e.r.Thickness), w.lengthUnit(), "")
	}
	if e.round.open != "" {
		return
	}
	d := w.length(2 * e.round.inside)
	w.step("inside radius", "R", "D/2", put("#/2", d), d/2, w.lengthUnit(), "")
	w.step("outside radius", "Ro", "R + T", put("# + #", w.length(e.round.inside), w.length(e.r.Whole)), w.length(e.round.out), w.lengthUnit(), "")
	w.step("radius of the middle of the plies that count", "Rm", "R + depth of their middle", put("# + #", w.length(e.round.inside), w.length(e.round.middle-e.round.inside)), w.length(e.round.middle), w.lengthUnit(), "")
}

// sum adds up the counted rows, equal ones together.
func (w *working) sum() string {
	var parts []string
	for _, g := range w.groups() {
		parts = append(parts, put("#·#", float64(g.n), w.length(g.t)))
	}
	return strings.Join(parts, " + ")
}

// group is equal counted plies: n of thickness t.
type group struct {
	of *counted
	n  int
	t  float64
}

func (w *working) groups() []group {
	var list []group
next:
	for i := range w.e.rows {
		c := &w.e.rows[i]
		for k := range list {
			g := &list[k]
			if g.of.law == c.law && g.of.angle == c.angle && g.of.figures.Material == c.figures.Material && g.t == c.figures.Thickness {
				g.n += c.ply.Count
				continue next
			}
		}
		list = append(list, group{c, c.ply.Count, c.figures.Thickness})
	}
	return list
}

// plies takes each kind of ply from its constituents to its stiffness.
func (w *working) plies() {
	for _, g := range w.groups() {
		c := g.of
		f, name := c.figures, c.figures.Material.ID
		say := func(what, symbol, formula, numbers string, v float64, unit string) {
			w.step(name+": "+what, symbol, formula, numbers, v, unit, "")
		}
		fiber, matrix, known := w.e.laws.Constituents(f)
		if !known {
			say("modulus along", "E1", c.basis, "", w.stress(c.law.E1), w.stressUnit())
			say("modulus across", "E2", c.basis, "", w.stress(c.law.E2), w.stressUnit())
		} else {
			w.constituents(say, c, fiber, matrix)
		}
		q := reduced(c.law)
		nu21 := c.law.Nu12 * c.law.E2 / c.law.E1
		say("other Poisson's ratio", "ν21", "ν12·E2/E1", put("#·#/#", c.law.Nu12, w.stress(c.law.E2), w.stress(c.law.E1)), nu21, "")
		say("reduced stiffness along", "Q11", "E1/(1 − ν12·ν21)", put("#/(1 - #·#)", w.stress(c.law.E1), c.law.Nu12, nu21), w.stress(q[0]), w.stressUnit())
		say("reduced stiffness across", "Q22", "E2/(1 − ν12·ν21)", put("#/(1 - #·#)", w.stress(c.law.E2), c.law.Nu12, nu21), w.stress(q[2]), w.stressUnit())
		say("coupling", "Q12", "ν12·E2/(1 − ν12·ν21)", put("#·#/(1 - #·#)", c.law.Nu12, w.stress(c.law.E2), c.law.Nu12, nu21), w.stress(q[1]), w.stressUnit())
		if c.angle != 0 {
			x := turned(q, c.law.G12, c.angle)
			cs, sn := math.Cos(c.angle*math.Pi/180), math.Sin(c.angle*math.Pi/180)
			q11, q12, q22, g12 := w.stress(q[0]), w.stress(q[1]), w.stress(q[2]), w.stress(c.law.G12)
			at := " at " + strconv.FormatFloat(c.angle, 'g', 4, 64) + "°"
			say("stiffness along the axis"+at, "Qxx", "Q11·c^4 + 2·(Q12 + 2·G12)·s^2·c^2 + Q22·s^4",
				put("#·#^4 + 2·(# + 2·#)·#^2·#^2 + #·#^4", q11, cs, q12, g12, sn, cs, q22, sn), w.stress(x[0]), w.stressUnit())
			say("stiffness round the wall"+at, "Qyy", "Q11·s^4 + 2·(Q12 + 2·G12)·s^2·c^2 + Q22·c^4",
				put("#·#^4 + 2·(# + 2·#)·#^2·#^2 + #·#^4", q11, sn, q12, g12, sn, cs, q22, cs), w.stress(x[2]), w.stressUnit())
			say("coupling"+at, "Qxy", "(Q11 + Q22 − 4·G12)·s^2·c^2 + Q12·(s^4 + c^4)",
				put("(# + # - 4·#)·#^2·#^2 + #·(#^4 + #^4)", q11, q22, g12, sn, cs, q12, sn, cs), w.stress(x[1]), w.stressUnit())
		}
	}
}

func (w *working) constituents(say func(what, symbol, formula, numbers string, v float64, unit string), c *counted, fiber, matrix stiffness.Constituent) {
	f := c.figures
	vf := f.FiberVolume / f.Thickness
	ef, em, kept := w.stress(fiber.E), w.stress(matrix.E), w.e.kept
	say("fiber volume", "Vf", "volume of fiber on an area / t", put("#/#", w.length(f.FiberVolume), w.length(f.Thickness)), vf, "")
	e1 := vf*ef + (1-vf)*em
	say("aligned fiber, along", "Eu1", "Vf·Ef + (1 − Vf)·Em", put("#·# + (1 - #)·#", vf, ef, vf, em), e1, w.stressUnit())
	eta := (ef/em - 1) / (ef/em + 2)
	say("Halpin–Tsai, ξ = 2", "η", "(Ef/Em − 1)/(Ef/Em + 2)", put("(#/# - 1)/(#/# + 2)", ef, em, ef, em), eta, "")
	e2 := em * (1 + 2*eta*vf) / (1 - eta*vf)
	say("aligned fiber, across", "Eu2", "Em·(1 + 2·η·Vf)/(1 − η·Vf)", put("#·(1 + 2·#·#)/(1 - #·#)", em, eta, vf, eta, vf), e2, w.stressUnit())
	gf, gm := w.stress(fiber.G()), w.stress(matrix.G())
	say("shear of the fiber", "Gf", "Ef/(2·(1 + νf))", put("#/(2·(1 + #))", ef, fiber.Nu), gf, w.stressUnit())
	say("shear of the resin", "Gm", "Em/(2·(1 + νm))", put("#/(2·(1 + #))", em, matrix.Nu), gm, w.stressUnit())
	etaG := (gf/gm - 1) / (gf/gm + 1)
	g := gm * (1 + etaG*vf) / (1 - etaG*vf)
	say("aligned fiber, shear", "Gu", "Gm·(1 + η·Vf)/(1 − η·Vf), η = (Gf/Gm − 1)/(Gf/Gm + 1)",
		put("#·(1 + (#/# - 1)/(#/# + 1)·#)/(1 - (#/# - 1)/(#/# + 1)·#)", gm, gf, gm, gf, gm, vf, gf, gm, gf, gm, vf), g, w.stressUnit())
	nu := vf*fiber.Nu + (1-vf)*matrix.Nu
	say("aligned fiber, Poisson's ratio", "νu", "Vf·νf + (1 − Vf)·νm", put("#·# + (1 - #)·#", vf, fiber.Nu, vf, matrix.Nu), nu, "")
	keep := func(formula, numbers string) (string, string) {
		if kept == 1 {
			return formula, numbers
		}
		return "(" + formula + ")·retention", "(" + numbers + ")·" + Number(kept)
	}
	end := func(what, symbol, formula, numbers string, v float64) {
		formula, numbers = keep(formula, numbers)
		say(what, symbol, formula, numbers, w.stress(v), w.stressUnit())
	}
	switch f.Material.Form {
	case laminate.Unidirectional, laminate.RovingBand:
		end("modulus along", "E1", "Eu1", Number(e1), c.law.E1)
		end("modulus across", "E2", "Eu2", Number(e2), c.law.E2)
		end("shear modulus", "G12", "Gu", Number(g), c.law.G12)
		say("Poisson's ratio", "ν12", "νu", Number(nu), c.law.Nu12, "")
	case laminate.WovenRoving:
		share, crimp := w.e.laws.Weave(f.Material)
		nu21 := nu * e2 / e1
		u11, u22, u12 := e1/(1-nu*nu21), e2/(1-nu*nu21), nu*e2/(1-nu*nu21)
		say("aligned sheet", "u11", "Eu1/(1 − νu²·Eu2/Eu1)", put("#/(1 - #^2·#/#)", e1, nu, e2, e1), u11, w.stressUnit())
		say("aligned sheet", "u22", "Eu2/(1 − νu²·Eu2/Eu1)", put("#/(1 - #^2·#/#)", e2, nu, e2, e1), u22, w.stressUnit())
		say("aligned sheet", "u12", "νu·u22", put("#·#", nu, u22), u12, w.stressUnit())
		q1, q2 := share*u11+(1-share)*u22, share*u22+(1-share)*u11
		say("both sheets, along", "k1", "warp share·u11 + (1 − warp share)·u22", put("#·# + (1 - #)·#", share, u11, share, u22), q1, w.stressUnit())
		say("both sheets, across", "k2", "warp share·u22 + (1 − warp share)·u11", put("#·# + (1 - #)·#", share, u22, share, u11), q2, w.stressUnit())
		end("modulus along", "E1", "crimp·(k1 − u12²/k2)", put("#·(# - #^2/#)", crimp, q1, u12, q2), c.law.E1)
		end("modulus across", "E2", "crimp·(k2 − u12²/k1)", put("#·(# - #^2/#)", crimp, q2, u12, q1), c.law.E2)
		end("shear modulus", "G12", "crimp·Gu", put("#·#", crimp, g), c.law.G12)
		say("Poisson's ratio", "ν12", "u12/k2", put("#/#", u12, q2), c.law.Nu12, "")
	default: // fiber lying every way
		er, gr := 3.0/8*e1+5.0/8*e2, e1/8+e2/4
		end("modulus, fiber every way", "E1", "3/8·Eu1 + 5/8·Eu2", put("3/8·# + 5/8·#", e1, e2), c.law.E1)
		end("the same across", "E2", "3/8·Eu1 + 5/8·Eu2", put("3/8·# + 5/8·#", e1, e2), c.law.E2)
		end("shear modulus", "G12", "1/8·Eu1 + 1/4·Eu2", put("1/8·# + 1/4·#", e1, e2), c.law.G12)
		say("Poisson's ratio", "ν12", "E/(2·G) − 1, cold", put("#/(2·#) - 1", er, gr), c.law.Nu12, "")
	}
}

// reduced gives Q11, Q12 and Q22 of a ply.
func reduced(p stiffness.Ply) [3]float64 {
	one := 1 - p.Nu12*p.Nu12*p.E2/p.E1
	return [3]float64{p.E1 / one, p.Nu12 * p.E2 / one, p.E2 / one}
}

// turned gives Qxx, Qxy and Qyy at an angle from the axis in degrees.
func turned(q [3]float64, g, deg float64) [3]float64 {
	c, s := math.Cos(deg*math.Pi/180), math.Sin(deg*math.Pi/180)
	c2, s2 := c*c, s*s
	return [3]float64{
		q[0]*c2*c2 + 2*(q[1]+2*g)*s2*c2 + q[2]*s2*s2,
		(q[0]+q[2]-4*g)*s2*c2 + q[1]*(s2*s2+c2*c2),
		q[0]*s2*s2 + 2*(q[1]+2*g)*s2*c2 + q[2]*c2*c2,
	}
}

// stiffness adds the plies up.
func (w *working) stiffness() {
	a := w.e.r.A
	for _, x := range []struct {
		symbol, q string
		at        int
		v         float64
	}{{"Axx", "Qxx", 0, a[0][0]}, {"Axy", "Qxy", 1, a[0][1]}, {"Ayy", "Qyy", 2, a[1][1]}} {
		var parts []string
		for _, g := range w.groups() {
			parts = append(parts, put("#·#·#", w.stress(turned(reduced(g.of.law), g.of.law.G12, g.of.angle)[x.at]), float64(g.n), w.length(g.t)))
		}
		w.step("stretching stiffness", x.symbol, "Σ "+x.q+"·n·t", strings.Join(parts, " + "), w.line(x.v), w.lineUnit(), "classical lamination theory; x along the axis, y round the wall")
	}
	name := [3]string{"x", "y", "s"}
	for i := range 3 {
		for j := i; j < 3; j++ {
			w.step("coupling stiffness about the middle of the plies that count", "B"+name[i]+name[j], "Σ Q·(z2² − z1²)/2", "", w.line(w.e.r.B[i][j])*w.length(1), pick(w.us, "lb", "N"), "")
			w.step("bending stiffness about the same", "D"+name[i]+name[j], "Σ Q·(z2³ − z1³)/3", "", w.line(w.e.r.D[i][j])*w.length(1)*w.length(1), pick(w.us, "lb·in", "N·mm"), "")
		}
	}
}

func (w *working) loads() {
	e := w.e
	sv := &e.s.Service
	for i := range e.loads {
		l, k := &e.loads[i], &e.r.Cases[i]
		r, rm, ro := w.length(e.round.inside), w.length(e.round.middle), w.length(e.round.out)
		switch {
		case strings.HasPrefix(k.Name, CaseVacuum):
			p := w.stress(sv.Vacuum.SI())
			w.step(k.Name+": load round the wall", "Ny", "−p·Ro", put("-#·#", p, ro), w.line(l.hoop), w.lineUnit(), "")
			if l.axial != 0 {
				w.step(k.Name+": load along the axis", "Nx", "−p·Ro²/(2·Rm)", put("-#·#^2/(2·#)", p, ro, rm), w.line(l.axial), w.lineUnit(), "")
			}
			continue
		case strings.HasPrefix(k.Name, CaseHead):
			depth := e.s.Part.LiquidHeight.SI()
			if e.o.Depth > 0 {
				depth = math.Min(depth, e.o.Depth)
			}
			w.step(k.Name+": pressure of the liquid", "p", "γ·SG·h", put(pick(w.us, "0.0361273", "0.00000980665")+"·#·#", sv.SpecificGravity.Or(1), w.length(depth)), w.stress(l.inside), w.stressUnit(), "")
		}
		w.step(k.Name+": load round the wall", "Ny", "p·R", put("#·#", w.stress(l.inside), r), w.line(l.hoop), w.lineUnit(), "")
		if l.axial != 0 {
			// Of a liquid's head none goes to the ends.
			thrust := sv.Pressure.SI()
			if strings.HasPrefix(k.Name, CaseTest) {
				thrust = sv.TestPressure.SI()
			}
			w.step(k.Name+": load along the axis", "Nx", "p·R²/(2·Rm)", put("#·#^2/(2·#)", w.stress(thrust), r, rm), w.line(l.axial), w.lineUnit(), "")
		}
	}
	for _, o := range e.r.Unknown {
		w.step(o.Name, "", "not known: "+o.Reason, "", math.NaN(), "", "")
	}
}

func (w *working) criteria() {
	for i := range w.e.r.Criteria {
		c := &w.e.r.Criteria[i]
		if c.Judged() {
			w.criterion(c)
			continue
		}
		w.steps = append(w.steps, Step{What: c.Title(), Formula: c.Answer.String() + ": " + c.Reason, Value: math.NaN(), Source: c.Basis, Answer: c.Answer})
	}
}

// caseOf finds a case of the result by its name.
func (w *working) caseOf(name string) (*Case, *applied) {
	for i := range w.e.r.Cases {
		if w.e.r.Cases[i].Name == name {
			return &w.e.r.Cases[i], &w.e.loads[i]
		}
	}
	return nil, nil
}

func (w *working) criterion(c *Criterion) {
	e := w.e
	k, l := w.caseOf(c.Case)
	switch c.Name {
	case HoopStrain, AxialStrain, ResinStrain:
		w.strains(k)
		round := k.StrainHoop
		if i := slices.IndexFunc(e.r.Cases, func(x Case) bool { return x.Name == k.Name }); c.Name != AxialStrain {
			if n := e.timesMembrane(i, c.Name == ResinStrain); n != 1 {
				round *= n
				w.step("strain round the wall at its inside face", "εy", "Lamé's factor·εy", put("#·#", n, k.StrainHoop), round, "", "isotropic thick cylinder (Roark, second-hand)")
			}
		}
		if c.Name == ResinStrain {
			w.step("largest strain under "+c.Case, "ε", "abs(εx + εy)/2 + sqrt(((εx − εy)/2)² + (γ/2)²)",
				put("abs(# + #)/2 + sqrt(((# - #)/2)^2 + (#/2)^2)", k.StrainAxial, round, k.StrainAxial, round, k.StrainShear), c.Demand, "", "")
			least, _ := e.failureStrain()
			w.step("allowable strain", "εd", "lower of 0.1·failure strain and 0.002", put("min(0.1·#, 0.002)", least), c.Capacity, "", c.Basis)
		}
	case HoopStrength:
		t, _ := e.tableThickness()
		allMat := !strings.Contains(c.Reason, "woven")
		s := w.stress(shell.TableStrength(t, allMat))
		w.step("thickness that the strength table counts", "tc", c.Reason, "", w.length(t), w.lengthUnit(), "")
		w.step("thickness wanted under "+c.Case, "tw", "p·2·R·10/(2·S·retention)", put("#·2·#·10/(2·#·#)", w.stress(l.inside), w.length(e.round.inside), s, e.kept), w.length(c.Demand), w.lengthUnit(), c.Basis)
	case ExternalPressure:
		w.external(c)
	case UnitLoad:
		w.unitLoad(c)
	case MinimumModulus:
		w.step("lower of axial and hoop modulus, cold", "E", "E/retention", put("#/#", w.stress(math.Min(e.r.Membrane.Ex, e.r.Membrane.Ey)), e.kept), w.stress(c.Capacity), w.stressUnit(), c.Basis)
	}
	demand, capacity := w.pair(c)
	w.steps = append(w.steps, Step{What: c.Title(), Symbol: "utilization", Formula: "required / allowable", Numbers: put("#/#", demand, capacity), Value: c.Ratio, Source: c.Basis, Limit: "1", Answer: c.Answer})
}

func (w *working) unitLoad(c *Criterion) {
	e := w.e
	k := e.s.Part.KFactors.Values
	factor, err := shell.DesignFactor(k)
	hoop, axial, all, why := e.unitGlass()
	least, _ := e.failureStrain()
	if err != nil || why != "" {
		return
	}
	glass := hoop
	if strings.HasPrefix(c.Reason, "along") {
		glass = axial
	}
	_, strain, err := shell.UnitCapacity(factor, least, all, glass)
	if err != nil {
		return
	}
	w.step("design factor", "K", "3·k1·k2·k3·k4·k5", put("3·#·#·#·#·#", k[0], k[1], k[2], k[3], k[4]), factor, "", c.Basis)
	w.step("allowable strain", "εd", "lowest of 0.1·failure strain, 0.002 and unit strength/(K·unit modulus) of each kind of glass", "", strain, "", c.Basis)
	stiff := shell.UnitStiffness(glass)
	w.step("unit stiffness "+strings.SplitN(c.Reason, ";", 2)[0], "ΣX", "Σ unit modulus·glass", "", w.line(stiff), w.lineUnit(), c.Basis)
	w.step("load that the wall may bear", "Na", "εd·ΣX·retention", put("#·#·#", strain, w.line(stiff), e.kept), w.line(c.Capacity), w.lineUnit(), c.Basis)
}

// pair gives demand and capacity in the units of the calculation.
func (w *working) pair(c *Criterion) (demand, capacity float64) {
	switch c.Kind {
	case quantity.Thickness:
		return w.length(c.Demand), w.length(c.Capacity)
	case quantity.Stress:
		return w.stress(c.Demand), w.stress(c.Capacity)
	case quantity.LineLoad:
		return w.line(c.Demand), w.line(c.Capacity)
	default: // strains have no unit
		return c.Demand, c.Capacity
	}
}

// strains solves the wall for a case.
func (w *working) strains(k *Case) {
	a := w.e.r.A
	xx, xy, yy, nx, ny := w.line(a[0][0]), w.line(a[0][1]), w.line(a[1][1]), w.line(k.NAxial), w.line(k.NHoop)
	skew := math.Abs(a[0][2])+math.Abs(a[1][2]) > 1e-9*(a[0][0]+a[1][1])
	px, py := put("(#·# - #·#)/(#·# - #^2)", yy, nx, xy, ny, xx, yy, xy), put("(#·# - #·#)/(#·# - #^2)", xx, ny, xy, nx, xx, yy, xy)
	if skew {
		px, py = "", ""
	}
	w.step("strain along the axis under "+k.Name, "εx", "(Ayy·Nx − Axy·Ny)/(Axx·Ayy − Axy²)", px, k.StrainAxial, "", "")
	w.step("strain round the wall under "+k.Name, "εy", "(Axx·Ny − Axy·Nx)/(Axx·Ayy − Axy²)", py, k.StrainHoop, "", "")
}

func (w *working) external(c *Criterion) {
	e := w.e
	f, ok := e.collapse()
	if !ok {
		return
	}
	length, given := e.freeLength()
	one := 1 - f.bent.NuProduct
	t, d := w.length(f.t), w.length(f.d)
	switch which := strings.SplitN(c.Reason, ",", 2)[0]; {
	case given && which == "isotropic formula":
		w.step("allowable outside pressure, isotropic", "p", "2.42·E/(1 − ν²)^0.75·(t/D)^2.5/(L/D − 0.45·sqrt(t/D))/5",
			put("2.42·#/(1 - #^2)^0.75·(#/#)^2.5/(#/# - 0.45·sqrt(#/#))/5", w.stress(f.modulus), f.nu, t, d, w.length(length), d, t, d), w.stress(c.Capacity), w.stressUnit(), c.Basis)
	case given && which == "orthotropic formula":
		r := f.d / 2
		zp := math.Pow(f.bent.HoopFlexural, 1.5) / (f.bent.AxialTensile * math.Sqrt(f.bent.AxialFlexural)) * math.Sqrt(one) * length * length / (r * f.t)
		hf, at, af := w.stress(f.bent.HoopFlexural), w.stress(f.bent.AxialTensile), w.stress(f.bent.AxialFlexural)
		w.step("bending modulus round the wall", "Ehf", "from the inverse of A, B and D", "", hf, w.stressUnit(), "")
		w.step("bending modulus along the axis", "Eaf", "from the inverse of A, B and D", "", af, w.stressUnit(), "")
		w.step("stretching modulus along the axis", "Eat", "from the inverse of A", "", at, w.stressUnit(), "")
		w.step("shape of the shell", "Zp", "Ehf^1.5/(Eat·Eaf^0.5)·(1 − νxνy)^0.5·L²/(Do/2·t)", put("#^1.5/(#·#^0.5)·#^0.5·#^2/(#/2·#)", hf, at, af, one, w.length(length), d, t), zp, "", c.Basis)
		gamma := 0.9
		numbers := "0.9"
		if zp <= 100 {
			gamma, numbers = 1-0.001*zp, put("1 - 0.001·#", zp)
		}
		w.step("reduction", "γ", "1 − 0.001·Zp up to Zp = 100, 0.9 beyond", numbers, gamma, "", "")
		w.step("allowable outside pressure, orthotropic", "p", "0.84·0.8531·γ·Ehf^0.75·Eat^0.25·t^2.5/((1 − νxνy)^0.75·L·(Do/2)^1.5·5)",
			put("0.84·0.8531·#·#^0.75·#^0.25·#^2.5/(#^0.75·#·(#/2)^1.5·5)", gamma, hf, at, t, one, w.length(length), d), w.stress(c.Capacity), w.stressUnit(), c.Basis)
	default:
		w.step("bending modulus round the wall", "Ehf", "from the inverse of A, B and D", "", w.stress(f.bent.HoopFlexural), w.stressUnit(), "")
		w.step("allowable outside pressure, endless tube", "p", "Ehf/(1 − νxνy)·(t/Rm)^3/4/5",
			put("#/#·(#/#)^3/4/5", w.stress(f.bent.HoopFlexural), one, t, w.length(e.round.middle)), w.stress(c.Capacity), w.stressUnit(), c.Basis)
	}
}
