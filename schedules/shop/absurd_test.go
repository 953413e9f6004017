package shop_test

import (
	"strings"
	"testing"

	"frp/veilwright/rules"
	"frp/veilwright/schedules/shop"
)

// A wall with nothing to complain of but a missing gel stop.
const plain = `document = "schedule"
format = 1
title = "plain"

[part]
form = "pipe"
process = "contact"
inside_diameter = "12 in"
length = "10 ft"

[service]
fluid = "rinse water"
temperature = "100 degF"
ph = [6, 8]
contains = []
pressure = "10 psi"
vacuum = "0 psi"

[[resin]]
id = "ve"
family = "vinyl-ester"

[[ply]]
material = "veil-c-15"
resin = "ve"

[[ply]]
material = "mat-1.5"
resin = "ve"
count = 4
gel_after = false

[[ply]]
material = "topcoat"
resin = "ve"
`

// What cannot be is a problem of the document with line and key; what can be
// and is beyond what the program knows is at least incomplete. Nothing of it is
// clear.
func TestOpen_absurdFactsAreNeverClear(t *testing.T) {
	judge := func(text string) (rules.Severity, string) {
		o := shop.New(shop.Options{NoBook: true}).Open("absurd.toml", []byte(text), t.TempDir())
		v, _ := o.Verdict(rules.Options{})
		return v, o.Why()
	}
	if v, why := judge(plain); v > rules.Warning {
		t.Fatalf("the plain wall is %v: %s", v, why)
	}
	for _, c := range []struct {
		old, text string
		says      string // in the problem; empty where the document can be used
	}{
		{`"100 degF"`, `"1e9 degF"`, `service.temperature: "1e9 degF" is beyond reason`},
		{`"100 degF"`, `"nan degF"`, "service.temperature"},
		{`"100 degF"`, `"1000 degF"`, ""},
		{`"100 degF"`, `"-100 degF"`, ""},
		{`[6, 8]`, `[40, 40]`, "service.ph: [40, 40] is beyond reason"},
		{`[6, 8]`, `[6, 17]`, ""},
		{`[6, 8]`, `[nan, 8]`, "service.ph"},
		{`"12 in"`, `"1 mm"`, ""},
		{`"12 in"`, `"1000 m"`, "part.inside_diameter"},
		{`"12 in"`, `"50 m"`, ""},
		{`"10 psi"`, `"inf psi"`, "service.pressure"},
		{`"10 psi"`, `"1e9 psi"`, "service.pressure"},
		{`"10 psi"`, `"-1 psi"`, "service.pressure"},
		{`count = 4`, `count = 400`, ""},
		{`count = 4`, `count = -4`, "ply.count"},
		{"form = \"pipe\"", "form = \"panel\"\nstiffener_spacing = \"1 ft\"", "part.stiffener_spacing: a panel"},
		{"form = \"pipe\"", "form = \"panel\"", ""},
		{"[[resin]]", "[[condition]]\nname = \"steam-out\"\ntemperature = \"300 degF\"\n\n[[resin]]", "condition.temperature: \"300 degF\" is above the service's"},
		{"[[resin]]", "[[condition]]\nname = \"steam-out\"\ntemperature = \"90 degF\"\nvacuum = \"5 psi\"\n\n[[resin]]", "condition.vacuum: \"5 psi\" is above the service's"},
	} {
		v, why := judge(strings.Replace(plain, c.old, c.text, 1))
		if v < rules.Incomplete || (c.says != "") != (v == rules.Unusable) || !strings.Contains(why, c.says) {
			t.Errorf("%s: %v, %q, want %q", c.text, v, why, c.says)
		}
	}
}
