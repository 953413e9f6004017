// Package proof owns the rules about the test of a whole job: what it proves, and what
// it does harm to.
package proof

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/laminate/wall/worked"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// The family is that of what is laid onto cured parts, which a test loads with them.
const family = "joints"

// Rules lists what of the family is about the test; what it does to straps and pads
// stands with those.
func Rules() []*rules.Rule {
	return []*rules.Rule{GasTest, TestUnstated, TestLoadsNothing, TestAbovePartClass, TestProvesLess, OverstrainedAtTest, VacuumNotProved, CollapseAtTest, TestContradicted, TestTemperatureUnfit, TestHeldShort, TestFarAbove, TestWarmer, ScheduleOverstrained, ScheduleProvesLess}
}

func testRef(key string) laminate.Ref { return laminate.Ref{Kind: laminate.RefTest, Key: key} }

// GasTest refuses a test with gas.
var GasTest = &rules.Rule{
	ID: "gas-test", Family: family, Title: "The test is with gas",
	Why: "Compressed gas holds ten thousand times the energy of water at the same pressure. A tank that gives way under it is an explosion that throws pieces through walls; " +
		"under water it leaks.",
	Severity: []rules.Severity{rules.Break},
	When:     "the medium of the test is gas",
	Basis:    "stored energy, ASME PCC-2 501-II, from memory",
	Job: func(p *rules.JobPass) {
		if p.Job.Test.Medium != laminate.TestGas {
			return
		}
		energy := ""
		if pa := p.Job.Test.Pressure; pa.Given() && pa.SI() > 0 {
			energy = "; each cubic meter of it would let go " + quantity.Number(joining.GasEnergy(pa.SI(), 1)/1000, 1) + " kJ"
		}
		p.Report(rules.Break, testRef("medium"), "", "the test is with gas: test with water, never with gas%s", energy)
	},
}

// TestUnstated asks for what a test is.
var TestUnstated = &rules.Rule{
	ID: "test-unstated", Family: family, Title: "What the test is is not stated",
	Why: "A test proves what it puts on every part, no more. Without its medium, the level of its fill and the pressure over it nobody can say what was proved, " +
		"or whether the test itself does harm.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "a test states no medium, or neither pressure nor the level of its fill",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		t := &p.Job.Test
		if !statics.Tested(p) {
			return
		}
		if t.Medium == laminate.NoTestMedium {
			p.Report(rules.Incomplete, testRef("medium"), "", "what the equipment is tested with is not stated (medium)")
		}
		if !t.Pressure.Given() && !t.LiquidHeight.Given() {
			p.Report(rules.Incomplete, testRef("pressure"), "", "neither the pressure of the test nor the level of its fill is stated (pressure, liquid_height)")
		}
	},
}

// TestLoadsNothing finds a test that is stated and puts nothing on anything.
var TestLoadsNothing = &rules.Rule{
	ID: "test-loads-nothing", Family: family, Title: "The test fills nothing and presses nothing",
	Why: "A test of no pressure, no vacuum and no fill is an empty vessel that stands for a day: it leaks nowhere, and whoever reads that it passed takes it for proved. " +
		"What is forgotten most is the level of the fill.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When:     "a test states a pressure or the level of its fill, and puts no pressure from inside on any part at its lowest place and no vacuum: break; it states no level of its fill: incomplete, as nobody says that none is meant",
	Basis:    "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		t := &p.Job.Test
		if !statics.Tested(p) || t.Vacuum.SI() > 0 || !t.Pressure.Given() && !t.LiquidHeight.Given() {
			return // test-unstated says so of the last
		}
		for i := range p.Job.Parts {
			if pa, missing := statics.TestAt(p, i, 0); missing != "" || pa > 0 {
				return // test-proves-less-than-service says what is missing
			}
		}
		if !t.LiquidHeight.Given() {
			p.Report(rules.Incomplete, testRef("liquid_height"), "", "the test has no pressure, and to what level it is filled is not stated: as it stands it loads nothing and proves nothing (liquid_height, pressure)")
			return
		}
		p.Report(rules.Break, testRef("liquid_height"), "", "the test fills nothing and presses on nothing: it proves nothing (liquid_height, pressure)")
	},
}

// Empty tells of a judged job whose test puts nothing on it, or nobody says what.
func Empty(r *rules.JobReport) bool {
	for i := range r.Findings {
		if f := &r.Findings[i]; f.Rule == TestLoadsNothing || f.Rule == TestUnstated && f.At.Key == "pressure" {
			return true
		}
	}
	return false
}

