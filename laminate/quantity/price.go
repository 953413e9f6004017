package quantity

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// Price is money per mass, the currency as the shop writes it.
type Price struct {
	Amount   float64 // per unit of mass named
	Per      Mass    // the mass it buys
	Currency string  // may be empty
	Text     string  // as typed
}

// Given tells whether a price was stated.
func (p Price) Given() bool { return p.Text != "" }

// PerKilogram gives the amount for one kilogram.
func (p Price) PerKilogram() float64 { return p.Amount / p.Per.SI() }

var errPrice = errors.New(`a price reads "4.20 per kg" or "USD 4.20 per lb"`)

// ParsePrice reads money per mass: "4.20 per kg", "USD 4.20 per lb",
// "4.20 EUR per 25 kg". The currency is whatever the shop writes; figures of
// different currencies are never added up.
func ParsePrice(text string) (Price, error) {
	fail := func(why string) (Price, error) { return Price{}, fmt.Errorf("%s; %w", why, errPrice) }
	money, per, found := strings.Cut(strings.TrimSpace(text), " per ")
	if !found {
		return fail("the mass is missing")
	}
	per = strings.TrimSpace(per)
	if per != "" && (per[0] < '0' || per[0] > '9') {
		per = "1 " + per
	}
	p := Price{Text: strings.TrimSpace(text)}
	if err := Read(&p.Per, per); err != nil {
		return fail(err.Error())
	}
	if p.Per.SI() <= 0 {
		return fail("the mass is not above zero")
	}
	fields := strings.Fields(money)
	figure := -1
	for i, f := range fields {
		if f[0] >= '0' && f[0] <= '9' || f[0] == '-' || f[0] == '.' {
			figure = i
			break
		}
	}
	if figure < 0 || len(fields) > 2 {
		return fail("it needs one figure and at most a currency")
	}
	v, err := strconv.ParseFloat(fields[figure], 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) || !isDecimal(fields[figure]) {
		return fail(fmt.Sprintf("%q is not a number", fields[figure]))
	}
	if v < 0 || math.IsInf(v/p.Per.SI(), 0) {
		return fail(fmt.Sprintf("%q is no price", fields[figure]))
	}
	p.Amount = v
	if len(fields) == 2 {
		p.Currency = fields[1-figure]
		if !Currency(p.Currency) {
			return fail(fmt.Sprintf("%q is no currency", p.Currency))
		}
	}
	return p, nil
}

func isDecimal(s string) bool { return strings.Trim(s, "0123456789.-") == "" }

// Currency tells whether a word can name a currency; the empty one can.
func Currency(s string) bool {
	for _, r := range s {
		if !unicode.IsLetter(r) && !unicode.Is(unicode.Sc, r) {
			return false
		}
	}
	return len(s) <= 12
}
