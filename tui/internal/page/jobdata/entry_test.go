package jobdata

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

func TestReadPH_asPeopleWriteIt(t *testing.T) {
	for text, want := range map[string][2]float64{
		"7": {7, 7}, "0-2": {0, 2}, "3.5-6": {3.5, 6}, "3.5 - 6": {3.5, 6}, "3.5–6": {3.5, 6}, "3.5 to 6": {3.5, 6}, "3.5, 6": {3.5, 6}, " 3.5 6 ": {3.5, 6},
	} {
		got, err := readPH(text)
		if err != nil || !got.Given || got.Lowest != want[0] || got.Highest != want[1] {
			t.Errorf("%q is read as %+v, %v", text, got, err)
		}
	}
	for _, text := range []string{"-1", "2--3", "acid", "1 2 3", "3.5 to", "1e3", "NaN", "to 6"} {
		if got, err := readPH(text); err == nil || !strings.Contains(err.Error(), "write 3.5 to 6") {
			t.Errorf("%q is read as %+v, %v", text, got, err)
		}
	}
}

func TestLines_refuseGarbageWithAnExample(t *testing.T) {
	s := &laminate.Schedule{}
	var all []entry
	for _, list := range [][]entry{header(s), part(s, quantity.US), service(s, quantity.US)} {
		all = append(all, list...)
	}
	seen := 0
	for _, label := range []string{"revision", "inside diameter", "modulus retention", "k factors", "concentration", "temperature", "pH", "pressure inside", "specific gravity", "flame spread"} {
		for i := range all {
			if all[i].field.Label != label {
				continue
			}
			seen++
			if _, err := all[i].set("banana"); err == nil || !strings.Contains(err.Error(), "write ") {
				t.Errorf("%s: %v", label, err)
			}
		}
	}
	if seen != 10 {
		t.Errorf("%d of 10 lines are there", seen)
	}
}

func TestShares_showTheirUnit(t *testing.T) {
	s := &laminate.Schedule{}
	s.Service.Concentration = laminate.Some(0.15)
	for _, e := range service(s, quantity.US) {
		if e.field.Label == "concentration" && e.field.Text != "15 %" {
			t.Errorf("concentration reads %q", e.field.Text)
		}
	}
}

func TestResins_theFirstIsNoOther(t *testing.T) {
	list := resins(&laminate.Schedule{})
	if got := list[len(list)-1].section; got != "A resin" {
		t.Errorf("with no resin the line is under %q", got)
	}
}
