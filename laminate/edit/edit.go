// Package edit changes schedules: every change a person, a fix or a form
// makes is an Edit, a pure function from one schedule to the next with a label
// and the place it is about. Nothing here keeps state.
package edit

import (
	"frp/veilwright/laminate"
)

// Edit is one undoable change.
type Edit struct {
	// Label says what was done, in the past tense, for the notice line:
	// "added ply 8 mat-1.5".
	Label string
	// At is where the change shows after it was made.
	At laminate.Ref
	// Merge joins consecutive edits of the same non-empty key into one undo step.
	Merge string
	// Do makes the new schedule. It must not change its argument; it returns
	// an error that says why the change cannot be made.
	Do func(*laminate.Schedule) (*laminate.Schedule, error)
}
