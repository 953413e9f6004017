package app

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"pgregory.net/rapid"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
	"frp/veilwright/tui/internal/widget"
)

// states lead to every page and to what opens over it.
var states = []string{
	"", "home up", "0", "0 m a t", "*", "home r", "home r 2", "r 0 v", "g", "enter", "enter down down", "enter up", "w", "n", "?", "? u n", "j", "j down down down down", "j 3 x", "tab", "a", "/",
	"tab 2", "tab 2 1", "tab 2 2", "tab 3", "tab 3 1", "tab 3 3 5", "tab 4", "tab 4 3 x", "tab 4 4", "tab 4 9", "tab 4 p",
	"tab 5", "tab 5 1", "tab 5 2", "tab 5 3", "tab 6", "tab 6 5", "tab 6 6", "tab 6 7", "tab 7", "tab 7 1", "tab 7 g", "tab 7 w",
}

// all are the keys there are: every printable character and every named key.
func allKeys() []string {
	var list []string
	for c := ' '; c <= '~'; c++ {
		list = append(list, keys.Key(string(c)).Key)
	}
	return append(list, "é", keys.Enter, keys.Tab, keys.ShiftTab, keys.Backspace, keys.Delete, keys.Insert, keys.Up, keys.Down, keys.Left, keys.Right,
		keys.Home, keys.End, keys.PgUp, keys.PgDown, "f1", "f2", "ctrl+a", "ctrl+e", "ctrl+d", "ctrl+k", "ctrl+u", "ctrl+w", "ctrl+p", "ctrl+n", "shift+up")
}

// body is the screen without its last two lines: the notice and the help line.
func (g *rig) body() string {
	lines := strings.Split(g.screen(), "\n")
	return strings.Join(lines[:len(lines)-2], "\n")
}

// Whatever a key does is listed under ?, and what is listed nowhere does nothing.
func TestKeys_whateverOneDoesIsListed(t *testing.T) {
	for _, state := range states {
		t.Run(state, func(t *testing.T) {
			header(t, 80, 24).press(state).listsWhatKeysDo()
		})
	}
}

// listsWhatKeysDo presses every key that is in no table, and looks up all others.
func (g *rig) listsWhatKeysDo() {
	g.t.Helper()
	for _, table := range g.r.tables() {
		if err := table.Check(); err != nil {
			g.t.Error(err)
		}
	}
	var listed []keys.Entry
	for _, s := range keys.Sections(g.r.tables()...) {
		listed = append(listed, s.Entries...)
	}
	g.r.here().Notice = widget.Notice{} // one of several rows lies over the page's last ones
	g.r.settle()
	g.r.stale = true
	bytes, body := g.r.Document().Bytes(), g.body()
	for _, k := range allKeys() {
		e := keys.Key(k)
		if row := keys.Find(e, g.r.tables()...); row != nil {
			if !slices.ContainsFunc(listed, func(x keys.Entry) bool { return x.What == row.Long && names(x.Keys, e) }) {
				g.t.Errorf("%s does %q, which is listed nowhere", k, row.Long)
			}
			continue
		}
		g.press(k)
		if g.body() != body || string(g.r.Document().Bytes()) != string(bytes) {
			g.t.Fatalf("%s is in no table, and acts:\n%s", k, g.screen())
		}
		if !g.r.here().Notice.Refusal {
			g.t.Errorf("%s does nothing, and nobody says so: %+v", k, g.r.here().Notice)
		}
	}
}

// names tells whether the keys as they are written name the key.
func names(written string, e keys.Event) bool {
	for word := range strings.FieldsSeq(written) {
		from, to, is := strings.Cut(word, "-")
		d := e.Key
		if word == keys.Name(e.Key) || word == "letters" && e.Rune != 0 || is && len(from) == 1 && len(to) == 1 && len(d) == 1 && from <= d && d <= to {
			return true
		}
	}
	return false
}

// walkable are the keys of a walk. Files are not in it: what lies on disk is no
// matter of keys alone.
func walkable() []string {
	return slices.DeleteFunc(allKeys(), func(k string) bool { return slices.Contains([]string{"o", "s", "a", "k", "q", "?", "/"}, k) })
}

// deep is a folder so far below anything else that as many keys as it has
// folders above it climb to no folder that somebody else changes meanwhile: a
// list of files shows what lies there.
func deep(t *testing.T, levels int) string {
	dir := filepath.Join(t.TempDir(), strings.Repeat("d"+string(filepath.Separator), levels))
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	return dir
}

