// Package acceptance holds an as-built record against a schedule and a
// specification, demand by demand. Whether a schedule meets its
// specification and whether a part is accepted are two questions with words of
// their own: see [Answer]. What nobody demanded is a note, not a line.
package acceptance

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance/bonds"
	"frp/veilwright/rules/conformance"
)

// Line is one demand and what was found.
type Line = conformance.Line

// Verdict is what one line comes to.
type Verdict = conformance.Verdict

// The verdicts of a line.
const (
	Meets      = conformance.Meets
	Incomplete = conformance.Incomplete
	Fails      = conformance.Fails
)

// Result is a whole comparison.
type Result struct {
	Lines []Line // in the specification's order
	Notes []string
	Answers
}

// Input is what is held against what. Specification and Record may be nil.
type Input struct {
	Report  *rules.Report // of the schedule: no part laid to one that breaks a rule is accepted
	Library *laminate.Library
	SHA256  string // of the schedule's file, lower-case hexadecimal
	// Fingerprint is of the schedule's content, PlyFingerprints of each single ply;
	// SpecificationFingerprint of what the specification requires.
	Fingerprint              string
	PlyFingerprints          []string
	SpecificationFingerprint string
	Specification            *spec.Specification
	Record                   *record.Record
	// Part is the id of the job's part that is compared, "" for a schedule by itself;
	// what is laid at a joint or nozzle the report names.
	Part       string
	Levels     []spec.LevelLimit // acceptance levels as the shop's book states them
	SameSerial []string          // other records that have this one\'s serial number
	Units      quantity.System
}

// Compare judges every demand.
func Compare(in Input) *Result {
	j := &judge{Input: in, result: &Result{}}
	if o := in.Report.Overlay; o != nil {
		j.note("of the job " + o.Name() + ", is compared, laminate " + o.Laminate)
		if in.Specification != nil {
			j.Specification, j.Levels = in.Specification.ForOverlay(o.Kind), spec.LevelsForOverlay(in.Levels, o.Kind)
			j.note(spec.NotOfOverlays)
		}
	}
	if j.Specification != nil {
		j.result.Lines = conformance.Lines(in.Report, j.Specification, in.Library, in.Units)
	}
	ofSchedule := len(j.result.Lines)
	if in.Record != nil {
		j.index = newIndex(in.Record)
		j.asLaid()
		j.unsettled()
		j.belongs()
		j.layup()
		j.climate()
		j.readings()
		j.thin()
		j.unasked()
		j.defects()
		j.finished()
		j.bonds()
		j.sequence()
		j.struck()
		j.nonconformances()
		j.decisions()
		j.concede()
	} else if in.Specification != nil {
		j.withoutRecord()
	}
	j.answer(ofSchedule)
	return j.result
}

type judge struct {
	Input
	index
	result    *Result
	scheduled map[int]Verdict // of lines that are judged by what was laid: what they are by the schedule
}

func (j *judge) add(l Line) {
	if l.Basis == "" {
		l.Basis = conformance.BySpecification
	}
	j.result.Lines = append(j.result.Lines, l)
}

func (j *judge) note(text string) { j.result.Notes = append(j.result.Notes, text) }

// bonds are those onto cured faces.
func (j *judge) bonds() {
	for _, f := range bonds.Judge(j.Record, j.Report) {
		v := map[rules.Severity]Verdict{rules.Break: Fails, rules.Incomplete: Incomplete}[f.Severity]
		j.add(Line{Key: f.Key, Demand: f.Demand, Found: f.Found, Verdict: v, Basis: f.Basis, Plies: f.Plies})
	}
}
