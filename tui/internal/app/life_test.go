package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page/bench"
	"frp/veilwright/tui/internal/tuitest"
)

func TestQuit_asksWhereSomethingIsNotSaved(t *testing.T) {
	g := header(t, 80, 24).press("q")
	if !g.r.End().Quit {
		t.Error("with nothing to save q does not quit")
	}
	g = header(t, 80, 24).press("9 q").shows("has changes that are not saved")
	if g.r.End().Quit {
		t.Fatal("it quits without asking")
	}
	g.esc().shows("topcoat")
	g.press("q 2 enter").shows("Enter drops nothing")
	if g.r.End().Quit {
		t.Fatal("a digit and Enter drop the changes")
	}
	g.press("x")
	if !g.r.End().Quit || g.r.Document().Dirty() && g.r.View() != "" {
		t.Error("dropping the changes does not quit")
	}
	if err := g.r.Document().Close(); err != nil {
		t.Error(err)
	}
	d, err := editor.Open(g.r.Document().Path(), none)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	if d.Pending() != nil {
		t.Error("dropped changes are offered again")
	}
}

func TestQuit_saves(t *testing.T) {
	g := header(t, 80, 24).press("9 q 1")
	text, err := os.ReadFile(g.r.Document().Path())
	if err != nil {
		t.Fatal(err)
	}
	if !g.r.End().Quit || !strings.Contains(string(text), "topcoat") {
		t.Errorf("quit %v, the file is\n%s", g.r.End().Quit, text)
	}
}

func TestSave_asksANameOnce(t *testing.T) {
	g := fresh(t, empty, 80, 24)
	g.r.o.Folder = t.TempDir()
	g.press("1 3 s").shows("Save under which name?", "▸ file vent-stack.toml_")
	g.press("enter").shows("saved ")
	path := filepath.Join(g.r.o.Folder, "vent-stack.toml")
	if _, err := os.Stat(path); err != nil {
		t.Fatal(err)
	}
	g.press("3 s").shows("saved ")
	text, _ := os.ReadFile(path)
	if strings.Count(string(text), "mat-1.5") != 2 {
		t.Errorf("the second save wrote\n%s", text)
	}
	g.press("a").shows("vent-stack")
	tuitest.Send(t, g.r, tuitest.Paste("-copy"))
	g.press("enter").shows("-copy.toml")
}

