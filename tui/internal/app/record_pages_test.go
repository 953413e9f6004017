package app

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

// A part is laid, measured and decided on without leaving the program, and what
// the two pages entered is in one file.
func TestRecordPages_layMeasureDecide(t *testing.T) {
	dir := state(t)
	text, err := os.ReadFile("../../../testdata/schedules/pipe-wound-acid-spool.toml")
	if err != nil {
		t.Fatal(err)
	}
	demands, err := os.ReadFile("../../../testdata/specifications/acid-drain.toml")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "spool.toml")
	for name, b := range map[string][]byte{path: text, filepath.Join(dir, "demands.toml"): demands} {
		if err := os.WriteFile(name, b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	d, err := editor.Open(path, none)
	if err != nil {
		t.Fatal(err)
	}
	o := options(draw.Mono)
	now := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	o.Clock = func() time.Time { now = now.Add(time.Minute); return now }
	r := New(d, o)
	t.Cleanup(func() { _ = r.Close() })
	tuitest.Start(t, r, 80, 24)
	g := &rig{t, r}

	g.press("tab 5").shows("LAY-UP", "LAY PLY 1 of 9", "no record")
	g.press("3 1").press("q 7 enter enter").shows("begun spool-record-1.toml", "serial q7")
	g.press("0").shows("who enters?").press("m e enter 1 enter").shows("before the first ply").esc()
	g.press("1 2 0 space d e g C enter 5 0 enter 1 8 space d e g C enter").shows(": dry")
	g.press("0 0").shows("LAY PLY 3 of 9", "GEL STOP")
	g.press("0 2 4 enter 0 0 0 0 0 0").shows("ALL LAID")

	g.press("tab 6").shows("INSPECT", "serial q7")
	g.press("5").shows("against S-204 B")
	g.press("1 4").press("3 4 enter 3 3 enter").shows("2 readings")
	g.press("enter").esc().press("2 5 enter").press("1 enter 0 . 3 enter enter enter enter enter enter").shows("crack 0.3 in", "REJECT")
	// What was entered before is offered, but to witness a reading nobody who enters it.
	g.press("1 4 down down down down").shows("▸ witness    ▏  who is there").esc().esc()
	g.press("k").shows("wrote spool-record-1-inspection-report.pdf")
	if !contains(t, filepath.Join(dir, "spool-record-1-inspection-report.pdf"), "%PDF-1") {
		t.Error("no report")
	}
	g.press("3 2 enter enter enter enter").shows("signed")
	// One Esc too many, and a digit meant for the page: no rack lies under it.
	was := g.plies()
	g.esc().shows("PAGES").esc().esc().press("3 esc").wants(was)

	b, err := os.ReadFile(filepath.Join(dir, "spool-record-1.toml"))
	if err != nil {
		t.Fatal(err)
	}
	rec, torn, problems := schedules.DecodeRecord(b)
	if torn != "" || len(problems) > 0 {
		t.Fatalf("%q %v", torn, problems)
	}
	if len(rec.Laid) != 9 || len(rec.Readings) != 2 || len(rec.Defects) != 1 || len(rec.Decisions) != 1 {
		t.Errorf("%d laid, %d readings, %d defects, %d decisions", len(rec.Laid), len(rec.Readings), len(rec.Defects), len(rec.Decisions))
	}
}

// Whoever looks at a ply from a page that has its own number keys builds nothing with
// them, before he says so.
func TestRecordPages_aLookAtTheBenchAddsNothing(t *testing.T) {
	g := header(t, 80, 24)
	before := g.plies()
	g.press("tab 5 g").shows("Enter builds", "+ Enter begins to build here", "Enter build here", "back to lay-up")
	for _, k := range []string{"2", "+", ".", "x", "d", "f", "0"} {
		g.press(k).shows("you came from lay-up to look").wants(before)
	}
	g.press("down up").press("2").wants(before)
	g.esc().shows("LAY-UP")
	g.press("g enter").shows("the number keys add plies here now").press("1").shows("u undoes it")
	if g.plies() == before {
		t.Error("nothing is added")
	}
	// Chosen among the pages the bench is for building.
	g.press("u").press("tab 5 g tab 1").hides("Enter builds").press("tab 5 g tab 2 tab 1").hides("Enter builds")
}
