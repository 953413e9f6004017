package quantity

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// near compares figures within a relative tolerance.
func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// Factors as NIST SP 811 (2008), appendix B.8 and B.9, prints them, to seven
// digits; temperatures from its B.8 formulas. Tow size from the definition of
// tex in ISO 1144 and the pound and yard: 496 055 / (yd/lb).
func TestParse_conversionsAsPublished(t *testing.T) {
	check := func(text string, got float64, err error, want float64) {
		t.Helper()
		if err != nil || !near(got, want, 1e-6) {
			t.Errorf("%s is %v (%v), want %v", text, got, err, want)
		}
	}
	l := func(s string, want float64) { q, err := Parse[length](s); check(s, q.SI(), err, want) }
	a := func(s string, want float64) { q, err := Parse[arealMass](s); check(s, q.SI(), err, want) }
	d := func(s string, want float64) { q, err := Parse[density](s); check(s, q.SI(), err, want) }
	p := func(s string, want float64) { q, err := Parse[pressure](s); check(s, q.SI(), err, want) }
	k := func(s string, want float64) { q, err := Parse[temperature](s); check(s, q.SI(), err, want) }
	w := func(s string, want float64) { q, err := Parse[linearDensity](s); check(s, q.SI(), err, want) }
	m := func(s string, want float64) { q, err := Parse[mass](s); check(s, q.SI(), err, want) }
	s := func(s string, want float64) { q, err := Parse[area](s); check(s, q.SI(), err, want) }
	r := func(s string, want float64) { q, err := Parse[resistance](s); check(s, q.SI(), err, want) }

	l("1 in", 2.54e-2)
	l("1 ft", 3.048e-1)
	l("1 mil", 2.54e-5)
	l("1 um", 1e-6)
	l("1 cm", 1e-2)
	a("1 oz/ft2", 3.051517e-1)
	a("1 oz/yd2", 3.390575e-2)
	a("1 lb/ft2", 4.882428)
	a("1 g/m2", 1e-3)
	d("1 lb/ft3", 1.601846e1)
	d("1 lb/in3", 2.767990e4)
	d("1 g/cm3", 1e3)
	p("1 psi", 6.894757e3)
	p("1 ksi", 6.894757e6)
	p("1 Msi", 6.894757e9)
	p("1 bar", 1e5)
	p("1 inHg", 3.386389e3)
	p("1 inH2O", 2.490889e2)
	p("1 mmH2O", 9.80665)
	p("10 mbar", 1e3)
	k("32 degF", 273.15)
	k("212 degF", 373.15)
	k("-40 degF", 233.15)
	k("-40 degC", 233.15)
	k("300 K", 300)
	m("1 lb", 4.535924e-1)
	s("1 ft2", 9.290304e-2)
	w("2200 tex", 2.2e-3)
	w("225 yd/lb", 496_055.0/225*1e-6)
	r("2.5 Mohm", 2.5e6)
	r("1 Gohm", 1e9)

	// Worked in the trade's own figures: 1.5 oz/ft² mat is 457.7 g/m², 24
	// oz/yd² woven roving 813.7 g/m² (from the factors above).
	q, err := Parse[arealMass]("1.5 oz/ft2")
	if check("1.5 oz/ft2 in g/m2", q.In(GramPerSquareMeter), err, 457.7276); q.Format(GramPerSquareMeter, 1) != "457.7 g/m²" {
		t.Errorf("shown as %s", q.Format(GramPerSquareMeter, 1))
	}
	q, err = Parse[arealMass]("24 oz/yd2")
	check("24 oz/yd2 in g/m2", q.In(GramPerSquareMeter), err, 813.7380)
}

func TestParse_waysToWriteANumber(t *testing.T) {
	for text, inches := range map[string]float64{
		"3/16 in": 0.1875, "1-1/2 in": 1.5, "1 1/2 in": 1.5, "-1/4 in": -0.25, "-1-1/2 in": -1.5, "  2 in ": 2, "2in": 2, ".5 in": 0.5, "5. in": 5,
		"1e2 in": 100, "1E-2in": 0.01, "+3 in": 3, "1/1 in": 1, "0/4 in": 0, "250 mil": 0.25, "6.35 mm": 0.25, "0.5 ft": 6, "25.4e3 um": 1, "25400 µm": 1, "25400 μm": 1,
	} {
		q, err := Parse[length](text)
		if err != nil || Compare(q.In(Inch), inches) != 0 {
			t.Errorf("%q is %v in (%v), want %v", text, q.In(Inch), err, inches)
		}
		if q.Text() != strings.TrimSpace(text) {
			t.Errorf("%q is spelled %q", text, q.Text())
		}
	}
}

