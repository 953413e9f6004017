package others_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
)

// A proof reaches where no figure of it is below what is borne, and says of each that is
// short what it is; a bound is within. Comparisons alone.
func TestChecks_reachWhereNoFigureIsShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string) float64 { return float64(rapid.IntRange(0, 3).Draw(t, name)) }
		given := func(name string) bool { return rapid.IntRange(0, 5).Draw(t, name+" given") > 0 }
		b := others.Borne{Pressure: others.Most{Value: v("p")}, Vacuum: others.Most{Value: v("v")}, Temperature: others.Most{Value: 300 + v("t")}, Structure: others.Most{Value: v("s")}}
		p, short, missing := others.Proof{By: "test 1"}, 0, 0
		proved := func(name string, borne, has float64, asked bool, set func()) {
			switch {
			case !asked:
				set()
			case !given(name):
				missing++
			default:
				switch set(); {
				case borne > has:
					short++
				case name == "s" && 2*borne < has: // less than half of what is laid is hardly meant
					missing++
				}
			}
		}
		pp, pv, pt, ps := v("proved p"), v("proved v"), 300+v("proved t"), v("proved s")
		proved("p", b.Pressure.Value, pp, b.Pressure.Value > 0, func() { p.Pressure = quantity.New(pp, quantity.Pascal) })
		proved("v", b.Vacuum.Value, pv, b.Vacuum.Value > 0, func() { p.Vacuum = quantity.New(pv, quantity.Pascal) })
		proved("t", b.Temperature.Value, pt, true, func() { p.Temperature = quantity.New(pt-273.15, quantity.Celsius) })
		proved("s", ps, b.Structure.Value, true, func() { p.Structure = quantity.New(ps, quantity.Meter) })
		list := p.Checks(b)
		gotShort, gotMissing := 0, 0
		for i := range list {
			c := &list[i]
			said := c.Says(quantity.US)
			if (said != "") != (c.Short() || c.Missing != "") || said != "" && !strings.Contains(said, "("+c.Key+")") {
				t.Errorf("%+v says %q", c, said)
			}
			if !others.Asked(c.Name) {
				t.Errorf("%s is not asked", c.Name)
			}
			switch {
			case c.Missing != "":
				gotMissing++
			case c.Short():
				gotShort++
			}
		}
		if gotShort != short || gotMissing != missing || others.Reach(list) != (short+missing == 0) {
			t.Fatalf("%d short, %d missing, reach %v; want %d and %d: %+v", gotShort, gotMissing, others.Reach(list), short, missing, list)
		}
	})
}

// What of a load is not known is not taken for none.
func TestMost_keepsWhatIsNotKnown(t *testing.T) {
	var m others.Most
	m.Take(3, "", "")
	m.Take(2, " under steam-out", "")
	if m.Value != 3 || m.When != "" {
		t.Errorf("%+v", m)
	}
	m.Take(4, " in the test", "")
	if m.Value != 4 || m.When != " in the test" {
		t.Errorf("%+v", m)
	}
	m.Take(0, "", "it is not stated")
	m.Take(9, "", "")
	if m.Missing == "" {
		t.Errorf("%+v", m)
	}
	p := others.Proof{By: "test 1", Pressure: quantity.New(9, quantity.PSI)}
	if list := p.Checks(others.Borne{Pressure: m}); list[0].Name != others.Pressure || list[0].Says(quantity.US) != "it is not stated" {
		t.Errorf("%+v", list)
	}
}

func TestOutside_refusesSlips(t *testing.T) {
	p := others.Proof{Pressure: quantity.New(-1, quantity.PSI), Vacuum: quantity.New(0, quantity.PSI), Temperature: quantity.New(5000, quantity.Fahrenheit), Structure: quantity.New(0, quantity.Inch)}
	wrong := map[string]string{}
	p.Outside(func(key, why string) { wrong[key] = why })
	if wrong["proved_pressure"] == "" || wrong["proved_vacuum"] != "" || wrong["proved_temperature"] == "" || wrong["proved_structure"] == "" {
		t.Errorf("%q", wrong)
	}
}

// Whose a proof is its number says: no word does.
func TestNamed_asksForItsNumber(t *testing.T) {
	for by, want := range map[string]bool{
		"calculation 45, revision 2": true, "test 1": true, "TR-09": true, "(calc 7)": true, "to be or calc 7": true, "stress report 7": true, "No. 45 of the engineer": true,
		"": false, "Todo": false, "nobody": false, "no one": false, "not required": false, "missing": false, "n.a.": false, "(pending)": false, "??": false, "—": false, "nil": false, "x": false, "yes": false, "ok": false,
		"requested": false, "in progress": false, "will follow": false, "by others": false, "not stated": false, "T.B.D.": false, "the engineer": false, "on file": false, "see report": false, "revision": false,
		"TBD, rev 0": false, "pending 2": false, "none, 2026": false, "calculation 45, to follow": false, "1": false, "x 1": false, "R-2": false, "(7)": false, "45-2": false, "12345": false,
	} {
		if p := (others.Proof{By: by}); p.Named() != want {
			t.Errorf("%q: named %v", by, p.Named())
		}
	}
}

