package app

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

var none = shop.New(shop.Options{NoBook: true})

func options(kind draw.Kind) Options {
	return Options{
		Theme: draw.New(kind), Shop: none,
		Clock: func() time.Time { return time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC) },
		// Nothing waits in a test: what a time brings is sent by hand.
		After: func(time.Duration, tea.Msg) tea.Cmd { return nil },
	}
}

// rig is a program under test.
type rig struct {
	t testing.TB
	r *Root
}

// state gives the test a state folder of its own.
func state(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	t.Setenv("XDG_STATE_HOME", filepath.Join(dir, "state"))
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(dir, "config"))
	return dir
}

// header opens a copy of the example header.
func header(t testing.TB, w, h int) *rig {
	t.Helper()
	text, err := os.ReadFile("testdata/header.toml")
	if err != nil {
		t.Fatal(err)
	}
	return file(t, string(text), w, h)
}

// file opens a document from a file of its own.
func file(t testing.TB, text string, w, h int) *rig {
	t.Helper()
	dir := state(t)
	path := filepath.Join(dir, "header.toml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	d, err := editor.Open(path, none)
	if err != nil {
		t.Fatal(err)
	}
	return run(t, d, draw.Mono, w, h)
}

// fresh opens a document that has no file.
func fresh(t testing.TB, text string, w, h int) *rig {
	t.Helper()
	state(t)
	d, err := editor.FromBytes("new schedule", []byte(text), none)
	if err != nil {
		t.Fatal(err)
	}
	return run(t, d, draw.Mono, w, h)
}

func run(t testing.TB, d *editor.Document, kind draw.Kind, w, h int) *rig {
	t.Helper()
	o := options(kind)
	if p := d.Path(); p != "" {
		o.Folder = filepath.Dir(p)
	}
	r := New(d, o)
	t.Cleanup(func() { _ = r.Close() })
	tuitest.Start(t, r, w, h)
	return &rig{t, r}
}

// press types keys given with blanks between them.
func (g *rig) press(keys string) *rig {
	g.t.Helper()
	tuitest.Press(g.t, g.r, strings.Fields(keys)...)
	return g
}

// esc presses Esc and lets its wait end.
func (g *rig) esc() *rig {
	g.t.Helper()
	var waited tea.Msg
	g.r.reader.After = func(_ time.Duration, m keys.TimeoutMsg) tea.Cmd {
		waited = m
		return nil
	}
	tuitest.Press(g.t, g.r, keys.Esc)
	tuitest.Send(g.t, g.r, waited)
	return g
}

func (g *rig) screen() string { return tuitest.Plain(g.r.View()) }

func (g *rig) shows(words ...string) *rig {
	g.t.Helper()
	screen := g.screen()
	for _, w := range words {
		if !strings.Contains(screen, w) {
			g.t.Errorf("the screen does not show %q:\n%s", w, screen)
		}
	}
	return g
}

func (g *rig) hides(words ...string) *rig {
	g.t.Helper()
	screen := g.screen()
	for _, w := range words {
		if strings.Contains(screen, w) {
			g.t.Errorf("the screen shows %q:\n%s", w, screen)
		}
	}
	return g
}

// plies is the stack in short: material, count, gel stops.
func (g *rig) plies() string {
	var parts []string
	for _, p := range g.r.Document().Now().Plies {
		s := p.Material
		if p.Count > 1 {
			s += fmt.Sprintf("×%d", p.Count)
		}
		if p.GelAfter {
			s += "|"
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, " ")
}

func (g *rig) wants(plies string) *rig {
	g.t.Helper()
	if got := g.plies(); got != plies {
		g.t.Errorf("plies are\n%s, want\n%s", got, plies)
	}
	return g
}

const (
	headerPlies = "veil-c-15 mat-1.5×2| mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5"

	empty = `document = "schedule"
format = 1
title = "Vent stack"
[part]
form = "duct"
process = "contact"
[service]
temperature = "120 degF"
ph = [6.0, 8.0]
fluid = "humid air"
[[resin]]
id = "barrier"
family = "vinyl-ester"
[[resin]]
id = "structure"
family = "isophthalic-polyester"
`
)
