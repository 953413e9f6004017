// Package structure owns the rules about the layer that carries the load, and
// reads the evaluation of the wall.
package structure

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/rules"
)

const family = "structure"

// Rules lists the family.
func Rules() []*rules.Rule {
	return []*rules.Rule{StructureMissing, StructureGlassContent, BookedThicknessDiffers, WallFails, WallOpen, WallOverstrained, TypicalModuliOnly, RetentionUnproved, WallIdle, FormNotFigured, FactorMixed, DesignFactorLow, RingsByOthers, VoidsHigh,
		FiberUnusual, ArealMassUnusual, LaminaTooStiff, LaminaThicknessUnlike, LaminaTooStrong, BendRadiusUnusual, RingsClose, DeflectionLimitHigh, GravityLow}
}

// StructureMissing wants something to carry the load.
var StructureMissing = &rules.Rule{
	ID:     "structure-missing",
	Family: family,
	Title:  "No structural layer",
	Why: "The barrier keeps the fluid out and is not counted as carrying load: it is brittle, resin-rich and meant to be consumed. " +
		"Without a structural layer it carries pressure, lifting and wind, and cracks unseen. " +
		"If structural plies are there, check their zones.",
	Severity: []rules.Severity{rules.Break},
	When:     "the structural layer has no reinforced ply; veils and coats do not count",
	Basis:    rules.CommonPractice,
	Run: func(p *rules.Pass) {
		if p.Facts.Structural > 0 {
			return
		}
		f := rules.Finding{Severity: rules.Break, Message: "no ply in the structural layer: nothing carries the load"}
		if n := len(p.Schedule.Plies); n > 0 {
			f.Rows = []int{n - 1}
		}
		p.Report(f)
	},
}

// FactorMixed keeps a temperature from being counted twice, or by two methods.
var FactorMixed = &rules.Rule{
	ID:     "factor-mixed",
	Family: family,
	Title:  "Temperature is counted twice in one part",
	Why: "What warmth takes from a laminate is allowed for once: as a factor on what it may bear, or as a share of its moduli that is left. " +
		"The unit-load method has a factor of its own for it, the third of the five. A wall that states both is figured with less than it has, and by a method that nobody published; " +
		"most often one of the two is left over from another revision.",
	Severity: []rules.Severity{rules.Warning},
	When:     "the design basis is unit-load, the third of its five factors is above 1, and a share of the moduli below 1 is stated (modulus_retention), of the part or of a condition",
	Basis:    "BS 4994 (from memory): k3 is the factor for temperature; common practice, no source",
	Run: func(p *rules.Pass) {
		s := p.Schedule
		if s.Part.Basis() != laminate.UnitLoad || !s.Part.KFactors.Given || !quantity.Above(s.Part.KFactors.Values[2], 1) {
			return
		}
		k := p.Units.Figure(s.Part.KFactors.Values[2], quantity.Times)
		mixed := func(at laminate.Ref, kept laminate.Optional[float64]) {
			if kept.Given && quantity.Below(kept.Value, 1) {
				p.Report(rules.Finding{Severity: rules.Warning, At: at,
					Message: "modulus_retention is " + quantity.Share(kept.Value) + " and the third of the k_factors " + k + ": temperature is counted twice; state it in one of them"})
			}
		}
		mixed(laminate.PartRef("modulus_retention"), s.Part.ModulusRetention)
		for i := range s.Conditions {
			mixed(laminate.Ref{Kind: laminate.RefCondition, Index: i, Key: "modulus_retention"}, s.Conditions[i].ModulusRetention)
		}
	},
}

// The least design factors: of the unit-load method, and of any that is remembered, the
// tanks of road transport (BS 4994 and ADR 2017 6.9.2, both from memory).
const (
	leastUnitFactor = 8
	leastFactor     = 4
)

