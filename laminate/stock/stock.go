// Package stock is what a shop book says of how the shop buys and works: rolls,
// the resin manufacturer's table of initiators, shares and rates of a takeoff.
// Nothing of it has a default here.
package stock

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// Stock is what one shop has and goes by.
type Stock struct {
	Takeoff    Takeoff
	Rolls      []Roll
	Initiators []Initiation
}

// Over is the stock of the nearest book laid over that of those further off:
// what is stated for takeoff, the rolls and the initiators are each those of the
// first that has any.
func (s Stock) Over(further Stock) Stock {
	if s.Takeoff == (Takeoff{}) {
		s.Takeoff = further.Takeoff
	}
	if len(s.Rolls) == 0 {
		s.Rolls = further.Rolls
	}
	if len(s.Initiators) == 0 {
		s.Initiators = further.Initiators
	}
	return s
}

// Takeoff are the shop's shares and rates for what a job takes.
type Takeoff struct {
	// Shares that are ordered beyond what is laid.
	ResinWasteContact, ResinWasteSprayed, ResinWasteWound laminate.Optional[float64]
	GlassWaste                                            laminate.Optional[float64] // cut goods that no strips are figured for
	RovingWaste                                           laminate.Optional[float64]
	Overspray                                             laminate.Optional[float64]
	DartingMat, DartingWoven                              laminate.Optional[float64] // on heads, which do not unroll

	Lap         quantity.Length         // of strips of one ply
	StripsJoin  laminate.Optional[bool] // whether a strip may be longer than a roll
	Turnaround  quantity.Length         // of tow, at each end of a circuit
	Batch       quantity.Mass           // of resin mix in one pot
	LaidAMinute quantity.Mass           // of resin mix
	Spray       SprayGun

	// Labor: hours as the shop counts them, and what one costs.
	HoursContact, HoursWound laminate.Optional[float64] // for each m² of a ply
	HoursJoint, HoursNozzle  laminate.Optional[float64]
	HoursFixed               laminate.Optional[float64] // of a takeoff
	HourPrice                laminate.Optional[float64]
	Currency                 string // of the hour, and of every price that names none
}

// SprayGun is how a shop sprays; what it gives off depends on it.
type SprayGun uint8

// The guns.
const (
	NoSprayGun SprayGun = iota
	NonAtomized
	Atomized
)

// SprayGuns are the words of the guns.
var SprayGuns = word.Of[SprayGun]("", "non-atomized", "atomized")

func (g SprayGun) String() string { return SprayGuns.Name(g) }

// Roll is a size in which the shop buys a material, which may be a built-in
// one, and its price.
type Roll struct {
	Material      string
	Width, Length quantity.Length
	Price         quantity.Price
}

// Initiation is a row of the resin manufacturer's table, as the shop typed it
// in: how much initiator and promoter a resin of the family takes, and in how
// many minutes it gels.
type Initiation struct {
	Family      laminate.Family
	Cure        laminate.Cure              // not stated: of any
	Temperature quantity.Temperature       // of shop and resin; not stated: of any
	Initiator   laminate.Optional[float64] // share of the mass of the resin
	Promoter    laminate.Optional[float64] // the same
	GelMinutes  laminate.Optional[float64]
	Density     quantity.Density // of the initiator
	Price       quantity.Price   // of the initiator
	Source      string
}

// What is reasonable, SI units.
var (
	strips       = quantity.Limits{Low: 1e-4, High: 20, Zero: true}
	rolls        = quantity.Limits{Low: 1e-3, High: 100_000}
	pots         = quantity.Limits{Low: 1e-3, High: 10_000}
	densities    = quantity.Limits{Low: 100, High: 25_000}
	temperatures = quantity.Limits{Low: 100, High: 1_000}
)

type checker struct{ faults []laminate.Fault }

func (c *checker) fail(key, format string, args ...any) {
	c.faults = append(c.faults, laminate.Fault{Ref: laminate.Ref{Key: key}, Message: fmt.Sprintf(format, args...)})
}

func (c *checker) note(key, wrong string) {
	if wrong != "" {
		c.fail(key, "%s", wrong)
	}
}

func within[D quantity.Dimension](c *checker, key string, q quantity.Quantity[D], l quantity.Limits) {
	c.note(key, q.Outside(l))
}

func (c *checker) number(key string, v laminate.Optional[float64], r quantity.Range) {
	if v.Given {
		c.note(key, r.Outside(v.Value))
	}
}

func (c *checker) text(key, s string) {
	if r, bad := word.BadCharacter(s, false); bad {
		c.fail(key, "it has %s", word.CharacterName(r))
	}
}

