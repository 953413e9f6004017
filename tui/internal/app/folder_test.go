package app

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop/shoptest"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
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

// BenchmarkFolder judges a folder of ten thousand schedules as the list does, one
// message after the other.
func BenchmarkFolder(b *testing.B) {
	dir := b.TempDir()
	text, err := os.ReadFile("testdata/header.toml")
	if err != nil {
		b.Fatal(err)
	}
	const n = 10_000
	for i := range n {
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%05d.toml", i)), text, 0o600); err != nil {
			b.Fatal(err)
		}
	}
	d, err := editor.FromBytes("new schedule", []byte(empty), none)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = d.Close() })
	desk := &page.Desk{Doc: d, Theme: draw.New(draw.Mono)}
	for b.Loop() {
		var next []tea.Cmd
		f := newFolder(desk, none, dir, func(string) {}, func(c tea.Cmd) { next = append(next, c) })
		messages := 0
		for len(next) > 0 {
			c := next[0]
			next = next[1:]
			messages++
			f.Take(c().(verdictMsg))
		}
		for i := range f.entries {
			if !f.judged(i) {
				b.Fatalf("entry %d is not judged", i)
			}
		}
		b.ReportMetric(float64(messages), "messages")
	}
}

// Whatever is in sight is judged before the rest, and every document is, once.
func TestFolder_judgesWhatIsInSightFirst(t *testing.T) {
	dir := t.TempDir()
	for i := range 600 {
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%03d.toml", i)), []byte(empty), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	d, err := editor.FromBytes("new schedule", []byte(empty), none)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = d.Close() })
	r := run(t, d, draw.Mono, 80, 24).r
	var next tea.Cmd
	f := newFolder(r.desk, none, dir, func(string) {}, func(c tea.Cmd) { next = c })
	r.push(f.list)
	seen := map[int]int{}
	for turn := 0; next != nil; turn++ {
		if turn == 1 {
			f.list.PointAt(500)
			r.settle()
		}
		m := next().(verdictMsg)
		next = nil
		if turn == 2 && (len(m.verdicts) == 0 || m.at[0] < 450) {
			t.Errorf("after going to 500, %d is judged next", m.at[0])
		}
		for k := range m.verdicts {
			seen[m.at[k]]++
		}
		f.Take(m)
	}
	for i := 1; i <= 600; i++ {
		if seen[i] != 1 || !f.verdicts[i].known {
			t.Fatalf("entry %d is judged %d times", i, seen[i])
		}
	}
}
