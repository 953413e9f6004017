package app

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/settings"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

// started is the program as it begins where no document is named.
func started(t *testing.T, w, h int) *rig {
	t.Helper()
	d, err := editor.FromBytes("new schedule", schedules.Blank(""), none)
	if err != nil {
		t.Fatal(err)
	}
	o := options(draw.Mono)
	kept, err := settings.Load()
	if err != nil {
		t.Fatal(err)
	}
	o.Start, o.Keep, o.Units, o.Folder = true, true, kept.Units, t.TempDir()
	r := New(d, o)
	t.Cleanup(func() { _ = r.Close() })
	tuitest.Start(t, r, w, h)
	return &rig{t, r}
}

// From a bare start to a schedule without a break, facts included, in fewer than
// 25 keys, all of them on a number pad.
func TestStart_fromNothingToAWallWithoutABreak(t *testing.T) {
	state(t)
	typed := "1 enter 0 enter 1 2 0 enter 7 enter enter 5 0 enter 0 enter 2 4 enter 2 0 enter 2 enter enter"
	if n := len(strings.Fields(typed)); n > 25 {
		t.Errorf("%d keys", n)
	}
	g := started(t, 80, 24).shows("START", "New wall", "1 pipe", "0 open a file").press(typed)
	for _, f := range g.r.Document().Report().Findings {
		if f.Severity >= rules.Break {
			t.Errorf("%s: %s", f.Rule.ID, f.Message)
		}
	}
	if len(g.r.Document().Now().Plies) == 0 {
		t.Error("nothing is laid")
	}
	g.shows("BENCH", "u undoes it").press("u").wants("")
	// Skipped facts are not stated.
	if s := g.r.Document().Now().Service; s.Fluid != "" || s.Concentration.Given || !s.Contains.Given {
		t.Errorf("%+v", s)
	}
}

// Practice is where the start page says it is, from a bare start and back there again.
func TestStart_plusIsPractice(t *testing.T) {
	state(t)
	g := started(t, 80, 24).press("+").shows("PRACTICE").hides("JOB")
	g.press("h").shows("START").press("p").shows("PRACTICE")
}

// Unsaved work stands there by name, age and how it stands to its file; taken up,
// undo goes back to what the file says, and what differs can be read.
func TestStart_takesUpWhatWasNotSavedAndUndoGoesBackPastIt(t *testing.T) {
	dir := state(t)
	path := filepath.Join(dir, "header.toml")
	text, err := os.ReadFile("testdata/header.toml")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, text, 0o600); err != nil {
		t.Fatal(err)
	}
	d, err := editor.Open(path, none)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Apply(edit.AddPly(d.Now(), d.Library(), d.Now().NumberOfPlies()-4, "topcoat")); err != nil {
		t.Fatal(err)
	}
	if err := d.Journal(); err != nil {
		t.Fatal(err)
	}
	before := len(d.Now().Plies)
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	g := started(t, 80, 24).shows("Not saved when the program ended", "Scrubber drain header", "header.toml", "file unchanged")
	g.press("enter").shows("BENCH", "took up the unsaved work", "not saved")
	if n := len(g.r.Document().Now().Plies); n != before {
		t.Errorf("%d rows, want %d", n, before)
	}
	g.press("e").shows("WHAT DIFFERS", "the file → as it stands", "topcoat").press("enter")
	g.press("u").wants(headerPlies).shows("saved").press("y")
	if n := len(g.r.Document().Now().Plies); n != before {
		t.Errorf("redone: %d rows, want %d", n, before)
	}
	g.press("u 3 s").shows("saved ")
	if text, _ := os.ReadFile(path); strings.Count(string(text), "mat-1.5") != 4+1 {
		t.Errorf("the file is\n%s", text)
	}
}

// What was open last stands there and opens by its digit; a template begins
// something new; colors and units are kept.
func TestStart_recentTemplatesAndSettings(t *testing.T) {
	dir := state(t)
	folder := filepath.Join(dir, "config", "veilwright", "templates")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "usual duct.toml"), []byte(empty), 0o600); err != nil {
		t.Fatal(err)
	}
	g := started(t, 120, 36).shows("From the shop's templates", "6 usual duct").press("6 1 s").shows("Save under which name?", "vent-stack")
	g.press("enter").shows("saved ")
	g.press("l").shows("colors: any").press("i")
	g = started(t, 80, 24).shows("Go on", "Vent stack", "vent-stack.toml", "▸7")
	g.press("7").shows("BENCH", "Vent stack", "mm")
	g.press("h").shows("START").press(". 3").shows("BENCH").press("q").shows("NOT SAVED")
}

func TestStart_screens(t *testing.T) {
	state(t)
	tuitest.Golden(t, "start 80x24", started(t, 80, 24).screen())
	tuitest.Golden(t, "new wall 80x24", started(t, 80, 24).press("3 enter 0").screen())
	// However small the screen is, the line pointed at is on it.
	started(t, 60, 16).press("down down down").shows("▸4 panel")
}

// The list of pages says of each what somebody does there.
func TestPages_sayWhatTheyAreFor(t *testing.T) {
	g := header(t, 80, 24)
	for _, p := range g.r.pages {
		if pageSays[p.Name()] == "" {
			t.Errorf("nothing is said of the page %q", p.Name())
		}
	}
}

