// Package spec is a buyer's specification as plain values: what is demanded of
// a barrier, a structure, the whole wall and its inspection. Every demand is
// optional; what is absent is not demanded.
package spec

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// Specification is what a buyer demands.
type Specification struct {
	Title, Number string
	Barrier       Barrier
	Structure     Structure
	OuterSurface  laminate.Optional[bool] // required
	Total         Thickness
	Sequence      []Step // from the process side; empty = no demand
	Inspection    Inspection
}

// Thickness is a lowest and a highest thickness; either may be open.
type Thickness struct {
	Lowest, Highest quantity.Length
	Line            int
}

// Given tells whether either side is demanded.
func (t Thickness) Given() bool { return t.Lowest.Given() || t.Highest.Given() }

// Range is a lowest and highest number.
type Range struct {
	Lowest, Highest float64
	Given           bool
}

// Barrier is what is demanded of the corrosion barrier.
type Barrier struct {
	VeilFiber     []laminate.Fiber // any of
	VeilPlies     laminate.Optional[int]
	VeilExact     bool // exactly VeilPlies, else at least
	MatPlies      laminate.Optional[int]
	MatArealMass  quantity.ArealMass // of each ply, at least, 2 % allowance
	Thickness     Thickness
	GlassContent  Range
	Resin         []laminate.Family // any of
	Filler        laminate.Filler
	FillerContent Range
	Conductive    laminate.Optional[bool]
}

// MatAllowance is how far below the required areal mass a mat ply may lie
// (common practice, no source).
const MatAllowance = 0.02

// Structure is what is demanded of the structural layer.
type Structure struct {
	Process      laminate.Process
	Resin        []laminate.Family
	Thickness    Thickness
	GlassContent Range
	Forms        []laminate.Form // no other
	Angle        Range           // degrees from the axis, of wound and unidirectional plies
}

// Step is one entry of a demanded sequence.
type Step struct {
	Form  laminate.Form
	Plies int  // 0 with Any
	Any   bool // anything from here on
}

// Inspection is what is demanded of the readings.
type Inspection struct {
	ThicknessReadings     laminate.Optional[int]
	SpotMinimum           laminate.Optional[float64] // share of the lowest thickness, at isolated spots
	Barcol                laminate.Optional[float64] // the resin maker's figure
	BarcolReadings        laminate.Optional[int]
	IgnitionSpecimens     laminate.Optional[int]
	Acetone               laminate.Optional[bool]
	LayupRecord           laminate.Optional[bool]
	ResistanceToGroundMax quantity.Resistance
	Calibrated            laminate.Optional[bool] // every instrument, within its date
	AcceptanceLevel       string                  // of visual defects, which the shop's book has to state
	Defects               []DefectLimit
	Plans                 []Plan
	Dimensions            []Dimension
	Hydrotest             Hydrotest
	PostCure              PostCure
	Holds                 []Hold
}

// Measure is what of a finished part is measured.
type Measure uint8

// The measures.
const (
	NoMeasure Measure = iota
	InsideDiameter
	OutsideDiameter
	Length
	OutOfRound     // largest less smallest diameter
	FlangeFlatness // largest gap under a straightedge
	FlangeDrawback
	BoltCircle
	BoltHole
	NozzlePosition // off its place
	OtherMeasure
)

// Measures are the words of measures.
var Measures = word.Of[Measure]("", "inside-diameter", "outside-diameter", "length", "out-of-round", "flange-flatness", "flange-drawback", "bolt-circle",
	"bolt-hole", "nozzle-position", "other")

func (m Measure) String() string { return Measures.Name(m) }

// Dimension is what is demanded of one measure.
type Dimension struct {
	What   Measure
	Value  Bounds
	Places string // each of them, separated by commas; empty: wherever it was measured
}

// Bounds are a lowest and a highest length, either of which may be open.
type Bounds struct{ Lowest, Highest quantity.Length }

// Given tells whether there is a bound.
func (b Bounds) Given() bool { return b.Lowest.Given() || b.Highest.Given() }

