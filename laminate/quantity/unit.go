package quantity

import "strings"

// Dimension is one kind of physical value; the set is closed.
type Dimension interface {
	units() []unit
	noun() string
}

type unit struct {
	name   string // as documents spell it
	screen string // as screens show it, when different
	also   []string
	scale  float64 // SI = value·scale + offset
	offset float64
}

// Unit is a unit of the dimension D.
type Unit[D Dimension] unit

// Name gives the spelling documents use: "degF", "oz/ft2".
func (u Unit[D]) Name() string { return u.name }

// symbol gives the spelling screens use: "°F", "oz/ft²".
func (u Unit[D]) symbol() string {
	if u.screen != "" {
		return u.screen
	}
	return u.name
}

// Symbol gives the spelling screens use: "°F", "oz/ft²".
func (u Unit[D]) Symbol() string { return u.symbol() }

const (
	foot  = 0.3048
	inch  = 0.0254
	pound = 0.45359237
	ounce = pound / 16
	psi   = pound * 9.80665 / (inch * inch)
)

type length struct{}

func (length) noun() string  { return "length" }
func (length) units() []unit { return lengths }

var lengths = []unit{
	{name: "m", scale: 1}, {name: "mm", scale: 1e-3}, {name: "cm", scale: 1e-2},
	{name: "um", screen: "µm", also: []string{"µm", "μm"}, scale: 1e-6},
	{name: "mil", scale: inch / 1000}, {name: "in", scale: inch}, {name: "ft", scale: foot},
}

// Units of length.
var (
	Meter      = Unit[length](lengths[0])
	Millimetre = Unit[length](lengths[1])
	Mil        = Unit[length](lengths[4])
	Inch       = Unit[length](lengths[5])
	Foot       = Unit[length](lengths[6])
)

type arealMass struct{}

func (arealMass) noun() string  { return "areal mass" }
func (arealMass) units() []unit { return arealMasses }

var arealMasses = []unit{
	{name: "kg/m2", screen: "kg/m²", also: []string{"kg/m²"}, scale: 1},
	{name: "g/m2", screen: "g/m²", also: []string{"g/m²"}, scale: 1e-3},
	{name: "oz/ft2", screen: "oz/ft²", also: []string{"oz/ft²"}, scale: ounce / (foot * foot)},
	{name: "oz/yd2", screen: "oz/yd²", also: []string{"oz/yd²"}, scale: ounce / (9 * foot * foot)},
	{name: "lb/ft2", screen: "lb/ft²", also: []string{"lb/ft²"}, scale: pound / (foot * foot)},
}

// Units of areal mass.
var (
	KilogramPerSquareMeter = Unit[arealMass](arealMasses[0])
	GramPerSquareMeter     = Unit[arealMass](arealMasses[1])
	OuncePerSquareFoot     = Unit[arealMass](arealMasses[2])
	OuncePerSquareYard     = Unit[arealMass](arealMasses[3])
	PoundPerSquareFoot     = Unit[arealMass](arealMasses[4])
)

type density struct{}

func (density) noun() string  { return "density" }
func (density) units() []unit { return densities }

var densities = []unit{
	{name: "kg/m3", screen: "kg/m³", also: []string{"kg/m³"}, scale: 1},
	{name: "g/cm3", screen: "g/cm³", also: []string{"g/cm³"}, scale: 1000},
	{name: "lb/ft3", screen: "lb/ft³", also: []string{"lb/ft³"}, scale: pound / (foot * foot * foot)},
	{name: "lb/in3", screen: "lb/in³", also: []string{"lb/in³"}, scale: pound / (inch * inch * inch)},
}

// Units of density.
var (
	KilogramPerCubicMeter = Unit[density](densities[0])
	PoundPerCubicFoot     = Unit[density](densities[2])
)

type pressure struct{}

func (pressure) noun() string  { return "pressure" }
func (pressure) units() []unit { return pressures }

var pressures = []unit{
	{name: "Pa", scale: 1}, {name: "kPa", scale: 1e3}, {name: "MPa", scale: 1e6}, {name: "GPa", scale: 1e9},
	{name: "bar", scale: 1e5}, {name: "psi", scale: psi}, {name: "ksi", scale: 1e3 * psi},
	{name: "Msi", scale: 1e6 * psi}, {name: "inHg", scale: 3386.389},
	{name: "inH2O", also: []string{"inWC", "inwc", "inh2o", "inH₂O"}, scale: 249.0889}, {name: "mmH2O", also: []string{"mmWC", "mmwc", "mmH₂O"}, scale: 9.80665}, {name: "mbar", scale: 100},
}

// Units of pressure, modulus and strength.
var (
	Pascal     = Unit[pressure](pressures[0])
	Kilopascal = Unit[pressure](pressures[1])
	Megapascal = Unit[pressure](pressures[2])
	Gigapascal = Unit[pressure](pressures[3])
	Bar        = Unit[pressure](pressures[4])
	PSI        = Unit[pressure](pressures[5])
	Msi        = Unit[pressure](pressures[7])
)

