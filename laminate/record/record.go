// Package record is an as-built record as plain values: what was laid, what
// was measured and seen, and what was decided, in the order it was entered.
// A record only ever grows: an entry is struck with a reason, never changed.
package record

import (
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/word"
)

// Record is the log of one part.
type Record struct {
	Schedule         string // file name the part was laid to
	ScheduleRevision laminate.Optional[int]
	ScheduleSHA256   string // decides which schedule it belongs to
	Serial           string
	Laid             []Laid
	Readings         []Reading
	Defects          []Defect
	Decisions        []Decision
	Struck           []Struck
	// Torn says that a last entry was half-written and is not among these; ""
	// when all is whole.
	Torn string
}

// Entry is what every entry carries: its number in the record from 1, in the
// order entered, and where it stands in the file.
type Entry struct {
	Number int
	Line   int
	Struck bool // a later [[struck]] takes it back
}

// Laid is one ply as laid.
type Laid struct {
	Entry
	Ply                int // single-ply number of the schedule, from 1
	Time               time.Time
	Who                string
	MaterialLot        string
	ResinLot           string
	Initiator          laminate.Optional[float64] // share by mass
	Promoter           laminate.Optional[float64]
	GelTime            string
	AirTemperature     quantity.Temperature
	Humidity           laminate.Optional[float64] // share
	SurfaceTemperature quantity.Temperature
	Remark             string
}

// Gel is the gel time as a span, and whether it says one above 0: "24 min",
// "1.5 h", "90 s".
func (l *Laid) Gel() (time.Duration, bool) {
	fields := strings.Fields(l.GelTime)
	if len(fields) != 2 {
		return 0, false
	}
	n, err := strconv.ParseFloat(fields[0], 64)
	unit := map[string]time.Duration{"s": time.Second, "min": time.Minute, "h": time.Hour}[fields[1]]
	if err != nil || !(n > 0 && n*float64(unit) < float64(10_000*time.Hour)) {
		return 0, false
	}
	span := time.Duration(n * float64(unit))
	return span, span > 0
}

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
)

// Kinds are the words of the kinds of reading.
var Kinds = word.Of[Kind]("", "thickness", "barcol", "ignition-loss", "acetone", "resistance")

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

// Reading is one measurement.
type Reading struct {
	Entry
	Kind       Kind
	Place      string
	Thickness  quantity.Length     // kind thickness
	Group      Group               // what a cutout or specimen holds; WholeWall unless said
	Value      float64             // kind barcol
	Clean      bool                // kind acetone: neither softened nor tacky
	Resistance quantity.Resistance // kind resistance
	Before     quantity.Mass       // kind ignition-loss
	After      quantity.Mass
	Time       time.Time
	Who        string
}

// Defect is one defect seen.
type Defect struct {
	Entry
	Kind     spec.Defect
	Side     spec.Side
	Size     quantity.Length
	Depth    quantity.Length
	Count    int
	Area     quantity.Area // that Count was found in
	Place    string
	Repaired bool
}

// Outcome is what was decided.
type Outcome uint8

// The outcomes.
const (
	NoOutcome Outcome = iota
	Accept
	Reject
	AcceptAfterRepair
)

// Outcomes are the words of outcomes.
var Outcomes = word.Of[Outcome]("", "accept", "reject", "accept-after-repair")

func (o Outcome) String() string { return Outcomes.Name(o) }

// Decision is a signed decision.
type Decision struct {
	Entry
	Outcome Outcome
	Who     string
	When    time.Time
	Why     string
}

// Struck takes an earlier entry back, with the reason.
type Struck struct {
	Entry
	Of  int // number of the entry struck
	Who string
	Why string
}