// places are the heights above a part's bottom that a test is looked at.
func places(p *rules.JobPass, part int) []float64 {
	if l := p.Job.Parts[part].Length; p.Job.Parts[part].Form == laminate.ShellCourse && l.Given() {
		return []float64{0, l.SI()}
	}
	return []float64{0}
}

// TestProvesLess says what a test leaves unproved.
var TestProvesLess = &rules.Rule{
	ID: "test-proves-less-than-service", Family: family, Title: "The test proves less than the service asks for",
	Why: "Water is lighter than most of what is stored. A tank for a fluid of 1.5 times its weight is proved to two thirds by water to the brim, " +
		"and to all of it only with a pressure over the fill, which then loads the top courses beyond their design.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When:     "the pressure of the test at the bottom or the top of a part is below that of the service there; or a figure of it is missing",
	Basis:    "hydrostatics, arithmetic",
	Job: func(p *rules.JobPass) {
		if !statics.Tested(p) {
			return
		}
		for i := range p.Job.Parts {
			least, at, missing := math.Inf(1), "", ""
			for _, h := range places(p, i) {
				test, m1 := statics.TestAt(p, i, h)
				design, m2 := statics.PressureAt(p, i, h)
				if m1 == "" {
					m1 = m2
				}
				if missing = m1; missing != "" {
					break
				}
				if design > 0 {
					if share := joining.Proof(test, design); quantity.Below(share, least) { // the foot, where all are alike
						least = share
						a, b := p.Units.Pair(test, design, quantity.Stress)
						at = a + " where the service has " + b
					}
				}
			}
			switch {
			case missing != "":
				p.Report(rules.Incomplete, laminate.JobPartRef(i, ""), "", "part %s: what the test proves cannot be determined: %s", p.Job.Parts[i].ID, missing)
			case quantity.Below(least, 1):
				p.Report(rules.Warning, laminate.JobPartRef(i, ""), "", "part %s: the test puts %s, %s of it; a pressure over the fill would prove more", p.Job.Parts[i].ID, at, quantity.Percent(least))
			}
		}
	},
}

