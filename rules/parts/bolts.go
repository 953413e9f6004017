package parts

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/rules"
)

// TorqueHigh holds the torque that the shop allows against what a bolt bears.
var TorqueHigh = &rules.Rule{
	ID:     "torque-high",
	Family: family,
	Title:  "A bolt is turned with more than it bears",
	Why: "A flange of laminate is crushed, or bent until it cracks at the hub, long before a bolt of steel yields: its flange test says with how much it may be turned, and that is little. " +
		"A figure that would stretch or tear the bolt itself is most often one in another unit, inch-pounds read as foot-pounds, and whoever builds by it breaks the flange.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When: "turned dry with the torque stated for a flange, its bolt would carry more than the strongest usual bolt tears at, 125,000 psi: break; more than plain steel yields at, 36,000 psi: warning; " +
		"0.85 of the bolt's nominal area counts",
	Basis: "T = K F d with K 0.2 (textbook); strengths of bolts and areas of threads from memory",
	Job: func(p *rules.JobPass) {
		walls(p, func(i int, part *laminate.Part, _ *rules.Report) {
			bolt := ground.Bolted(part).Bolt
			if part.Form != laminate.Flange || !part.Torque.Given() || bolt <= 0 {
				return
			}
			id, size := p.Job.Parts[i].ID, p.Units.Stated(bolt, quantity.Size)
			most := func(strength float64) float64 {
				return vessel.Torque(strength*catalog.BoltCore*math.Pi/4*bolt*bolt, bolt, vessel.DryBolt)
			}
			tears, yields := most(catalog.StrongestBolt.SI()), most(catalog.PlainBoltYield.SI())
			switch stated := part.Torque.SI(); {
			case quantity.Above(stated, tears):
				torque, limit := p.Units.Pair(stated, tears, quantity.Torque)
				p.Report(rules.Break, laminate.JobPartRef(i, "torque"), "", "%s is turned with %s, and no bolt of %s bears more than %s: inch-pounds stated as foot-pounds?", id, torque, size, limit)
			case quantity.Above(stated, yields):
				torque, limit := p.Units.Pair(stated, yields, quantity.Torque)
				p.Report(rules.Warning, laminate.JobPartRef(i, "torque"), "", "%s is turned with %s, and a bolt of %s of plain steel yields from %s on: more than a flange of laminate is turned with", id, torque, size, limit)
			}
		})
	},
}