// price refuses one that can only be a slip.
func (c *checker) price(p quantity.Price) {
	if p.Given() && p.Amount > 1e9 {
		c.fail("price", "%q is beyond reason", p.Text)
	}
}

// Validate judges the values that a shop stated of its takeoff.
func (t *Takeoff) Validate() []laminate.Fault {
	c := &checker{}
	for _, s := range []struct {
		key   string
		share laminate.Optional[float64]
	}{
		{"resin_waste_contact", t.ResinWasteContact}, {"resin_waste_sprayed", t.ResinWasteSprayed}, {"resin_waste_wound", t.ResinWasteWound},
		{"glass_waste", t.GlassWaste}, {"roving_waste", t.RovingWaste}, {"overspray", t.Overspray},
		{"darting_mat", t.DartingMat}, {"darting_woven", t.DartingWoven},
	} {
		c.number(s.key, s.share, quantity.Range{High: 1})
	}
	within(c, "lap", t.Lap, strips)
	within(c, "turnaround", t.Turnaround, strips)
	within(c, "batch", t.Batch, pots)
	within(c, "laid_a_minute", t.LaidAMinute, pots)
	for _, h := range []struct {
		key  string
		rate laminate.Optional[float64]
	}{
		{"hours_contact", t.HoursContact}, {"hours_wound", t.HoursWound}, {"hours_joint", t.HoursJoint}, {"hours_nozzle", t.HoursNozzle},
		{"hours_fixed", t.HoursFixed}, {"hour_price", t.HourPrice},
	} {
		c.number(h.key, h.rate, quantity.Range{High: 1e6})
	}
	if !quantity.Currency(t.Currency) {
		c.fail("currency", "%q is no currency", t.Currency)
	}
	return c.faults
}

// Validate judges the values of a roll.
func (r *Roll) Validate() []laminate.Fault {
	c := &checker{}
	if r.Material == "" {
		c.fail("material", "it is missing; a roll is one of a material")
	}
	c.text("material", r.Material)
	within(c, "width", r.Width, rolls)
	within(c, "length", r.Length, rolls)
	c.price(r.Price)
	if r.Length.Given() && !r.Width.Given() {
		c.fail("width", "it is missing; a roll of a length has a width")
	}
	return c.faults
}

// Validate judges a row of the table of initiators: nothing of it is guessed.
func (r *Initiation) Validate() []laminate.Fault {
	c := &checker{}
	if r.Family == laminate.NoFamily {
		c.fail("family", "it is missing; the amounts are those of a resin family")
	}
	if !r.Initiator.Given {
		c.fail("initiator", "it is missing; state the share of the resin's mass that the resin manufacturer names")
	}
	c.number("initiator", r.Initiator, quantity.Range{High: 1, OpenLow: true, OpenHigh: true})
	c.number("promoter", r.Promoter, quantity.Range{High: 1, OpenHigh: true})
	c.number("gel_minutes", r.GelMinutes, quantity.Range{High: 10_000, OpenLow: true})
	within(c, "temperature", r.Temperature, temperatures)
	within(c, "density", r.Density, densities)
	c.price(r.Price)
	if r.Source == "" {
		c.fail("source", "it is missing; state whose table it is")
	}
	c.text("source", r.Source)
	return c.faults
}

// Initiation is what the shop's table says for a resin at a temperature of
// shop and resin; one not given asks for rows that all say the same. Amounts are
// those of rows as they stand: between two whose amounts differ, and where rows of
// one temperature do, there are none, for what gels in the minutes of one row is not
// what takes the amounts of another. Between two of the same amounts the gel time is
// interpolated by its logarithm, as rates follow temperature (Arrhenius). The error
// says what is missing, and the rows; the table is never left.
func (s *Stock) Initiation(r *laminate.Resin, at quantity.Temperature) (Initiation, error) {
	var on, below, above []*Initiation // rows of the temperature itself, and the nearest about it
	var whole []*Initiation            // all rows of the resin
	for i := range s.Initiators {
		row := &s.Initiators[i]
		if row.Family != r.Family || row.Cure != laminate.NoCure && row.Cure != r.Cure {
			continue
		}
		whole = append(whole, row)
		switch t := row.Temperature; {
		case !t.Given() || !at.Given():
			on = append(on, row)
		case t.Cmp(at) == 0:
			on = append(on, row)
		case t.Cmp(at) < 0:
			below = nearest(below, row, t.Cmp)
		default:
			above = nearest(above, row, func(o quantity.Temperature) int { return o.Cmp(t) })
		}
	}
	exact := slices.ContainsFunc(on, func(x *Initiation) bool { return at.Given() && x.Temperature.Given() })
	rows := on
	if !exact {
		rows = slices.Concat(on, below, above)
	}
	switch {
	case len(whole) == 0:
		return Initiation{}, fmt.Errorf("the shop book has no [[initiator]] for %s", cured(r))
	case len(on) == 0 && (below == nil || above == nil):
		return Initiation{}, fmt.Errorf("%s is outside the shop's table for %s", at.Text(), cured(r))
	case !agree(rows) && !at.Given():
		return Initiation{}, fmt.Errorf("the amounts for %s differ by temperature: state that of the shop (--shop-temperature)", cured(r))
	case !agree(rows) && exact:
		return Initiation{}, fmt.Errorf("the shop's table has several rows of %s for %s, and which one counts is not said: %s", at.Text(), cured(r), listed(rows))
	case !agree(rows):
		return Initiation{}, fmt.Errorf("the shop's table has no row of %s for %s, and those about it differ in amounts, so that the minutes of one are not those of another: %s; "+
			"bring shop and resin to the temperature of a row, or add the resin manufacturer's own row for this one", at.Text(), cured(r), listed(rows))
	}
	return merged(rows, at), nil
}

