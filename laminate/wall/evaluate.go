package wall

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stiffness"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/wall/moduli"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/laminate/wall/shell"
)

// evaluation is one run of Evaluate.
type evaluation struct {
	inputs
	r *Result

	units quantity.System // the reader's

	rows      []counted
	laws      *moduli.Laws
	layers    []stiffness.Layer
	lam       *stiffness.Laminate // nil where Problem says why
	memory    stiffness.Laminate  // what lam points to
	wholeOpen string              // why the whole wall's thickness is not known
	warmOpen  string              // why moduli say nothing about the warm wall
	kept      float64             // share of the cold moduli
	round     round
	form      form.Shaped
	loads     []applied // as Result.Cases
	flat      float64   // Pa, the pressure from inside on what is no round shell
	flatCase  string
}

// Evaluate figures whether the structure of s is enough for its part and
// service. a has to be the analysis of s; lib supplies typical fiber and resin
// figures where s gives none, and may be nil.
//
// The plies that count are those of the structural layer, and of the barrier
// where asked; A, B and D are about their middle. Strains are a shell's that
// cannot warp, by classical lamination theory. Where there are conditions each
// is judged by itself, and what the service states and none of them reaches is
// told to be open.
func Evaluate(s *laminate.Schedule, lib *laminate.Library, a *laminate.Analysis, o Options) *Result {
	if s == nil || a == nil || len(a.Rows) != len(s.Plies) {
		return &Result{NotChecked: NotChecked(), Problem: "there is no analysis of this schedule to evaluate"}
	}
	if len(s.Conditions) > 0 {
		return evaluateConditions(s, lib, a, o)
	}
	e := begin(inputs{s: s, lib: lib, a: a, o: o})
	defer e.end()
	e.run()
	if at := e.plyCase(); at >= 0 {
		e.r.PlyCase = e.r.Cases[at].Name
	}
	e.assumptions()
	e.r.of = e.inputs
	return e.r
}

// inputs are what is evaluated.
type inputs struct {
	s   *laminate.Schedule
	lib *laminate.Library
	a   *laminate.Analysis
	o   Options

	beyond service.Unreached // what loads it beside
}

// spare are evaluations that ended: of a wall of thousands of rows most of the
// cost of an edit would be their memory.
var spare = sync.Pool{New: func() any { return new(evaluation) }}

// begin is an evaluation that nothing is known of yet.
func begin(of inputs) *evaluation {
	e := spare.Get().(*evaluation)
	*e = evaluation{inputs: of, r: &Result{NotChecked: NotChecked()}, rows: e.rows[:0], layers: e.layers[:0], memory: e.memory}
	return e
}

// end gives up the evaluation, but for its result.
func (e *evaluation) end() {
	clear(e.rows) // of what they point to, nothing is kept
	e.inputs, e.r, e.laws, e.lam = inputs{}, nil, nil, nil
	spare.Put(e)
}

// Plies are the strains of the rows that count under one case, from the process
// side outward, as the schedule was when it was evaluated: figured anew, since
// judging needs none of them.
func (r *Result) Plies() []PlyStrain {
	if r.of.s == nil {
		return nil
	}
	e := begin(r.of)
	defer e.end()
	e.run()
	return e.strainPlies()
}

// run judges the wall.
func (e *evaluation) run() {
	e.units = e.o.Units.Or(e.s.Units)
	e.warm()
	e.laws = e.o.Trial.Laws(e.lib, e.kept)
	e.collect()
	e.measure()
	if e.round.open == "" {
		x := e.facts()
		if e.form, e.round.open = x.Shape(); e.form.Outside {
			e.r.FormOpen = e.round.open
		}
		if x.Rests(e.r.FormOpen) {
			e.r.Rests = e.r.FormOpen
		}
	}
	e.load()
	e.respond()
	e.judge()
	if e.r.Rests != "" && e.r.FormOpen == "" { // of one whose proof does not reach its form says so
		e.note(e.facts().RestsNote(e.r.Rests))
	}
}

func (e *evaluation) note(text string) { e.r.Notes = append(e.r.Notes, text) }

// moduliOpen says why what rests on moduli cannot be told, or nothing.
func (e *evaluation) moduliOpen() string {
	if e.lam == nil {
		return e.r.Problem
	}
	return e.warmOpen
}

// respond strains the wall under every case.
func (e *evaluation) respond() {
	strong := e.o.Trial == nil && e.strengthsKnown()
	for i := range e.r.Cases {
		c := &e.r.Cases[i]
		c.FirstPly = "cannot be determined: no ply's strengths are known"
		if reason := e.moduliOpen(); reason != "" {
			c.FirstPly = "cannot be determined: " + reason
			continue
		}
		d, err := e.lam.Shell([3]float64{c.NAxial, c.NHoop, 0})
		if err != nil {
			c.FirstPly = "cannot be determined: " + err.Error()
			continue
		}
		strain := d.Strain()
		if !sound(strain[0]) || !sound(strain[1]) || !sound(strain[2]) {
			continue
		}
		c.StrainAxial, c.StrainHoop, c.StrainShear = strain[0], strain[1], strain[2]
		c.StrainKnown = true
		if strong {
			c.FirstPly = e.firstPly(d)
		}
	}
}

