// Package exercise is a task for somebody who learns, as plain values: a
// scenario with its part and service, what is given, what is demanded, what is
// asked, and hints. It holds no answer: answers are computed by what judges
// every other schedule.
package exercise

import (
	"cmp"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
)

// Steps is the number of steps of the course, counted from 1.
const Steps = 6

// Limits of what is reasonable in one exercise.
const (
	MostHints     = 9
	MostQuestions = 20
	MostSpecimens = 100
	// MostOrdered is the most ply rows that are put in order in one exercise.
	MostOrdered = 8
)

// Exercise is one task.
type Exercise struct {
	ID       string
	Title    string
	Step     int // 1 to Steps
	Kind     Kind
	Scenario string // of several lines where wanted
	Task     string
	// Given is what the trainee starts from: the part and service, resins and
	// plies that are there already. Of a build it holds everything outside the
	// barrier, of a fix the schedule with its faults, of an order the plies in
	// the order in which they lie about. Of an overlay its plies are those of the
	// overlay, and its part is each of the two that are joined.
	Given laminate.Schedule
	// Overlay is what is laid over the joint of two parts or at a nozzle: strap, seal,
	// pad, or what is laid inside; None where the exercise is about a wall.
	Overlay overlay.Kind
	Wall    []laminate.Ply  // of an overlay: of each part that it is laid on
	Joint   laminate.Joint  // of strap and seal: the sizes of the joint, and who bonds it; it names nothing
	Nozzle  laminate.Nozzle // of the others: what is stated of the nozzle; it names nothing
	// KeepStructure asks that what stands outside the barrier is left as given.
	KeepStructure bool
	// Demands are required of the trainee's schedule; of an ignition test its glass
	// content is what the specimens are accepted against.
	Demands   spec.Specification
	Questions []Question
	Specimens []Specimen
	Hints     []Hint
}

// Question is a figure or a word to be told of what is given.
type Question struct {
	Ask Ask
	// Tolerance within which an answer is right: a share of a thickness, an
	// absolute share of a content. Not given: the usual one of the kind.
	Tolerance laminate.Optional[float64]
}

// Usual tolerances: a ply's thickness and glass content stray by more than
// this in any shop (common practice, no source).
const (
	ThicknessTolerance = 0.05 // of the thickness
	ContentTolerance   = 0.02 // 2 points of percent
)

// Within is the tolerance that holds for the question, 0 for a word.
func (q Question) Within() float64 {
	switch q.Ask.Answer() {
	case Thickness:
		return q.Tolerance.Or(ThicknessTolerance)
	case Content:
		return q.Tolerance.Or(ContentTolerance)
	default: // nothing of the others
	}
	return 0
}

// Specimen is a piece of the wall, weighed before and after an ignition test.
type Specimen struct {
	Group         inspection.Group // which plies it holds
	Before, After quantity.Mass
}

// Hint is a help and what it costs.
type Hint struct {
	Text string
	Cost laminate.Optional[float64] // share of the full mark
}

// HintCost is what a hint costs that does not say, as a share of the full mark.
const HintCost = 0.1

// Price is what the hint costs, as a share of the full mark.
func (h Hint) Price() float64 { return h.Cost.Or(HintCost) }

// Compare orders exercises as the course does: by step, then id, f9 before f10.
func Compare(a, b *Exercise) int {
	return cmp.Or(cmp.Compare(a.Step, b.Step), cmp.Compare(counted(a.ID), counted(b.ID)))
}

// counted is an id whose first number sorts by what it counts: f9 before f10.
func counted(id string) string {
	from := strings.IndexAny(id, "0123456789")
	if from < 0 {
		return id
	}
	n := len(id[from:]) - len(strings.TrimLeft(id[from:], "0123456789"))
	return id[:from] + strings.Repeat("0", max(0, 20-n)) + id[from:]
}

// NamesPlies tells whether the plies at fault are named before they are put right.
// What is laid over a joint or at a nozzle is judged as a whole: too thin is none of
// its plies by itself.
func (e *Exercise) NamesPlies() bool { return e.Kind == Fix && e.Overlay == overlay.None }

// Listed says in which order the plies that are given stand.
func (e *Exercise) Listed() string {
	switch {
	case e.Kind == Order:
		return "as they lie about"
	case e.Overlay != overlay.None:
		return e.From()
	}
	return "from the process side"
}

// From says from where on plies are laid.
func (e *Exercise) From() string {
	if e.Overlay != overlay.None {
		return "from the cured face on"
	}
	return "from the process side outward"
}
