// Package record is an as-built record as plain values: what was laid, what
// was measured and seen, and what was decided, in the order it was entered.
// A record only ever grows: an entry is struck with a reason, never changed.
package record

import (
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
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
	Dispositions     []Disposition
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
	// What was laid otherwise than the schedule has it: another material, another
	// number of plies in the place of the one, another lap. Not given is as written.
	Material string
	Plies    laminate.Optional[int]
	Lap      quantity.Length
	Remark   string
}

// Deviations say in words what was laid otherwise than the schedule has it, of a
// ply of some material; nil where nothing was.
func (l *Laid) Deviations(scheduled string) []string {
	var said []string
	if l.Material != "" && l.Material != scheduled {
		said = append(said, l.Material+" in place of "+scheduled)
	}
	if l.Plies.Given && l.Plies.Value != 1 {
		said = append(said, strconv.Itoa(l.Plies.Value)+" plies in place of 1")
	}
	if l.Lap.Given() {
		said = append(said, "lap "+l.Lap.Text())
	}
	return said
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

// Reading is one measurement.
type Reading struct {
	Entry
	Kind       inspection.Kind
	Place      string
	Thickness  quantity.Length     // kind thickness
	Group      inspection.Group    // what a cutout or specimen holds; WholeWall unless said
	Value      float64             // kind barcol
	Clean      bool                // kind acetone: neither softened nor tacky
	Resistance quantity.Resistance // kind resistance
	Before     quantity.Mass       // kind ignition-loss
	After      quantity.Mass
	Side       spec.Side     // the face it was taken on
	Area       quantity.Area // kind visual: that was examined
	Method     string
	Witness    string // who was there beside who took it
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

// Action is what becomes of a nonconformance.
type Action uint8

// The actions. Nothing true is struck to make room for a retest: what was
// found stays, and what was done about it is said.
const (
	NoAction Action = iota
	Repair          // and examined again
	Retest          // readings of the same kind, place and side that come later count instead
	UseAsIs         // by the purchaser's concession
	Scrap
)

// Actions are the words of actions.
var Actions = word.Of[Action]("", "repair", "retest", "use-as-is", "scrap")

func (a Action) String() string { return Actions.Name(a) }

// Purchaser is the role whose concession takes a nonconformance as it is.
const Purchaser = "purchaser"

// Disposition says what becomes of a reading, a defect or a signed rejection, or of
// a requirement as a whole.
type Disposition struct {
	Entry
	Of          int    // number of the entry, 0 where it is about a requirement
	Requirement string // key of a line that is not met, or the id of a rule that the schedule breaks
	Action      Action
	Procedure   string // of a repair
	Who         string
	Role        string
	When        time.Time
	Why         string
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
