package inspect

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
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
	if screen = strings.Join(g.Page.Lines(), "\n"); !strings.Contains(screen, "plies      1-6 (Enter goes there)") || g.Records.OnBench() != "" {
		t.Errorf("%q\n%s", g.Records.OnBench(), screen)
	}
	g.Desk.Doc.Turn(0)
	if screen = strings.Join(g.Page.Lines(), "\n"); !strings.Contains(screen, "plies      1-6") || strings.Contains(screen, "Enter goes there") {
		t.Error("the bench is offered for what is not laid there")
	}
}
