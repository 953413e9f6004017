package quantity

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Factors as NIST SP 811 (2008), appendix B.8, prints them: 1 lbf/in =
// 175.1268 N/m, 1 lb/ft³ = 16.01846 kg/m³, 1 psi = 6.894757 kPa.
func TestFigure_isInTheUnitThatPeopleRead(t *testing.T) {
	pa := func(v float64) float64 { return New(v, PSI).SI() }
	for _, c := range []struct {
		v          float64
		k          Kind
		us, metric string
	}{
		{0.00287274, Thickness, "113.1 mil", "2.87 mm"},
		{0.6096, Size, "24 in", "609.6 mm"},
		{3.048, Distance, "10 ft", "3.048 m"},
		{pa(0.13), Stress, "0.13 psi", "0.896 kPa"},
		{pa(50), Stress, "50.0 psi", "345 kPa"},
		{pa(9000), Stress, "9000 psi", "62.1 MPa"},
		{pa(0.7e6), Stress, "0.700 Msi", "4.83 GPa"},
		{pa(1.2e6), Stress, "1.20 Msi", "8.27 GPa"},
		{175.1268 * 180, LineLoad, "180 lb/in", "31.5 kN/m"},
		{0.000873, Strain, "0.0873 %", "0.0873 %"},
		{0.001, Strain, "0.100 %", "0.100 %"},
		{0.27, Fraction, "27 %", "27 %"},
		{0.0526, Fraction, "5.26 %", "5.26 %"},
		{0.0526, Content, "5.3 %", "5.3 %"},
		{0.2857, Content, "29 %", "29 %"},
		{1.934, Times, "1.93", "1.93"},
		{15, Times, "15", "15"},
		{54.7356, Angle, "54.7°", "54.7°"},
		{55, Angle, "55°", "55°"},
		{0.00287274, Build, "113 mil", "2.87 mm"},
		{273.15 + 65.5556, Point, "150 °F", "65.6 °C"},
		{273.15, Point, "32 °F", "0 °C"},
		{New(0, Fahrenheit).SI(), Point, "0 °F", "-17.8 °C"},
		{3, Rise, "5.4 °F", "3 °C"},
		{0.4577276, FabricMass, "1.5 oz/ft²", "458 g/m²"},
		{0.813738, ClothMass, "24 oz/yd²", "814 g/m²"},
		{4.882428, WallMass, "1.00 lb/ft²", "4.88 kg/m²"},
		{1200, Bulk, "74.9 lb/ft³", "1200 kg/m³"},
		{1e7, Resistivity, "10 MΩ", "10 MΩ"},
		{0, Stress, "0.0 psi", "0 kPa"},
		{1e-12, Stress, "1.5e-16 psi", "1.00e-15 kPa"},
		{math.NaN(), Stress, "not known", "not known"},
		{math.Inf(-1), Times, "not known", "not known"},
	} {
		if us, metric := US.Figure(c.v, c.k), Metric.Figure(c.v, c.k); us != c.us || metric != c.metric {
			t.Errorf("%v is %q and %q, want %q and %q", c.v, us, metric, c.us, c.metric)
		}
	}
}

func TestUtilization_agreesWithTheVerdict(t *testing.T) {
	for _, c := range []struct {
		ratio float64
		want  string
	}{{1, "100 %"}, {1 + 1e-12, "100 %"}, {1 - 1e-12, "100 %"}, {1 + 1e-6, "101 %"}, {1 - 1e-6, "99 %"}, {0.5, "50 %"}, {10.1, "over 1000 %"}, {0, "0 %"}} {
		if got := Utilization(c.ratio); got != c.want {
			t.Errorf("%v is %s, want %s", c.ratio, got, c.want)
		}
	}
}

func TestCompare_knowsThatInfinityIsMore(t *testing.T) {
	if inf := math.Inf(1); !Above(inf, 1) || !Below(-inf, 1) || Above(inf, inf) {
		t.Error("an infinite figure is taken for its limit")
	}
}

func TestApart_tellsTheEndsOfARangeApartThoughTheFigureLiesOutside(t *testing.T) {
	mil := func(v float64) float64 { return New(v, Mil).SI() }
	all := US.Apart(Thickness, mil(253.601), mil(300), mil(253.602))
	if all[0] == all[2] {
		t.Errorf("%q", all)
	}
	if span := US.Span(mil(253.601), mil(253.602), Thickness); span != "253.601 mil to 253.602 mil" {
		t.Error(span)
	}
}

