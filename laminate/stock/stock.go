// Package stock is what a shop book says of how the shop buys and works: rolls,
// the resin manufacturer's table of initiators, shares and rates of a takeoff.
// Nothing of it has a default here.
package stock

import (
	"fmt"
	"math"

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
	Currency                 string // of the hour
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
	if t.Currency != "" && !t.HourPrice.Given {
		c.fail("hour_price", "it is missing: a currency is stated for it")
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
// shop and resin; one not given asks for rows that all say the same. Between
// two rows the larger amounts are taken, and the gel time is interpolated by
// its logarithm, as rates follow temperature (Arrhenius). The error says what
// is missing; the table is never left.
func (s *Stock) Initiation(r *laminate.Resin, at quantity.Temperature) (Initiation, error) {
	var below, above *Initiation // of the temperature; without one the first row
	same, rows := true, 0
	for i := range s.Initiators {
		row := &s.Initiators[i]
		if row.Family != r.Family || row.Cure != laminate.NoCure && row.Cure != r.Cure {
			continue
		}
		if rows++; !at.Given() {
			if below == nil {
				below, above = row, row
			}
			same = same && row.Initiator == below.Initiator && row.Promoter == below.Promoter
			continue
		}
		here := row.Temperature.SI()
		if !row.Temperature.Given() {
			here = at.SI()
		}
		if here <= at.SI() && (below == nil || here > below.Temperature.SI()) {
			below = row
		}
		if here >= at.SI() && (above == nil || here < above.Temperature.SI()) {
			above = row
		}
	}
	switch {
	case rows == 0:
		return Initiation{}, fmt.Errorf("the shop book has no [[initiator]] for %s", cured(r))
	case !same:
		return Initiation{}, fmt.Errorf("the amounts for %s differ by temperature: state that of the shop (--shop-temperature)", cured(r))
	case below == nil || above == nil:
		return Initiation{}, fmt.Errorf("%s is outside the shop's table for %s", at.Text(), cured(r))
	}
	found := *below
	switch {
	case !at.Given() && rows > 1:
		found.GelMinutes = laminate.Optional[float64]{}
	case above != below && below.Temperature.Given() && above.Temperature.Given():
		found.Initiator.Value = math.Max(below.Initiator.Value, above.Initiator.Value)
		found.Promoter.Value = math.Max(below.Promoter.Value, above.Promoter.Value)
		found.Promoter.Given = below.Promoter.Given && above.Promoter.Given
		found.GelMinutes = laminate.Optional[float64]{}
		if below.GelMinutes.Given && above.GelMinutes.Given {
			share := (at.SI() - below.Temperature.SI()) / (above.Temperature.SI() - below.Temperature.SI())
			found.GelMinutes = laminate.Some(math.Exp((1-share)*math.Log(below.GelMinutes.Value) + share*math.Log(above.GelMinutes.Value)))
		}
	}
	return found, nil
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
