package quantity

import (
	"frp/veilwright/laminate/word"
	"math"
	"strings"
	"testing"
)

func TestParsePrice(t *testing.T) {
	for text, want := range map[string]struct {
		perKilogram float64
		currency    string
	}{
		"4.20 per kg":        {4.2, ""},
		"USD 4.20 per lb":    {4.2 / 0.45359237, "USD"},
		"4.20 EUR per 25 kg": {4.2 / 25, "EUR"},
		"€ 3 per kg":         {3, "€"},
		" 0 per kg ":         {0, ""},
		"5 per 500 g":        {10, ""},
	} {
		p, err := ParsePrice(text)
		if err != nil || math.Abs(p.PerKilogram()-want.perKilogram) > 1e-9 || p.Currency != want.currency || p.Text != strings.TrimSpace(text) || !p.Given() {
			t.Errorf("%q is %+v (%v)", text, p, err)
		}
	}
	for _, text := range []string{"", "4.20", "per kg", "4.20 per", "4.20 per hour", "-1 per kg", "nan per kg", "Inf per kg", "1e400 per kg", "4,20 per kg",
		"USD per kg", "a b 4 per kg", "4 per 0 kg", "4 per -1 kg", "4 \x1b per kg", "4 per kg\x1b", "0x1 per kg", "U5D 4 per kg", "1 2 per kg"} {
		p, err := ParsePrice(text)
		if err == nil || p.Given() {
			t.Errorf("%q is %+v", text, p)
			continue
		}
		if r, bad := word.BadCharacter(err.Error(), false); bad || !strings.Contains(err.Error(), "4.20 per kg") {
			t.Errorf("%q is answered with %q (%U)", text, err, r)
		}
	}
}
