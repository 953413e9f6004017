package forms

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/schedules/paper"
)

// serves says how far below the level of a liquid the structure of a course or tank
// would do, by what governs it under that head; nothing where a gas presses with it, or
// where some of it is not figured.
func serves(p *Part, u quantity.System) (sheet paper.Sheet) {
	part, r := &p.Report.Schedule.Part, p.Report.Wall
	liquid := part.LiquidHeight.SI()
	if r == nil || part.Form != laminate.ShellCourse && part.Form != laminate.Tank || liquid <= 0 {
		return nil
	}
	least, from, by := math.Inf(1), 0.0, ""
	for i := range r.Criteria {
		c := &r.Criteria[i]
		switch {
		case !c.Governs || !strings.Contains(c.Case, wall.CaseHead):
			continue
		case !strings.HasPrefix(c.Case, wall.CaseHead) || !c.Judged() || c.Demand <= 0:
			return nil
		}
		// What is asked grows with the head as a thickness t = k h does.
		per := c.Demand / liquid
		if head, ok := vessel.ServesTo(c.Capacity, per); ok && head < least {
			least, by = head, c.Title()
			from, _ = vessel.Boundary(c.Capacity, per, liquid)
		}
	}
	if math.IsInf(least, 1) {
		return nil
	}
	text := "to " + u.AtMost(least, quantity.Distance) + " below the level of the liquid, by " + by
	if from > 0 {
		text += ": from " + u.AtLeast(from, quantity.Distance) + " above its bottom up"
	}
	return paper.Sheet{paper.Facts{{Name: "structure serves", Value: text}}}
}
