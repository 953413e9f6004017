package forms

import (
	"strings"

	"frp/veilwright/laminate/wall"
)

// statedByPart says of the pressure and the vacuum that stand on a part of a job, in the
// place of those of its service, that the part states them: a wall does not know.
func (of *Subject) statedByPart(p *Part, c *wall.Calculation) {
	if of.Job == nil || p.ID == "" {
		return
	}
	i := of.Job.Part(p.ID)
	if i < 0 || of.Job.Parts[i].Schedule != "" {
		return
	}
	x := &of.Job.Parts[i]
	for s := range c.Sections {
		for k := range c.Sections[s].Steps {
			step := &c.Sections[s].Steps[k]
			pressed := strings.HasPrefix(step.What, wall.CasePressure) && strings.HasSuffix(step.What, ": pressure")
			sucked := strings.HasPrefix(step.What, wall.CaseVacuum) && strings.Contains(step.What, ": outside pressure") || step.What == vacuumOfService
			if step.Formula != asStated || !(pressed && x.Pressure.Given() || sucked && x.Vacuum.Given()) {
				continue
			}
			step.Formula = "as the part states"
			if step.What == vacuumOfService {
				step.What = "outside pressure of the part"
			}
		}
	}
}

// How a calculation of a wall says what is stated.
const (
	asStated        = "as the document states"
	vacuumOfService = "outside pressure of the service"
)
