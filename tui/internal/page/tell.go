package page

import (
	"math"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/widget"
)

// Used is a criterion as a bar.
func Used(t *draw.Theme, c *wall.Criterion) widget.Bar {
	b := widget.Bar{Label: c.Name, Ratio: c.Ratio, Word: TellWord(c), Look: TellStyle(t, c)}
	if c.Tell != wall.Holds && c.Tell != wall.Fails {
		b.Ratio = math.NaN()
	}
	return b
}

// CriterionName is a criterion's name where there is little room.
func CriterionName(c *wall.Criterion) string {
	switch c.Name {
	case wall.HoopStrengthMinimum:
		return "strength"
	case wall.MinimumModulus:
		return "modulus"
	case wall.MinimumWall:
		return "least wall"
	case wall.ExternalPressure:
		return "from outside"
	}
	return c.Name
}

// TellWord says whether a criterion holds.
func TellWord(c *wall.Criterion) string {
	switch c.Tell {
	case wall.Holds:
		return "holds"
	case wall.Fails:
		return "FAILS"
	case wall.CannotTell:
		return "open"
	case wall.NotApplicable:
	}
	return "—"
}

// TellStyle is the look of the answer.
func TellStyle(t *draw.Theme, c *wall.Criterion) draw.Style {
	switch c.Tell {
	case wall.Holds:
		return t.Good
	case wall.Fails:
		return t.Break
	case wall.CannotTell:
		return t.Incomplete
	case wall.NotApplicable:
	}
	return t.Dim
}

// Figure prints a demand or capacity of a criterion in the reader's units.
func Figure(v float64, unit string, u quantity.System) string {
	switch unit {
	case "strain":
		return telling(100*v) + " %"
	case "m":
		return u.Thickness(v)
	case "Pa":
		if v >= 1e8 {
			q := quantity.New(v/1e9, quantity.Gigapascal)
			return q.Format(u.Modulus(), 2)
		}
		unit := u.Load()
		q := quantity.New(v, quantity.Pascal).In(unit)
		return telling(q) + " " + unit.Symbol()
	case "N/m":
		if u == quantity.Metric {
			return quantity.Number(v/1000, 1) + " N/mm"
		}
		return quantity.Number(v/newtonsPerMeter, 0) + " lb/in"
	}
	return quantity.Number(v, 3) + " " + unit
}

// telling prints a figure with three digits that tell: 0.120, 14.2, 533.
func telling(v float64) string {
	decimals := 0
	if a := math.Abs(v); a > 0 {
		decimals = max(0, min(5, 2-int(math.Floor(math.Log10(a)))))
	}
	return quantity.Number(v, decimals)
}

// newtonsPerMeter is one pound-force an inch: 0.45359237 × 9.80665 / 0.0254
// (NIST SP 811, appendix B).
const newtonsPerMeter = 0.45359237 * 9.80665 / 0.0254
