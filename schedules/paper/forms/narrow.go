package forms

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// Narrow has papers be of one part of the job alone, or of what is laid at one
// joint or nozzle; both empty leave it whole. The error says what there is.
func (of *Subject) Narrow(part, joint string) error {
	j := of.Job
	switch {
	case part+joint == "":
		return nil
	case j == nil:
		return errors.New(of.File + " is one wall: --part and --joint go with a job")
	case part != "" && joint != "":
		return errors.New("--part and --joint exclude each other: the paper is of one of them")
	case part != "":
		at := laminate.Ref{Kind: laminate.RefJobPart, Index: j.Part(part)}
		if at.Index < 0 {
			return fmt.Errorf("%s has no part %q (--part); it has %s", of.File, part, listed(j.Parts, func(p *laminate.JobPart) string { return p.ID }))
		}
		of.Narrowed(at)
		return nil
	}
	at := laminate.Ref{Kind: laminate.RefJoint, Index: slices.IndexFunc(j.Joints, func(x laminate.Joint) bool { return x.ID == joint })}
	if at.Index < 0 {
		at = laminate.Ref{Kind: laminate.RefNozzle, Index: slices.IndexFunc(j.Nozzles, func(x laminate.Nozzle) bool { return x.ID == joint })}
	}
	if at.Index < 0 {
		return fmt.Errorf("%s has neither a joint nor a nozzle %q (--joint); it has joints %s and nozzles %s", of.File, joint,
			listed(j.Joints, func(x *laminate.Joint) string { return x.ID }), listed(j.Nozzles, func(x *laminate.Nozzle) string { return x.ID }))
	}
	of.Narrowed(at)
	return nil
}

// Narrowed has papers be of a part, joint or nozzle of the job, which is there; of the
// zero Ref of all of it, as they are.
func (of *Subject) Narrowed(at laminate.Ref) {
	if at == (laminate.Ref{}) {
		return
	}
	of.Only = laminate.Ref{Kind: at.Kind, Index: at.Index}
	of.Whole = slices.DeleteFunc(slices.Clone(of.Whole), func(f rules.Finding) bool {
		switch f.At.Kind {
		case laminate.RefJobPart, laminate.RefJoint, laminate.RefNozzle:
			return !of.covers(f.At) && !slices.ContainsFunc(f.Also, of.covers)
		default: // of the whole: it counts for whoever holds one sheet of it too
		}
		return false
	})
}

// Name is the part, joint or nozzle that the paper is of, "" where it is of all.
func (of *Subject) Name() string {
	switch of.Only.Kind {
	case laminate.RefJobPart:
		return "part " + of.ID()
	case laminate.RefJoint:
		return "joint " + of.ID()
	case laminate.RefNozzle:
		return "nozzle " + of.ID()
	default:
	}
	return ""
}

// ID is that of the part, joint or nozzle that the paper is of.
func (of *Subject) ID() string {
	switch i := of.Only.Index; of.Only.Kind {
	case laminate.RefJobPart:
		return of.Job.Parts[i].ID
	case laminate.RefJoint:
		return of.Job.Joints[i].ID
	case laminate.RefNozzle:
		return of.Job.Nozzles[i].ID
	default:
	}
	return ""
}

// covers tells whether the paper is of a part, joint or nozzle of the job.
func (of *Subject) covers(at laminate.Ref) bool {
	return of.Only == laminate.Ref{} || of.Only.Kind == at.Kind && of.Only.Index == at.Index
}

// Shown are the parts that the paper is of.
func (of *Subject) Shown() (list []*Part) {
	for i := range of.Parts {
		if of.covers(laminate.Ref{Kind: laminate.RefJobPart, Index: i}) {
			list = append(list, &of.Parts[i])
		}
	}
	return list
}

// listed are ids, separated by commas.
func listed[T any](rows []T, id func(*T) string) string {
	var ids []string
	for i := range rows {
		ids = append(ids, id(&rows[i]))
	}
	if ids == nil {
		return "none"
	}
	return strings.Join(ids, ", ")
}
