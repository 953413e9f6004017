package wall

import (
	"slices"

	"frp/veilwright/laminate/stiffness"
	"frp/veilwright/laminate/wall/moduli"
)

// Trial is where walls are tried out one after another: of each there are only the
// answers, without what decides nothing (notes, and which ply gives way first), and
// they stand in the memory of the wall before. What they have in common is figured
// once: moduli, and the stiffness of plies that count.
type Trial struct {
	r       Result
	loads   []applied
	laws    *moduli.Laws
	stacked [2]stacked // the last ones
	next    int
}

// stacked is what counts of a wall, and its stiffness.
type stacked struct {
	layers []stiffness.Layer
	lam    stiffness.Laminate
}

// result is an empty one in the memory of the last.
func (t *Trial) result() *Result {
	t.r = Result{Cases: t.r.Cases[:0], Unknown: t.r.Unknown[:0], Criteria: t.r.Criteria[:0]}
	return &t.r
}

// lawsOf are the moduli figured for earlier walls, where they hold for this one.
func (e *evaluation) lawsOf() *moduli.Laws {
	t := e.o.Trial
	if t == nil {
		return moduli.New(e.lib, e.kept)
	}
	if !t.laws.Hold(e.lib, e.kept) {
		t.laws = moduli.New(e.lib, e.kept)
	}
	return t.laws
}

// stiffnessOf is that of the layers, in the memory of the evaluation or the trial.
func (e *evaluation) stiffnessOf(layers []stiffness.Layer) (*stiffness.Laminate, error) {
	t := e.o.Trial
	if t == nil {
		return &e.memory, e.memory.Stack(layers)
	}
	for i := range t.stacked {
		if s := &t.stacked[i]; len(s.layers) > 0 && slices.Equal(s.layers, layers) {
			return &s.lam, nil
		}
	}
	s := &t.stacked[t.next]
	t.next = (t.next + 1) % len(t.stacked)
	s.layers = append(s.layers[:0], layers...)
	err := s.lam.Stack(layers)
	if err != nil {
		s.layers = s.layers[:0]
	}
	return &s.lam, err
}
