package wall

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
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
	e := begin(inputs{s, lib, a, o})
	defer e.end()
	e.run()
	w := &working{e: e, us: e.units == quantity.US}
	add := func(title string, steps func()) {
		w.steps = nil
		steps()
		if len(w.steps) > 0 {
			c.Sections = append(c.Sections, Section{title, condition, w.steps})
		}
	}
	add("Constituents", w.materials)
	add("Geometry", w.geometry)
	if e.lam != nil {
		add("Plies that count", w.plies)
		add("Layers, from the inside; z from the middle of the plies that count", w.layers)
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
		w.step("thickness of the whole laminate", "T", "Σ tp of all plies", "", w.length(e.r.Whole), w.lengthUnit(), "")
	}
	if e.r.Thickness > 0 {
		w.step("thickness that counts", "t", "Σ tp of the plies that count", w.sum(), w.length(e.r.Thickness), w.lengthUnit(), "")
	}
	if e.round.open != "" || e.round.out == 0 {
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
			w.step(k.Name+": pressure of the liquid", "p", "γ·SG·h", put(w.water()+"·#·#", sv.SpecificGravity.Or(1), w.length(e.depth())), w.stress(l.inside), w.stressUnit(), "")
		case strings.HasPrefix(k.Name, CasePressureHead):
			head := l.inside - sv.Pressure.SI()
			w.step(k.Name+": pressure inside", "p", "pressure + pressure of the liquid", put("# + #", w.stress(sv.Pressure.SI()), w.stress(head)), w.stress(l.inside), w.stressUnit(), "")
		case strings.HasPrefix(k.Name, CaseTest) && l.inside > sv.TestPressure.SI():
			w.step(k.Name+": pressure inside", "p", "test pressure + γ·h of water", put("# + "+w.water()+"·#", w.stress(sv.TestPressure.SI()), w.length(e.depth())), w.stress(l.inside), w.stressUnit(), "")
		}
		if e.special() {
			// Factors of the form, on the load of a straight shell.
			factor := func(what, symbol string, n float64) {
				if n != 0 {
					w.step(k.Name+": load "+what, symbol, "k·p·R, "+e.form.How, put("#·#·#", n/(l.inside*e.round.inside), w.stress(l.inside), r), w.line(n), w.lineUnit(), e.form.Source)
				}
			}
			factor("round the wall", "Ny", l.hoop)
			factor("along the axis", "Nx", l.axial)
			continue
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

// water is the weight of water on a unit of volume, in the consistent units.
func (w *working) water() string { return pick(w.us, "0.0361273", "0.00000980665") }

// depth is how deep the place looked at lies under the liquid, in m.
func (e *evaluation) depth() float64 {
	depth := e.s.Part.LiquidHeight.SI()
	if e.o.Depth > 0 {
		depth = math.Min(depth, e.o.Depth)
	}
	return depth
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
	name := c.Name
	if e.special() && (name == HoopStrength || name == ExternalPressure) || c.Kind == quantity.Torque || c.Kind == quantity.Size {
		w.steps = append(w.steps, Step{What: c.Title(), Formula: c.Reason, Value: math.NaN(), Source: c.Basis})
		name = ""
	}
	switch name {
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
		structure := e.a.Zones[laminate.StructuralLayer].Thickness
		w.step("thickness that the strength table counts", "tc", "thickness of the structure + what counts of the barrier", put("# + #", w.length(structure), w.length(t-structure)), w.length(t), w.lengthUnit(), c.Reason)
		w.step("least tensile strength of the table at that thickness", "S", "by thickness, "+pick(allMat, "a wall all of mat", "a wall of mat and woven roving"), "", s, w.stressUnit(), c.Basis)
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
	along, round := "strain along the axis under "+k.Name, "strain round the wall under "+k.Name
	if !w.skew() {
		w.step(along, "εx", "(Ayy·Nx − Axy·Ny)/(Axx·Ayy − Axy²)", put("(#·# - #·#)/(#·# - #^2)", yy, nx, xy, ny, xx, yy, xy), k.StrainAxial, "", "")
		w.step(round, "εy", "(Axx·Ny − Axy·Nx)/(Axx·Ayy − Axy²)", put("(#·# - #·#)/(#·# - #^2)", xx, ny, xy, nx, xx, yy, xy), k.StrainHoop, "", "")
		return
	}
	// Not balanced: the wall twists as well.
	xs, ys, ss := w.line(a[0][2]), w.line(a[1][2]), w.line(a[2][2])
	det := xx*(yy*ss-ys*ys) - xy*(xy*ss-xs*ys) + xs*(xy*ys-yy*xs)
	w.step("determinant of A", "det", "Axx·(Ayy·Ass − Ays²) − Axy·(Axy·Ass − Axs·Ays) + Axs·(Axy·Ays − Ayy·Axs)",
		put("#·(#·# - #^2) - #·(#·# - #·#) + #·(#·# - #·#)", xx, yy, ss, ys, xy, xy, ss, xs, ys, xs, xy, ys, yy, xs), det, "", "")
	w.step(along, "εx", "((Ayy·Ass − Ays²)·Nx − (Axy·Ass − Axs·Ays)·Ny)/det",
		put("((#·# - #^2)·# - (#·# - #·#)·#)/#", yy, ss, ys, nx, xy, ss, xs, ys, ny, det), k.StrainAxial, "", "")
	w.step(round, "εy", "((Axx·Ass − Axs²)·Ny − (Axy·Ass − Axs·Ays)·Nx)/det",
		put("((#·# - #^2)·# - (#·# - #·#)·#)/#", xx, ss, xs, ny, xy, ss, xs, ys, nx, det), k.StrainHoop, "", "")
	w.step("twist under "+k.Name, "γ", "((Axy·Ays − Ayy·Axs)·Nx − (Axx·Ays − Axy·Axs)·Ny)/det",
		put("((#·# - #·#)·# - (#·# - #·#)·#)/#", xy, ys, yy, xs, nx, xx, ys, xy, xs, ny, det), k.StrainShear, "", "")
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
	flex := e.lam.FreeBending()
	hf, at, af := w.stress(f.bent.HoopFlexural), w.stress(f.bent.AxialTensile), w.stress(f.bent.AxialFlexural)
	const inverse, tube = "from the inverse of the matrix of A, B and D: 12/(t³·d), d of the bent wall", "1/(t·a), a of the inverse of A"
	w.step("bending modulus round the wall", "Ehf", inverse, "", hf, w.stressUnit(), "")
	w.step("bending modulus along the axis", "Eaf", inverse, "", af, w.stressUnit(), "")
	w.step("stretching modulus along the axis", "Eat", tube, "", at, w.stressUnit(), "")
	w.step("product of Poisson's ratios in bending", "νxνy", "both from the same inverse", put("#·#", flex.Nuxy, flex.Nuyx), f.bent.NuProduct, "", "")
	defer w.rings(f)
	switch which := strings.SplitN(c.Reason, ",", 2)[0]; {
	case given && which == "isotropic formula":
		m := &e.r.Membrane
		ht := w.stress(m.Ey)
		w.step("stretching modulus round the wall", "Eht", tube, "", ht, w.stressUnit(), "")
		w.step("modulus of the isotropic formula", "E", "lowest of Eat, Eht, Eaf and Ehf", put("min(min(#, #), min(#, #))", at, ht, af, hf), w.stress(f.modulus), w.stressUnit(), "")
		w.step("Poisson's ratio of the isotropic formula", "ν", "sqrt(νxy·νyx), both from the inverse of A", put("sqrt(#·#)", m.Nuxy, m.Nuyx), f.nu, "", "")
		w.step("allowable outside pressure, isotropic", "p", "2.42·E/(1 − ν²)^0.75·(t/D)^2.5/(L/D − 0.45·sqrt(t/D))/5",
			put("2.42·#/(1 - #^2)^0.75·(#/#)^2.5/(#/# - 0.45·sqrt(#/#))/5", w.stress(f.modulus), f.nu, t, d, w.length(length), d, t, d), w.stress(c.Capacity), w.stressUnit(), c.Basis)
	case given && which == "orthotropic formula":
		r := f.d / 2
		zp := math.Pow(f.bent.HoopFlexural, 1.5) / (f.bent.AxialTensile * math.Sqrt(f.bent.AxialFlexural)) * math.Sqrt(one) * length * length / (r * f.t)
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
		w.step("allowable outside pressure, endless tube", "p", "Ehf/(1 − νxνy)·(t/Rm)^3/4/5",
			put("#/#·(#/#)^3/4/5", w.stress(f.bent.HoopFlexural), one, t, w.length(e.round.middle)), w.stress(c.Capacity), w.stressUnit(), c.Basis)
	}
}

// rings are the stiffeners that the wall wants, where it does not hold without.
func (w *working) rings(f collapsing) {
	x := &w.e.r.Stiffeners
	if !x.Known {
		return
	}
	d, length, p := w.length(f.d), w.length(x.Spacing), w.stress(w.e.s.Service.Vacuum.SI())
	inertia := w.length(1) * w.length(1) * w.length(1) * w.length(1) * x.Inertia
	w.step("spacing of rings at which the wall between them holds", "L", "by trying: the longest at which the lowest formula allows the vacuum", "", length, w.lengthUnit(), "")
	w.step("second moment of area of each ring with its wall", "I", "p·L·Do³·5/(24·Eht)", put("#·#·#^3·5/(24·#)", p, length, d, w.stress(x.Modulus)), inertia, pick(w.us, "in⁴", "mm⁴"), "ASME Section X, from memory")
	w.step("width of wall that acts with it", "w", "1.1·sqrt(Do·t)", put("1.1·sqrt(#·#)", d, w.length(f.t)), w.length(x.Width), w.lengthUnit(), "ASME Section X, from memory")
}
