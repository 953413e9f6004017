package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

// by has somebody else change the document's file.
func (g *rig) by(mark string) string {
	g.t.Helper()
	path := g.r.Document().Path()
	text, err := os.ReadFile(path)
	if err == nil {
		err = os.WriteFile(path, append(text, "# "+mark+"\n"...), 0o600)
	}
	if err != nil {
		g.t.Fatal(err)
	}
	return path
}

func contains(t *testing.T, path, text string) bool {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return strings.Contains(string(b), text)
}

// typed types a name in the place of the one that save as proposes.
func (g *rig) typed(name string) *rig {
	g.t.Helper()
	g.press("a end ctrl+u")
	tuitest.Press(g.t, g.r, name)
	return g.press("enter")
}

func TestSaveAs_toTheSameNameAsksLikeSave(t *testing.T) {
	for name, saveAs := range map[string]func(g *rig){
		"Enter on the name proposed": func(g *rig) { g.press("a enter") },
		"its name typed":             func(g *rig) { g.typed("header") },
		"a link to it": func(g *rig) {
			if err := os.Symlink("header.toml", filepath.Join(g.r.o.Folder, "link.toml")); err != nil {
				t.Fatal(err)
			}
			g.typed("link")
		},
	} {
		t.Run(name, func(t *testing.T) {
			g := header(t, 80, 24).press("9")
			path := g.by("somebody")
			saveAs(g)
			g.shows("was changed on disk", "1 save under another name")
			if !contains(t, path, "# somebody") {
				t.Fatal("what somebody else saved is gone, unasked")
			}
			// What changes once more before the answer is not what it was about.
			g.by("a third")
			g.press("2 x").shows("was changed on disk")
			if !contains(t, path, "# a third") {
				t.Fatal("what a third saved is gone, unasked")
			}
			g.press("2 x").shows("saved ")
			if contains(t, path, "# somebody") || !contains(t, path, "topcoat") {
				t.Error("not replaced when asked")
			}
		})
	}
}

func TestSave_ofARemovedFileAsksItsOwnQuestion(t *testing.T) {
	g := header(t, 80, 24).press("9")
	path := g.r.Document().Path()
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	tuitest.Send(t, g.r, watchMsg{})
	g.shows("removed from disk")
	g.press("s").shows("was removed from disk", "save it under its name again").hides("read the file again")
	if _, err := os.Stat(path); err == nil {
		t.Fatal("it is back before the answer")
	}
	g.press("1").shows("saved ")
	if !contains(t, path, "topcoat") {
		t.Error("it is not saved")
	}
}

func TestReadOnly_endsWhenTheOtherProgramIsGone(t *testing.T) {
	g := header(t, 80, 24)
	d, err := editor.Open(g.r.Document().Path(), none)
	if err != nil {
		t.Fatal(err)
	}
	second := run(t, d, draw.Mono, 80, 24)
	second.press("9 s").shows("SAVE AS", "Here is read only", "open in another program").press("enter").shows("another name is needed").esc()
	if err := g.r.Document().Close(); err != nil {
		t.Fatal(err)
	}
	tuitest.Send(t, second.r, watchMsg{})
	second.hides("read only").shows("can be saved now")
	second.press("s").shows("saved ")

	// Without the watch: the key itself looks.
	third := header(t, 80, 24)
	d, err = editor.Open(third.r.Document().Path(), none)
	if err != nil {
		t.Fatal(err)
	}
	fourth := run(t, d, draw.Mono, 80, 24)
	third.press("9 s").shows("saved ")
	if err := third.r.Document().Close(); err != nil {
		t.Fatal(err)
	}
	fourth.press("3 s").shows("was changed on disk")
}

func TestSaveAs_names(t *testing.T) {
	for _, c := range []struct{ typed, want, says string }{
		{"other", "other.toml", ""},
		{"other.toml", "other.toml", ""},
		{"x.TOML", "x.toml", ""},
		{"x.y", "x.y.toml", ""},
		{"x.toml.toml", "x.toml", ""},
		{"sub/x", "sub/x.toml", ""},
		{"sub/", "", "sub/ is a folder: a file name is needed"},
		{"sub", "", "sub is a folder: a file name is needed"},
		{"new/", "", "new/ is a folder: a file name is needed"},
		{".", "", "is a folder"},
		{"..", "", "is a folder"},
		{"/", "", "is a folder"},
		{".toml", "", "a name is needed before .toml"},
		{"sub/.toml", "", "a name is needed before .toml"},
	} {
		t.Run(c.typed, func(t *testing.T) {
			g := header(t, 80, 24)
			dir := g.r.o.Folder
			t.Chdir(dir)
			if err := os.Mkdir(filepath.Join(dir, "sub"), 0o700); err != nil {
				t.Fatal(err)
			}
			g.press("9").typed(c.typed)
			if c.says != "" {
				g.shows(c.says)
			} else {
				g.shows("saved ")
			}
			var made []string
			for _, pattern := range []string{"*", ".*", "sub/*", "sub/.*"} {
				found, _ := filepath.Glob(filepath.Join(dir, pattern))
				for _, path := range found {
					if name, _ := filepath.Rel(dir, path); name != "header.toml" && name != "sub" && name != "state" {
						made = append(made, name)
					}
				}
			}
			if got := strings.Join(made, " "); got != c.want {
				t.Errorf("made %q, want %q", got, c.want)
			}
		})
	}
	t.Run("spelled otherwise on disk", func(t *testing.T) {
		g := header(t, 80, 24)
		if err := os.WriteFile(filepath.Join(g.r.o.Folder, "X.TOML"), nil, 0o600); err != nil {
			t.Fatal(err)
		}
		g.typed("X.TOML").shows("X.TOML", "already.", "replace it")
	})
}

