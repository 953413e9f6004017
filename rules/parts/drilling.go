package parts

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// BoltsMisfit holds the bolts of a flange or cover against what they go through.
var BoltsMisfit = &rules.Rule{
	ID:     "bolts-misfit",
	Family: family,
	Title:  "The bolts of a flange or cover do not go where they have to",
	Why: "Bolts stand round the bore with laminate between them and it, and between each other; a cover has the holes of the flange that it is bolted to. " +
		"A plate is figured on its bolt circle: with a slip in that it holds on paper at a tenth of its load.",
	Severity: []rules.Severity{rules.Break},
	When: "the bolt circle less a hole (the bolt and 1/8 in) is not more than the size of the flange or cover, or of the nozzle that names it; the holes on it touch; " +
		"or a cover and the flange of one nozzle differ in circle or number of bolts",
	Basis: "geometry; the hole from memory: ASME B16.5",
	Job: func(p *rules.JobPass) {
		within := func(i int, bore quantity.Length, of string) bool {
			d := ground.Bolted(p.Stated(i))
			if hole := d.Hole(); d.Circle > 0 && bore.Given() && !quantity.Above(d.Circle-hole, bore.SI()) {
				a, b := p.Units.Pair(d.Circle-hole, bore.SI(), quantity.Size)
				p.Report(rules.Break, laminate.JobPartRef(i, "bolt_circle"), "", "%s: its bolt holes leave %s between them, and %s is %s wide", p.Job.Parts[i].ID, a, of, b)
				return true
			}
			return false
		}
		told := map[int]bool{}
		for i := range p.Job.Parts {
			part := p.Stated(i)
			if part.Form != laminate.Flange && part.Form != laminate.Cover {
				continue
			}
			told[i] = within(i, part.Size, "its bore")
			d := ground.Bolted(part)
			if pitch := math.Pi * d.Circle / float64(max(1, d.Bolts)); d.Circle > 0 && d.Bolts > 1 && d.Bolt > 0 && !quantity.Above(pitch, d.Hole()) {
				a, b := p.Units.Pair(pitch, d.Hole(), quantity.Size)
				p.Report(rules.Break, laminate.JobPartRef(i, "bolts"), "", "%s: %d bolts on its circle are %s apart, and a hole is %s wide: they run into each other", p.Job.Parts[i].ID, d.Bolts, a, b)
			}
		}
		for i := range p.Job.Nozzles {
			x := &p.Job.Nozzles[i]
			flange, cover := p.Part(x.Flange), p.Part(x.Cover)
			for _, end := range []int{flange, cover} {
				if end >= 0 && !told[end] {
					told[end] = within(end, x.Size, "nozzle "+x.ID)
				}
			}
			if flange < 0 || cover < 0 {
				continue
			}
			a, b := ground.Bolted(p.Stated(flange)), ground.Bolted(p.Stated(cover))
			if fit, known := ground.BoltsUp(p.Stated(flange), p.Stated(cover)); known && !fit {
				m, n := p.Units.Pair(a.Circle, b.Circle, quantity.Size)
				p.Report(rules.Break, laminate.JobPartRef(cover, "bolt_circle"), "", "nozzle %s: its flange %s has %d bolts on %s, its cover %s %d on %s: they do not bolt up", x.ID, x.Flange, a.Bolts, m, x.Cover, b.Bolts, n)
			}
		}
	},
}
