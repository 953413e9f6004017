package structure

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
)

// WallFails tells which deciding criterion does not hold.
var WallFails = &rules.Rule{
	ID:     "structure-fails",
	Family: family,
	Title:  "The wall is not enough for its load",
	Why: "A criterion of the part's design basis requires more than the structure has: under pressure, head or vacuum the wall would strain, crack its resin or buckle. " +
		"Resin cracks long before glass breaks, and a cracked wall weeps. Add structure, turn the winding, or lower the load; " +
		"the barrier does not help, it is not counted. " + wall.DesignAid,
	Severity: []rules.Severity{rules.Break},
	When:     "a criterion that governs by the part's design basis does not hold; one finding for each",
	Basis:    "each criterion names its own",
	Run: func(p *rules.Pass) {
		w := p.Wall()
		for i := range w.Criteria {
			c := &w.Criteria[i]
			if !c.Governs || c.Answer != wall.Fails {
				continue
			}
			f := rules.Finding{Severity: rules.Break, At: structuralPlace(p), Basis: c.Basis}
			f.Message = c.Title()
			if c.Case != "" {
				f.Message += " under " + c.Case
			}
			f.Message += " does not hold: " + c.Compared(p.Units)
			p.Report(f)
		}
	},
}

func structuralPlace(p *rules.Pass) laminate.Ref {
	for i := range p.Analysis.Rows {
		if p.Analysis.Rows[i].Zone == laminate.StructuralLayer {
			return laminate.PlyRef(i, "")
		}
	}
	return laminate.PartRef("design_basis")
}

// WallOpen tells what of a loaded wall cannot be determined.
var WallOpen = &rules.Rule{
	ID:     "structure-incomplete",
	Family: family,
	Title:  "Whether the wall is enough cannot be determined",
	Why: "The part carries a load and a fact is missing without which nobody can say whether the wall holds: a diameter, a liquid height, how much stiffness is left when warm. " +
		"A wall that was not shown to hold is not a wall that holds. Give the fact, or have the wall figured by somebody who has it. " +
		wall.DesignAid,
	Severity: []rules.Severity{rules.Incomplete},
	When: "a criterion that governs by the part's design basis cannot be determined, and a pressure, a vacuum or a liquid height is given or the part is a tank, which always has a head; " +
		"one finding for all of them",
	Basis: "each criterion names its own",
	Run: func(p *rules.Pass) {
		if !loaded(p.Schedule) {
			return
		}
		w := p.Wall()
		var names, reasons []string
		for i := range w.Criteria {
			c := &w.Criteria[i]
			if !c.Governs || c.Answer != wall.Incomplete {
				continue
			}
			names = append(names, c.Title())
			known := c.Reason == ""
			for _, r := range reasons {
				known = known || r == c.Reason
			}
			if !known {
				reasons = append(reasons, c.Reason)
			}
		}
		if names == nil && w.Problem == "" {
			return
		}
		if names == nil {
			for i := range w.Criteria {
				if w.Criteria[i].Governs && w.Criteria[i].Answer != wall.NotApplicable {
					return // it was told in spite of the problem
				}
			}
			names, reasons = []string{"every criterion"}, []string{w.Problem}
		}
		message := "cannot be determined: " + rules.Join(names, "and")
		for i, r := range reasons {
			sep := "; "
			if i == 0 {
				sep = " ("
			}
			message += sep + r
		}
		if reasons != nil {
			message += ")"
		}
		p.Report(rules.Finding{Severity: rules.Incomplete, At: structuralPlace(p), Message: message})
	},
}

func loaded(s *laminate.Schedule) bool {
	return s.Service.Pressure.SI() > 0 || s.Service.Vacuum.SI() > 0 || s.Part.LiquidHeight.SI() > 0 || s.Part.Form == laminate.Tank
}

// idle is the share of every criterion under which a wall is much more than
// was asked for.
const idle = 1.0 / 3

// WallIdle tells of much more structure than asked.
var WallIdle = &rules.Rule{
	ID:     "structure-idle",
	Family: family,
	Title:  "Much more structure than the load asks for",
	Why: "Every criterion is utilized to less than a third. That may be meant: handling, wind, spans between supports and loads that are not figured here often govern small or low-pressure parts. " +
		"If it is not, the wall costs glass, resin and hours that nobody asked for, and thick laminates bring their own trouble with heat and shrinkage. " +
		wall.DesignAid,
	Severity: []rules.Severity{rules.Note},
	When: "a load is judged and every criterion that applies, governing or not, is utilized to less than one third (one third itself is not idle), none is incomplete; " +
		"the minimum modulus is left out, it does not measure how much structure there is",
	Basis: rules.CommonPractice,
	Run: func(p *rules.Pass) {
		if !loaded(p.Schedule) {
			return
		}
		w := p.Wall()
		most, name, judged := 0.0, "", false
		for i := range w.Criteria {
			c := &w.Criteria[i]
			switch {
			case c.Answer == wall.NotApplicable || c.Name == wall.MinimumModulus:
				continue
			case c.Answer != wall.Holds || !quantity.Below(c.Ratio, idle):
				return
			}
			judged = judged || c.Name != wall.MinimumThickness
			if c.Ratio >= most {
				most, name = c.Ratio, c.Title()
			}
		}
		if !judged {
			return
		}
		p.Report(rules.Finding{
			Severity: rules.Note, At: structuralPlace(p),
			Message: "every criterion is utilized to less than a third, most of all " + name + " to " + quantity.Percent(most),
		})
	},
}
