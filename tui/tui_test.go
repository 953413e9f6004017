package tui

import (
	"errors"
	"os"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/app"
	"frp/veilwright/tui/internal/draw"
)

const stack = `document = "schedule"
format = 1
title = "Vent stack"
[[resin]]
id = "wall"
family = "vinyl-ester"
[[ply]]
material = "mat-1.5"
resin = "wall"
`

func open(t *testing.T) *editor.Document {
	t.Helper()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	d, err := editor.FromBytes("vent.toml", []byte(stack), shop.New(shop.Options{NoBook: true}))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestRun_refusesWhereThereIsNoTerminal(t *testing.T) {
	d := open(t)
	defer d.Close()
	t.Setenv("TERM", "dumb")
	err := Run(d, Options{})
	if err == nil || !strings.Contains(err.Error(), "TERM=dumb") || !strings.Contains(err.Error(), "veilwright check FILE") {
		t.Errorf("with TERM=dumb: %v", err)
	}
	t.Setenv("TERM", "xterm")
	null, err := os.Open(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	old := os.Stdin
	os.Stdin = null
	defer func() { os.Stdin = old }()
	if err := Run(d, Options{}); err == nil || !strings.Contains(err.Error(), "needs a terminal") || !strings.Contains(err.Error(), "veilwright check FILE") {
		t.Errorf("with no terminal: %v", err)
	}
}

func TestFinish_saysHowItEndedAndWhatIsKept(t *testing.T) {
	for _, tc := range []struct {
		name   string
		msgs   []tea.Msg
		failed error
		want   []string // nil: no error
	}{
		{"quit", []tea.Msg{key("q")}, nil, nil},
		{"hangup with nothing unsaved", []tea.Msg{app.EndMsg{Signal: "hangup"}}, nil, []string{"ended by the system (hangup)"}},
		{"hangup with unsaved work", []tea.Msg{key("+"), app.EndMsg{Signal: "hangup"}}, nil, []string{"hangup", "unsaved work is kept", "vent.toml"}},
		{"the terminal goes", []tea.Msg{key("+")}, errors.New("input/output error"), []string{"the terminal failed: input/output error", "unsaved work is kept"}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			d := open(t)
			root := app.New(d, app.Options{Theme: draw.New(draw.Mono)})
			root.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
			for _, m := range tc.msgs {
				root.Update(m)
			}
			err := finish(root, tc.failed)
			if tc.want == nil && err != nil {
				t.Errorf("an error: %v", err)
			}
			for _, w := range tc.want {
				if err == nil || !strings.Contains(err.Error(), w) {
					t.Errorf("got %v, want %q in it", err, w)
				}
			}
			_ = d.Close()
		})
	}
}

func key(s string) tea.Msg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s)} }
