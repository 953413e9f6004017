package laminate

import "frp/veilwright/laminate/quantity"

// Optional is a value that may not be stated; its zero value is "not stated".
type Optional[T comparable] struct {
	Value T
	Given bool
}

// Some is a stated value.
func Some[T comparable](v T) Optional[T] { return Optional[T]{Value: v, Given: true} }

// Or gives the stated value, else the one named.
func (o Optional[T]) Or(other T) T {
	if o.Given {
		return o.Value
	}
	return other
}

// Origin ties a table of a schedule to the block of text it was read from.
// Only the package that reads documents gives it meaning; 0 is "made in the
// program". A copy keeps its origin; a second use of one is new text.
type Origin int32

// From gives the origin that a row holds by embedding one.
func (o *Origin) From() *Origin { return o }

// Head is what a document says of itself.
type Head struct {
	Title    string
	Job      string
	Revision Optional[int]
	Date     string // the day of the revision, 2026-03-01; empty where not stated
	Author   string
	// Released is the fingerprint of the content that was released, as papers
	// print it; what was changed since is a draft again.
	Released   string
	Superseded bool // by a later revision
	Notes      string
	Units      quantity.System
	UnitsSet   bool // whether the document says so
}

// Schedule is a laminate as somebody wants it built: the first ply faces the
// process, the last one the air.
type Schedule struct {
	Head
	Part    Part
	Service Service

	Conditions []Condition
	Resins     []Resin
	Materials  []Material
	Plies      []Ply
}

// Condition is a pair of load and temperature that come together, such as
// operating, upset or steam-out. What it does not state of the loads is the
// service's, and of the modulus retention the part's.
type Condition struct {
	Origin
	Name             string
	Temperature      quantity.Temperature
	Pressure         quantity.Pressure // inside, gauge
	Vacuum           quantity.Pressure // outside above inside
	ModulusRetention Optional[float64]
}

// Under is the schedule as it stands under one of its conditions alone.
func (s *Schedule) Under(c *Condition) *Schedule {
	n := *s
	n.Conditions = nil
	n.Service.Temperature, n.Service.Upset = c.Temperature, quantity.Temperature{}
	instead(&n.Service.Pressure, c.Pressure)
	instead(&n.Service.Vacuum, c.Vacuum)
	if c.ModulusRetention.Given {
		n.Part.ModulusRetention = c.ModulusRetention
	}
	return &n
}

// Part is what is built.
type Part struct {
	Form           PartForm
	Process        Process
	InsideDiameter quantity.Length
	Length         quantity.Length // pipe or duct; tank: straight side
	LiquidHeight   quantity.Length // tank
	Area           quantity.Area   // panel
	Flanged        Optional[bool]
	Ends           Ends
	DesignBasis    DesignBasis
	Grounding      string
	// StiffenerSpacing is the free length between stiffeners under outside pressure.
	StiffenerSpacing quantity.Length
	// ModulusRetention is the share of room-temperature modulus left in a warm wall.
	ModulusRetention Optional[float64]
	KFactors         KFactors

	Shape // of a part of a job
}

// KFactors are the five partial factors of the unit-load basis.
type KFactors struct {
	Values [5]float64
	Given  bool
}

// Service is what the wall meets.
type Service struct {
	Fluid           string
	Concentration   Optional[float64] // share by mass
	Temperature     quantity.Temperature
	Upset           quantity.Temperature
	PH              PHRange
	Contact         Contact
	Contains        Traits
	Pressure        quantity.Pressure // inside, gauge
	Vacuum          quantity.Pressure // outside above inside
	TestPressure    quantity.Pressure
	SpecificGravity Optional[float64]
	FlameSpread     Optional[int] // highest index allowed; not given = no demand
	Conductive      Optional[bool]
	Abrasive        Optional[bool]
}

// PHRange is the lowest and highest pH of a service.
type PHRange struct {
	Lowest, Highest float64
	Given           bool
}

