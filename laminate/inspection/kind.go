package inspection

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/word"
)

// Kind is what a reading measured.
type Kind uint8

// The kinds of reading.
const (
	NoKind Kind = iota
	WallThickness
	Barcol
	IgnitionLoss
	Acetone
	ResistanceToGround
	Visual
)

// Kinds are the words of the kinds of reading.
var Kinds = word.Of[Kind]("", "thickness", "barcol", "ignition-loss", "acetone", "resistance", "visual")

func (k Kind) String() string { return Kinds.Name(k) }

// Group is the part of the wall a cutout or a specimen holds.
type Group uint8

// The groups of plies.
const (
	WholeWall Group = iota
	Barrier
	InnerSurface
	InteriorLayer
	StructuralLayer
	OuterSurface
)

// Groups are the words of the groups: the whole wall, the barrier, and each
// zone by its own word.
var Groups = word.Of[Group](append([]string{"total", "barrier"}, laminate.Zones.Words()...)...)

func (g Group) String() string { return Groups.Name(g) }

// Zone is the zone that the group is, NoZone where it is no single one.
func (g Group) Zone() laminate.Zone {
	if g < InnerSurface {
		return laminate.NoZone
	}
	return laminate.InnerSurface + laminate.Zone(g-InnerSurface)
}

// Holds tells whether plies of the zone belong to the group.
func (g Group) Holds(z laminate.Zone) bool {
	switch g {
	case WholeWall:
		return true
	case Barrier:
		return z.InBarrier()
	default:
		return g.Zone() == z
	}
}
