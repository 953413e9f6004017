// Package conformance holds a schedule against a specification, demand by demand:
// what was computed of its plies beside what was required of them.
package conformance

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
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

// BySpecification is the basis of a line whose limit the specification states.
const BySpecification = "the specification"

// Lines judges every demand that a specification makes of the schedule itself, in
// its order, then what both of them state. lib has what is typical of resins.
func Lines(r *rules.Report, d *spec.Specification, lib *laminate.Library, u quantity.System) []Line {
	j := &judge{report: r, demands: d, units: u}
	j.barrier()
	j.structure()
	j.wholeWall()
	j.bothState(lib)
	return j.lines
}

type judge struct {
	report  *rules.Report
	demands *spec.Specification
	units   quantity.System
	lines   []Line
}

func (j *judge) add(l Line) {
	if l.Basis == "" {
		l.Basis = BySpecification
	}
	j.lines = append(j.lines, l)
}

// numbers lists the single plies of the rows that ok selects.
func (j *judge) numbers(ok func(row int, r *laminate.RowFigures) bool) []int {
	var list []int
	for i := range j.report.Analysis.Rows {
		r := &j.report.Analysis.Rows[i]
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
		asked, _ := Span(j.units, demand, demand.Lowest.SI())
		j.add(Line{Key: key, Demand: what + " " + asked, Found: "the thickness of " + Plies(unknown) + " is not known",
			Verdict: Incomplete, Plies: unknown})
		return
	}
	if Group(j.report.Analysis, g).Plies == 0 { // nothing is thin enough for being nowhere
		asked, _ := Span(j.units, demand, demand.Lowest.SI())
		j.add(Line{Key: key, Demand: what + " " + asked, Found: noPly, Verdict: Fails})
		return
	}
	found := Group(j.report.Analysis, g).Thickness
	v := Meets
	if demand.Lowest.Given() && quantity.Below(found, demand.Lowest.SI()) ||
		demand.Highest.Given() && quantity.Above(found, demand.Highest.SI()) {
		v = Fails
	}
	asked, text := Span(j.units, demand, found)
	j.add(Line{Key: key, Demand: what + " " + asked, Found: text + " computed", Verdict: v})
}

// noPly is what is found of a part of the wall that the schedule does not have.
const noPly = "no ply there"

// Span prints a demanded range, and found, in m, so that it differs from a bound
// that it differs from.
func Span(u quantity.System, t spec.Thickness, found float64) (demand, text string) {
	low, high := t.Lowest.SI(), t.Highest.SI()
	switch {
	case !t.Highest.Given():
		text, demand = u.Pair(found, low, quantity.Thickness)
		return "at least " + demand, text
	case !t.Lowest.Given():
		text, demand = u.Pair(found, high, quantity.Thickness)
		return "at most " + demand, text
	}
	all := u.Apart(quantity.Thickness, low, found, high)
	return all[0] + " to " + all[2], all[1]
}

// share judges a computed fraction against a range.
func (j *judge) share(key, what string, demand spec.Range, found float64, known bool, why string) {
	if demand.Given {
		j.add(Share(j.units, key, what, demand, found, known, why))
	}
}

// Share is the line of a fraction against a range; why says why it is not known.
func Share(u quantity.System, key, what string, demand spec.Range, found float64, known bool, why string) Line {
	l := Line{Key: key, Demand: what + " " + quantity.US.Span(demand.Lowest, demand.Highest, quantity.Fraction)}
	switch {
	case !known:
		l.Verdict, l.Found = Incomplete, why
	default:
		all := u.Apart(quantity.Fraction, demand.Lowest, found, demand.Highest)
		l.Demand, l.Found = what+" "+all[0]+" to "+all[2], all[1]
		if quantity.Below(found, demand.Lowest) || quantity.Above(found, demand.Highest) {
			l.Verdict = Fails
		}
	}
	return l
}

// anyOf joins the words of a list of alternatives.
func anyOf[T interface{ String() string }](list []T) string {
	words := make([]string, len(list))
	for i, x := range list {
		words[i] = x.String()
	}
	return strings.Join(words, " or ")
}

// Plies names single plies, runs as ranges: "plies 2, 4-6".
func Plies(list []int) string { return Numbered("ply", "plies", list) }

// Numbered names numbers of a kind, runs as ranges.
func Numbered(one, many string, list []int) string {
	var b strings.Builder
	b.WriteString(one + " ")
	if len(list) > 1 {
		b.Reset()
		b.WriteString(many + " ")
	}
	for i := 0; i < len(list); {
		k := i
		for k+1 < len(list) && list[k+1] == list[k]+1 {
			k++
		}
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(strconv.Itoa(list[i]))
		if k > i {
			b.WriteString("-" + strconv.Itoa(list[k]))
		}
		i = k + 1
	}
	return b.String()
}

// Group is what the plies of a group come to as computed.
func Group(a *laminate.Analysis, g inspection.Group) laminate.Sum {
	switch g {
	case inspection.WholeWall:
		return a.Total
	case inspection.Barrier:
		return a.Barrier
	default:
		return a.Zones[g.Zone()]
	}
}
