package editor

import (
	"errors"
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
)

// equipment is an open job. The document's schedule is the wall of the part that
// is worked at, or where one is lent a laminate that is laid onto parts.
type equipment struct {
	job    *laminate.Job
	part   int
	lent   *overlay.Overlay // nil: the wall of the part
	loaded *laminate.Job    // what the source was read as
	saved  *laminate.Job

	report cached[quantity.System, *rules.JobReport]
}

// wall is the schedule worked at; of a job without parts what its parts would
// share.
func (w *equipment) wall() *laminate.Schedule {
	if w.lent != nil {
		return w.lent.Wall(w.job)
	}
	if w.part < len(w.job.Parts) {
		return w.job.Wall(w.part)
	}
	j := w.job
	return &laminate.Schedule{Head: j.Head, Service: j.Service, Conditions: j.Conditions, Resins: j.Resins, Materials: j.Materials}
}

// lift makes an edit of what is worked at one of the job.
func (w *equipment) lift(e edit.Edit) edit.JobEdit {
	if w.lent != nil {
		return edit.InLaminate(*w.lent, e)
	}
	return edit.In(w.part, e)
}

// read takes in a text of the job; the schedules beside it are those it has.
func (w *equipment) read(name string, text []byte, library *laminate.Library) *shop.Opened {
	o := &shop.Opened{Name: name, Text: text, Kind: schedules.Job, Library: library}
	o.Source, o.Job, o.Problems = schedules.DecodeJob(text, library, func(file string) (*laminate.Schedule, error) {
		if s, ok := w.job.Schedules[file]; ok {
			return s, nil
		}
		return nil, errors.New("it was not read")
	})
	return o
}

// readsBack is an error unless text, read again, is the job as it stands.
func (w *equipment) readsBack(name string, text []byte, library *laminate.Library) error {
	again := w.read(name, text, library)
	if !again.Usable() {
		return fmt.Errorf("not saved: it could not be read again: %s", again.Why())
	}
	if !schedules.SameJob(w.job, again.Job) {
		return errors.New("not saved: the text would not say what the job says; please report this with the file")
	}
	return nil
}

// rendering gives what makes the text of the document as it stands now.
func (d *Document) rendering() func() []byte {
	source, now := d.source, d.now
	if d.equipment == nil {
		return func() []byte { return source.Render(now) }
	}
	job := d.equipment.job
	return func() []byte { return source.RenderJob(job) }
}

// Job is the job as it stands, nil of a schedule.
func (d *Document) Job() *laminate.Job {
	if d.equipment == nil {
		return nil
	}
	return d.equipment.job
}

// Part is the part of a job that is worked at: the schedule is its wall, or where
// one is lent a laminate that is laid onto it.
func (d *Document) Part() int {
	if d.equipment == nil {
		return 0
	}
	return d.equipment.part
}

// Turn works at the wall of a part of the job.
func (d *Document) Turn(part int) {
	w := d.equipment
	if w == nil || part < 0 || part >= len(w.job.Parts) || part == w.part && w.lent == nil {
		return
	}
	d.history.open = false
	d.becomeJob(w.job, part, nil)
}

// Lend works at a laminate of the job as what is laid somewhere, instead of at the
// wall of a part; one that the job has not is nothing to work at.
func (d *Document) Lend(o overlay.Overlay) {
	w := d.equipment
	if w == nil || w.job.Laminate(o.Laminate) < 0 || w.lent != nil && *w.lent == o {
		return
	}
	part := w.part
	if i := w.job.Part(o.Part); i >= 0 && o.Kind != overlay.None {
		part = i
	}
	d.history.open = false
	d.becomeJob(w.job, part, &o)
}

// Lent is what is laid somewhere and worked at instead of the wall of a part, nil
// where the wall is, and of a schedule.
func (d *Document) Lent() *overlay.Overlay {
	if d.equipment == nil {
		return nil
	}
	return d.equipment.lent
}

// JobReport is what the rules say of the whole job, in the present units; nil of
// a schedule. It is made once a revision, and only when it is asked for.
func (d *Document) JobReport() *rules.JobReport {
	if d.equipment == nil {
		return nil
	}
	return d.equipment.report.get(d.rev, d.units, func() *rules.JobReport {
		return d.judgeJob(d.equipment.job)
	})
}

// SavedJob is the job as its file says it, and OpenedJob as it was opened, judged;
// nil of a schedule, and where there is no file.
func (d *Document) SavedJob() *rules.JobReport {
	if d.equipment == nil || d.path == "" {
		return nil
	}
	return d.judgeJob(d.equipment.saved)
}

// OpenedJob is what undo goes back to.
func (d *Document) OpenedJob() *rules.JobReport {
	if d.equipment == nil {
		return nil
	}
	job := d.equipment.job
	for i := d.history.done - 1; i >= 0; i-- {
		switch st := &d.history.steps[i]; {
		case st.wasJob != nil:
			job = st.wasJob
		case st.texts != nil && st.texts.was.equipment != nil:
			job = st.texts.was.equipment.job
		}
	}
	return d.judgeJob(resting(job, d.beside))
}

