package structure

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/rules"
)

// WallFails reports each governing criterion that fails.
var WallFails = &rules.Rule{
	ID:     "structure-fails",
	Family: family,
	Title:  "Structure too weak for its load",
	Why: "A criterion of the part's design basis is not met: under pressure, head or vacuum the wall would overstrain, crack its resin or buckle. " +
		"Resin cracks long before glass breaks, and a cracked wall weeps. Add structure, change the winding angle, or lower the load; " +
		"the barrier is not counted, but for the surface that the strength table has of its own. " + wall.DesignAid,
	Severity: []rules.Severity{rules.Break},
	When:     "there is a structural layer and a criterion of the part's design basis fails; one finding for each",
	Basis:    "each criterion names its own source",
	Run: func(p *rules.Pass) {
		if p.Facts.Structural == 0 {
			return // one trouble, said by structure-missing
		}
		w := p.Wall()
		for i := range w.Criteria {
			c := &w.Criteria[i]
			if !c.Governs || c.Answer != wall.Fails || others.Asked(c.Name) { // proof-short says so
				continue
			}
			f := rules.Finding{Severity: rules.Break, At: structuralPlace(p), Basis: c.Basis}
			f.Message = c.Title()
			if c.Case != "" {
				f.Message += " under " + c.Case
			}
			f.Message += " fails: " + c.Compared(p.Units)
			if c.Name == wall.StepLoad { // its figure is a bound, and of a flat lid may be far from what happens
				f.Message += "; " + c.Reason
			}
			p.Report(f)
		}
	},
}

// WallOverstrained points at strain above its limit where another basis
// governs: what decides is met, and the resin would crack all the same.
var WallOverstrained = &rules.Rule{
	ID:     "structure-overstrained",
	Family: family,
	Title:  "Strain above its limit",
	Why: "The strength table and unit loads say when a wall breaks; strain says when its resin cracks, which comes first and lets the fluid through. " +
		"Where the design basis is met and the strain is above its limit all the same, the wall may weep long before it breaks. " +
		"Add structure, or have an engineer say why the strain is acceptable. " + wall.DesignAid,
	Severity: []rules.Severity{rules.Warning},
	When:     "there is a structural layer and the utilization of a strain criterion that does not govern is above 1 (1 itself holds); one finding for each",
	Basis:    "each criterion names its own source",
	Run: func(p *rules.Pass) {
		if p.Facts.Structural == 0 {
			return
		}
		w := p.Wall()
		for i := range w.Criteria {
			if c := &w.Criteria[i]; c.Kind == quantity.Strain && !c.Governs && c.Answer == wall.Fails {
				p.Report(rules.Finding{Severity: rules.Warning, At: structuralPlace(p), Basis: c.Basis,
					Message: c.Title() + " under " + c.Case + " is above its limit, though it does not govern: " + c.Compared(p.Units)})
			}
		}
	},
}

// TypicalModuliOnly points at a wall that holds with typical moduli and not with
// the least that a standard takes.
var TypicalModuliOnly = &rules.Rule{
	ID:     "typical-moduli-only",
	Family: family,
	Title:  "Holds on typical moduli only",
	Why: "Micromechanics give the moduli of a typical laminate; what a shop lays varies, and the unit moduli of BS 4994 are what every laminate should reach: for mat a third less. " +
		"A wall that holds with the one and not with the other holds on the average. Add structure, or state moduli that the shop's own tests show. " + wall.DesignAid,
	Severity: []rules.Severity{rules.Warning},
	When: "a governing criterion of strain or outside pressure holds, and with the unit moduli of BS 4994 in the place of the typical ones its utilization is above 1 (1 itself holds); " +
		"not asked of plies at other angles than along and round, for which there is no unit modulus",
	Basis: "unit moduli of BS 4994 (second-hand; unidirectional from memory)",
	Run: func(p *rules.Pass) {
		if p.Facts.Structural == 0 {
			return
		}
		w := p.Wall()
		for i := range w.Criteria {
			if c := &w.Criteria[i]; c.Governs && c.Answer == wall.Holds && quantity.Above(c.RatioMinimum, 1) {
				p.Report(rules.Finding{Severity: rules.Warning, At: structuralPlace(p),
					Message: c.Title() + " under " + c.Case + " holds on typical moduli at " + quantity.Utilization(c.Ratio) + " of its limit; on minimum moduli it is " + quantity.Utilization(c.RatioMinimum)})
			}
		}
	},
}

