package editor_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalogue"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/store"
)

const document = `# Scrubber drain, as the shop writes it.
document = "schedule"
format   = 1
title    = "Drain header"     # short
units    = "us"

[part]
form    = "pipe"
process = "contact"

[[resin]]
id     = "liner"
family = "novolac-vinyl-ester"

[[resin]]
id     = "wall"
family = "vinyl-ester"

# the barrier
[[ply]]
material = "veil-c-15"
resin    = "liner"

[[ply]]
material  = "mat-1.5"   # two, rolled one by one
resin     = "liner"
count     = 2
gel_after = true

# the wall
[[ply]]
material = "mat-1.5"
resin    = "wall"

[[ply]]
material = "woven-24"
resin    = "wall"
`

func options() editor.Options {
	return editor.Options{Judge: func(s *laminate.Schedule, l *laminate.Library, u quantity.System) *rules.Report {
		return &rules.Report{Schedule: s, Analysis: laminate.Analyse(s, l)}
	}}
}

// home gives the test a state folder of its own.
func home(t *testing.T) {
	t.Helper()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
}

func write(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func read(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func open(t *testing.T, path string) *editor.Document {
	t.Helper()
	d, err := editor.Open(path, options())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return d
}

func onDisk(t *testing.T) (*editor.Document, string) {
	t.Helper()
	home(t)
	path := write(t, filepath.Join(t.TempDir(), "drain.toml"), document)
	return open(t, path), path
}

func do(t *testing.T, d *editor.Document, e edit.Edit) {
	t.Helper()
	if err := d.Apply(e); err != nil {
		t.Fatalf("%s: %v", e.Label, err)
	}
}

func layMat(d *editor.Document) edit.Edit {
	return edit.LayPly(d.Now(), d.Library(), len(d.Now().Plies)-1, "mat-1.5")
}

func TestOpen_showsTheFileAsItIs(t *testing.T) {
	d, path := onDisk(t)
	if d.Path() != path || d.Name() != "drain.toml" || d.Dirty() || string(d.Bytes()) != document || d.Units() != quantity.US {
		t.Errorf("path %q, name %q, dirty %v", d.Path(), d.Name(), d.Dirty())
	}
	if locked, why := d.ReadOnly(); locked {
		t.Errorf("read-only: %s", why)
	}
	if line := d.Line(laminate.PlyRef(1, "count")); line != 27 {
		t.Errorf("count of the second ply in line %d", line)
	}
}

func TestOpen_tellsProblemsAndMissingFiles(t *testing.T) {
	home(t)
	dir := t.TempDir()
	_, err := editor.Open(write(t, filepath.Join(dir, "bad.toml"), strings.Replace(document, "count     = 2", "cuont = 2", 1)), options())
	var problems *editor.ProblemsError
	if !errors.As(err, &problems) || len(problems.Problems) != 1 || problems.Problems[0].Line != 27 || !strings.Contains(err.Error(), "cuont") {
		t.Errorf("a typo: %v", err)
	}
	if _, err := editor.Open(filepath.Join(dir, "none.toml"), options()); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a missing file: %v", err)
	}
	if _, err := editor.FromBytes("standard input", []byte("\x00"), options()); !errors.As(err, &problems) || problems.Path != "standard input" {
		t.Errorf("rubbish: %v", err)
	}
}

func TestApply_andUndo(t *testing.T) {
	d, _ := onDisk(t)
	start := d.Revision()
	do(t, d, layMat(d))
	if !d.Dirty() || len(d.Now().Plies) != 5 || d.Revision() == start || !d.CanUndo() || d.CanRedo() {
		t.Fatalf("after an edit: dirty %v, %d rows", d.Dirty(), len(d.Now().Plies))
	}
	label, at, ok := d.Undo()
	if !ok || label != "laid ply 6 mat-1.5" || at != laminate.PlyRef(3, "") {
		t.Errorf("undone %q at %+v", label, at)
	}
	if d.Dirty() || string(d.Bytes()) != document || d.Revision() != start+2 {
		t.Errorf("undone: dirty %v, revision %d from %d", d.Dirty(), d.Revision(), start)
	}
	if label, at, ok := d.Redo(); !ok || label != "laid ply 6 mat-1.5" || at.Index != 4 || !d.Dirty() {
		t.Errorf("redone %q at %+v", label, at)
	}
	if _, _, ok := d.Redo(); ok {
		t.Error("redone once more than undone")
	}
}

func TestApply_thatIsRefusedOrChangesNothingLeavesNoTrace(t *testing.T) {
	d, _ := onDisk(t)
	rev := d.Revision()
	if err := d.Apply(edit.Remove(d.Now(), d.Library(), 9)); err == nil {
		t.Error("removed a row that is not there")
	}
	do(t, d, edit.SetCount(d.Now(), d.Library(), 1, 2))
	if err := d.Apply(edit.Edit{}); err == nil {
		t.Error("an edit without a deed was made")
	}
	if d.Revision() != rev || d.CanUndo() {
		t.Errorf("revision %d from %d, undo %v", d.Revision(), rev, d.CanUndo())
	}
}

func TestApply_joinsEditsOfOneMergeKey(t *testing.T) {
	d, _ := onDisk(t)
	title := func(s string) edit.Edit {
		e := edit.SetHeader("title", "title "+s, func(n *laminate.Schedule) { n.Title = s })
		e.Merge = "title"
		return e
	}
	do(t, d, layMat(d))
	for _, s := range []string{"D", "Du", "Duct"} {
		do(t, d, title(s))
	}
	d.Undo()
	if d.Now().Title != "Drain header" || len(d.Now().Plies) != 5 {
		t.Errorf("one undo leaves %q and %d rows", d.Now().Title, len(d.Now().Plies))
	}
	d.Redo()
	if d.Now().Title != "Duct" {
		t.Errorf("redone %q", d.Now().Title)
	}
	do(t, d, title("Duct 2"))
	do(t, d, title("Drain header"))
	if d.Undo(); d.Now().Title != "Duct" {
		t.Errorf("an edit after a redo was joined to what it redid: %q", d.Now().Title)
	}
}

func TestUnits_areAViewUntilAnEditWritesThem(t *testing.T) {
	d, _ := onDisk(t)
	us := d.Report()
	if d.Report() != us {
		t.Error("a report was made twice for one revision")
	}
	d.SetUnits(quantity.Metric)
	if d.Dirty() || d.Units() != quantity.Metric || d.Report() == us {
		t.Error("units of the view: dirty, or the report is the old one")
	}
	d.SetUnits(quantity.US)
	do(t, d, edit.SetHeader("units", "units si", func(s *laminate.Schedule) { s.Units = quantity.Metric }))
	if d.Units() != quantity.Metric || !strings.Contains(string(d.Bytes()), `units    = "si"`) {
		t.Errorf("units %v", d.Units())
	}
}

func TestPreview_judgesWithoutApplying(t *testing.T) {
	d, _ := onDisk(t)
	r, err := d.Preview(layMat(d))
	if err != nil || len(r.Schedule.Plies) != 5 || len(d.Now().Plies) != 4 || d.CanUndo() {
		t.Errorf("preview: %v", err)
	}
	if _, err := d.Preview(edit.Remove(d.Now(), d.Library(), 9)); err == nil {
		t.Error("a preview of what cannot be")
	}
}

func TestSave_writesWhatChangedAndNothingElse(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, edit.SetCount(d.Now(), d.Library(), 3, 2))
	if err := d.Save(); err != nil {
		t.Fatal(err)
	}
	want := strings.TrimSuffix(document, "\n") + "\ncount    = 2\n"
	if got := read(t, path); got != want || d.Dirty() {
		t.Errorf("dirty %v, saved\n%s", d.Dirty(), got)
	}
	// What is saved is what counts, wherever in the history it is.
	d.Undo()
	if !d.Dirty() {
		t.Error("undone past the save, yet clean")
	}
	if err := d.Save(); err != nil || read(t, path) != document {
		t.Errorf("saved again: %v", err)
	}
	if d.Redo(); !d.Dirty() || string(d.Bytes()) != want {
		t.Error("redone after the save")
	}
}

