package layup

import (
	"strings"
	"testing"
)

// A record begun on the part of a job names it, and is of no other one.
func TestRecord_namesThePartOfTheJob(t *testing.T) {
	g := open(t, 80, 24, "jobs/bleach-day-tank.toml", "jobs/fill-line.toml")
	g.Desk.Doc.Turn(1)
	g.Press("3", "1")
	g.Typed("K-1", "")
	r := g.Records.Record()
	if r == nil || r.Now().Part != "shell-1" || r.Now().Schedule != "bleach-day-tank.toml" {
		t.Fatalf("%+v %q", r, g.Desk.Notice.Text)
	}
	if why := g.Records.Foreign(); why != "" {
		t.Errorf("its own part: %q", why)
	}
	g.Desk.Doc.Turn(2)
	if why := g.Records.Foreign(); !strings.Contains(why, "the record is of part shell-1, and shell-2 is on the desk") {
		t.Errorf("another part: %q", why)
	}
}
