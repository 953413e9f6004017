package takeoff

import (
	"fmt"
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stock"
)

// Resin is a resin mix: what is laid of it, what has to be ordered with it and
// what it gives off.
type Resin struct {
	Resin   *laminate.Resin
	Net     [3]float64 // kg of mix, laid by hand, sprayed, wound
	Filler  float64    // kg of it, laid
	Ordered float64    // kg of mix
	Batches int        // pots, laid by hand; 0 where the book states no size

	Initiation     *stock.Initiation // of the shop's table; nil where WhyNot says why
	WhyNot         string
	Initiator      float64 // kg
	InitiatorLiter float64 // 0 where its density is not stated
	Promoter       float64 // kg, 0 where the table names none

	Styrene    float64 // kg given off, an estimate
	StyreneWhy string  // why there is none
	Price      quantity.Price
}

// Laid is the mix in the laminate, kg.
func (r *Resin) Laid() float64 {
	sum := 0.0
	for _, x := range r.Net {
		sum += x
	}
	return sum
}

// FillerOrdered is the filler in what is ordered, kg.
func (r *Resin) FillerOrdered() float64 {
	if r.Laid() <= 0 {
		return 0
	}
	return r.Ordered * r.Filler / r.Laid()
}

// mix finds the resin of a ply among those counted. Two with one id that are
// not the same are two.
func (c *counter) mix(r *laminate.Resin) *Resin {
	key := *r
	key.Origin = 0
	at, known := c.resins[key]
	if !known {
		at = len(c.t.Resins)
		c.resins[key] = at
		c.t.Resins = append(c.t.Resins, Resin{Resin: r})
	}
	return &c.t.Resins[at]
}

// Pots is how many pots of resin mix a ply of a material takes that is laid by
// hand, with its waste; mix is net, kg. It is 0 where the shop book states no size
// of a pot, and for what is sprayed or wound: that is not mixed in pots.
func Pots(m *laminate.Material, mix float64, own *stock.Stock) int {
	pot := own.Takeoff.Batch.SI()
	if processOf(m) != contact || pot <= 0 {
		return 0
	}
	return Batches(mix, own.Takeoff.ResinWasteContact.Or(catalog.ResinWasteContact), pot)
}

// Batches is ⌈mix × (1 + waste)/pot⌉, all in kg.
func Batches(mix, waste, pot float64) int {
	return int(math.Ceil(mix*(1+waste)/pot - 1e-9))
}

func (c *counter) resin(r *Resin) {
	t := &c.shop.Takeoff
	for how, net := range r.Net {
		if net == 0 {
			continue
		}
		share, usual, key := t.ResinWasteContact, catalog.ResinWasteContact, "resin_waste_contact"
		switch process(how) {
		case sprayed:
			share, usual, key = t.ResinWasteSprayed, catalog.ResinWasteSprayed, "resin_waste_sprayed"
		case wound:
			share, usual, key = t.ResinWasteWound, 0, "resin_waste_wound"
			if !share.Given {
				c.remark("waste-unstated", "", "resin that is wound is ordered without waste: the shop book does not state "+key)
			}
		case contact:
		}
		if usual > 0 {
			c.usual(key, share, usual)
		}
		ordered := net * (1 + share.Or(usual))
		r.Ordered += ordered
		c.styrene(r, process(how), ordered*(1-r.Filler/r.Laid()))
	}
	c.initiate(r)
	if r.Price = r.Resin.Price; !r.Price.Given() {
		for i := range c.lib.Resins {
			if own := &c.lib.Resins[i]; own.ID == r.Resin.ID && own.Family == r.Resin.Family {
				r.Price = own.Price
			}
		}
	}
}

// initiate asks the shop's table, and whether it can be meant.
func (c *counter) initiate(r *Resin) {
	row, err := c.shop.Initiation(r.Resin, c.o.At)
	if err != nil {
		r.WhyNot = err.Error()
		c.remark("initiator-unstated", "", "how much initiator "+r.Resin.ID+" takes is not stated: "+r.WhyNot)
		return
	}
	r.Initiation = &row
	bare := r.Ordered - r.FillerOrdered()
	r.Initiator = bare * row.Initiator.Value
	r.Promoter = bare * row.Promoter.Value
	if row.Density.Given() {
		r.InitiatorLiter = r.Initiator / row.Density.SI() * 1000
	}
	for _, odd := range catalog.OddShares(&row, r.Resin.Cure) {
		c.remark("peroxide-outside-range", "common practice, no source", "the shop's table has for "+r.Resin.ID+" "+odd.Says+": make sure that the table was copied right")
	}
	t := &c.shop.Takeoff
	if lays := t.LaidAMinute.SI() * row.GelMinutes.Value; lays > 0 && t.Batch.SI() > lays*(1+1e-9) {
		c.remark("batch-outlasts-pot", "", fmt.Sprintf("a pot of %s is more than the crew lays before %s gels: %s in %s minutes",
			c.o.Units.Figure(t.Batch.SI(), quantity.Weight), r.Resin.ID, c.o.Units.Figure(lays, quantity.Weight), quantity.Number(row.GelMinutes.Value, 0)))
	}
}

// StyreneSource is what Emission rests on.
const StyreneSource = "40 CFR 63 subpart WWWW, table 1, from memory; its limits in table 3 agree"

// styrene adds an estimate of what the resin gives off in a process.
func (c *counter) styrene(r *Resin, how process, kg float64) {
	content := r.Resin.StyreneContent
	switch {
	case r.StyreneWhy != "":
	case !content.Given:
		r.StyreneWhy = "the resin does not state its styrene_content"
	case how == sprayed && c.shop.Takeoff.Spray == stock.NoSprayGun:
		r.StyreneWhy = "the shop book does not state how it sprays (spray)"
	default:
		way := ByHand
		switch {
		case how == wound:
			way = ByWinding
		case how == sprayed && c.shop.Takeoff.Spray == stock.Atomized:
			way = ByAtomizedSpray
		case how == sprayed:
			way = ByNonAtomizedSpray
		}
		r.Styrene += kg * Emission(way, content.Value)
		return
	}
	r.Styrene = 0
}

// Way is how resin is applied, as far as styrene goes.
type Way uint8

// The ways, open molding without a suppressant.
const (
	ByHand Way = iota
	ByNonAtomizedSpray
	ByWinding
	ByAtomizedSpray
)

// Emission is the mass of styrene given off for one of resin used, by the share
// h of it in the resin: below 0.33 k·h, from there on a·h − b. An estimate for
// an order or a permit's sheet; the shop's permit and the rule in force govern.
//
// Source: 40 CFR 63 subpart WWWW, table 1 (from memory).
func Emission(way Way, h float64) float64 {
	k := [...]struct{ k, a, b float64 }{
		ByHand: {0.126, 0.286, 0.0529}, ByNonAtomizedSpray: {0.107, 0.157, 0.0165},
		ByWinding: {0.184, 0.2746, 0.0298}, ByAtomizedSpray: {0.169, 0.714, 0.18},
	}[way]
	if h < 0.33 {
		return k.k * h
	}
	return k.a*h - k.b
}
