package app

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

func TestScreens_golden(t *testing.T) {
	text, err := os.ReadFile("testdata/header.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct {
		name, keys string
		w, h       int
		kind       draw.Kind
		ascii      bool
	}{
		{"bench 80x24", "", 80, 24, draw.Mono, false},
		{"bench 80x24 ascii", "", 80, 24, draw.Mono, true},
		{"bench 120x36 color", "", 120, 36, draw.Dark, false},
		{"bench 200x60", "", 200, 60, draw.Mono, false},
		{"bench 60x16", "", 60, 16, draw.Mono, false},
		{"too small 59x15", "", 59, 15, draw.Mono, false},
		{"times 80x24", "* 3", 80, 24, draw.Mono, false},
		{"swap 80x24", "home r 2", 80, 24, draw.Mono, false},
		{"lay by name 80x24", "0 m a t", 80, 24, draw.Mono, false},
		{"row 80x24", "enter 2 8", 80, 24, draw.Mono, false},
		{"carry 80x24", "g up up", 80, 24, draw.Mono, false},
		{"why 80x24", "w", 80, 24, draw.Mono, false},
		{"keys 80x24", "?", 80, 24, draw.Mono, false},
		{"job data 80x24", "j", 80, 24, draw.Mono, false},
		{"pages 80x24", "tab", 80, 24, draw.Mono, false},
		{"structure 120x36 color", "tab 2", 120, 36, draw.Any, false},
		{"bench long 80x24", "home pgdown", 80, 24, draw.Mono, false},
		{"structure cool 80x24", "tab 2 2", 80, 24, draw.Mono, false},
		{"quit 80x24", "9 q", 80, 24, draw.Mono, false},
		{"metric 80x24", "i", 80, 24, draw.Mono, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			state(t)
			text := text
			if strings.Contains(tc.name, "cool") {
				text = cool(text)
			}
			if strings.Contains(tc.name, "long") {
				text = long(2000)
			}
			d, err := editor.FromBytes("header.toml", text, none)
			if err != nil {
				t.Fatal(err)
			}
			g := run(t, d, tc.kind, tc.w, tc.h)
			g.r.o.ASCII = tc.ascii
			g.press(tc.keys)
			g.r.stale = true
			screen := g.r.View()
			tuitest.Box(t, strings.Split(screen, "\n"), tc.w, tc.h)
			tuitest.Golden(t, "screen", tuitest.Visible(screen))
		})
	}
}

// cool is the header in a service whose strains can be told.
func cool(text []byte) []byte {
	return []byte(strings.NewReplacer("140 degF", "100 degF", "20 psi", "60 psi", `"contact"`, `"wound"`).Replace(string(text)))
}

// keysOfAll are the keys a random walk takes: those that do something more often.
var keysOfAll = []string{
	"1", "2", "3", "4", "5", "6", "7", "8", "9", "0", "+", "-", "*", "t", ".", "enter", "r", "g", "x", "n", "p", "w", "f", "b", "d",
	"u", "y", "j", "i", "o", "tab", "?", "esc", "up", "down", "left", "right", "home", "end", "pgup", "pgdown", "space", "backspace", "delete", "é", "z", "h", "f1",
}

// Whatever is typed at whatever size, the screen has exactly its size and
// nothing panics, and undoing everything gives the bytes that were opened.
func TestScreen_anySizeAnyKeys(t *testing.T) {
	text, err := os.ReadFile("testdata/header.toml")
	if err != nil {
		t.Fatal(err)
	}
	// A walk may open what lies here and save it: it walks in a folder of its own.
	t.Chdir(state(t))
	rapid.Check(t, func(rt *rapid.T) {
		d, err := editor.FromBytes("header.toml", text, none)
		if err != nil {
			rt.Fatal(err)
		}
		w, h := rapid.IntRange(1, 250).Draw(rt, "w"), rapid.IntRange(1, 80).Draw(rt, "h")
		r := New(d, options(rapid.SampledFrom(draw.Kinds()).Draw(rt, "theme")))
		defer r.Close()
		r.o.Folder = "testdata"
		r.Update(tea.WindowSizeMsg{Width: w, Height: h})
		for _, k := range rapid.SliceOfN(rapid.SampledFrom(keysOfAll), 1, 40).Draw(rt, "keys") {
			_, cmd := r.Update(tuitest.Raw(t, k))
			if k == "esc" {
				tuitest.Drain(t, r, cmd)
			}
			if r.End().Crash != nil {
				rt.Fatalf("key %q: %v\n%s", k, r.End().Crash, r.End().Stack)
			}
			lines := strings.Split(r.View(), "\n")
			if r.End().Crash != nil {
				rt.Fatalf("drawing after %q: %v\n%s", k, r.End().Crash, r.End().Stack)
			}
			tuitest.Box(rt, lines, w, h)
			if rapid.IntRange(0, 30).Draw(rt, "resize") == 0 {
				w, h = rapid.IntRange(1, 250).Draw(rt, "w2"), rapid.IntRange(1, 80).Draw(rt, "h2")
				r.Update(tea.WindowSizeMsg{Width: w, Height: h})
			}
		}
		if r.Document() != d {
			return // another document was opened
		}
		for d.CanUndo() {
			r.desk.Undo()
		}
		if !bytes.Equal(d.Bytes(), text) {
			rt.Fatalf("undone, the bytes differ:\n%s", d.Bytes())
		}
	})
}

// long is a schedule of n rows with something to find.
func long(n int) []byte {
	var b strings.Builder
	b.WriteString(strings.Replace(empty, "[service]\n", "inside_diameter = \"24 in\"\n[service]\npressure = \"20 psi\"\nvacuum = \"0 psi\"\ncontains = [\"fluorides\"]\n", 1))
	for i := range n {
		material, resin := "mat-1.5", "structure"
		switch {
		case i == 0:
			material, resin = "veil-c-15", "barrier"
		case i < 3:
			resin = "barrier"
		case i%2 == 0:
			material = "woven-24"
		}
		fmt.Fprintf(&b, "[[ply]]\nmaterial = %q\nresin = %q\n", material, resin)
		if i == 2 {
			b.WriteString("gel_after = true\n")
		}
	}
	return []byte(b.String())
}

// A document may hold 20,000 plies: the largest is as tall as one more allows.
func BenchmarkKey(b *testing.B) {
	for _, rows := range []int{40, 2000, 19_990} {
		for _, key := range []struct{ name, there, back string }{{"cursor", "up", "down"}, {"edit", "+", "-"}} {
			b.Run(fmt.Sprintf("%s/rows=%d", key.name, rows), func(b *testing.B) {
				b.Setenv("XDG_STATE_HOME", b.TempDir())
				d, err := editor.FromBytes("long", long(rows), none)
				if err != nil {
					b.Fatal(err)
				}
				defer d.Close()
				r := New(d, options(draw.Any))
				r.Update(tea.WindowSizeMsg{Width: 120, Height: 36})
				there, back := tuitest.Raw(b, key.there), tuitest.Raw(b, key.back)
				b.ReportAllocs()
				for i := 0; b.Loop(); i++ {
					if i%2 == 0 {
						r.Update(there)
					} else {
						r.Update(back)
					}
					if r.View() == "" {
						b.Fatal("nothing drawn")
					}
				}
			})
		}
	}
}