// nearest keeps of some rows, all of one temperature, or the row, what is nearer:
// than compares the temperature of the row with another one of its side.
func nearest(have []*Initiation, row *Initiation, than func(quantity.Temperature) int) []*Initiation {
	if len(have) > 0 && than(have[0].Temperature) < 0 {
		return have
	}
	if len(have) > 0 && than(have[0].Temperature) == 0 {
		return append(have, row)
	}
	return []*Initiation{row}
}

// agree tells whether rows name the same amounts.
func agree(rows []*Initiation) bool {
	return !slices.ContainsFunc(rows, func(x *Initiation) bool { return x.Initiator != rows[0].Initiator || x.Promoter != rows[0].Promoter })
}

// listed are rows as they stand.
func listed(rows []*Initiation) string {
	list := make([]string, len(rows))
	for i, x := range rows {
		list[i] = x.Row()
	}
	return strings.Join(list, "; ")
}

// Row is the row as it stands: "at 70 degF 1.5 % of initiator, 0.3 % of promoter,
// gels in 25 minutes".
func (r *Initiation) Row() string {
	said := "at any temperature "
	if r.Temperature.Given() {
		said = "at " + r.Temperature.Text() + " "
	}
	said += quantity.Percent(r.Initiator.Value) + " of initiator"
	if r.Promoter.Given {
		said += ", " + quantity.Percent(r.Promoter.Value) + " of promoter"
	}
	if r.GelMinutes.Given {
		said += ", gels in " + quantity.Number(r.GelMinutes.Value, 0) + " minutes"
	}
	return said
}

// merged is one row of several that name the same amounts. What else they do not
// agree on is left out, but for the gel time between two temperatures.
func merged(rows []*Initiation, at quantity.Temperature) Initiation {
	found := *rows[0]
	low, high := rows[0], rows[0]
	for _, x := range rows[1:] {
		if found.Density != x.Density {
			found.Density = quantity.Density{}
		}
		if found.Price != x.Price {
			found.Price = quantity.Price{}
		}
		if found.Source != x.Source {
			found.Source += "; " + x.Source
		}
		if found.GelMinutes != x.GelMinutes {
			found.GelMinutes = laminate.Optional[float64]{}
		}
		if found.Temperature != x.Temperature {
			found.Temperature = quantity.Temperature{}
		}
		if x.Temperature.Cmp(low.Temperature) < 0 {
			low = x
		}
		if x.Temperature.Cmp(high.Temperature) > 0 {
			high = x
		}
	}
	first, last := low.Temperature, high.Temperature
	if at.Given() && first.Given() && first.Cmp(at) < 0 && last.Cmp(at) > 0 {
		found.Temperature, found.GelMinutes = at, laminate.Optional[float64]{}
		if len(rows) == 2 && low.GelMinutes.Given && high.GelMinutes.Given {
			share := (at.SI() - first.SI()) / (last.SI() - first.SI())
			found.GelMinutes = laminate.Some(math.Exp((1-share)*math.Log(low.GelMinutes.Value) + share*math.Log(high.GelMinutes.Value)))
		}
	}
	return found
}

func cured(r *laminate.Resin) string {
	if r.Cure == laminate.NoCure {
		return r.Family.String() + ", its cure not stated"
	}
	return r.Family.String() + ", " + r.Cure.String()
}

// RollsOf are the sizes in which a material comes, those without a width left
// out.
func (s *Stock) RollsOf(m *laminate.Material) []Roll {
	var list []Roll
	if m.RollWidth.Given() {
		list = append(list, Roll{Material: m.ID, Width: m.RollWidth, Length: m.RollLength})
	}
	for _, r := range s.Rolls {
		if r.Material == m.ID && r.Width.Given() {
			list = append(list, r)
		}
	}
	return list
}
