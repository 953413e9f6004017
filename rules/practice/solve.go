package practice

import (
	"cmp"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/rules/all"
)

// Solve computes an answer that marks full: the leanest of the best that the
// library's veils and mats and the resin families give, judged by the rules.
// The same exercise and library give the same answer.
func Solve(e *exercise.Exercise, lib *laminate.Library, units quantity.System) Answer {
	v := &solver{exercise: e, library: lib, list: all.Rules(), bench: benchOf(e, lib, units)}
	switch e.Kind {
	case exercise.Build:
		return Answer{Schedule: v.best(choices(e, lib), nil)}
	case exercise.Choose:
		return v.choose()
	case exercise.Fix:
		if e.Overlay != overlay.None {
			return Answer{Schedule: v.relay()}
		}
		s := v.fix()
		a := Answer{Schedule: s}
		given, faults := faultsOf(e, s, lib, units)
		for _, f := range faults {
			if !onlyLacks(&e.Given, s) {
				a.Faults = append(a.Faults, singles(given.Analysis, f.Rows)...)
			}
		}
		slices.Sort(a.Faults)
		a.Faults = slices.Compact(a.Faults)
		return a
	case exercise.Order:
		return Answer{Schedule: v.order()}
	case exercise.Predict, exercise.Ignition:
		a := Answer{Values: make([]string, len(e.Questions))}
		for i, q := range e.Questions {
			if t, err := TruthOf(e, i, lib, units); err == nil {
				a.Values[i] = Shown(q, t, units)
			}
		}
		return a
	case exercise.NoKind:
	}
	return Answer{}
}

type solver struct {
	exercise *exercise.Exercise
	library  *laminate.Library
	list     []*rules.Rule
	bench    *bench
}

// weight is how far a schedule is from what is wanted; the first figure that
// differs decides.
type weight [5]int

func (w weight) less(o weight) bool { return slices.Compare(w[:], o[:]) < 0 }

func (v *solver) weigh(s *laminate.Schedule) weight {
	var w weight
	for _, l := range demands(v.exercise, s, v.library, quantity.US) {
		switch l.Verdict {
		case acceptance.Fails:
			w[0]++
		case acceptance.Incomplete:
			w[2]++
		case acceptance.Meets:
		}
	}
	r := v.bench.judge(v.list, s, rules.Options{})
	breaks, incompletes, warnings, _ := r.Counts()
	w[1], w[3] = breaks, warnings
	w[2] += incompletes
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Severity == rules.Note && (f.Rule.Family == "veil" || f.Rule.Family == "resin") {
			w[4]++
		}
	}
	return w
}

// choice is what a barrier is made of; counts of 0 are left to the service.
type choice struct {
	veil        string
	family      laminate.Family
	veils, mats int
}

// Families from the plainest that stands most to the dearest; what decides
// between those that are equally good (common practice, no source).
var familyOrder = []laminate.Family{
	laminate.VinylEster, laminate.NovolacVinylEster, laminate.BrominatedVinylEster, laminate.BrominatedNovolacVinylEster,
	laminate.BisphenolFumarate, laminate.Isophthalic, laminate.Terephthalic, laminate.Chlorendic,
}

// choices lists every barrier to be tried, leanest first.
func choices(e *exercise.Exercise, lib *laminate.Library) []choice {
	var list []choice
	for _, mats := range []int{catalog.SingleBuild.Mats, catalog.DoubleBuild.Mats} {
		for veils := catalog.SingleBuild.Veils; veils <= catalog.DoubleBuild.Veils; veils++ {
			for _, family := range familyOrder {
				for _, veil := range veilIDs(e, lib) {
					list = append(list, choice{veil, family, veils, mats})
				}
			}
		}
	}
	return list
}

func veilIDs(e *exercise.Exercise, lib *laminate.Library) []string {
	var ids []string
	for _, m := range catalog.Materials(lib, &e.Given, func(m *laminate.Material) bool { return m.Form == laminate.Veil }) {
		ids = append(ids, m.ID)
	}
	// The usual thickness first: a thinner veil is for those who mean it.
	slices.SortStableFunc(ids, func(a, b string) int { return cmp.Compare(thin(a, e, lib), thin(b, e, lib)) })
	return ids
}

func thin(id string, e *exercise.Exercise, lib *laminate.Library) int {
	if m, ok := lib.Material(&e.Given, id); ok && m.Fiber.Glass() && m.ArealMass.SI() < 0.04 {
		return 1
	}
	return 0
}

// best lays every choice and keeps the first of the best; start, where not nil,
// is kept unless something is better.
func (v *solver) best(list []choice, start *laminate.Schedule) *laminate.Schedule {
	var best *laminate.Schedule
	var least weight
	if start != nil {
		best, least = start, v.weigh(start)
	}
	base := v.exercise
	if start != nil {
		on := *v.exercise
		on.Given = *start
		base = &on
	}
	for _, c := range list {
		if least == (weight{}) && best != nil {
			break
		}
		s := laidOut(base, v.library, c)
		if w := v.weigh(s); best == nil || w.less(least) {
			best, least = s, w
		}
	}
	return best
}

func (v *solver) choose() Answer {
	var best choice
	var least weight
	for _, c := range choices(v.exercise, v.library) {
		if c.veils != catalog.SingleBuild.Veils || c.mats != catalog.SingleBuild.Mats {
			continue
		}
		c.veils, c.mats = 0, 0
		if w := v.weigh(laidOut(v.exercise, v.library, c)); best.veil == "" || w.less(least) {
			best, least = c, w
		}
	}
	return Answer{Veil: best.veil, Family: best.family}
}

// fix takes the mechanical fixes as long as they better the schedule, and
// lays the barrier anew where they are not enough.
func (v *solver) fix() *laminate.Schedule {
	const most = 30
	s := v.exercise.Given.Clone()
	for range most {
		now := v.weigh(s)
		next := (*laminate.Schedule)(nil)
		r := v.bench.judge(v.list, s, rules.Options{Fixes: true})
		for i := range r.Findings {
			if f := &r.Findings[i]; f.Fix != nil && f.Severity >= rules.Warning {
				if t, err := f.Fix.Edit.Do(s); err == nil && v.weigh(t).less(now) {
					next = t
					break
				}
			}
		}
		if next == nil {
			break
		}
		s = next
	}
	if w := v.weigh(s); w[0]+w[1]+w[2]+w[3] == 0 {
		return s
	}
	return v.best(choices(v.exercise, v.library), s)
}