// OverstrainedAtTest says where a test strains a part beyond its design.
var OverstrainedAtTest = &rules.Rule{
	ID: "course-overstrained-at-test", Family: family, Title: "The test loads a part beyond its design",
	Why: "A pressure over the fill is the same at every height, and the thin courses at the top were figured for little. " +
		"Strain grows with the pressure; near the elongation of the resin the barrier cracks, and nothing shows until the fluid is in.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning, rules.Note},
	When: "a governing criterion, grown as the pressure of the test over that of the service, or of a course that a bottom hangs from under the fill of the test and the pull of what hangs then, passes its limit, or could since none was judged and the test is above the service: note, above one and a half times: warning; " +
		"the strain reaches a resin's elongation at break or 2.5 %, or the stress the strength that the limit is a share of: break; incomplete where a figure of it is missing; a flat bottom on its foundation carries nothing",
	Basis: "strain is linear in the load, arithmetic; the elongation at break: ADR 6.9.2; 2.5 % of glass, and one and a half times: ASME B31.3 A345, from memory",
	Job: func(p *rules.JobPass) {
		if !statics.Tested(p) {
			return
		}
		for i := range p.Job.Parts {
			part, warm := warmed(p, i)
			if !warm {
				continue // what it bears so warm is not known: test-temperature-unfit says so
			}
			if lies(p, i) {
				continue
			}
			if p.Job.Parts[i].Form == laminate.Flange && part.Schedule.Part.PressureClass.Given() {
				continue // it is proved by class: test-above-part-class
			}
			criterion := ofInside(part.Wall)
			most, grown, design, missing := 0.0, 0.0, 0.0, ""
			for _, h := range places(p, i) {
				test, m1 := statics.TestAt(p, i, h)
				d, m2 := statics.PressureAt(p, i, 0)
				if m1 == "" {
					m1 = m2
				}
				if missing = m1; missing != "" {
					break
				}
				most, design = math.Max(most, test), d
				if d > 0 {
					grown = math.Max(grown, joining.Proof(test, d))
				}
			}
			figured, pulls, none := "in service", []string(nil), false
			pull, pullKnown := p.Pulled(i, p.Job.Test.LiquidHeight.SI())
			hangs := p.Job.Test.LiquidHeight.Given() && (p.Borne(i) || pull > 0)
			if held := part.Schedule.Part.Place.Axial > 0; missing == "" && (hangs || held) {
				// What pulls along does not grow as the pressure at the part does.
				full := atTest(p, part, most)
				if hangs {
					full = pulledAtTest(p, part, i)
				}
				worst := ofInside(full)
				switch {
				case worst != nil:
					criterion, grown, figured = worst, 1, worked.Pick(hangs, "of such a fill", "of such a pressure")
					if worst.Name == wall.AxialStrain || worst.Name == wall.AxialStrength || worst.Name == wall.UnitLoad && strings.HasPrefix(worst.Reason, "along") {
						pulls = pulling(p, part, i)
					}
				case hangs && full == nil && !pullKnown:
					missing = "how much of the fill hangs there is not known: the sizes of what hangs below the shell"
				case most == 0 && pull == 0 && !held: // nothing of the test loads it
					continue
				case design == 0 || quantity.Above(grown, 1):
					missing, none = "with the fill of the test "+open(full), true
				}
			} else if missing == "" && most > 0 && (design == 0 || criterion == nil && quantity.Above(grown, 1)) {
				// What the service does not ask of it is figured for the test itself.
				at := atTest(p, part, most)
				if criterion, grown = ofInside(at), 1; criterion == nil {
					missing, none = "with the pressure of the test "+open(at), true
				}
				figured = "of such a pressure"
			}
			if missing != "" {
				const said = "part %s: how far the test strains it cannot be determined: %s"
				if none && unfigured(part.Wall) {
					p.Unfigured("the test", []laminate.Ref{laminate.JobPartRef(i, "")}, said, p.Job.Parts[i].ID, missing)
				} else {
					p.Report(rules.Incomplete, laminate.JobPartRef(i, ""), "", said, p.Job.Parts[i].ID, missing)
				}
				continue
			}
			if criterion == nil || most == 0 && pulls == nil {
				continue
			}
			ratio := criterion.Ratio * grown
			severity, broken, so := beyond(p.Units, p.Library, part, criterion, grown)
			if broken != "" {
				p.Report(rules.Break, laminate.JobPartRef(i, ""), "", "part %s: the test strains it by %s", p.Job.Parts[i].ID, broken)
				continue
			}
			if quantity.Above(ratio, 1) {
				load := p.Units.Figure(grown, quantity.Times) + " times the pressure of the service"
				if design == 0 || figured != "in service" {
					load = p.Units.Figure(most, quantity.Stress)
				}
				switch {
				case pulls != nil && most == 0:
					load = rules.Join(pulls, "and")
				case pulls != nil:
					load = rules.Join(append([]string{load}, pulls...), "and")
				}
				p.Report(severity, laminate.JobPartRef(i, ""), "", "part %s: the test puts %s on it, %s of what its %s allows %s%s", p.Job.Parts[i].ID, load, quantity.Utilization(ratio), criterion.Title(), figured, so)
			}
		}
	},
}

// unfigured tells of a wall whose form no formula here figures.
func unfigured(w *wall.Result) bool { return w.FormOpen != "" || w.Rests != "" }

// factorOf is how many times what a criterion of strength allows breaks the wall; 0
// of one of strain, or where it is not known.
func factorOf(c *wall.Criterion, part *rules.Report) float64 {
	switch c.Name {
	case wall.HoopStrength, wall.AxialStrength, wall.PlateStress:
		return shell.TableSafety
	case wall.UnitLoad:
		if k, err := shell.DesignFactor(part.Schedule.Part.KFactors.Values); err == nil {
			return k
		}
	}
	return 0
}

// ofInside is the governing criterion of the pressure inside that is nearest to its
// limit, nil where none was judged.
func ofInside(r *wall.Result) (worst *wall.Criterion) {
	if r == nil {
		return nil
	}
	for k := range r.Criteria {
		c := &r.Criteria[k]
		switch c.Name {
		case wall.HoopStrain, wall.HoopStrength, wall.UnitLoad, wall.AxialStrain, wall.AxialStrength, wall.PlateStress:
			if c.Governs && c.Judged() && (worst == nil || c.Ratio > worst.Ratio) {
				worst = c
			}
		}
	}
	return worst
}

// atTest is the wall of a part under a pressure inside of pa, in Pa, and nothing else.
func atTest(p *rules.JobPass, part *rules.Report, pa float64) *wall.Result {
	return under(p, part, pa, 0, 0, 1)
}