func TestSaveAs_replacesNothingUnasked(t *testing.T) {
	g := header(t, 80, 24)
	other := filepath.Join(g.r.o.Folder, "other.toml")
	if err := os.WriteFile(other, []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	g.press("a ctrl+u")
	tuitest.Press(t, g.r, "other")
	g.press("enter").shows("already")
	if text, _ := os.ReadFile(other); string(text) != "x" {
		t.Fatal("it was replaced unasked")
	}
	g.press("1 x").shows("saved ")
	if text, _ := os.ReadFile(other); !strings.Contains(string(text), "Scrubber") {
		t.Error("it was not replaced when asked")
	}
}

func TestSave_asksWhereTheFileChanged(t *testing.T) {
	g := header(t, 80, 24).press("9")
	path := g.r.Document().Path()
	text, _ := os.ReadFile(path)
	if err := os.WriteFile(path, append(text, []byte("# somebody\n")...), 0o600); err != nil {
		t.Fatal(err)
	}
	tuitest.Send(t, g.r, watchMsg{})
	g.shows("changed on disk by somebody else")
	g.press("s").shows("was changed on disk", "save under another name")
	g.press("3").shows("CHANGED ON DISK").press("x").wants(headerPlies).shows("again")
	g.press("9 s").shows("saved ")
	if text, _ := os.ReadFile(path); !strings.Contains(string(text), "# somebody") {
		t.Error("what somebody else wrote is gone")
	}
}

func TestRecovery_isOfferedAndTakenUpByEnter(t *testing.T) {
	g := header(t, 80, 24).press("9")
	tuitest.Send(t, g.r, keepMsg{})
	path := g.r.Document().Path()
	// The program goes without saving: its lock is given back, the journal stays.
	tuitest.Send(t, g.r, EndMsg{Signal: "hangup"})
	if g.r.End().Signal != "hangup" || g.r.End().Journal != nil {
		t.Fatalf("it ends as %+v", g.r.End())
	}
	if err := g.r.Document().Close(); err != nil {
		t.Fatal(err)
	}
	d, err := editor.Open(path, none)
	if err != nil {
		t.Fatal(err)
	}
	again := run(t, d, draw.Mono, 80, 24)
	again.shows("left changes", "take them up").press("enter").wants(headerPlies + " topcoat").shows("not saved")
	again.press("s").shows("saved ")
}

// broken is a page that fails where it is told to.
type broken struct {
	*bench.Bench
	press, draw bool
}

func (b *broken) Table() keys.Table {
	if b.press {
		panic("press")
	}
	return b.Bench.Table()
}

func (b *broken) Lines() []string {
	if b.draw {
		panic("draw")
	}
	return b.Bench.Lines()
}

func TestCrash_keepsUnsavedWorkAndEnds(t *testing.T) {
	for _, where := range []string{"update", "view", "command"} {
		t.Run(where, func(t *testing.T) {
			g := header(t, 80, 24).press("9")
			quits := 0
			g.r.o.Quit = func() { quits++ }
			b := &broken{Bench: g.r.pages[0].(*bench.Bench)}
			g.r.pages[0] = b
			switch where {
			case "update":
				b.press = true
				_, cmd := g.r.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("3")})
				if _, ok := cmd().(tea.QuitMsg); !ok {
					t.Error("it does not quit")
				}
			case "view":
				b.draw = true
				g.r.stale = true
				g.r.View()
				if quits != 1 {
					t.Error("it does not quit")
				}
			case "command":
				tuitest.Drain(t, g.r, guard(func() tea.Msg { panic("command") }))
			}
			end := g.r.End()
			if end.Crash == nil || len(end.Stack) == 0 || end.Journal != nil || g.r.View() != "" {
				t.Errorf("it ends as %v %v", end.Crash, end.Journal)
			}
			path := g.r.Document().Path()
			if err := g.r.Document().Close(); err != nil {
				t.Fatal(err)
			}
			d, err := editor.Open(path, none)
			if err != nil {
				t.Fatal(err)
			}
			defer d.Close()
			if d.Pending() == nil {
				t.Error("unsaved work is lost")
			}
		})
	}
}