func TestParse_badTextNamesTheUnits(t *testing.T) {
	for text, reason := range map[string]string{
		"": "empty", "  ": "empty", "in": "begin with a number", "12": "unit is missing", "12 bananas": `"bananas" is not a unit`, "12 psi": `"psi" is not a unit`,
		"1e400 mm": "beyond reason", "-1e400 mm": "beyond reason", "1e-400 mm": "too small", "nan mm": "begin with a number", "Inf mm": "begin with a number",
		"1/0 in": "over zero", "1-3/2 in": "below one", "1 2/2 in": "below one", "1/x in": "not a whole number", "1.5/2 in": "not a whole number", "1--2 in": "not a number", "1--1/2 in": "not a whole number",
		"1 2 in": "not a number", "1,5 in": "not a unit", "0x10 in": "not a unit", "1_000 in": "not a unit", "1 in\x1b[2J": "control character", "24 in\n": "control character", "12 IN": "not a unit",
		"99999999999/2 in": "not a whole number", "- in": "not a number", "/ in": "not a whole number", ". in": "not a number", "12 \xff": "not a unit",
		"12 " + strings.Repeat("x", 10_000): "not a unit",
	} {
		_, err := Parse[length](text)
		if err == nil {
			t.Errorf("%q was taken", text)
			continue
		}
		m := err.Error()
		if !strings.Contains(m, reason) || !strings.Contains(m, "m, mm, cm, um, mil, in or ft") || len(m) > 300 {
			t.Errorf("%q: %s", text, m)
		}
		if strings.ContainsFunc(m, func(r rune) bool { return r < ' ' || r == 0x7f }) {
			t.Errorf("%q is answered with a control character: %q", text, m)
		}
	}
	for _, text := range []string{"-500 degF", "-1 K", "-273.16 degC"} {
		if _, err := Parse[temperature](text); err == nil || !strings.Contains(err.Error(), "absolute zero") {
			t.Errorf("%q: %v", text, err)
		}
	}
	for _, text := range []string{"0 yd/lb", "-3 yd/lb", "0 tex", "-1 tex", "1e-320 yd/lb"} {
		if q, err := Parse[linearDensity](text); err == nil {
			t.Errorf("%q is %v", text, q.SI())
		}
	}
}

func TestParse_theCoolestPointIsTaken(t *testing.T) {
	for _, text := range []string{"0 K", "-273.15 degC", "-459.67 degF"} {
		if q, err := Parse[temperature](text); err != nil || q.SI() < 0 || q.SI() > 1e-9 {
			t.Errorf("%q: %v %v", text, q.SI(), err)
		}
	}
}

func TestRead_leavesTheValueWhereTheTextIsNone(t *testing.T) {
	q := New(5, Mil)
	if err := Read(&q, "5 bananas"); err == nil || q.Cmp(New(5, Mil)) != 0 {
		t.Errorf("%v %v", q, err)
	}
	if err := Read(&q, "6 mil"); err != nil || q.Cmp(New(6, Mil)) != 0 {
		t.Errorf("%v %v", q, err)
	}
	if q.Noun() != "length" || len(q.UnitNames()) != 7 {
		t.Errorf("%s in %v", q.Noun(), q.UnitNames())
	}
	if names := (TowSize{}).UnitNames(); strings.Join(names, " ") != "tex yd/lb" {
		t.Errorf("tow sizes in %v", names)
	}
}

func TestParseDefault_takesABareNumberInTheFieldsUnit(t *testing.T) {
	for text, want := range map[string]string{"24": "24 in", "1-1/2": "1-1/2 in", "24 mm": "24 mm", " 3 ": "3 in"} {
		q, err := ParseDefault(text, Inch)
		if err != nil || q.Text() != want {
			t.Errorf("%q is %q (%v), want %q", text, q.Text(), err, want)
		}
	}
	if _, err := ParseDefault("abc", Inch); err == nil {
		t.Error("abc was taken")
	}
}

