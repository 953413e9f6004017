package schedules

import (
	"slices"
	"testing"
)

func TestFactChanges_tellsWhatIsStatedDifferently(t *testing.T) {
	_, a, problems := Decode(Example(), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	_, b, _ := Decode(Example(), nil)
	if got := FactChanges(a, b); len(got) != 0 {
		t.Errorf("a schedule differs from itself: %v", got)
	}
	_, b, problems = Decode([]byte(`document = "schedule"
format = 1
title = "Scrubber drain header, north stack"
[service]
pressure = "25 psi"
[[resin]]
id = "barrier"
family = "novolac-vinyl-ester"
[[resin]]
id = "cover"
family = "vinyl-ester"
`), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	got := FactChanges(a, b)
	for _, want := range []FactChange{
		{"service.pressure", `"15 psi"`, `"25 psi"`},
		{"part.form", `"pipe"`, ""},
		{"resin barrier: family", `"vinyl-ester"`, `"novolac-vinyl-ester"`},
		{"resin structure: id", `"structure"`, ""},
		{"resin cover: id", "", `"cover"`},
	} {
		if !slices.Contains(got, want) {
			t.Errorf("%v is not among %v", want, got)
		}
	}
}
