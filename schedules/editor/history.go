package editor

import (
	"errors"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/schedules"
)

// history is what was done, and what of it was undone: steps[done:].
type history struct {
	steps []step
	done  int
	open  bool // the last step may take in the next edit of its merge key
}

// step is one undoable change, as small as what it changed: a schedule of
// thousands of rows can be edited all day.
type step struct {
	label      string
	at         laminate.Ref
	merge      string
	was, is    *head // nil where the head did not change
	conditions splice[laminate.Condition]
	resins     splice[laminate.Resin]
	materials  splice[laminate.Material]
	plies      splice[laminate.Ply]
	texts      *texts // where another text was taken up: all of it, and not what changed

	wasJob, isJob *laminate.Job    // of a job all of it, which shares what did not change
	lent          *overlay.Overlay // what was worked at then, nil: the wall of a part
}

// texts are two texts that a document had, one in the place of the other.
type texts struct{ was, is whole }

type whole struct {
	source      *schedules.Source
	loaded, now *laminate.Schedule
	faulty      bool
	equipment   *equipment
}

func (d *Document) whole() whole {
	return whole{d.source, d.loaded, d.now, d.faulty, d.equipment}
}

// head is a schedule without its lists.
type head struct {
	laminate.Head
	part    laminate.Part
	service laminate.Service
}

func headOf(s *laminate.Schedule) head { return head{s.Head, s.Part, s.Service} }

func (h *head) put(s *laminate.Schedule) { s.Head, s.Part, s.Service = h.Head, h.part, h.service }

// splice puts is in the place of was, which begins at an index of a list.
type splice[T comparable] struct {
	at      int
	was, is []T
}

func between[T comparable](a, b []T) splice[T] {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	a, b = a[n:], b[n:]
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return splice[T]{n, slices.Clone(a), slices.Clone(b)}
}

func (p splice[T]) empty() bool { return len(p.was) == 0 && len(p.is) == 0 }

// apply replaces one text by the other in a copy of the list.
func (p splice[T]) apply(list []T, back bool) []T {
	if p.empty() {
		return list
	}
	out, in := p.was, p.is
	if back {
		out, in = in, out
	}
	return slices.Concat(list[:p.at], in, list[p.at+len(out):])
}

func stepBetween(a, b *laminate.Schedule) step {
	st := step{conditions: between(a.Conditions, b.Conditions), resins: between(a.Resins, b.Resins), materials: between(a.Materials, b.Materials), plies: between(a.Plies, b.Plies)}
	if was, is := headOf(a), headOf(b); was != is {
		st.was, st.is = &was, &is
	}
	return st
}

func (st *step) empty() bool {
	return st.was == nil && st.conditions.empty() && st.resins.empty() && st.materials.empty() && st.plies.empty()
}

func (st *step) apply(s *laminate.Schedule, back bool) *laminate.Schedule {
	if st.texts != nil {
		if back {
			return st.texts.was.now
		}
		return st.texts.is.now
	}
	n := *s
	h := st.is
	if back {
		h = st.was
	}
	if h != nil {
		h.put(&n)
	}
	n.Conditions = st.conditions.apply(s.Conditions, back)
	n.Resins = st.resins.apply(s.Resins, back)
	n.Materials = st.materials.apply(s.Materials, back)
	n.Plies = st.plies.apply(s.Plies, back)
	return &n
}

// same tells whether two schedules of one source say the same in the same words.
func same(a, b *laminate.Schedule) bool {
	return headOf(a) == headOf(b) && slices.Equal(a.Conditions, b.Conditions) && slices.Equal(a.Resins, b.Resins) && slices.Equal(a.Materials, b.Materials) && slices.Equal(a.Plies, b.Plies)
}

// Apply makes an edit. One that changes nothing leaves no trace; what was
// undone before is gone. The error is the edit's own, and the document is as it
// was.
func (d *Document) Apply(e edit.Edit) error {
	if e.Do == nil {
		return errors.New("there is nothing to do")
	}
	if d.equipment != nil {
		return d.ApplyJob(d.equipment.lift(e))
	}
	next, err := e.Do(d.now)
	if err != nil {
		return err
	}
	h := &d.history
	merges := e.Merge != "" && h.open && h.done == len(h.steps) && h.done > 0 && h.steps[h.done-1].merge == e.Merge
	before := d.now
	if merges {
		before = h.steps[h.done-1].apply(d.now, true)
	}
	st := stepBetween(before, next)
	if !merges && st.empty() {
		return nil
	}
	st.label, st.at, st.merge = e.Label, e.At, e.Merge
	if merges {
		h.done--
	}
	h.steps = h.steps[:h.done]
	if !st.empty() {
		h.steps = append(h.steps, st)
		h.done++
	}
	h.open = true
	d.become(next)
	return nil
}

// Undo takes the last edit back and says which it was and where it shows.
func (d *Document) Undo() (label string, at laminate.Ref, ok bool) {
	if !d.CanUndo() {
		return "", laminate.Ref{}, false
	}
	d.history.done--
	return d.travel(&d.history.steps[d.history.done], true)
}

// Redo makes the edit again that was taken back last.
func (d *Document) Redo() (label string, at laminate.Ref, ok bool) {
	if !d.CanRedo() {
		return "", laminate.Ref{}, false
	}
	d.history.done++
	return d.travel(&d.history.steps[d.history.done-1], false)
}

// CanUndo tells whether there is an edit to take back.
func (d *Document) CanUndo() bool { return d.history.done > 0 }

// CanRedo tells whether there is an edit to make again.
func (d *Document) CanRedo() bool { return d.history.done < len(d.history.steps) }

func (d *Document) travel(st *step, back bool) (string, laminate.Ref, bool) {
	d.history.open = false
	if st.wasJob != nil {
		return d.travelJob(st, back)
	}
	if st.texts != nil {
		t := st.texts.is
		if back {
			t = st.texts.was
		}
		d.source, d.loaded, d.faulty, d.equipment = t.source, t.loaded, t.faulty, t.equipment
	}
	now := st.apply(d.now, back)
	if d.equipment != nil { // which may have turned to something else since
		d.equipment.rest(d.beside)
		now = d.equipment.wall()
	}
	d.become(now)
	at := st.at
	if back && at.Kind == laminate.RefPly && !st.plies.empty() {
		at.Index = st.plies.at
	}
	return st.label, d.inside(at), true
}

// inside moves a place that is no longer there to the nearest that is.
func (d *Document) inside(at laminate.Ref) laminate.Ref {
	n := map[laminate.RefKind]int{laminate.RefPly: len(d.now.Plies), laminate.RefCondition: len(d.now.Conditions), laminate.RefResin: len(d.now.Resins), laminate.RefMaterial: len(d.now.Materials)}[at.Kind]
	at.Index = max(0, min(at.Index, n-1))
	return at
}

// become makes next what there is now. Units on the screen follow those that
// an edit writes into the document.
func (d *Document) become(next *laminate.Schedule) {
	if next.Units != d.now.Units {
		d.units = next.Units
	}
	d.now = next
	d.rev++
}