// Hottest is the highest of operating and upset temperature, not given when
// neither is.
func (s Service) Hottest() quantity.Temperature {
	if s.Upset.Given() && (!s.Temperature.Given() || s.Upset.SI() > s.Temperature.SI()) {
		return s.Upset
	}
	return s.Temperature
}

// Resin is one resin mix of a schedule.
type Resin struct {
	Origin
	ID                string
	Family            Family
	Filler            Filler
	FillerContent     Optional[float64] // share of the mix by mass
	FillerDensity     quantity.Density
	Cure              Cure
	Density           quantity.Density // cured, unfilled
	Modulus           quantity.Pressure
	Poisson           Optional[float64]
	FailureStrain     Optional[float64]
	HeatDeflection    quantity.Temperature
	BondWindow        quantity.Duration // after its face gelled, in which a ply is laid onto it without abrading
	FlameSpreadTested Optional[int]
	Price             quantity.Price
	Source            string

	// Free text for the shop.
	Product, Initiator, Promoter, Thixotrope, Synergist string
	StyreneContent                                      Optional[float64]
}

// Material is a reinforcement, a coat or a tested lamina.
type Material struct {
	Origin
	ID                  string
	Name                string // how screens call it; the id when empty
	Form                Form
	Fiber               Fiber
	ArealMass           quantity.ArealMass
	FiberDensity        quantity.Density
	GlassContent        Optional[float64] // fiber share of ply mass in unfilled resin
	BarrierGlassContent Optional[float64] // the same in the barrier
	FiberModulus        quantity.Pressure
	FiberPoisson        Optional[float64]
	WarpShare           Optional[float64] // woven roving
	CrimpFactor         Optional[float64] // woven roving
	Thickness           quantity.Length   // coat, lamina; on a fiber material the shop's booked figure
	Waxed               bool              // resin coat
	Conductive          bool              // veil with powder of its own

	// Roving band.
	Tow       quantity.TowSize
	Tows      Optional[int]
	BandWidth quantity.Length

	// Lamina: known by test.
	E1, E2, G12                                           quantity.Pressure
	Nu12                                                  Optional[float64]
	StrengthTension1, StrengthCompression1                quantity.Pressure
	StrengthTension2, StrengthCompression2, StrengthShear quantity.Pressure

	Price      quantity.Price
	RollWidth  quantity.Length
	RollLength quantity.Length
	Source     string
}

// Ply is one row of a schedule: Count equal plies of one material.
type Ply struct {
	Origin
	Material     string
	Resin        string
	Zone         Zone              // NoZone: to be inferred
	Count        int               // at least 1
	GlassContent Optional[float64] // fiber share as laid, filler included
	VoidContent  Optional[float64] // share of ply volume
	Angle        Optional[float64] // degrees from the axis
	GelAfter     bool              // let it gel after the last of the count
	// Rest tells that the document has this row and the one before it as one: the
	// first plies of it are the last of the interior layer (see SplitRow).
	Rest bool
}

// NumberOfPlies counts single plies, a row of three as three.
func (s *Schedule) NumberOfPlies() int {
	n := 0
	for i := range s.Plies {
		n += s.Plies[i].Count
	}
	return n
}

// Resin finds a resin of the schedule by its id.
func (s *Schedule) Resin(id string) (*Resin, bool) {
	for i := range s.Resins {
		if s.Resins[i].ID == id {
			return &s.Resins[i], true
		}
	}
	return nil, false
}

// Clone gives a schedule whose slices may be changed without touching s.
func (s *Schedule) Clone() *Schedule {
	c := *s
	c.Conditions = append([]Condition(nil), s.Conditions...)
	c.Resins = append([]Resin(nil), s.Resins...)
	c.Materials = append([]Material(nil), s.Materials...)
	c.Plies = append([]Ply(nil), s.Plies...)
	return &c
}

// Limits of what is reasonable; a document beyond them is refused.
const (
	MostRows  = 20_000 // [[ply]] tables of a document
	MostPlies = 20_000 // single plies, counts multiplied out
	MostCount = 1_000  // of one row
)