func TestSaveAs_typingGoesIntoTheNameNotBehindItsEnding(t *testing.T) {
	g := header(t, 80, 24).press("a right")
	tuitest.Press(t, g.r, "-2")
	g.press("enter").shows("saved ")
	if path := g.r.Document().Path(); filepath.Base(path) != "header-2.toml" {
		t.Errorf("saved as %s", path)
	}
	// What is typed first replaces the name that was proposed, and not its ending.
	g.press("a")
	tuitest.Press(t, g.r, "sump")
	g.press("enter").shows("saved ")
	if path := g.r.Document().Path(); filepath.Base(path) != "sump.toml" {
		t.Errorf("saved as %s", path)
	}
}

// left ends a program with unsaved work.
func (g *rig) left() {
	g.t.Helper()
	tuitest.Send(g.t, g.r, keepMsg{})
	if err := g.r.Document().Close(); err != nil {
		g.t.Fatal(err)
	}
}

func TestRecovery_ofWhatIsOlderThanTheFileSaysSoAndEnterLeavesIt(t *testing.T) {
	g := header(t, 80, 24).press("9")
	path := g.r.Document().Path()
	g.left()
	again := func() *rig {
		d, err := editor.Open(path, none)
		if err != nil {
			t.Fatal(err)
		}
		return run(t, d, draw.Mono, 80, 24)
	}
	// Left at the question, edited, saved, started once more.
	second := again().shows("take them up").hides("saved since")
	second.esc().press("3 s").shows("saved ")
	if err := second.r.Document().Close(); err != nil {
		t.Fatal(err)
	}
	third := again().shows("The file was saved since", "take them up").press("enter").hides("dropped")
	if third.wants(headerPlies + " mat-1.5"); third.r.Document().Dirty() {
		t.Error("Enter took up what is older than the file")
	}
	if err := third.r.Document().Close(); err != nil {
		t.Fatal(err)
	}
	again().press("2").shows("The file was saved since").press("enter").shows("Enter drops nothing").press("x").shows("dropped")
}

func TestRecovery_ofNewDocumentsGoesByTheirNames(t *testing.T) {
	dir := state(t)
	begin := func(name string) *rig {
		if strings.HasSuffix(name, ".toml") {
			name = filepath.Join(dir, name)
		}
		d, err := editor.FromBytes(name, []byte(empty), none)
		if err != nil {
			t.Fatal(err)
		}
		return run(t, d, draw.Mono, 120, 24)
	}
	begin("first.toml").press("1").left()
	begin("second.toml").press("2").left()
	begin("third.toml").hides("UNSAVED WORK")
	second := begin("second.toml").shows("UNSAVED WORK", "second.toml", "which was never saved", "take it up").press("enter").wants("veil-polyester-15")
	second.press("s").shows("saved ", "second.toml")

	// A start without a name finds what is left of any, under its own.
	nameless := begin("example").shows("UNSAVED WORK", "first.toml", "Vent stack", "never saved", "open it").press("enter").wants("veil-c-15")
	nameless.press("s").shows("saved ", "first.toml")
	if !contains(t, filepath.Join(dir, "first.toml"), "veil-c-15") {
		t.Error("the first is not in its own file")
	}
	if _, err := os.Stat(filepath.Join(dir, "third.toml")); err == nil {
		t.Error("something was written under a name that is not its own")
	}
}

func TestTitle_saysThatWorkIsNotKeptAsLongAsItIsSo(t *testing.T) {
	g := header(t, 80, 24)
	kept := os.Getenv("XDG_STATE_HOME")
	file := filepath.Join(g.r.o.Folder, "full")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	t.Setenv("XDG_STATE_HOME", file) // cannot hold a folder, not even for root
	title := func() string { line, _, _ := strings.Cut(g.screen(), "\n"); return line }
	for range 3 {
		g.press("9 u 3 5")
		tuitest.Send(t, g.r, keepMsg{})
		if !strings.Contains(title(), notKept) {
			t.Errorf("the title is %q", title())
		}
	}
	// The watch tries again, without an edit.
	t.Setenv("XDG_STATE_HOME", kept)
	tuitest.Send(t, g.r, watchMsg{}, keepMsg{})
	if strings.Contains(title(), notKept) || !strings.Contains(title(), "not saved") {
		t.Errorf("kept again, the title is %q", title())
	}
	// A save ends it too: then nothing is unsaved.
	g = header(t, 80, 24)
	t.Setenv("XDG_STATE_HOME", file)
	g.press("3")
	tuitest.Send(t, g.r, keepMsg{})
	if !strings.Contains(title(), notKept) {
		t.Errorf("the title is %q", title())
	}
	g.press("s")
	if strings.Contains(title(), notKept) {
		t.Errorf("saved, the title is %q", title())
	}
}
