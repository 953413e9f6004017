package shop_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/shop/shoptest"
)

// Whatever stands where a value is expected, in whichever document and key, it
// is taken or told in plain words, spelled as documents spell it, with a line.
func TestOpen_anyValueAnywhereIsTakenOrTold(t *testing.T) {
	values := []string{
		"inf", "-inf", "nan", "-nan", "1e308", "-1e308", "5e-324", "-0.0", "9223372036854775807", "-9223372036854775808", "0x7fffffffffffffff",
		`"inf"`, `"inf in"`, `"nan degC"`, `"1e999 psi"`, `"-0 in"`, `"0x1p3 in"`, `"1_0 in"`, `"٣ in"`, `""`, `" "`, `"\u0000"`, `"\u001b[2J"`, `"\u202egnp"`, "'''\n'''",
		"[inf, nan]", "[]", "[[]]", "{}", "{a = 1}", "true", "2024-02-30", "1979-05-27T07:32:00Z", "07:32:00",
	}
	line := regexp.MustCompile(`(?m)^\s*[a-z_.]+\s*=\s*([^\n\[{]+|\[[^\n]*\]\s*)$`)
	unspelled := regexp.MustCompile(`[+-]Inf|NaN|%!|map\[|<nil>|interface|int64|float64`)
	seen := map[string]bool{} // keys of any document of the kind
	for _, text := range shoptest.Corpus(t, "../..") {
		kind, _ := schedules.Sniff(text)
		for _, at := range line.FindAllSubmatchIndex(text, -1) {
			key := string(bytes.TrimSpace(bytes.SplitN(text[at[0]:at[1]], []byte("="), 2)[0]))
			if seen[kind.String()+" "+key] {
				continue
			}
			seen[kind.String()+" "+key] = true
			for _, value := range values {
				changed := string(text[:at[2]]) + value + string(text[at[3]:])
				o := shop.New(shop.Options{NoBook: true}).Open("a.toml", []byte(changed), ".")
				if o.Schedule != nil && o.Usable() {
					for _, f := range rules.Judge(all.Rules(), o.Schedule, o.Library, rules.Options{}).Findings {
						if unspelled.MatchString(f.Message) {
							t.Errorf("%s = %s: %s", key, value, f.Message)
						}
					}
				}
				for _, p := range o.Problems {
					said := p.String()
					if unspelled.MatchString(said) || p.Line < 1 || strings.ContainsAny(said, "\x00\x1b\n") {
						t.Errorf("%s = %s: %s", key, value, said)
					}
				}
			}
		}
	}
}
