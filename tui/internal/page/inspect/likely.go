package inspect

import (
	"fmt"
	"strings"
	"time"
	"unicode"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/tui/internal/page"
)

// far is how many times a figure may be off what is expected before it is asked
// whether another unit was meant (common practice, no source).
const far = 3.0

// doubts are the answers given on one form, of what was typed in a line: it stands.
type doubts map[*page.Field]string

// ask asks about what was typed.
func (d doubts) ask(f *page.Field, why string) error {
	typed := text(f)
	if d[f] == typed && typed != "" {
		return nil
	}
	return page.Sure(fmt.Sprintf("%s %s: %s", f.Label, typed, why), typed, func(page.Answer) { d[f] = typed })
}

// either asks whether a bare number is meant in the unit of its line or in another: no
// Enter changes what was typed.
func either(f *page.Field, unit, other, why string) error {
	typed := text(f)
	return page.AsTyped(fmt.Sprintf("%s %s %s, where %s", f.Label, typed, unit, why), typed+" "+unit, typed+" "+other)
}

// bareNumber tells that no unit was typed, neither a word nor the mark of inches
// or feet.
func bareNumber(f *page.Field) bool {
	return !strings.ContainsFunc(text(f), func(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune(`"'”’″′°`, r) })
}

// near tells whether a figure is what is expected, or not far from it.
func near(v, expected float64) bool { return v > expected/far && v < expected*far }

// unit asks about a bare number that is far from what is expected as it stands; it is
// likely meant in the first of the units in which it is near.
func unit[D quantity.Dimension](d doubts, f *page.Field, u quantity.Unit[D], expected float64, says string, others ...string) error {
	q, err := quantity.ParseDefault(f.Text, u)
	if err != nil {
		return err
	}
	if expected <= 0 || near(q.SI(), expected) || !bareNumber(f) {
		return nil
	}
	typed := text(f)
	for _, other := range others {
		if q, err := quantity.ParseDefault(typed+" "+other, u); err == nil && near(q.SI(), expected) {
			return either(f, u.Symbol(), other, says)
		}
	}
	return d.ask(f, "far from what is expected, where "+says)
}

// hours asks about a bare number of minutes that is short: it is likely meant in hours.
func (d doubts) hours(f *page.Field, expected time.Duration, says string) error {
	s, err := held(f)
	if err != nil {
		return err
	}
	if !bareNumber(f) {
		return nil
	}
	span, _ := record.Span(s)
	if float64(span)*far > float64(expected) {
		return nil
	}
	typed := decimal(f.Text)
	if span, ok := record.Span(typed + " h"); ok && near(float64(span), float64(expected)) {
		return either(f, "min", "h", says)
	}
	return d.ask(f, "less than is usual, where "+says)
}

// What post-cures last and how hot they are, where no specification says so, and what
// hardness is read of cured laminates (common practice, no source).
const (
	usualCure   = 4 * time.Hour
	coolestCure = 40.0  // °C
	hottestCure = 160.0 // °C
	softest     = 10.0  // Barcol
	hardest     = 70.0
)

// cureHeat asks about a temperature that is no post-cure's as typed, and is one in the
// other scale.
func (p *Page) cureHeat(d doubts, f *page.Field) error {
	u := p.Desk.Units().Heat()
	within := func(text string) bool {
		q, err := quantity.ParseDefault(text, u)
		return err == nil && q.In(quantity.Celsius) >= coolestCure && q.In(quantity.Celsius) <= hottestCure
	}
	typed := text(f)
	switch {
	case within(typed) || !bareNumber(f):
		return nil
	case within(typed + " degC"):
		return either(f, u.Symbol(), "degC", "that is no post-cure")
	case within(typed + " degF"):
		return either(f, u.Symbol(), "degF", "that is no post-cure")
	}
	return d.ask(f, "no usual post-cure")
}

// doubtful asks about a value that is hardly ever read.
func (p *Page) doubtful(d doubts, f *page.Field, r *record.Reading) error {
	switch r.Kind {
	case inspection.WallThickness:
		computed := p.computed(r.Group)
		return unit(d, f, p.Desk.Units().Thin(), computed, "the schedule computes "+p.Desk.Units().Thickness(computed), "in", "mm", "mil")
	case inspection.Barcol:
		if r.Value < softest || r.Value > hardest {
			return d.ask(f, "hardly a cured laminate")
		}
	case inspection.IgnitionLoss, inspection.Acetone, inspection.ResistanceToGround, inspection.Visual, inspection.NoKind:
	}
	return nil
}

// expectedSize is what a measure should come to, m: as the specification bounds it, or
// as the schedule has it; 0 where neither says, and where it should be 0.
func (p *Page) expectedSize(what spec.Measure) float64 {
	if demands, _ := p.records.Specification(); demands != nil {
		for i := range demands.Inspection.Dimensions {
			if d := &demands.Inspection.Dimensions[i]; d.What == what && d.Value.Lowest.SI() > 0 {
				return d.Value.Lowest.SI()
			}
		}
	}
	part := &p.records.Schedule().Part
	switch what {
	case spec.InsideDiameter, spec.OutsideDiameter:
		return part.InsideDiameter.SI()
	case spec.Length:
		return part.Length.SI()
	case spec.NoMeasure, spec.OutOfRound, spec.FlangeFlatness, spec.FlangeDrawback, spec.BoltCircle, spec.BoltHole, spec.NozzlePosition, spec.OtherMeasure:
	}
	return 0
}

// specimenMass is what an ignition specimen weighs, kg (ASTM D2584: about 5 g).
const specimenMass = 0.005

// expectedTest is what a test under water should come to, and who says so: the
// specification, or else the service; 0 where neither does.
func (p *Page) expectedTest() (load quantity.Pressure, held time.Duration, says string) {
	if demands, _ := p.records.Specification(); demands != nil && demands.Inspection.Hydrotest.Pressure.Given() {
		held, _ = record.Span(demands.Inspection.Hydrotest.Held)
		return demands.Inspection.Hydrotest.Pressure, held, "the specification requires"
	}
	return p.records.Schedule().Service.TestPressure, 0, "the service states"
}
