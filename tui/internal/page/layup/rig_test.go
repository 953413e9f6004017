package layup

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/layout"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/binder"
	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/theme"
	"frp/veilwright/tui/internal/tuitest"
)

// rig is the page on a desk, in a folder with the files of a scenario.
type rig struct {
	t      testing.TB
	p      *Page
	desk   *page.Desk
	binder *binder.Binder
	dir    string
	now    time.Time
	step   time.Duration // between two keys
	w, h   int
}

// open copies files of testdata into a folder and opens the first one.
func open(t testing.TB, w, h int, schedule string, others ...string) *rig {
	t.Helper()
	dir := t.TempDir()
	t.Setenv("XDG_STATE_HOME", filepath.Join(dir, ".state"))
	g := &rig{t: t, dir: dir, now: time.Date(2026, 3, 5, 7, 0, 0, 0, time.UTC), step: time.Minute, w: w, h: h}
	for _, name := range append([]string{schedule}, others...) {
		b, err := os.ReadFile(filepath.Join("../../../../testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		g.write(filepath.Base(name), string(b))
	}
	list := all.Rules()
	d, err := editor.Open(g.path(filepath.Base(schedule)), editor.Options{Judge: func(s *laminate.Schedule, lib *laminate.Library, u quantity.System) *rules.Report {
		return rules.Judge(list, s, lib, rules.Options{Units: u})
	}})
	if err != nil {
		t.Fatal(err)
	}
	g.desk = &page.Desk{Doc: d, Theme: theme.New(theme.Mono), Row: -1}
	g.binder = binder.New(g.desk, func() time.Time { return g.now })
	t.Cleanup(func() {
		if err := g.binder.Close(); err != nil {
			t.Error(err)
		}
		if err := d.Close(); err != nil {
			t.Error(err)
		}
	})
	g.p = New(g.desk, g.binder)
	g.p.SetSize(w, h)
	return g
}

func (g *rig) path(name string) string { return filepath.Join(g.dir, name) }

func (g *rig) write(name, s string) {
	g.t.Helper()
	if err := os.WriteFile(g.path(name), []byte(s), 0o644); err != nil {
		g.t.Fatal(err)
	}
}

// press types keys; it returns what the last one wished.
func (g *rig) press(names ...string) (wish page.Wish) {
	g.t.Helper()
	for _, e := range tuitest.Events(names...) {
		g.now = g.now.Add(g.step)
		wish = g.p.Press(e)
	}
	return wish
}

// typed types one text and Enter.
func (g *rig) typed(lines ...string) {
	g.t.Helper()
	for _, s := range lines {
		for _, c := range s {
			g.press(string(c))
		}
		g.press(keyin.Enter)
	}
}

// screen is the page with the lines under it, without its folder's name.
func (g *rig) screen() string {
	g.t.Helper()
	f := layout.PageFrame(layout.Size{W: g.w, H: g.h})
	table, err := keys.New(g.p.Bindings()...)
	if err != nil {
		g.t.Fatal(err)
	}
	lines := text.FitLines(g.p.Lines(), f.Body.W, f.Body.H)
	tuitest.Box(g.t, lines, f.Body.W, f.Body.H)
	hints, fixed := table.Hints(g.p.Can, g.p.Scope())
	lines = append(lines, g.desk.Notice.Line(g.desk.Theme, g.w), keys.HelpLine(g.desk.Theme, hints, fixed, g.w))
	return strings.ReplaceAll(text.Join(lines), g.dir+"/", "")
}

func (g *rig) says(parts ...string) {
	g.t.Helper()
	for _, s := range parts {
		if !strings.Contains(g.desk.Notice.Text, s) {
			g.t.Errorf("the notice does not say %q: %q", s, g.desk.Notice.Text)
		}
	}
}

func (g *rig) shows(parts ...string) {
	g.t.Helper()
	screen := g.screen()
	for _, s := range parts {
		if !strings.Contains(screen, s) {
			g.t.Errorf("the screen does not show %q:\n%s", s, screen)
		}
	}
}