// DesignFactorLow keeps the factors of the unit-load basis from coming to too little.
var DesignFactorLow = &rules.Rule{
	ID:     "design-factor-low",
	Family: family,
	Title:  "The design factor of the unit loads is low",
	Why: "The five factors stand for what a wall loses to its making, its fluid, its heat, its loads coming and going, and a cure that is less than whole. " +
		"All at 1 say that it loses nothing, for as long as it stands, and leave 3 of the 8 that the method asks for whatever the five come to. A wall sized so is little more than a third as thick.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When:     "the design basis is unit-load, and K, 3 times its five factors, is below 4: break; below 8: warning (both bounds are enough)",
	Basis:    "at least 8: BS 4994, from memory; at least 4: ADR 2017 6.9.2, from memory, the least of any method that is remembered",
	Run: func(p *rules.Pass) {
		k := &p.Schedule.Part.KFactors
		if p.Schedule.Part.Basis() != laminate.UnitLoad || !k.Given {
			return
		}
		factor, err := shell.DesignFactor(k.Values)
		severity, least := rules.Warning, float64(leastUnitFactor)
		switch {
		case err != nil || !quantity.Below(factor, leastUnitFactor):
			return // the unit load says that it is no number
		case quantity.Below(factor, leastFactor):
			severity, least = rules.Break, leastFactor
		}
		has, wants := p.Units.Pair(factor, least, quantity.Times)
		message := "the five factors come to K = " + has + ", below " + wants
		if severity == rules.Break {
			message += ", under which no method known here goes; unit loads ask for 8"
		}
		p.Report(rules.Finding{Severity: severity, At: laminate.PartRef("k_factors"), Message: message})
	},
}

// FormNotFigured keeps a part from passing for one whose wall was figured.
var FormNotFigured = &rules.Rule{
	ID:     "form-not-figured",
	Family: family,
	Title:  "The structure of this form is not figured",
	Why: "Pressure bends a shallow head at its knuckle, a steep cone at its large end and a mitered elbow at its seams by more than any formula here says. " +
		"Such a part has to be figured by its own code, from tables that have to be bought, or by an engineer, whose calculation or test the document then names (proved_by and the keys beside it). " +
		"Its plies, zones and resins are judged as those of any other.",
	Severity: []rules.Severity{rules.Incomplete},
	When: "an ellipsoidal head has D/2h above 2.6, a torispherical one a crown radius above its diameter or a knuckle radius below 6 % of it; a cone has a half-angle above 30°; " +
		"an elbow is mitered, or its bend radius below its inside diameter (all bounds are within); a flat bottom does not stand on its foundation; and no proof of others is stated that reaches all that the part bears in service",
	Basis: "ASME VIII (from memory) for the bounds of heads and cones",
	Run: func(p *rules.Pass) {
		if p.Facts.Structural == 0 {
			return
		}
		if why := p.Wall().FormOpen; why != "" {
			p.Report(rules.Finding{Severity: rules.Incomplete, At: laminate.PartRef("form"),
				Message: "cannot be determined: the structure, " + why + "; plies, zones and resins are judged"})
		}
	},
}

// span is a usual range of glass content by mass.
type span struct {
	build       string
	least, most float64
}

// Usual glass contents (common practice, no source).
var (
	allChopped      = span{"an all-chopped structure", 0.25, 0.35}
	choppedAndWoven = span{"a structure of chopped glass and woven roving", 0.35, 0.50}
	choppedAndWound = span{"a structure of chopped glass and winding", 0.40, 0.65}
	woundOverBond   = span{"a wound structure over a bond mat", 0.40, 0.75}
	allWound        = span{"a wound structure", 0.55, 0.75}
)

// bondMatShare is the most that the chopped glass of a wound structure makes of
// its glass for it to be a bond mat alone (common practice, no source).
const bondMatShare = 0.15

// StructureGlassContent wants the structure neither dry nor bare.
var StructureGlassContent = &rules.Rule{
	ID:     "structure-glass-content",
	Family: family,
	Title:  "Glass content of the structure out of its usual range",
	Why: "Each process has its usual glass content: mat about 30 %, mat and woven roving about 40 %, winding 60 to 70 %. " +
		"More glass means dry strands, and a wall that is weak in shear and leaks; less means pooled resin, a heavy wall and less strength than its thickness suggests. " +
		"Strength figures hold within these ranges only.",
	Severity: []rules.Severity{rules.Warning, rules.Note},
	When: "glass by mass of the structural layer is outside 25–35 % all chopped, 35–50 % chopped and woven or unidirectional, 40–65 % chopped and wound (40–75 % where the chopped glass is a bond mat: at most 15 % of the glass), 55–75 % wound without chopped (all bounds are within): warning. " +
		"A mass not known: note. Not applied to woven plies without any chopped ply, nor to structures with tested laminas of known mass",
	Basis: rules.CommonPractice,
	Run:   structureGlassContent,
}