// A number key that was given another material adds it in every schedule from
// then on; what it added before has the other's key, so that none is lost.
func TestRack_numberKeysAreKept(t *testing.T) {
	g := header(t, 120, 36)
	g.r.o.Keep = true
	last := g.r.Document().Now().Plies[len(g.r.Document().Now().Plies)-1].Material
	before := settingsRack(g)
	key := slices.Index(before, last) + 1
	if key < 2 {
		t.Fatalf("%s has the key %d", last, key)
	}
	g.press("#").shows("Which number key adds "+last, "1 "+before[0]).press("1").shows("1 adds " + last + " from now on")
	if after := settingsRack(g); after[0] != last || after[key-1] != before[0] {
		t.Errorf("the keys add %v", after)
	}
	kept, err := settings.Load()
	if err != nil || len(strings.Fields(kept.Rack)) != 9 {
		t.Fatalf("kept %q, %v", kept.Rack, err)
	}
	d, err := editor.FromBytes("another", []byte(empty), none)
	if err != nil {
		t.Fatal(err)
	}
	o := options(draw.Mono)
	o.Rack = kept.Rack
	again := &rig{t, New(d, o)}
	t.Cleanup(func() { _ = again.r.Close() })
	tuitest.Start(t, again.r, 120, 36)
	if again.press("1"); again.r.Document().Now().Plies[0].Material != last {
		t.Errorf("in another schedule 1 adds %s", again.r.Document().Now().Plies[0].Material)
	}
}

// settingsRack is what the number keys add, as the bench shows it.
func settingsRack(g *rig) []string {
	g.t.Helper()
	var list []string
	for i := range 9 {
		for line := range strings.Lines(g.r.View()) {
			if _, after, ok := strings.Cut(line, "│ "+strconv.Itoa(i+1)+" "); ok {
				fields := strings.Fields(after)
				list = append(list, fields[1])
			}
		}
	}
	if len(list) != 9 {
		g.t.Fatalf("the rack shows %v", list)
	}
	return list
}

// What differs is offered by a key that shows it: on the job page e opens a form.
func TestStart_offersNoKeyThatDoesSomethingElseOnThePage(t *testing.T) {
	first := tank(t, schedules.ExampleJob(), 80, 24).at("J2").press("enter 2 +")
	if err := first.r.Document().Close(); err != nil {
		t.Fatal(err)
	}
	g := started(t, 80, 24).shows("Not saved when the program ended", "Brine day tank")
	g.press("enter").shows("JOB  Brine", "took up the unsaved work", "s saves it").hides("e shows")
}

// From a bare start a job of several parts is one key away: it asks what decides the
// vessel, says what it assumes of it, and p proposes the rest.
func TestStart_fromNothingToAJob(t *testing.T) {
	state(t)
	g := started(t, 80, 24).shows("START", "5 job: equipment of several parts")
	g.press("5").shows("NEW JOB", "liquid level")
	g.press("t enter w enter 1 2 0 enter 0 enter 0 enter 1 enter 8 enter 7 2 enter x enter").shows("height", "is no length").press("backspace 1 0 enter")
	g.shows("JOB", "next: p proposes its walls and joints", "u undoes it", "shell-1", "bottom", "head")
	j := g.r.Document().Job()
	if len(j.Parts) != 3 || j.Title != "t" || j.Service.Fluid != "w" || j.Service.Pressure.Text() != "0 psi" || j.Vessel.LiquidHeight.Text() != "8 ft" || j.Parts[1].Length.Text() != "10 ft" || j.Parts[2].KnuckleRadius.Text() != "4.5 in" {
		t.Errorf("%+v", j)
	}
	for _, want := range []string{"Assumed: a flat bottom that stands on its whole foundation", "Assumed: all parts laid by hand", "Assumed: a closed top, a torispherical head"} {
		if !strings.Contains(j.Notes, want) {
			t.Errorf("%q is not in %q", want, j.Notes)
		}
	}
	g.press("p").shows("WHAT IS MISSING, FILLED IN", "assumed").press("enter").shows("filled in")
	for i := range g.r.Document().Job().Parts {
		if p := &g.r.Document().Job().Parts[i]; p.Laminate == "" {
			t.Errorf("%s has no wall", p.ID)
		}
	}
	for _, f := range g.r.Document().JobReport().Findings {
		if f.Severity >= rules.Break {
			t.Errorf("%s: %s", f.Rule.ID, f.Message)
		}
	}
	// Undone it is the empty job again.
	if g.press("u u"); len(g.r.Document().Job().Parts) != 0 {
		t.Error(g.screen())
	}
	// All of it skipped is a vessel that states nothing.
	// What is typed and refused goes by itself; what was answered is there the next time.
	k := started(t, 80, 24).press("5 a b c enter x enter 9 9 x enter").esc().shows("Esc once more drops it").esc().shows("NEW JOB", "title            abc", "▸ temperature")
	k.esc().hides("NEW JOB").shows("what was typed is kept").press("h 5").shows("NEW JOB", "▸ title            abc", "fluid            x")
	// What cannot be is refused at its line, and what is typed then replaces it.
	w := started(t, 80, 24).press("5 t enter enter enter - 0 . 5 enter").shows("▸ pressure         -0.5", "below zero").press("2 enter").shows("pressure         2")
	w.press("down 0 enter").shows("▸ specific gravity 0", "specific gravity").press("1 . 1 enter").shows("▸ liquid level", "specific gravity 1.1")
	s := started(t, 80, 24).press("5 enter enter enter enter enter enter enter enter enter").shows("JOB", "next: p proposes")
	if j := s.r.Document().Job(); len(j.Parts) != 3 || j.Service.Pressure.Given() || j.Parts[2].Head != 0 || j.Vessel.LiquidHeight.Given() {
		t.Errorf("%+v", j)
	}
	s.press("p").shows("not filled in", "state pressure, vacuum")
}
