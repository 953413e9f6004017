// Package worked is how a calculation is written out for a reviewer with a pocket
// calculator: step by step, in consistent units. What is calculated is package
// wall's and form's.
package worked

import (
	"math"
	"strconv"
	"strings"

	"frp/veilwright/laminate/quantity"
)

// Step is one line of a calculation. Numbers is an expression of numbers, + − ·
// / ^, parentheses, sqrt, abs, min, max and cos of degrees that gives Value; "" where a
// figure is read from a document or a table, or a matrix is turned round, which no
// pocket calculator does.
type Step struct {
	What, Symbol, Formula, Numbers string
	Value                          float64 // NaN where there is none
	Unit                           string
	In                             string // unit of each of the numbers, where the result is their ratio
	Source                         string
	// Of a criterion: the limit, and in words whether it holds.
	Limit, Answer string
}

// Result is the value with its unit, "" where there is none.
func (s *Step) Result() string {
	if math.IsNaN(s.Value) {
		return ""
	}
	return strings.TrimSpace(Number(s.Value) + " " + s.Unit)
}

// PutIn is the line of the numbers: "= 2.5 in / 3 in"; "" where there are none.
func (s *Step) PutIn() string {
	switch {
	case s.Numbers == "":
		return ""
	case s.In == "":
		return "= " + s.Numbers
	}
	return "= " + strings.ReplaceAll(s.Numbers, "/", " "+s.In+" / ") + " " + s.In
}

// List is steps under way, in the consistent units of US or not: in, psi, lb/in
// and lb, or mm, MPa, N/mm and N.
type List struct {
	US    bool
	Steps []Step
}

// Add writes down one step.
func (w *List) Add(what, symbol, formula, numbers string, value float64, unit, source string) {
	w.Steps = append(w.Steps, Step{What: what, Symbol: symbol, Formula: formula, Numbers: numbers, Value: value, Unit: unit, Source: source})
}

// Say writes down a line without a figure.
func (w *List) Say(what, text, source string) { w.Add(what, "", text, "", math.NaN(), "", source) }

// Units are those of all numbers put in, for a sentence.
func (w *List) Units() string {
	return Pick(w.US, "in, psi, lb, lb/in, and of masses lb/in² and lb/in³", "mm, MPa, N, N/mm, and of masses kg/m² and kg/m³")
}

// Length is in or mm of m.
func (w *List) Length(m float64) float64 { return Pick(w.US, m/0.0254, m*1000) }

// Stress is psi or MPa of Pa.
func (w *List) Stress(pa float64) float64 { return Pick(w.US, pa/psi, pa/1e6) }

// Line is lb/in or N/mm of N/m.
func (w *List) Line(n float64) float64 { return Pick(w.US, n/(psi*0.0254), n/1000) }

// Force is lb or N of N.
func (w *List) Force(n float64) float64 { return Pick(w.US, n/pound, n) }

// Torque is ft·lb or N·m of N·m.
func (w *List) Torque(nm float64) float64 { return Pick(w.US, nm/(12*0.0254*pound), nm) }

// OnArea is lb/in² or kg/m² of kg/m², the mass.
func (w *List) OnArea(kg float64) float64 { return Pick(w.US, kg/poundPerSquareInch, kg) }

// Bulk is lb/in³ or kg/m³ of kg/m³.
func (w *List) Bulk(kg float64) float64 { return Pick(w.US, kg*0.0254/poundPerSquareInch, kg) }

// OnAreaUnit is that of OnArea.
func (w *List) OnAreaUnit() string { return Pick(w.US, "lb/in²", "kg/m²") }

// BulkUnit is that of Bulk.
func (w *List) BulkUnit() string { return Pick(w.US, "lb/in³", "kg/m³") }

// LengthUnit is that of Length; the others go with theirs.
func (w *List) LengthUnit() string { return Pick(w.US, "in", "mm") }

// StressUnit is that of Stress.
func (w *List) StressUnit() string { return Pick(w.US, "psi", "MPa") }

// LineUnit is that of Line.
func (w *List) LineUnit() string { return Pick(w.US, "lb/in", "N/mm") }

// ForceUnit is that of Force.
func (w *List) ForceUnit() string { return Pick(w.US, "lb", "N") }

// TorqueUnit is that of Torque.
func (w *List) TorqueUnit() string { return Pick(w.US, "ft·lb", "N·m") }

// Of gives a figure in SI in the calculation's unit of its kind; strains and
// multiples have none.
func (w *List) Of(v float64, k quantity.Kind) (figure float64, unit string) {
	switch k {
	case quantity.Thickness, quantity.Size, quantity.Distance:
		return w.Length(v), w.LengthUnit()
	case quantity.Stress:
		return w.Stress(v), w.StressUnit()
	case quantity.LineLoad:
		return w.Line(v), w.LineUnit()
	case quantity.Force:
		return w.Force(v), w.ForceUnit()
	case quantity.Torque:
		return w.Torque(v), w.TorqueUnit()
	default:
		return v, ""
	}
}

// Pounds in SI: NIST SP 811.
const (
	psi   = 6894.757293168
	pound = 4.4482216152605

	poundPerSquareInch = 0.45359237 / (0.0254 * 0.0254) // kg/m², the mass
)

// Pick is a in US units, else b.
func Pick[T any](us bool, a, b T) T {
	if us {
		return a
	}
	return b
}

// Number prints a figure of a calculation: six digits that count, no exponent.
func Number(v float64) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	order := int(math.Floor(math.Log10(math.Abs(v))))
	return strconv.FormatFloat(v, 'f', max(0, 5-order), 64)
}

// Put puts numbers into a pattern of # signs.
func Put(pattern string, v ...float64) string {
	for _, x := range v {
		text := Number(x)
		if x < 0 {
			text = "(" + text + ")"
		}
		pattern = strings.Replace(pattern, "#", text, 1)
	}
	return pattern
}

// Water is the weight of water on a unit of volume, in the consistent units.
func (w *List) Water() string { return Pick(w.US, "0.0361273", "0.00000980665") }
