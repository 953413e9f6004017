// Package maker makes exercises from a seed: services whose facts agree, walls
// for them, and what goes wrong with walls. What it makes can be answered; the
// answer is the practice's to compute.
package maker

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/practice"
)

// Generate makes an exercise of a step of the course (1 to exercise.Steps;
// another number counts as the nearest) from a seed: a service whose facts
// agree, and an answer that breaks no rule. The same seed, step and library
// give the same exercise.
func Generate(seed uint64, step int, lib *laminate.Library) *exercise.Exercise {
	step = max(1, min(step, exercise.Steps))
	m := &maker{rand: rand.New(rand.NewPCG(seed, uint64(step))), library: lib, step: step}
	const most = 40
	for try := range most + 1 {
		base, solved := m.base(try == most)
		if solved == nil {
			continue
		}
		turn := m.turn
		if step == joints {
			turn = m.joint
		}
		if e := turn(base, solved); e != nil {
			e.ID = "made-" + strconv.Itoa(step) + "-" + strconv.FormatUint(seed, 10)
			e.Title = m.titled(e)
			e.Given.Title = e.Title
			return e
		}
	}
	// A library without a veil or mat to build from: the plainest task there is.
	base, _ := m.base(true)
	base.ID = "made-" + strconv.Itoa(step) + "-" + strconv.FormatUint(seed, 10)
	base.Title = m.titled(base)
	base.Given.Title = base.Title
	return base
}

type maker struct {
	rand    *rand.Rand
	library *laminate.Library
	step    int
	line    line // what flows, and where
}

func pick[T any](r *rand.Rand, list []T) T { return list[r.IntN(len(list))] }

// between draws a multiple of a grain, both ends included.
func (m *maker) between(low, high, grain float64) float64 {
	n := int((high-low)/grain + 0.5)
	return low + grain*float64(m.rand.IntN(n+1))
}

func (m *maker) titled(e *exercise.Exercise) string {
	if e.Overlay != overlay.None {
		what := called(e.Overlay)
		laid := strings.ToUpper(what[:1]) + what[1:] + ", pipe for " + m.line.fluid
		switch e.Kind {
		case exercise.Predict:
			return laid + ", as laid"
		case exercise.Fix:
			return laid + ", to be put right"
		default: // in what order is the task's to say
		}
		return laid
	}
	switch e.Kind {
	case exercise.Build:
		return "A barrier for " + m.line.fluid
	case exercise.Choose:
		return "Veil and resin for " + m.line.fluid
	case exercise.Fix:
		return "What is wrong in a pipe for " + m.line.fluid
	case exercise.Predict:
		return "Figures of a pipe for " + m.line.fluid
	case exercise.Order:
		return "Plies of a pipe for " + m.line.fluid
	case exercise.Ignition:
		return "Ignition test of a pipe for " + m.line.fluid
	case exercise.NoKind:
	}
	return m.line.fluid
}

// base draws a service and a wall without its barrier, and the barrier that
// answers it; nil where the rules break on every barrier. plain takes a service
// that asks for nothing.
func (m *maker) base(plain bool) (*exercise.Exercise, *laminate.Schedule) {
	sc := scenes[0]
	if !plain {
		sc = pick(m.rand, scenesOf(m.step))
	}
	m.line = pick(m.rand, sc.lines)
	e := &exercise.Exercise{Step: m.step, Kind: exercise.Build, KeepStructure: true}
	e.Task = "The structure is given. Put the barrier in front of it, at the process side, and leave the structure as it is."
	e.Given.Service = m.service(sc)
	e.Given.Part = laminate.Part{
		Form: laminate.Pipe, Process: laminate.ContactMolded, Ends: laminate.ClosedEnds, Flanged: laminate.Some(m.rand.IntN(2) == 0),
		InsideDiameter: quantity.New(pick(m.rand, sc.inches), quantity.Inch),
		Length:         quantity.New(pick(m.rand, []float64{10, 12, 20}), quantity.Foot),
	}
	if sc.conductive {
		e.Given.Part.Grounding = "lug at each end"
	}
	family := laminate.VinylEster
	if e.Given.Service.Temperature.In(quantity.Fahrenheit) > 180 {
		family = laminate.NovolacVinylEster
	}
	given := edit.Recipe{Wall: laminate.Resin{ID: "structure", Family: family}, Coat: catalog.Topcoat}
	for _, material := range pick(m.rand, structures) {
		given.Structure = append(given.Structure, laminate.Ply{Material: material, Count: 1})
	}
	e.Given = *given.Build(&e.Given, m.library)
	e.Scenario = m.scenario(&e.Given)
	e.Hints = []exercise.Hint{
		{Text: "What in the fluid attacks glass, what attacks the resin, and how hot does it get?"},
		{Text: "The usual barrier is one veil and two mats, with a gel stop after them; hypochlorite and chlorine dioxide need two and four."},
	}
	solved := practice.Solve(e, m.library, quantity.US).Schedule
	if !m.sound(e, solved) {
		return e, nil
	}
	return e, solved
}

