package app

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules"
	"frp/veilwright/tui/internal/tuitest"
)

// nothing is a schedule as it begins: no resin, no ply.
func nothing() string { return empty[:strings.Index(empty, "[[resin]]")] }

// The keys that README gives build the wall it says, glued or one by one: what
// the resins are is asked afterwards, by a key of its own.
func TestResin_aWallFromNothingByDigits(t *testing.T) {
	keys := []string{"1", "3", "+", ".", "3", "5", "3", "5", "3"}
	for name, typed := range map[string][]string{"one by one": keys, "in one read": {strings.Join(keys, "")}} {
		t.Run(name, func(t *testing.T) {
			g := fresh(t, string(schedules.Blank("Fresh")), 80, 24)
			tuitest.Press(t, g.r, typed...)
			g.wants("veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5")
			s := g.r.Document().Now()
			if len(s.Resins) != 2 || s.Resins[0] != (laminate.Resin{ID: "barrier"}) || s.Resins[1] != (laminate.Resin{ID: "structure"}) {
				t.Fatalf("resins are %+v", s.Resins)
			}
			for i := range s.Plies {
				want := "structure"
				if i < 2 {
					want = "barrier"
				}
				if s.Plies[i].Resin != want {
					t.Errorf("row %d is laid in %q", i+1, s.Plies[i].Resin)
				}
			}
		})
	}
}

func TestResin_familyIsAskedByTheFixKeyOneAfterTheOther(t *testing.T) {
	for _, size := range [][2]int{{60, 16}, {80, 24}, {200, 60}} {
		g := fresh(t, nothing(), size[0], size[1]).press("1 3 5")
		for range g.r.Document().Report().Findings {
			if strings.Contains(g.screen(), "choose the resin family") {
				break
			}
			g.press("n")
		}
		g.shows("choose the resin family", "f asks the resin families")
		g.press("f").shows("Resin barrier has no family yet", "1 isophthalic-polyester", "8 brominated-novolac-vinyl-ester")
		g.press("9").shows("no row has the number 9")
		// The second question points at the first one's answer.
		g.press("7").shows("Resin structure has no family yet").press("enter")
		r := g.r.Document().Now().Resins
		if len(r) != 2 || r[0].Family != laminate.NovolacVinylEster || r[1].Family != laminate.NovolacVinylEster {
			t.Fatalf("resins are %+v", r)
		}
		g.press("u u")
		if r := g.r.Document().Now().Resins; r[0].Family != laminate.NoFamily {
			t.Errorf("undone, the resins are %+v", r)
		}
	}
}

func TestFix_saysWhereToGo(t *testing.T) {
	weak := strings.Replace(empty, "[service]", "inside_diameter = \"36 in\"\n[service]\npressure = \"60 psi\"\nvacuum = \"0 psi\"", 1)
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
