package edit

import (
	"fmt"
	"strings"

	"frp/veilwright/laminate"
)

// LaminateNames visits each place of a job that may name a laminate; what visit
// changes is changed in the job.
func LaminateNames(j *laminate.Job, visit func(id *string, at laminate.Ref)) {
	for i := range j.Parts {
		at := laminate.Ref{Kind: laminate.RefJobPart, Index: i}
		visit(&j.Parts[i].Laminate, at)
		visit(&j.Parts[i].Knuckle, at)
	}
	for i := range j.Joints {
		at := laminate.Ref{Kind: laminate.RefJoint, Index: i}
		visit(&j.Joints[i].Outside, at)
		visit(&j.Joints[i].Inside, at)
	}
	for i := range j.Nozzles {
		n, at := &j.Nozzles[i], laminate.Ref{Kind: laminate.RefNozzle, Index: i}
		for _, id := range []*string{&n.Pad, &n.InstallationOutside, &n.InstallationInside, &n.Neck} {
			visit(id, at)
		}
	}
}

// partNames visits each place that names a part.
func partNames(j *laminate.Job, visit func(id *string, at laminate.Ref)) {
	for i := range j.Joints {
		at := laminate.Ref{Kind: laminate.RefJoint, Index: i}
		visit(&j.Joints[i].Between[0], at)
		visit(&j.Joints[i].Between[1], at)
	}
	for i := range j.Nozzles {
		n, at := &j.Nozzles[i], laminate.Ref{Kind: laminate.RefNozzle, Index: i}
		for _, id := range []*string{&n.On, &n.Flange, &n.Cover} {
			visit(id, at)
		}
	}
}

// Rename gives a laminate or a part of a job another id, wherever it is named.
func Rename(at laminate.Ref, id string) JobEdit {
	return JobEdit{Label: "renamed to " + id, At: at, Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := j.Clone()
		var own *string
		switch {
		case at.Kind == laminate.RefLaminate && at.Index < len(n.Laminates):
			own = &n.Laminates[at.Index].ID
		case at.Kind == laminate.RefJobPart && at.Index < len(n.Parts):
			own = &n.Parts[at.Index].ID
		default:
			return nil, fmt.Errorf("only a laminate or a part is renamed")
		}
		was := *own
		*own = id
		follow := func(name *string, _ laminate.Ref) {
			if *name == was && was != "" {
				*name = id
			}
		}
		if at.Kind == laminate.RefLaminate {
			LaminateNames(n, follow)
		} else {
			partNames(n, follow)
		}
		return Sound(j, n)
	}}
}

// AddLaminate adds a laminate with the plies of another, none where like is "":
// it is filled in later.
func AddLaminate(id, like string) JobEdit {
	e := JobEdit{Label: "added laminate " + id, Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := j.Clone()
		l := laminate.Laminate{ID: id}
		if i := n.Laminate(like); like != "" && i >= 0 {
			for _, p := range n.Laminates[i].Plies {
				p.Origin = 0
				l.Plies = append(l.Plies, p)
			}
		}
		n.Laminates = append(n.Laminates, l)
		return Sound(j, n)
	}}
	return e
}

// RemoveLaminate takes out a laminate that nothing names.
func RemoveLaminate(i int) JobEdit {
	at := laminate.Ref{Kind: laminate.RefLaminate, Index: i}
	return JobEdit{Label: "took out a laminate", At: at, Do: func(j *laminate.Job) (*laminate.Job, error) {
		if i < 0 || i >= len(j.Laminates) {
			return nil, fmt.Errorf("there is no laminate %d", i+1)
		}
		id := j.Laminates[i].ID
		if by := UsedBy(j, id); by != nil {
			return nil, stays("laminate "+id, by)
		}
		n := j.Clone()
		n.Laminates = append(n.Laminates[:i], n.Laminates[i+1:]...)
		return Sound(j, n)
	}}
}

// RemovePart takes out a part that no joint and no nozzle names, and with it a
// laminate without plies that nothing else names. One with plies stays: it is work.
func RemovePart(i int) JobEdit {
	at := laminate.Ref{Kind: laminate.RefJobPart, Index: i}
	return JobEdit{Label: "took out a part", At: at, Do: func(j *laminate.Job) (*laminate.Job, error) {
		if i < 0 || i >= len(j.Parts) {
			return nil, fmt.Errorf("there is no part %d", i+1)
		}
		id := j.Parts[i].ID
		if by := named(j, id, partNames); by != nil {
			return nil, stays("part "+id, by)
		}
		n := j.Clone()
		n.Parts = append(n.Parts[:i], n.Parts[i+1:]...)
		for _, id := range []string{j.Parts[i].Laminate, j.Parts[i].Knuckle} {
			if at := n.Laminate(id); at >= 0 && len(n.Laminates[at].Plies) == 0 && UsedBy(n, id) == nil {
				n.Laminates = append(n.Laminates[:at], n.Laminates[at+1:]...)
			}
		}
		return Sound(j, n)
	}}
}

// stays says that something is not taken out, and what has to go first.
func stays(what string, by []string) error {
	if len(by) == 1 {
		return fmt.Errorf("%s stays: %s names it; state another there, or take that out first", what, by[0])
	}
	return fmt.Errorf("%s stays: %s name it; state others there, or take those out first", what, strings.Join(by, ", "))
}

// whose names the row of a place.
func whose(j *laminate.Job, at laminate.Ref) string {
	switch at.Kind {
	case laminate.RefJoint:
		return "joint " + j.Joints[at.Index].ID
	case laminate.RefNozzle:
		return "nozzle " + j.Nozzles[at.Index].ID
	default:
		return "part " + j.Parts[at.Index].ID
	}
}

// UsedBy names what names a laminate, each row once.
func UsedBy(j *laminate.Job, id string) []string { return named(j, id, LaminateNames) }

// named lists the rows that a visit finds to name an id, each once.
func named(j *laminate.Job, id string, visit func(*laminate.Job, func(*string, laminate.Ref))) (list []string) {
	visit(j, func(name *string, at laminate.Ref) {
		if *name != id || id == "" {
			return
		}
		if of := whose(j, at); len(list) == 0 || list[len(list)-1] != of {
			list = append(list, of)
		}
	})
	return list
}
