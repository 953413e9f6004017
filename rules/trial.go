package rules

import (
	"cmp"
	"fmt"
	"slices"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/moduli"
)

// trials try the fixes of a report out. A fix is kept where the report after it is
// better, and that is known from numbers: a trial runs every rule, and only counts
// what each has to say.
type trials struct {
	list    []*Rule
	library *laminate.Library
	before  *Report
	facts   Facts   // before
	had     []tally // by rule, the last of rules that failed; nil until the first trial
	held    tally   // of the whole report
}

// tally counts findings.
type tally struct{ breaks, incompletes, warnings int32 }

func (t *tally) count(s Severity) {
	switch s {
	case Break:
		t.breaks++
	case Incomplete:
		t.incompletes++
	case Warning:
		t.warnings++
	default: // nothing of the others
	}
}

func (t *tally) add(o tally) {
	t.breaks += o.breaks
	t.incompletes += o.incompletes
	t.warnings += o.warnings
}

// worse tells of more that a rule holds against a schedule.
func (t tally) worse(than tally) bool {
	return t.breaks > than.breaks || t.incompletes > than.incompletes
}

// less compares what all rules hold against a schedule.
func (t tally) less(than tally) bool {
	return cmp.Or(cmp.Compare(t.breaks, than.breaks), cmp.Compare(t.incompletes, than.incompletes), cmp.Compare(t.warnings, than.warnings)) < 0
}

// prepare counts what the rules said before.
func (t *trials) prepare() {
	t.had = make([]tally, len(t.list)+1)
	for i := range t.before.Findings {
		f := &t.before.Findings[i]
		t.held.count(f.Severity)
		rule := slices.Index(t.list, f.Rule)
		if rule < 0 { // InternalError
			rule = len(t.list)
		}
		t.had[rule].count(f.Severity)
	}
}

// trial is where one fix after another is tried out, in the same memory.
type trial struct {
	draft    edit.Draft
	analysis laminate.Analysis
	wall     moduli.Trial
	criteria []wall.Criterion // those of the wall before
	pass     Pass

	at     int   // the rule whose turn it is
	found  tally // by it
	all    tally // by those before it
	failed tally // of them
	asUsed bool  // what rules by use go by is as it was
}

var rooms = sync.Pool{New: func() any { return new(trial) }}

// betters tells whether no rule holds more against the schedule after a fix, and
// all of them together hold less.
func (t *trials) betters(m *Fix) bool {
	room := rooms.Get().(*trial)
	defer rooms.Put(room)
	next, err := room.attempt(m, t.before.Schedule, t.library)
	if err != nil {
		return false
	}
	if t.had == nil {
		t.prepare()
	}
	fail := t.had[len(t.list)]
	room.begin(next, t)
	room.asUsed = fail == tally{} && t.asUsed(&room.pass)
	for !room.run(t) {
		room.failed.count(Incomplete)
		room.at++
	}
	if room.at < len(t.list) || room.failed.worse(fail) {
		return false
	}
	room.all.add(room.failed)
	return room.all.less(t.held)
}

// asUsed tells that everything rules by use go by is as it was.
func (t *trials) asUsed(p *Pass) bool {
	was, is := t.before.Schedule, p.Schedule
	return p.Facts.Unresined == t.facts.Unresined && slices.Equal(p.Facts.Uses, t.facts.Uses) &&
		same(is.Resins, was.Resins) && is.Part == was.Part && is.Service == was.Service && slices.Equal(is.Conditions, was.Conditions)
}

// begin shows the rules a schedule that is tried out.
func (r *trial) begin(s *laminate.Schedule, t *trials) {
	r.at, r.all, r.failed = 0, tally{}, tally{}
	r.analysis.Again(s, t.library)
	p := &r.pass
	*p = Pass{Schedule: s, Library: t.library, Analysis: &r.analysis, Units: quantity.Unread, Facts: gather(s, &r.analysis, p.Facts.Uses), counts: &r.found, matched: p.matched}
	var evaluated *wall.Result
	p.Wall = func() *wall.Result {
		if evaluated == nil && t.sameWall(s, &r.analysis) {
			evaluated = t.before.Wall
		}
		if evaluated == nil {
			evaluated = wall.Evaluate(s, t.library, &r.analysis, wall.Options{Units: laminate.Some(quantity.Unread), Trial: &r.wall, Room: r.criteria})
			r.criteria = evaluated.Criteria
		}
		return evaluated
	}
}

// sameWall tells that a schedule has the plies of that before, gel stops apart, so
// that its structure is as good. Resins are stated once and hold for all rows.
func (t *trials) sameWall(s *laminate.Schedule, a *laminate.Analysis) bool {
	was, before := t.before.Schedule, t.before.Analysis
	if t.before.Wall == nil || s.Part != was.Part || s.Service != was.Service || !same(s.Conditions, was.Conditions) || !same(s.Resins, was.Resins) || !same(s.Materials, was.Materials) {
		return false
	}
	alike := func(i, k int) bool {
		x, y := &s.Plies[i], &was.Plies[k]
		return x.Material == y.Material && x.Resin == y.Resin && a.Rows[i].Zone == before.Rows[k].Zone &&
			x.GlassContent == y.GlassContent && x.VoidContent == y.VoidContent && x.Angle == y.Angle
	}
	k, left := 0, 0 // row of that before, and how many of its plies were met
	for i := range s.Plies {
		for n := s.Plies[i].Count; n > 0; {
			if k == len(was.Plies) || !alike(i, k) {
				return false
			}
			met := min(n, was.Plies[k].Count-left)
			n, left = n-met, left+met
			if left == was.Plies[k].Count {
				k, left = k+1, 0
			}
		}
	}
	return k == len(was.Plies)
}

// run gives the rules their turn, as far as one that holds more than before. It is
// false where one fails.
func (r *trial) run(t *trials) (done bool) {
	defer func() { done = recover() == nil }()
	for ; r.at < len(t.list); r.at++ {
		r.found = tally{}
		switch rule := t.list[r.at]; {
		case rule.Run == nil:
			continue
		case rule.ByUse && r.asUsed:
			r.found = t.had[r.at]
		default:
			r.pass.rule = rule
			rule.Run(&r.pass)
		}
		if r.found.worse(t.had[r.at]) {
			return true
		}
		r.all.add(r.found)
	}
	return true
}

// attempt makes the edit; one that panics is one that cannot be made.
func (r *trial) attempt(m *Fix, s *laminate.Schedule, lib *laminate.Library) (next *laminate.Schedule, err error) {
	defer func() {
		if reason := recover(); reason != nil {
			next, err = nil, fmt.Errorf("trying a fix: %v", reason)
		}
	}()
	r.draft.Again(s, lib)
	return m.made(&r.draft)
}