// open says why no criterion of the inside was judged: the reason of the first that governs
// and cannot be determined, which names what would settle it.
func open(r *wall.Result) string {
	if r != nil {
		if r.FormOpen != "" {
			return "no formula here figures its form: " + r.FormOpen
		}
		for k := range r.Criteria {
			if c := &r.Criteria[k]; c.Governs && c.Answer == wall.Incomplete {
				return c.Title() + " cannot be determined: " + c.Reason
			}
		}
	}
	return "no criterion of its inside is asked for; state how it is judged (design_basis)"
}

// pulling is what pulls along a part in a test.
func pulling(p *rules.JobPass, part *rules.Report, i int) (list []string) {
	switch pull, _ := p.Pulled(i, p.Job.Test.LiquidHeight.SI()); {
	case p.Borne(i):
		list = append(list, "the pull of what hangs below")
	case pull > 0:
		list = append(list, "what the fill lifts above it")
	}
	if part.Schedule.Part.Place.Axial > 0 {
		list = append(list, "the axial load of its joint")
	}
	return list
}

// pulledAtTest is the wall of a course, which a bottom hangs from or that liquid lifts, with
// the fill of the test in it, nil where that is not known.
func pulledAtTest(p *rules.JobPass, part *rules.Report, i int) *wall.Result {
	fill := p.Job.Test.LiquidHeight.SI()
	at, known := p.Elevation(i)
	pull, also := p.Pulled(i, fill)
	gravity, missing := p.TestGravity(i)
	if !known || !also || missing != "" {
		return nil
	}
	return under(p, part, p.Job.Test.Pressure.SI(), math.Max(0, fill-at), pull, gravity)
}

// under is the wall of a part under a pressure of gas in Pa, the head of a liquid of a
// depth in m and the pull of one of another, both of a specific gravity.
func under(p *rules.JobPass, part *rules.Report, gas, depth, pull, gravity float64) *wall.Result {
	s := *part.Schedule
	s.Service.Pressure, s.Service.Vacuum, s.Conditions = quantity.New(gas, quantity.Pascal), quantity.New(0, quantity.Pascal), nil
	s.Service.SpecificGravity, s.Part.LiquidHeight = laminate.Some(gravity), quantity.New(depth, quantity.Meter)
	s.Part.Place.Pull = quantity.New(pull, quantity.Meter)
	return p.Evaluate(&s, part.Analysis)
}

// elongation is the least at break of a part's resins, and whose it is; 0 where
// none is known.
func elongation(lib *laminate.Library, part *rules.Report) (least float64, whose string) {
	for i := range part.Analysis.Rows {
		r := part.Analysis.Rows[i].Resin
		if r == nil {
			continue
		}
		v := r.FailureStrain.Or(lib.Families[r.Family].FailureStrain)
		if v > 0 && (least == 0 || v < least) {
			least, whose = v, r.ID
		}
	}
	return least, whose
}

// TestAbovePartClass holds a test against what is bought by class.
var TestAbovePartClass = &rules.Rule{
	ID: "test-above-part-class", Family: family, Title: "The test is above the class of a part",
	Why: "Flanges, necks and covers are proved by class. A test of more than one and a half times the lowest class tests these parts to where nobody has proved them, " +
		"and what cracks there may show only in service.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the pressure of the test at a flange, a cover or a nozzle is above 1.5 times its pressure class",
	Basis:    "from memory: 1.5 times the lowest class of a part",
	Job: func(p *rules.JobPass) {
		if !statics.Tested(p) {
			return
		}
		hold := func(at laminate.Ref, what string, class quantity.Pressure, part int, height float64) {
			pa, missing := statics.TestAt(p, part, height)
			if missing == "" && class.Given() && quantity.Below(1.5*class.SI(), pa) {
				a, b := p.Units.Pair(pa, 1.5*class.SI(), quantity.Stress)
				p.Report(rules.Warning, at, "", "%s: the test puts %s on it, above %s, 1.5 times its class", what, a, b)
			}
		}
		for i := range p.Job.Parts {
			hold(laminate.JobPartRef(i, "pressure_class"), "part "+p.Job.Parts[i].ID, p.Job.Parts[i].PressureClass, i, 0)
		}
		for i := range p.Job.Nozzles {
			if on, foot := statics.Foot(p, i); on >= 0 {
				n := &p.Job.Nozzles[i]
				hold(laminate.Ref{Kind: laminate.RefNozzle, Index: i, Key: "pressure_class"}, "nozzle "+n.ID, n.PressureClass, on, foot)
			}
		}
	},
}