func TestSame_goesByNoSpelling(t *testing.T) {
	p := others.Proof{By: "calc 45, rev 2"}
	for by, want := range map[string]bool{"calc 45, rev 2": true, " Calc 45,  rev 2 ": true, "CALC\u00a045, rev\u202f2": true, "calc 45, rev 3": false, "calc 4 5, rev 2": false, "calc 45": false, "": false} {
		if got := p.Same(&others.Proof{By: by}); got != want {
			t.Errorf("%q: same %v", by, got)
		}
	}
}

// A figure in another unit, or with its point elsewhere, would reach whatever comes: it
// is asked about, and what it was probably to be is named. The bounds are within.
func TestChecks_askAboutSlips(t *testing.T) {
	const mil, psi = 25.4e-6, 6894.757293168
	borne := others.Borne{Pressure: others.Most{Value: 30 * psi}, Vacuum: others.Most{Value: psi}, Temperature: others.Most{Value: 340}, Structure: others.Most{Value: 300 * mil}, Softens: 378.15}
	sound := others.Proof{By: "test 1", Pressure: quantity.New(40, quantity.PSI), Vacuum: quantity.New(2, quantity.PSI), Temperature: quantity.New(160, quantity.Fahrenheit), Structure: quantity.New(250, quantity.Mil)}
	for name, c := range map[string]struct {
		change func(*others.Proof)
		says   string
	}{
		"sound":                   {func(*others.Proof) {}, ""},
		"mil for inches":          {func(p *others.Proof) { p.Structure = quantity.New(0.25, quantity.Mil).Spelled(quantity.Mil) }, "it looks like 0.25 in (proved_structure)"},
		"half of what is laid":    {func(p *others.Proof) { p.Structure = quantity.New(150, quantity.Mil) }, ""},
		"under half":              {func(p *others.Proof) { p.Structure = quantity.New(149, quantity.Mil) }, "less than half of what is laid"},
		"MPa for psi":             {func(p *others.Proof) { p.Pressure = quantity.New(20, quantity.Megapascal).Spelled(quantity.Megapascal) }, "20 psi"},
		"ten times what is borne": {func(p *others.Proof) { p.Pressure = quantity.New(300, quantity.PSI) }, ""},
		"above ten times":         {func(p *others.Proof) { p.Pressure = quantity.New(301, quantity.PSI) }, "more than ten times what is borne, and hardly meant"},
		"degC for degF":           {func(p *others.Proof) { p.Temperature = quantity.New(160, quantity.Celsius).Spelled(quantity.Celsius) }, "it looks like 160 °F"},
		"far beyond":              {func(p *others.Proof) { p.Temperature = quantity.New(700, quantity.Celsius).Spelled(quantity.Celsius) }, "700 degC is more than 90 °F (50 °C) above the heat deflection temperature"},
		"50 K over the softening": {func(p *others.Proof) { p.Temperature = quantity.New(155, quantity.Celsius) }, ""},
		"above 50 K":              {func(p *others.Proof) { p.Temperature = quantity.New(156, quantity.Celsius) }, "heat deflection"},
	} {
		p := sound
		c.change(&p)
		list, said := p.Checks(borne), ""
		for i := range list {
			if list[i].Short() {
				t.Errorf("%s: %+v is short", name, list[i])
			}
			said += list[i].Says(quantity.US)
		}
		if (said == "") != (c.says == "") || !strings.Contains(said, c.says) || others.Reach(list) != (c.says == "") {
			t.Errorf("%s: %q", name, said)
		}
	}
	small := sound // against small loads up to 150 psi is no slip
	small.Pressure = quantity.New(150, quantity.PSI)
	borne.Pressure.Value = 2 * psi
	if list := small.Checks(borne); !others.Reach(list) {
		t.Errorf("%+v", list)
	}
	borne.Structure, borne.Softens = others.Most{Missing: "a thickness is not known"}, 0 // nothing to hold them against
	small.Structure, small.Temperature = quantity.New(0.25, quantity.Mil), quantity.New(700, quantity.Fahrenheit)
	for _, x := range small.Checks(borne) {
		if said := x.Says(quantity.US); strings.Contains(said, "hardly") {
			t.Error(said)
		}
	}
}

// No vacuum is above an atmosphere, as it is written in round figures.
func TestOutside_refusesAVacuumAboveAnAtmosphere(t *testing.T) {
	for v, want := range map[quantity.Pressure]string{
		quantity.New(14.7, quantity.PSI): "", quantity.New(15, quantity.PSI): "", quantity.New(1, quantity.Bar): "",
		quantity.New(30, quantity.PSI).Spelled(quantity.PSI): "30 psi is above 15 psi, an atmosphere, and no vacuum is; it looks like 30 kPa or 30 inHg or 3 psi",
	} {
		got := ""
		p := others.Proof{Vacuum: v}
		p.Outside(func(key, wrong string) {
			if key == "proved_vacuum" {
				got = wrong
			}
		})
		if (got == "") != (want == "") || !strings.HasPrefix(got, want) {
			t.Errorf("%s: %q", v.Text(), got)
		}
	}
}
