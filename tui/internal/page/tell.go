package page

import (
	"math"
	"strings"

	"frp/veilwright/laminate/wall"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/widget"
)

// Used is a criterion as a bar.
func Used(t *draw.Theme, c *wall.Criterion) widget.Bar {
	b := widget.Bar{Label: c.Title(), Ratio: c.Ratio, Word: c.Answer.String(), Look: AnswerStyle(t, c)}
	if c.Answer == wall.Fails {
		b.Word = strings.ToUpper(b.Word) // stands out without color too
	}
	if !c.Measured() {
		b.Ratio = math.NaN()
	}
	return b
}

// AnswerStyle is the look of the answer.
func AnswerStyle(t *draw.Theme, c *wall.Criterion) draw.Style {
	switch c.Answer {
	case wall.Holds:
		return t.Good
	case wall.Fails:
		return t.Break
	case wall.Incomplete:
		return t.Incomplete
	case wall.NotApplicable:
	}
	return t.Dim
}
