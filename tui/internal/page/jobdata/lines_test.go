package jobdata

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
)

const everything = `document = "schedule"
format = 1
title = "Bleach tower"
job = "B-9"
revision = 2
author = "shop"
[part]
form = "tank"
process = "contact"
inside_diameter = "2.4 m"
length = "12 ft"
liquid_height = "11 ft"
area = "40 m2"
flanged = false
ends = "open"
design_basis = "unit-load"
grounding = "lug"
stiffener_spacing = "4 ft"
modulus_retention= 0.8
k_factors = [1.5, 1.2, 1.0, 1.1, 1.5]
[service]
fluid = "bleach"
concentration = 0.125
temperature = "120 degF"
upset = "55 degC"
ph = [10.0, 12.5]
contact = "immersed"
contains = ["hypochlorite", "strong-base"]
pressure = "0 psi"
vacuum = "0.5 psi"
test_pressure = "3 psi"
specific_gravity = 1.2
flame_spread = 25
conductive = false
abrasive = true
[[condition]]
name = "steam-out"
temperature = "110 degF"
pressure = "0 psi"
vacuum = "0.5 psi"
modulus_retention = 0.6
[[resin]]
id = "barrier"
family = "brominated-vinyl-ester"
filler = "silicon-carbide"
filler_content = 0.35
cure = "peroxide-amine"
flame_spread_tested = 20
`

func lines(t *testing.T, text string) (*laminate.Schedule, []entry) {
	t.Helper()
	_, s, problems := schedules.Decode([]byte(text), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	u := quantity.US
	return s, slices.Concat(header(s), part(s, u), service(s, u), conditions(s, u), resins(s))
}

// Taking a line as it stands says nothing new: what is shown is what is stated.
func TestLines_readBackWhatTheyShow(t *testing.T) {
	s, list := lines(t, everything)
	shown := 0
	for _, en := range list {
		if en.section == "Another resin" || en.field.Label == "another" {
			continue
		}
		if en.field.Text == "" {
			t.Errorf("%s: %s shows nothing", en.section, en.field.Label)
		}
		shown++
		e, err := en.set(en.field.Text)
		if err != nil {
			t.Errorf("%s: %v", en.field.Label, err)
			continue
		}
		next, err := e.Do(s)
		if err != nil {
			t.Errorf("%s: %v", en.field.Label, err)
			continue
		}
		if next != s {
			t.Errorf("%s %q, taken as it stands, changes the schedule", en.field.Label, en.field.Text)
		}
	}
	if shown != 37 {
		t.Errorf("%d lines, want 37", shown)
	}
}

// Emptied, a line states nothing any more; the id of a resin must stay,
// and says so.
func TestLines_canBeEmptied(t *testing.T) {
	s, list := lines(t, everything)
	for _, en := range list {
		e, err := en.set("")
		if en.section == "Another resin" {
			if err == nil {
				t.Error("a resin of no family is added")
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", en.field.Label, err)
			continue
		}
		next, err := e.Do(s)
		if en.field.Label == "another" && err == nil && next == s {
			continue // no condition is added by saying nothing
		}
		if err != nil || next == s {
			t.Errorf("%s emptied: changed %v, %v", en.field.Label, next != s, err)
		}
		if err == nil && !strings.Contains(e.Label, "not stated") {
			t.Errorf("%s emptied is told as %q", en.field.Label, e.Label)
		}
	}
}

func TestLines_refuseWhatCannotBeMeant(t *testing.T) {
	s, list := lines(t, everything)
	for label, bad := range map[string][]string{
		"inside diameter": {"12 bananas", "-3 in", "1e400 mm", "NaN in"},
		"temperature":     {"hot", "-500 degF"},
		"pH":              {"acid", "1 2 3", "6 to 3"},
		"k factors":       {"1.5", "a, b, c, d, e", "0.5 1 1 1 1"},
		"concentration":   {"120", "-1", "NaN"},
		"revision":        {"three", "-1"},
		"vacuum":          {"-1 psi"},
	} {
		for _, en := range list {
			if en.field.Label != label {
				continue
			}
			for _, text := range bad {
				e, err := en.set(text)
				if err == nil {
					_, err = e.Do(s)
				}
				if err == nil {
					t.Errorf("%s takes %q", label, text)
				}
			}
		}
	}
}

func TestLines_takeAnyUnit(t *testing.T) {
	s, list := lines(t, everything)
	for _, en := range list {
		if en.field.Label != "inside diameter" {
			continue
		}
		for text, want := range map[string]string{"36": "36 in", "1-1/2 ft": "1-1/2 ft", "900 mm": "900 mm"} {
			e, err := en.set(text)
			if err != nil {
				t.Fatal(err)
			}
			next, err := e.Do(s)
			if err != nil || next.Part.InsideDiameter.Text() != want {
				t.Errorf("%q is kept as %q, %v", text, next.Part.InsideDiameter.Text(), err)
			}
		}
	}
}

func TestResins_areAddedByFamily(t *testing.T) {
	s, list := lines(t, everything)
	e, err := list[len(list)-1].set("isophthalic-polyester")
	if err != nil {
		t.Fatal(err)
	}
	next, err := e.Do(s)
	if err != nil || len(next.Resins) != 2 || next.Resins[1].ID != "structure" || next.Resins[1].Family != laminate.Isophthalic {
		t.Errorf("resins are %v, %v", next.Resins, err)
	}
}