func structureGlassContent(p *rules.Pass) {
	if p.Facts.Structural == 0 {
		return
	}
	var chopped, fabric, wound, lamina bool
	for i := range p.Analysis.Rows {
		if p.Analysis.Rows[i].Zone != laminate.StructuralLayer {
			continue
		}
		switch form := rules.FormOf(&p.Analysis.Rows[i]); {
		case form.Chopped():
			chopped = true
		case form == laminate.RovingBand:
			wound = true
		case form.Continuous():
			fabric = true
		case form == laminate.Lamina:
			lamina = true
		}
	}
	rows := func() []int {
		return p.Rows(func(r *laminate.RowFigures) bool { return r.Zone == laminate.StructuralLayer })
	}
	zone := p.Analysis.Zones[laminate.StructuralLayer]
	share, ok := zone.GlassMassFraction()
	if !ok {
		p.Report(rules.Finding{Severity: rules.Note, Rows: rows(), Message: "the glass content of the structure cannot be determined: the mass of a ply is not known"})
		return
	}
	var usual span
	switch {
	case lamina:
		return
	case wound && chopped && !quantity.Above(choppedShare(p), bondMatShare):
		usual = woundOverBond
	case wound && chopped:
		usual = choppedAndWound
	case wound:
		usual = allWound
	case fabric && chopped:
		usual = choppedAndWoven
	case fabric:
		return
	default:
		usual = allChopped
	}
	f := rules.Finding{Severity: rules.Warning}
	var measured string
	switch {
	case quantity.Below(share, usual.least):
		measured, _ = p.Shares(share, usual.least)
	case quantity.Above(share, usual.most):
		measured, _ = p.Shares(share, usual.most)
	default:
		return
	}
	f.Rows = rows()
	f.Message = "the structure has " + measured + " glass by mass; " + quantity.US.Span(usual.least, usual.most, quantity.Fraction) + " is usual for " + usual.build
	p.Report(f)
}

// choppedShare is the share of the structure's glass that is chopped.
func choppedShare(p *rules.Pass) float64 {
	chopped, all := 0.0, 0.0
	for i := range p.Analysis.Rows {
		r := &p.Analysis.Rows[i]
		if r.Zone != laminate.StructuralLayer {
			continue
		}
		mass := r.GlassMass * float64(p.Schedule.Plies[i].Count)
		all += mass
		if rules.FormOf(r).Chopped() {
			chopped += mass
		}
	}
	return chopped / all
}

// mostBooked is how far a booked thickness may lie from the computed one.
const mostBooked = 0.20

// BookedThicknessDiffers compares the shop's own figure with arithmetic.
var BookedThicknessDiffers = &rules.Rule{
	ID:     "booked-thickness-differs",
	Family: family,
	Title:  "Booked ply thickness differs from the computed one",
	Why: "A booked thickness is the shop's own measurement; the computed one follows from mass, density and glass content. Where they differ widely, one of them rests on a wrong figure: " +
		"another glass content than was laid, a material of another mass, voids. Every thickness, strength and price here follows the computed one, so find out which is wrong.",
	Severity: []rules.Severity{rules.Warning, rules.Note},
	When: "the shop's booked thickness of a material differs from the computed one of a ply by more than 20 % of the computed (20 % itself holds), once for each material: warning; " +
		"booked, but the computed thickness is not known: note",
	Basis: rules.CommonPractice,
	Run:   bookedThicknessDiffers,
}

func bookedThicknessDiffers(p *rules.Pass) {
	var told []string
	for i := range p.Analysis.Rows {
		r := &p.Analysis.Rows[i]
		if r.Booked <= 0 || r.ThicknessKnown && !quantity.Above(math.Abs(r.Booked-r.Thickness), mostBooked*r.Thickness) {
			continue
		}
		id := p.Schedule.Plies[i].Material
		known := false
		for _, t := range told {
			known = known || t == id
		}
		if known {
			continue
		}
		told = append(told, id)
		rows := p.Rows(func(o *laminate.RowFigures) bool {
			return o.Material == r.Material && o.Booked > 0 &&
				(!o.ThicknessKnown || quantity.Above(math.Abs(o.Booked-o.Thickness), mostBooked*o.Thickness))
		})
		if !r.ThicknessKnown {
			p.Report(rules.Finding{Severity: rules.Note, Rows: rows, Message: id + " is booked at " + p.Units.Thickness(r.Booked) + " a ply; its computed thickness is not known"})
			continue
		}
		more := "more"
		if r.Booked < r.Thickness {
			more = "less"
		}
		measured, _ := p.Shares(math.Abs(r.Booked-r.Thickness)/r.Thickness, mostBooked)
		p.Report(rules.Finding{
			Severity: rules.Warning, Rows: rows,
			Message: id + " is booked at " + p.Units.Thickness(r.Booked) + " a ply, " + measured + " " + more + " than the " + p.Units.Thickness(r.Thickness) + " computed; over 20 %",
		})
	}
}
