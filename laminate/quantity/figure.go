package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Kind is what a printed figure measures. It says the units, by system and
// magnitude, and how many digits a reader wants; figures of every kind are
// given in SI.
type Kind uint8

// The kinds of figures.
const (
	Thickness    Kind = iota // m: of a ply, a zone, a wall
	Build                    // m: the same at a glance, whole mils
	Size                     // m: a diameter, a width, an overlap
	Distance                 // m: a length, a height, a spacing, as a tape has it
	Stress                   // Pa: pressures, strengths, moduli
	LineLoad                 // N/m
	Strain                   // 1, printed as percent
	Fraction                 // 1, printed as percent: a part of a whole, as stated or compared
	Content                  // 1, printed as whole percent: what a ply or zone contains, at a glance
	Times                    // 1, a figure as a multiple of another
	Point                    // K: a temperature, never a difference
	Rise                     // K: a difference of temperatures
	FabricMass               // kg/m²: of a reinforcement
	ClothMass                // kg/m²: of woven roving and other cloth, which the trade weighs by the yard
	WallMass                 // kg/m²: of a laminate
	Bulk                     // kg/m³: a density
	Weight                   // kg: of a part
	Surface                  // m²
	Resistivity              // Ω
	SecondMoment             // m⁴: of a section
	Tow                      // kg/m
	Angle                    // degrees
	Force                    // N
	Torque                   // N·m

	kinds = iota
)

// Kinds lists them.
func Kinds() []Kind {
	list := make([]Kind, kinds)
	for i := range list {
		list[i] = Kind(i)
	}
	return list
}

// scale is one unit of a kind: from which magnitude on figures are printed in
// it, with at least so many decimals and digits that count.
type scale struct {
	from             float64 // SI
	symbol           string
	si, zero         float64 // SI = figure·si + zero
	decimals, digits int
}

func in[D Dimension](u Unit[D], from float64, decimals, digits int) scale {
	return scale{from: from, symbol: u.symbol(), si: u.scale, zero: u.offset, decimals: decimals, digits: digits}
}

// hundredth is a share of one in percent.
func hundredth(decimals, digits int) []scale {
	return []scale{{symbol: "%", si: 0.01, decimals: decimals, digits: digits}}
}

func lineLoad(symbol string, si float64, decimals int) []scale {
	return []scale{{symbol: symbol, si: si, decimals: decimals, digits: 2}}
}

// spelling is how a kind is printed: its units in rising order, the first for
// whatever is smaller too; trimmed ones lose the zeros at their end.
type spelling struct {
	us, metric []scale
	trim       bool
	// taped are read off a tape: whole feet as such, else what is stated is exact in
	// the smallest unit where the usual one would cut it off.
	taped bool
}

var printing = [kinds]spelling{
	Thickness: {us: []scale{in(Mil, 0, 1, 1)}, metric: []scale{in(Millimetre, 0, 2, 1)}},
	Build:     {us: []scale{in(Mil, 0, 0, 1)}, metric: []scale{in(Millimetre, 0, 2, 1)}},
	Size:      {us: []scale{in(Inch, 0, 2, 2)}, metric: []scale{in(Millimetre, 0, 1, 2)}, trim: true},
	Distance: {
		us:     []scale{in(Inch, 0, 2, 2), in(Foot, 10*foot, 2, 2), in(Foot, 500*foot, 1, 2)},
		metric: []scale{in(Meter, 0, 3, 2), in(Meter, 100, 1, 2)},
		trim:   true, taped: true,
	},
	Stress: {
		us:     []scale{in(PSI, 0, 1, 2), in(PSI, 1e3*psi, 0, 2), in(Msi, 1e5*psi, 0, 3)},
		metric: []scale{in(Kilopascal, 0, 0, 3), in(Megapascal, 1e6, 1, 3), in(Gigapascal, 1e9, 0, 3)},
	},
	LineLoad:   {us: lineLoad("lb/in", pound*9.80665/inch, 0), metric: lineLoad("kN/m", 1000, 1)},
	Strain:     {us: hundredth(3, 3), metric: hundredth(3, 3)},
	Fraction:   {us: hundredth(0, 3), metric: hundredth(0, 3), trim: true},
	Content:    {us: hundredth(0, 2), metric: hundredth(0, 2), trim: true},
	Times:      {us: []scale{{si: 1, digits: 3}}, metric: []scale{{si: 1, digits: 3}}, trim: true},
	Point:      {us: []scale{in(Fahrenheit, 0, 1, 1)}, metric: []scale{in(Celsius, 0, 1, 1)}, trim: true},
	Rise:       {us: []scale{{symbol: "°F", si: 5.0 / 9, digits: 2}}, metric: []scale{{symbol: "°C", si: 1, digits: 2}}, trim: true},
	FabricMass: {us: []scale{in(OuncePerSquareFoot, 0, 2, 3)}, metric: []scale{in(GramPerSquareMeter, 0, 0, 3)}, trim: true},
	ClothMass:  {us: []scale{in(OuncePerSquareYard, 0, 1, 3)}, metric: []scale{in(GramPerSquareMeter, 0, 0, 3)}, trim: true},
	WallMass:   {us: []scale{in(PoundPerSquareFoot, 0, 2, 1)}, metric: []scale{in(KilogramPerSquareMeter, 0, 2, 1)}},
	Bulk:       {us: []scale{in(PoundPerCubicFoot, 0, 1, 3)}, metric: []scale{in(KilogramPerCubicMeter, 0, 0, 3)}},
	Weight:     {us: []scale{in(Pound, 0, 1, 3)}, metric: []scale{in(Kilogram, 0, 1, 3)}},
	Surface:    {us: []scale{in(SquareFoot, 0, 1, 2)}, metric: []scale{in(SquareMeter, 0, 1, 2)}},
	SecondMoment: {
		us:     []scale{{symbol: "in⁴", si: inch * inch * inch * inch, digits: 3}},
		metric: []scale{{symbol: "cm⁴", si: 1e-8, digits: 3}},
	},
	Resistivity: {us: ohms, metric: ohms, trim: true},
	Tow:         {us: []scale{in(Tex, 0, 0, 3)}, metric: []scale{in(Tex, 0, 0, 3)}},
	Angle:       {us: degrees, metric: degrees, trim: true},
	Force:       {us: []scale{{symbol: "lb", si: pound * 9.80665, digits: 3}}, metric: []scale{{symbol: "N", si: 1, digits: 3}, {symbol: "kN", from: 1e3, si: 1e3, digits: 3}}},
	Torque:      {us: []scale{in(FootPound, 0, 0, 2)}, metric: []scale{in(NewtonMeter, 0, 0, 2)}},
}