// What keys do is a matter of the keys and not of what was drawn between them:
// glued into one read, and one by one with the screen drawn after each, they
// give the same document and the same screen, on every page.
func TestKeys_gluedAreSingle(t *testing.T) {
	text, err := os.ReadFile("testdata/header.toml")
	if err != nil {
		t.Fatal(err)
	}
	often := []string{"1", "2", "3", "5", "+", "-", ".", "*", "r", "g", "d", "x", "m", "n", "p", "f", "w", "b", "u", "y", "j", "i", "0", keys.Enter, keys.Esc, keys.Up, keys.Down, keys.PgDown, keys.Home, keys.End, keys.Tab}
	const most = 25 // keys of a walk
	t.Chdir(deep(t, most+5))
	rapid.Check(t, func(rt *rapid.T) {
		begin := rapid.SampledFrom(slices.DeleteFunc(slices.Clone(states), func(s string) bool { return s == "a" || s == "/" })).Draw(rt, "state")
		w, h := rapid.IntRange(60, 200).Draw(rt, "w"), rapid.IntRange(16, 60).Draw(rt, "h")
		typed := rapid.SliceOfN(rapid.OneOf(rapid.SampledFrom(often), rapid.SampledFrom(walkable())), 1, most).Draw(rt, "keys")
		run := func(glued bool) string {
			state(t) // an answer that is kept would be offered to the second run
			// And what the first one saved before going on would stand in its way.
			left, err := filepath.Glob("*")
			for _, name := range left {
				err = errors.Join(err, os.RemoveAll(name))
			}
			if err != nil {
				rt.Fatal(err)
			}
			d, err := editor.FromBytes("header.toml", text, none)
			if err != nil {
				rt.Fatal(err)
			}
			g := &rig{t, New(d, options(draw.Mono))}
			defer g.r.Close()
			tuitest.Start(t, g.r, w, h)
			g.press(begin)
			var ahead []rune
			flush := func() {
				if len(ahead) > 0 {
					tuitest.Send(t, g.r, tea.KeyMsg{Type: tea.KeyRunes, Runes: ahead})
				}
				ahead = nil
			}
			for _, k := range typed {
				switch e := keys.Key(k); {
				case glued && e.Rune != 0 && e.Rune != ' ':
					ahead = append(ahead, e.Rune)
				case k == keys.Esc:
					flush()
					g.esc()
				default:
					flush()
					g.press(k)
				}
				if !glued {
					g.r.stale = true
					if once := g.r.View(); once != g.again() {
						rt.Fatalf("drawn twice it differs:\n%s", once)
					}
				}
			}
			flush()
			g.r.stale = true
			return string(g.r.here().Doc.Bytes()) + "\n" + minutes.ReplaceAllString(g.screen(), "hh:mm")
		}
		one, glued := run(false), run(true)
		if one != glued {
			rt.Fatalf("one by one\n%s\nglued\n%s", one, glued)
		}
	})
}

// minutes are when an answer was kept, by the machine's clock: between two runs a minute
// may end.
var minutes = regexp.MustCompile(`\d\d:\d\d`)

func (g *rig) again() string {
	g.r.stale = true
	return g.r.View()
}

