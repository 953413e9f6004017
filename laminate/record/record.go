// Package record is an as-built record as plain values: what was laid, what
// was measured and seen, and what was decided, in the order it was entered.
// A record only ever grows: an entry is struck with a reason, never changed.
package record

import (
	"slices"
	"strconv"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/word"
)

// Record is the log of one part.
type Record struct {
	Schedule         string // file name the part was laid to
	ScheduleRevision laminate.Optional[int]
	ScheduleSHA256   string // of the schedule's file; of a record without fingerprint
	// ScheduleFingerprint is of the schedule's content, and decides which schedule
	// the record belongs to.
	ScheduleFingerprint string
	Revisions           []Revision
	Dimensions          []Dimension
	Hydrotests          []Hydrotest
	Instruments         []Instrument
	PostCures           []PostCure
	Holds               []Hold
	Preparations        []Preparation
	Specimens           []Specimen
	Photographs         []Photograph
	Bonds               []Bond
	// Serial is the serial number that the record was begun with; SerialNumber is the
	// one that it has by now.
	Serial string
	Marked []Marked
	// Part and Joint name what of a job the record is of: the id of a part, and of
	// a joint or nozzle where it is of what was laid there; "" of a schedule alone.
	// Overlay says which of what is laid there, None of the wall of a part.
	Part, Joint  string
	Overlay      overlay.Kind
	Adopted      []Adopted
	Joined       []Joined
	Cuts         []Cut
	Laid         []Laid
	Readings     []Reading
	Defects      []Defect
	Dispositions []Disposition
	Decisions    []Decision
	Struck       []Struck
	// Torn says that a last entry was half-written and is not among these; ""
	// when all is whole.
	Torn string
	// Trail says whether the entries follow one another as they were written.
	Trail Trail
}

// OfOverlay tells of a record that is of what was laid at a joint or nozzle, or in
// a corner, and not of the wall of a part.
func (r *Record) OfOverlay() bool { return r.Joint != "" || r.Overlay != overlay.None }

// What is what of a job the record is of, in words: "joint J1, strap"; "" of a
// schedule alone.
func (r *Record) What() string {
	o := overlay.Overlay{Kind: r.Overlay, Of: r.Joint, Part: r.Part}
	switch r.Overlay {
	case overlay.Strap, overlay.Seal:
		o.At.Kind = laminate.RefJoint
	case overlay.Neck, overlay.LaidInside, overlay.Pad, overlay.LaidOutside:
		o.At.Kind = laminate.RefNozzle
	case overlay.Knuckle:
	case overlay.None:
		switch {
		case r.Joint != "":
			return "joint or nozzle " + r.Joint
		case r.Part != "":
			return "part " + r.Part
		}
		return ""
	}
	return o.Name()
}

// Entry is what every entry carries. An entry that the program writes has all of
// it; one written by hand, or by an earlier version, has no ID and no Seal.
type Entry struct {
	Number int  // in the record from 1, in the order entered
	Line   int  // where it stands in the file
	Struck bool // a later [[struck]] takes it back

	ID   string // the beginning of what its seal has to be; by it later entries name this one
	At   time.Time
	Who  string
	Role string
	Seal string // 64 hexadecimal digits over all before it and its own content
	// Cut says that it has an ID and no seal: it was cut short, or its seal was taken away.
	Cut bool
	// Content is the sum of the entry's own content without ID and Seal.
	Content Sum
}

// By is who entered something, for a sentence: " by Q. One", "" where nobody is named.
func By(who string) string {
	if who == "" {
		return ""
	}
	return " by " + who
}

// As is who entered something, and as what: " by Q. One (inspector)".
func (e *Entry) As() string {
	if e.Role == "" {
		return By(e.Who)
	}
	return By(e.Who) + " (" + e.Role + ")"
}

// Because goes on with a reason: ": gauge not set", "" where there is none.
func Because(why string) string {
	if why == "" {
		return ""
	}
	return ": " + why
}

// Head is the entry itself, of whatever kind.
func (e *Entry) Head() *Entry { return e }

// Any is a pointer to an entry of one of the kinds.
type Any interface{ Head() *Entry }

// Of is the fingerprint of the schedule that the record is of by now, "" where it
// has none, and the entry by which it came to be, nil where it was begun with it.
func (r *Record) Of() (fingerprint string, by *Revision) {
	fingerprint = r.ScheduleFingerprint
	for i := range r.Revisions {
		if x := &r.Revisions[i]; !x.Struck {
			fingerprint, by = x.Fingerprint, x
		}
	}
	return fingerprint, by
}

