package exercise

import (
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
)

// Ids in the job of an exercise about an overlay, whose laminate is called what it
// is: strap, or seal. Findings name joint, nozzle and parts by them, so the facts do.
const (
	jointID  = "J"
	nozzleID = "N"
	wallID   = "wall"
	partID   = "A"
	otherID  = "B" // of a joint
)

// NozzleNames are the keys of a nozzle that name something else of a job.
var NozzleNames = []string{"id", "on", "flange", "cover", "pad", "installation_outside", "installation_inside", "neck"}

// atNozzle tells of overlays that are laid at a nozzle.
func atNozzle(k overlay.Kind) bool { return k == overlay.Pad || k == overlay.LaidInside }

// Job is what an exercise about an overlay is about: two parts of one wall end to
// end, and over their joint the plies of s; or one with a nozzle, and there the
// plies. What else is laid there is not in it.
func (e *Exercise) Job(s *laminate.Schedule) (*laminate.Job, overlay.Overlay) {
	g, overlaid := &e.Given, strings.ReplaceAll(e.Overlay.Said(), " ", "-")
	j := &laminate.Job{Head: g.Head, Service: g.Service, Resins: WithResins(g.Resins, s.Resins), Materials: s.Materials}
	j.Laminates = []laminate.Laminate{{ID: wallID, Plies: e.Wall}, {ID: overlaid, Plies: s.Plies}}
	part := func(id string) {
		p := laminate.JobPart{ID: id, Laminate: wallID, Part: g.Part}
		p.Place = laminate.Place{}
		j.Parts = append(j.Parts, p)
	}
	part(partID)
	o := overlay.Overlay{Kind: e.Overlay, At: laminate.Ref{Kind: laminate.RefJoint}, Of: jointID, Part: partID, Laminate: overlaid}
	if atNozzle(e.Overlay) {
		n := e.Nozzle
		n.ID, n.On = nozzleID, partID
		if e.Overlay.Inside() {
			n.InstallationInside = overlaid
		} else {
			n.Pad = overlaid
		}
		j.Nozzles = []laminate.Nozzle{n}
		o.At.Kind, o.Of = laminate.RefNozzle, nozzleID
		return j, o
	}
	part(otherID)
	x := e.Joint
	x.ID, x.Between, o.Other = jointID, [2]string{partID, otherID}, otherID
	if e.Overlay.Inside() {
		x.Inside = overlaid
	} else {
		x.Outside = overlaid
	}
	j.Joints = []laminate.Joint{x}
	return j, o
}

// WithResins are the resins given and of the others those of another id: what walls
// are laid in stays what it is, whatever an answer calls so.
func WithResins(given, others []laminate.Resin) []laminate.Resin {
	list := slices.Clone(given)
	for _, r := range others {
		if !slices.ContainsFunc(given, func(g laminate.Resin) bool { return g.ID == r.ID }) {
			list = append(list, r)
		}
	}
	return list
}

// faultsOfJob are those of the wall and of the joint or nozzle that an overlay is laid on.
func (e *Exercise) faultsOfJob() (list []Fault) {
	j, _ := e.Job(&e.Given)
	for _, f := range laminate.ValidateJob(j, nil) {
		switch {
		case f.Ref.Kind == laminate.RefJoint:
			list = append(list, Fault{InJoint, 0, f.Ref.Key, f.Message})
		case f.Ref.Kind == laminate.RefNozzle:
			list = append(list, Fault{InNozzle, 0, f.Ref.Key, f.Message})
		case f.Ref.Kind == laminate.RefLaminatePly && f.Ref.Index < len(e.Wall):
			list = append(list, Fault{InWall, f.Ref.Index, f.Ref.Key, f.Message})
		}
	}
	return list
}
