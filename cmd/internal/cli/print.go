package cli

import (
	"strconv"

	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/schedules/paper"
)

// lineWidth is how wide text is set: the same on a terminal and off it.
const lineWidth = 100

// print sets a sheet as text.
func (c *call) print(s paper.Sheet) {
	// The sink keeps an error until it is closed.
	_ = paper.Text(c.out.Plain, s, lineWidth)
}

// either prints a value as JSON where the call asks for it, else the sheet.
func (c *call) either(value any, s paper.Sheet) error {
	if c.JSON {
		return c.out.JSON(value)
	}
	c.print(s)
	return nil
}

// printUnread prints the verdict on a document that could not be read.
func (c *call) printUnread(s report.Schedule) { c.out.Line("%s: %s", s.File, report.Unusable) }

// explainUnread tells why a document could not be read: each problem on a line of
// its own, with file, line and key, else the one sentence.
func explainUnread(say output.Messages, s report.Schedule) {
	for _, p := range s.Problems {
		say.Say("%s", problem(s.File, p))
	}
	if len(s.Problems) == 0 && s.Error != nil {
		say.Say("%s: %s", s.File, *s.Error)
	}
}

// problem is one line that an editor can jump to.
func problem(file string, p report.Problem) string {
	where := file
	if p.Line > 0 {
		where += ":" + strconv.Itoa(p.Line)
		if p.Column > 0 {
			where += ":" + strconv.Itoa(p.Column)
		}
	}
	if p.Key != "" {
		where += ": " + p.Key
	}
	return where + ": " + p.Message
}