func TestPair_tellsFigureAndLimitApartInOneUnit(t *testing.T) {
	pa := func(v float64) float64 { return New(v, PSI).SI() }
	for _, c := range []struct {
		v, limit float64
		k        Kind
		s        System
		a, b     string
	}{
		{pa(0.13), pa(0.0673), Stress, US, "0.13 psi", "0.067 psi"},
		{pa(0.13), pa(0.0673), Stress, Metric, "0.896 kPa", "0.464 kPa"},
		{3000, 200, Stress, Metric, "3.00 kPa", "0.200 kPa"},
		{0.9999e6, 1e6, Stress, Metric, "0.9999 MPa", "1.000 MPa"},
		{0.249, 0.25, Fraction, US, "24.9 %", "25 %"},
		{New(94.99, Mil).SI(), New(95, Mil).SI(), Thickness, US, "94.99 mil", "95.00 mil"},
		{1.004, 1, Times, US, "1.004", "1"},
		{0.3, 0.1 + 0.2, Fraction, US, "30 %", "30 %"},
	} {
		if a, b := c.s.Pair(c.v, c.limit, c.k); a != c.a || b != c.b {
			t.Errorf("%v and %v are %q and %q, want %q and %q", c.v, c.limit, a, b, c.a, c.b)
		}
	}
}

// magnitude draws a figure of any size that anybody could ask for.
func magnitude(t *rapid.T, name string) float64 {
	v := math.Pow(10, rapid.Float64Range(-12, 12).Draw(t, name))
	if rapid.Bool().Draw(t, name+" below zero") {
		return -v
	}
	return v
}

// readFigure gives what a printed figure says in SI, and half of its last
// digit.
func readFigure(t *rapid.T, s System, k Kind, text string) (si, half float64) {
	number, symbol, _ := strings.Cut(strings.Replace(text, degree, " "+degree, 1), " ")
	if k == Rise || k == Point {
		number, symbol, _ = strings.Cut(text, " ")
	}
	for _, c := range s.scales(k) {
		if c.symbol != symbol {
			continue
		}
		v, err := strconv.ParseFloat(number, 64)
		if err != nil {
			t.Fatalf("%q is no number: %v", text, err)
		}
		mantissa, power, _ := strings.Cut(number, "e")
		exponent, _ := strconv.Atoi(power)
		_, decimals, _ := strings.Cut(mantissa, ".")
		return v*c.si + c.zero, 0.5 * math.Pow10(exponent-len(decimals)) * c.si
	}
	t.Fatalf("%q has no unit of its kind", text)
	return 0, 0
}

// trimmed kinds lose zeros, so their last digit says less than it is worth.
func within(k Kind, v, si, half float64) bool {
	if printing[k].trim {
		half = math.Max(half, 0.005*math.Abs(v))
		if k == Point {
			half = math.Max(half, 0.05)
		}
		if k == Content || k == Rise {
			half = math.Max(half, 0.05*math.Abs(v))
		}
	}
	return math.Abs(si-v) <= half*(1+1e-6)+1e-9*math.Abs(v)
}

func TestFigure_isNeverZeroWhereItIsNotAndSaysWhatItIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := magnitude(t, "value")
		for _, k := range Kinds() {
			for _, s := range []System{US, Metric} {
				text := s.Figure(v, k)
				si, half := readFigure(t, s, k, text)
				if !within(k, v, si, half) {
					t.Fatalf("%v of kind %d is printed %q", v, k, text)
				}
				if number, _, _ := strings.Cut(strings.TrimSuffix(text, degree), " "); k != Point && strings.Trim(number, "-0.") == "" {
					t.Fatalf("%v of kind %d is printed %q", v, k, text)
				}
			}
		}
	})
}

func TestPair_neverPrintsAlikeWhatDiffersNorApartWhatDoesNot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := magnitude(t, "value")
		limit := magnitude(t, "limit")
		if rapid.Bool().Draw(t, "near") {
			limit = v * (1 + math.Pow(10, rapid.Float64Range(-11, -1).Draw(t, "apart")))
		}
		for _, k := range Kinds() {
			for _, s := range []System{US, Metric} {
				a, b := s.Pair(v, limit, k)
				same := Compare(v, limit) == 0
				if k == Point { // a billionth of what is between the zeros of the scales
					same = same || math.Abs(v-limit) <= tolerance*s.scales(k)[0].zero
				}
				if (a == b) != same {
					t.Fatalf("%v and %v of kind %d are %q and %q", v, limit, k, a, b)
				}
				for text, v := range map[string]float64{a: v, b: limit} {
					if si, half := readFigure(t, s, k, text); a != b && !within(k, v, si, half) {
						t.Fatalf("%v of kind %d is printed %q", v, k, text)
					}
				}
			}
		}
	})
}

// What is printed in a unit that documents know reads back to what it says.
func TestFigure_isReadByWhoeverReadsDocuments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := magnitude(t, "value")
		for _, s := range []System{US, Metric} {
			readBack[length](t, s, v, Thickness, Size, Distance)
			readBack[pressure](t, s, v, Stress)
			readBack[arealMass](t, s, v, FabricMass, ClothMass, WallMass)
			readBack[density](t, s, v, Bulk)
			readBack[mass](t, s, v, Weight)
			readBack[area](t, s, v, Surface)
		}
	})
}

func readBack[D Dimension](t *rapid.T, s System, v float64, of ...Kind) {
	for _, k := range of {
		text := s.Figure(v, k)
		si, _ := readFigure(t, s, k, text)
		q, err := Parse[D](text)
		if err != nil || Compare(q.SI(), si) != 0 {
			t.Fatalf("%q is read as %v: %v", text, q.SI(), err)
		}
	}
}