type temperature struct{}

func (temperature) noun() string  { return "temperature" }
func (temperature) units() []unit { return temperatures }

var temperatures = []unit{
	{name: "K", scale: 1},
	{name: "degC", screen: "°C", also: []string{"°C"}, scale: 1, offset: 273.15},
	{name: "degF", screen: "°F", also: []string{"°F"}, scale: 5.0 / 9, offset: 273.15 - 32*5.0/9},
}

// Temperature scales.
var (
	Kelvin     = Unit[temperature](temperatures[0])
	Celsius    = Unit[temperature](temperatures[1])
	Fahrenheit = Unit[temperature](temperatures[2])
)

type linearDensity struct{}

func (linearDensity) noun() string  { return "tow size" }
func (linearDensity) units() []unit { return linearDensities }

// yd/lb is a yield: its figure divides, see parse and In users.
var linearDensities = []unit{{name: "tex", scale: 1e-6}}

// Tex is grams per kilometer.
var Tex = Unit[linearDensity](linearDensities[0])

type area struct{}

func (area) noun() string  { return "area" }
func (area) units() []unit { return areas }

var areas = []unit{
	{name: "m2", screen: "m²", also: []string{"m²"}, scale: 1},
	{name: "ft2", screen: "ft²", also: []string{"ft²"}, scale: foot * foot},
}

// Units of area.
var (
	SquareMeter = Unit[area](areas[0])
	SquareFoot  = Unit[area](areas[1])
)

type mass struct{}

func (mass) noun() string  { return "mass" }
func (mass) units() []unit { return masses }

var masses = []unit{{name: "kg", scale: 1}, {name: "g", scale: 1e-3}, {name: "lb", scale: pound}}

// Units of mass.
var (
	Kilogram = Unit[mass](masses[0])
	Gram     = Unit[mass](masses[1])
	Pound    = Unit[mass](masses[2])
)

type resistance struct{}

func (resistance) noun() string  { return "resistance" }
func (resistance) units() []unit { return resistances }

var resistances = []unit{
	{name: "ohm", screen: "Ω", also: []string{"Ω"}, scale: 1}, {name: "kohm", screen: "kΩ", scale: 1e3},
	{name: "Mohm", screen: "MΩ", scale: 1e6}, {name: "Gohm", screen: "GΩ", scale: 1e9},
}

// Units of electrical resistance.
var (
	Ohm    = Unit[resistance](resistances[0])
	Kilohm = Unit[resistance](resistances[1])
	Megohm = Unit[resistance](resistances[2])
	Gigohm = Unit[resistance](resistances[3])
)

type lineForce struct{}

func (lineForce) noun() string  { return "force on a length" }
func (lineForce) units() []unit { return lineForces }

var lineForces = []unit{
	{name: "N/m", scale: 1}, {name: "N/mm", scale: 1e3}, {name: "kN/m", scale: 1e3},
	{name: "lb/in", scale: pound * 9.80665 / inch}, {name: "lb/ft", scale: pound * 9.80665 / foot},
}

// Units of force on a length.
var (
	KilonewtonPerMeter = Unit[lineForce](lineForces[2])
	PoundPerInch       = Unit[lineForce](lineForces[3])
)

type moment struct{}

func (moment) noun() string  { return "torque" }
func (moment) units() []unit { return moments }

var moments = []unit{
	{name: "Nm", screen: "N·m", also: []string{"N·m", "N*m"}, scale: 1},
	{name: "ft-lb", screen: "ft·lb", also: []string{"ft·lb", "ft*lb"}, scale: foot * pound * 9.80665},
	{name: "in-lb", screen: "in·lb", also: []string{"in·lb", "in*lb"}, scale: inch * pound * 9.80665},
}

// Units of torque.
var (
	NewtonMeter = Unit[moment](moments[0])
	FootPound   = Unit[moment](moments[1])
)

type duration struct{}

func (duration) noun() string  { return "time" }
func (duration) units() []unit { return durations }

var durations = []unit{{name: "s", scale: 1}, {name: "min", scale: 60}, {name: "h", scale: 3600}, {name: "d", scale: 86400}}

// Units of time.
var (
	Minute = Unit[duration](durations[1])
	Hour   = Unit[duration](durations[2])
)

// Units lists the names a document may use for the dimension D.
func Units[D Dimension]() []string {
	var d D
	var names []string
	for _, u := range d.units() {
		names = append(names, u.name)
	}
	if d.noun() == "tow size" {
		names = append(names, yield)
	}
	return names
}

func (u unit) answersTo(name string) bool {
	if u.name == name {
		return true
	}
	for _, a := range u.also {
		if a == name {
			return true
		}
	}
	return false
}

func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}
