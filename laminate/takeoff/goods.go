package takeoff

import (
	"fmt"
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/laminate/winding"
)

// Goods is a reinforcement: what is laid of it and what has to be ordered.
type Goods struct {
	Material *laminate.Material
	Area     float64  // m² of ply
	Net      float64  // kg of fiber, by areal mass and area
	Ordered  float64  // kg
	How      []string // what Ordered is made of
	Strips   []Strips
	Roll     *stock.Roll // the size that Strips and the rest are cut from, nil where none is known
	Rolls    int         // of all that is ordered; 0 where they cannot be determined
	Tow      float64     // m of tow laid by the bands' circuits
	TowMass  float64     // kg of it
	Price    quantity.Price
}

// Waste is what is ordered beyond what is laid, a share of it.
func (g *Goods) Waste() float64 {
	if g.Net <= 0 {
		return 0
	}
	return g.Ordered/g.Net - 1
}

// covered is what is laid of a material, by how it can be cut.
type covered struct {
	tubes  []tube
	discs  []disc
	curved float64 // m²
	other  float64 // m²
	loose  float64 // kg of bands whose circuits are not known
	tow    float64 // m
}

// tube is one ply round a tube, count times.
type tube struct {
	around, along float64
	run           run
	count         int
}

type disc struct {
	diameter float64
	count    int
}

// cut notes one single ply: what of a material it takes, and in what shape.
func (c *counter) cut(p *Piece, row int, r *laminate.RowFigures, under, area, fiber float64) {
	m := *r.Material
	m.Origin = 0
	at, known := c.goods[m]
	if !known {
		at = len(c.t.Goods)
		c.goods[m] = at
		c.t.Goods = append(c.t.Goods, Goods{Material: r.Material})
		c.laid = append(c.laid, covered{})
	}
	g, l, count := &c.t.Goods[at], &c.laid[at], max(p.Count, 1)
	g.Area += area
	g.Net += fiber
	ground := &p.Ground
	angle := p.Schedule.Plies[row].Angle
	switch {
	case m.Form == laminate.RovingBand:
		tow, err := c.towOf(&m, ground, angle, under)
		if err != nil {
			l.loose += fiber
			return
		}
		l.tow += tow * float64(count)
	case ground.Curved:
		l.curved += area
	case ground.Diameter > 0:
		l.tubes = append(l.tubes, tube{around: math.Pi * (ground.Diameter + 2*under + r.Thickness), along: ground.Length, run: runOf(r.Material, angle), count: count})
	case ground.Disc > 0:
		l.discs = append(l.discs, disc{ground.Disc, count})
	default:
		l.other += area
	}
}

// towOf is the tow of one cover, m: circuits × layers × tows × (L/cos α and a
// turnaround at either end).
func (c *counter) towOf(m *laminate.Material, g *ground.Ground, angle laminate.Optional[float64], under float64) (float64, error) {
	if g.Diameter <= 0 || g.Curved || !angle.Given {
		return 0, winding.ErrDomain
	}
	b := winding.Band{Tows: m.Tows.Value, TowMass: m.Tow.SI(), Width: m.BandWidth.SI()}
	w, err := winding.Wind(b, g.Diameter+2*under, angle.Value)
	if err != nil {
		return 0, err
	}
	return Tow(w, b.Tows, g.Length, c.shop.Takeoff.Turnaround.SI()), nil
}

// Tow is how much tow a cover takes on a length of mandrel, m: circuits ×
// layers × tows × (L/cos α + turnaround).
func Tow(w winding.Pattern, tows int, length, turnaround float64) float64 {
	run := length / math.Cos(w.Angle*math.Pi/180)
	return float64(w.Circuits*w.Layers*tows) * (run + turnaround)
}

// order says how much of a material to order.
func (c *counter) order(g *Goods, l *covered) {
	t := &c.shop.Takeoff
	how := func(format string, args ...any) { g.How = append(g.How, fmt.Sprintf(format, args...)) }
	id := g.Material.ID
	switch g.Material.Form {
	case laminate.RovingBand:
		g.Tow = l.tow
		g.TowMass = l.tow * g.Material.Tow.SI()
		g.Ordered = (g.TowMass + l.loose) * (1 + t.RovingWaste.Value)
		if l.tow > 0 {
			how("tow by the circuits of the band")
		}
		if l.loose > 0 {
			how("by area where the circuits are not known")
		}
		c.share(id, "roving_waste", t.RovingWaste, how)
		return
	case laminate.SprayedChop:
		g.Ordered = g.Net * (1 + t.Overspray.Value)
		c.share(id, "overspray", t.Overspray, how)
		return
	default: // cut goods
	}
	areal := g.Net / g.Area
	flat, rest := l.other, 0.0
	var strips []strip
	rolls := c.shop.RollsOf(g.Material)
	if len(rolls) > 0 {
		used := 0.0
		strips, used = c.strips(g, l, rolls, &flat)
		g.Ordered += areal * used
	} else {
		for _, x := range l.tubes {
			flat += x.around * x.along * float64(x.count)
		}
		for _, x := range l.discs {
			flat += math.Pi / 4 * x.diameter * x.diameter * float64(x.count)
		}
		if g.Material.Form != laminate.Lamina {
			c.remark("roll-size-missing", "", "rolls of "+id+" cannot be determined: the shop book states no width ([[roll]])")
		}
	}
	if flat > 0 {
		rest += flat * (1 + t.GlassWaste.Value)
		c.share(id, "glass_waste", t.GlassWaste, how)
	}
	if l.curved > 0 {
		share, usual, key := t.DartingMat, catalog.DartingMat, "darting_mat"
		if g.Material.Form.Continuous() {
			share, usual, key = t.DartingWoven, catalog.DartingWoven, "darting_woven"
		}
		c.usual(key, share, usual)
		rest += l.curved * (1 + share.Or(usual))
		how("%s for darts on what does not unroll", quantity.Percent(share.Or(usual)))
	}
	g.Ordered += areal * rest
	if len(rolls) > 0 {
		c.rolls(g, strips, rest, rolls)
	}
}

// share says what was added, or that nothing was since nobody stated it.
func (c *counter) share(id, key string, share laminate.Optional[float64], how func(string, ...any)) {
	if share.Given {
		how("%s more by the shop book", quantity.Percent(share.Value))
		return
	}
	how("nothing added")
	c.remark("waste-unstated", "", id+" is ordered without waste: the shop book does not state "+key)
}

// usual says that a share of practice stands for one that nobody stated.
func (c *counter) usual(key string, share laminate.Optional[float64], usual float64) {
	if !share.Given {
		c.remark("waste-unstated", "common practice, no source", "the shop book does not state "+key+": "+quantity.Percent(usual)+" is taken, a typical value")
	}
}
