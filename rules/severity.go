package rules

// Severity says how bad a finding is.
type Severity uint8

// The severities, from harmless to "do not build".
const (
	NoSeverity Severity = iota // invalid in a finding
	Note
	Warning    // somebody decides
	Incomplete // cannot be judged: a fact that matters is missing
	Break      // do not build
)

var severityWords = [...]string{"", "note", "warning", "incomplete", "break"}

func (s Severity) String() string { return severityWords[s] }

// Verdict is the worst of a report: "break", "incomplete", "warning", else "clear".
type Verdict uint8

// The verdicts.
const (
	Clear Verdict = iota
	VerdictWarning
	VerdictIncomplete
	VerdictBreak
)

var verdictWords = [...]string{"clear", "warning", "incomplete", "break"}

func (v Verdict) String() string { return verdictWords[v] }