var degrees = []scale{{symbol: degree, si: 1, digits: 3}}

var ohms = []scale{in(Ohm, 0, 0, 3), in(Kilohm, 1e3, 0, 3), in(Megohm, 1e6, 0, 3), in(Gigohm, 1e9, 0, 3)}

func (s System) scales(k Kind) []scale {
	if s == Metric {
		return printing[k].metric
	}
	return printing[k].us
}

// scale is that in which a figure stands by itself.
func (s System) scale(v float64, k Kind) scale {
	of := s.scales(k)
	if feet := v / foot; printing[k].taped && s == US && feet != 0 && math.Abs(feet-math.Round(feet)) <= tolerance*math.Abs(feet) {
		return of[1]
	}
	return fitting(of, math.Abs(v))
}

// fitting is the scale for figures up to the given magnitude.
func fitting(of []scale, magnitude float64) scale {
	at := of[0]
	for _, c := range of[1:] {
		// What rounds up to a unit's beginning is printed in it.
		if magnitude >= c.from*(1-1e-9) {
			at = c
		}
	}
	return at
}

// Figure prints a figure, given in SI, with its unit: "113.1 mil", "0.13 psi",
// "345 kPa". What is not 0 never prints as 0; what is no number is "not known".
func (s System) Figure(v float64, k Kind) string {
	if s == Unread {
		return ""
	}
	at := s.scale(v, k)
	return at.with(at.number(v, 0, printing[k].trim))
}

// Stated prints what somebody stated as Figure would, with up to two digits more
// where those say all of it: 1/8 in is "0.125 in".
func (s System) Stated(v float64, k Kind) string {
	if s == Unread {
		return ""
	}
	at := s.scale(v, k)
	if printing[k].taped && !at.says(at.number(v, 0, true), v) {
		at = s.scales(k)[0]
	}
	for extra := range 3 {
		if at.says(at.number(v, extra, true), v) {
			return at.with(at.number(v, extra, printing[k].trim || extra > 0))
		}
	}
	return s.Figure(v, k)
}

// AtMost prints a bound from above as Figure would, but rounded down: whoever
// states what is printed stays within it.
func (s System) AtMost(v float64, k Kind) string { return s.bounded(v, k, -1) }

// AtLeast prints a bound from below as Figure would, but rounded up.
func (s System) AtLeast(v float64, k Kind) string { return s.bounded(v, k, 1) }

// bounded prints v rounded towards the sign of way.
func (s System) bounded(v float64, k Kind, way float64) string {
	if s == Unread {
		return ""
	}
	at := s.scale(v, k)
	text := at.number(v, 0, false)
	mantissa, power, _ := strings.Cut(text, "e")
	read, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return at.with(text)
	}
	if way*(read*at.si+at.zero-v) < -1e-12*math.Abs(v) {
		m, _ := strconv.ParseFloat(mantissa, 64)
		_, places, _ := strings.Cut(mantissa, ".")
		mantissa = strconv.FormatFloat(m+way*math.Pow10(-len(places)), 'f', len(places), 64)
	}
	if text = mantissa; power != "" {
		text += "e" + power
	} else if printing[k].trim && strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return at.with(text)
}

