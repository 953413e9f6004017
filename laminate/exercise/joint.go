package exercise

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
)

// Ids in the job of an exercise about an overlay, whose laminate is called what it
// is: strap, or seal.
const (
	jointID = "J"
	wallID  = "wall"
)

// Job is what an exercise about an overlay is about: two parts of one wall end to
// end, and over their joint the plies of s; a resin that is given under an id is that
// of the wall, whatever s calls so. What is laid on the other side of the joint is
// not in it.
func (e *Exercise) Job(s *laminate.Schedule) (*laminate.Job, overlay.Overlay) {
	g, overlaid := &e.Given, e.Overlay.Said()
	j := &laminate.Job{Head: g.Head, Service: g.Service, Resins: slices.Clone(g.Resins), Materials: s.Materials}
	for _, r := range s.Resins {
		if _, given := g.Resin(r.ID); !given {
			j.Resins = append(j.Resins, r)
		}
	}
	j.Laminates = []laminate.Laminate{{ID: wallID, Plies: e.Wall}, {ID: overlaid, Plies: s.Plies}}
	for _, id := range []string{"A", "B"} {
		p := laminate.JobPart{ID: id, Laminate: wallID, Part: g.Part}
		p.Place = laminate.Place{}
		j.Parts = append(j.Parts, p)
	}
	x := e.Joint
	x.ID, x.Between = jointID, [2]string{"A", "B"}
	if e.Overlay.Inside() {
		x.Inside = overlaid
	} else {
		x.Outside = overlaid
	}
	j.Joints = []laminate.Joint{x}
	o := overlay.Overlay{Kind: e.Overlay, At: laminate.Ref{Kind: laminate.RefJoint}, Of: jointID, Part: "A", Other: "B", Laminate: overlaid}
	return j, o
}

// faultsOfJob are those of the wall and of the joint that an overlay is laid on.
func (e *Exercise) faultsOfJob() (list []Fault) {
	j, _ := e.Job(&e.Given)
	for _, f := range laminate.ValidateJob(j, nil) {
		switch {
		case f.Ref.Kind == laminate.RefJoint:
			list = append(list, Fault{InJoint, 0, f.Ref.Key, f.Message})
		case f.Ref.Kind == laminate.RefLaminatePly && f.Ref.Index < len(e.Wall):
			list = append(list, Fault{InWall, f.Ref.Index, f.Ref.Key, f.Message})
		}
	}
	return list
}
