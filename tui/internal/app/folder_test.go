package app

import (
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop/shoptest"
	"frp/veilwright/tui/internal/draw"
)

// The folder's list says of a document what the bench says once it is opened,
// and offers to open what the bench can show (check is held to the same in
// cmd/internal/cli). A document of which not all can be used can be looked at on
// every page.
func TestFolder_saysWhatTheBenchSaysOfAnyFile(t *testing.T) {
	dir := state(t)
	path := filepath.Join(dir, "any.toml")
	corpus := shoptest.Corpus(t, "../../..")
	rapid.Check(t, func(rt *rapid.T) {
		text := shoptest.Accident(corpus).Draw(rt, "text")
		if err := os.WriteFile(path, text, 0o600); err != nil {
			rt.Fatal(err)
		}
		o := none.Read(path)
		row := verdict(o, quantity.US)
		d, err := editor.Open(path, none)
		if (row.why != "") != (err != nil) {
			rt.Fatalf("the list says it cannot be opened: %q; opening it: %v\n%s", row.why, err, text)
		}
		if err != nil {
			if len(o.Problems) > 0 && o.Kind != schedules.Undeclared && row.word != "unusable" {
				rt.Fatalf("%q of a document with %v", row.word, o.Problems)
			}
			return
		}
		got := d.Report().Verdict
		if d.Job() != nil {
			got = d.JobReport().Verdict
		}
		if got.String() != row.word || (got == rules.Unusable) != (len(d.Problems()) > 0) {
			rt.Fatalf("the list says %s, the bench %s with %v", row.word, got, d.Problems())
		}
		r := run(t, d, draw.Mono, 80, 24)
		for range 7 {
			r.press("tab")
			r.screen()
		}
		if err := r.r.Document().Discard(); err != nil {
			rt.Fatal(err)
		}
		if err := r.r.Document().Close(); err != nil {
			rt.Fatal(err)
		}
	})
}

// What cannot be used is mended on the bench, and judged again then.
func TestBench_mendsAnUnusableDocument(t *testing.T) {
	g := file(t, "document = \"schedule\"\nformat = 1\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"\n"+
		"[[ply]]\nmaterial = \"veil-nope\"\nresin = \"r\"\n[[ply]]\nmaterial = \"mat-1.5\"\nresin = \"r\"\n", 80, 24)
	g.shows("UNUSABLE", "1 problem", "no material has the id").press("+ s").shows("saved ")
	g.press("home r 2 .").hides("UNUSABLE").shows("veil-polyester")
	if d := g.r.Document(); d.Report().Verdict == rules.Unusable || len(d.Problems()) > 0 {
		t.Errorf("still %s: %v", d.Report().Verdict, d.Problems())
	}
	g.press("u").shows("UNUSABLE")
}
