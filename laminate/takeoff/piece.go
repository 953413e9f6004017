package takeoff

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
)

// Kind is what a piece is.
type Kind uint8

// The kinds.
const (
	Part Kind = iota
	Joint
	Nozzle
)

// Piece is a laminate and what it is laid on.
type Piece struct {
	Name     string       // "" for the one of a schedule
	At       laminate.Ref // the part, joint or nozzle of a job that it belongs to
	Kind     Kind
	Count    int                // how many alike
	Schedule *laminate.Schedule // plies, resins, materials
	Ground   ground.Ground
	Missing  error  // why the ground is not known
	Taken    string // what no key states and the ground goes by
	Gussets  int    // that stand round it, of a laminate that no key states
}

// Of is the one piece that a schedule is. The ends of a tank are not in it.
func Of(s *laminate.Schedule) Piece {
	p := Piece{Count: 1, Schedule: s}
	p.Ground, p.Missing = ground.OfPart(&s.Part)
	return p
}
