package quantity

import (
	"math"

	"frp/veilwright/laminate/word"
)

// System is the set of units a person reads.
type System uint8

// The systems of units; the zero value is US customary.
const (
	US System = iota
	Metric

	// Unread is for who reads no figure: it prints none, which saves judging a
	// schedule that is only tried out a good part of its time.
	Unread System = 255
)

// Systems are their words.
var Systems = word.Of[System]("us", "si")

func (s System) String() string { return Systems.Name(s) }

// The units in which each kind of value is shown.

// Thin is the unit of ply and wall thickness: mil or mm.
func (s System) Thin() Unit[length] { return pick(s, Mil, Millimetre) }

// Size is the unit of a diameter: in or mm.
func (s System) Size() Unit[length] { return pick(s, Inch, Millimetre) }

// Long is the unit of a length or height: ft or m.
func (s System) Long() Unit[length] { return pick(s, Foot, Meter) }

// Fabric is the unit of a reinforcement's areal mass: oz/ft² or g/m².
func (s System) Fabric() Unit[arealMass] { return pick(s, OuncePerSquareFoot, GramPerSquareMeter) }

// Wall is the unit of a laminate's mass on an area: lb/ft² or kg/m².
func (s System) Wall() Unit[arealMass] { return pick(s, PoundPerSquareFoot, KilogramPerSquareMeter) }

// Load is the unit of a pressure: psi or kPa.
func (s System) Load() Unit[pressure] { return pick(s, PSI, Kilopascal) }

// Modulus is the unit of a modulus: Msi or GPa.
func (s System) Modulus() Unit[pressure] { return pick(s, Msi, Gigapascal) }

// Heat is the temperature scale: °F or °C.
func (s System) Heat() Unit[temperature] { return pick(s, Fahrenheit, Celsius) }

// Weight is the unit of a part's mass: lb or kg.
func (s System) Weight() Unit[mass] { return pick(s, Pound, Kilogram) }

// Surface is the unit of an area: ft² or m².
func (s System) Surface() Unit[area] { return pick(s, SquareFoot, SquareMeter) }

func pick[D Dimension](s System, us, metric Unit[D]) Unit[D] {
	if s == Metric {
		return metric
	}
	return us
}

// The figures that are printed most, by name.

// Thickness prints a ply or wall thickness given in m: "113.1 mil", "2.87 mm".
func (s System) Thickness(m float64) string { return s.Figure(m, Thickness) }

// Temperature prints a point given in K: "180 °F", "65.6 °C".
func (s System) Temperature(k float64) string { return s.Figure(k, Point) }

// Pressure prints a pressure given in Pa: "50.0 psi", "345 kPa".
func (s System) Pressure(pa float64) string { return s.Figure(pa, Stress) }

// FabricMass prints a reinforcement's areal mass given in kg/m².
func (s System) FabricMass(kgPerM2 float64) string { return s.Figure(kgPerM2, FabricMass) }

// WallMass prints a laminate's mass on an area given in kg/m².
func (s System) WallMass(kgPerM2 float64) string { return s.Figure(kgPerM2, WallMass) }

// Share prints a content as whole percent, the same in either system: "27 %",
// "5.3 %".
func Share(f float64) string { return US.Figure(f, Content) }

// Percent prints a fraction as it was stated or measured: "27 %", "12.5 %".
func Percent(f float64) string { return US.Figure(f, Fraction) }

// Exceeded prints by how many times a limit is passed, rounded as Utilization
// rounds: "1.57" beside "157 %".
func Exceeded(ratio float64) string {
	if ratio > 1 && ratio <= 10 {
		ratio = math.Ceil(ratio*100-1e-9) / 100
	}
	times, _ := US.Pair(ratio, 1, Times)
	return times
}

// Utilization prints how much of a limit is used: rounded away from 100 %, so
// that what passes its limit never reads 100 % and what keeps it never more.
// From ten times on the figure says no more than that.
func Utilization(ratio float64) string {
	v := max(0, ratio) * 100
	switch {
	case Compare(ratio, 1) == 0: // conversion noise decides nothing
		return "100 %"
	case ratio > 10:
		return "over 1000 %"
	case ratio > 1:
		return Number(math.Ceil(v-1e-9), 0) + " %"
	case v >= 1:
		return Number(math.Floor(v+1e-9), 0) + " %"
	}
	return Share(v / 100)
}