// sound tells whether nothing is broken or incomplete of an answer.
func (m *maker) sound(e *exercise.Exercise, s *laminate.Schedule) bool {
	if s == nil {
		return false
	}
	breaks, incompletes, _, _ := practice.Judge(e, s, m.library, quantity.US).Counts()
	return breaks == 0 && incompletes == 0
}

func (m *maker) service(sc scene) laminate.Service {
	tenth := func(low, high float64) float64 { return m.between(low, high, 0.5) }
	heat := sc.heat
	if m.line.heat[1] > 0 {
		heat = m.line.heat
	}
	s := laminate.Service{
		Fluid: m.line.fluid, Contact: laminate.Immersed, Contains: laminate.TraitSet(sc.contains...),
		Temperature: quantity.New(m.between(heat[0], heat[1], 5), quantity.Fahrenheit),
		PH:          laminate.PHRange{Lowest: tenth(sc.lowest[0], sc.lowest[1]), Highest: tenth(sc.highest[0], sc.highest[1]), Given: true},
		Pressure:    quantity.New(0, quantity.PSI), Vacuum: quantity.New(0, quantity.PSI),
		Conductive: laminate.Some(sc.conductive), Abrasive: laminate.Some(sc.abrasive),
	}
	if p := m.line.percent; p[1] > 0 {
		s.Concentration = laminate.Some(float64(p[0]+m.rand.IntN(p[1]-p[0]+1)) / 100)
	}
	return s
}

func (m *maker) scenario(s *laminate.Schedule) string {
	v := &s.Service
	share := ""
	if v.Concentration.Given {
		share = quantity.Share(v.Concentration.Value) + " by mass, "
	}
	return fmt.Sprintf("%s: %s%s, pH %s to %s.", m.line.story, share, quantity.US.Temperature(v.Temperature.SI()),
		quantity.Number(v.PH.Lowest, 1), quantity.Number(v.PH.Highest, 1))
}

// turn makes the exercise of a kind that the step has, nil where it does not
// work out with this service.
func (m *maker) turn(e *exercise.Exercise, solved *laminate.Schedule) *exercise.Exercise {
	e.Kind = pick(m.rand, kindsOf[m.step-1])
	switch e.Kind {
	case exercise.Build:
		return e
	case exercise.Choose:
		e.KeepStructure = false
		e.Task = "Name the veil and the resin family for this service."
		e.Given.Plies, e.Given.Resins = nil, nil
		a := practice.Solve(e, m.library, quantity.US)
		if !m.sound(e, practice.Chosen(e, m.library, a.Veil, a.Family)) {
			return nil
		}
		return e
	case exercise.Predict:
		e.KeepStructure = false
		e.Task = "Predict the figures."
		e.Given = *solved
		e.Questions = []exercise.Question{{Ask: exercise.BarrierThickness}, {Ask: exercise.BarrierGlass}, {Ask: exercise.WallThickness}}
		e.Hints = []exercise.Hint{{Text: "A 1.5 oz mat at 27 % glass is about 49 mil, a 15 mil veil about 15."}, {Text: "Glass content is Σ glass over Σ mass, never the mean of the plies' shares."}}
		return e
	case exercise.Ignition:
		return m.burn(e, solved)
	case exercise.Order:
		return m.jumble(e, solved)
	case exercise.Fix:
		return m.damage(e, solved)
	case exercise.NoKind:
	}
	return nil
}