func TestCmp_sameFigureInAnySpelling(t *testing.T) {
	mil, inch, mm := New(250, Mil), New(0.25, Inch), New(6.35, Millimetre)
	if mil.Cmp(inch) != 0 || inch.Cmp(mm) != 0 || mil.Cmp(mm) != 0 {
		t.Error("250 mil, 0.25 in and 6.35 mm differ")
	}
	limit, err := Parse[temperature]("180 degF")
	if err != nil || limit.Cmp(New(180, Fahrenheit)) != 0 || Above(limit.SI(), New(180, Fahrenheit).SI()) {
		t.Error("180 degF is above 180 °F")
	}
	if New(250.001, Mil).Cmp(mil) != 1 || mil.Cmp(New(250.001, Mil)) != -1 {
		t.Error("a thousandth of a mil is lost")
	}
	if Compare(0, 0) != 0 || Compare(-1, 1) != -1 || !Below(1, 2) || Below(2, 2) || Above(2, 2) {
		t.Error("bare figures compare wrongly")
	}
}

func TestText_ofWhatIsNotGiven(t *testing.T) {
	var q Length
	if q.Given() || q.Text() != "" || q.TextIn(Inch) != "" || q.String() != "not given" || q.Format(Mil, 1) != "not given" {
		t.Errorf("%q %q %q", q.Text(), q.String(), q.Format(Mil, 1))
	}
}

func TestTextIn_fewestDigits(t *testing.T) {
	for text, want := range map[string]string{"6.35 mm": "0.25 in", "1 m": "39.37007874016 in", "3 in": "3 in", "1/3 in": "0.333333333333 in", "0 mm": "0 in"} {
		q, err := Parse[length](text)
		if err != nil {
			t.Fatal(err)
		}
		if got := q.TextIn(Inch); got != want {
			t.Errorf("%s is %s, want %s", text, got, want)
		}
	}
	if got := New(0.1, Fahrenheit).TextIn(Fahrenheit); got != "0.1 degF" {
		t.Errorf("0.1 °F is %s", got)
	}
}

func TestUtilization_isBrief(t *testing.T) {
	for ratio, want := range map[float64]string{0: "0 %", 0.0004: "0.04 %", 0.999: "99 %", 1: "100 %", 1.001: "101 %", 10: "1000 %", 10.01: "over 1000 %", 1e300: "over 1000 %", math.Inf(1): "over 1000 %"} {
		if got := Utilization(ratio); got != want {
			t.Errorf("%v is %s, want %s", ratio, got, want)
		}
	}
}

func TestNumber_neverZeroWhereItIsNotNorMinusZero(t *testing.T) {
	for v, want := range map[float64]string{-1e-18: "0.0", 0.04: "0.04", -0.0001: "-0.0001", -0.06: "-0.1", 12: "12.0", 0.96: "1.0"} {
		if got := Number(v, 1); got != want {
			t.Errorf("%v is %s, want %s", v, got, want)
		}
	}
}

func TestSystem_showsWhatPeopleRead(t *testing.T) {
	for got, want := range map[string]string{
		US.Thickness(0.00287274): "113.1 mil", Metric.Thickness(0.00287274): "2.87 mm",
		US.Temperature(New(180, Fahrenheit).SI()): "180 °F", Metric.Temperature(355.372): "82.2 °C",
		US.Pressure(New(50, PSI).SI()): "50.0 psi", Metric.Pressure(New(50, PSI).SI()): "345 kPa",
		US.FabricMass(0.4577276): "1.5 oz/ft²", Metric.FabricMass(0.4577276): "458 g/m²",
		US.WallMass(4.882428): "1.00 lb/ft²", Metric.WallMass(4.88): "4.88 kg/m²", Share(0.27): "27 %",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	for _, s := range []System{US, Metric} {
		if back, ok := Systems.Parse(s.String()); !ok || back != s {
			t.Errorf("%v is read as %v", s, back)
		}
	}
	if _, ok := Systems.Parse("imperial"); ok {
		t.Error("imperial is taken")
	}
}

// TestEveryUnit_readsBack goes through every unit of every dimension by every
// spelling.
func TestEveryUnit_readsBack(t *testing.T) {
	everyUnit[length](t)
	everyUnit[arealMass](t)
	everyUnit[density](t)
	everyUnit[pressure](t)
	everyUnit[temperature](t)
	everyUnit[linearDensity](t)
	everyUnit[area](t)
	everyUnit[mass](t)
	everyUnit[resistance](t)
}

func everyUnit[D Dimension](t *testing.T) {
	t.Helper()
	var d D
	for i, u := range d.units() {
		if i == 0 && d.noun() != "tow size" && (u.scale != 1 || u.offset != 0) {
			t.Errorf("%s is the first unit of %s and not the SI unit", u.name, d.noun())
		}
		for _, name := range append([]string{u.name}, u.also...) {
			q, err := Parse[D]("12.5 " + name)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if back, err := Parse[D](q.TextIn(Unit[D](u))); err != nil || back.Cmp(q) != 0 || !near(q.In(Unit[D](u)), 12.5, 1e-12) {
				t.Errorf("12.5 %s became %v (%v)", name, back, err)
			}
		}
		if Unit[D](u).Name() != u.name || Unit[D](u).Symbol() == "" {
			t.Errorf("%s is called %q, shown as %q", u.name, Unit[D](u).Name(), Unit[D](u).Symbol())
		}
	}
	for _, bad := range []string{"12.5", "12.5 cubit", "", "x", "1e999 " + d.units()[0].name} {
		if _, err := Parse[D](bad); err == nil || !strings.Contains(err.Error(), d.noun()) {
			t.Errorf("%q of %s: %v", bad, d.noun(), err)
		}
	}
}

func TestParse_ofWhatIsPrintedIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		printed[length](t)
		printed[arealMass](t)
		printed[pressure](t)
		printed[temperature](t)
		printed[linearDensity](t)
	})
}