func TestBare_isInTheUnitOfSymbol(t *testing.T) {
	for _, k := range Kinds() {
		for _, s := range []System{US, Metric} {
			text := s.Bare(12.5e6, k) + " " + s.Symbol(k)
			if first := s.scales(k)[0]; text != first.number(12.5e6, 0, printing[k].trim)+" "+first.symbol {
				t.Errorf("kind %d: %q", k, text)
			}
		}
	}
}

// A bound that is printed can be stated: it is never beyond the bound, and
// within one unit of its last digit of it.
func TestAtMost_isNeverBeyondTheBound(t *testing.T) {
	for _, c := range []struct {
		v           float64
		most, least string
	}{
		{2.8599 * 0.3048, "34.31 in", "34.32 in"},
		{2.9 * 0.3048, "34.8 in", "34.8 in"},
		{13.044 * 0.3048, "13.04 ft", "13.05 ft"},
		{1.99e-6 * 0.3048, "2.3e-05 in", "2.4e-05 in"},
	} {
		if most, least := US.AtMost(c.v, Distance), US.AtLeast(c.v, Distance); most != c.most || least != c.least {
			t.Errorf("%v m: at most %s, at least %s, want %s and %s", c.v, most, least, c.most, c.least)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		v := math.Pow(10, rapid.Float64Range(-6, 6).Draw(t, "power"))
		for _, s := range []System{US, Metric} {
			for _, k := range []Kind{Distance, Size} {
				most, errMost := Parse[length](s.AtMost(v, k))
				least, errLeast := Parse[length](s.AtLeast(v, k))
				if errMost != nil || errLeast != nil {
					t.Fatal(errMost, errLeast)
				}
				if most.SI() > v*(1+1e-9) || least.SI() < v*(1-1e-9) || most.SI() < 0.8*v || least.SI() > 1.2*v {
					t.Fatalf("%v m: at most %s, at least %s", v, s.AtMost(v, k), s.AtLeast(v, k))
				}
			}
		}
	})
}

// A size that somebody stated in eighths or sixteenths reads as it was stated, and
// one that no few digits say is rounded as ever.
func TestStated_keepsTheDigitsOfASmallSize(t *testing.T) {
	for _, c := range []struct {
		s    System
		v    float64
		k    Kind
		want string
	}{
		{US, 0.125 * 0.0254, Size, "0.125 in"}, {US, 0.1875 * 0.0254, Size, "0.1875 in"}, {US, 0.25 * 0.0254, Size, "0.25 in"}, {US, 3 * 0.0254, Size, "3 in"},
		{US, 14.25 * 0.3048, Distance, "14.25 ft"}, {US, 4 * 0.0254, Distance, "4 in"}, {US, 16 * 0.0254, Distance, "16 in"},
		{US, 48.5 * 0.0254, Distance, "48.5 in"}, {US, 38.0625 * 0.0254, Distance, "38.0625 in"}, {US, 168.5 * 0.0254, Distance, "168.5 in"}, {US, 24 * 0.0254, Distance, "2 ft"},
		{Metric, 1.2345, Distance, "1.2345 m"}, {Metric, 0.406, Distance, "0.406 m"}, {Metric, 0.125 * 0.0254, Size, "3.175 mm"}, {Metric, 3, Distance, "3 m"},
		{US, 0.003, Size, US.Figure(0.003, Size)}, {US, 0, Size, "0 in"}, {Unread, 1, Size, ""},
	} {
		if got := c.s.Stated(c.v, c.k); got != c.want {
			t.Errorf("%v: %q, want %q", c.v, got, c.want)
		}
	}
}

// Whatever is laid out with a tape prints to a sixteenth of an inch or a millimeter, by
// itself and beside another.
func TestFigure_isExactEnoughForATape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(0.001, 60).Draw(t, "value")
		for s, off := range map[System]float64{US: 0.0254 / 16, Metric: 0.001} {
			paired, _ := s.Pair(v, 1.5*v, Distance)
			for _, text := range []string{s.Figure(v, Distance), s.Stated(v, Distance), paired} {
				if q, err := Parse[length](text); err != nil || math.Abs(q.SI()-v) > off {
					t.Fatalf("%v m is printed %q: %v", v, text, err)
				}
			}
		}
	})
}

// By how many times a limit is passed and the share of it that is used are one
// figure, rounded once.
func TestExceeded_isTheUtilization(t *testing.T) {
	for ratio := 1.0001; ratio < 10; ratio += 0.0137 {
		times, err := strconv.ParseFloat(Exceeded(ratio), 64)
		if got := Number(100*times, 0) + " %"; err != nil || got != Utilization(ratio) {
			t.Fatalf("%v is %s times and %s", ratio, Exceeded(ratio), Utilization(ratio))
		}
	}
	if got := Exceeded(15); got != "15" {
		t.Error(got)
	}
}
