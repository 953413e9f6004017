package rules

import "frp/veilwright/laminate/word"

// Severity says how bad a finding is, and, as a verdict, a whole report.
type Severity uint8

// The severities, from harmless to "do not build".
const (
	Clear      Severity = iota // a verdict alone: nothing worse than a note
	Note                       // of findings alone
	Warning                    // somebody decides
	Incomplete                 // cannot be judged: a fact that matters is missing
	Break                      // do not build
	Unusable                   // not judged: the document itself has a problem
)

// Severities are their words.
var Severities = word.Of[Severity]("clear", "note", "warning", "incomplete", "break", "unusable")

func (s Severity) String() string { return Severities.Name(s) }