// Hydrotest is what is demanded of the test under water at pressure.
type Hydrotest struct {
	Pressure quantity.Pressure // at least
	Held     string            // at least: "30 min"
	Witness  string
}

// PostCure is what is demanded of the post-cure.
type PostCure struct {
	Temperature quantity.Temperature // at least
	Held        string               // at least
}

// Hold is a point that somebody has to pass.
type Hold struct {
	Point     string
	BeforePly laminate.Optional[int] // that may not be laid before
	Witness   string
}

// Text says which point it is, where it lies and before whom.
func (h *Hold) Text() string {
	text := "hold point: " + h.Point
	if h.BeforePly.Given {
		text += ", before ply " + strconv.Itoa(h.BeforePly.Value)
	}
	if h.Witness != "" {
		text += ", witnessed by " + h.Witness
	}
	return text
}

// Plan is how one kind of reading is to be taken: where, how many, by which
// method, and whether each or the mean is judged.
type Plan struct {
	Of          inspection.Kind
	Group       inspection.Group // of thickness and ignition loss
	Places      string           // each of them, separated by commas; empty: wherever readings were taken
	Side        Side
	Method      string
	Number      laminate.Optional[int]     // at each place; of ignition specimens, of the group
	Judge       Judge                      // NoJudge: the mean
	SpotMinimum laminate.Optional[float64] // share of the lowest thickness, at isolated spots
	Witness     string                     // who has to be there
}

// Names are the places, one by one.
func (p *Plan) Names() []string { return Places(p.Places) }

// Places are places separated by commas, one by one.
func Places(list string) []string {
	if list == "" {
		return nil
	}
	names := strings.Split(list, ",")
	for i := range names {
		names[i] = strings.TrimSpace(names[i])
	}
	return names
}

// Judge is what of several readings at one place is held against the limit.
type Judge uint8

// What is judged.
const (
	NoJudge Judge = iota
	Each
	Mean
)

// Judges are the words of what is judged.
var Judges = word.Of[Judge]("", "each", "mean")

func (j Judge) String() string { return Judges.Name(j) }

// DefectLimit is what is let pass of one kind of defect on one side.
type DefectLimit struct {
	Kind       Defect
	Side       Side
	SizeMax    quantity.Length
	DepthMax   quantity.Length
	PerAreaMax laminate.Optional[int] // in Area
	Area       quantity.Area          // one square foot when not given
}

// LevelLimit is a limit of an acceptance level as a shop's book states it. Standards
// have levels of their own (ASTM D2563), whose tables this program does not hold.
type LevelLimit struct {
	Level  string
	Source string
	DefectLimit
}

// OfLevel are those of an acceptance level, by its name as people write it.
func OfLevel(name string, limits []LevelLimit) []LevelLimit {
	plain := func(s string) string { return strings.ToLower(strings.TrimSpace(s)) }
	var of []LevelLimit
	for _, l := range limits {
		if name != "" && plain(l.Level) == plain(name) {
			of = append(of, l)
		}
	}
	return of
}

// Defect is a kind of visual defect.
type Defect uint8

// The defects.
const (
	NoDefect Defect = iota
	Pit
	Bubble
	Blister
	Chip
	Crack
	DrySpot
	Wrinkle
	ExposedFiber
	Inclusion
	Delamination
	Other
)

// Defects are the words of defects.
var Defects = word.Of[Defect]("", "pit", "bubble", "blister", "chip", "crack", "dry-spot", "wrinkle", "exposed-fiber", "inclusion",
	"delamination", "other")

func (d Defect) String() string { return Defects.Name(d) }

// Side is a face of the wall.
type Side uint8

// The sides; a limit without a side is for both.
const (
	EitherSide Side = iota
	ProcessSide
	OutsideFace
)

// Sides are the words of sides.
var Sides = word.Of[Side]("", "process", "outside")

func (s Side) String() string { return Sides.Name(s) }
