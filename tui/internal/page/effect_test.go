package page

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
)

// One row of mats behind a veil is barrier and structure. Changing a part of it
// makes the document's row two, and that is said; changing another row does not.
func TestOutcome_saysWhenARowIsWrittenAsTwo(t *testing.T) {
	lib := catalog.Library()
	s := &laminate.Schedule{Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}}, Plies: []laminate.Ply{
		{Material: catalog.VeilC15, Resin: "r", Count: 1}, {Material: catalog.Mat15, Resin: "r", Count: 4}, {Material: catalog.Topcoat, Resin: "r", Count: 1},
	}}
	s.Plies = laminate.SplitRow(s, lib)
	judge := func(s *laminate.Schedule) *rules.Report { return all.Judge(s, lib, rules.Options{}) }
	for _, c := range []struct {
		e    edit.Edit
		says bool
	}{{edit.SetGel(s, lib, 1, true), true}, {edit.Remove(s, lib, 3), false}} {
		n, err := c.e.Do(s)
		if err != nil {
			t.Fatal(err)
		}
		if got := Outcome(c.e.Label, judge(s), judge(n), quantity.US); strings.Contains(got, "written as two") != c.says {
			t.Errorf("%s: %q", c.e.Label, got)
		}
	}
}
