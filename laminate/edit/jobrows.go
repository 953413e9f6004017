package edit

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"frp/veilwright/laminate"
)

// free is the first of prefix1, prefix2, … that is not taken.
func free(prefix string, taken func(id string) bool) string {
	for n := 1; ; n++ {
		if id := prefix + strconv.Itoa(n); !taken(id) {
			return id
		}
	}
}

// AddPart adds a part at a place of the list: parts stand from the bottom up. It names
// no laminate, which is found missing: that of a neighbor would be as thick as whichever
// of the two wants it thickest, and an empty one would be judged as a wall. Its first
// ply makes one.
func AddPart(place int) JobEdit {
	at := laminate.Ref{Kind: laminate.RefJobPart, Index: place}
	return JobEdit{Label: "added a part", At: at, Do: func(j *laminate.Job) (*laminate.Job, error) {
		n := j.Clone()
		if place < 0 || place > len(n.Parts) {
			return nil, fmt.Errorf("there is no place %d for a part", place+1)
		}
		p := laminate.JobPart{ID: free("part-", func(id string) bool { return n.Part(id) >= 0 })}
		n.Parts = slices.Insert(n.Parts, place, p)
		return Sound(j, n)
	}}
}

// AddNozzle adds a nozzle on a part.
func AddNozzle(j *laminate.Job, part int) JobEdit {
	at := laminate.Ref{Kind: laminate.RefNozzle, Index: len(j.Nozzles)}
	return JobEdit{Label: "added a nozzle", At: at, Do: func(j *laminate.Job) (*laminate.Job, error) {
		if part < 0 || part >= len(j.Parts) {
			return nil, errors.New("a nozzle stands on a part, and there is none yet")
		}
		n := j.Clone()
		id := free("N", func(id string) bool {
			return slices.ContainsFunc(n.Nozzles, func(z laminate.Nozzle) bool { return z.ID == id })
		})
		n.Nozzles = append(n.Nozzles, laminate.Nozzle{ID: id, On: n.Parts[part].ID})
		return Sound(j, n)
	}}
}

// AddJoint adds the joint that comes next at a part, see [NextJoint].
func AddJoint(j *laminate.Job, part int) JobEdit {
	at := laminate.Ref{Kind: laminate.RefJoint, Index: len(j.Joints)}
	return JobEdit{Label: "added a joint", At: at, Do: func(j *laminate.Job) (*laminate.Job, error) {
		if len(j.Parts) < 2 {
			return nil, errors.New("a joint joins two parts, and there are fewer")
		}
		n := j.Clone()
		id := free("J", func(id string) bool {
			return slices.ContainsFunc(n.Joints, func(z laminate.Joint) bool { return z.ID == id })
		})
		pair, ok := NextJoint(j, part)
		if !ok {
			return nil, errors.New("no two parts meet that a joint could join: covers, panels and what nozzles end in are passed over, and a flange joins what is open")
		}
		n.Joints = append(n.Joints, laminate.Joint{ID: id, Between: [2]string{n.Parts[pair[0]].ID, n.Parts[pair[1]].ID}})
		return Sound(j, n)
	}}
}

// Rows is how many rows of a kind a job has, 0 of a kind whose rows do not move.
func Rows(j *laminate.Job, kind laminate.RefKind) int {
	switch kind {
	case laminate.RefJobPart:
		return len(j.Parts)
	case laminate.RefNozzle:
		return len(j.Nozzles)
	case laminate.RefJoint:
		return len(j.Joints)
	case laminate.RefLaminate:
		return len(j.Laminates)
	default:
		return 0
	}
}

// MoveRow moves a part, nozzle, joint or laminate to another place of its list.
// Moves of one merge key are one step of undoing.
func MoveRow(at laminate.Ref, to int, merge string) JobEdit {
	return JobEdit{Label: fmt.Sprintf("moved to place %d", to+1), At: laminate.Ref{Kind: at.Kind, Index: to}, Merge: merge, Do: func(j *laminate.Job) (*laminate.Job, error) {
		if rows := Rows(j, at.Kind); min(at.Index, to) < 0 || max(at.Index, to) >= rows {
			return nil, fmt.Errorf("there is no place %d of %d", max(at.Index, to)+1, rows)
		}
		n := j.Clone()
		switch at.Kind {
		case laminate.RefJobPart:
			move(n.Parts, at.Index, to)
		case laminate.RefNozzle:
			move(n.Nozzles, at.Index, to)
		case laminate.RefJoint:
			move(n.Joints, at.Index, to)
		default:
			move(n.Laminates, at.Index, to)
		}
		return Sound(j, n)
	}}
}

// move takes a row to another place; those between make room.
func move[T any](list []T, from, to int) {
	row := list[from]
	if from < to {
		copy(list[from:to], list[from+1:to+1])
	} else {
		copy(list[to+1:from+1], list[to:from])
	}
	list[to] = row
}
