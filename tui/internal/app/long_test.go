package app

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/tui/internal/tuitest"
)

// thick is a wall of one veil, two mats and n times mat and woven roving.
func thick(n int) string {
	var b strings.Builder
	b.WriteString(empty)
	ply := func(material, resin, more string) {
		fmt.Fprintf(&b, "[[ply]]\nmaterial = %q\nresin = %q\n%s", material, resin, more)
	}
	ply("veil-c-15", "barrier", "")
	ply("mat-1.5", "barrier", "count = 2\ngel_after = true\n")
	for range n {
		ply("mat-1.5", "structure", "")
		ply("woven-24", "structure", "")
	}
	ply("topcoat", "structure", "")
	return b.String()
}

// 400 plies read true: what repeats is one line with how often it does and the
// thickness to its end, the picture shows each zone and the sequence as one, and
// any ply is reached by its number.
func TestLong_isFoldedJumpedIntoAndSearched(t *testing.T) {
	g := fresh(t, thick(198), 80, 24)
	g.shows("4-399", "░▓ mat-1.5 + woven-24  ×198", "▸400", ":░┃░▓", "▓░─ air").hides("too thin to draw")
	g.press("t 2 0 0 enter").shows("▸200 ", "at ply 200", "199 ").hides("4-399")
	g.press("home").shows("▸1 ", "4-399")
	g.press("t t o p c enter").shows("▸400", "topcoat").press("t v e i l enter").shows("▸1 ")
	g.press("t m a t enter").shows("▸2-3").press("t enter").shows("▸4 ")
	g.press("t 4 0 1 enter").shows("there is no ply 401").esc().esc()
	g.press("home z").shows("4 ", "5 ").hides("4-399").press("z").shows("4-399")
	// A short wall is shown row by row unless somebody folds it.
	fresh(t, thick(4), 80, 24).hides("×4").press("z").shows("4-11", "×4", "12 ").press("z").hides("×4")
	fresh(t, empty, 80, 24).press("1 z").shows("nothing to fold")
}

// Rows are marked, copied, taken out and added again, in another schedule too.
func TestRange_copiesMovesAndPastesIntoAnotherSchedule(t *testing.T) {
	g := header(t, 80, 24)
	g.press("home m down").press("c").shows("copied 2 rows (3 plies)").press("end v")
	g.wants(headerPlies + " veil-c-15 mat-1.5×2|").press("u").wants(headerPlies)
	g.press("home down down m down x").wants("veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5")
	g.press("end v").wants("veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 mat-1.5 woven-24").press("u u").wants(headerPlies)
	other := filepath.Join(g.r.o.Folder, "other.toml")
	if err := os.WriteFile(other, []byte(empty), 0o600); err != nil {
		t.Fatal(err)
	}
	g.press("home m down c o")
	tuitest.Press(t, g.r, "other")
	g.press("enter").shows("Vent stack").press("v").wants("veil-c-15 mat-1.5×2|").press("u").wants("")
	fresh(t, empty, 80, 24).press("v").shows("nothing is copied")
}

// Each place of a finding is gone to, and back.
func TestFindings_everyPlaceIsGoneTo(t *testing.T) {
	g := fresh(t, strings.Replace(thick(3), "ph = [6.0, 8.0]", "ph = [6.0, 8.0]\ncontains = [\"fluorides\"]", 1), 80, 24)
	seen := map[string]bool{}
	for range 40 {
		g.press("n right")
		if _, at, ok := strings.Cut(g.r.here().Notice.Text, "place "); ok {
			seen[at] = true
		}
	}
	if len(seen) == 0 {
		t.Error("no finding leads to its places")
	}
	g.press("b").shows("back at")
}
