package app

import (
	"strings"
	"testing"

	"frp/veilwright/tui/internal/tuitest"
)

// The tasks a shop lead has on the floor, in the keys they may cost.
func TestFloor_tasksInFewKeys(t *testing.T) {
	for _, tc := range []struct {
		name, keys, plies string
		shows             string
	}{
		{"swap the veil everywhere", "home r 2 enter", "veil-polyester-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5", "swapped veil-c-15"},
		{"double the barrier", "* 3 enter", "veil-c-15×2 mat-1.5×4| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5", "barrier 226 mil"},
		{"fix", "f", "veil-polyester-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5", "u undoes it"},
		{"lay by digit", "9", headerPlies + " topcoat", "added ply 9 topcoat"},
		{"lay on the process face", "home up 2", "veil-polyester-15 " + headerPlies, "added ply 1 veil-polyester-15"},
		{"count", "+ +", headerPlies + "×3", "total 401 mil"},
		{"count down", "home down -", "veil-c-15 mat-1.5| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5", "took 1 ply"},
		{"gel stop", ".", headerPlies + "|", "gel stop after ply 8"},
		{"lift a gel stop", "home down .", "veil-c-15 mat-1.5×2 mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5", "took away the gel stop"},
		{"remove", "x", "veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24", "removed ply 8 mat-1.5"},
		{"duplicate", "up d", "veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 woven-24 mat-1.5", "duplicated ply 7"},
		{"carry", "g up up enter", "veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 mat-1.5 woven-24", "moved ply 8 mat-1.5 inward"},
		{"carry, put back", "g up", headerPlies, "would do"},
		{"times row", "* 1 enter", headerPlies + "×2", "2 times as many"},
		{"times last rows", "* 2 enter", headerPlies + " woven-24 mat-1.5", "made the last 2 rows 2 times"},
		{"times last three rows thrice", "* 2 right + enter", headerPlies + strings.Repeat(" mat-1.5 woven-24 mat-1.5", 2), "made the last 3 rows 3 times"},
		{"times structure", "* 4 enter", headerPlies + " mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5", "made the structure 2 times"},
		{"swap here only", "home r 2 .", "veil-polyester-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5", "swapped ply 1"},
		{"swap one mat of several", "r 4 .", "veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 mat-0.75", "swapped ply 8"},
		{"swap by name", "home r 0 v - c a r enter enter", "veil-carbon-11 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5", "swapped veil-c-15"},
		{"lay by name", "0 t o p enter", headerPlies + " topcoat", "added ply 9 topcoat"},
		{"undo", "9 u", headerPlies, "undid: added ply 9 topcoat"},
		{"redo", "9 u y", headerPlies + " topcoat", "did again"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			header(t, 80, 24).press(tc.keys).wants(tc.plies).shows(tc.shows)
		})
	}
}

func TestFloor_aWallFromNothing(t *testing.T) {
	g := fresh(t, empty, 80, 24)
	g.shows("a number key adds the first ply")
	g.press("1 3 + . 3 5 3 5 3").wants("veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5")
	rows := g.r.Document().Report().Analysis.Rows
	if got := rows[1].Zone.String() + " " + rows[2].Zone.String(); got != "interior-layer structural-layer" {
		t.Errorf("the gel stop parts %s", got)
	}
	// A laid ply takes its zone's resin: the first resin in the barrier, the other in the wall.
	p := g.r.Document().Now().Plies
	if p[0].Resin != "barrier" || p[1].Resin != "barrier" || p[2].Resin != "structure" || p[6].Resin != "structure" {
		t.Errorf("resins are %s %s | %s … %s", p[0].Resin, p[1].Resin, p[2].Resin, p[6].Resin)
	}
}

func TestKeys_sayWhyTheyCannotAct(t *testing.T) {
	for _, tc := range []struct{ name, keys, want string }{
		{"count below one", "-", "x removes the row"},
		{"undo with no change", "u", "nothing to undo"},
		{"redo with nothing taken back", "y", "nothing to do again"},
		{"past the outside", "down", "outermost ply"},
		{"past the process face", "home up up", "inward of it is the fluid"},
		{"count on the process face", "home up +", "no ply: ↓ goes to ply 1"},
		{"back with nothing followed", "b", "no finding was followed"},
		{"a key of nothing", "!", "! does nothing here: ? shows the keys"},
		{"swap with nothing taken", "r enter", "no material is taken yet"},
		{"a key of nothing in a choice", "* z", "z does nothing here"},
		{"carry past the end", "g down", "outermost ply already"},
		{"fix what nothing mechanical fixes", "n n n n f", "no automatic fix"},
		{"suspend with no shell", "ctrl+z", "no shell to come back from"},
		{"esc with nothing open", "esc", "q quits"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			g := header(t, 80, 24)
			if tc.keys == "esc" {
				g.esc()
			} else {
				g.press(tc.keys)
			}
			g.shows(tc.want).wants(headerPlies)
		})
	}
}

