// Package acceptance holds a schedule against a specification, and an as-built
// record against both, demand by demand. Whether a schedule meets its
// specification and whether a part is accepted are two questions with words of
// their own: see [Answer]. What nobody demanded is a note, not a line.
package acceptance

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/word"
	"frp/veilwright/rules"
)

// Verdict is what one line comes to.
type Verdict uint8

// The verdicts of a line.
const (
	Meets Verdict = iota
	Incomplete
	Fails
)

var verdicts = word.Of[Verdict]("meets", "incomplete", "fails")

func (v Verdict) String() string { return verdicts.Name(v) }

// Line is one demand and what was found.
type Line struct {
	Key     string // the demand's place: "barrier.veil_fiber", "inspection.barcol"
	Demand  string
	Found   string
	Verdict Verdict
	Basis   string
	Plies   []int // single-ply numbers of the schedule it is about
}

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
	SameSerial               []string // other records that have this one\'s serial number
	Units                    quantity.System
}

// Compare judges every demand.
func Compare(in Input) *Result {
	j := &judge{Input: in, result: &Result{}}
	if in.Specification != nil {
		j.barrier()
		j.structure()
		j.wholeWall()
	}
	ofSchedule := len(j.result.Lines)
	if in.Record != nil {
		j.breaks()
		j.belongs()
		j.layup()
		j.climate()
		j.readings()
		j.defects()
		j.finished()
		j.nonconformances()
		j.decisions()
		j.concede()
	} else if in.Specification != nil {
		j.withoutRecord()
	}
	j.answer(ofSchedule)
	return j.result
}

const bySpecification = "the specification"

type judge struct {
	Input
	result *Result
}

func (j *judge) add(l Line) {
	if l.Basis == "" {
		l.Basis = bySpecification
	}
	j.result.Lines = append(j.result.Lines, l)
}

func (j *judge) note(text string) { j.result.Notes = append(j.result.Notes, text) }

// numbers lists the single plies of the rows that ok selects.
func (j *judge) numbers(ok func(row int, r *laminate.RowFigures) bool) []int {
	var list []int
	for i := range j.Report.Analysis.Rows {
		r := &j.Report.Analysis.Rows[i]
		if ok(i, r) {
			for n := r.First; n <= r.Last; n++ {
				list = append(list, n)
			}
		}
	}
	return list
}

// thickness judges the computed thickness of a group of plies against a range.
// A ply whose thickness cannot be computed leaves the sum unknown.
func (j *judge) thickness(key, what string, demand spec.Thickness, g inspection.Group) {
	if !demand.Given() {
		return
	}
	unknown := j.numbers(func(_ int, r *laminate.RowFigures) bool { return g.Holds(r.Zone) && r.Thickness <= 0 })
	if len(unknown) > 0 {
		asked, _ := j.span(demand, demand.Lowest.SI())
		j.add(Line{Key: key, Demand: what + " " + asked, Found: "the thickness of " + plies(unknown) + " is not known",
			Verdict: Incomplete, Plies: unknown})
		return
	}
	found := j.group(g).Thickness
	v := Meets
	if demand.Lowest.Given() && quantity.Below(found, demand.Lowest.SI()) ||
		demand.Highest.Given() && quantity.Above(found, demand.Highest.SI()) {
		v = Fails
	}
	asked, text := j.span(demand, found)
	j.add(Line{Key: key, Demand: what + " " + asked, Found: text + " computed", Verdict: v})
}

// span prints a demanded range, and found so that it differs from a bound that
// it differs from.
func (j *judge) span(t spec.Thickness, found float64) (demand, text string) {
	low, high := t.Lowest.SI(), t.Highest.SI()
	switch {
	case !t.Highest.Given():
		text, demand = j.Units.Pair(found, low, quantity.Thickness)
		return "at least " + demand, text
	case !t.Lowest.Given():
		text, demand = j.Units.Pair(found, high, quantity.Thickness)
		return "at most " + demand, text
	}
	all := j.Units.Apart(quantity.Thickness, low, found, high)
	return all[0] + " to " + all[2], all[1]
}

// share judges a fraction against a range.
func (j *judge) share(key, what string, demand spec.Range, found float64, known bool, why string) {
	if !demand.Given {
		return
	}
	l := Line{Key: key, Demand: what + " " + quantity.US.Span(demand.Lowest, demand.Highest, quantity.Fraction)}
	switch {
	case !known:
		l.Verdict, l.Found = Incomplete, why
	default:
		all := j.Units.Apart(quantity.Fraction, demand.Lowest, found, demand.Highest)
		l.Demand, l.Found = what+" "+all[0]+" to "+all[2], all[1]
		if quantity.Below(found, demand.Lowest) || quantity.Above(found, demand.Highest) {
			l.Verdict = Fails
		}
	}
	j.add(l)
}

// anyOf joins the words of a list of alternatives.
func anyOf[T interface{ String() string }](list []T) string {
	words := make([]string, len(list))
	for i, x := range list {
		words[i] = x.String()
	}
	return strings.Join(words, " or ")
}

func contains[T comparable](list []T, x T) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}
