package wall

import (
	"math"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/laminate/wall/worked"
)

// Calculation is how the figures of a wall come about, step by step, for a
// reviewer with a pocket calculator: each step is the formula in symbols, the
// same with the numbers put in, and what comes of it.
type Calculation struct {
	Units    string // that the numbers put in are in, for a sentence
	Sections []Section
}

// Section is one part of a calculation, "" Condition where there are none.
type Section struct {
	Title, Condition string
	Steps            []worked.Step
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
	e := begin(inputs{s: s, lib: lib, a: a, o: o})
	defer e.end()
	e.run()
	w := &working{e: e, List: worked.List{US: e.units == quantity.US}}
	c.Units = w.Units()
	add := func(title string, steps func()) {
		w.Steps = nil
		steps()
		if len(w.Steps) > 0 {
			c.Sections = append(c.Sections, Section{title, condition, w.Steps})
		}
	}
	add("Constituents", w.materials)
	add("Geometry", w.geometry)
	if e.lam != nil {
		add("Plies that count", w.plies)
		add("Layers, from the inside; z from the middle of the plies that count", w.layers)
		add("Stiffness", func() {
			w.stiffness()
			w.Moduli(w.e.r.A, w.e.r.Thickness, w.e.r.Membrane, w.e.lam.FreeBending(), w.skew())
		})
	}
	add("Loads", w.loads)
	add("Criteria", w.criteria)
}

// working is a calculation under way.
type working struct {
	e *evaluation
	worked.List
}

func (w *working) geometry() {
	e := w.e
	if e.wholeOpen == "" {
		w.Add("thickness of the whole laminate", "T", "Σ tp of all plies", "", w.Length(e.r.Whole), w.LengthUnit(), "")
	}
	if e.r.Thickness > 0 {
		w.Add("thickness that counts", "t", "Σ tp of the plies that count", w.sum(), w.Length(e.r.Thickness), w.LengthUnit(), "")
	}
	if e.round.open != "" || e.round.out == 0 {
		return
	}
	d := w.Length(2 * e.round.inside)
	w.Add("inside radius", "R", "D/2", worked.Put("#/2", d), d/2, w.LengthUnit(), "")
	w.Add("outside radius", "Ro", "R + T", worked.Put("# + #", w.Length(e.round.inside), w.Length(e.r.Whole)), w.Length(e.round.out), w.LengthUnit(), "")
	w.Add("radius of the middle of the plies that count", "Rm", "R + depth of their middle", worked.Put("# + #", w.Length(e.round.inside), w.Length(e.round.middle-e.round.inside)), w.Length(e.round.middle), w.LengthUnit(), "")
}

