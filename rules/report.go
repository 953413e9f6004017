package rules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall"
)

// Report is the one thing that commands, editor, folder lists and pages read.
type Report struct {
	Schedule *laminate.Schedule
	Analysis *laminate.Analysis
	Wall     *wall.Result
	Findings []Finding // worst first, then by place, then by rule
	Verdict  Verdict
}
