package structure

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
)

// WallFails reports each governing criterion that fails.
var WallFails = &rules.Rule{
	ID:     "structure-fails",
	Family: family,
	Title:  "Structure too weak for its load",
	Why: "A criterion of the part's design basis is not met: under pressure, head or vacuum the wall would overstrain, crack its resin or buckle. " +
		"Resin cracks long before glass breaks, and a cracked wall weeps. Add structure, change the winding angle, or lower the load; " +
		"the barrier is not counted. " + wall.DesignAid,
	Severity: []rules.Severity{rules.Break},
	When:     "a criterion of the part's design basis fails; one finding for each",
	Basis:    "each criterion names its own source",
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
			f.Message += " fails: " + c.Compared(p.Units)
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

// WallOpen reports what of a loaded wall cannot be checked.
var WallOpen = &rules.Rule{
	ID:     "structure-incomplete",
	Family: family,
	Title:  "Structure cannot be checked: data missing",
	Why: "The part carries a load, and a fact is missing that the check needs: a diameter, a liquid height, the modulus retention when warm. " +
		"A wall that has not been checked is not known to hold. State the fact, or have the wall designed by an engineer who has it. " +
		wall.DesignAid,
	Severity: []rules.Severity{rules.Incomplete},
	When: "a criterion of the part's design basis cannot be determined, and a pressure, a vacuum or a liquid height is stated or the part is a tank, which always has a head; " +
		"one finding for all of them",
	Basis: "each criterion names its own source",
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
					return // it was determined in spite of the problem
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

// WallIdle points at much more structure than the load requires.
var WallIdle = &rules.Rule{
	ID:     "structure-idle",
	Family: family,
	Title:  "Much more structure than the load requires",
	Why: "Utilization is below a third for every criterion. That may be intended: handling, wind, spans between supports and other loads that are not computed here often govern small or low-pressure parts. " +
		"If not, the wall costs glass, resin and hours without need, and thick laminates have problems of their own with heat and shrinkage. " +
		wall.DesignAid,
	Severity: []rules.Severity{rules.Note},
	When: "a load is checked and the utilization of every criterion that applies, governing or not, is below one third (one third itself is not), none is incomplete; " +
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
			Message: "utilization is below a third for every criterion; the highest is " + name + " at " + quantity.Percent(most),
		})
	},
}
