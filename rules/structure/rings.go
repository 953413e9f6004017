package structure

import (
	"cmp"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// RingsByOthers says that a wall stands on rings that nothing here designs.
var RingsByOthers = &rules.Rule{
	ID:     "rings-by-others",
	Family: family,
	Title:  "The wall stands on rings that nothing here judges",
	Why: "Under a vacuum a thin wall folds between the places that hold it round. Rings hold it where they are stiff enough, stand close enough and are bonded all round; " +
		"one that is left out or laid too light lets the whole length fold at a small part of the vacuum. The spacing is judged as it is stated; the rings are for whoever designs and builds them.",
	Severity: []rules.Severity{rules.Note},
	When:     "a spacing of stiffeners is stated, and without them the wall does not bear the vacuum",
	Basis:    "the program's own check",
	Run: func(p *rules.Pass) {
		if !p.Schedule.Part.StiffenerSpacing.Given() {
			return
		}
		s := p.Wall().Stiffeners
		if !s.Known {
			return
		}
		apart, ends := p.Schedule.Part.StiffenerSpacing.SI(), ""
		if to := p.Schedule.Part.Place.Free.Ringed; to != "" {
			ends = ", one of them at each end that is joined to " + to + ", for a strap holds nothing round,"
		}
		p.Report(rules.Finding{Severity: rules.Note, At: laminate.PartRef("stiffener_spacing"),
			Message: "the wall bears its vacuum between rings, stated " + p.Units.Stated(apart, quantity.Size) + " apart: that they are there" + cmp.Or(ends, ",") + " bonded all round and stiff enough (" +
				p.Units.AtLeast(s.Inertia*apart/s.Spacing, quantity.SecondMoment) + " of second moment each, with its wall, at that spacing) is for whoever designs and builds them"}) // what a ring needs goes by the wall it holds: shell.StiffenerInertia
	},
}
