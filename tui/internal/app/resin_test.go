package app

import (
	"strings"
	"testing"

	"frp/veilwright/schedules"
	"frp/veilwright/tui/internal/tuitest"
)

// nothing is a schedule as it begins: no resin, no ply.
func nothing() string { return empty[:strings.Index(empty, "[[resin]]")] }

func TestFirstResin_aWallFromNothingByDigits(t *testing.T) {
	keys := []string{"1", "5", "3", "+", ".", "3", "5", "3", "5", "3"}
	for name, typed := range map[string][]string{"one by one": keys, "in one read": {strings.Join(keys, "")}} {
		t.Run(name, func(t *testing.T) {
			g := fresh(t, string(schedules.Blank("Fresh")), 80, 24)
			tuitest.Press(t, g.r, typed...)
			g.wants("veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5")
			s := g.r.Document().Now()
			if len(s.Resins) != 1 || s.Resins[0].ID != "barrier" || s.Resins[0].Family.String() != "vinyl-ester" {
				t.Fatalf("resins are %+v", s.Resins)
			}
			for i := range s.Plies {
				if s.Plies[i].Resin != "barrier" {
					t.Errorf("row %d is laid in %q", i+1, s.Plies[i].Resin)
				}
			}
		})
	}
}

func TestFirstResin_isAskedAndOneChange(t *testing.T) {
	for _, size := range [][2]int{{60, 16}, {80, 24}, {200, 60}} {
		g := fresh(t, nothing(), size[0], size[1]).press("1")
		g.shows("Which resin is this barrier laid in?", "1 isophthalic-polyester", "8 brominated-novolac-vinyl-ester", "Esc leave").wants("")
		g.press("9").shows("no row has the number 9").wants("")
		g.press("7").wants("veil-c-15")
		if r := g.r.Document().Now().Resins; len(r) != 1 || r[0].Family.String() != "novolac-vinyl-ester" {
			t.Fatalf("resins are %+v", r)
		}
		g.press("u").wants("")
		if s := g.r.Document().Now(); len(s.Resins) != 0 || g.r.Document().Dirty() {
			t.Errorf("one undo leaves %d resins", len(s.Resins))
		}
		g.press("1").esc().shows("left as it was").wants("")
		if g.r.Document().CanUndo() {
			t.Error("a question left alone changed something")
		}
	}
}

func TestFirstResin_byName(t *testing.T) {
	g := fresh(t, nothing(), 80, 24).press("0 w o v e n").shows("no resin is stated yet")
	g.press("enter").shows("Which resin is this structure laid in?").press("1").wants("woven-18")
	if r := g.r.Document().Now().Resins[0]; r.ID != "structure" || r.Family.String() != "isophthalic-polyester" {
		t.Errorf("the resin is %+v", r)
	}
}

func TestFix_saysWhereToGo(t *testing.T) {
	weak := strings.Replace(empty, "[service]", "inside_diameter = \"36 in\"\n[service]\npressure = \"60 psi\"", 1)
	g := fresh(t, weak, 80, 24).press("1 3 + . 3")
	for range g.r.Document().Report().Findings {
		if strings.Contains(g.screen(), "Tab 2 shows how much") {
			break
		}
		g.press("n")
	}
	g.shows("fix  Tab 2 shows how much structure is needed")
	g.press("f").shows("no automatic fix; Tab 2")
	g.press("w").shows("on the bench, Tab 2")
	g = header(t, 80, 24).press("n n").shows("j: state what is missing in the job data")
	g.press("f").shows("no automatic fix; j: state")
}