func TestSave_refusesOverAChangedFile(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	write(t, path, document+"# by somebody else\n")
	if changed, err := d.ChangedOnDisk(); !changed || err != nil {
		t.Errorf("changed on disk: %v, %v", changed, err)
	}
	var conflict *editor.ConflictError
	if err := d.Save(); !errors.As(err, &conflict) || !d.Dirty() {
		t.Fatalf("saved over another's work: %v", err)
	}
	if !strings.HasSuffix(read(t, path), "# by somebody else\n") {
		t.Error("the file was touched")
	}
	if err := d.SaveAs(path, false); !errors.As(err, &conflict) {
		t.Errorf("save as, without overwriting: %v", err)
	}
	if err := d.SaveAs(path, true); err != nil || d.Dirty() || strings.Contains(read(t, path), "somebody") {
		t.Errorf("overwritten: %v", err)
	}
	if changed, _ := d.ChangedOnDisk(); changed {
		t.Error("changed after a save")
	}
}

func TestReload_takesTheFileAndGivesUpTheRest(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	d.SetUnits(quantity.Metric)
	write(t, path, strings.Replace(document, "Drain header", "Vent", 1))
	if err := d.Reload(); err != nil {
		t.Fatal(err)
	}
	if d.Now().Title != "Vent" || d.Dirty() || d.CanUndo() || d.Units() != quantity.Metric {
		t.Errorf("title %q, dirty %v", d.Now().Title, d.Dirty())
	}
	write(t, path, "rubbish")
	var problems *editor.ProblemsError
	if err := d.Reload(); !errors.As(err, &problems) || d.Now().Title != "Vent" {
		t.Errorf("a broken file: %v", err)
	}
}

