package proof

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint"
)

// glassBreaks is the strain at which a laminate of glass is torn, however tough its resin:
// most tear at 1.5 to 2 %. From memory.
const glassBreaks = 0.025

// beyond judges a part that a test brings to grown times what a criterion was figured for:
// broken says by how much it is strained, and whose resin breaks there, "" where it does not;
// else how grave it is that the limit is passed, and what so adds to that.
func beyond(u quantity.System, lib *laminate.Library, part *rules.Report, c *wall.Criterion, grown float64) (severity rules.Severity, broken, so string) {
	if strain := c.Demand * grown; c.Name == wall.HoopStrain || c.Name == wall.AxialStrain {
		if breaks, whose := elongation(lib, part); breaks > 0 && !quantity.Below(strain, breaks) {
			a, b := u.Pair(strain, breaks, quantity.Strain)
			return rules.Break, a + ", and resin " + whose + " breaks at " + b, ""
		}
		if !quantity.Below(strain, glassBreaks) {
			a, b := u.Pair(strain, glassBreaks, quantity.Strain)
			return rules.Break, a + ", and laminates of glass break at " + b + " or before", ""
		}
	}
	ratio := c.Ratio * grown
	switch most := factorOf(c, part); {
	case most > 0 && !quantity.Below(ratio, most):
		return rules.Break, "", ": it breaks there"
	case quantity.Above(ratio, joint.UsualTest):
		return rules.Warning, "", ""
	}
	return rules.Note, "", ""
}

// ofSchedule is the pressure inside at the lowest place, Pa, that a schedule by itself states of
// its test, filled with water, and of its service; not ok where it states no test, and of
// the wall of a job that does in a table of its own.
func ofSchedule(s *laminate.Schedule) (test, service float64, ok bool) {
	v, deep := &s.Service, s.Part.LiquidHeight.SI()
	return v.TestPressure.SI() + wall.HeadPressure(1, deep), v.Pressure.SI() + wall.HeadPressure(v.SpecificGravity.Or(1), deep), v.TestPressure.Given() && !s.Part.Place.Tested
}

// ScheduleOverstrained is OverstrainedAtTest of a schedule by itself.
var ScheduleOverstrained = &rules.Rule{
	ID: "schedule-overstrained-at-test", Family: family, Title: "The test pressure loads the wall beyond its design",
	Why: "The test is the most that most walls ever bear, and the inspection plan orders what the schedule states. One place more in its figure bursts the wall, " +
		"or cracks the barrier, and nothing shows until the fluid is in.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning, rules.Note},
	When: "a schedule states a test_pressure, and a governing criterion of its inside, grown as the pressure of the test over that of the service at the lowest place (of water and of the fluid, to the stated level), passes its limit: note, above one and a half times: warning; " +
		"the strain reaches a resin's elongation at break or 2.5 %, or the stress the strength that the limit is a share of: break; incomplete where no criterion can be judged. Of a job with a [test] course-overstrained-at-test says so",
	Basis: "strain is linear in the load, arithmetic; the elongation at break: ADR 6.9.2; 2.5 % of glass, and one and a half times: ASME B31.3 A345, from memory",
	Run: func(p *rules.Pass) {
		s := p.Schedule
		test, service, ok := ofSchedule(s)
		if !ok || test <= 0 || p.Facts.Structural == 0 {
			return
		}
		part := &rules.Report{Schedule: s, Analysis: p.Analysis, Wall: p.Wall()}
		criterion, grown := ofInside(part.Wall), 1.0
		if service > 0 {
			grown = joining.Proof(test, service)
		}
		if service == 0 || criterion == nil && quantity.Above(grown, 1) {
			// What the service does not ask of it is figured for the test itself.
			under := *s
			under.Service.Pressure, under.Service.Vacuum, under.Service.TestPressure = s.Service.TestPressure, quantity.New(0, quantity.Pascal), quantity.Pressure{}
			under.Service.SpecificGravity, under.Conditions = laminate.Some(1.0), nil
			criterion, grown = ofInside(wall.Evaluate(&under, p.Library, p.Analysis, wall.Options{Units: laminate.Some(p.Units)})), 1
		}
		say := func(severity rules.Severity, message string) {
			p.Report(rules.Finding{Severity: severity, At: laminate.ServiceRef("test_pressure"), Message: message})
		}
		if criterion == nil {
			if service == 0 || quantity.Above(test, service) {
				say(rules.Incomplete, "how far the test strains the wall cannot be determined: no criterion of its inside pressure can be judged")
			}
			return
		}
		severity, broken, so := beyond(p.Units, p.Library, part, criterion, grown)
		ratio := criterion.Ratio * grown
		a, b := p.Units.Pair(test, service, quantity.Stress)
		switch {
		case broken != "":
			say(rules.Break, "the test strains the wall by "+broken)
		case quantity.Above(ratio, 1):
			say(severity, "the test puts "+a+" on the wall where the service has "+b+", "+quantity.Utilization(ratio)+" of what its "+criterion.Title()+" allows"+so)
		}
	},
}

// ScheduleProvesLess is TestProvesLess of a schedule by itself.
var ScheduleProvesLess = &rules.Rule{
	ID: "schedule-test-below-service", Family: family, Title: "The test pressure is below that of the service",
	Why: "A test proves what it puts on the wall, no more. A pressure that was typed with a place too few, or in another unit, is passed by a wall that the service then loads for the first time. " +
		"The inspection plan orders what the schedule states.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a schedule states a test_pressure, and it puts less on the lowest place than the service does (of water and of the fluid, to the stated level; as much is enough); of a job with a [test] test-proves-less-than-service says so",
	Basis:    "hydrostatics, arithmetic",
	Run: func(p *rules.Pass) {
		if test, service, ok := ofSchedule(p.Schedule); ok && quantity.Below(test, service) {
			a, b := p.Units.Pair(test, service, quantity.Stress)
			p.Report(rules.Finding{Severity: rules.Warning, At: laminate.ServiceRef("test_pressure"), Message: "the test puts " + a + " on the wall where the service has " + b + ", " + quantity.Percent(joining.Proof(test, service)) + " of it"})
		}
	},
}
