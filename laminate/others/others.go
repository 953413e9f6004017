// Package others holds what a job takes from others: the calculation or test that shows
// of a part, joint or nozzle what no formula here figures, what that proved, and how
// far it reaches. It knows figures alone: what a thing has to bear its callers say.
package others

import (
	"cmp"
	"strings"
	"unicode"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// Proof is what others proved of a thing, as the document states it. Nothing judges how.
type Proof struct {
	By          string               // whose calculation or test, with its number and revision
	Pressure    quantity.Pressure    // highest inside, at the lowest place, liquid included
	Vacuum      quantity.Pressure    // outside above inside
	Temperature quantity.Temperature // highest
	Structure   quantity.Length      // least of what carries, that was proved with: see [Borne]
}

// Stated tells whether anything of a proof stands in the document.
func (p *Proof) Stated() bool { return *p != Proof{} }

// Figured tells whether any figure of it is stated.
func (p *Proof) Figured() bool {
	return p.Pressure.Given() || p.Vacuum.Given() || p.Temperature.Given() || p.Structure.Given()
}

// Named tells whether it says whose proof it is, by its number: words that name nobody
// have no end ("yes", "engineer", "on file"), so that a digit is asked for as well, in a
// text with a letter, of more than three of either.
func (p *Proof) Named() bool {
	if _, there := word.Answered(p.By); !there {
		return false
	}
	letters, digits := 0, 0
	for _, r := range p.By {
		switch {
		case unicode.IsDigit(r):
			digits++
		case unicode.IsLetter(r):
			letters++
		}
	}
	return digits > 0 && letters > 0 && digits+letters > 3
}

// Same tells whether two name one proof, however its name is spelled: capitals, and how
// many spaces of what kind, make no other of it.
func (p *Proof) Same(other *Proof) bool {
	return word.Alike(p.By, other.By)
}

// What is reasonable, SI units, as of parts and services.
var (
	pressures = quantity.Limits{High: 2e8, Zero: true}
	heats     = quantity.Limits{Low: 100, High: 1_000}
	thick     = quantity.Limits{Low: 1e-6, High: 0.5}
)

// atmosphere is what no vacuum is above, Pa: 14.7 psi, with what is written for it in
// round figures, 15 psi and 30 inHg, and a fair day.
var atmosphere = quantity.New(15, quantity.PSI).SI()

// Beyond these a figure of a proof is hardly meant. Common practice, no source.
const (
	leastLaid  = 0.5 // of what is laid: nobody lays twice what was proved
	mostBorne  = 10  // times what is borne
	overSoften = 50  // K, over the heat deflection temperature: no laminate is proved there
)

// highPressure is what a proof of small loads may go to, Pa.
var highPressure = quantity.New(150, quantity.PSI).SI()

// looksLike goes on behind a figure that is hardly meant.
func looksLike[D quantity.Dimension](q quantity.Quantity[D], low, high float64) string {
	if meant := quantity.LooksLike(q, func(si float64) bool { return si > low && !quantity.Above(si, high) }); meant != "" {
		return "; it looks like " + meant
	}
	return ""
}

// Outside notes the figures that cannot be meant, by their keys; "" of those that can.
func (p *Proof) Outside(note func(key, wrong string)) {
	note("proved_pressure", p.Pressure.Outside(pressures))
	wrong := p.Vacuum.Outside(pressures)
	if wrong == "" && quantity.Above(p.Vacuum.SI(), atmosphere) {
		wrong = p.Vacuum.Text() + " is above 15 psi, an atmosphere, and no vacuum is" + looksLike(p.Vacuum, atmosphere/10, atmosphere)
	}
	note("proved_vacuum", wrong)
	note("proved_temperature", p.Temperature.Outside(heats))
	note("proved_structure", p.Structure.Outside(thick))
}

// Most is the greatest of what comes to a thing, or what of it is not known.
type Most struct {
	Value   float64 // SI
	When    string  // "" in service, else " under steam-out", " in the test"
	Missing string
}

// Take has it be the greater of itself and another; what is not known of one stays so.
func (m *Most) Take(value float64, when, missing string) {
	m.Missing = cmp.Or(m.Missing, missing)
	if missing == "" && quantity.Above(value, m.Value) {
		m.Value, m.When = value, when
	}
}

// Borne is the most that a thing has to bear, in service, under any condition and in the
// test, Pa and K, and what carries it: the structure of a part or strap, of an opening
// that of its part and pad together, m.
type Borne struct {
	Pressure, Vacuum, Temperature, Structure Most

	Softens float64 // K, the highest heat deflection temperature of its resins, 0 where none is known
}

// Check is one figure of a proof against what it has to reach: it is short where demand
// is above capacity.
type Check struct {
	Name             string // of the criterion
	Key              string
	Kind             quantity.Kind
	Demand, Capacity float64 // SI
	When             string  // the demand is of
	Missing          string  // why it cannot be told, "" where it can
}

// The names of the criteria.
const (
	Pressure    = "proved-pressure"
	Vacuum      = "proved-vacuum"
	Temperature = "proved-temperature"
	Structure   = "proved-structure"
)

// Asked tells whether a criterion is one of them.
func Asked(criterion string) bool {
	return criterion == Pressure || criterion == Vacuum || criterion == Temperature || criterion == Structure
}

// Checks are the figures of a proof against what is borne, pressure and vacuum where
// there is some. A figure that is borne and was not proved is missing, and so is one that
// can only be a slip of a unit or a point: it would reach whatever comes.
func (p *Proof) Checks(b Borne) (list []Check) {
	add := func(name, key string, kind quantity.Kind, m Most, proved float64, given bool, unproved, slip string) {
		c := Check{Name: name, Key: key, Kind: kind, Demand: m.Value, Capacity: proved, When: m.When, Missing: m.Missing}
		switch {
		case !given && m.Missing == "":
			c.Missing = unproved + " (" + key + ")"
		case given && quantity.Above(m.Value, proved): // whatever else comes to it
			c.Missing = ""
		case slip != "":
			c.Missing = slip + " (" + key + ")"
		}
		list = append(list, c)
	}
	if m := b.Pressure; m.Value > 0 || m.Missing != "" {
		add(Pressure, "proved_pressure", quantity.Stress, m, p.Pressure.SI(), p.Pressure.Given(), "for what pressure inside it was proved is not stated", p.pressureSlip(m))
	}
	if m := b.Vacuum; m.Value > 0 || m.Missing != "" {
		add(Vacuum, "proved_vacuum", quantity.Stress, m, p.Vacuum.SI(), p.Vacuum.Given(), "for what vacuum it was proved is not stated", "")
	}
	heat := b.Temperature
	if heat.Value == 0 {
		heat.Missing = cmp.Or(heat.Missing, "how warm it gets is not stated (temperature)")
	}
	add(Temperature, "proved_temperature", quantity.Point, heat, p.Temperature.SI(), p.Temperature.Given(), "up to what temperature it was proved is not stated", p.heatSlip(b.Softens))
	add(Structure, "proved_structure", quantity.Thickness, Most{Missing: b.Structure.Missing}, 0, p.Structure.Given(), "with what structure it was proved is not stated", p.structureSlip(b.Structure))
	last := &list[len(list)-1]
	last.Demand, last.Capacity = p.Structure.SI(), b.Structure.Value // what is laid has to reach what was proved
	return list
}

// pressureSlip, heatSlip and structureSlip say why a figure of a proof is hardly meant, ""
// where it may be: against a load or a structure that is not known none is told.
func (p *Proof) pressureSlip(borne Most) string {
	most := max(mostBorne*borne.Value, highPressure)
	if borne.Missing != "" || !quantity.Above(p.Pressure.SI(), most) {
		return ""
	}
	return p.Pressure.Text() + " inside is more than ten times what is borne, and hardly meant" + looksLike(p.Pressure, borne.Value/2, most)
}

func (p *Proof) heatSlip(softens float64) string {
	if softens == 0 || !quantity.Above(p.Temperature.SI(), softens+overSoften) {
		return ""
	}
	return p.Temperature.Text() + " is more than 90 °F (50 °C) above the heat deflection temperature of its resins, and hardly meant" + looksLike(p.Temperature, 273.15, softens+overSoften)
}

func (p *Proof) structureSlip(laid Most) string {
	if laid.Missing != "" || !p.Structure.Given() || !quantity.Below(p.Structure.SI(), leastLaid*laid.Value) {
		return ""
	}
	return p.Structure.Text() + " of structure is less than half of what is laid, and hardly meant" + looksLike(p.Structure, leastLaid*laid.Value, laid.Value/leastLaid)
}

// Short tells that what was proved does not reach.
func (c *Check) Short() bool { return c.Missing == "" && quantity.Above(c.Demand, c.Capacity) }

// Says says what is short or missing; "" where nothing is.
func (c *Check) Says(u quantity.System) string {
	if !c.Short() {
		return c.Missing
	}
	asked, proved := u.Pair(c.Demand, c.Capacity, c.Kind)
	switch c.Name {
	case Pressure:
		return "it bears " + asked + " inside" + c.When + ", and was proved for " + proved + " (" + c.Key + ")"
	case Vacuum:
		return "it bears a vacuum of " + asked + c.When + ", and was proved for " + proved + " (" + c.Key + ")"
	case Temperature:
		return "it gets " + asked + c.When + ", and was proved up to " + proved + " (" + c.Key + ")"
	}
	return "it was proved with " + asked + " of structure, and has " + proved + " (" + c.Key + ")"
}

// Reach tells whether all that is borne was proved.
func Reach(list []Check) bool {
	for i := range list {
		if list[i].Missing != "" || list[i].Short() {
			return false
		}
	}
	return true
}

// Basis is that of an answer that rests on a proof.
func (p *Proof) Basis() string {
	return "as proved by " + word.Clean(p.By) + ", by others: nothing here judged it"
}

// Figures says what was proved, as far as it is stated: "5 psi inside, up to 120 °F".
func (p *Proof) Figures(u quantity.System) string {
	var said []string
	if p.Pressure.Given() {
		said = append(said, u.Stated(p.Pressure.SI(), quantity.Stress)+" inside")
	}
	if p.Vacuum.Given() && p.Vacuum.SI() > 0 {
		said = append(said, "a vacuum of "+u.Stated(p.Vacuum.SI(), quantity.Stress))
	}
	if p.Temperature.Given() {
		said = append(said, "up to "+u.Stated(p.Temperature.SI(), quantity.Point))
	}
	if p.Structure.Given() {
		said = append(said, "with "+u.Stated(p.Structure.SI(), quantity.Thickness)+" of structure")
	}
	return strings.Join(said, ", ")
}
