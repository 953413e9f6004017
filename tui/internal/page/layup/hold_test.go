package layup

import (
	"os"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate/overlay"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

const holding = `document = "specification"
format   = 1
title    = "invented header"

[[inspection.hold]]
point      = "barrier complete"
before_ply = 4
witness    = "purchaser"
`

// laidTo3 is the spool with plies 1 to 3 laid.
func laidTo3(t *testing.T, specifications ...string) *rig {
	t.Helper()
	g := begun(t, 80, 24, spool)
	for i, text := range specifications {
		g.Write("spec-"+string(rune('a'+i))+".toml", text)
	}
	g.Page.skipped = true
	for range 3 {
		g.Press(keys.Enter)
		if g.Page.Over() != nil { // a gel time
			g.Typed("15")
		}
	}
	if n := len(g.Records.Record().Now().Laid); n != 3 {
		t.Fatalf("%d plies are laid: %s\n%s", n, g.Desk.Notice.Text, g.Screen())
	}
	return g
}

// stops holds that Enter asks about the hold point, and that the safe answer records
// nothing.
func stops(t *testing.T, g *rig) {
	t.Helper()
	g.Shows("STOP", "barrier complete")
	g.Press(keys.Enter)
	g.Shows("HOLD POINT: lay up nevertheless?", "before ply 4, witnessed by purchaser")
	g.Press(keys.Enter)
	if n := len(g.Records.Record().Now().Laid); n != 3 || g.Page.Over() != nil {
		t.Fatalf("%d plies are laid: %s\n%s", n, g.Desk.Notice.Text, g.Screen())
	}
}

func TestHold_stopsUntilItIsPassedByName(t *testing.T) {
	g := laidTo3(t)
	g.Write("spec.toml", holding)
	g.Press("7")
	g.Says("compared with spec.toml")
	stops(t, g)
	g.Press(keys.Enter, "2")
	g.Shows("a hold or witness point", "name of the purchaser")
	g.Press("1", keys.Enter)
	for _, who := range []string{"", "purchaser"} {
		g.Desk.Notice.Text = ""
		g.Press(keys.Delete)
		g.Typed(who)
		g.Says("witness: the specification requires the purchaser there")
	}
	// Who enters is no witness, is not offered as one, and a number is a name.
	for _, who := range []string{"Q. Two", "q. two, purchaser"} {
		g.Press(keys.Delete)
		if g.Page.Over().(*page.Form).Field().Label != "witness" {
			t.Fatal(g.Screen())
		}
		g.Press(keys.Right)
		if strings.Contains(g.Screen(), "witness    Q. Two") {
			t.Error(g.Screen())
		}
		g.Press(keys.Delete)
		g.Typed(who)
		g.Says("witness: Q. Two enters this, and is no witness of it")
	}
	g.Press(keys.Delete)
	g.Typed("9", "")
	g.Says("witness is: the specification requires the purchaser there")
	g.Press("1", keys.Enter)
	g.Says("witness is: the specification requires the purchaser there")
	g.Press("4", keys.Enter, keys.Enter)
	now := g.Records.Record().Now()
	if len(now.Holds) != 1 || now.Holds[0].Point != "barrier complete" || now.Holds[0].Who == "" || now.Holds[0].Witness != "9, purchaser" || !now.Holds[0].Passed.Value {
		t.Fatalf("%+v %q", now.Holds, g.Desk.Notice.Text)
	}
	g.Now = g.Now.Add(time.Minute)
	g.Press(keys.Enter)
	if n := len(g.Records.Record().Now().Laid); n != 4 {
		t.Fatalf("%d plies are laid: %s\n%s", n, g.Desk.Notice.Text, g.Screen())
	}
	// What is struck is not passed.
	if err := g.Records.Record().Strike(now.Holds[0].Number, g.Records.By(), "somebody else's"); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	g.Shows("STOP", "barrier complete")
}

// Before it is come to, it stands among what comes.
func TestHold_isSeenToCome(t *testing.T) {
	g := begun(t, 80, 36, spool)
	g.Write("spec.toml", holding)
	g.Page.Settle()
	g.Shows("HOLD POINT: barrier complete")
	if screen := g.Screen(); strings.Contains(screen, "STOP hold point") {
		t.Error(screen)
	}
}

// Lying beside the document it stops as well, chosen or not; of several nobody knows.
func TestHold_stopsByTheSpecificationThatLiesBeside(t *testing.T) {
	g := laidTo3(t, holding)
	stops(t, g)
	g.Shows("spec-a.toml")
	g.Press(keys.Enter, "3")
	g.Typed("")
	g.Says("a name is needed")
	g.Typed("P. Three, purchaser")
	now := g.Records.Record().Now()
	if len(now.Laid) != 4 || !strings.Contains(now.Laid[3].Remark, "laid by order of P. Three, purchaser: hold point: barrier complete") {
		t.Fatalf("%+v", now.Laid)
	}

	g = laidTo3(t, holding)
	g.Write("spec-a.toml", strings.Replace(holding, "before_ply = 4", "before_ply = 5", 1))
	later := time.Now().Add(time.Hour)
	if err := os.Chtimes(g.Path("spec-a.toml"), later, later); err != nil {
		t.Fatal(err)
	}
	g.Press(keys.Enter)
	if n := len(g.Records.Record().Now().Laid); n != 4 {
		t.Fatalf("read again: %d plies are laid", n)
	}

	g = laidTo3(t)
	g.Write("spec-a.toml", holding)
	g.Write("spec-b.toml", strings.Replace(holding, "invented", "other", 1))
	g.Press(keys.Enter)
	g.Shows("2 specifications lie here", "lay up nevertheless?")
	g.Press("1", "7", "1")
	stops(t, g)

	g = laidTo3(t)
	g.Write("spec-a.toml", "document = \"specification\"\nformat = 1\nnonsense = 2\n")
	g.Press(keys.Enter)
	g.Shows("spec-a.toml cannot be used")
}

// A record that says a point was passed was held against a specification.
func TestHold_aRecordThatNeedsASpecificationSaysSo(t *testing.T) {
	g := laidTo3(t, holding)
	g.Press("6")
	g.Press("1", keys.Enter)
	g.Typed("A. Two, purchaser", "", "")
	if err := os.Remove(g.Path("spec-a.toml")); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	g.Shows("STOP", "none lies here")
}

// Hold points are required of parts.
func TestHold_isNoneOfAnOverlay(t *testing.T) {
	g := openJob(t, overlay.Strap)
	g.Write("spec.toml", holding)
	g.Press("3", "1")
	g.Typed("T-1", "")
	if list, _, unknown := g.Records.Holding(8); list != nil || unknown != "" {
		t.Errorf("%v %s", list, unknown)
	}
}
