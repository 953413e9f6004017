package wall

import (
	"cmp"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/service"
)

// evaluateConditions evaluates a wall under each of its conditions, with the
// moduli that it has then, and puts the results together: of each criterion the
// worst stands, and says which condition that is of. What the service states and no
// condition reaches stays open.
func evaluateConditions(s *laminate.Schedule, lib *laminate.Library, a *laminate.Analysis, o Options) *Result {
	var all *Result
	var rings *Result // that ask for the closest
	strained, most := (*Result)(nil), -1.0
	o.Room = nil
	for i := range s.Conditions {
		c := &s.Conditions[i]
		under := s.Under(c)
		if i > 0 {
			under.Service.TestPressure = quantity.Pressure{} // shown once
		}
		r := Evaluate(under, lib, a, o)
		r.under(c.Name)
		if all == nil {
			all = r
		} else {
			all.join(r)
		}
		if r.Stiffeners.Known && (rings == nil || r.Stiffeners.Spacing < rings.Stiffeners.Spacing) {
			rings = r
		}
		for k := range r.Criteria {
			if x := &r.Criteria[k]; x.Kind == quantity.Strain && x.Ratio > most {
				strained, most = r, x.Ratio
			}
		}
	}
	if beyond := service.Beyond(s, o.Units.Or(s.Units)); beyond.Why != "" {
		// Of a wall that bears nothing it is told what may load it.
		under := s.Under(&s.Conditions[0])
		none := quantity.New(0, quantity.Pascal)
		under.Service.Pressure, under.Service.Vacuum, under.Service.TestPressure = none, none, quantity.Pressure{}
		under.Part.LiquidHeight = quantity.New(0, quantity.Meter)
		e := begin(inputs{under, lib, a, o, beyond})
		e.run()
		e.r.under("service")
		all.join(e.r)
		e.end()
	}
	if rings != nil {
		all.Stiffeners = rings.Stiffeners
	}
	if strained != nil {
		all.of, all.Counted, all.PlyCase = strained.of, strained.Counted, strained.PlyCase
		all.A, all.B, all.D, all.Membrane, all.stiffOf = strained.A, strained.B, strained.D, strained.Membrane, strained.stiffOf
	}
	sortCriteria(all.Criteria)
	if all.Problem == "" {
		all.Notes = append(all.Notes, "Moduli shown are those under "+all.stiffOf+"; each condition is judged with its own.")
	}
	return all
}

// under names the condition that a result is of wherever a case is named.
func (r *Result) under(condition string) {
	r.stiffOf = condition
	name := func(s *string) {
		if *s != "" {
			*s += " (" + condition + ")"
		}
	}
	for i := range r.Cases {
		name(&r.Cases[i].Name)
	}
	for i := range r.Unknown {
		name(&r.Unknown[i].Name)
	}
	name(&r.PlyCase)
	for i := range r.Criteria {
		name(&r.Criteria[i].Case)
		r.Criteria[i].Condition = condition
	}
}

// join takes in the result under another condition.
func (r *Result) join(other *Result) {
	r.Cases = append(r.Cases, other.Cases...)
	r.Unknown = append(r.Unknown, other.Unknown...)
	for _, n := range other.Notes {
		if !slices.Contains(r.Notes, n) {
			r.Notes = append(r.Notes, n)
		}
	}
	r.Loaded, r.FormOpen = r.Loaded || other.Loaded, cmp.Or(r.FormOpen, other.FormOpen)
	for i := range other.Criteria {
		x := &other.Criteria[i]
		at := slices.IndexFunc(r.Criteria, func(c Criterion) bool { return c.Name == x.Name })
		switch {
		case at < 0:
			r.Criteria = append(r.Criteria, *x)
		case worse(x, &r.Criteria[at]):
			r.Criteria[at] = *x
		}
	}
}

// worse tells whether a criterion stands worse than the same one under another
// condition.
func worse(a, b *Criterion) bool {
	if x, y := rank(a), rank(b); x != y {
		return x > y
	}
	return a.Ratio > b.Ratio
}