func (d *Document) judgeJob(job *laminate.Job) *rules.JobReport {
	o := shop.Opened{Kind: schedules.Job, Job: job, Library: d.library}
	return o.JudgeJob(rules.Options{Units: d.units, Before: d.equipment.report.value})
}

// jobLine is the line of a place in what is worked at.
func (d *Document) jobLine(at laminate.Ref) int {
	w := d.equipment
	source, job := d.source, w.job
	if job != w.loaded {
		o := d.read()
		source, job = o.Source, o.Job
	}
	if at.Part = w.part; w.lent != nil {
		at = w.lent.Place(job, at)
		at.Part = -1 // what is left is shared by all
	}
	return source.JobLine(job, at)
}

// ApplyJob makes an edit of the whole job, as Apply does of a schedule.
func (d *Document) ApplyJob(e edit.JobEdit) error {
	w := d.equipment
	if w == nil || e.Do == nil {
		return errors.New("there is nothing to do")
	}
	next, err := e.Do(w.job)
	if err != nil {
		return err
	}
	for name, s := range next.Schedules {
		if s != w.job.Schedules[name] {
			return fmt.Errorf("the wall of this part is a document of its own: open %s to change it", name)
		}
	}
	if next == w.job || schedules.SameJob(next, w.job) {
		return nil
	}
	whole := e.At.Kind >= laminate.RefLaminate || e.At.Part < 0 || w.lent != nil
	if whole {
		e.At.Part = w.part
	}
	h := &d.history
	st := step{label: e.Label, at: e.At, merge: e.Merge, wasJob: w.job, isJob: next, lent: w.lent}
	if e.Merge != "" && h.open && h.done == len(h.steps) && h.done > 0 && h.steps[h.done-1].merge == e.Merge {
		h.done--
		st.wasJob = h.steps[h.done].wasJob
		if whole { // the part as it stood there
			st.at.Part = h.steps[h.done].at.Part
		}
	}
	if h.steps = h.steps[:h.done]; st.wasJob == w.job || !schedules.SameJob(st.wasJob, next) {
		h.steps = append(h.steps, st)
		h.done++
	}
	h.open = true
	d.becomeJob(next, follow(w.job, next, w.part), w.lent)
	return nil
}

// follow is where a part stands in another job, its own place where its id is not
// there.
func follow(from, to *laminate.Job, part int) int {
	if part < len(from.Parts) {
		if i := to.Part(from.Parts[part].ID); i >= 0 {
			return i
		}
	}
	return part
}

// travelJob goes to the job on one side of a step. What the step changed of the wall
// of a part, or of a laminate, is worked at then; of the rest nothing is to be seen
// there, and work goes on where it was as long as the job has that.
func (d *Document) travelJob(st *step, back bool) (string, laminate.Ref, bool) {
	job, part, lent := st.isJob, max(0, st.at.Part), st.lent
	if back {
		job = st.wasJob
	} else {
		part = follow(st.wasJob, job, part)
	}
	if w := d.equipment; st.at.Kind != laminate.RefPly && st.at.Kind != laminate.RefPart && w.stays(job) {
		part, lent = follow(w.job, job, w.part), w.lent
	}
	d.becomeJob(job, part, lent)
	return st.label, d.inside(st.at), true
}

// stays tells whether another state of the job has what is worked at: as many parts
// are the same ones, whatever they are called.
func (w *equipment) stays(in *laminate.Job) bool {
	if w.lent != nil {
		_, there := w.lent.Still(in)
		return there
	}
	return len(in.Parts) == len(w.job.Parts) || w.part < len(w.job.Parts) && in.Part(w.job.Parts[w.part].ID) >= 0
}

// WorkedAt names what of a job is worked at: "shell-1", "joint J2, strap"; "" of a
// schedule.
func (d *Document) WorkedAt() string {
	switch w := d.equipment; {
	case w == nil:
		return ""
	case w.lent != nil:
		return w.lent.Name()
	case w.part < len(w.job.Parts):
		return w.job.Parts[w.part].ID
	}
	return ""
}

// becomeJob makes next the job there is now.
func (d *Document) becomeJob(next *laminate.Job, part int, lent *overlay.Overlay) {
	d.equipment.job = resting(next, d.beside)
	d.equipment.turn(part, lent)
	d.become(d.equipment.wall())
}

// turn works at a part, or at what is lent as far as the job has it.
func (w *equipment) turn(part int, lent *overlay.Overlay) {
	w.part, w.lent = max(0, min(part, len(w.job.Parts)-1)), nil
	if lent == nil {
		return
	}
	if o, there := lent.Still(w.job); there {
		w.lent = &o
	}
}