func TestSaveAs_changesFileLockAndLibrary(t *testing.T) {
	home(t)
	var asked []string
	o := options()
	o.Library = func(dir string) (*laminate.Library, error) {
		asked = append(asked, dir)
		return catalogue.Library(), nil
	}
	d, err := editor.FromBytes("example", []byte(document), o)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	if err := d.Save(); !errors.Is(err, editor.ErrNoName) {
		t.Errorf("saved nowhere: %v", err)
	}
	if d.Dirty() || d.Path() != "" || d.Name() != "example" {
		t.Errorf("an example: dirty %v, path %q, name %q", d.Dirty(), d.Path(), d.Name())
	}
	do(t, d, layMat(d))
	dir := t.TempDir()
	taken, first, second := write(t, filepath.Join(dir, "taken.toml"), "mine"), filepath.Join(dir, "first.toml"), filepath.Join(dir, "second.toml")
	var conflict *editor.ConflictError
	if err := d.SaveAs(taken, false); !errors.As(err, &conflict) || d.Path() != "" || read(t, taken) != "mine" || !d.Dirty() {
		t.Errorf("onto another file: %v", err)
	}
	if err := d.SaveAs(filepath.Join(dir, "no", "such", "folder.toml"), false); err == nil || d.Path() != "" {
		t.Errorf("into no folder: %v", err)
	}
	library := d.Library()
	if err := d.SaveAs(first, false); err != nil || d.Path() != first || d.Name() != "first.toml" || d.Dirty() {
		t.Fatalf("saved as: %v", err)
	}
	if d.Library() == library || asked[len(asked)-1] != dir {
		t.Errorf("the library is still that of %q", asked)
	}
	var locked *store.LockedError
	if _, err := store.TryLock(first); !errors.As(err, &locked) {
		t.Errorf("the new file is not locked: %v", err)
	}
	if err := d.SaveAs(second, false); err != nil {
		t.Fatal(err)
	}
	lock, err := store.TryLock(first)
	if err != nil {
		t.Errorf("the old file is still locked: %v", err)
	}
	lock.Unlock()
	if read(t, first) != read(t, second) {
		t.Error("the copies differ")
	}
}

