// Package pagetest is for tests of pages that share a record: a page on a desk,
// in a folder with the files of a scenario, on a clock that each key moves. Only
// tests import it.
package pagetest

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
	"frp/veilwright/tui/internal/tuitest"
)

// Rig is a page on a desk, in a folder with the files of a scenario.
type Rig[P page.Page] struct {
	T       testing.TB
	Page    P
	Desk    *page.Desk
	Records *records.Case
	Dir     string
	Now     time.Time
	Step    time.Duration // between two keys
	W, H    int
}

// Open copies files of testdata into a folder, opens the first one and makes
// the page on it; a shop book holds where it is among them.
func Open[P page.Page](t testing.TB, make func(*page.Desk, *records.Case) P, w, h int, schedule string, others ...string) *Rig[P] {
	t.Helper()
	dir := t.TempDir()
	t.Setenv("XDG_STATE_HOME", filepath.Join(dir, ".state"))
	g := &Rig[P]{T: t, Dir: dir, Now: time.Date(2026, 3, 5, 7, 0, 0, 0, time.UTC), Step: time.Minute, W: w, H: h}
	for _, name := range append([]string{schedule}, others...) {
		b, err := os.ReadFile(filepath.Join("../../../../testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		g.Write(filepath.Base(name), string(b))
	}
	book := slices.ContainsFunc(others, func(name string) bool { return filepath.Base(name) == "shop-book.toml" })
	d, err := editor.Open(g.Path(filepath.Base(schedule)), shop.New(shop.Options{NoBook: !book}))
	if err != nil {
		t.Fatal(err)
	}
	g.Desk = &page.Desk{Doc: d, Theme: draw.New(draw.Mono), Row: -1}
	g.Records = records.New(g.Desk, func() time.Time { return g.Now })
	g.Records.Enters("Q. Two", "inspector")
	t.Cleanup(func() {
		if err := g.Records.Close(); err != nil {
			t.Error(err)
		}
		if err := d.Close(); err != nil {
			t.Error(err)
		}
	})
	g.Page = make(g.Desk, g.Records)
	g.Size(w, h)
	return g
}

// Path is where a file of the folder stands.
func (g *Rig[P]) Path(name string) string { return filepath.Join(g.Dir, name) }

// Write puts a file into the folder.
func (g *Rig[P]) Write(name, s string) {
	g.T.Helper()
	if err := os.WriteFile(g.Path(name), []byte(s), 0o644); err != nil {
		g.T.Fatal(err)
	}
}

// Press gives a key to what is open over a page, else to the page's own keys, as
// the root does; found tells whether the key has a row.
func Press(p page.Page, e keys.Event) (found bool, why string) {
	table := p.Table()
	if o := p.Over(); o != nil {
		table = o.Table()
	}
	found, why = keys.Press(e, table)
	p.Settle()
	return found, why
}

// Press types keys; it tells whether the last one led back to the page before.
func (g *Rig[P]) Press(names ...string) (back bool) {
	g.T.Helper()
	for _, e := range tuitest.Events(names...) {
		g.Now = g.Now.Add(g.Step)
		back = false
		g.Desk.Back = func() { back = true }
		g.Desk.Pages = g.Desk.Back
		switch found, why := Press(g.Page, e); {
		case why != "":
			g.Desk.Refuse(why)
		case !found:
			g.Desk.Refuse(e.Key + " does nothing here")
		}
	}
	return back
}

// Size gives the page another size.
func (g *Rig[P]) Size(w, h int) {
	g.W, g.H = w, h
	g.Page.SetSize(w, h)
	g.Page.Settle()
}

// Typed types one text and Enter.
func (g *Rig[P]) Typed(lines ...string) {
	g.T.Helper()
	for _, s := range lines {
		for _, c := range s {
			g.Press(string(c))
		}
		g.Press(keys.Enter)
	}
}

// Screen is the page with the lines under it, without its folder's name.
func (g *Rig[P]) Screen() string {
	g.T.Helper()
	f := draw.PageFrame(draw.Size{W: g.W, H: g.H})
	table := g.Page.Table()
	if o := g.Page.Over(); o != nil {
		table = o.Table()
	}
	if err := table.Check(); err != nil {
		g.T.Fatal(err)
	}
	g.Page.Settle() // something else than a key may have changed
	lines := draw.FitLines(g.Page.Lines(), f.Body.W, f.Body.H)
	tuitest.Box(g.T, lines, f.Body.W, f.Body.H)
	hints, fixed := keys.Hints(table)
	lines = append(lines, g.Desk.Notice.Line(g.Desk.Theme, g.W), keys.HelpLine(g.Desk.Theme, hints, fixed, g.W))
	return strings.ReplaceAll(draw.Join(lines), g.Dir+"/", "")
}

// Says holds that the notice says all of it.
func (g *Rig[P]) Says(parts ...string) {
	g.T.Helper()
	for _, s := range parts {
		if !strings.Contains(g.Desk.Notice.Text, s) {
			g.T.Errorf("the notice does not say %q: %q", s, g.Desk.Notice.Text)
		}
	}
}

// Shows holds that the screen shows all of it.
func (g *Rig[P]) Shows(parts ...string) {
	g.T.Helper()
	screen := g.Screen()
	for _, s := range parts {
		if !strings.Contains(screen, s) {
			g.T.Errorf("the screen does not show %q:\n%s", s, screen)
		}
	}
}