// sum adds up the counted rows, equal ones together.
func (w *working) sum() string {
	var parts []string
	for _, g := range w.groups() {
		parts = append(parts, worked.Put("#·#", float64(g.n), w.Length(g.t)))
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

// pressure writes how the pressure of a case comes about: p, and what of it pulls
// along the axis, in Pa.
func (w *working) pressure(name string, inside float64) (thrust float64) {
	e := w.e
	sv := &e.s.Service
	head := 0.0
	if sg := sv.SpecificGravity; sg.Given {
		head = HeadPressure(sg.Value, e.depth())
	}
	// Of a liquid's head none goes to the ends, but where nothing else closes them.
	carried, _ := form.Pull(e.s, name, head, HeadPressure)
	if strings.HasPrefix(name, CaseHead) || strings.HasPrefix(name, CasePressureHead) {
		gas := 0.0
		if strings.HasPrefix(name, CasePressureHead) {
			gas = sv.Pressure.SI()
		}
		if n, ok := e.facts().Narrow(gas, head, e.depth()); ok {
			e.facts().WorkNarrow(&w.List, name, gas, sv.SpecificGravity.Or(1), e.depth(), &n)
			return n.Along
		}
	}
	liquid := func(symbol string) {
		w.Add(name+": pressure of the liquid", symbol, "γ·SG·h, γ of water in "+worked.Pick(w.US, "lb/in³", "N/mm³"), worked.Put(w.Water()+"·#·#", sv.SpecificGravity.Or(1), w.Length(e.depth())), w.Stress(head), w.StressUnit(), "")
		form.WorkPull(&w.List, name, e.s, carried)
	}
	switch {
	case strings.HasPrefix(name, CasePressureHead):
		stated := sv.Pressure.SI()
		if stated == 0 {
			liquid("p")
			return carried
		}
		liquid("ph")
		w.Add(name+": pressure inside", "p", "pressure + ph", worked.Put("# + #", w.Stress(stated), w.Stress(head)), w.Stress(inside), w.StressUnit(), "")
		return stated + carried
	case strings.HasPrefix(name, CaseHead):
		liquid("p")
		return carried
	case strings.HasPrefix(name, CaseTest) && inside > sv.TestPressure.SI():
		if n, ok := e.facts().Narrow(sv.TestPressure.SI(), HeadPressure(1, e.depth()), e.depth()); ok {
			w.Add(name+": pressure at the large end that loads it as its worst place is", "p", "greatest of (test pressure + γ·(h − y))·D(y)/D, y above the small end", "", w.Stress(n.Round), w.StressUnit(), "")
			return n.Along
		}
		w.Add(name+": pressure inside", "p", "test pressure + γ·h of water", worked.Put("# + "+w.Water()+"·#", w.Stress(sv.TestPressure.SI()), w.Length(e.depth())), w.Stress(inside), w.StressUnit(), "")
		return sv.TestPressure.SI()
	}
	w.Add(name+": pressure", "p", "as the document states", "", w.Stress(inside), w.StressUnit(), "")
	return inside
}

func (w *working) loads() {
	e := w.e
	if e.special() && form.Answers(e.s.Part.Form) == form.ByMembrane && len(e.loads) > 0 {
		e.facts().WorkShape(&w.List)
	}
	for i := range e.loads {
		l, k := &e.loads[i], &e.r.Cases[i]
		r, rm, ro := w.Length(e.round.inside), w.Length(e.round.middle), w.Length(e.round.out)
		if strings.HasPrefix(k.Name, CaseVacuum) {
			p := w.Stress(e.s.Service.Vacuum.SI())
			w.Add(k.Name+": load round the wall", "Ny", "−p·Ro", worked.Put("-#·#", p, ro), w.Line(l.hoop), w.LineUnit(), "")
			if l.axial != 0 {
				w.Add(k.Name+": load along the axis", "Nx", "−p·Ro²/(2·Rm)", worked.Put("-#·#^2/(2·#)", p, ro, rm), w.Line(l.axial), w.LineUnit(), "")
			}
			continue
		}
		if n := w.Line(e.s.Part.Place.Axial); k.Name == CaseAxial || strings.HasSuffix(k.Name, form.Loaded) {
			w.Add(k.Name+": load along the axis", "Nx", "Nx without it + axial load of the joint", worked.Put("# + #", w.Line(l.axial)-n, n), w.Line(l.axial), w.LineUnit(), "as the document states")
			continue
		}
		thrust := w.pressure(k.Name, l.inside)
		times, hoop, axial, of := "", e.form.Hoop, e.form.Axial, ""
		if e.special() {
			times, of = "k·", e.form.Source // the factor of the form, on the load of a straight shell
		}
		factor := func(k float64) string { return worked.Pick(times == "", "", worked.Number(k)+"·") }
		if l.hoop != 0 {
			w.Add(k.Name+": load round the wall", "Ny", times+"p·R", factor(hoop)+worked.Put("#·#", w.Stress(l.inside), r), w.Line(l.hoop), w.LineUnit(), of)
		}
		switch {
		case l.axial == 0:
		case e.form.Apart:
			w.Add(k.Name+": load along the meridian", "Nx", "k·p·R", factor(hoop)+worked.Put("#·#", w.Stress(l.inside), r), w.Line(l.axial), w.LineUnit(), of)
		default:
			if axial == 1 {
				times = ""
			}
			w.Add(k.Name+": load along the axis", "Nx", times+"p·R²/(2·Rm), p what pulls along", factor(axial)+worked.Put("#·#^2/(2·#)", w.Stress(thrust), r, rm), w.Line(l.axial), w.LineUnit(), of)
		}
	}
	if e.flatCase != "" && math.Max(e.flat, e.s.Service.Vacuum.SI()) > 0 {
		if e.flat > 0 {
			w.pressure(worked.Pick(e.flat > e.s.Service.Pressure.SI(), CasePressureHead, CasePressure), e.flat)
		}
		if p := e.s.Service.Vacuum.SI(); p > 0 {
			w.Add(CaseVacuum+": outside pressure"+worked.Pick(p > e.flat, ", the greater", ""), worked.Pick(p > e.flat, "p", "pv"), "as the document states", "", w.Stress(p), w.StressUnit(), "")
		}
	}
	for _, o := range e.r.Unknown {
		w.Say(o.Name, "not known: "+o.Reason, "")
	}
}

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
		if c.Measured() {
			w.criterion(c)
			continue
		}
		w.Say(c.Title(), c.Answer.String()+": "+c.Reason, c.Basis)
		w.Steps[len(w.Steps)-1].Answer = c.Answer.String()
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
	x, of := e.facts(), form.Weighing{Demand: c.Demand, Capacity: c.Capacity, Basis: c.Basis}
	switch c.Name {
	case HoopStrain, AxialStrain, ResinStrain:
		w.Strains(k.Name, e.r.A, k.NAxial, k.NHoop, [3]float64{k.StrainAxial, k.StrainHoop, k.StrainShear}, w.skew())
		round := k.StrainHoop
		if i := slices.IndexFunc(e.r.Cases, func(x Case) bool { return x.Name == k.Name }); c.Name != AxialStrain {
			if n := e.timesMembrane(i, c.Name == ResinStrain); n != 1 {
				round *= n
				w.Add("strain round the wall at its inside face", "εy", "Lamé's factor·εy", worked.Put("#·#", n, k.StrainHoop), round, "", "isotropic thick cylinder (Roark, second-hand)")
			}
		}
		if c.Name == ResinStrain {
			w.Add("largest strain under "+c.Case, "ε", "abs(εx + εy)/2 + sqrt(((εx − εy)/2)² + (γ/2)²)",
				worked.Put("abs(# + #)/2 + sqrt(((# - #)/2)^2 + (#/2)^2)", k.StrainAxial, round, k.StrainAxial, round, k.StrainShear), c.Demand, "", "")
			least, _ := e.failureStrain()
			w.Add("allowable strain", "εd", "lower of 0.1·failure strain and 0.002", worked.Put("min(0.1·#, 0.002)", least), c.Capacity, "", c.Basis)
		}
	case HoopStrength:
		t, _ := e.tableThickness()
		allMat := !strings.Contains(c.Reason, "woven")
		s := w.Stress(shell.TableStrength(t, allMat))
		structure := e.a.Zones[laminate.StructuralLayer].Thickness
		w.Add("thickness that the strength table counts", "tc", "thickness of the structure + what counts of the barrier", worked.Put("# + #", w.Length(structure), w.Length(t-structure)), w.Length(t), w.LengthUnit(), c.Reason)
		w.Add("least tensile strength of the table at that thickness", "S", "by thickness, "+worked.Pick(allMat, "a wall all of mat", "a wall of mat and woven roving"), "", s, w.StressUnit(), c.Basis)
		w.Add("thickness wanted under "+c.Case, "tw", "k·p·2·R·10/(2·S·retention), k "+worked.Pick(e.special(), "the factor of the form", "1 of a straight shell"), worked.Put("#·#·2·#·10/(2·#·#)", e.form.Hoop, w.Stress(l.inside), w.Length(e.round.inside), s, e.kept), w.Length(c.Demand), w.LengthUnit(), c.Basis)
	case AxialStrength:
		x.WorkAlong(&w.List, k.Name, k.NAxial, &of)
	case ExternalPressure:
		w.external(c)
	case UnitLoad:
		w.unitLoad(c)
	case MinimumModulus:
		m := &e.r.Membrane
		w.Add("lower stretching modulus, cold", "Ec", "min(Eat, Eht)/retention", worked.Put("min(#, #)/#", w.Stress(m.Ex), w.Stress(m.Ey), e.kept), w.Stress(c.Capacity), w.StressUnit(), c.Basis)
	case PlateStress:
		if e.s.Part.Basis() == laminate.StrainLimit {
			w.lowest()
		}
		x.WorkPlateStress(&w.List, &of)
	case PlateDeflection:
		w.lowest()
		x.WorkPlateDeflection(&w.List, &of)
	case StepLoad:
		w.lowest()
		x.WorkStep(&w.List, &of)
	case FlangeThickness:
		x.WorkFlangeThickness(&w.List, &of)
	case FlangeClass:
		x.WorkFlangeClass(&w.List, &of)
	case BoltTorque:
		x.WorkBoltTorque(&w.List, &of)
	case BottomSupport:
		x.WorkBottom(&w.List, &of)
	case others.Pressure, others.Vacuum:
		form.WorkProved(&w.List, c.Name, &of)
	}
	demand, in := w.Of(c.Demand, c.Kind)
	capacity, _ := w.Of(c.Capacity, c.Kind)
	w.Steps = append(w.Steps, worked.Step{What: c.Title(), Symbol: "utilization", Formula: "required / allowable", Numbers: worked.Put("#/#", demand, capacity), In: in, Value: c.Ratio, Source: c.Basis, Limit: "1", Answer: c.Answer.String()})
}

// lowest writes the modulus that plates and heads are figured with.
func (w *working) lowest() { w.Lowest(w.e.r.Membrane, w.e.lam.FreeBending()) }

func (w *working) unitLoad(c *Criterion) {
	hoop, axial, all, why := w.e.unitGlass()
	least, _ := w.e.failureStrain()
	direction, _, _ := strings.Cut(c.Reason, ";")
	if strings.HasPrefix(direction, "along") {
		hoop = axial
	}
	if why == "" {
		w.UnitLoad(w.e.s.Part.KFactors.Values, least, w.e.kept, direction, hoop, all, c.Capacity, c.Basis)
	}
}

func (w *working) external(c *Criterion) {
	e := w.e
	w.Add("outside pressure of the service", "pv", "as the document states", "", w.Stress(c.Demand), w.StressUnit(), "")
	if e.s.Part.Form == laminate.HeadPart {
		w.lowest()
		e.facts().WorkDome(&w.List, &form.Weighing{Demand: c.Demand, Capacity: c.Capacity, Basis: c.Basis})
		return
	}
	f, free, open := e.outside()
	if open != "" {
		return
	}
	if e.s.Part.Form == laminate.Cone {
		e.facts().WorkCone(&w.List, e.r.Thickness)
	}
	if free.Given && sound(free.Length) && free.From != "" {
		w.Add("free length", "L", free.From, "", w.Length(free.Length), w.LengthUnit(), "")
	}
	w.Add("outside diameter", "Do", "2·Ro", worked.Put("2·#", w.Length(e.round.out)), w.Length(f.D), w.LengthUnit(), "")
	if !free.Given {
		free.Length = math.Inf(1)
	}
	w.Collapse(&f, &e.r.Membrane, e.lam.FreeBending(), free.Length, e.round.middle, c.Capacity, c.Basis)
	if x := &e.r.Stiffeners; x.Known {
		w.Rings(&f, x.Spacing, x.Inertia, x.Width, e.s.Service.Vacuum.SI())
	}
}
