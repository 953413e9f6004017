package practice

import (
	"iter"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/equipment"
)

// mostSteps is how many single changes are tried one on the other before what is
// laid is laid anew as the program proposes it.
const mostSteps = 4

// relay puts right what is laid over a joint or at a nozzle: by the single change
// that leaves least against it, again as long as one betters it; where nothing is
// left of it the way that changed least stands. What no change of a ply or two mends
// is laid as the program proposes.
func (v *solver) relay() *laminate.Schedule {
	s := v.exercise.Given.Clone()
	s.Plies = nil
	for _, p := range v.exercise.Given.Plies { // ply by ply, so that one can be laid between two
		gel := p.GelAfter
		for n := range p.Count {
			p.GelAfter = gel && n == p.Count-1
			one := p
			one.Count = 1
			s.Plies = append(s.Plies, one)
		}
	}
	now := v.weigh(s)
	for range mostSteps {
		var best *laminate.Schedule
		least := now
		for t := range v.changes(s) {
			if w := v.weigh(t); w.less(least) {
				best, least = t, w
			}
			if least == (weight{}) {
				break
			}
		}
		if best == nil {
			break
		}
		s, now = best, least
	}
	if now[0]+now[1]+now[2]+now[3] == 0 {
		return s
	}
	if t := v.proposed(); t != nil && v.weigh(t).less(now) {
		return t
	}
	return s
}

// proposed is what the program lays where nothing is laid yet, nil where it cannot.
func (v *solver) proposed() *laminate.Schedule {
	t := v.exercise.Given.Clone()
	t.Plies = nil
	j, over := v.exercise.Job(t)
	p, err := equipment.Propose(j, v.library, equipment.Options{Options: advice.Options{Units: quantity.US}})
	if err != nil {
		return nil
	}
	t.Plies = slices.Clone(p.Job.Laminates[p.Job.Laminate(over.Laminate)].Plies)
	t.Resins = exercise.WithResins(t.Resins, p.Job.Resins)
	if len(t.Plies) == 0 {
		return nil
	}
	return t
}

// changes gives each schedule that one change makes of s, what changes least first:
// a row moved, a ply taken out or let gel after, a ply laid that is in the wall or
// here, another veil or mat in its place, woven roving with the mat over it.
func (v *solver) changes(s *laminate.Schedule) iter.Seq[*laminate.Schedule] {
	return func(yield func(*laminate.Schedule) bool) {
		n, on := len(s.Plies), true
		try := func(do func(t *laminate.Schedule)) {
			if on {
				t := s.Clone()
				do(t)
				on = yield(t)
			}
		}
		for i := range n {
			for j := range n {
				if i != j {
					try(func(t *laminate.Schedule) {
						p := t.Plies[i]
						t.Plies = slices.Insert(slices.Delete(t.Plies, i, i+1), j, p)
					})
				}
			}
		}
		laid := v.materials()
		for i := range n + 1 {
			for _, id := range laid {
				try(func(t *laminate.Schedule) { t.Plies = slices.Insert(t.Plies, i, v.ply(id, s, i)) })
			}
		}
		for i := range n {
			if n > 1 {
				try(func(t *laminate.Schedule) { t.Plies = slices.Delete(t.Plies, i, i+1) })
			}
			for _, id := range laid { // a veil for a veil: roving is not made right by leaving it out
				if id != s.Plies[i].Material && v.form(id) == v.form(s.Plies[i].Material) {
					try(func(t *laminate.Schedule) { t.Plies[i].Material = id })
				}
			}
			if !s.Plies[i].GelAfter {
				try(func(t *laminate.Schedule) { t.Plies[i].GelAfter = true })
			}
		}
		for i := range n + 1 {
			try(func(t *laminate.Schedule) {
				t.Plies = slices.Insert(t.Plies, i, v.ply(catalog.Woven24, s, i), v.ply(catalog.Mat15, s, i))
			})
		}
	}
}

// materials are those of the wall and of what is laid, the wall's first.
func (v *solver) materials() (ids []string) {
	for _, list := range [][]laminate.Ply{v.exercise.Wall, v.exercise.Given.Plies} {
		for i := range list {
			if id := list[i].Material; !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	return ids
}

func (v *solver) form(id string) laminate.Form {
	if m, ok := v.library.Material(&v.exercise.Given, id); ok {
		return m.Form
	}
	return laminate.NoForm
}

// ply is one to be laid as row i, in the resin of its neighbor.
func (*solver) ply(id string, s *laminate.Schedule, i int) laminate.Ply {
	resin := ""
	if n := len(s.Plies); n > 0 {
		resin = s.Plies[min(i, n-1)].Resin
	}
	return laminate.Ply{Material: id, Resin: resin, Count: 1}
}
