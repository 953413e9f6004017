package parts

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/rules"
)

// FlangeThin holds the thickness that a flange states against what flanges have.
var FlangeThin = &rules.Rule{
	ID:     "flange-thin",
	Family: family,
	Title:  "A flange is thinner than flanges of its class are",
	Why: "The thickness of a flange is the shop's own, from its table or its tests, and nothing here designs it. But its bolts bend it, and no shop makes it thinner than the wall that it ends: " +
		"a figure far below what others of its size and class have is most often a fraction or a unit that slipped, and whoever lays by it lays a ring that cracks when it is bolted up.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "a flange states a thickness below the wall of a neck that ends in it, or of a part that a joint ties it to: break; " +
		"below the figure of a table for its size and class, else for the next lower of each; the table begins at 2 in and 25 psi: warning",
	Basis: "the table: NBS PS 15-69, from memory and not verified, a bound and no design; the wall: " + rules.CommonPractice,
	Job: func(p *rules.JobPass) {
		for i := range p.Job.Parts {
			part := p.Stated(i)
			if part.Form != laminate.Flange || !part.Thickness.Given() {
				continue
			}
			id, has := p.Job.Parts[i].ID, part.Thickness.SI()
			if wall, whose := endedBy(p, i); quantity.Below(has, wall) {
				a, b := p.Units.Pair(has, wall, quantity.Size)
				p.Report(rules.Break, laminate.JobPartRef(i, "thickness"), "", "%s is stated %s thick, and the wall of %s, which ends in it, %s: a slip of a figure or a unit?", id, a, whose, b)
				continue
			}
			least, size, class, known := vessel.RememberedFlange(part.Size.SI(), part.PressureClass.SI())
			if known && quantity.Below(has, least) {
				a, b := p.Units.Pair(has, least, quantity.Size)
				p.Report(rules.Warning, laminate.JobPartRef(i, "thickness"), "", "%s is stated %s thick; %s is the figure, from memory, for %s at %s: a slip of a figure or a unit, or by which test does the shop know it? (thickness, pressure_class)",
					id, a, b, p.Units.Stated(size, quantity.Size), p.Units.Figure(class, quantity.Stress))
			}
		}
	},
}

// endedBy is the thickest wall that ends in a flange, m, and whose it is; 0 of none.
func endedBy(p *rules.JobPass, flange int) (wall float64, whose string) {
	take := func(m float64, of string) {
		if m > wall {
			wall, whose = m, of
		}
	}
	for i := range p.Job.Nozzles {
		if x := &p.Job.Nozzles[i]; p.Part(x.Flange) == flange && x.Flange != "" {
			if a := p.Analysis(x.Neck); a != nil && a.Total.ThicknessKnown {
				take(a.Total.Thickness, "the neck of nozzle "+x.ID)
			}
		}
	}
	joints(p, func(_, one, other int) {
		if other == flange {
			one, other = other, one
		}
		if one == flange && !ground.Flat(p.Stated(other)) {
			take(thickness(p.Parts[other]), "part "+p.Job.Parts[other].ID)
		}
	})
	return wall, whose
}

// mostClass is the highest pressure that contact-molded flanges and necks are
// standardized for.
var mostClass = quantity.New(150, quantity.PSI)

// ClassAboveScope keeps pressure classes within what their standards are for.
var ClassAboveScope = &rules.Rule{
	ID:     "class-above-scope",
	Family: family,
	Title:  "A pressure class above what such parts are made for",
	Why: "Contact-molded flanges, necks and covers are proved to 150 psi at most; no table known here goes further. A class ten times what is meant makes every comparison with it hold, " +
		"for the service as for the test. One that really is so high rests on a test of such a part, which whoever answers for it shows.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "a flange, a cover or a nozzle states a pressure class above 150 psi (150 psi itself is within)",
	Basis:    "scope of ASTM D6041, from memory",
	Job: func(p *rules.JobPass) {
		hold := func(at laminate.Ref, what string, class quantity.Pressure) {
			if class.Given() && quantity.Above(class.SI(), mostClass.SI()) {
				a, b := p.Units.Pair(class.SI(), mostClass.SI(), quantity.Stress)
				p.Unfigured("its class", []laminate.Ref{at}, "%s states a class of %s, and such parts are proved to %s at most: a digit or a unit too many, or which test proved it? (pressure_class)", what, a, b)
			}
		}
		for i := range p.Job.Parts {
			hold(laminate.JobPartRef(i, "pressure_class"), p.Job.Parts[i].Form.String()+" "+p.Job.Parts[i].ID, p.Stated(i).PressureClass)
		}
		for i := range p.Job.Nozzles {
			hold(laminate.Ref{Kind: laminate.RefNozzle, Index: i, Key: "pressure_class"}, "nozzle "+p.Job.Nozzles[i].ID, p.Job.Nozzles[i].PressureClass)
		}
	},
}

// mostPitch is how far bolts of a flange of laminate stand apart at most, m: 6 in, where
// the widest of the tables, 14 in, has 4.9 in. Common practice, no source.
var mostPitch = quantity.New(6, quantity.Inch).SI()

// fewestBolts stand on a circle.
const fewestBolts = 4

// BoltsFarApart asks for enough bolts to keep a gasket tight.
var BoltsFarApart = &rules.Rule{
	ID:     "bolts-far-apart",
	Family: family,
	Title:  "A flange has few bolts, far apart",
	Why: "Between two bolts a ring of laminate bends away from its gasket, the more the further they stand apart, and there it leaks; to stop that somebody turns the bolts harder than the ring bears. " +
		"The tables of drillings keep bolts less than five inches apart, and have them by fours.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a flange, or a cover that no nozzle puts onto one, states fewer than four bolts, or its circle and so few that they are more than 6 in apart along it (6 in is within)",
	Basis:    rules.CommonPractice + "; at most 4.9 in: ASME B16.5 and B16.1, from memory",
	Job: func(p *rules.JobPass) {
		onFlange := map[int]bool{}
		for i := range p.Job.Nozzles {
			if x := &p.Job.Nozzles[i]; x.Flange != "" && x.Cover != "" {
				onFlange[p.Part(x.Cover)] = true
			}
		}
		for i := range p.Job.Parts {
			part := p.Stated(i)
			if d := ground.Bolted(part); ground.Flat(part) && !onFlange[i] && d.Bolts > 0 {
				id := p.Job.Parts[i].ID
				switch pitch := math.Pi * d.Circle / float64(d.Bolts); {
				case d.Circle > 0 && quantity.Above(pitch, mostPitch):
					a, b := p.Units.Pair(pitch, mostPitch, quantity.Size)
					p.Report(rules.Warning, laminate.JobPartRef(i, "bolts"), "", "%s has %s on a circle of %s, %s apart; more than %s is not usual: a digit missing? (bolts, bolt_circle)", id, quantity.Counted(d.Bolts, "bolt", "bolts"), p.Units.Stated(d.Circle, quantity.Size), a, b)
				case d.Bolts < fewestBolts:
					p.Report(rules.Warning, laminate.JobPartRef(i, "bolts"), "", "%s has %s, and %d are the fewest that are usual (bolts)", id, quantity.Counted(d.Bolts, "bolt", "bolts"), fewestBolts)
				}
			}
		}
	},
}
