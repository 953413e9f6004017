package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// yield is the trade's inverse tow size: tex = 496 055 / (yd/lb).
const yield = "yd/lb"

// yieldSI is the tow size in kg/m of one yard per pound.
const yieldSI = pound / (3 * foot)

// UnitError says what a text lacks to be a quantity and which units would do.
type UnitError struct {
	Text   string
	Noun   string
	Reason string
	Units  []string
}

func (e *UnitError) Error() string {
	return fmt.Sprintf("%q is no %s: %s; write a number and one of %s", e.Text, e.Noun, e.Reason, list(e.Units))
}

// Parse reads a number and a unit: "0.25 in", "3/16 in", "1-1/2 in",
// "1 1/2 in", "450g/m2". Infinities, NaN and figures that overflow are errors;
// signs and sizes are the caller's to judge, except that a temperature below
// absolute zero is none and a tow size is above zero.
func Parse[D Dimension](s string) (Quantity[D], error) {
	var d D
	fail := func(reason string) (Quantity[D], error) {
		return Quantity[D]{}, &UnitError{Text: clip(s), Noun: d.noun(), Reason: reason, Units: Units[D]()}
	}
	text := strings.TrimSpace(s)
	if text == "" {
		return fail("it is empty")
	}
	if strings.ContainsFunc(s, unicode.IsControl) {
		return fail("it has a line break or another control character")
	}
	number, name := split(text)
	if number == "" {
		return fail("it does not begin with a number")
	}
	v, err := parseNumber(number)
	if err != nil {
		return fail(err.Error())
	}
	if name == "" {
		return fail("the unit is missing")
	}
	if d.noun() == "tow size" && name == yield {
		if v <= 0 {
			return fail("a yield is above zero")
		}
		si := yieldSI / v
		if math.IsInf(si, 0) || si == 0 {
			return fail("the figure is beyond reason")
		}
		return Quantity[D]{si: si, given: true, text: text}, nil
	}
	for _, u := range d.units() {
		if !u.answersTo(name) {
			continue
		}
		si := v*u.scale + u.offset
		switch {
		case math.IsInf(si, 0) || math.IsNaN(si):
			return fail("the figure is beyond reason")
		case si == 0 && v != 0 && u.offset == 0:
			return fail("the figure is too small to mean anything")
		case d.noun() == "temperature" && si < 0:
			return fail("that is below absolute zero")
		case d.noun() == "tow size" && si <= 0:
			return fail("a tow size is above zero")
		}
		return Quantity[D]{si: si, given: true, text: text}, nil
	}
	return fail(fmt.Sprintf("%q is not a unit of it", clip(name)))
}

// Read is Parse into a quantity, for those who hold one of a dimension that
// has no name outside.
func Read[D Dimension](into *Quantity[D], s string) error {
	q, err := Parse[D](s)
	if err != nil {
		return err
	}
	*into = q
	return nil
}

// Noun says what kind of value this is: "length", "areal mass".
func (q Quantity[D]) Noun() string {
	var d D
	return d.noun()
}

// UnitNames lists the units a document may use for the value.
func (q Quantity[D]) UnitNames() []string { return Units[D]() }

// split separates the number from the unit.
func split(text string) (number, name string) {
	i := 0
	for i < len(text) {
		c := text[i]
		switch {
		case c >= '0' && c <= '9', c == '.', c == '/', c == '+':
		case c == '-' && (i == 0 || text[i-1] != ' '):
		case (c == 'e' || c == 'E') && i > 0 && isDigit(text[i-1]) && exponentFollows(text[i+1:]):
			if text[i+1] == '-' || text[i+1] == '+' {
				i++
			}
		case c == ' ' && i+1 < len(text) && isDigit(text[i+1]):
		default:
			return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i:])
		}
		i++
	}
	return text, ""
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func exponentFollows(s string) bool {
	if s != "" && (s[0] == '-' || s[0] == '+') {
		s = s[1:]
	}
	return s != "" && isDigit(s[0])
}

type numberError string

func (e numberError) Error() string { return string(e) }

// parseNumber reads a decimal, a fraction "3/16" or a mixed number "1-1/2",
// "1 1/2".
func parseNumber(s string) (float64, error) {
	over, under, isFraction := strings.Cut(s, "/")
	if !isFraction {
		v, err := strconv.ParseFloat(s, 64)
		switch {
		case err != nil && strings.Contains(err.Error(), "range"):
			return 0, numberError("the figure is beyond reason")
		case err != nil:
			return 0, numberError(fmt.Sprintf("%q is not a number", clip(s)))
		case v == 0 && strings.ContainsAny(mantissa(s), "123456789"):
			return 0, numberError("the figure is too small to mean anything")
		}
		return v, nil
	}
	sign := 1.0
	if strings.HasPrefix(over, "-") {
		sign, over = -1, over[1:]
	}
	whole := 0.0
	w, rest, mixed := strings.Cut(strings.ReplaceAll(over, " ", "-"), "-")
	if mixed {
		v, err := natural(w)
		if err != nil {
			return 0, err
		}
		whole, over = v, rest
	}
	n, err := natural(over)
	if err != nil {
		return 0, err
	}
	m, err := natural(under)
	if err != nil {
		return 0, err
	}
	if m == 0 {
		return 0, numberError("a fraction cannot be over zero")
	}
	if mixed && n >= m {
		return 0, numberError("the fraction beside a whole number is below one")
	}
	return sign * (whole + n/m), nil
}

func mantissa(s string) string {
	if i := strings.IndexAny(s, "eE"); i >= 0 {
		return s[:i]
	}
	return s
}

func natural(s string) (float64, error) {
	v, err := strconv.ParseUint(strings.TrimSpace(s), 10, 32)
	if err != nil {
		return 0, numberError(fmt.Sprintf("%q is not a whole number in a fraction", clip(s)))
	}
	return float64(v), nil
}

// clip keeps messages short and free of control characters.
func clip(s string) string {
	const most = 40
	r := []rune(strings.ToValidUTF8(s, "?"))
	if len(r) > most {
		r = append(r[:most], '…')
	}
	return string(r)
}
