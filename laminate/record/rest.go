package record

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/word"
)

// Span is a time as it is written in records, and whether it is one above 0:
// "24 min", "1.5 h", "90 s".
func Span(text string) (time.Duration, bool) {
	fields := strings.Fields(text)
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

// Dimension is one measure of the finished part.
type Dimension struct {
	Entry
	What       spec.Measure
	Place      string
	Value      quantity.Length
	Instrument string
	Witness    string
}

// Hydrotest is a test of the part under water at pressure. There is none with
// gas: see GasRefused.
type Hydrotest struct {
	Entry
	Medium      string // water
	Pressure    quantity.Pressure
	Held        string // a Span
	Leaks       laminate.Optional[int]
	Instrument  string // the pressure gauge
	Temperature quantity.Temperature
	Witness     string
	Remark      string
}

// Water is the one medium of a hydrotest.
const Water = "water"

// GasRefused says why a part is not tested with gas.
const GasRefused = "a part of laminate is tested with water, never with gas: compressed gas stores many hundred times the energy, and a laminate that fails flies apart in pieces"

// Instrument is a gauge or meter and when it was calibrated.
type Instrument struct {
	Entry
	Instrument string // as readings name it
	What       string
	Calibrated time.Time
	Due        time.Time
}

// PostCure is one cycle of post-cure as it was logged.
type PostCure struct {
	Entry
	Temperature quantity.Temperature
	Held        string // a Span
	Instrument  string
	Remark      string
}

// Hold is a hold or witness point that was come to.
type Hold struct {
	Entry
	Point   string
	Passed  laminate.Optional[bool]
	Witness string
	Remark  string
}

// Specimen is a piece of the part, or one laid with it, that is kept.
type Specimen struct {
	Entry
	Mark   string // what is written on it
	Place  string // where it was taken from
	Group  inspection.Group
	Kept   string // where
	Until  time.Time
	Remark string
}

// Photograph is one that was taken, by the name of its file, which nobody opens here.
type Photograph struct {
	Entry
	File   string
	Shows  string
	Place  string
	Remark string
}

// Marked is the serial number that a piece got after its record was begun without one.
type Marked struct {
	Entry
	Serial string // as marked on the piece
	Remark string
}

// Serials are the serial numbers that a record gives its piece, each once: one is as it
// should be.
func (r *Record) Serials() []string {
	var list []string
	add := func(s string) {
		if s = strings.TrimSpace(s); s != "" && !slices.ContainsFunc(list, func(o string) bool { return word.Alike(o, s) }) {
			list = append(list, s)
		}
	}
	add(r.Serial)
	for i := range r.Marked {
		if !r.Marked[i].Struck {
			add(r.Marked[i].Serial)
		}
	}
	return list
}

// SerialNumber is the serial number of the piece, "" where the record has none; of
// several the first.
func (r *Record) SerialNumber() string {
	if list := r.Serials(); len(list) > 0 {
		return list[0]
	}
	return ""
}

// Preparation is that a cured face was made ready for a bond.
type Preparation struct {
	Entry
	Onto    string                  // joint, nozzle or place; "" the face of the part itself
	Abraded laminate.Optional[bool] // whether it was ground
	Finish  string                  // to what: "36 grit, dull"
	// What is known of the bond to come, which is recorded with its first ply.
	Gelled                time.Time
	Bonder, Qualification string
	Remark                string
}

// Bond is that the first ply was laid onto a cured face.
type Bond struct {
	Entry
	Onto          string    // as of a preparation
	Gelled        time.Time // when the face had gelled
	Bonder        string
	Qualification string // by which the bonder may
	Remark        string
}