// VacuumNotProved says that a test leaves a vacuum unproved.
var VacuumNotProved = &rules.Rule{
	ID: "vacuum-not-proved", Family: family, Title: "The test does not prove the vacuum",
	Why: "Pressure from inside says nothing of how a wall stands pressure from outside: one is held by fibers, the other by stiffness and shape. " +
		"A vacuum is tested by a vacuum, with the collapse pressure on the sheet, or it rests on the calculation alone.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the service or a part states a vacuum above zero, and the test has none, or less",
	Basis:    "arithmetic",
	Job: func(p *rules.JobPass) {
		if !statics.Tested(p) {
			return
		}
		most := 0.0
		for i := range p.Parts {
			most = math.Max(most, p.Parts[i].Schedule.Service.Vacuum.SI())
		}
		if has := p.Job.Test.Vacuum.SI(); quantity.Below(has, most) {
			a, b := p.Units.Pair(has, most, quantity.Stress)
			p.Report(rules.Warning, testRef("vacuum"), "", "the test has a vacuum of %s, the service %s", a, b)
		}
	},
}

// CollapseAtTest holds the vacuum of a test against what the parts bear.
var CollapseAtTest = &rules.Rule{
	ID: "collapse-at-test", Family: family, Title: "The vacuum of the test is more than a part bears",
	Why: "A wall gives way to pressure from outside all at once and without a sign, and takes with it whoever stands beside it. " +
		"A vacuum is drawn only where the collapse pressure of every part is known and stays above it by its safety.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "the test has a vacuum above that of the service of a part, and the cold wall does not bear it with its safety of 5, or a flat one by its stress; " +
		"incomplete where what it bears is not known",
	Basis: "the wall's own criterion of outside pressure, arithmetic",
	Job: func(p *rules.JobPass) {
		vacuum := p.Job.Test.Vacuum.SI()
		for i := range p.Job.Parts {
			if has := p.Parts[i].Schedule.Service.Vacuum.SI(); vacuum <= 0 || !quantity.Above(vacuum, has) {
				continue // the wall is judged for as much
			}
			c, missing := Collapse(p.Parts[i], vacuum, p.Evaluate), ""
			switch {
			case c == nil && p.Job.Parts[i].Form == laminate.Flange:
				continue // a ring, which its bolts close
			case c == nil:
				missing = "no criterion is for its form"
			case !c.Judged():
				missing = c.Reason
			}
			switch {
			case missing != "" && unfigured(p.Parts[i].Wall):
				p.Unfigured("the vacuum of the test", []laminate.Ref{laminate.JobPartRef(i, "")}, "part %s: whether it bears the vacuum of the test, %s, cannot be determined: %s", p.Job.Parts[i].ID, p.Units.Figure(vacuum, quantity.Stress), missing)
			case missing != "":
				p.Report(rules.Incomplete, laminate.JobPartRef(i, ""), "", "part %s: whether it bears the vacuum of the test, %s, cannot be determined: %s", p.Job.Parts[i].ID, p.Units.Figure(vacuum, quantity.Stress), missing)
			case c.Answer == wall.Fails:
				required, bears := c.Figures(p.Units)
				p.Report(rules.Break, laminate.JobPartRef(i, ""), c.Basis, "part %s: the test has a vacuum of %s; %s %s where the wall bears %s: it may collapse", p.Job.Parts[i].ID, p.Units.Figure(vacuum, quantity.Stress), c.Title(), required, bears)
			}
		}
	},
}

// Collapse is what a part answers to a vacuum, in Pa, that a test draws on it cold and
// empty: nil where it has no criterion for it. Evaluate is [wall.Evaluate], or what
// remembers it.
func Collapse(part *rules.Report, vacuum float64, evaluate func(*laminate.Schedule, *laminate.Analysis) *wall.Result) *wall.Criterion {
	s := *part.Schedule
	s.Service = laminate.Service{Pressure: quantity.New(0, quantity.Pascal), Vacuum: quantity.New(vacuum, quantity.Pascal)}
	s.Conditions, s.Part.ModulusRetention = nil, laminate.Optional[float64]{}
	s.Part.LiquidHeight, s.Part.Place.Pull = quantity.New(0, quantity.Meter), quantity.New(0, quantity.Meter)
	r := evaluate(&s, part.Analysis)
	for i := range r.Criteria {
		switch c := &r.Criteria[i]; c.Name {
		case wall.ExternalPressure, wall.PlateStress, wall.HoldDown:
			return c
		case others.Vacuum: // which one that falls short elsewhere does not prove
			if part.Wall != nil && part.Wall.FormOpen == "" {
				return c
			}
		}
	}
	return nil
}
