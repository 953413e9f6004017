package inspect

import (
	"errors"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// What is hardly meant is asked about once, and what is as expected is not asked about:
// a record keeps every slip for good. No question changes what was typed.
func TestDoubts_askOnceAndChangeNothing(t *testing.T) {
	g := compared(t, 100, 30, "incomplete")
	p := g.Page
	inch, psi := quantity.Inch, quantity.PSI
	feet := 6.096 // m, 20 ft
	for _, c := range []struct {
		typed string
		ask   func(doubts, *page.Field) error
		asks  bool
		other string // what is likely meant, where it is another unit
	}{
		{"240", func(d doubts, f *page.Field) error {
			return unit(d, f, inch, feet, "the schedule has 20 ft", "ft", "m")
		}, false, ""},
		{"20", func(d doubts, f *page.Field) error {
			return unit(d, f, inch, feet, "the schedule has 20 ft", "ft", "m")
		}, true, "20 ft"},
		{"20 in", func(d doubts, f *page.Field) error {
			return unit(d, f, inch, feet, "the schedule has 20 ft", "ft", "m")
		}, false, ""},
		{"5/16", func(d doubts, f *page.Field) error { return unit(d, f, quantity.Mil, 0.0082, "324 mil", "in", "mm") }, true, "5/16 in"},
		{"9000", func(d doubts, f *page.Field) error {
			return unit(d, f, inch, feet, "the schedule has 20 ft", "ft", "m")
		}, true, ""},
		{"517", func(d doubts, f *page.Field) error { return unit(d, f, psi, 517_000, "75 psi", "psi", "kPa") }, true, "517 kPa"},
		{"75", func(d doubts, f *page.Field) error { return unit(d, f, psi, 517_000, "75 psi", "psi", "kPa") }, false, ""},
		{"75", func(d doubts, f *page.Field) error { return unit(d, f, psi, 0, "nobody says", "kPa") }, false, ""},
		{"4", func(d doubts, f *page.Field) error { return d.hours(f, usualCure, "hours") }, true, "4 h"},
		{"180", func(d doubts, f *page.Field) error { return d.hours(f, usualCure, "hours") }, false, ""},
		{"4 min", func(d doubts, f *page.Field) error { return d.hours(f, usualCure, "hours") }, false, ""},
		{"10", func(d doubts, f *page.Field) error { return d.hours(f, time.Hour, "1 h") }, true, ""},
		{"80", p.cureHeat, true, "80 degC"}, // in a job in US units
		{"180", p.cureHeat, false, ""},
		{"180 degC", p.cureHeat, false, ""},
		{"900", p.cureHeat, true, ""},
		{"3.5", func(d doubts, f *page.Field) error {
			return p.doubtful(d, f, &record.Reading{Kind: inspection.Barcol, Value: 3.5})
		}, true, ""},
		{"35", func(d doubts, f *page.Field) error {
			return p.doubtful(d, f, &record.Reading{Kind: inspection.Barcol, Value: 35})
		}, false, ""},
	} {
		d, f := doubts{}, &page.Field{Label: "value", Text: c.typed}
		err := c.ask(d, f)
		if (err != nil) != c.asks || f.Text != c.typed {
			t.Errorf("%q: %v, and in the line %q", c.typed, err, f.Text)
		}
		answers := []page.Answer{{Text: c.typed}}
		if doubt := (*page.Doubt)(nil); errors.As(err, &doubt) {
			answers = doubt.Answers
			if doubt.Told != nil {
				doubt.Told(answers[0])
			}
			switch {
			case c.other == "" && len(answers) == 1 && answers[0].Text == c.typed:
			case c.other == "" || len(answers) != 2 || !strings.HasPrefix(answers[0].Text, c.typed+" ") || answers[1].Text != c.other:
				t.Errorf("%q: %v", c.typed, err)
			}
		} else if err != nil {
			t.Errorf("%q: not asked: %v", c.typed, err)
		}
		for _, a := range answers {
			f.Text = a.Text
			if again := c.ask(d, f); again != nil {
				t.Errorf("%q: asked a second time: %v", a.Text, again)
			}
		}
	}
	if got := p.expectedSize(spec.InsideDiameter); got != g.Desk.Report().Schedule.Part.InsideDiameter.SI() || got == 0 {
		t.Errorf("the diameter is expected to be %v", got)
	}
}

// On the page: a diameter typed in millimeters in a job in inches.
func TestDimension_asksWhetherAnotherUnitWasMeant(t *testing.T) {
	g := compared(t, 100, 30, "incomplete")
	n := len(g.Records.Record().Now().Dimensions)
	g.Press("1", "9", "1")
	g.Press("down")
	g.Typed("610")
	g.Says("610 in, where it should be about", "+ 610 in, as typed   * 610 mm")
	g.Shows("+ 610 in, as typed   * 610 mm")
	g.Press(keys.Enter, keys.Enter)
	if d := g.Records.Record().Now().Dimensions; len(d) != n || g.Page.Over() == nil {
		t.Fatalf("Enter answered: %+v", d)
	}
	g.Press("*", keys.Enter, keys.Enter, keys.Enter)
	if d := g.Records.Record().Now().Dimensions; len(d) != n+1 || d[n].Value.Text() != "610 mm" {
		t.Errorf("%+v\n%s", d, g.Screen())
	}
}

// A gauge's 8 in a line of mils stays 8 mil, however often Enter is pressed, until
// somebody says that it is millimeters.
func TestReading_noEnterChangesItsUnit(t *testing.T) {
	g := compared(t, 80, 24, "incomplete")
	n := len(g.Records.Record().Now().Readings)
	g.Press("1", "1")
	g.Typed("8", "", "", "")
	if r := g.Records.Record().Now().Readings; len(r) != n {
		t.Fatalf("%+v", r[n:])
	}
	g.Shows("+ 8 mil, as typed   * 8 mm")
	g.Press(keys.Esc)
	g.Shows("value      8_")
	g.Press(keys.Enter, "+")
	if r := g.Records.Record().Now().Readings; len(r) != n+1 || r[n].Thickness.Text() != "8 mil" {
		t.Errorf("%+v\n%s", r[n:], g.Screen())
	}
}

// The mark of inches is a unit as much as its name: nobody is asked whether
// another was meant.
func TestDoubts_takeTheMarkOfInchesForAUnit(t *testing.T) {
	for typed, bare := range map[string]bool{"0.32": true, `0.32"`: false, "2'": false, "7 mil": false, "21 °": false, "1/4": true} {
		if got := bareNumber(&page.Field{Text: typed}); got != bare {
			t.Errorf("%q is a bare number: %v", typed, got)
		}
	}
}

// Verdicts stand whole where somebody signs, and one reading has no deviation.
func TestSign_showsVerdictsWhole(t *testing.T) {
	g := compared(t, 80, 24, "incomplete")
	g.Press("3")
	g.Shows("? incomplete ")
	if screen := g.Screen(); strings.Contains(screen, "incomple…") {
		t.Error(screen)
	}
	g = compared(t, 80, 24, "reject")
	g.Press("1", "3")
	g.Shows("1 reading: 118.0 mil")
	if screen := g.Screen(); strings.Contains(screen, "deviation 0.0") {
		t.Error(screen)
	}
}

// Over a line shown whole the digits of the page do nothing, and do not stand there.
func TestWhole_showsNoKeysThatDoNothing(t *testing.T) {
	g := compared(t, 80, 24, "incomplete")
	g.Shows("1 readings", "3 sign")
	g.Press(keys.Enter)
	if s := g.Screen(); strings.Contains(s, "1 readings") || strings.Contains(s, "3 sign") {
		t.Error(s)
	}
}

// Readings typed ahead, one after another, the question about the first not seen: no
// digit and no Enter of a later number answers it, and nothing is recorded of what was
// never looked at.
func TestReading_numbersTypedAheadAnswerNoQuestion(t *testing.T) {
	for _, c := range []struct {
		keys  []string // what is read
		typed []string
		says  string
	}{
		{[]string{"1", "1"}, []string{"0.31", "0.29", "0.24"}, "value 0.31 mil, where the schedule computes 236.2 mil? + 0.31 mil, as typed   * 0.31 in"},
		{[]string{"1", "1"}, []string{"9", "0.24", "0.24"}, "* 9 mm"},
		{[]string{"1", "1"}, []string{"1", "", "2"}, "+ 1, as typed"},
		{[]string{"1", "4"}, []string{"3.5", "", "35"}, "value 3.5: hardly a cured laminate? + 3.5, as typed"},
		{[]string{"1", "4"}, []string{"3.5", "3.5", "3.5"}, "+ 3.5, as typed"},
	} {
		g := compared(t, 80, 24, "incomplete")
		n := len(g.Records.Record().Now().Readings)
		g.Press(c.keys...)
		g.Typed(c.typed...)
		if r := g.Records.Record().Now().Readings; len(r) != n || g.Page.Over() == nil {
			t.Errorf("%v: recorded %+v", c.typed, r[n:])
		}
		g.Says("NOT TAKEN", c.says)
		g.Press(keys.Esc)
		g.Typed(c.typed[0]) // asked anew: nobody has said that it stands
		g.Press("+")
		if r := g.Records.Record().Now().Readings; len(r) != n+1 {
			t.Errorf("%v: + recorded %+v", c.typed, r[n:])
		}
	}
}