// mostKept is how far above what is taken where nobody states it a warm wall may be said to
// keep of its modulus: curves of resins of one family lie that far apart. Common practice,
// no source.
const mostKept = 0.1

// RetentionUnproved asks for the source of a warm wall that loses next to nothing.
var RetentionUnproved = &rules.Rule{
	ID:     "retention-unproved",
	Family: family,
	Title:  "A warm wall that keeps more of its modulus than others do",
	Why: "Every resin softens as it warms; a laminate near the heat deflection temperature of its resin keeps half of its cold modulus or less. " +
		"That a warm wall keeps all of it, or much more than laminates of its family, has to come from a test or from the resin manufacturer, for that resin and temperature. Keep the source with the job. " +
		"That it keeps more where it is hotter cannot be: one of the two figures is wrong, and both hold the wall up. " + wall.DesignAid,
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "a condition states a higher modulus_retention than a cooler one does, or the part, whose figure is for the most that the service reaches, than a cooler condition: break. " +
		"The higher of operating and upset temperature is above 120 °F (120 °F itself is within) and modulus_retention is 1, or more than 0.1 above what a proposal takes of the structure's resins where nobody states it, " +
		"which falls from all of it at 120 °F to half at 20 °C below their heat deflection temperature: warning; with conditions, of each by its own",
	Basis: "common practice, no source; what is taken where nobody states it from memory of curves of modulus against temperature",
	Run:   retentionUnproved,
}

func retentionUnproved(p *rules.Pass) {
	softer(p)
	ask := func(s *laminate.Schedule, at laminate.Ref, when string) {
		limit, hottest := quantity.New(120, quantity.Fahrenheit).SI(), s.Service.Hottest()
		kept := s.Part.ModulusRetention
		if !kept.Given || !hottest.Given() || !quantity.Above(hottest.SI(), limit) {
			return
		}
		typical, known := typicallyKept(p, &s.Service)
		reached, bound := p.Units.Pair(hottest.SI(), limit, quantity.Point)
		switch {
		case kept.Value >= 1:
			p.Report(rules.Finding{Severity: rules.Warning, At: at,
				Message: "the wall is said to keep all of its modulus at " + reached + when + ", above " + bound + ": which test or which manufacturer's figure says so?"})
		case known && quantity.Above(kept.Value, typical+mostKept):
			stated, usual := p.Shares(kept.Value, typical)
			p.Report(rules.Finding{Severity: rules.Warning, At: at,
				Message: "the wall is said to keep " + stated + " of its modulus at " + reached + when + ", and " + usual + " is taken there where nobody says so: which test or which manufacturer's figure does?"})
		}
	}
	s := p.Schedule
	for i := range s.Conditions {
		c := &s.Conditions[i]
		at := laminate.PartRef("modulus_retention")
		if c.ModulusRetention.Given {
			at = laminate.Ref{Kind: laminate.RefCondition, Index: i, Key: "modulus_retention"}
		}
		ask(s.Under(c), at, " ("+c.Name+")")
	}
	if s.Conditions == nil {
		ask(s, laminate.PartRef("modulus_retention"), "")
	}
}

