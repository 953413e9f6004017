package edit

import (
	"errors"
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
)

// JobEdit is one undoable change of a job.
type JobEdit struct {
	Label string // as of an Edit
	At    laminate.Ref
	Merge string
	Do    func(*laminate.Job) (*laminate.Job, error)
}

// In makes an edit of a schedule one of the job's part: it sees the wall of the
// part, and what it changes of shared things changes for the other parts too.
// It is refused where that leaves another part with a fault that it had not.
func In(part int, e Edit) JobEdit {
	at := e.At
	at.Part = part
	lifted := JobEdit{Label: e.Label, At: at}
	if e.Merge != "" {
		lifted.Merge = fmt.Sprintf("%d %s", part, e.Merge)
	}
	lifted.Do = func(j *laminate.Job) (*laminate.Job, error) {
		if len(j.Parts) == 0 {
			return nil, errors.New("the job has no part yet: a on the job page adds one")
		}
		if part < 0 || part >= len(j.Parts) {
			return nil, fmt.Errorf("there is no part %d", part+1)
		}
		wall, err := e.Do(j.Wall(part))
		if err != nil {
			return nil, err
		}
		n := j.With(part, wall)
		if n == j {
			return j, nil
		}
		return Sound(j, n)
	}
	return lifted
}

// InLaminate makes an edit of a schedule one of a laminate of the job that is laid
// by itself: it sees its plies, and what it changes of shared things changes for
// the parts too. It is refused as In refuses, and where it is about a part.
func InLaminate(o overlay.Overlay, e Edit) JobEdit {
	lifted := JobEdit{Label: e.Label, At: e.At}
	if e.Merge != "" {
		lifted.Merge = o.Name() + " " + e.Merge
	}
	lifted.Do = func(j *laminate.Job) (*laminate.Job, error) {
		wall, err := e.Do(o.Wall(j))
		if err != nil {
			return nil, err
		}
		n, err := o.With(j, wall)
		if err != nil || n == j {
			return n, err
		}
		return Sound(j, n)
	}
	return lifted
}

// Sound gives the job that an edit made, or says which fault it has that it had
// not before.
func Sound(before, after *laminate.Job) (*laminate.Job, error) {
	faults := laminate.ValidateJob(after, nil)
	if len(faults) == 0 {
		return after, nil
	}
	f, found := newFault(laminate.ValidateJob(before, nil), faults)
	switch {
	case !found:
		return after, nil
	case f.Ref.Kind == laminate.RefPly && f.Ref.Part >= 0 && f.Ref.Part < len(after.Parts):
		return nil, refusal(after.Wall(f.Ref.Part), f)
	}
	return nil, refusal(nil, laminate.Fault{Ref: laminate.Ref{Key: f.Ref.Key}, Message: f.Message})
}