// burn cuts specimens from the barrier as it may have been laid.
func (m *maker) burn(e *exercise.Exercise, solved *laminate.Schedule) *exercise.Exercise {
	e.KeepStructure, e.Given = false, *solved
	a := laminate.Analyze(solved, m.library)
	known, err := practice.Burned(a, inspection.Barrier)
	share, ok := a.Barrier.GlassMassFraction()
	if err != nil || !ok {
		return nil
	}
	lowest := float64(int(100*share+0.5)-5) / 100
	e.Demands.Barrier.GlassContent = spec.Range{Lowest: max(0.01, lowest), Highest: lowest + 0.1, Given: true}
	laid := share + m.between(-0.09, 0.09, 0.01)
	for range 3 + m.rand.IntN(3) {
		g := laid + m.between(-0.01, 0.01, 0.005)
		before := m.between(4.8, 5.2, 0.005)
		after := before * (g + known.Filler*(1-g-known.Organic))
		e.Specimens = append(e.Specimens, exercise.Specimen{Group: inspection.Barrier,
			Before: grams(before), After: grams(after)})
	}
	e.Questions = []exercise.Question{{Ask: exercise.Loss}, {Ask: exercise.GlassLeft}, {Ask: exercise.Acceptance}}
	e.Task = "Read the test: the loss, the glass content it proves, and accept or reject."
	e.Hints = []exercise.Hint{{Text: "Loss is what burned, over what was there before."}, {Text: "Filler stays with the glass, an organic veil goes with the resin."}}
	for i := range e.Questions {
		if _, err := practice.TruthOf(e, i, m.library, quantity.US); err != nil {
			return nil
		}
	}
	return e
}

func grams(v float64) quantity.Mass {
	return quantity.New(math.Round(v*1000)/1000, quantity.Gram)
}

// jumble shuffles the single plies of a sound wall until the rules mind.
func (m *maker) jumble(e *exercise.Exercise, solved *laminate.Schedule) *exercise.Exercise {
	e.KeepStructure = false
	e.Task = "Put the plies in the order in which they are laid, from the process side."
	e.Hints = []exercise.Hint{{Text: "The veil first, the waxed topcoat last."}, {Text: "Plies in the resin of the veil are the barrier; woven roving lies between mats."}}
	return m.shuffle(e, solved)
}

// shuffle lays the single plies of what is sound about, nil where they are too many
// or the rules mind nothing of it.
func (m *maker) shuffle(e *exercise.Exercise, solved *laminate.Schedule) *exercise.Exercise {
	s := solved.Clone()
	if solved.NumberOfPlies() <= exercise.MostOrdered {
		s.Plies = nil
		for _, p := range solved.Plies {
			gel := p.GelAfter
			for n := range p.Count {
				one := p
				one.Count, one.GelAfter = 1, gel && n == p.Count-1
				s.Plies = append(s.Plies, one)
			}
		}
	}
	if len(s.Plies) > exercise.MostOrdered {
		return nil
	}
	for i := range s.Plies {
		s.Plies[i].Zone = laminate.NoZone
	}
	if !m.sound(e, s) {
		return nil // without its zones written out it reads otherwise
	}
	m.rand.Shuffle(len(s.Plies), func(i, j int) { s.Plies[i], s.Plies[j] = s.Plies[j], s.Plies[i] })
	e.Given = *s
	if m.full(e, s) {
		return nil
	}
	return e
}

// damage does one or two things to a sound wall that the rules mind.
func (m *maker) damage(e *exercise.Exercise, solved *laminate.Schedule) *exercise.Exercise {
	e.KeepStructure = false
	e.Task = "Select the defective plies and put the schedule right. Change no more than you have to."
	e.Hints = []exercise.Hint{{Text: "Go through the plies from the fluid outward: what is each one for?"}, {Text: "Look at the veil's fiber, the number of mats, the gel stop, the woven roving and the topcoat."}}
	s := solved.Clone()
	for range 1 + m.rand.IntN(2) {
		pick(m.rand, damages[m.step-1])(m, s)
	}
	e.Given = *s
	if m.full(e, s) || !m.sound(e, practice.Solve(e, m.library, quantity.US).Schedule) {
		return nil
	}
	return e
}

// full tells whether a schedule answers an exercise; of a fix, whether there
// is nothing to be fixed, whatever plies are blamed.
func (m *maker) full(e *exercise.Exercise, s *laminate.Schedule) bool {
	a := practice.Solve(e, m.library, quantity.US)
	a.Schedule = s
	mark := practice.Grade(e, a, m.library, quantity.US)
	return mark.Full()
}
