package overlay

import (
	"errors"

	"frp/veilwright/laminate"
)

// Named is an overlay that a laminate of a job is named for, the first in it; of a
// laminate that nothing names so it is the laminate by itself, of the kind None.
func Named(j *laminate.Job, id string) Overlay {
	for _, o := range All(j) {
		if o.Laminate == id {
			return o
		}
	}
	return Overlay{Laminate: id}
}

// Linings are the laminates that are laid from the process side before anything else
// names them: what of them states no zone is barrier.
func Linings(j *laminate.Job) map[string]bool {
	seen, linings := map[string]bool{}, map[string]bool{}
	for i := range j.Parts {
		seen[j.Parts[i].Laminate] = true
	}
	for _, o := range All(j) {
		if !seen[o.Laminate] && o.Kind.Inside() {
			linings[o.Laminate] = true
		}
		seen[o.Laminate] = true
	}
	return linings
}

// Still is the overlay as another state of the job has it: what is named for the
// same purpose there, under whatever id, else what its laminate is named for.
// There is none where the job has neither.
func (o *Overlay) Still(j *laminate.Job) (Overlay, bool) {
	for _, x := range All(j) {
		if o.Kind == x.Kind && o.Of == x.Of && o.At.Kind == x.At.Kind && (o.Of != "" || o.Part == x.Part) && j.Laminate(x.Laminate) >= 0 {
			return x, true
		}
	}
	if j.Laminate(o.Laminate) < 0 {
		return Overlay{}, false
	}
	return Named(j, o.Laminate), true
}

// lend gives the job one part more at the end, which has the overlay's laminate for
// its wall and states nothing.
func (o *Overlay) lend(j *laminate.Job) *laminate.Job {
	lent := *j
	lent.Parts = append(j.Parts[:len(j.Parts):len(j.Parts)], laminate.JobPart{Laminate: o.Laminate})
	return &lent
}

// Wall is the overlay's laminate as it is worked at: its plies in the order of
// laying, with what the whole job states and shares, and of no part.
func (o *Overlay) Wall(j *laminate.Job) *laminate.Schedule {
	s := o.lend(j).Wall(len(j.Parts))
	s.Part.Place.Lined = o.Kind.Inside()
	return s
}

// With is the job in which s stands for the overlay's Wall; what it shares with
// the parts changes for them too, as [laminate.Job.With] has it. The error says
// that s is of a part: the laminate is laid on parts that have their own.
func (o *Overlay) With(j *laminate.Job, s *laminate.Schedule) (*laminate.Job, error) {
	was := o.Wall(j)
	if j.Laminate(o.Laminate) < 0 {
		return nil, errors.New("the job has no laminate " + o.Laminate)
	}
	if s.Part != was.Part {
		return nil, errors.New(o.Name() + ": this is no part; what is stated of one stands in its form, on the job page")
	}
	lent := o.lend(j)
	n := lent.With(len(j.Parts), s)
	if n == lent {
		return j, nil
	}
	next := *n
	next.Parts = j.Parts
	return &next, nil
}
