package quantity

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// ParseDefault reads a value as [ReadTyped] does, but takes a bare number to be in
// the unit u: for entry fields, which show their unit.
func ParseDefault[D Dimension](s string, u Unit[D]) (Quantity[D], error) { return typed[D](s, u.name) }

// ReadEntry reads a value as [ReadTyped] does, and a bare 0 too where nothing is
// nothing in any unit: it is spelled in a usual unit of the system.
func ReadEntry[D Dimension](into *Quantity[D], s string, of System) error {
	bare := ""
	if v, err := strconv.ParseFloat(strings.TrimSpace(s), 64); err == nil && v == 0 {
		bare = of.usual(Units[D]())
	}
	q, err := typed[D](s, bare)
	if err != nil {
		return err
	}
	*into = q
	return nil
}

// usual is the unit of the system in which a figure is likely to be typed, one of
// those that a value has; "" of a temperature, where 0 says something else in each.
func (s System) usual(units []string) string {
	if slices.Contains(units, Fahrenheit.name) {
		return ""
	}
	likely := []string{"in", "psi", "lb/in", "ft-lb", "ft2", "oz/ft2", "lb", "h"}
	if s == Metric {
		likely = []string{"mm", "kPa", "kN/m", "Nm", "m2", "g/m2", "kg", "h"}
	}
	for _, u := range likely {
		if slices.Contains(units, u) {
			return u
		}
	}
	return units[0]
}

// ReadTyped reads a value as people type it into a field: all that Parse reads, and
// 18", 1'6", 1 ft 6-1/2 in, 320 MIL, 120F, 21 C, 1½ in, 0,25 in. The value is spelled
// as a document spells it, in the units typed; feet with inches become inches. Documents
// are read with Parse.
func ReadTyped[D Dimension](into *Quantity[D], s string) error {
	q, err := typed[D](s, "")
	if err != nil {
		return err
	}
	*into = q
	return nil
}

// typed reads what people type; a bare number is in the unit of that name, "" for none.
func typed[D Dimension](s, bare string) (Quantity[D], error) {
	var d D
	text, wrong := point(glyphs.Replace(strings.TrimSpace(s)))
	if wrong == "" && d.noun() == (length{}).noun() {
		text, wrong = inches(text)
	}
	if wrong != "" {
		return Quantity[D]{}, &UnitError{Text: clip(s), Noun: d.noun(), Reason: wrong, Units: Units[D]()}
	}
	number, name := split(text)
	switch {
	case number == "":
	case name != "":
		text = number + " " + meant[D](name)
	case bare != "":
		text += " " + bare
	}
	q, err := Parse[D](text)
	var e *UnitError
	if errors.As(err, &e) { // in the words of whoever typed it
		e.Text = clip(s)
	}
	return q, err
}

// glyphs are characters that stand for others: the primes of feet and inches, fractions
// of one glyph, each behind a blank that divides it from a whole number.
var glyphs = strings.NewReplacer("''", `"`, "’’", `"`, "′′", `"`, "”", `"`, "“", `"`, "″", `"`, "’", "'", "‘", "'", "′", "'",
	"¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⁄", "/", "\u00a0", " ", "º", "°")

// point makes a decimal comma a point; wrong says why it could be none.
func point(text string) (_, wrong string) {
	text = strings.TrimSpace(text)
	i := strings.IndexByte(text, ',')
	if i < 0 {
		return text, ""
	}
	whole, rest := text[:i], text[i+1:]
	if strings.Trim(whole, "+-0123456789/. ") != "" && (rest == "" || !isDigit(rest[0])) {
		return text, "" // of the words behind a number
	}
	digits := len(rest) - len(strings.TrimLeft(rest, "0123456789"))
	switch {
	case strings.ContainsAny(whole, ".") || strings.ContainsAny(rest[digits:], ".,"):
		return "", "a number has one point or comma, and no mark of thousands"
	case digits == 3 && strings.Trim(whole, "+-0") != "":
		return "", "the comma may mark thousands or decimals: write a point, or none"
	}
	return whole + "." + rest, ""
}

// patterns of feet, what follows them, and a mixed number; a start needs none of them.
var patterns = sync.OnceValue(func() (p struct{ feet, inch, mixed *regexp.Regexp }) {
	p.feet = regexp.MustCompile(`(?i)^([^'a-z]*?)\s*(?:'|ft\.?|feet|foot)\s*-?\s*(\S.*)$`)
	p.inch = regexp.MustCompile(`(?i)^(\d*\.?\d*|\d+/\d+|\d+[ -]+\d+/\d+)\s*(?:"|in\.?|inch|inches)$`)
	p.mixed = regexp.MustCompile(`^(?:(\d+)[ -]+)?(\d+/\d+)$`)
	return p
})

