package takeoff

import (
	"cmp"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Line is one line of the cost: a quantity and what one of it costs.
type Line struct {
	What     string
	Quantity float64
	Unit     string  // kg or h
	Price    float64 // for one of Unit
	Currency string
	Stated   string // the price as the shop wrote it, with its unit
	Priced   bool
}

// Amount is quantity times price.
func (l *Line) Amount() float64 { return l.Quantity * l.Price }

// Cost are the lines and what they come to, by currency; amounts of different
// currencies are never added up.
type Cost struct {
	Lines   []Line
	Totals  []Total
	Without []string // what has no price, or no quantity
}

// Total is the sum in one currency, "" where the book names none.
type Total struct {
	Currency string
	Amount   float64
}

func (c *counter) price() {
	var untold []string // what nobody knows how much is taken of
	for i := range c.t.Goods {
		g := &c.t.Goods[i]
		if g.Price = g.Material.Price; !g.Price.Given() {
			g.Price = c.rollPrice(g)
		}
		c.material(g.Material.ID, g.Ordered, g.Price)
	}
	for i := range c.t.Resins {
		r := &c.t.Resins[i]
		c.material("resin "+r.Resin.ID, r.Ordered-r.FillerOrdered(), r.Price)
		if r.Filler > 0 {
			c.material("filler "+r.Resin.Filler.String()+" of "+r.Resin.ID, r.FillerOrdered(), quantity.Price{})
		}
		if r.Initiation != nil {
			c.material("initiator of "+r.Resin.ID, r.Initiator, r.Initiation.Price)
		} else {
			untold = append(untold, "initiator of "+r.Resin.ID)
		}
	}
	for _, l := range c.t.Labor {
		c.line(l)
	}
	cost := &c.t.Cost
	if cost.Without = append(cost.Without, c.unpaid...); len(cost.Without) > 0 {
		c.remark("price-missing", "", "no price is stated for "+strings.Join(cost.Without, ", "))
	}
	cost.Without = append(cost.Without, untold...)
}

// rollPrice is the price of the roll that is cut, else of any of the material.
func (c *counter) rollPrice(g *Goods) quantity.Price {
	if g.Roll != nil && g.Roll.Price.Given() {
		return g.Roll.Price
	}
	for _, r := range c.shop.Rolls {
		if r.Material == g.Material.ID && r.Price.Given() {
			return r.Price
		}
	}
	return quantity.Price{}
}

func (c *counter) material(what string, kg float64, p quantity.Price) {
	l := Line{What: what, Quantity: kg, Unit: "kg", Currency: p.Currency, Stated: p.Text, Priced: p.Given()}
	if l.Priced {
		l.Price, l.Currency = p.PerKilogram(), cmp.Or(p.Currency, c.shop.Takeoff.Currency)
	}
	c.line(l)
}

func (c *counter) line(l Line) {
	cost := &c.t.Cost
	cost.Lines = append(cost.Lines, l)
	if !l.Priced {
		cost.Without = append(cost.Without, l.What)
		return
	}
	at := slices.IndexFunc(cost.Totals, func(t Total) bool { return t.Currency == l.Currency })
	if at < 0 {
		at = len(cost.Totals)
		cost.Totals = append(cost.Totals, Total{Currency: l.Currency})
	}
	cost.Totals[at].Amount += l.Amount()
}

// labor counts hours by the shop's own rates; it has none of its own.
func (c *counter) labor(pieces []Piece) {
	t := &c.shop.Takeoff
	joints, nozzles := 0.0, 0.0
	for i := range pieces {
		switch pieces[i].Kind {
		case Joint:
			joints += float64(max(pieces[i].Count, 1))
		case Nozzle:
			nozzles += float64(max(pieces[i].Count, 1))
		case Part:
		}
	}
	fixed := 0.0 // a shop that counts none has none
	if t.HoursFixed.Given {
		fixed = 1
	}
	for _, h := range []struct {
		what  string
		of    float64
		hours laminate.Optional[float64]
	}{
		{"laying by hand", c.contact, t.HoursContact}, {"winding", c.wound, t.HoursWound}, {"joints", joints, t.HoursJoint},
		{"nozzles", nozzles, t.HoursNozzle}, {"fixed hours", fixed, t.HoursFixed},
	} {
		switch {
		case h.of == 0:
		case h.hours.Given:
			c.t.Labor = append(c.t.Labor, Line{What: h.what, Quantity: h.of * h.hours.Value, Unit: "h", Price: t.HourPrice.Value, Currency: t.Currency, Priced: t.HourPrice.Given,
				Stated: strings.TrimSpace(t.Currency + " " + quantity.Number(t.HourPrice.Value, 2) + " per h")})
		case t.HourPrice.Given:
			c.unpaid = append(c.unpaid, h.what)
		}
	}
	if !t.HourPrice.Given && len(c.t.Labor) == 0 {
		c.unpaid = append(c.unpaid, "labor")
	}
}
