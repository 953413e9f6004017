package laminate

import (
	"fmt"
	"math"
	"strings"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// Fault is a value that cannot be, and where.
type Fault struct {
	Ref     Ref
	Message string // without the key: "-3 mil is not above zero"
}

// Validate judges the values of a schedule: sizes not above zero or beyond
// reason, shares outside 0 to 1, ids missing or given twice, resins that are not
// defined, too many plies, characters no screen should be sent, materials that
// nobody knows, and what a ply has to state for its material or cannot. It is
// the only judge of values: what it passes can be written, read back and
// analyzed. With no library only the schedule's own materials are known, and
// plies of others are not held against theirs.
//
// The bounds are common sense, not of any standard: they keep slips of a unit
// out ("450 kg/m2" of mat) and far from what can be built.
func Validate(s *Schedule, lib *Library) []Fault {
	c := &checker{}
	c.head(&s.Head)
	c.part(&s.Part)
	c.service(&s.Service)
	c.conditions(s.Conditions, &s.Service)
	c.plies(s, lib, c.shared(s.Resins, s.Materials))
	return c.faults
}

func (c *checker) head(h *Head) {
	c.ref = Ref{Kind: RefSchedule}
	for _, x := range [...][2]string{{"title", h.Title}, {"job", h.Job}, {"date", h.Date}, {"author", h.Author}, {"released", h.Released}} {
		c.text(x[0], x[1])
	}
	c.notes("notes", h.Notes)
	c.whole("revision", h.Revision, 0, 1_000_000)
}

// shared judges resins and materials and gives the ids of the resins.
func (c *checker) shared(resins []Resin, materials []Material) map[string]int {
	seen := make(map[string]int, len(resins))
	for i := range resins {
		c.ref = ResinRef(i, "")
		c.resin(&resins[i])
		c.unique(seen, resins[i].ID, i, "resin")
	}
	own := make(map[string]int, len(materials))
	for i := range materials {
		c.ref = Ref{Kind: RefMaterial, Index: i}
		c.material(&materials[i])
		c.unique(own, materials[i].ID, i, "material")
	}
	return seen
}

// Validate tells the values of a resin that cannot be; at says where it stands.
//
// A shop's resin needs its family. A schedule's may lack it while the wall is
// being built: that is a fact not stated, which the rules report, and no fault.
func (r *Resin) Validate(at Ref) []Fault {
	c := &checker{ref: at}
	if r.Family == NoFamily {
		c.fail("family", "it is missing; a resin needs its family, one of %s", Families.List())
	}
	c.resin(r)
	return c.faults
}

// Validate tells the values of a material that cannot be, and the keys its
// form needs; at says where it stands.
func (m *Material) Validate(at Ref) []Fault {
	c := &checker{ref: at}
	c.material(m)
	return c.faults
}

type checker struct {
	ref    Ref
	faults []Fault
}

func (c *checker) fail(key, format string, args ...any) {
	at := c.ref
	at.Key = key
	c.faults = append(c.faults, Fault{at, fmt.Sprintf(format, args...)})
}

func within[D quantity.Dimension](c *checker, key string, q quantity.Quantity[D], l quantity.Limits) {
	c.note(key, q.Outside(l))
}

// note takes down what is wrong with a value, if anything is.
func (c *checker) note(key, wrong string) {
	if wrong != "" {
		c.fail(key, "%s", wrong)
	}
}

// What is reasonable, SI units.
var (
	diameters   = quantity.Limits{Low: 1e-3, High: 100}
	lengths     = quantity.Limits{Low: 1e-3, High: 10_000}
	areas       = quantity.Limits{Low: 1e-6, High: 1e6}
	thicknesses = quantity.Limits{Low: 1e-6, High: 0.5}
	widths      = quantity.Limits{Low: 1e-4, High: 20}
	rolls       = quantity.Limits{Low: 1e-3, High: 100_000}
	fabrics     = quantity.Limits{Low: 1e-4, High: 50}
	densities   = quantity.Limits{Low: 100, High: 25_000}
	moduli      = quantity.Limits{Low: 1e7, High: 2e12}
	strengths   = quantity.Limits{Low: 1e3, High: 2e10}
	pressures   = quantity.Limits{High: 2e8, Zero: true}
	heats       = quantity.Limits{Low: 100, High: 1_000}
	tows        = quantity.Limits{Low: 1e-6, High: 1}
)

// share wants 0 to 1; open ends are left out.
func (c *checker) share(key string, v Optional[float64], openLow, openHigh bool) {
	c.number(key, v, 0, 1, openLow, openHigh)
}

func (c *checker) number(key string, v Optional[float64], low, high float64, openLow, openHigh bool) {
	if v.Given {
		c.note(key, quantity.Range{Low: low, High: high, OpenLow: openLow, OpenHigh: openHigh}.Outside(v.Value))
	}
}

// What is reasonable of figures without a unit. A casting resin cracks between
// about half a percent and a tenth of its length, the fiber in a ply lies
// between a wet veil and the densest packing (0.907 by volume in a hexagon;
// Jones, Mechanics of Composite Materials, 3.2; from memory). No liquid that is kept
// without pressure is lighter than 0.6 (pentane, 0.63; from memory): what is below half
// of water is a point that slipped, and a liquid so light holds every wall on paper.
var (
	strains   = [2]float64{0.001, 0.2}
	contents  = [2]float64{0.01, 0.95}
	fillings  = [2]float64{0, 0.9}
	kept      = [2]float64{0.01, 1}
	crimps    = [2]float64{0.1, 1}
	poissons  = [2]float64{0.05, 0.5}
	gravities = [2]float64{0.5, 25}
)

// sane refuses a figure that can only be a slip.
func (c *checker) sane(key string, v Optional[float64], l [2]float64) {
	if v.Given {
		c.note(key, quantity.Range{Low: l[0], High: l[1]}.Unlikely(v.Value))
	}
}

func (c *checker) whole(key string, v Optional[int], low, high int) {
	if v.Given && (v.Value < low || v.Value > high) {
		c.fail(key, "%d is not from %d to %d", v.Value, low, high)
	}
}

func (c *checker) part(p *Part) {
	c.ref = PartRef("")
	c.partValues(p)
}

func (c *checker) partValues(p *Part) {
	within(c, "inside_diameter", p.InsideDiameter, diameters)
	within(c, "length", p.Length, lengths)
	orZero(c, "liquid_height", p.LiquidHeight, lengths)
	within(c, "area", p.Area, areas)
	within(c, "stiffener_spacing", p.StiffenerSpacing, lengths)
	if p.StiffenerSpacing.Given() && !p.Form.HeldRound() {
		c.fail("stiffener_spacing", "a %s is not held round by stiffeners", p.Form)
	}
	c.sane("modulus_retention", p.ModulusRetention, kept)
	c.text("grounding", p.Grounding)
	if p.KFactors.Given {
		for _, k := range p.KFactors.Values {
			c.number("k_factors", Some(k), 1, 20, false, false)
		}
	}
}

// MostConditions is how many pairs of load and temperature a document may hold.
const MostConditions = 100

// conditions judges each by itself and against the service: what is stated as
// the worst there is passed by none.
func (c *checker) conditions(list []Condition, s *Service) {
	seen := make(map[string]int, len(list))
	for i := range list {
		x := &list[i]
		c.ref = Ref{Kind: RefCondition, Index: i}
		switch first, twice := seen[x.Name]; {
		case x.Name == "":
			c.fail("name", "it is missing: operating, upset, steam-out")
		case twice:
			c.fail("name", "%s is the name of condition %d too", quoted(x.Name), first+1)
		default:
			seen[x.Name] = i
		}
		c.text("name", x.Name)
		within(c, "temperature", x.Temperature, heats)
		within(c, "pressure", x.Pressure, pressures)
		within(c, "vacuum", x.Vacuum, pressures)
		c.sane("modulus_retention", x.ModulusRetention, kept)
		switch hottest := s.Hottest(); {
		case !x.Temperature.Given():
			c.fail("temperature", "it is missing: a condition is a load with its temperature")
		case hottest.Given() && quantity.Above(x.Temperature.SI(), hottest.SI()):
			c.fail("temperature", "%s is above the service's %s: state the highest as upset", quoted(x.Temperature.Text()), hottest.Text())
		}
		if x.Pressure.Given() && s.Pressure.Given() && quantity.Above(x.Pressure.SI(), s.Pressure.SI()) {
			c.fail("pressure", "%s is above the service's %s: state the highest there", quoted(x.Pressure.Text()), s.Pressure.Text())
		}
		if x.Vacuum.Given() && s.Vacuum.Given() && quantity.Above(x.Vacuum.SI(), s.Vacuum.SI()) {
			c.fail("vacuum", "%s is above the service's %s: state the highest there", quoted(x.Vacuum.Text()), s.Vacuum.Text())
		}
	}
}

func (c *checker) service(s *Service) {
	c.ref = ServiceRef("")
	c.text("fluid", s.Fluid)
	c.share("concentration", s.Concentration, false, false)
	within(c, "temperature", s.Temperature, heats)
	within(c, "upset", s.Upset, heats)
	if s.Upset.Given() && s.Temperature.Given() && quantity.Below(s.Upset.SI(), s.Temperature.SI()) {
		c.fail("upset", "%s is below the temperature of %s that holds always: an upset is the highest, or it is left out", quoted(s.Upset.Text()), s.Temperature.Text())
	}
	if s.PH.Given {
		low, high := s.PH.Lowest, s.PH.Highest
		switch {
		case math.IsNaN(low) || math.IsNaN(high) || math.IsInf(low, 0) || math.IsInf(high, 0):
			c.fail("ph", "it is no number")
		case low > high:
			c.fail("ph", "the lowest stands first: [%v, %v] descends", low, high)
		case low < -15 || high > 20: // pure sulfuric acid is near -12 on the scale that goes on from pH (from memory)
			c.fail("ph", "[%v, %v] is beyond reason", low, high)
		}
	}
	within(c, "pressure", s.Pressure, pressures)
	within(c, "vacuum", s.Vacuum, pressures)
	within(c, "test_pressure", s.TestPressure, pressures)
	c.sane("specific_gravity", s.SpecificGravity, gravities)
	c.whole("flame_spread", s.FlameSpread, 0, 10_000)
}

func (c *checker) resin(r *Resin) {
	c.id(r.ID)
	c.sane("filler_content", r.FillerContent, fillings)
	within(c, "filler_density", r.FillerDensity, densities)
	within(c, "density", r.Density, densities)
	within(c, "modulus", r.Modulus, moduli)
	c.sane("poisson", r.Poisson, poissons)
	c.sane("failure_strain", r.FailureStrain, strains)
	within(c, "heat_deflection", r.HeatDeflection, heats)
	within(c, "bond_window", r.BondWindow, durations)
	c.whole("flame_spread_tested", r.FlameSpreadTested, 0, 10_000)
	c.share("styrene_content", r.StyreneContent, false, true)
	c.price(r.Price)
	for _, t := range []struct{ key, text string }{{"source", r.Source}, {"product", r.Product}, {"initiator", r.Initiator},
		{"promoter", r.Promoter}, {"thixotrope", r.Thixotrope}, {"synergist", r.Synergist}} {
		c.text(t.key, t.text)
	}
}

func (c *checker) price(p quantity.Price) {
	if p.Given() && (math.IsNaN(p.Amount) || math.IsInf(p.Amount, 0) || p.Amount < 0 || p.Amount > 1e9 || p.Per.SI() <= 0) {
		c.fail("price", "%s is beyond reason", quoted(p.Text))
	}
	c.text("price", p.Text)
}

func (c *checker) material(m *Material) {
	c.id(m.ID)
	c.text("name", m.Name)
	c.text("source", m.Source)
	within(c, "areal_mass", m.ArealMass, fabrics)
	within(c, "fiber_density", m.FiberDensity, densities)
	c.sane("glass_content", m.GlassContent, contents)
	c.sane("barrier_glass_content", m.BarrierGlassContent, contents)
	within(c, "fiber_modulus", m.FiberModulus, moduli)
	c.sane("fiber_poisson", m.FiberPoisson, poissons)
	c.share("warp_share", m.WarpShare, false, false)
	c.sane("crimp_factor", m.CrimpFactor, crimps)
	within(c, "thickness", m.Thickness, thicknesses)
	within(c, "tow", m.Tow, tows)
	c.whole("tows", m.Tows, 1, 100_000)
	within(c, "band_width", m.BandWidth, widths)
	within(c, "e1", m.E1, moduli)
	within(c, "e2", m.E2, moduli)
	within(c, "g12", m.G12, moduli)
	// An orthotropic lamina is possible only while nu12² < E1/E2 (Jones,
	// Mechanics of Composite Materials, 2.4; from memory).
	c.number("nu12", m.Nu12, 0, 1, false, false)
	if m.Nu12.Given && m.E1.SI() > 0 && m.E2.SI() > 0 && m.Nu12.Value*m.Nu12.Value >= m.E1.SI()/m.E2.SI() {
		c.fail("nu12", "%v cannot be with these e1 and e2: its square is below e1/e2", m.Nu12.Value)
	}
	within(c, "strength_tension_1", m.StrengthTension1, strengths)
	within(c, "strength_compression_1", m.StrengthCompression1, strengths)
	within(c, "strength_tension_2", m.StrengthTension2, strengths)
	within(c, "strength_compression_2", m.StrengthCompression2, strengths)
	within(c, "strength_shear", m.StrengthShear, strengths)
	within(c, "roll_width", m.RollWidth, rolls)
	within(c, "roll_length", m.RollLength, rolls)
	c.price(m.Price)
	for _, key := range m.Lacks() {
		if key == "form" {
			c.fail(key, "it is missing; a material needs its form, one of %s", Forms.List())
			continue
		}
		c.fail(key, "it is missing; a %s needs it", m.Form)
	}
}

func (c *checker) plies(s *Schedule, lib *Library, resins map[string]int) {
	find := newFinder(s, lib)
	total, over := 0, -1 // the row in which they become too many
	for i := range s.Plies {
		p := &s.Plies[i]
		c.ref = PlyRef(i, "")
		c.id2("material", p.Material)
		if p.Resin != "" {
			if _, ok := resins[p.Resin]; !ok {
				c.fail("resin", "no [[resin]] has the id %s%s", quoted(p.Resin), word.Plainly(p.Resin))
			}
		}
		switch {
		case p.Count < 1:
			c.fail("count", "%d is not at least 1", p.Count)
		case p.Count > MostCount:
			c.fail("count", "%d is beyond reason: at most %d in one row", p.Count, MostCount)
		default:
			if total += p.Count; total > MostPlies && over < 0 {
				over = i
			}
		}
		c.sane("glass_content", p.GlassContent, contents)
		c.number("void_content", p.VoidContent, 0, 0.5, false, false)
		c.number("angle", p.Angle, -90, 90, false, false)
		switch m := find.material(p.Material); {
		case m != nil:
			c.ofMaterial(p, m)
		case lib != nil && p.Material != "" && word.Plainly(p.Material) == "":
			c.fail("material", "no material has the id %s%s", quoted(p.Material), nearestMaterial(p.Material, s, lib))
		}
	}
	c.ref = Ref{Kind: RefSchedule}
	if len(s.Plies) > MostRows {
		c.fail("ply", "there are %d [[ply]] tables: at most %d are read", len(s.Plies), MostRows)
	}
	if over >= 0 {
		c.ref = PlyRef(over, "")
		c.fail("count", "from this row on there are too many: %d plies, counts multiplied out; at most %d are read", total, MostPlies)
	}
}

// ofMaterial holds a ply against what it is made of.
func (c *checker) ofMaterial(p *Ply, m *Material) {
	for _, key := range p.Lacks(m) {
		c.fail(key, "it is missing; a ply of %s (%s) needs it", quoted(m.ID), m.Form)
	}
	if a := p.Angle; m.Form == RovingBand && a.Given && a.Value >= -90 && a.Value < 0 {
		c.fail("angle", "%v is not from 0 (along the axis) to 90 (round it), the angle of a roving band", a.Value)
	} else if a.Given && !m.Form.Directed() && m.Form != NoForm {
		c.fail("angle", "%s (%s) has no direction, so no angle", quoted(m.ID), m.Form)
	}
	if p.GlassContent.Given && m.Form == ResinCoat {
		c.fail("glass_content", "%s (%s) has no fiber, so no glass content", quoted(m.ID), m.Form)
	}
}

// nearestMaterial says which known id one that nobody knows may have meant.
func nearestMaterial(id string, s *Schedule, lib *Library) string {
	var ids []string
	for _, list := range [][]Material{s.Materials, lib.Materials} {
		for i := range list {
			ids = append(ids, list[i].ID)
		}
	}
	if near := word.Nearest(id, ids); near != "" {
		return fmt.Sprintf("; %s is the nearest", quoted(near))
	}
	return ""
}

func (c *checker) unique(seen map[string]int, id string, i int, noun string) {
	if _, twice := seen[id]; twice {
		c.fail("id", "%s is the id of another %s already", quoted(id), noun)
	} else if id != "" {
		seen[id] = i
	}
}

// named judges the id of a row of a job, which others may be listed beside.
func (c *checker) named(seen map[string]int, id string, i int, noun string) {
	c.id(id)
	if strings.Contains(id, ",") {
		c.fail("id", "%s has a comma, which stands between ids where several are named", quoted(id))
	}
	c.unique(seen, id, i, noun)
}

// The longest texts, in bytes.
const longestID, longestText, longestNotes = 100, 10_000, 1_000_000

func (c *checker) id(id string) { c.id2("id", id) }

func (c *checker) id2(key, id string) {
	switch {
	case id == "":
		c.fail(key, "it is missing or empty")
	case len(id) > longestID:
		c.fail(key, "it is longer than %d bytes", longestID)
	case strings.TrimSpace(id) != id:
		c.fail(key, "%s begins or ends with a blank", quoted(id))
	case word.Plainly(id) != "":
		c.fail(key, "%s looks like another name and is none: letters, marks or spaces of it stand in another form of Unicode%s", quoted(id), word.Plainly(id))
	default:
		c.text(key, id)
	}
}

func (c *checker) text(key, s string) { c.written(key, s, longestText, false) }

func (c *checker) notes(key, s string) { c.written(key, s, longestNotes, true) }

func (c *checker) written(key, s string, longest int, lines bool) {
	if len(s) > longest {
		c.fail(key, "it is longer than %d bytes", longest)
		return
	}
	if r, bad := word.BadCharacter(s, lines); bad {
		c.fail(key, "it has %s", word.CharacterName(r))
	}
}

// quoted prints a word of a document safely and briefly.
func quoted(s string) string {
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "…"
	}
	return fmt.Sprintf("%q", s)
}