// Entries are all entries in the order entered, struck ones too.
func (r *Record) Entries() []Any {
	all := make([]Any, 0, len(r.Laid)+len(r.Readings)+len(r.Defects)+len(r.Dispositions)+len(r.Decisions)+len(r.Struck)+len(r.Adopted)+len(r.Joined)+len(r.Cuts)+len(r.Revisions))
	all = each(all, r.Laid)
	all = each(all, r.Readings)
	all = each(all, r.Defects)
	all = each(all, r.Dispositions)
	all = each(all, r.Decisions)
	all = each(all, r.Struck)
	all = each(all, r.Adopted)
	all = each(all, r.Joined)
	all = each(all, r.Cuts)
	all = each(all, r.Revisions)
	all = each(all, r.Dimensions)
	all = each(all, r.Hydrotests)
	all = each(all, r.Instruments)
	all = each(all, r.PostCures)
	all = each(all, r.Holds)
	all = each(all, r.Preparations)
	all = each(all, r.Specimens)
	all = each(all, r.Photographs)
	all = each(all, r.Bonds)
	all = each(all, r.Marked)
	slices.SortStableFunc(all, func(a, b Any) int { return a.Head().Number - b.Head().Number })
	return all
}

func each[T any, P interface {
	*T
	Any
}](all []Any, list []T) []Any {
	for i := range list {
		all = append(all, P(&list[i]))
	}
	return all
}

// Adopted is that somebody named answers for the entries before it that have no
// seal, as they stand.
type Adopted struct {
	Entry
	Why string
}

// Revision is that lay-up goes on to another revision of the schedule.
type Revision struct {
	Entry
	Schedule    string // its file
	Number      laminate.Optional[int]
	Fingerprint string
	From        int // the first ply laid to it
	Why         string
}

// Joined is that somebody named put two copies of a record together that went
// separate ways.
type Joined struct {
	Entry
	Heads string // IDs of the last entries of the copies, separated by a space
	Why   string
}

// Cut is that a half-written last entry was put aside.
type Cut struct {
	Entry
	Bytes  int
	Aside  string // the file that has it now, beside the record
	SHA256 string // of what was put aside
}

// What the remark of a waxed coat says that had to wait for what is bonded onto it.
const (
	CoatedFirst = "laid BEFORE " // it is ground off where they bond
	CoatedLast  = "laid after "
)

// Laid is one ply as laid.
type Laid struct {
	Entry
	Ply                int    // single-ply number of the schedule, from 1
	Fingerprint        string // of the ply as the schedule had it
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

// Otherwise tells that a ply was laid of another material than scheduled, or not once.
func (l *Laid) Otherwise(scheduled string) bool {
	return l.Material != "" && l.Material != scheduled || l.Plies.Given && l.Plies.Value != 1
}

// Deviations say in words what was laid otherwise than the schedule has it, of a
// ply of some material; nil where nothing was.
func (l *Laid) Deviations(scheduled string, u quantity.System) []string {
	var said []string
	if l.Material != "" && l.Material != scheduled {
		said = append(said, l.Material+" in place of "+scheduled)
	}
	if l.Plies.Given && l.Plies.Value != 1 {
		said = append(said, strconv.Itoa(l.Plies.Value)+" plies in place of 1")
	}
	if l.Lap.Given() {
		said = append(said, "lap "+l.Lap.TextFor(u, u.Size()))
	}
	return said
}

// Gel is the gel time as a span, and whether it says one above 0: "24 min",
// "1.5 h", "90 s".
func (l *Laid) Gel() (time.Duration, bool) { return Span(l.GelTime) }

// Reading is one measurement.
type Reading struct {
	Entry
	Kind       inspection.Kind
	Place      string
	Thickness  quantity.Length     // kind thickness
	Group      inspection.Group    // what a cutout or specimen holds; WholeWall unless said
	Value      float64             // kind barcol
	Clean      bool                // kind acetone: neither softened nor tacky
	Softened   bool                // softened and not tacky
	Resistance quantity.Resistance // kind resistance
	Before     quantity.Mass       // kind ignition-loss
	After      quantity.Mass
	Plies      laminate.Optional[int] // kind ignition-loss: counted in what is left
	Side       spec.Side              // the face it was taken on
	Area       quantity.Area          // kind visual: that was examined
	Method     string
	Instrument string
	Witness    string // who was there beside who took it
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
	OfID        string // the same by its ID; an entry without one is named by its number alone
	Requirement string // key of a line that is not met, or the id of a rule that the schedule breaks or that lacks a fact
	Action      Action
	Procedure   string // of a repair
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
	Covers  laminate.Optional[int] // how many entries there were when it was signed
	Verdict string                 // what the comparison came to then
	// Specification and Schedule are fingerprints of what was weighed.
	Specification, Schedule string
	Why                     string
}

// Struck takes an earlier entry back, with the reason.
type Struck struct {
	Entry
	Of   int    // number of the entry struck, 0 where it is not in the record
	OfID string // the same by its ID
	Why  string
}
