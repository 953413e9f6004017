package takeoff

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Measure is what a change is counted in.
type Measure uint8

// The measures.
const (
	Laid    Measure = iota // kg in the laminate of a piece
	Ordered                // kg to order
	Volume                 // m³ of resin to order, by the density of the cured resin without filler
	Hours
	Amount // of money
)

// Change is one quantity that two takeoffs differ in.
type Change struct {
	Of       string // piece, material, resin or line of cost
	Measure  Measure
	Currency string // of an amount
	// Old and New are the quantities; of one that stands in one takeoff alone, or
	// could not be determined, the other is not there.
	Old, New laminate.Optional[float64]
	// Unknown tells that it stands in a takeoff that could not determine it: then
	// nobody knows by how much the two differ, or whether they do.
	Unknown bool
}

// More is by how much the newer has more, 0 for what is not there; nothing of the
// kind where the quantity is Unknown.
func (c *Change) More() float64 { return c.New.Value - c.Old.Value }

// Differ lists what differs between two takeoffs, the older and the newer: pieces,
// what is ordered of each material and resin, hours and what it comes to.
func Differ(old, new *Takeoff, lib *laminate.Library) []Change {
	var list []Change
	for side, t := range []*Takeoff{old, new} {
		put := func(of string, m Measure, currency string, v float64, known bool) {
			at := slices.IndexFunc(list, func(c Change) bool { return c.Of == of && c.Measure == m && c.Currency == currency })
			if at < 0 {
				at = len(list)
				list = append(list, Change{Of: of, Measure: m, Currency: currency})
			}
			to := &list[at].Old
			if side == 1 {
				to = &list[at].New
			}
			if known {
				*to = laminate.Some(to.Value + v)
			} else {
				list[at].Unknown = true
			}
		}
		for i := range t.Pieces {
			p := &t.Pieces[i]
			put(named(p.Name), Laid, "", p.Mass(), p.Why == "")
		}
		for i := range t.Goods {
			put(t.Goods[i].Material.ID, Ordered, "", t.Goods[i].Ordered, true)
		}
		for i := range t.Resins {
			r := &t.Resins[i]
			put("resin "+r.Resin.ID, Ordered, "", r.Ordered, true)
			if d := densityOf(r, lib); d > 0 {
				put("resin "+r.Resin.ID, Volume, "", r.Ordered/d, true)
			}
		}
		for i := range t.Labor {
			put(t.Labor[i].What, Hours, "", t.Labor[i].Quantity, true)
		}
		for i := range t.Cost.Lines {
			if l := &t.Cost.Lines[i]; l.Priced {
				put(l.What, Amount, l.Currency, l.Amount(), true)
			}
		}
		for _, x := range t.Cost.Totals {
			put("total", Amount, x.Currency, x.Amount, true)
		}
	}
	return slices.DeleteFunc(list, func(c Change) bool {
		return !c.Unknown && c.Old.Given == c.New.Given && quantity.Compare(c.Old.Value, c.New.Value) == 0
	})
}

func named(piece string) string {
	if piece == "" {
		return "the wall"
	}
	return piece
}

// densityOf is that of a resin without filler, kg/m³; 0 where it is not known.
func densityOf(r *Resin, lib *laminate.Library) float64 {
	switch d := r.Resin.Density; {
	case r.Filler > 0 || r.Resin.Filler != laminate.NoFiller:
		return 0
	case d.Given():
		return d.SI()
	default:
		return lib.Families[r.Resin.Family].Density.SI()
	}
}