// typicallyKept is the least that the resins of the structure are taken to keep in a
// service; not known where it has none.
func typicallyKept(p *rules.Pass, v *laminate.Service) (least float64, known bool) {
	least = 1
	last := (*laminate.Resin)(nil)
	for i := range p.Analysis.Rows {
		r := &p.Analysis.Rows[i]
		if r.Zone != laminate.StructuralLayer || r.Resin == nil || r.Resin == last {
			continue
		}
		last = r.Resin
		kept, _ := service.Typical(v, last, p.Library)
		least, known = min(least, kept), true
	}
	return least, known
}

// softer reports what is said to keep more where it is hotter.
func softer(p *rules.Pass) {
	type said struct {
		name string
		heat quantity.Temperature
		kept laminate.Optional[float64]
		at   laminate.Ref
	}
	s := p.Schedule
	all := make([]said, 0, len(s.Conditions)+1)
	for i := range s.Conditions {
		c := &s.Conditions[i]
		all = append(all, said{c.Name, c.Temperature, c.ModulusRetention, laminate.Ref{Kind: laminate.RefCondition, Index: i, Key: "modulus_retention"}})
	}
	all = append(all, said{"the part", s.Service.Hottest(), s.Part.ModulusRetention, laminate.PartRef("modulus_retention")})
	for i := range all {
		least := -1 // the cooler one that keeps least
		for k := range all {
			a, b := &all[i], &all[k]
			if a.kept.Given && b.kept.Given && a.heat.Given() && b.heat.Given() && b.heat.Cmp(a.heat) < 0 && quantity.Below(b.kept.Value, a.kept.Value) &&
				(least < 0 || b.kept.Value < all[least].kept.Value) {
				least = k
			}
		}
		if least < 0 {
			continue
		}
		a, b := &all[i], &all[least]
		more, less := p.Shares(a.kept.Value, b.kept.Value)
		hot, cool := p.Units.Pair(a.heat.SI(), b.heat.SI(), quantity.Point)
		p.Report(rules.Finding{Severity: rules.Break, At: a.at,
			Message: "the wall is said to keep " + more + " of its modulus at " + hot + " (" + a.name + ") and " + less + " at " + cool + " (" + b.name + "): what is hotter never keeps more"})
	}
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
	Why: "A fact is missing that the check needs: pressure, vacuum, a diameter, a liquid height, the modulus retention when warm. " +
		"That nobody stated a load does not mean that there is none; where there is none, zero says so. A wall that has not been checked is not known to hold. State the fact, or have the wall designed by an engineer who has it. " +
		wall.DesignAid,
	Severity: []rules.Severity{rules.Incomplete},
	When: "there is a structural layer and a criterion of the part's design basis cannot be determined: pressure, vacuum or, of a tank, the liquid height is not stated, no condition reaches what the service states as highest, or another fact is missing; " +
		"one finding for all of them",
	Basis: "each criterion names its own source",
	Run: func(p *rules.Pass) {
		w := p.Wall()
		if p.Facts.Structural == 0 || w.FormOpen != "" {
			return // said already, and nothing can be determined
		}
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
		most, name, judged, modulus := 0.0, "", false, 0.0
		for i := range w.Criteria {
			c := &w.Criteria[i]
			switch {
			case c.Name == wall.MinimumModulus:
				modulus = c.Ratio
				continue
			case c.Answer == wall.NotApplicable:
				continue
			case c.Answer != wall.Holds || !quantity.Below(c.Ratio, idle):
				return
			}
			judged = judged || c.Name != wall.MinimumThickness
			if c.Ratio >= most {
				most, name = c.Ratio, c.Title()
			}
		}
		if !judged || w.Rests != "" {
			return
		}
		said := "utilization is below a third for every criterion; the highest"
		if quantity.Above(modulus, most) {
			said = "utilization is below a third for every criterion that thickness changes; the highest of all is minimum modulus at " + quantity.Percent(modulus) + ", of the others it"
		}
		p.Report(rules.Finding{
			Severity: rules.Note, At: structuralPlace(p),
			Message: said + " is " + name + " at " + quantity.Percent(most),
		})
	},
}