func TestOpen_secondDocumentOfAFileCannotSaveIt(t *testing.T) {
	d, path := onDisk(t)
	other := open(t, path)
	if only, why := other.ReadOnly(); !only || !strings.Contains(why, "open in another program") {
		t.Errorf("the second is read-only: %v, %q", only, why)
	}
	do(t, other, layMat(other))
	var locked *store.LockedError
	if err := other.Save(); !errors.As(err, &locked) || read(t, path) != document {
		t.Errorf("saved beside the first: %v", err)
	}
	if err := other.SaveAs(path, true); !errors.As(err, &locked) {
		t.Errorf("overwritten beside the first: %v", err)
	}
	do(t, d, edit.Remove(d.Now(), d.Library(), 3))
	if err := d.Save(); err != nil {
		t.Fatal(err)
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	var conflict *editor.ConflictError
	if err := other.Save(); !errors.As(err, &conflict) {
		t.Errorf("saved over what the first saved: %v", err)
	}
	if only, _ := other.ReadOnly(); only {
		t.Error("still read-only after the first is closed")
	}
}

func TestSave_inAReadOnlyFolderFailsAndLosesNothing(t *testing.T) {
	home(t)
	dir := t.TempDir()
	path := write(t, filepath.Join(dir, "drain.toml"), document)
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(dir, 0o755) })
	d := open(t, path)
	if only, why := d.ReadOnly(); !only || why == "" {
		t.Error("not read-only")
	}
	do(t, d, layMat(d))
	if err := d.Save(); err == nil || !d.Dirty() || len(d.Now().Plies) != 5 {
		t.Errorf("saved into a read-only folder: %v", err)
	}
	if err := d.Journal(); err != nil {
		t.Errorf("journal: %v", err)
	}
	elsewhere := filepath.Join(t.TempDir(), "copy.toml")
	if err := d.SaveAs(elsewhere, false); err != nil || d.Dirty() {
		t.Errorf("saved elsewhere: %v", err)
	}
	if only, why := d.ReadOnly(); only {
		t.Errorf("the copy is read-only: %s", why)
	}
}

func TestLine_followsTheTextThatASaveWrites(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, edit.LayPly(d.Now(), d.Library(), 0, "veil-c-10"))
	for _, when := range []string{"before the save", "after it"} {
		line := d.Line(laminate.PlyRef(3, "material"))
		lines := strings.Split(string(d.Bytes()), "\n")
		if line < 2 || line > len(lines) || lines[line-1] != `material = "mat-1.5"` || lines[line-2] != "[[ply]]" {
			t.Errorf("%s: line %d of\n%s", when, line, d.Bytes())
		}
		if err := d.Save(); err != nil || read(t, path) != string(d.Bytes()) {
			t.Fatal(err)
		}
		d.Undo()
		d.Redo()
	}
	if line := d.Line(laminate.PlyRef(99, "")); line != 0 {
		t.Errorf("a ply that is not there is in line %d", line)
	}
}

// A document left by Close without Discard is what a killed program leaves.
func TestJournal_isFoundByTheNextStart(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	if err := d.Journal(); err != nil {
		t.Fatal(err)
	}
	unsaved := string(d.Bytes())
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	next := open(t, path)
	found, when := next.Pending()
	if !found || when.IsZero() || next.Dirty() {
		t.Fatalf("pending %v of %v", found, when)
	}
	if err := next.TakeRecovered(); err != nil {
		t.Fatal(err)
	}
	if string(next.Bytes()) != unsaved || !next.Dirty() {
		t.Errorf("recovered\n%s", next.Bytes())
	}
	if found, _ := next.Pending(); found {
		t.Error("still pending")
	}
	if err := next.Save(); err != nil || read(t, path) != unsaved || next.Dirty() {
		t.Errorf("saved: %v", err)
	}
	left, err := store.Pending()
	if len(left) != 0 || err != nil {
		t.Errorf("left behind: %d, %v", len(left), err)
	}
}