func TestOpen_listsVerdictsAndOpens(t *testing.T) {
	g := header(t, 80, 24)
	dir := g.r.o.Folder
	for name, text := range map[string]string{"empty.toml": empty, "broken.toml": "document = \"schedule\"\nformat = 1\ntitel = \"x\"\n", "other.toml": "x = 1\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	g.press("o").shows("empty.toml", "header.toml", "break", "unusable", "titel")
	tuitest.Press(t, g.r, "bro")
	g.press("enter").shows("broken.toml")
	g.esc().press("e m p enter").shows("Vent stack")
	if len(g.r.Document().Now().Plies) != 0 {
		t.Error("the other document is not the one that is open")
	}
	g.press("1 o").shows("empty.toml")
	tuitest.Press(t, g.r, "header")
	g.press("enter").shows("not saved", "save, then open").press("2 x").shows("Scrubber").wants(headerPlies)
}

func TestReadOnly_isSaidAndSavedElsewhere(t *testing.T) {
	g := header(t, 80, 24)
	d, err := editor.Open(g.r.Document().Path(), none)
	if err != nil {
		t.Fatal(err)
	}
	second := run(t, d, draw.Mono, 80, 24)
	second.shows("read only").press("9 s").shows("SAVE AS", "Here is read only")
	if said := squeezed(second.screen()); !strings.Contains(said, "open in another program") { // wherever its path breaks the line
		t.Error(said)
	}
	// On the job page too, where a adds a part.
	first := tank(t, schedules.ExampleJob(), 80, 24)
	if d, err = editor.Open(first.r.Document().Path(), none); err != nil {
		t.Fatal(err)
	}
	other := run(t, d, draw.Mono, 80, 24)
	first.at("J2").press("enter 2 + s").shows("saved ")
	tuitest.Send(t, other.r, watchMsg{})
	other.shows("JOB  Brine", "was changed on disk by somebody else: s asks what to do").press("s").shows("CHANGED ON DISK", "read only", "read the file again").press("1").shows("SAVE AS", "Here is read only")
	tuitest.Press(t, other.r, "ctrl+u", "mine", "enter")
	other.shows("saved", "JOB  Brine")
	if at := other.r.Document().Path(); filepath.Base(at) != "mine.toml" {
		t.Error(at)
	}
}

func TestFacts_everyLineIsOneChange(t *testing.T) {
	g := fresh(t, empty, 80, 40).press("j").shows("▸ contains").press("pgup pgup pgup").shows("Schedule", "Part", "Service")
	tuitest.Press(t, g.r, "Vent stack 2", "enter", "V-7", "enter")
	if s := g.r.Document().Now(); s.Title != "Vent stack 2" || s.Job != "V-7" {
		t.Errorf("title %q, job %q", s.Title, s.Job)
	}
	g.press("down down 1 down down 3 6 enter")
	p := g.r.Document().Now().Part
	if p.Form.String() != "pipe" || p.InsideDiameter.Text() != "36 in" {
		t.Errorf("part is %s, %s", p.Form, p.InsideDiameter.Text())
	}
	g.press("b a n a n a enter").shows("length")
	g.esc().esc().esc().shows("digit adds a ply")
	for g.r.Document().CanUndo() {
		g.press("u")
	}
	if g.r.Document().Dirty() {
		t.Error("undone, the document differs")
	}
}

func TestWall_whatIsNeededIsOneChange(t *testing.T) {
	text := strings.Replace(empty, "[service]", "inside_diameter = \"36 in\"\n[service]\npressure = \"30 psi\"\nvacuum = \"0 psi\"", 1)
	g := fresh(t, text, 120, 36).press("1 3 + . tab 2").shows("STRUCTURE", "minimum thickness", "what is needed of")
	g.press("2").shows("repeat", "Enter adds it")
	before := g.plies()
	g.press("enter")
	if g.plies() == before {
		t.Fatal("nothing was laid")
	}
	for _, c := range g.r.Document().Report().Wall.Criteria {
		if c.Governs && c.Answer.String() == "fails" {
			t.Errorf("%s still fails", c.Name)
		}
	}
	g.press("u").wants(before)
	g.esc().shows("PAGES").press("enter").shows("BENCH")
}

func TestSave_takesTheNameOfTheCommandLine(t *testing.T) {
	dir := state(t)
	path := filepath.Join(dir, "fresh.toml")
	d, err := editor.FromBytes(path, []byte(empty), none)
	if err != nil {
		t.Fatal(err)
	}
	g := run(t, d, draw.Mono, 80, 24)
	g.press("1 s").shows("saved ")
	if text, err := os.ReadFile(path); err != nil || !strings.Contains(string(text), "veil-c-15") {
		t.Errorf("the file is %v %s", err, text)
	}
}

func TestSaveAs_namesTheFolder(t *testing.T) {
	g := fresh(t, empty, 80, 24)
	g.r.o.Folder = ""
	g.press("a").shows("goes to this folder")
}

func TestFacts_advertiseNoKeyThatTypes(t *testing.T) {
	g := fresh(t, empty, 80, 24).shows("Tab pages").press("j").hides("Tab pages").press("pgup pgup pgup")
	tuitest.Press(t, g.r, "Stack", "enter")
	g.shows("after Esc, u undoes it")
	fresh(t, nothing(), 80, 24).press("j").shows("no resin is stated yet").press("pgdown pgdown").shows("A resin", "5 vinyl-ester", "8 brominated-novolac-vinyl-ester")
}

func TestWall_whatDoesNotApplySaysSo(t *testing.T) {
	fresh(t, strings.Replace(empty, "[service]", "inside_diameter = \"36 in\"\n[service]\npressure = \"30 psi\"\nvacuum = \"0 psi\"", 1), 120, 36).
		press("1 3 + . tab 2 end").shows("does not apply", "2 mat-and-woven", "Esc pages").
		press("home").shows("required ", ", actual ")
}

func TestTotals_keepTheWhole(t *testing.T) {
	header(t, 60, 16).shows("total 314").press("* 3").shows("total 314→427 mil")
	header(t, 60, 16).press("0").shows("total 314→324 mil")
}