// judge fills in the criteria, governing first.
func (e *evaluation) judge() {
	e.r.Criteria = e.ofForm()
	if e.s.Part.Basis() == laminate.NoBasis && (e.r.Loaded || len(e.r.Unknown) > 0) {
		e.r.Criteria = append(e.r.Criteria, Criterion{Name: WhichBasis, Answer: Incomplete, Governs: true,
			Reason: "neither process nor design basis is given, so which criteria decide is not known (process, design_basis)",
			Basis:  "contact-molded walls usually go by the strength table, wound ones by the strain limit"})
	}
	e.onMinimum()
	sortCriteria(e.r.Criteria)
}

// onMinimum weighs what rests on typical moduli on minimum ones too.
func (e *evaluation) onMinimum() {
	if e.lam == nil || e.moduliOpen() != "" {
		return
	}
	hoop, axial, _, why := e.unitGlass()
	m, t := &e.r.Membrane, e.r.Thickness
	if why != "" || !(m.Ex > 0 && m.Ey > 0 && t > 0) {
		return
	}
	// Shares of the typical stiffness; a wall that is better than typical in one
	// direction is not credited with it.
	around := math.Min(1, e.kept*shell.UnitStiffness(hoop)/(m.Ey*t))
	along := math.Min(1, e.kept*shell.UnitStiffness(axial)/(m.Ex*t))
	if !(around > 1e-6 && along > 1e-6) { // nothing that carries that way
		return
	}
	for i := range e.r.Criteria {
		c := &e.r.Criteria[i]
		if !c.Judged() {
			continue
		}
		switch c.Name {
		case HoopStrain:
			c.RatioMinimum = c.Ratio / around
		case AxialStrain:
			c.RatioMinimum = c.Ratio / along
		case ResinStrain, ExternalPressure:
			c.RatioMinimum = c.Ratio / math.Min(around, along)
		}
	}
}

// sortCriteria puts what decides first, the worst before the rest.
func sortCriteria(list []Criterion) {
	slices.SortStableFunc(list, func(a, b Criterion) int {
		if d := rank(&b) - rank(&a); d != 0 {
			return d
		}
		return cmp.Compare(b.Ratio, a.Ratio)
	})
}

// rank puts what decides before what is shown, the worst answer first, and of alike
// ones what rests on others: nobody shall read a figure here for the answer.
func rank(c *Criterion) int {
	n := [...]int{NotApplicable: 0, Holds: 2, Incomplete: 4, Fails: 6}[c.Answer]
	if c.Governs && c.Answer != NotApplicable {
		n += 10
	}
	if others.Asked(c.Name) {
		n++
	}
	return n
}

// strainPlies gives every counted row's strains under one case.
func (e *evaluation) strainPlies() []PlyStrain {
	list := make([]PlyStrain, len(e.rows))
	at := e.plyCase()
	var d stiffness.Deformation
	if at >= 0 {
		c := &e.r.Cases[at]
		d, _ = e.lam.Shell([3]float64{c.NAxial, c.NHoop, 0}) // it did already: see respond
	}
	for i := range e.rows {
		c, p := &e.rows[i], &list[i]
		f := c.figures
		*p = PlyStrain{Row: c.row, First: f.First, Last: f.Last, Basis: c.basis,
			E1: c.law.E1, E2: c.law.E2, G12: c.law.G12, Nu12: c.law.Nu12}
		if sound(c.angle) {
			p.Angle = c.angle
		}
		if sound(f.ToHere) {
			p.Bottom, p.Top = f.ToHere-c.thick, f.ToHere
		}
		if at < 0 {
			continue
		}
		pt := e.lam.At(c.layer, stiffness.Middle, d)
		p.Strain1, p.Strain2, p.Strain12 = pt.PlyStrain[0], pt.PlyStrain[1], pt.PlyStrain[2]
		p.Stress1, p.Stress2, p.Stress12 = pt.PlyStress[0], pt.PlyStress[1], pt.PlyStress[2]
	}
	return list
}

// plyCase is the case that strains the wall most of all that are judged, by
// the strain criteria; else the first whose strains are known, else −1. The
// case of outside pressure would show next to nothing: a wall buckles at small
// strains.
func (e *evaluation) plyCase() int {
	most, name := 0.0, ""
	for i := range e.r.Criteria {
		if c := &e.r.Criteria[i]; c.Kind == quantity.Strain && c.Ratio > most {
			most, name = c.Ratio, c.Case
		}
	}
	first := -1
	for j := range e.r.Cases {
		c := &e.r.Cases[j]
		if !c.StrainKnown {
			continue
		}
		if c.Name == name {
			return j
		}
		if first < 0 {
			first = j
		}
	}
	return first
}

// assumptions notes what was taken for granted.
func (e *evaluation) assumptions() {
	if e.o.CountBarrier {
		e.note("The corrosion barrier counts as structure, as asked; the outer surface does not.")
	} else {
		note := "The corrosion barrier and the outer surface are not counted"
		if e.a.Barrier.Thickness > 0 && governedBy(&e.s.Part, laminate.StrengthTable) {
			note += ", but for what the strength table counts"
		}
		e.note(note + ".")
	}
	if e.lam == nil || e.o.Trial != nil {
		return
	}
	e.r.Notes = append(e.r.Notes, e.laws.Assumptions(e.units)...)
	if c := e.lam.Coupling(); c.Shear > 0.01 {
		e.note("The counted plies are not balanced: the wall twists under pressure.")
	}
	e.note("Strain from heat, cure shrinkage and moisture is left out, and so is creep.")
}
