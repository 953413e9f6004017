package inspect

import (
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/record"
	"frp/veilwright/tui/internal/keys"
)

// What is laid at a joint is inspected by itself and named, and its plies are on
// the bench, until that turns to something else.
func TestOverlay_isInspectedByItself(t *testing.T) {
	g := open(t, 80, 24, "jobs/bleach-day-tank.toml", "jobs/fill-line.toml")
	o := overlay.At(g.Desk.Doc.Job(), laminate.Ref{Kind: laminate.RefJoint})
	if err := g.Records.Turn(o[1]); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	if screen := strings.Join(strings.Fields(strings.Join(g.Page.Lines(), " ")), " "); !strings.Contains(screen, "6 begins the record of joint J1, strap or opens it") {
		t.Errorf("the empty page says\n%s", screen)
	}
	g.Press("6", "1")
	g.Typed("T-1", "")
	g.Page.Settle()
	screen := strings.Join(g.Page.Lines(), "\n")
	for _, want := range []string{"joint J1, strap", "plies 1… 1-6"} {
		if !strings.Contains(screen, want) {
			t.Errorf("%q is not on\n%s", want, screen)
		}
	}
	g.Press("down")
	if screen = strings.Join(g.Page.Lines(), "\n"); !strings.Contains(screen, "plies      1-6 (g shows them on the bench)") || g.Records.OnBench() != "" {
		t.Errorf("%q\n%s", g.Records.OnBench(), screen)
	}
	g.Desk.Doc.Turn(0)
	if screen = strings.Join(g.Page.Lines(), "\n"); !strings.Contains(screen, "plies      1-6") || strings.Contains(screen, "g shows them") {
		t.Error("the bench is offered for what is not laid there")
	}
}

// A record that is finished is found as one that goes on, and another with its serial
// is not begun without a word.
func TestOverlay_itsFinishedRecordIsFound(t *testing.T) {
	g := open(t, 80, 24, "jobs/bleach-day-tank.toml", "jobs/fill-line.toml")
	list := overlay.At(g.Desk.Doc.Job(), laminate.Ref{Kind: laminate.RefJoint})
	strap, seal := list[1], list[0]
	if err := g.Records.Turn(strap); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	g.Press("6", "1")
	g.Typed("T-1", "")
	path := g.Records.Record().Path()
	for n := range g.Records.Analysis().Total.Plies {
		if err := g.Records.Append(&record.Laid{Entry: g.Records.By(), Ply: n + 1}); err != nil {
			t.Fatal(err)
		}
	}
	g.Press("3", "2", keys.Enter, keys.Enter, keys.Enter)
	g.Typed("soft")
	g.Says("signed as entry")
	if err := g.Records.Turn(seal); err != nil || g.Records.Record() != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	g.Shows("NOT INSPECTED", "no record")
	if err := g.Records.Turn(strap); err != nil {
		t.Fatal(err)
	}
	g.Page.Settle()
	g.Shows("RECORD NOT OPEN", "lies here: rejected, serial T-1: 6 Enter opens it", "6 Enter opens "+filepath.Base(path))
	if strings.Contains(g.Screen(), "NOT INSPECTED") || strings.Contains(g.Screen(), "no record") {
		t.Error(g.Screen())
	}
	g.Press("6")
	g.Shows("rejected", "start a new record")
	g.Press("2")
	g.Typed("T-1")
	g.Says("serial T-1 is that of "+filepath.Base(path), "Enter begins another all the same")
	if g.Records.Record() != nil {
		t.Fatal("begun")
	}
	g.Press("esc", "esc", "esc", "6", keys.Enter)
	if r := g.Records.Record(); r == nil || r.Path() != path {
		t.Fatalf("%v %q", r, g.Desk.Notice.Text)
	}
	g.Shows("REJECT")
	g.Press("6", "2")
	g.Typed("T-1", "", "")
	g.Says("its serial T-1 is also that of " + filepath.Base(path))
}