// Pair prints a figure and the one that it is held against, in one unit and
// with as many digits as it takes to tell them apart: two that differ by more
// than conversion noise never print alike, two that do not always do.
func (s System) Pair(v, limit float64, k Kind) (figure, bound string) {
	if s == Unread {
		return "", ""
	}
	figures, texts := [2]float64{v, limit}, [2]string{}
	s.apart(k, figures[:], texts[:])
	return texts[0], texts[1]
}

// Span prints a range, its ends apart: "25 % to 35 %".
func (s System) Span(low, high float64, k Kind) string {
	a, b := s.Pair(low, high, k)
	return a + " to " + b
}

// Apart is Pair for a few figures: each differs from all others as printed
// where it differs by more than noise.
func (s System) Apart(k Kind, v ...float64) []string {
	texts := make([]string, len(v))
	if s != Unread {
		s.apart(k, v, texts)
	}
	return texts
}

// apart fills in the texts of figures.
func (s System) apart(k Kind, v []float64, texts []string) {
	most := 0.0
	for _, x := range v {
		most = math.Max(most, math.Abs(x))
	}
	at := fitting(s.scales(k), most)
	for i := range v {
		for j := range i {
			if Compare(v[j], v[i]) == 0 || math.Abs(v[j]-v[i]) <= tolerance*at.zero {
				v[j] = v[i]
			}
		}
	}
	for extra := 0; ; extra++ {
		apart := true
		for i, x := range v {
			texts[i] = at.number(x, extra, printing[k].trim)
			for j := range i {
				apart = apart && (v[j] == x || !sameNumber(texts[j], texts[i]))
			}
		}
		if apart || extra == 17 {
			break
		}
	}
	for i := range texts {
		texts[i] = at.with(texts[i])
	}
}

// sameNumber tells whether two printed numbers say the same: "1.00" and "1.000".
func sameNumber(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	return errX == nil && errY == nil && x == y || a == b
}

// Bare prints a figure without its unit, always in that of Symbol: for columns
// that name the unit once.
func (s System) Bare(v float64, k Kind) string {
	if s == Unread {
		return ""
	}
	return s.scales(k)[0].number(v, 0, printing[k].trim)
}

// Symbol is the unit of Bare.
func (s System) Symbol(k Kind) string { return s.scales(k)[0].symbol }

// says tells whether a printed number is all of v.
func (c scale) says(number string, v float64) bool {
	read, err := strconv.ParseFloat(number, 64)
	return err == nil && math.Abs(read*c.si+c.zero-v) <= 1e-9*math.Abs(v)
}

func (c scale) with(number string) string {
	switch {
	case c.symbol == "" || number == notKnown:
		return number
	case c.symbol == degree:
		return number + degree
	}
	return number + " " + c.symbol
}

const notKnown = "not known"

// degree stands at its number without a blank.
const degree = "°"

// number prints a figure in the scale with extra digits more than usual.
func (c scale) number(si float64, extra int, trim bool) string {
	v := (si - c.zero) / c.si
	if math.Abs(si-c.zero) <= max(smallest, tolerance*c.zero) {
		v = 0 // so is 0 °F, by way of kelvins
	}
	return spell(v, c.decimals, c.digits, extra, trim)
}

// Number prints v with the given decimals, and with more where it would print
// as 0 and is not; never as "-0".
func Number(v float64, decimals int) string {
	if math.Abs(v) < smallest {
		v = 0
	}
	return spell(v, decimals, 0, 0, false)
}

// smallest is the magnitude, in SI, below which there is only rounding noise.
const smallest = 1e-15

// spell prints v with at least so many decimals, so many digits that count, and
// as many more as extra says; far from 1 as a power of ten.
func spell(v float64, decimals, digits, extra int, trim bool) string {
	size := math.Abs(v)
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return notKnown
	case size == 0:
		v = 0 // never minus zero
	}
	if size != 0 && (size < 1e-4 || size >= 1e7) {
		return strconv.FormatFloat(v, 'e', max(digits, 2)-1+extra, 64)
	}
	order := 0
	if size != 0 {
		order = int(math.Floor(math.Log10(size)))
		decimals = max(decimals, digits-1-order)
	}
	s := strconv.FormatFloat(v, 'f', decimals+extra, 64)
	if size != 0 && strings.Trim(s, "-0.") == "" {
		s = strconv.FormatFloat(v, 'f', -order, 64)
	}
	if trim && strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// Counted says how many of a thing there are: "1 ply", "3 plies".
func Counted(n int, one, many string) string {
	return strconv.Itoa(n) + " " + Plural(n, one, many)
}

// Plural is the form of a noun for that many of its things.
func Plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