func TestJournal_ofAFileThatChangedSinceIsAConflictOnSave(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	d.Close()
	write(t, path, document+"# later\n")
	next := open(t, path)
	if err := next.TakeRecovered(); err != nil {
		t.Fatal(err)
	}
	var conflict *editor.ConflictError
	if err := next.Save(); !errors.As(err, &conflict) || !strings.HasSuffix(read(t, path), "# later\n") {
		t.Errorf("saved over: %v", err)
	}
	next.Discard()
}

func TestJournal_isGoneWhenNothingIsUnsaved(t *testing.T) {
	for name, end := range map[string]func(*editor.Document) error{
		"saved":     (*editor.Document).Save,
		"undone":    func(d *editor.Document) error { d.Undo(); return d.Journal() },
		"discarded": (*editor.Document).Discard,
		"reloaded":  (*editor.Document).Reload,
	} {
		t.Run(name, func(t *testing.T) {
			d, _ := onDisk(t)
			do(t, d, layMat(d))
			if err := d.Journal(); err != nil {
				t.Fatal(err)
			}
			if err := end(d); err != nil {
				t.Fatal(err)
			}
			if err := d.Close(); err != nil {
				t.Fatal(err)
			}
			if left, err := store.Pending(); len(left) != 0 || err != nil {
				t.Errorf("left behind: %d, %v", len(left), err)
			}
		})
	}
}

func TestDropRecovered_removesItForGood(t *testing.T) {
	d, path := onDisk(t)
	do(t, d, layMat(d))
	d.Close()
	next := open(t, path)
	if err := next.DropRecovered(); err != nil {
		t.Fatal(err)
	}
	if found, _ := next.Pending(); found || next.TakeRecovered() == nil {
		t.Error("still there")
	}
	if left, _ := store.Pending(); len(left) != 0 {
		t.Errorf("left behind: %d", len(left))
	}
}

func TestRecover_opensWorkWithAndWithoutAFile(t *testing.T) {
	home(t)
	path := write(t, filepath.Join(t.TempDir(), "drain.toml"), document)
	gone := write(t, filepath.Join(t.TempDir(), "gone.toml"), document)
	nameless, err := editor.FromBytes("new schedule", []byte(document), options())
	if err != nil {
		t.Fatal(err)
	}
	var want string
	for _, d := range []*editor.Document{nameless, open(t, path), open(t, gone)} {
		do(t, d, layMat(d))
		want = string(d.Bytes())
		if err := d.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(gone); err != nil {
		t.Fatal(err)
	}
	left, err := store.Pending()
	if err != nil || len(left) != 3 {
		t.Fatalf("%d left behind, %v", len(left), err)
	}
	paths := map[string]bool{}
	for _, u := range left {
		d, err := editor.Recover(u, options())
		if err != nil {
			t.Fatal(err)
		}
		paths[d.Path()] = true
		if !d.Dirty() || string(d.Bytes()) != want {
			t.Errorf("%s: dirty %v", d.Name(), d.Dirty())
		}
		var conflict *editor.ConflictError
		err = d.Save()
		if d.Path() == path && err != nil || d.Path() == "" && !errors.Is(err, editor.ErrNoName) || d.Path() == gone && !errors.As(err, &conflict) {
			t.Errorf("saving %q: %v", d.Path(), err)
		}
		if err := errors.Join(d.Discard(), d.Close()); err != nil {
			t.Error(err)
		}
	}
	if !paths[""] || !paths[path] || !paths[gone] {
		t.Errorf("recovered %v", paths)
	}
	if left, err := store.Pending(); err != nil || len(left) != 0 {
		t.Errorf("%d still left behind, %v", len(left), err)
	}
}