// A name is typed as it is written, figures and all.
func TestNames_areText(t *testing.T) {
	for typed, want := range map[string]string{
		"0veil-c-15": "veil-c-15", "0mat-0.75": "mat-0.75", "0woven-24": "woven-24", "0chop-1.5": "chop-1.5", "0uni-13": "uni-13",
	} {
		g := fresh(t, empty, 80, 24)
		tuitest.Press(t, g.r, typed)
		g.wants("").press("enter").wants(want)
		g = fresh(t, empty, 80, 24)
		g.press(strings.Join(strings.Split(typed, ""), " ") + " enter").wants(want)
	}
	// With nothing typed a digit takes the numbered row.
	fresh(t, empty, 80, 24).press("0 2").wants("veil-c-15")

	g := header(t, 80, 24)
	for _, name := range []string{"a.toml", "rev-1.toml", "rev-12.toml"} {
		if err := os.WriteFile(filepath.Join(g.r.o.Folder, name), []byte(empty), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	g.press("o")
	tuitest.Press(t, g.r, "rev-12")
	g.press("enter").wants("")
	if got := filepath.Base(g.r.Document().Path()); got != "rev-12.toml" {
		t.Errorf("opened %s", got)
	}
}

// What was said goes with the page and with the state of the document it was
// said of.
func TestNotice_goesWithItsPageAndItsDocument(t *testing.T) {
	said := "added ply 9 topcoat"
	header(t, 80, 24).press("9").shows(said).press("up").shows(said)
	header(t, 80, 24).press("9 tab").hides(said).press("1").hides(said)
	header(t, 80, 24).press("9 ?").hides(said)
	header(t, 80, 24).press("9 tab 2").hides(said)
	header(t, 80, 24).press("* enter").hides("would do")
	g := header(t, 80, 24).press("9").shows(said)
	g.r.here().Doc.Undo() // whatever changes the document without a word
	g.press("j").hides(said)
}

// A page's own keys stand before those of everywhere, and none of both twice.
func TestPages_haveWholeTables(t *testing.T) {
	g := header(t, 80, 24)
	for _, p := range g.r.pages {
		table := slices.Concat(p.Table(), g.r.always)
		if err := table.Check(); err != nil {
			t.Errorf("%s: %v", p.Name(), err)
		}
	}
}

// Whatever is typed, the document changes only by what the screen offered: by
// something that is open, or by a key that says so in its table. What was typed
// ahead, before anybody can have seen that something closed or another page
// opened, changes nothing on the page that lies under it.
func TestKeys_noEditWasNotAnnounced(t *testing.T) {
	text, err := os.ReadFile("testdata/header.toml")
	if err != nil {
		t.Fatal(err)
	}
	const most = 40
	t.Chdir(deep(t, most+5))
	state(t)
	often := slices.Concat(keys.Digits(9), []string{"0", "+", "-", ".", "*", ",", "/", "r", "g", "d", "x", "m", "n", "f", "w", "b", "u", "y", "j", "e", "c", "h", keys.Enter, keys.Enter, keys.Esc, keys.Esc, keys.Tab, keys.Home})
	rapid.Check(t, func(rt *rapid.T) {
		d, err := editor.FromBytes("header.toml", text, none)
		if err != nil {
			rt.Fatal(err)
		}
		now := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
		o := options(draw.Mono)
		o.Clock, o.Pause = func() time.Time { return now }, time.Second
		g := &rig{t, New(d, o)}
		defer g.r.Close()
		tuitest.Start(t, g.r, 80, 24)
		type typed struct {
			key   string
			pause bool
		}
		one := rapid.Custom(func(rt *rapid.T) typed {
			return typed{rapid.OneOf(rapid.SampledFrom(often), rapid.SampledFrom(walkable())).Draw(rt, "key"), rapid.IntRange(0, 3).Draw(rt, "pause") == 0}
		})
		begin := rapid.SampledFrom(slices.DeleteFunc(slices.Clone(states), func(s string) bool { return s == "a" || s == "/" })).Draw(rt, "state")
		for _, k := range strings.Fields(begin) {
			now = now.Add(time.Minute)
			g.press(k)
		}
		ahead := false // something opened or closed, and nobody can have seen it
		for _, k := range rapid.SliceOfN(one, 1, most).Draw(rt, "keys") {
			if k.pause {
				now, ahead = now.Add(2*time.Second), false
			}
			before, was, open, screen := g.r.place(), g.r.Document().Now(), g.r.over(), g.screen()
			row := keys.Find(keys.Key(k.key), g.r.tables()...)
			if k.key == keys.Esc {
				g.esc()
			} else {
				g.press(k.key)
			}
			if g.r.Document().Now() != was {
				switch {
				case row == nil:
					rt.Fatalf("%s is in no table and changed the document of\n%s", k.key, screen)
				case open == nil && !row.Edits:
					rt.Fatalf("%s is not said to change the document, and did:\n%s", k.key, screen)
				case open == nil && ahead:
					rt.Fatalf("%s, typed ahead for what was there before, changed the document:\n%s", k.key, screen)
				}
			}
			ahead = ahead || g.r.place() != before
		}
	})
}

// Undo, the next finding, its fix, saving, job data, the pages and a ply by its
// number are reached from a number pad alone, on every page, and a key that
// cannot act says why there too.
func TestPad_reachesWhatHasALetter(t *testing.T) {
	g := header(t, 80, 24).press("9 / 1").wants(headerPlies).shows("undid")
	g.press("/ 3").shows("u undoes it").press("/ 4").shows("saved ").press("/ 2").shows("finding ")
	g.press("/ 7").shows("PAGES").press("5").shows("LAY-UP").press("/").shows("BY DIGIT").esc()
	g.press("/").shows("1 undo the last recorded ply", "not on this page", "4 save").esc()
	g.press("tab 1 / 8 2 enter").shows("at plies 2-3")
}