func printed[D Dimension](t *rapid.T) {
	var d D
	u := rapid.SampledFrom(d.units()).Draw(t, "unit")
	v := rapid.Float64Range(1e-6, 1e9).Draw(t, "value")
	q := New(v, Unit[D](u))
	for _, text := range []string{q.Text(), q.TextIn(Unit[D](u)), q.Spelled(Unit[D](u)).Text()} {
		back, err := Parse[D](text)
		if err != nil || back.Cmp(q) != 0 {
			t.Fatalf("%v %s is printed %q and read as %v (%v)", v, u.name, text, back.SI(), err)
		}
		if back.Text() != text {
			t.Fatalf("%q is printed %q", text, back.Text())
		}
		if spelled := q.Spelled(Unit[D](u)); text == spelled.Text() && back != spelled {
			t.Fatalf("%q read is not what was spelled: %v and %v", text, back.SI(), spelled.SI())
		}
	}
}

// FuzzParse wants no panic, no figure that is none, and of whatever is taken
// that its spelling reads back to the very same.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"3/16 in", "1-1/2 in", "1 1/2 in", "450g/m2", "1e400 mm", "-3 mil", "180 °F", "225 yd/lb", "12 bananas", "1e-320 yd/lb",
		"1--1/2 in", "+.5e-3 MPa", "-459.67 degF", "0x1p4 in", "1e", "/", "\xff mm", "1\u00a0mm", "-0 psi", "4294967296/3 in"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		fuzzed[length](t, s)
		fuzzed[pressure](t, s)
		fuzzed[temperature](t, s)
		fuzzed[linearDensity](t, s)
	})
}

func fuzzed[D Dimension](t *testing.T, s string) {
	q, err := Parse[D](s)
	if err != nil {
		if m := err.Error(); strings.ContainsFunc(m, func(r rune) bool { return r < ' ' || r == 0x7f }) || len(m) > 1000 {
			t.Fatalf("%q is answered with %q", s, m)
		}
		return
	}
	if math.IsNaN(q.SI()) || math.IsInf(q.SI(), 0) || math.Signbit(q.SI()) && q.SI() == 0 {
		t.Fatalf("%q is %v", s, q.SI())
	}
	back, err := Parse[D](q.Text())
	if err != nil || back != q {
		t.Fatalf("%q is spelled %q, which is %v (%v)", s, q.Text(), back, err)
	}
}

// In a field a unit may be typed as people type it; what is kept is the unit's
// own name, and a document is read as strictly as ever.
func TestParseDefault_takesUnitsAsPeopleTypeThem(t *testing.T) {
	for text, want := range map[string]string{`0.32"`: "0.32 in", "320mils": "320 mil", "315 MIL": "315 mil", "2'": "2 ft", "8 mm": "8 mm", "7": "7 in", "1/4 IN": "1/4 in"} {
		q, err := ParseDefault(text, Inch)
		if err != nil || q.Text() != want {
			t.Errorf("%q is read as %q, %v; want %q", text, q.Text(), err, want)
		}
		if _, err := Parse[length](text); (err == nil) != (text == want) {
			t.Errorf("a document's %q: %v", text, err)
		}
	}
	if q, err := ParseDefault("21 C", Fahrenheit); err != nil || q.Text() != "21 degC" {
		t.Errorf("21 C is read as %q, %v", q.Text(), err)
	}
	if _, err := ParseDefault("3 stones", Inch); err == nil || !strings.Contains(err.Error(), "stones") {
		t.Errorf("3 stones: %v", err)
	}
}