func TestChoices_previewBeforeEnter(t *testing.T) {
	g := header(t, 80, 24).press("* 3")
	g.shows("barrier 113→226 mil", "Enter does it").wants(headerPlies)
	g.press("+").shows("barrier 113→339 mil")
	g.esc().shows("barrier 113 mil", "left as it was").wants(headerPlies)
	if g.r.Document().CanUndo() {
		t.Error("a choice that was left can be undone")
	}
}

func TestFindings_leadToPliesAndBack(t *testing.T) {
	g := header(t, 80, 24)
	g.press("n").shows("finding 1 of", "at ply 1", "▸1 ")
	g.press("n n").shows("at ply 8")
	g.press("n b").shows("back at ply 8")
	g.press("w").shows("basis", "rule", "fires")
	g.esc().shows("digit adds a ply")
}

func TestFindings_newOnesAreMarked(t *testing.T) {
	header(t, 80, 24).hides("NEW")
	// One more glass veil is the same break, about more plies.
	header(t, 80, 24).press("home d").hides("NEW")
	// A woven ply on a woven ply is a break, named in the notice too.
	header(t, 80, 24).press("up d").shows("NEW", "break 1→2", "woven")
	header(t, 80, 24).press("f").shows("break 1→0").hides("NEW")
}

func TestRow_opens(t *testing.T) {
	g := header(t, 80, 24).press("enter").shows("glass content", "angle", "resin", "zone", "voids")
	g.press("2 8").shows("structure 201→")
	g.press("down down 1").shows("●1 barrier")
	g.press("enter")
	p := g.r.Document().Now().Plies[6]
	if p.GlassContent.Value != 0.28 || p.Resin != "barrier" {
		t.Errorf("the row is %+v", p)
	}
	g.shows("glass content 28 %, resin barrier", "u undoes it")
	g.press("u").wants(headerPlies)
	if p := g.r.Document().Now().Plies[6]; p.GlassContent.Given || p.Resin != "structure" {
		t.Errorf("undone, the row is %+v", p)
	}
	g.press("enter 3 0 0 enter").shows("no percentage from 0 to 100")
	g.esc().wants(headerPlies)
}

func TestKeys_gluedAndSplit(t *testing.T) {
	g := header(t, 80, 24)
	tuitest.Press(t, g.r, "99+") // three keys in one read
	g.wants(headerPlies + " topcoat topcoat×2")
	g = header(t, 80, 24)
	tuitest.Press(t, g.r, "esc", "[A", "esc", "[A", "d") // two arrows up, each split behind Esc
	g.wants("veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 mat-1.5 woven-24 mat-1.5")
	tuitest.Send(t, g.r, tuitest.Paste("99999"))
	g.wants("veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 mat-1.5 woven-24 mat-1.5").shows("pasted text goes into fields only")
}

func TestUnits_switch(t *testing.T) {
	g := header(t, 80, 24).press("i").shows("mm", "barrier 2.87 mm", "7.97")
	if g.r.Document().Dirty() {
		t.Error("another unit on the screen changes the document")
	}
	g.press("i").shows("barrier 113 mil")
}

func TestHelp_showsEveryKeyOfThePage(t *testing.T) {
	g := header(t, 100, 60).press("?").shows("add a ply from the rack", "carry the row", "Everywhere", "not now: nothing to undo")
	g.press("?").shows("digit adds a ply")
	header(t, 80, 24).press("* ?").shows("how often in all").hides("take the last change back")
}

// Of a long wall a fix is tried out when keys pause, or when it is asked for.
func TestLongWall_fixesWhenKeysPause(t *testing.T) {
	g := fresh(t, string(long(400)), 80, 24).hides("f do it")
	tuitest.Send(t, g.r, restMsg{})
	g.shows("veil-polyester-15", "f do it")
	g.press("home").shows("f do it")
	g = fresh(t, string(long(400)), 80, 24).press("f")
	if got := g.r.Document().Now().Plies[0].Material; got != "veil-polyester-15" {
		t.Errorf("fixed at once, ply 1 is %s", got)
	}
	// While keys come, the pause is waited for anew.
	g = fresh(t, string(long(400)), 80, 24).press("+ +")
	tuitest.Send(t, g.r, restMsg{})
	g.hides("f do it")
	tuitest.Send(t, g.r, restMsg{})
	g.shows("f do it")
}

// A slip in a row's form is refused with the bounds: taken, it could not be
// saved, and would keep everything since the last save from being taken up.
func TestFloor_aGlassContentBeyondReasonIsRefusedWithTheBounds(t *testing.T) {
	for _, share := range []string{"9 7", "0 . 5"} {
		g := header(t, 80, 24).press("enter " + share + " enter")
		g.shows("from 0.01 to 0.95")
		if g.r.Document().Dirty() {
			t.Errorf("%s %% of glass was taken", share)
		}
		g.esc().press("+ s").shows("saved ")
	}
}