// inches makes one length in inches of feet and inches, as it is spelled; another text
// stays as it is. Wrong says why it could be no such length.
func inches(text string) (_, wrong string) {
	if !strings.ContainsAny(text, "'fF") {
		return text, ""
	}
	m := patterns().feet.FindStringSubmatch(text)
	if m == nil {
		return text, ""
	}
	ft, err := strconv.ParseUint(strings.TrimSpace(m[1]), 10, 24)
	if err != nil {
		return "", "feet beside inches are a whole number"
	}
	in := patterns().inch.FindStringSubmatch(m[2])
	if in == nil || in[1] == "" || in[1] == "." {
		return "", "what follows the feet is no number of inches with its unit, as in 1 ft 6 in"
	}
	whole, rest := in[1], ""
	if f := patterns().mixed.FindStringSubmatch(in[1]); f != nil {
		whole, rest = f[1], " "+f[2]
		if v, err := parseNumber(f[2]); err != nil {
			return "", err.Error()
		} else if v >= 12 {
			return "", "inches beside feet are below 12"
		}
	} else if i := strings.IndexByte(whole, '.'); i >= 0 {
		whole, rest = whole[:i], whole[i:]
	}
	n := uint64(0)
	if whole != "" {
		if n, err = strconv.ParseUint(whole, 10, 24); err != nil || n >= 12 {
			return "", "inches beside feet are below 12"
		}
	}
	if n += 12 * ft; n == 0 && strings.HasPrefix(rest, " ") {
		return strings.TrimSpace(rest) + " in", ""
	}
	return strconv.FormatUint(n, 10) + strings.TrimSuffix(rest, ".") + " in", ""
}

// asTyped are names of units as people type them, in small letters and without blanks.
var asTyped = map[string]string{`"`: "in", "in.": "in", "inch": "in", "inches": "in", "'": "ft", "ft.": "ft", "foot": "ft", "feet": "ft", "mils": "mil",
	"c": "degC", "°c": "degC", "f": "degF", "°f": "degF", "deg.f": "degF", "deg.c": "degC", "degreesf": "degF", "degreesc": "degC", "lbs": "lb"}

// meant is the one unit that a name stands for, whatever its case; the name
// itself where there is none, or several.
func meant[D Dimension](name string) string {
	var d D
	lower := strings.ToLower(strings.ReplaceAll(name, " ", ""))
	if u, ok := asTyped[lower]; ok {
		lower = strings.ToLower(u)
	}
	found := ""
	for _, u := range d.units() {
		switch {
		case u.answersTo(name):
			return name
		case strings.ToLower(u.name) != lower:
		case found != "":
			return name
		default:
			found = u.name
		}
	}
	if found == "" {
		return name
	}
	return found
}

// ParseShare reads a share as people type it: 15 %, 15, and 0.15 as documents
// have it. A bare 1 may be either, and is refused.
func ParseShare(s string) (float64, error) {
	number, wrong := point(strings.TrimSpace(s))
	v, err := strconv.ParseFloat(number, 64)
	switch {
	case wrong != "" || err != nil || !(v >= 0 && v <= 1):
		return ParsePercent(s)
	case v == 1:
		return 0, fmt.Errorf("%q may be 1 %% or all of it: write 1 %% or 100 %%", clip(s))
	}
	return v, nil
}

// ShareText spells a share as people type it, "15 %".
func ShareText(v float64) string { return strconv.FormatFloat(100*v, 'g', 12, 64) + " %" }

// span is a figure, or a lowest and a highest one.
var span = sync.OnceValue(func() *regexp.Regexp {
	const figure = `(\d+\.?\d*|\.\d+)`
	return regexp.MustCompile(`^` + figure + `(?:(?:\s*(?:to|,|-|–)\s*|\s+)` + figure + `)?$`)
})

// ParseSpan reads a lowest and a highest figure: "3.5 to 6", "3.5-6", "3.5, 6",
// "3.5 6", [3.5, 6] as documents have it; "3.5" is both. A minus that leads a figure
// is refused, never read as a dash.
func ParseSpan(s string) (low, high float64, err error) {
	s = strings.TrimSpace(s)
	text := s
	if strings.HasPrefix(s, "[") && strings.HasSuffix(s, "]") {
		text = strings.TrimSpace(s[1 : len(s)-1])
	}
	m := span().FindStringSubmatch(text)
	if m == nil {
		return 0, 0, fmt.Errorf("%q is not a lowest and highest figure; write 3.5 to 6, or 0-2", clip(s))
	}
	if m[2] == "" {
		m[2] = m[1]
	}
	if low, err = strconv.ParseFloat(m[1], 64); err == nil {
		high, err = strconv.ParseFloat(m[2], 64)
	}
	if err != nil {
		return 0, 0, fmt.Errorf("%q is beyond reason; write 3.5 to 6, or 0-2", clip(s))
	}
	return low, high, nil
}

// SpanText spells them as people type them, "3.5 to 6".
func SpanText(low, high float64) string {
	a, b := strconv.FormatFloat(low, 'f', -1, 64), strconv.FormatFloat(high, 'f', -1, 64)
	if low == high {
		return a
	}
	return a + " to " + b
}

// ParsePercent reads a percentage as people type it, "93", "93 %", "0,7%", from 0 to
// 100, as a share of 1.
func ParsePercent(s string) (float64, error) {
	number, wrong := point(strings.TrimSuffix(strings.TrimSpace(s), "%"))
	v, err := strconv.ParseFloat(strings.TrimSpace(number)+"e-2", 64) // divided, 0.7 would get digits that nobody typed
	if wrong != "" || err != nil || !(v >= 0 && v <= 1) {
		return 0, fmt.Errorf("%q is no percentage from 0 to 100", clip(s))
	}
	return v, nil
}
