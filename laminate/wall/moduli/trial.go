package moduli

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stiffness"
)

// Trial is what walls have in common that are tried out one after another, figured
// once: moduli of plies, and the stiffness of the same plies in the same order. What
// it gives stands until it is asked again.
type Trial struct {
	laws    *Laws
	stacked [2]stacked // the last ones
	next    int
}

type stacked struct {
	layers []stiffness.Layer
	lam    stiffness.Laminate
}

// Laws are those of a library and a share of the cold moduli. No trial has new ones.
func (t *Trial) Laws(lib *laminate.Library, kept float64) *Laws {
	if t == nil {
		return New(lib, kept)
	}
	if t.laws == nil || t.laws.lib != lib || t.laws.kept != kept {
		t.laws = New(lib, kept)
	}
	return t.laws
}

// Stiffness is that of the layers. Without a trial it is made in the memory given.
// Its errors are those of stiffness.New.
func (t *Trial) Stiffness(layers []stiffness.Layer, memory *stiffness.Laminate) (*stiffness.Laminate, error) {
	if t == nil {
		return memory, memory.Stack(layers)
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
