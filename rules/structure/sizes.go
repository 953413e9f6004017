package structure

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/rules"
)

// Bounds of sizes, beyond which they are most often in another unit. Common practice, no
// source.
const (
	leastBend      = 1.0    // bend radius over the diameter
	mostBend       = 5.0    // likewise
	leastBay       = 1. / 8 // spacing of rings over the diameter
	mostDeflection = 0.02   // of a plate, over its diameter or short side
)

// BendRadiusUnusual holds the bend of an elbow against its diameter.
var BendRadiusUnusual = &rules.Rule{
	ID:     "bend-radius-unusual",
	Family: family,
	Title:  "An elbow bends far wider or tighter than elbows do",
	Why: "Molds of elbows bend at one and a half diameters, some at one, sweeps at three to five. Area, resin and glass of an elbow go by the bend as it is stated, and so does the pressure at its inside, " +
		"which the wall bears the better the wider the bend is. Millimeters stated as inches make an elbow as long as the line.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the bend radius of an elbow is stated, and is above 5 or below 1 inside diameter (these bounds are usual)",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		x := &p.Schedule.Part
		d := x.InsideDiameter.SI()
		if x.Form != laminate.Elbow || !x.BendRadius.Given() || d <= 0 {
			return
		}
		bend := x.BendRadius.SI() / d
		bound := mostBend
		switch {
		case quantity.Above(bend, mostBend):
		case quantity.Below(bend, leastBend):
			bound = leastBend
		default:
			return
		}
		slip := ""
		if mm := bend / 25.4; mm >= leastBend && mm <= mostBend {
			slip = ": millimeters stated as inches?"
		}
		has, usual := p.Units.Pair(x.BendRadius.SI(), bound*d, quantity.Size)
		p.Report(rules.Finding{Severity: rules.Warning, At: laminate.PartRef("bend_radius"),
			Message: "the elbow bends at " + has + ", " + p.Units.Figure(bend, quantity.Times) + " diameters; from 1 to 5 are usual, here " + usual + " at the " + map[bool]string{true: "most", false: "least"}[bound == mostBend] + slip})
	},
}

// RingsClose holds the spacing of rings against what each holds.
var RingsClose = &rules.Rule{
	ID:     "rings-close",
	Family: family,
	Title:  "Rings stand closer than the strip that each stiffens",
	Why: "A ring works together with a strip of the wall. Rings closer than that strip is wide hold each other, and one thick wall would be simpler; nobody lays so many. " +
		"A spacing so close is most often one in feet that was stated in inches, and the wall bears its vacuum between rings that nobody will build.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the spacing of stiffeners is stated, and below 1.1 √(D t), D outside and t the whole thickness, or below an eighth of the inside diameter (these bounds are within)",
	Basis:    "1.1 √(D t): from memory; an eighth of the diameter: common practice, no source",
	Run: func(p *rules.Pass) {
		x := &p.Schedule.Part
		d, t := x.InsideDiameter.SI(), p.Analysis.Total.Thickness
		if !x.StiffenerSpacing.Given() || d <= 0 {
			return
		}
		least := math.Max(shell.StiffenerWidth(d+2*t, t), leastBay*d)
		if has := x.StiffenerSpacing.SI(); quantity.Below(has, least) {
			a, b := p.Units.Pair(has, least, quantity.Size)
			p.Report(rules.Finding{Severity: rules.Warning, At: laminate.PartRef("stiffener_spacing"),
				Message: "rings are stated " + a + " apart, and below " + b + " nobody sets them on such a wall: feet stated as inches? (stiffener_spacing)"})
		}
	},
}

// DeflectionLimitHigh holds the deflection that a plate may have against what is usual.
var DeflectionLimitHigh = &rules.Rule{
	ID:     "deflection-limit-high",
	Family: family,
	Title:  "A plate may bend by more than plates do",
	Why: "A cover or panel that bends far opens its gasket, holds a puddle and cracks at its edge. The specifier sets the limit, and a hundredth of the span is usual; with one of a half, or a percentage stated as a share, " +
		"no plate is too thin to pass. Beyond half of its thickness a plate carries otherwise than it is figured, too.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a deflection limit above 0.02 of the diameter or the short side is stated (0.02 itself is within)",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		if v := p.Schedule.Part.DeflectionLimit; v.Given && quantity.Above(v.Value, mostDeflection) {
			has, most := p.Units.Pair(v.Value, mostDeflection, quantity.Times)
			p.Report(rules.Finding{Severity: rules.Warning, At: laminate.PartRef("deflection_limit"),
				Message: "the plate may bend by " + has + " of its span, above " + most + ": a percentage stated as a share? (deflection_limit; 0.01 is usual)"})
		}
	},
}

// Bounds of specific gravity: water, and hot water.
const (
	water    = 1.0
	hotWater = 0.95 // at 100 °C 0.958 (textbook)
	ammonia  = 0.85 // the lightest of such solutions: a third of ammonia in water has 0.88 (from memory)
)

// warm is where water begins to be lighter than water by more than a point, K: 120 °F.
var warm = quantity.New(120, quantity.Fahrenheit).SI()

// GravityLow holds the weight of a solution against that of water.
var GravityLow = &rules.Rule{
	ID:     "gravity-low",
	Family: family,
	Title:  "A solution is stated lighter than the water in it",
	Why: "Salts, strong acids, strong bases and hypochlorite make water heavier. Walls, bonds and what lifts a tank are figured by the specific gravity, so that a point that slipped, 0.12 for 1.2, lets a wall of a tenth pass. " +
		"The few that are lighter, as ammonia in water, are known to whoever states them.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When:     "the service contains brine, strong acid, strong base or hypochlorite, and a liquid height is not stated to be 0: its specific gravity is stated below 1, or, above 120 °F, below 0.95, for hot water is lighter: a warning, for some are; below 0.85, where none is: incomplete (these bounds are within)",
	Basis:    "densities of water and of solutions, from memory",
	Run: func(p *rules.Pass) {
		v := &p.Schedule.Service
		level := p.Schedule.Part.LiquidHeight
		salts := v.Contains.Has(laminate.Brine, laminate.StrongBase, laminate.Hypochlorite) || catalog.StrongAcid(v)
		if !v.SpecificGravity.Given || !salts || level.Given() && level.SI() == 0 {
			return
		}
		least := water
		if h := v.Hottest(); h.Given() && quantity.Above(h.SI(), warm) {
			least = hotWater
		}
		if quantity.Below(v.SpecificGravity.Value, least) {
			a, b := p.Units.Pair(v.SpecificGravity.Value, least, quantity.Times)
			severity := rules.Warning
			if quantity.Below(v.SpecificGravity.Value, ammonia) {
				severity = rules.Incomplete
			}
			p.Report(rules.Finding{Severity: severity, At: laminate.ServiceRef("specific_gravity"),
				Message: "the specific gravity is stated as " + a + ", and what it contains makes water heavier than " + b + ": which holds is not known, and every wall is figured by it; a point that slipped? (specific_gravity)"})
		}
	},
}
