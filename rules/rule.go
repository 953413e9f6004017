// Package rules holds what a rule is, what it may see and say, and how a
// schedule is judged. The rules themselves stand in the families below; the
// explicit list of them is package rules/all.
//
// A rule knows no document text and no screen: a finding points at a
// laminate.Ref. Same schedule and library, same findings in the same order.
package rules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

// Rule is one entry of the catalog.
type Rule struct {
	ID       string      // kebab case, says what is wrong, never reused
	Family   string      // one of Families
	Title    string      // at most 60 characters, no full stop
	Why      string      // teaches: why, and what happens if ignored; several sentences
	Severity []Severity  // the severities it can give, worst first
	When     string      // when it fires, bounds included
	Basis    string      // the source, or "common practice, no source", or "from memory"
	Run      func(*Pass) // over a wall; nil of a rule that looks at whole jobs alone
	// ByUse says that how many findings it gives, and how grave, follows from part,
	// service, resins and which of them are used where (Facts.Uses, Unresined): while
	// those stay it is not asked again about a fix that is tried out.
	ByUse bool
	// Overlays says of which laminates beside walls Run holds too.
	Overlays Reach
	Job      func(*JobPass)
}

// Reach is of which laminates beside walls a rule of walls holds.
type Reach uint8

// The reaches.
const (
	WallsAlone    Reach = iota
	EveryOverlay        // what is laid at joints, at nozzles and in corners
	WettedOverlay       // what of that the fluid touches
	NeckOverlay         // necks, which are laid on a mandrel as a wall is
)

// Finding is one thing a rule has to say.
type Finding struct {
	Rule     *Rule
	Severity Severity
	// Rows are the ply rows it is about (indices into Schedule.Plies), ascending; may be empty.
	Rows []int
	// At is the place to go to.
	At laminate.Ref
	// Also are places in other rows of a job that it is about as much.
	Also []laminate.Ref
	// Covers says, of what no formula here figures, what a proof of others has to
	// cover to answer for it; "" of a finding that no proof answers for.
	Covers string
	// Message gives the measured figure and the limit in the reader's units.
	Message string
	// Basis is the rule's, or a narrower one.
	Basis string
	// Fix fixes it, where that is mechanical and the report after it is
	// better; else nil. It is nil too until it is asked for, see Report.Fix.
	Fix *Fix

	offer *Fix     // not tried out yet
	plain *Finding // as of its laminate by itself, where it is of what is laid somewhere
}

// In is the place of the finding in a row of a job, whatever its key; not ok where
// it is about others.
func (f *Finding) In(row laminate.Ref) (at laminate.Ref, ok bool) {
	if f.At.Kind == row.Kind && f.At.Index == row.Index {
		return f.At, true
	}
	for _, at := range f.Also {
		if at.Kind == row.Kind && at.Index == row.Index {
			return at, true
		}
	}
	return laminate.Ref{}, false
}

// Unsettled tells that no part laid to the schedule is accepted while the finding
// stands: the schedule breaks a rule, or a fact is missing by which it could be
// told. Until then the purchaser may concede it.
func (f *Finding) Unsettled() bool { return f.Severity == Break || f.Severity == Incomplete }

// Fix is a mechanical fixing.
type Fix struct {
	Text string // what it does, present tense: "ply 1 becomes veil-polyester-15, same count"
	Edit edit.Edit

	made func(*edit.Draft) (*laminate.Schedule, error) // of a draft of the schedule judged
}

// Pass is all a rule may see, and its only way to speak.
type Pass struct {
	Schedule *laminate.Schedule
	Library  *laminate.Library
	Analysis *laminate.Analysis
	Units    quantity.System
	// Facts are what many rules ask for.
	Facts Facts
	// Wall is the evaluation of the structure.
	Wall func() *wall.Result

	fix      bool  // fixes are wanted: not while one is tried out
	matched  []int // room for the rows that match, of thousands
	rule     *Rule
	findings *[]Finding
	counts   *tally // nil but while a fix is tried out: instead of findings
}

// Report records a finding of the running rule; Rule, an empty Basis and, where
// rows are named, an empty At are filled in. A Fix is a proposal: it is
// offered once trying it out has shown that the schedule gets better.
func (p *Pass) Report(f Finding) {
	if p.counts != nil {
		p.counts.count(f.Severity)
		return
	}
	f.Rule = p.rule
	if f.At == (laminate.Ref{}) && len(f.Rows) > 0 {
		f.At = laminate.PlyRef(f.Rows[0], "")
	}
	if f.Basis == "" {
		f.Basis = p.rule.Basis
	}
	f.offer, f.Fix = f.Fix, nil
	*p.findings = append(*p.findings, f)
}
