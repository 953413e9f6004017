package exercise

import (
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
)

// Table is where in an exercise something stands.
type Table uint8

// The tables, beside those of a schedule and a specification.
const (
	InHead Table = iota
	InPlies
	InWall
	InJoint
	InNozzle
	InQuestions
	InSpecimens
	InHints
)

// Fault is what an exercise lacks for its kind, or could not be answered with.
type Fault struct {
	Table   Table
	Row     int // from 0
	Key     string
	Message string
}

// Faults tells what the exercise lacks for its kind, and what it could not be
// answered with; values of what is given and demanded apart.
func (e *Exercise) Faults() (list []Fault) {
	fail := func(in Table, row int, key, format string, args ...any) {
		list = append(list, Fault{in, row, key, fmt.Sprintf(format, args...)})
	}
	need := func(text, key string) {
		if strings.TrimSpace(text) == "" {
			fail(InHead, 0, key, "it is missing; an exercise needs it")
		}
	}
	need(e.ID, "id")
	if strings.Trim(e.ID, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" || len(e.ID) > 60 {
		fail(InHead, 0, "id", "lower-case letters, digits and hyphens are expected, at most 60")
	}
	need(e.Title, "title")
	need(e.Scenario, "scenario")
	need(e.Task, "task")
	if e.Step == 0 {
		fail(InHead, 0, "step", "it is missing; an exercise needs it")
	}
	if e.Kind == NoKind {
		fail(InHead, 0, "kind", "it is missing; an exercise needs it")
		return list
	}
	if len(e.Given.Plies) == 0 && e.Kind != Choose {
		fail(InHead, 0, "kind", "there is no [[ply]]; an exercise of the kind %s needs what is given", e.Kind)
	}
	if e.Kind == Order && len(e.Given.Plies) > MostOrdered {
		fail(InPlies, MostOrdered, "", "at most %d [[ply]] tables can be put in order", MostOrdered)
	}
	if e.Kind.Asks() != (len(e.Questions) > 0) {
		fail(InQuestions, 0, "", "[[question]] tables belong to exercises of the kinds predict and ignition, and those need them")
	}
	if (e.Kind == Ignition) != (len(e.Specimens) > 0) {
		fail(InSpecimens, 0, "", "[[specimen]] tables belong to exercises of the kind ignition, and those need them")
	}
	for i, q := range e.Questions {
		switch {
		case q.Ask == NoAsk:
			fail(InQuestions, i, "ask", "it is missing")
		case q.Ask.OfSpecimens() && e.Kind != Ignition:
			fail(InQuestions, i, "ask", "%q asks about specimens, which belong to an ignition test", q.Ask)
		case q.Ask == Acceptance && !e.Demands.Barrier.GlassContent.Given && !e.Demands.Structure.GlassContent.Given:
			fail(InQuestions, i, "ask", "acceptance needs a required glass_content")
		case q.Ask.Answer() == Word && q.Tolerance.Given:
			fail(InQuestions, i, "tolerance", "a word has none")
		}
		if q.Tolerance.Given && !(q.Tolerance.Value >= 0 && q.Tolerance.Value <= 0.5) {
			fail(InQuestions, i, "tolerance", "it is not between 0 and 0.5")
		}
	}
	for i, x := range e.Specimens {
		switch {
		case !x.Before.Given() || x.Before.SI() <= 0 || x.Before.SI() > 10:
			fail(InSpecimens, i, "before", "a mass above 0 and at most 10 kg is needed")
		case !x.After.Given() || x.After.SI() < 0 || x.After.SI() > x.Before.SI():
			fail(InSpecimens, i, "after", "a mass from 0 to that before the test is needed")
		case x.Group != e.Specimens[0].Group:
			fail(InSpecimens, i, "zone", "all specimens hold the same plies")
		}
	}
	for i, h := range e.Hints {
		if strings.TrimSpace(h.Text) == "" {
			fail(InHints, i, "text", "it is missing")
		}
		if h.Cost.Given && !(h.Cost.Value >= 0 && h.Cost.Value <= 1) {
			fail(InHints, i, "cost", "it is a share from 0 to 1")
		}
	}
	joint, nozzle := e.Joint != (laminate.Joint{Origin: e.Joint.Origin}), e.Nozzle != (laminate.Nozzle{Origin: e.Nozzle.Origin})
	switch form := e.Given.Part.Form; {
	case e.Overlay == overlay.None:
		if len(e.Wall) > 0 || joint || nozzle {
			fail(InHead, 0, "overlay", "it is missing: [[wall]], [joint] and [nozzle] belong to an exercise about what is laid over a joint or at a nozzle")
		}
		return list
	case e.Overlay != overlay.Strap && e.Overlay != overlay.Seal && !atNozzle(e.Overlay):
		fail(InHead, 0, "overlay", "outside (a strap), inside (a seal), pad or installation-inside is expected")
		return list
	case atNozzle(e.Overlay) && joint:
		fail(InJoint, 0, "", "[joint] belongs to a strap or a seal; what is laid at a nozzle has a [nozzle]")
	case !atNozzle(e.Overlay) && nozzle:
		fail(InNozzle, 0, "", "[nozzle] belongs to what is laid at a nozzle; a strap or a seal has a [joint]")
	case e.Kind != Order && e.Kind != Predict && e.Kind != Fix:
		fail(InHead, 0, "overlay", "what is laid over a joint or at a nozzle is asked about by exercises of the kinds order, predict and fix")
	case form != laminate.Pipe && form != laminate.Duct:
		fail(InHead, 0, "overlay", "the part that it is laid on is a pipe or a duct: part.form says which")
	case len(e.Wall) == 0:
		fail(InHead, 0, "overlay", "there is no [[wall]] to lay it on: the plies of the part, or of both that are joined")
	}
	return append(list, e.faultsOfJob()...)
}
